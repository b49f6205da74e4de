package draw

import (
	"swardwright/report/say"
	"swardwright/sowing"
)

// File is one drawing as a file.
type File struct {
	Name string // "plan.svg"
	SVG  []byte
}

// Files are the drawings of a plan as SVG, in the order of the report. It fails
// only on a language, unit or currency that no brief can carry.
func Files(s *sowing.Plan) ([]File, error) {
	f, err := say.For(*s)
	if err != nil {
		return nil, err
	}
	var files []File
	for _, d := range All(s, f, Width) {
		files = append(files, File{d.Name + ".svg", d.svg()})
	}
	return files, nil
}
