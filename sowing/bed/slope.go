package bed

import (
	"math"

	"swardwright/internal/told"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Cover of a sown slope. Straw at 450 to 560 g/m² (State of Colorado, mined-land
// reclamation permits), as on level ground left to the rain, where it is gentler than the 1 in 3 from which Pennsylvania's
// Erosion and Sediment Pollution Control Program Manual asks for a blanket; from which
// slope on it is covered, and the laps: common practice, no published source.
const (
	strawGM2     = 450.0
	blanketFrom  = Steepest
	blanketLapMM = 100
	blanketMore  = 1.15 // for laps and the trench at the top
	trenchMM     = 150
	pinsM        = 1.0
)

func (w Input) slope() float64 { return math.Tan(w.Site.Survey.Lawn.SlopeDeg * math.Pi / 180) }

// Mulches tells whether seed on bare ground of this slope, in degrees, is covered.
func Mulches(slopeDeg float64) bool { return math.Tan(slopeDeg*math.Pi/180) >= preferred-1e-9 }

// covered tells whether what is sown here is covered against rain.
func (w Input) covered() bool {
	return w.Kind == job.New && len(w.Sown) > 0 && Mulches(w.Site.Survey.Lawn.SlopeDeg)
}

// blanket tells whether the cover is an erosion blanket and not straw.
func (w Input) blanket() bool { return w.covered() && w.slope() >= blanketFrom }

// Strawed tells whether a lawn of a use is strawed against drying out where it is sown: one that
// is left to the rain, as roadsides are (University of Minnesota, roadside turf: sowings fail
// for want of water); a meadow, which is let come, is not.
func Strawed(u species.Use) bool {
	return u.Grade == species.Extensive && !u.Irrigation && !u.Meadow()
}

// strawed tells whether what is sown here lies level under straw.
func (w Input) strawed() bool {
	return w.Kind == job.New && len(w.Sown) > 0 && w.Method != job.InDressing && Strawed(w.Use) && !w.covered()
}

// straw lies on a level bed.
func (l *list) straw() {
	l.add(job.Task{ID: "straw-seed", Title: told.Say("bed.straw-bed"), OutputKey: "rake_m2_per_hour", Needs: []job.Need{need("roll-in", 0)},
		Detail: says(told.Say("bed.straw-bed-how", told.GramsPerM2(strawGM2)))})
}

// cover lays straw or a blanket over the seed.
func (l *list) cover(w Input) {
	how := says(told.Say("bed.straw-how", told.GramsPerM2(strawGM2)))
	title := told.Say("bed.straw")
	if w.blanket() {
		title, how = told.Say("bed.blanket"), says(told.Say("bed.blanket-how", told.DepthMM(trenchMM), told.DepthMM(blanketLapMM), told.LengthM(pinsM)))
	}
	l.add(job.Task{ID: "cover-slope", Title: title, OutputKey: "rake_m2_per_hour", Needs: []job.Need{need("roll-in", 0)}, Caution: says(told.Say("bed.caution-slope")), Detail: how})
}
