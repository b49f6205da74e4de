package bed

import (
	"math"

	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Soil on a deck is worked by hand from the top: no deeper than a hand tool is sure to stay
// in it, and no nearer to what lies below than is left untouched over the filter sheet and
// the membrane. Common practice, no published source.
const (
	deckScratchMM = 50.0
	deckLeftMM    = 30.0
	leastScratch  = 10.0 // of the shallowest, so that seed finds earth
	// A membrane is turned up so high over the finished level where it ends: flat roofs,
	// common practice, no published source.
	upstandMM = 150
)

// deck tells whether the lawn lies on a building, where nothing is dug, driven in or
// brought without an engineer's word.
func (w Input) deck() bool { return w.Site.Soil.OnDeck }

// scratchMM is how deep the soil on a deck is loosened.
func (w Input) scratchMM() float64 {
	return math.Min(deckScratchMM, math.Max(w.Site.Soil.DepthCM*10-deckLeftMM, leastScratch))
}

// spikedM2 is the ground that may be spiked deep.
func (w Input) spikedM2() float64 {
	if w.deck() {
		return 0
	}
	return w.deepM2()
}

// soakedKGM2 is what so much of the soil weighs on each square metre with every pore full.
func (w Input) soakedKGM2(mm float64) told.KGPerM2 {
	return told.KGPerM2(w.Site.Soil.SoakedKGM3() * mm / 1000)
}

// cautionDeck is said with every piece of work that goes into the soil of a deck.
var cautionDeck = told.Say("bed.caution-deck")

// load is what is said of the weight on a deck: what lies there, and what more would add.
func (w Input) load() []told.Sentence {
	depth := w.Site.Soil.DepthCM * 10
	list := says(told.Say("bed.deck-weighs", told.DepthMM(depth), w.soakedKGM2(depth)))
	if lack := depthMM(w.Use.Grade) - depth; lack >= leastImportMM && !w.Use.Meadow() {
		list = append(list, told.Say("bed.deck-more", told.DepthMM(lack), w.soakedKGM2(lack)))
	}
	if len(w.Laid) > 0 {
		list = append(list, told.Say("bed.deck-turf", told.Between(w.soakedKGM2(thinTurfMM), w.soakedKGM2(thickTurfMM))))
	}
	return list
}

// holdsMM is the water that the soil on a deck holds for grass.
func (w Input) holdsMM() told.WaterMM {
	s := w.Site.Soil
	return told.WaterMM((s.FieldCapacity - s.WiltingPoint) * s.DepthCM * 10)
}

// scratch loosens the soil on a deck by hand.
func (l *list) scratch(w Input, z rootzone) {
	l.add(job.Task{ID: "loosen", Title: told.Say("bed.deck-loosen"), OutputKey: "rake_m2_per_hour", Caution: says(cautionDeck), Needs: l.after(0, l.last()),
		Detail: says(told.Say("bed.deck-loosen-how", told.DepthMM(z.loosenMM)))})
}
