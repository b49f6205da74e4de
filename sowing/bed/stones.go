package bed

import (
	"swardwright/internal/told"
	"swardwright/site/ground"
	"swardwright/sowing/job"
)

// Stones in a topsoil. BS 3882 lets a tenth of a multipurpose topsoil be stones over 20 mm
// (by mass, from memory). From which share on they stop a tined machine is common
// practice, no published source; the FAO Guidelines for soil description call 15 to 40 %
// of the volume many (from memory).
const (
	mostStones  = 0.10
	stopMachine = 0.15
)

// pickM3 is what stones are picked of the top of a new bed.
func (w Input) pickM3(z rootzone) float64 {
	if w.Kind != job.New || w.Use.Meadow() || w.buries(z) || z.importMM >= w.fineMM() { // what is brought has none
		return 0
	}
	return z.stones * w.fineMM() / 1000 * w.area()
}

// A stone burier loosens the ground, turns stones and clods under and leaves the top fine,
// in one go; on less than an hour's work of it, through a way narrower than itself, over
// shallow soil or where the ground is broken up deeper it is no help. All common practice,
// no published source.
const (
	buryFromM2 = 60.0
	burierM    = 0.9
	buryMM     = 150
)

// buries tells whether stones are buried by machine and not picked.
func (w Input) buries(z rootzone) bool {
	return w.Kind == job.New && !w.Use.Meadow() && !w.deck() && !z.made && z.stones > mostStones && z.importMM < w.fineMM() && z.loosenMM <= loosenMM &&
		w.deepM2() >= buryFromM2 && w.Site.Soil.DepthCM*10 >= thinSoilMM && (w.AccessM == nil || *w.AccessM >= burierM)
}

// surfaceMM is how thick gravel or paving lies with its bed and base: common practice, no
// published source.
const surfaceMM = 150

// lift takes a made surface off with what it lies on.
func (l *list) lift(w Input, after []job.Need) {
	m3 := w.liftedM3()
	title, how := told.Say("bed.lift-gravel"), told.Say("bed.lift-gravel-how", told.DepthMM(surfaceMM), told.VolumeM3(m3))
	if w.Surface == job.Paving {
		title, how = told.Say("bed.lift-paving"), told.Say("bed.lift-paving-how", told.DepthMM(surfaceMM), told.VolumeM3(m3))
	}
	l.add(job.Task{ID: "clear", Title: title, OutputKey: "barrow_m3_per_hour", Quantity: m3, Unit: "m3", Caution: says(cautionServices, cautionLifting), Needs: after, Detail: says(how)})
}

// liftedM3 is what is lifted of a made surface.
func (w Input) liftedM3() float64 {
	if w.Surface == "" {
		return 0
	}
	return surfaceMM / 1000.0 * w.area()
}

// pick gathers the stones of a graded bed and takes them away; it gives the task that what
// follows waits for.
func (l *list) pick(w Input, z rootzone) {
	m3 := w.pickM3(z)
	if m3 == 0 {
		return
	}
	l.add(job.Task{ID: "pick-stones", Title: told.Say("bed.pick-stones"), OutputKey: "pick_stones_m3_per_hour", Quantity: m3, Unit: "m3", Caution: says(cautionLifting), Needs: l.after(0, l.last()),
		Detail: says(told.Say("bed.pick-stones-how", told.DepthMM(stoneMM), told.DepthMM(w.fineMM()), told.VolumeM3(m3)))})
}

func (w Input) stoneCheck(z rootzone) Check {
	stones := w.Site.Soil.Stones
	c := Check{ID: "stones", Figure: told.Say("bed.figure", told.Share(stones)), Limit: told.Say("bed.stones-limit", told.Share(mostStones)), OK: stones <= mostStones,
		Source: "BS 3882, from memory"}
	switch {
	case w.Kind != job.New:
		c.Advice = told.Say("bed.stones-standing")
	case w.Use.Meadow():
		c.Advice = told.Say("bed.stones-meadow")
	case w.Rootzone != nil:
		c.Advice = told.Say("bed.stones-screen")
	case w.buries(z):
		c.Advice = told.Say("bed.stones-bury")
	case z.importMM >= w.fineMM():
		c.Advice = told.Say("bed.stones-covered")
	case w.AccessM != nil && *w.AccessM < burierM:
		c.Advice = told.Say("bed.stones-pick-by-hand")
	default:
		c.Advice = told.Say("bed.stones-pick")
	}
	return c
}

// surface adds what is lifted of a made surface and taken away.
func (y *supplies) surface(w Input) {
	y.heap(ground.Gravel, w.liftedM3(), told.Say("bed.surface-item"), "spoil_per_m3", told.Say("bed.for-surface"))
}

// stones adds what is picked and taken away.
func (y *supplies) stones(m3 float64) {
	y.heap(ground.Gravel, m3, told.Say("bed.stones-item"), "spoil_per_m3", told.Say("bed.for-stones"))
}
