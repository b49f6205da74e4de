package practice

import (
	"math"
	"math/bits"

	"swardwright/internal/told"
)

// Near is a published recommendation for a lawn like the one in hand.
type Near struct {
	*Row
	Likeness float64 // 0 to 1
	Alike    told.Sentence
}

// Nearest are the recommendations for the lawns most like this one, one an
// institution, the most like first.
func (p *Prior) Nearest(most int) []Near {
	var out []Near
	from := map[string]bool{}
	for i := range p.rows {
		a := &p.rows[i]
		if from[a.Institution] || len(out) == most {
			continue
		}
		from[a.Institution] = true
		out = append(out, Near{a.Row, a.mean(), p.lawn.told(&a.Lawn, a.Likeness)})
	}
	return out
}

// Heard is how much published practice has to say of this lawn, 0 to 1: near 0 where
// nothing alike was ever published.
func (p *Prior) Heard() float64 { return p.total / (p.total + silence) }

// HardlyHeard is what is heard where nothing much alike was published.
const HardlyHeard = 0.2

// nearByKM is a way so short that it isn't worth telling.
const nearByKM = 30.0

// What differs, a block at a time, as the published lawn is against this one.
const (
	alikeFrom  = 0.85 // likeness of a block that is called alike
	littleFrom = 0.6  // and a little different
	ratherFrom = 0.3  // and rather; below, much
)

// Blocks, Degrees and Ways are the words of the sentences on likeness, terms of
// those names.
var (
	Blocks  = []string{"winter", "summer", "water", "light", "ground", "feeding", "use"}
	Degrees = []string{"little", "rather", "much"}
	Ways    = []string{"milder", "colder", "more-snow", "less-snow", "hotter", "cooler", "warmer-year", "colder-year", "drier", "moister", "wetter-climate", "drier-climate",
		"lighter", "darker", "wetter-ground", "drier-ground", "sandier", "heavier", "saltier", "less-salt", "fed-more", "fed-less"}
)

// told says in words how like another lawn is.
func (l *Lawn) told(o *Lawn, like Likeness) told.Sentence {
	var same, other []told.Figure
	block := func(name string, x float64, way func() string) {
		if x >= alikeFrom {
			same = append(same, told.Term{Kind: "likeness-block", Word: name})
			return
		}
		degree := Degrees[2]
		switch {
		case x >= littleFrom:
			degree = Degrees[0]
		case x >= ratherFrom:
			degree = Degrees[1]
		}
		other = append(other, told.Say("practice.differs", told.Term{Kind: "likeness-degree", Word: degree}, told.Term{Kind: "likeness-way", Word: way()}))
	}
	block("winter", like.Winter, func() string {
		cold := (o.WinterMinC-l.WinterMinC)/minScaleC + (o.ColdMonthC-l.ColdMonthC)/coldScaleC
		return further(cold/2, "milder", "colder", (o.SnowDays-l.SnowDays)/snowScaleDays, "more-snow", "less-snow")
	})
	block("summer", like.Summer, func() string {
		return further((o.HotC-l.HotC)/hotScaleC, "hotter", "cooler", (o.MeanC-l.MeanC)/meanScaleC, "warmer-year", "colder-year")
	})
	block("water", like.Water, func() string {
		return further((o.DroughtShare-l.DroughtShare)/droughtScale, "drier", "moister", math.Log(o.RainMM/l.RainMM)/rainScale, "wetter-climate", "drier-climate")
	})
	block("light", like.Light, func() string {
		return further((o.DLI-l.DLI)/dliScaleMol+(o.OpenShare-l.OpenShare)/openScale, "lighter", "darker", 0, "", "")
	})
	block("ground", like.Ground*like.Salt, func() string {
		if like.Salt < like.Ground {
			return further(o.ECeDSM-l.ECeDSM, "saltier", "less-salt", 0, "", "")
		}
		return further((o.Wetness-l.Wetness)/wetScale, "wetter-ground", "drier-ground", (o.SandPercent-l.SandPercent)/sandScale, "sandier", "heavier")
	})
	block("feeding", like.Feed, func() string { return further(o.NitrogenGM2-l.NitrogenGM2, "fed-more", "fed-less", 0, "", "") })
	switch {
	case o.Purpose != l.Purpose:
		other = append(other, told.Say("practice.purpose", told.Term{Kind: "purpose", Word: string(o.Purpose)}))
	case o.oversown() == l.oversown():
		same = append(same, told.Term{Kind: "likeness-block", Word: "use"})
	}
	if o.oversown() != l.oversown() {
		if o.oversown() {
			other = append(other, told.Say("practice.old-sward"))
		} else {
			other = append(other, told.Say("practice.new-lawn"))
		}
	}
	clauses := other
	if len(same) > 0 {
		clauses = append([]told.Figure{told.Say("practice.alike", told.List{Items: same, Join: told.And})}, other...)
	}
	list, km := told.List{Items: clauses, Join: told.Clauses}, l.kmTo(o)
	if km < nearByKM {
		return told.Say("practice.likeness-near", list)
	}
	return told.Say("practice.likeness", list, told.DistanceKM(km))
}

// further is the way in which the greater of two differences goes.
func further(a float64, more, less string, b float64, moreB, lessB string) string {
	if math.Abs(b) > math.Abs(a) {
		a, more, less = b, moreB, lessB
	}
	if a < 0 {
		return less
	}
	return more
}

// Sown says what a recommendation sows.
func (t *Table) Sown(r *Row) told.Sentence {
	var parts []told.Figure
	parts = append(parts, t.bandsTold(r.Sows)...)
	if len(r.Any) > 0 {
		var any []told.Figure
		for _, a := range r.Any {
			any = append(any, told.Say("practice.mixture", told.List{Items: t.bandsTold(a), Join: told.And}))
		}
		parts = append(parts, told.Say("practice.mixture", told.List{Items: any, Join: told.Or}))
	}
	if len(r.Leads) > 0 {
		parts = append(parts, told.Say("practice.leads", t.Told(r.Leads)))
	}
	for _, c := range r.Contains {
		parts = append(parts, told.Say("practice.holds", t.Told(c)))
	}
	if len(r.Never) > 0 {
		parts = append(parts, told.Say("practice.never", t.Told(r.Never)))
	}
	return told.Say("practice.mixture", told.List{Items: parts, Join: told.Commas})
}

func (t *Table) bandsTold(bands []Band) (out []told.Figure) {
	for _, b := range bands {
		out = append(out, told.Say("practice.share", t.Told(b.Of), told.Between(told.Share(b.Low/100), told.Share(b.High/100))))
	}
	return out
}

// Told names some groups of grasses: "fine fescue or tall fescue".
func (t *Table) Told(of []string) told.Figure {
	var out []told.Figure
	for _, g := range of {
		set, err := t.of([]string{g})
		if err == nil && bits.OnesCount64(uint64(set)) == 1 {
			out = append(out, told.Grass(t.grasses[bits.TrailingZeros64(uint64(set))].ID))
		} else {
			out = append(out, told.Term{Kind: "grasses", Word: g})
		}
	}
	return told.List{Items: out, Join: told.Or}
}
