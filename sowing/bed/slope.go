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

// A nurse on a sown slope: oats, which come up before grass, are mown off or frosted and don't
// come again. 1½ bushels an acre (Tallgrass Prairie Center, Integrated Roadside Vegetation
// Management Technical Manual, nurse crops). Sown where the grasses themselves are slow
// (Pennsylvania, Erosion and Sediment Pollution Control Program Manual: where the selected
// species do not rapidly germinate): from which seedling vigour on a grass is quick is our own,
// the ryegrasses, timothy and tall fescue being so; of how much of the mixture, and under
// straw but not under a blanket: common practice, no published source.
const (
	nurseGM2    = 5.4
	quickVigour = 0.6
	quickShare  = 10.0 // percent by weight
)

func (w Input) slope() float64 { return math.Tan(w.Site.Survey.Lawn.SlopeDeg * math.Pi / 180) }

// Mulches tells whether seed on bare ground of this slope, in degrees, is covered.
func Mulches(slopeDeg float64) bool { return math.Tan(slopeDeg*math.Pi/180) >= preferred-1e-9 }

// washes tells whether rain washes seed off what is sown here, so that it is sown and raked in level.
func (w Input) washes() bool {
	return w.Kind == job.New && len(w.Sown) > 0 && w.slope() >= warnFrom-1e-9
}

// covered tells whether what is sown here is covered against rain.
func (w Input) covered() bool {
	return w.Kind == job.New && len(w.Sown) > 0 && Mulches(w.Site.Survey.Lawn.SlopeDeg)
}

// blanket tells whether the cover is an erosion blanket and not straw.
func (w Input) blanket() bool { return w.covered() && w.slope() >= blanketFrom }

// nursedM2 is the ground on which oats are sown with the grass: a strawed slope whose mixture
// has no grass that is quick itself. Oats don't lie through a winter as grass seed does.
func (w Input) nursedM2() (m2 float64) {
	if !w.covered() || w.blanket() || w.Dormant {
		return 0
	}
	for _, s := range w.seed() {
		quick := 0.0
		for _, p := range s.Parts {
			if p.Species.Values[species.Vigour].Best >= quickVigour {
				quick += p.Percent
			}
		}
		if quick < quickShare {
			m2 += job.Area(s.Zones)
		}
	}
	return m2
}

// nurse sows oats over the grass seed, and tells what they are followed by.
func (l *list) nurse(m2 float64, after string) string {
	if m2 == 0 {
		return after
	}
	l.add(job.Task{ID: "nurse-oats", Title: told.Say("bed.nurse"), OutputKey: "sow_m2_per_hour", Quantity: m2, Unit: "m2", Needs: []job.Need{need(after, 0)},
		Detail: says(told.Say("bed.nurse-how", told.GramsPerM2(nurseGM2)), told.Say("bed.nurse-goes"))})
	return "nurse-oats"
}

// Strawed tells whether a lawn of a use is strawed against drying out where it is sown: one that
// is left to the rain, as roadsides are (University of Minnesota, roadside turf: sowings fail
// for want of water); a meadow, which is let come, and a field that is grazed are not.
func Strawed(u species.Use) bool {
	return !u.WatersYoung() && !u.Meadow() && (u.Grade == species.Extensive || !u.Grazed())
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
