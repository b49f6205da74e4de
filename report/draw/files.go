package draw

import (
	"swardwright/report/form"
	"swardwright/sowing"
)

// Width is the width that drawings are made for when they stand alone, mm.
const Width = 166.0

// All are the drawings that a plan has something for, in the order of the report.
func All(s *sowing.Plan, f form.Form, w float64) []*Drawing {
	var out []*Drawing
	add := func(d *Drawing) {
		if d != nil {
			out = append(out, d)
		}
	}
	add(Lawn(s, f, w))
	add(SunMap(s, f, w))
	add(Light(s, f, w))
	if s.Site != nil {
		for zone := range s.Site.Zones {
			add(Matrix(s, f, zone, w))
		}
	}
	add(Mixture(s, f, w))
	add(Sward(s, f, w))
	add(Dates(s, f, w))
	add(Section(s, f, w))
	add(Cost(s, f, w))
	return out
}

// File is one drawing as a file.
type File struct {
	Name string // "plan.svg"
	SVG  []byte
}

// Files are the drawings of a plan as SVG, in the order of the report. It fails
// only on a language, unit or currency that no brief can carry.
func Files(s *sowing.Plan) ([]File, error) {
	f, err := form.New(s.Brief.Language, s.Brief.Units, s.Brief.Currency)
	if err != nil {
		return nil, err
	}
	var files []File
	for _, d := range All(s, f, Width) {
		files = append(files, File{d.Name + ".svg", d.SVG()})
	}
	return files, nil
}
