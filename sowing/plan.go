package sowing

import (
	"slices"
	"time"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/sowing/year"
	"swardwright/species"
)

// Advice is the answer in one word or two.
type Advice string

// The answers.
const (
	AdviseSow      Advice = "sow"
	AdviseOverseed Advice = "overseed"
	AdviseTurf     Advice = "lay turf"
	AdviseNoGrass  Advice = "no grass"
)

// Plan is the whole plan of one lawn. Reports show it and compute nothing.
type Plan struct {
	Brief  Brief
	Date   time.Time
	Found  *site.Conditions // the ground as it is
	Site   *site.Conditions // the ground as it will be
	Matrix species.Matrix   // of the ground as it will be, for the lawn as it will be kept
	Choice mix.Choice       // the grasses

	Learned *record.Learned // from what was seen here; nil where nothing was
	Changed []Changed       // of the mixture, by that
	Next    []Next          // by zone, in a sward that it knows: left alone or overseeded

	Way                      // the chosen one; empty where no grass will hold
	Ways     []Way           // every way that can be meant, whole
	Why      []told.Sentence // this way was chosen, against the others
	Second   *Second         // what a second mixture is worth; nil: none was found worth speaking of
	Unpriced []told.Sentence // what no price shows
	Variants []Compared      // of the brief, planned beside it
	Lifts    []Lift          // what would do most for this lawn

	Elsewhere *Elsewhere // by [LookElsewhere]; nil: nobody looked, or there is nothing to see
	Cost      money.Comparison
	Grass     []job.Zone // the zones that grass comes into

	Advice      Advice
	Headline    []told.Sentence // the answer, in a few sentences
	Cautions    []told.Sentence
	Assumptions []told.Sentence
	Sources     []told.Sentence
}

// Way is one whole way to a lawn: its work, dates, care and bill, and what comes of
// it. Nothing of it is shown under another.
type Way struct {
	Kind       job.Way
	Job        job.Kind // how the ground is worked
	Sown, Laid []job.Zone
	Kept       []job.Zone       // of a sward that stands, left alone
	Mixture    *mix.Mixture     // what grows: as sown, or as the turf is to be
	Ground     *site.Conditions // as the way leaves it
	Sowings    []Sowing         // what is sown where, lighter zones first: one mixture or two
	Rate       rate.Rate        // of all that is sown
	Order      order.Order
	Bed        bed.Bed
	Dates      dates.Dates
	StartOn    time.Time // sown or laid
	Tasks      []job.Task
	Year       year.Calendar
	Water      Water
	EdgingM    float64 // cut
	Bill       money.Bill

	UsableFrom *time.Time // median; nil: in most years never
	InTime     bool       // bears use by the day needed; true when none is set
	Standard   Standard   // that comes of it
}

// Sowing is one mixture on the zones that it is sown on.
type Sowing struct {
	Zones   []job.Zone
	Mixture *mix.Mixture
	Rate    rate.Rate
}

// SownIn tells whether a grass of the mixture goes into a zone: one mixture is for all
// zones, each of two for its own.
func (w *Way) SownIn(s *species.Species, zone int) bool {
	return len(w.Sowings) < 2 || slices.ContainsFunc(w.Sowings, func(x Sowing) bool {
		return x.Mixture.Share(s) > 0 && slices.ContainsFunc(x.Zones, func(z job.Zone) bool { return z.Index == zone })
	})
}

// Common is the one mixture for all zones where two are sown in its place; nil: it is sown.
func (p *Plan) Common() *mix.Mixture {
	one := p.WayOf(job.BySeed)
	if one == nil || p.Kind != job.BySeedApart {
		return nil
	}
	return one.Mixture
}

// WayOf is the way of a kind; nil where it wasn't planned.
func (p *Plan) WayOf(k job.Way) *Way { return wayOf(p.Ways, k) }

func wayOf(ways []Way, k job.Way) *Way {
	for i := range ways {
		if ways[i].Kind == k {
			return &ways[i]
		}
	}
	return nil
}

// Standard is what a lawn is held to, and how surely.
type Standard struct {
	Grade   species.Grade
	Holds   bool
	Chance  float64
	ShortBy []mix.Shortfall // what it lacks, where it doesn't hold
	Because told.Sentence
}

// Water is what is given until the lawn bears use, as the tasks say.
type Water struct {
	Goes   int
	Litres float64
	Until  time.Time
}
