package sowing

import (
	"context"
	"reflect"
	"slices"

	"swardwright/internal/calendar"
	"swardwright/mix"
	"swardwright/site/weather"
	"swardwright/sowing/job"
)

// Compared is one lawn of several that are planned beside each other.
type Compared struct {
	Name string
	Plan Plan
	// Gain is what it brings and costs against the first; nil for the first itself.
	Gain *Gain
}

// Gain is the difference that a change makes. Both plans are followed through the same
// synthetic years and the same lawns as they may turn out, so that what differs is what
// was changed and no luck.
type Gain struct {
	Cover      Spread // of the cover expected, as a difference of shares; zero where one has no grass
	Chance     float64
	CostMinor  *int64 // more, in minor units; nil where the currencies differ or one has no bill
	DaysSooner *int   // that it bears use; nil where one never does
	CareHours  float64
}

// Spread is a figure with the range that holds it in 8 cases of 10.
type Spread struct{ Middle, Low, High float64 }

// Compare plans briefs beside each other, the first being what the others are held
// against.
func Compare(ctx context.Context, t Tables, briefs []Variant) ([]Compared, error) {
	var first Plan
	k := kitOf(t)
	out := make([]Compared, 0, len(briefs))
	for i, b := range briefs {
		with := k
		if i > 0 {
			with = k.beside()
		}
		p, err := planKnowing(ctx, with, b.Brief, nil)
		if err != nil {
			return nil, &VariantError{b.Name, err}
		}
		if i == 0 {
			first = p
			out = append(out, Compared{Name: b.Name, Plan: p})
			continue
		}
		out = append(out, against(&first, b.Name, p))
	}
	return out, nil
}

// variantsOf plans the variants of a plan's own brief beside it.
func variantsOf(ctx context.Context, t kit, p *Plan) ([]Compared, error) {
	var out []Compared
	for _, v := range p.Brief.Variants {
		learned := p.Learned
		if !reflect.DeepEqual(v.Brief.Record, p.Brief.Record) {
			learned = nil
		}
		planned, err := planKnowing(ctx, t.beside(), v.Brief, learned)
		if err != nil {
			return nil, &VariantError{v.Name, err}
		}
		out = append(out, against(p, v.Name, planned))
	}
	return out, nil
}

// against is a plan with what it brings over another.
func against(base *Plan, name string, p Plan) Compared {
	return Compared{Name: name, Plan: p.undated(), Gain: new(gain(base, &p))}
}

// undated is the plan without the days of its grounds, so that many stand beside each other.
func (p Plan) undated() Plan {
	p.Found, p.Site = p.Found.Undated(), p.Site.Undated()
	p.Ways = slices.Clone(p.Ways)
	for i := range p.Ways {
		p.Ways[i].Ground = p.Ways[i].Ground.Undated()
	}
	if p.Ground != nil {
		p.Ground = p.Site
	}
	return p
}

// VariantError names the lawn that could not be planned.
type VariantError struct {
	Name string
	Err  error
}

func (e *VariantError) Error() string { return e.Name + ": " + e.Err.Error() }

// Unwrap gives what went wrong.
func (e *VariantError) Unwrap() error { return e.Err }

// gain is what one plan brings over another.
func gain(base, p *Plan) Gain {
	g := Gain{Cover: coverGain(base, p), Chance: p.Standard.Chance - base.Standard.Chance, CareHours: p.CareHours() - base.CareHours()}
	if base.Kind == "" || p.Kind == "" {
		return g
	}
	if base.Bill.Total.Currency == p.Bill.Total.Currency {
		g.CostMinor = new(p.Bill.Total.Minor - base.Bill.Total.Minor)
	}
	if base.UsableFrom != nil && p.UsableFrom != nil {
		g.DaysSooner = new(calendar.Days(*p.UsableFrom, *base.UsableFrom))
	}
	return g
}

// coverGain is the difference of cover lawn by lawn.
func coverGain(base, p *Plan) Spread {
	x, y := base.grasses(), p.grasses()
	if x == nil || y == nil {
		return Spread{}
	}
	a, b := x.Covers, y.Covers
	if len(a) != len(b) || len(a) == 0 {
		d := y.CoverExpected - x.CoverExpected
		return Spread{d, d, d}
	}
	diff := make([]float64, len(a))
	for i := range a {
		diff[i] = b[i] - a[i]
	}
	return spreadOf(diff)
}

// spreadOf sorts the values.
func spreadOf(values []float64) Spread {
	slices.Sort(values)
	return Spread{weather.Percentile(values, 0.5), weather.Percentile(values, 0.1), weather.Percentile(values, 0.9)}
}

// grasses are those of the way chosen, or of a plan without ways those to sow.
func (p *Plan) grasses() *mix.Mixture {
	if p.Mixture != nil {
		return p.Mixture
	}
	return p.Choice.Mixture
}

// CareHours are the hours of one person that a full year of care takes.
func (p *Plan) CareHours() (hours float64) {
	for _, t := range p.Tasks {
		if !t.First && t.Sort != job.Watching {
			hours += t.Hours * float64(t.Goes)
		}
	}
	return hours
}
