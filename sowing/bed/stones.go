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
	if w.Kind != job.New || w.Use.Meadow() {
		return 0
	}
	return z.stones * w.fineMM() / 1000 * w.area()
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

func (w Input) stoneCheck() Check {
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
	default:
		c.Advice = told.Say("bed.stones-pick")
	}
	return c
}

// stones adds what is picked and taken away.
func (y *supplies) stones(m3 float64) {
	y.heap(ground.Gravel, m3, told.Say("bed.stones-item"), "spoil_per_m3", told.Say("bed.for-stones"))
}
