package sowing

import (
	"cmp"
	"context"
	"math"
	"slices"

	"github.com/samber/lo"
	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// Lift is a change that would do something for the lawn.
type Lift struct {
	Change   told.Sentence
	Grade    species.Grade // then kept
	Chance   float64       // that it is then kept
	Gain     Spread        // of cover
	GrassM2  float64       // more of the lawn under grass
	Cost     *money.Amount // of the change; nil: it costs nothing in itself
	Yearly   bool          // it costs that every year
	AskPrice bool          // it costs something that no list knows
	worth    float64
}

// How roughly changes are tried: enough to put them in order, not to promise a figure. The
// mixture stays the one that is planned, where there is one: another might do better yet,
// and what a search happens on is not the change's doing.
const (
	roughYears  = 60
	roughCells  = 150
	roughPoints = 0.03 // of cover, from which a change is told
	roughChance = 0.10 // of chance, the same
	roughGrass  = 0.05 // of the lawn, the same
	mostLifts   = 5
)

// What is tried: common practice, no published source, as to how far.
const (
	liftCrownM     = 1.5  // a crown is taken up by
	leastCrownM    = 1.0  // and this must be left of it
	thinned        = 0.20 // share of a crown that thinning takes out; 30 % is the most (BS 3998:2010, from memory)
	mostTrees      = 6    // that are tried one by one
	openScreen     = 0.8  // light through a screen opened
	higherMM       = 15.0 // a cut is raised by
	tallestMM      = 75.0 // and not beyond
	moreNitrogenG  = 5.0  // g/m² a year
	mostNitrogenG  = 20.0
	rootzoneCM     = 25.0
	rootzoneSand   = 70.0
	droughtWatered = 15.0 // days of drought a year from which watering is tried
	feedNitrogen   = 0.12 // share of nitrogen in a feed
)

// change is the brief with one thing done, and what that is.
type change struct {
	what  told.Sentence
	brief Brief
	light bool    // it changes what light there is
	ask   bool    // its price is not in any list
	made  bool    // it makes ground, which is priced
	key   string  // of the price list, for what is bought every year …
	each  float64 // … and how much of it
}

// lifts tries a few changes that the lawn leaves room for, roughly, and gives those that
// do something, what costs nothing first and then by what is gained. The place as it is
// comes followed roughly too.
func lifts(ctx context.Context, t kit, p *Plan, rough *site.Conditions) ([]Lift, error) {
	b, found := p.Brief, p.Found
	prices, err := pricesOf(t.Tables, b)
	if err != nil {
		return nil, err
	}
	var mixture []mix.Part
	if m := p.Choice.Mixture; m != nil {
		for _, c := range m.Components {
			mixture = append(mixture, mix.Part{Species: c.Species, Percent: float64(c.Percent)})
		}
	}
	before, err := roughly(ctx, t, b, rough, mixture, p.Learned)
	if err != nil {
		return nil, err
	}
	var out []Lift
	for _, c := range changes(b, found) {
		ground := rough
		switch {
		case c.light:
			ground, err = roughSite(ctx, t, c.brief, true)
		case c.brief.Use.Irrigation != b.Use.Irrigation:
			ground, err = roughSite(ctx, t, c.brief, false)
		}
		if err != nil {
			return nil, err
		}
		after, err := roughly(ctx, t, c.brief, ground, mixture, p.Learned)
		if err != nil {
			return nil, err
		}
		l := liftOf(c, before, after, found.AreaM2)
		if l.worth <= 0 {
			continue
		}
		l.Yearly = c.key != ""
		if l.Cost, err = liftCost(ctx, prices, p, c, &after); err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	slices.SortStableFunc(out, func(a, b Lift) int {
		return cmp.Or(a.tier()-b.tier(), cmp.Compare(b.worth, a.worth))
	})
	return out[:min(len(out), mostLifts)], nil
}

// liftCost is what a change costs, or what it costs every year; nil: nothing that a list knows.
func liftCost(ctx context.Context, prices money.Prices, p *Plan, c change, after *Plan) (*money.Amount, error) {
	switch b := p.Brief; {
	case c.key != "":
		if c.brief.Use.Irrigation && !b.Use.Irrigation {
			c.each = givenLitresM2(after.Site) / 1000
		}
		return costOf(prices, c.key, c.each*job.Area(after.Grass))
	case c.made:
		choice := p.Choice
		if choice.Mixture == nil {
			choice = after.Choice
		}
		return groundCost(ctx, prices, b, c.brief, p.Found, choice)
	}
	return nil, nil
}

// tier is 0 for what costs nothing and 1 for what does.
func (l Lift) tier() int {
	if l.Cost == nil && !l.AskPrice {
		return 0
	}
	return 1
}

// roughSite is the place of a brief in fewer years and cells; in passing where nothing else
// is tried there.
func roughSite(ctx context.Context, t kit, b Brief, passing bool) (*site.Conditions, error) {
	opt := b.options(roughYears)
	opt.Cells, opt.Passing = roughCells, passing
	return b.conditions(ctx, t, opt)
}

// roughly chooses for a brief in fewer lawns, on ground as found: a plan as far as its
// grasses. They are sought where no mixture is given.
func roughly(ctx context.Context, t kit, b Brief, found *site.Conditions, mixture []mix.Part, learned *record.Learned) (Plan, error) {
	p := Plan{Brief: b, Found: found}
	var err error
	if p.Site, err = prepare(b, p.Found, b.Job.Kind); err != nil {
		return p, err
	}
	matrix := species.Matrix{}
	if mixture == nil {
		if matrix, err = species.Rate(ctx, t.Species, p.Site, b.Use, 0, weatherSeed); err != nil {
			return p, err
		}
	}
	task := mixTask(b, learned)
	task.Quick, task.Given = true, mixture
	p.Choice, err = mix.Choose(ctx, p.Site, matrix, t.Species, t.Practice, b.Use, mix.Stock{Lots: b.Stock.Lots}, task)
	p.Grass = grassZones(p.Site, p.Choice)
	return p, err
}

// liftOf is what a change does, of rough choices before and after it.
func liftOf(c change, before, after Plan, areaM2 float64) Lift {
	base, tried := before.Choice, after.Choice
	l := Lift{
		Change: c.what, Grade: tried.Attainable, Chance: tried.Chance, AskPrice: c.ask,
		Gain: coveredGain(&before, &after, areaM2), GrassM2: job.Area(after.Grass) - job.Area(before.Grass),
	}
	gained := tried.Mixture != nil && (base.Mixture == nil || l.Gain.Middle >= roughPoints || tried.Chance-base.Chance >= roughChance || l.GrassM2 >= roughGrass*areaM2)
	lost := l.Gain.Middle < -roughPoints || tried.Chance-base.Chance < -roughChance || l.GrassM2 < -roughGrass*areaM2
	if gained && !lost {
		l.worth = math.Max(l.Gain.Middle, 0) + math.Max(tried.Chance-base.Chance, 0)/2 + math.Max(l.GrassM2, 0)/areaM2
	}
	return l
}

// coveredGain is the difference of cover of the whole lawn, lawn by lawn: a part that
// grass is given up on counts as bare.
func coveredGain(before, after *Plan, areaM2 float64) Spread {
	var diff []float64
	add := func(p *Plan, sign float64) {
		m := p.Choice.Mixture
		if m == nil {
			return
		}
		if diff == nil {
			diff = make([]float64, len(m.Covers))
		}
		for i, x := range m.Covers {
			diff[i] += sign * x * job.Area(p.Grass) / areaM2
		}
	}
	add(before, -1)
	add(after, 1)
	if diff == nil {
		return Spread{}
	}
	return spreadOf(diff)
}

// changes are what this lawn leaves room for.
func changes(b Brief, found *site.Conditions) []change {
	out := append(lightChanges(b), useChanges(b, found)...)
	if b.Job.Kind == job.New && b.Job.Rootzone == nil && found.Soil.Wetness > 0.3 && !found.Soil.OnDeck {
		k := b
		k.Job.Rootzone = &job.Rootzone{DepthCM: rootzoneCM, SandPercent: rootzoneSand, SoilPercent: 100 - rootzoneSand, Base: "gravel"}
		out = append(out, change{what: told.Say("lift.rootzone", told.DepthMM(10*rootzoneCM)), brief: k, made: true})
	}
	return out
}

// lightChanges let more light in, obstacle by obstacle, and all trees at once.
func lightChanges(b Brief) (out []change) {
	with := func(what told.Sentence, alter func([]light.Obstacle)) {
		k := b
		k.Site.Obstacles = slices.Clone(b.Site.Obstacles)
		alter(k.Site.Obstacles)
		out = append(out, change{what: what, brief: k, light: true, ask: true})
	}
	up := func(o light.Obstacle) (float64, bool) {
		return o.ClearStemM + liftCrownM, o.TopM == nil && o.HeightM-o.ClearStemM > liftCrownM+leastCrownM
	}
	trees := lo.CountBy(b.Site.Obstacles, func(o light.Obstacle) bool { return o.Kind == light.Tree })
	for i, o := range b.Site.Obstacles {
		name := o.Called(i + 1)
		switch {
		case o.Kind == light.Tree && trees <= mostTrees:
			if to, ok := up(o); ok {
				with(told.Say("lift.crown", name, told.LengthM(to)), func(all []light.Obstacle) { all[i].ClearStemM = to })
			}
			with(told.Say("lift.thin", name, told.Share(thinned)), func(all []light.Obstacle) { all[i].Thinned = thinned })
		case o.Kind == light.Screen && o.Transmittance < openScreen:
			with(told.Say("lift.screen", name), func(all []light.Obstacle) { all[i].Transmittance = openScreen })
		}
	}
	if trees > 1 {
		with(told.Say("lift.all-crowns", told.LengthM(liftCrownM), told.Share(thinned)), func(all []light.Obstacle) {
			for i := range all {
				if o := &all[i]; o.Kind == light.Tree {
					o.Thinned = thinned
					if to, ok := up(*o); ok {
						o.ClearStemM = to
					}
				}
			}
		})
	}
	return out
}

// useChanges keep the lawn in another way.
func useChanges(b Brief, found *site.Conditions) (out []change) {
	with := func(what told.Sentence, alter func(*species.Use)) *change {
		k := b
		alter(&k.Use)
		out = append(out, change{what: what, brief: k})
		return &out[len(out)-1]
	}
	u := b.Use
	if u.Grade == species.Extensive {
		return nil // it is asked to be left alone
	}
	if cut := u.CutMM(found, &found.Zones[largestZone(found)]); cut < tallestMM {
		to := math.Min(math.Round((cut+higherMM)/5)*5, tallestMM)
		with(told.Say("lift.higher", told.DepthMM(to)), func(x *species.Use) { x.MowingMM = to })
	}
	if !u.Irrigation && droughtDays(found) > droughtWatered {
		c := with(told.Say("lift.water"), func(x *species.Use) { x.Irrigation = true })
		c.key = "water_per_m3" // as much as the balance of water in the ground then asks
	}
	if n := u.NitrogenOrClass(); n+moreNitrogenG <= mostNitrogenG {
		c := with(told.Say("lift.feed", told.GramsPerM2(n+moreNitrogenG)), func(x *species.Use) { x.NitrogenGM2 = new(n + moreNitrogenG) })
		c.key, c.each = "starter_feed_per_kg", moreNitrogenG/feedNitrogen/1000
	}
	if u.TrafficOr() != species.Light && !u.Rough() { // nobody lays a path through a field
		with(told.Say("lift.path"), func(x *species.Use) { x.Traffic = species.Light }).ask = true
	}
	if u.Grade == species.Ornamental || u.Grade == species.HardWearing {
		with(told.Say("lift.standard", lawnOf(species.Utility)), func(x *species.Use) { x.Grade = species.Utility })
	}
	return out
}

// droughtDays are those of a mean year, over the zones.
func droughtDays(c *site.Conditions) float64 {
	return c.MeanYear(func(y *weather.Year) float64 { return y.DroughtDays })
}

// givenLitresM2 is what a watered lawn is given in a mean year, litres a square metre.
func givenLitresM2(c *site.Conditions) float64 {
	return c.MeanYear(func(y *weather.Year) float64 { return y.WaterMM })
}

// costOf is the price of so much of what is bought.
func costOf(prices money.Prices, key string, amount float64) (*money.Amount, error) {
	rate, err := prices.Rate(key)
	if err != nil {
		return nil, err
	}
	sum, err := money.Round(rate.Mul(decimal.NewFromFloat(amount)), prices.Currency)
	return &sum, err
}

// groundCost is what one brief's ground costs more than another's.
func groundCost(ctx context.Context, prices money.Prices, base, changed Brief, found *site.Conditions, c mix.Choice) (*money.Amount, error) {
	totals := [2]int64{}
	for i, b := range []Brief{base, changed} {
		w := Way{Bed: bed.Plan(bedInput(b, found, c, b.Job.Kind, nil, nil))}
		in := money.Input{Way: job.ByTurf, Prices: prices, Work: quantities(w)}
		c, err := money.Compare(ctx, []money.Input{in}, money.Offer{Prices: prices, RandSeed: weatherSeed})
		if err != nil {
			return nil, err
		}
		totals[i] = c.Bills[0].Total.Minor
	}
	return &money.Amount{Minor: totals[1] - totals[0], Currency: prices.Currency}, nil
}
