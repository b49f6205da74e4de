package sward

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	spots "swardwright/mix/internal/place"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

// twoZones is a lawn of a light and a darker zone at an invented address near a station.
func twoZones(t *testing.T) *site.Conditions {
	c := conditions(t, spots.Spot{Station: "Heathrow", SunHours: 5, Years: 12})
	dark := c.Zones[0]
	c.Zones[0].Share, dark.Share = 0.7, 0.3
	dark.Light.DLISeason *= 0.8
	dark.Light.OpenShare *= 0.8
	c.Zones = append(slices.Clone(c.Zones[:1]), dark)
	return c
}

// apartAs is what sets a past's lawn apart where it is to be a lawn of the ensemble.
func apartAs(p *Past, l *Lawn) []float64 {
	z := make([]float64, p.Dim())
	z[atCover], z[atVolunteers] = l.Place[drawCover], l.Place[drawVolunteers]
	copy(z[atTails:atTails+tails], l.Place[drawTails:])
	copy(z[atYears:atYears+p.years], l.Place[drawCoverYear:])
	copy(z[atYears+p.years:atYears+p.years+len(p.opens)], l.Place[drawZoneCover:])
	for k, g := range p.Grass {
		d, e := p.of(z, k), l.Grass[g].Effects
		d[ofEstablish], d[ofMerit] = e[drawEstablish], e[drawMerit]
		copy(d[ofYears:ofYears+p.years], e[drawYear:])
		for zone := range p.opens {
			d[ofYears+p.years+2*zone], d[ofYears+p.years+2*zone+1] = e[drawZoneEstablish+zone], e[drawZoneMerit+zone]
		}
	}
	return z
}

// A lawn that was sown on bare ground is, season by season and grass by grass, the lawn that the same sowing is foretold
// to become where the same sets it apart; by two programs that share no loop.
func TestPastIsWhatWasForetold(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	for i := range 8 {
		winter, watered, seen := i&1 > 0, i&2 > 0, i&4 > 0
		s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass", "smooth-stalked-meadow-grass")
		s.Season, s.Winter = 0.6, winter
		first := 0
		if winter {
			first = 1
		}
		e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 5, 3)
		if seen {
			e.scales = Seen()
		}
		if watered { // in the first season alone: half of the drought, more growth
			for _, st := range e.stands {
				for _, y := range st.years {
					y.DroughtDays /= 2
					y.growth *= 1.1
					st.first = append(st.first, y)
				}
			}
		}
		var foretold []Fates
		for zone := range c.Zones {
			e.Sow([]int{zone})
			foretold = append(foretold, e.Follow(s))
		}
		var moments []Moment
		for season := range Seasons {
			moments = append(moments, Moment{2020 + first + season, 1})
		}
		b := Before{At: Moment{Year: 2020}, Left: s.Season, Winter: winter, Zones: []int{0, 1}, Grass: s.Grass, Plants: s.Plants, Bare: true}
		p := e.NewPast(GrowingOf(c), []Before{b}, nil, moments)
		p.Scales = e.scales
		run := make([]float64, p.Size())
		for lawn := range e.Lawns {
			z := apartAs(p, &e.Lawns[lawn])
			if winter { // what is sown is foretold in the light of the year that it grows in
				z[atYears] = z[atYears+1]
			}
			p.Run(lawn, z, len(moments), run)
			for zone, f := range foretold {
				for season := range Seasons {
					covers := p.Covers(run, season, zone)
					for k, want := range f.Parts[season][lawn*len(f.Grass) : (lawn+1)*len(f.Grass)] {
						if f.Grass[k] != p.Grass[k] {
							t.Fatalf("%v are followed, %v foretold", p.Grass, f.Grass)
						}
						near(t, fmt.Sprintf("winter %t, watered %t, seen %t, lawn %d, zone %d, season %d: %s", winter, watered, seen, lawn, zone, season, pool[f.Grass[k]].ID), covers[k], want, 1e-9)
					}
				}
			}
		}
	}
}

// What is foretold of a lawn is of its zones by their area; of a lawn confined to one zone it is that zone's.
func TestForetoldByArea(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 7, 3)
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	whole := e.Follow(s)
	e.Sow([]int{0})
	light := e.Follow(s)
	e.Sow([]int{1})
	dark := e.Follow(s)
	add := func(a, b float64) float64 { return 0.7*a + 0.3*b }
	for i := range e.Lawns {
		near(t, "cover", whole.Cover[i], add(light.Cover[i], dark.Cover[i]), 1e-12)
		near(t, "early", whole.Early[i], add(light.Early[i], dark.Early[i]), 1e-12)
		near(t, "of the light zone", whole.Zone[0][i], light.Cover[i], 1e-12)
		near(t, "of the dark zone", whole.Zone[1][i], dark.Cover[i], 1e-12)
		for k := range Lasting {
			near(t, "a season", whole.Season[i*Lasting+k], add(light.Season[i*Lasting+k], dark.Season[i*Lasting+k]), 1e-12)
		}
		// Mean of the seasons, each weighed alike, of each grass's share in it.
		life := whole.Life(i)
		n := len(whole.Grass)
		for k := range n {
			sum := 0.0
			for _, parts := range whole.Parts {
				total := 0.0
				for _, x := range parts[i*n : (i+1)*n] {
					total += x
				}
				sum += parts[i*n+k] / total
			}
			near(t, "life", life[k], sum/Seasons, 1e-12)
		}
	}
	for season := range Seasons {
		near(t, "weeds", whole.Weeds[season], add(light.Weeds[season], dark.Weeds[season]), 1e-12)
		near(t, "moss", whole.Moss[season], add(light.Moss[season], dark.Moss[season]), 1e-12)
		for k := range whole.Parts[season] {
			near(t, "parts", whole.Parts[season][k], add(light.Parts[season][k], dark.Parts[season][k]), 1e-12)
		}
	}
	// Two parts that are sown alike are the lawn that is sown so; of parts that are not every grass has what it has in its own.
	both := Together([]Fates{light, dark}, []float64{0.7, 0.3})
	same := func(what string, got, want []float64) {
		if len(got) != len(want) {
			t.Fatalf("%s: %d figures for %d", what, len(got), len(want))
		}
		for i := range want {
			near(t, "together, "+what, got[i], want[i], 1e-12)
		}
	}
	same("cover", both.Cover, whole.Cover)
	same("seasons", both.Season, whole.Season)
	same("early", both.Early, whole.Early)
	same("light zone", both.Zone[0], whole.Zone[0])
	same("dark zone", both.Zone[1], whole.Zone[1])
	same("weeds", both.Weeds[:], whole.Weeds[:])
	same("moss", both.Moss[:], whole.Moss[:])
	for season := range Seasons {
		same("parts", both.Parts[season], whole.Parts[season])
	}
	unlike := e.Follow(sowing(t, pool, "tall-fescue")) // still the dark zone alone
	apart := Together([]Fates{light, unlike}, []float64{0.7, 0.3})
	n := len(apart.Grass)
	for k, g := range apart.Grass {
		for i := range e.Lawns {
			want := 0.0
			if at := slices.Index(light.Grass, g); at >= 0 {
				want += 0.7 * light.Parts[2][i*len(light.Grass)+at]
			}
			if at := slices.Index(unlike.Grass, g); at >= 0 {
				want += 0.3 * unlike.Parts[2][i*len(unlike.Grass)+at]
			}
			near(t, "apart, "+pool[g].ID, apart.Parts[2][i*n+k], want, 1e-12)
		}
	}
	if n <= len(light.Grass) || !slices.IsSorted(apart.Grass) {
		t.Errorf("grasses %v of %v and %v", apart.Grass, light.Grass, unlike.Grass)
	}
	// Alone on its lawns as among others: weeds and moss are means of lawns.
	if whole.Weeds[2] <= 0 || whole.Weeds[2] >= 1 || whole.Moss[4] < 0 || whole.Moss[4] >= 1 {
		t.Errorf("weeds %v, moss %v", whole.Weeds, whole.Moss)
	}
	e.Weeded = true
	if weeded := e.Follow(s); weeded.Weeds != [Seasons]float64{} {
		t.Error("weeds on a weeded lawn")
	}
}

// neutral sets nothing apart; its tails are of scale one.
func neutral(p *Past) []float64 {
	z := make([]float64, p.Dim())
	for k := range tails {
		z[atTails+k] = 1
	}
	return z
}

// Between spring, midsummer and autumn a sward goes in a straight line by the growth that is over, and what stands in spring is
// what winter left of autumn; a young sowing comes up in a straight line, and what isn't sown yet isn't there.
func TestMomentsOfThePast(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 3, 3)
	growing := GrowingOf(c)
	est := growing.established()
	parts := []float64{0, 0.2, 0.5, 0.6, 1}
	young := []float64{0.05, 0.1, 0.1 + est/2, 0.1 + est, 0.1 + est + 0.25*(0.9-est), 1, 0.1 + est + 0.5*(0.9-est)}
	var moments []Moment
	for _, x := range young {
		moments = append(moments, Moment{2020, x})
	}
	for year := 2021; year <= 2023; year++ {
		for _, x := range parts {
			moments = append(moments, Moment{year, x})
		}
	}
	at := Moment{2020, 0.1}
	sown := []Before{
		{At: at, Left: 0.7, Zones: []int{0}, Grass: s.Grass, Plants: s.Plants, Bare: true},
		{At: Moment{2022, 0}, Left: 1, Zones: []int{1}, Grass: s.Grass, Plants: s.Plants, Bare: true},
	}
	p := e.NewPast(growing, sown, nil, moments)
	if p.first != 2020 || p.years != 4 || p.Zones() != 2 || p.Size() != len(moments)*2*len(p.Grass) || p.Untold(0) || p.Untold(1) {
		t.Fatalf("from %d, %d years, %d zones", p.first, p.years, p.Zones())
	}
	if want := 3 + tails - 1 + 4 + 2 + 2*4 + len(p.Grass)*(3+4+2*2); p.Dim() != want {
		t.Errorf("%d normals set a lawn apart, want %d", p.Dim(), want)
	}
	// One zone in twenty fails in a year: of a normal that one in twenty passes all is kept, of one that one in a hundred
	// does a fifth; of the year and the zone that it is for.
	z := make([]float64, p.Dim())
	for x, kept := range map[float64]float64{1.6448536: 1, 2.3263479: 0.2, 1: 1, -3: 1} {
		z[3+tails-1+4+2+4+2] = x
		near(t, "kept", p.fails(z, 1, 2), kept, 1e-6)
		near(t, "in another year", p.fails(z, 1, 1), 1, 0)
		near(t, "in another zone", p.fails(z, 0, 2), 1, 0)
	}
	run := make([]float64, p.Size())
	const lawn = 1
	p.Run(lawn, neutral(p), len(moments), run)
	cover := func(moment, zone, k int) float64 { return p.Covers(run, moment, zone)[k] }
	n := len(young)
	for k := range p.Grass {
		near(t, "before it was sown", cover(0, 0, k), 0, 0)
		near(t, "as it is sown", cover(1, 0, k), 0, 0)
		near(t, "half up", cover(2, 0, k), cover(3, 0, k)/2, 1e-12)
		near(t, "half-way to midsummer", cover(4, 0, k), (cover(3, 0, k)+cover(6, 0, k))/2, 1e-12)
		for year := range 3 {
			from := n + year*len(parts)
			zone := 0
			if year == 2 {
				zone = 1
			}
			spring, summer, autumn := cover(from, zone, k), cover(from+2, zone, k), cover(from+4, zone, k)
			near(t, "two fifths of the way to midsummer", cover(from+1, zone, k), spring+0.4*(summer-spring), 1e-12)
			near(t, "a fifth of the way from it", cover(from+3, zone, k), summer+0.2*(autumn-summer), 1e-12)
		}
		// Winter by winter, each of its year.
		for year := range 3 {
			before := 5 // autumn of 2020
			if year > 0 {
				before = n + year*len(parts) - 1
			}
			near(t, "what winter left", cover(n+year*len(parts), 0, k), cover(before, 0, k)*p.base[k*3+lawn].winter[year], 1e-12)
		}
		near(t, "not sown yet", cover(n+4, 1, k), 0, 0)
	}
	// The first so many moments alone are looked at.
	clear(run)
	p.Run(lawn, neutral(p), n, run)
	if cover(n, 0, 0) != 0 || cover(5, 0, slices.Index(p.Grass, s.Grass[0])) == 0 {
		t.Error("not the moments that were asked for")
	}
}

// A later sowing shows from its day on: before the season, at midsummer or after it.
func TestLaterSowings(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 3, 3)
	first := Before{At: Moment{2020, 0}, Left: 1, Zones: []int{0, 1}, Grass: s.Grass[:1], Plants: []float64{300}, Bare: true}
	moments := []Moment{{2021, 1}, {2022, 0}, {2022, 0.5}, {2022, 1}, {2023, 0}}
	follow := func(later ...Before) (covers []float64) {
		p := e.NewPast(GrowingOf(c), append([]Before{first}, later...), nil, moments)
		k := slices.Index(p.Grass, s.Grass[1])
		run := make([]float64, p.Size())
		p.Run(0, neutral(p), len(moments), run)
		for i := range moments {
			if k < 0 {
				covers = append(covers, 0)
				continue
			}
			covers = append(covers, p.Covers(run, i, 0)[k])
		}
		return covers
	}
	for part, shows := range map[float64]int{0: 1, 0.24: 1, 0.26: 2, 0.5: 2, 0.74: 2, 0.76: 3, 1: 3} {
		got := follow(Before{At: Moment{2022, part}, Zones: []int{0}, Grass: s.Grass[1:], Plants: []float64{4000}})
		for i, x := range got {
			if (x > 0) != (i >= shows) {
				t.Errorf("sown into at %g of the year: at %v %g", part, moments[i], x)
			}
		}
	}
	// On bare ground nothing is left of what stood: all of the cover is of what was sown, by what it claims.
	bare := Before{At: Moment{2022, 0}, Zones: []int{0}, Grass: s.Grass[1:], Plants: []float64{4000}, Bare: true}
	p := e.NewPast(GrowingOf(c), []Before{first, bare}, nil, moments)
	run := make([]float64, p.Size())
	p.Run(0, neutral(p), len(moments), run)
	for k, x := range p.Covers(run, 1, 0) {
		if (x > 0) != (p.Grass[k] == s.Grass[1]) {
			t.Errorf("after the spade: %s covers %g", pool[p.Grass[k]].ID, x)
		}
	}
	near(t, "the other zone keeps what stood", p.Covers(run, 1, 1)[slices.Index(p.Grass, s.Grass[1])], 0, 0)
}

// Plants take the gaps by what they claim: 0.2 and 0.1 m² of claims over 1.3, of six tenths that are open, by the capacity of
// each; of unknown origin they are e² as many for a standard deviation.
func TestSowIntoAPast(t *testing.T) {
	p := &Past{Grass: []int{3, 8}, years: 2, opens: make([]opening, 1)}
	p.claim = [maxGrass]float64{4e-4, 1e-4}
	h := &p.history
	h.n, h.weeds = 2, maxGrass
	h.x, h.capacity = [maxGrass]float64{0.3, 0.1}, [maxGrass]float64{0.9, 0.5}
	p.sow([]float64{500, 1000}, nil, nil)
	near(t, "the one", h.x[0], 0.3+0.6*0.9*0.2/1.3, 1e-12)
	near(t, "the other", h.x[1], 0.1+0.6*0.5*0.1/1.3, 1e-12)
	h.x = [maxGrass]float64{}
	z := neutral(p)
	p.of(z, 1)[ofOrigin] = 0.5
	p.sow([]float64{500, 1000}, []bool{false, true}, z)
	claim := 0.1 * math.E
	near(t, "of unknown origin, the one", h.x[0], 0.9*0.2/(1.2+claim), 1e-12)
	near(t, "of unknown origin, the other", h.x[1], 0.5*claim/(1.2+claim), 1e-12)
}

// How a zone begins: a sward of unknown age two years before it is first known, of 500 plants of each grass of old lawns and of
// what was found; where it was sown, what was found besides came in by itself, 25 plants.
func TestOpenings(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 2, 3)
	found := slices.IndexFunc(pool, func(sp *species.Species) bool { return sp.ID == "hard-fescue" })
	sown := []Before{{At: Moment{2021, 0.3}, Left: 1, Zones: []int{1}, Grass: s.Grass, Plants: []float64{1000, 2000}, Bare: true}}
	p := e.NewPast(GrowingOf(c), sown, []int{found, s.Grass[0]}, []Moment{{2023, 0.5}, {2022, 0.25}})
	if p.first != 2019 || p.years != 5 || p.moments[0] != (Moment{4, 0.5}) || p.moments[1] != (Moment{3, 0.25}) || !p.Untold(0) || p.Untold(1) {
		t.Fatalf("from %d, %d years, moments %v", p.first, p.years, p.moments)
	}
	for k, g := range p.Grass {
		sp := pool[g]
		old := sp.Is(species.OfOldLawns)
		want, known := 0.0, true
		if old || g == found || g == s.Grass[0] {
			want, known = 500, false
		}
		if o := p.opens[0]; o.year != 0 || o.plants[k] != want || o.origin[k] == known {
			t.Errorf("of unknown age: %s of %g plants, origin unknown %t", sp.ID, o.plants[k], o.origin[k])
		}
		want, known = 0, true
		switch g {
		case s.Grass[0]:
			want = 1000
		case s.Grass[1]:
			want = 2000
		case found:
			want, known = 25, false
		}
		if o := p.opens[1]; o.year != 2 || o.plants[k] != want || o.origin[k] == known {
			t.Errorf("sown: %s of %g plants, origin unknown %t", sp.ID, o.plants[k], o.origin[k])
		}
		if !(old || g == found || slices.Contains(s.Grass, g) || sp.Values[species.Volunteer].High > 0) {
			t.Errorf("%s is followed", sp.ID)
		}
	}
	for g, sp := range pool {
		if held := slices.Contains(p.Grass, g); sp.Is(species.OfOldLawns) && !held || sp.Values[species.Volunteer].High > 0 && !held {
			t.Errorf("%s isn't followed", sp.ID)
		}
	}
	// Where all was sown on bare ground none is of old lawns, and nothing is followed before.
	sown[0].Zones = []int{0, 1}
	p = e.NewPast(GrowingOf(c), sown, nil, []Moment{{2023, 0.5}})
	if p.first != 2021 || p.years != 3 {
		t.Errorf("from %d, %d years", p.first, p.years)
	}
	sown[0].Bare = false // into a sward: its age is not known
	p = e.NewPast(GrowingOf(c), sown, nil, []Moment{{2023, 0.5}})
	if p.first != 2019 || !p.Untold(1) || len(p.events[0]) != 1 || p.events[0][0].year != 2 || p.events[0][0].part != 1 || p.events[0][0].bare {
		t.Errorf("sown into: from %d, %+v", p.first, p.events)
	}
}

// The lawn that is left of a past: what lasts of the one it was drawn from, what a year brings of the one it takes the place of.
func TestLawnOfAPast(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 4, 3)
	p := e.NewPast(GrowingOf(c), []Before{{At: Moment{2020, 0}, Left: 1, Zones: []int{0, 1}, Grass: s.Grass, Plants: s.Plants, Bare: true}}, nil, []Moment{{2022, 1}})
	const i, of = 2, 1
	got, own, from := p.lawn(i, of, apartAs(p, &e.Lawns[of])), e.Lawns[i], e.Lawns[of]
	if got.Start != own.Start {
		t.Errorf("begins in %d, not %d", got.Start, own.Start)
	}
	for k := range got.Place {
		want := from.Place[k]
		if k >= drawCoverYear && k < drawZoneCover {
			want = own.Place[k]
		}
		if k >= drawZoneCover+2 { // zones that it hasn't
			want = from.Place[k]
		}
		near(t, fmt.Sprintf("draw %d of the place", k), got.Place[k], want, 0)
	}
	for g := range pool {
		if !slices.Contains(p.Grass, g) {
			if got.Grass[g] != nil {
				t.Errorf("%s isn't of the past", pool[g].ID)
			}
			continue
		}
		if got.Grass[g].Traits != from.Grass[g].Traits {
			t.Errorf("traits of %s", pool[g].ID)
		}
		for k := range got.Grass[g].Effects {
			want := own.Grass[g].Effects[k]
			zone := k >= drawZoneEstablish && k < drawZoneEstablish+2 || k >= drawZoneMerit && k < drawZoneMerit+2
			if k == drawEstablish || k == drawMerit || zone {
				want = from.Grass[g].Effects[k]
			}
			near(t, fmt.Sprintf("draw %d of %s", k, pool[g].ID), got.Grass[g].Effects[k], want, 0)
		}
	}
	near(t, "light", p.Light(of), math.Exp(e.lightSD*e.Lawns[of].Place[drawLight]), 1e-12)
	// Merit of a zone by hand: 0.3 of how it establishes and √0.91 of its own, each with 0.7 of its variance in common.
	p.Scales = Unseen()
	z := neutral(p)
	d := p.of(z, 0)
	d[ofEstablish], d[ofMerit], d[ofYears+p.years+2], d[ofYears+p.years+3] = 1, 2, -0.5, 0.25
	establish := math.Sqrt(0.7) - 0.5*math.Sqrt(0.3)
	near(t, "merit", p.Merit(z, 0, 1), 0.3*establish+math.Sqrt(0.91)*(2*math.Sqrt(0.7)+0.25*math.Sqrt(0.3)), 1e-12)
	near(t, "merit in the other zone", p.Merit(z, 0, 0), 0.3*math.Sqrt(0.7)+math.Sqrt(0.91)*2*math.Sqrt(0.7), 1e-12)
	// What mould leaves of each grass, by its own traits in the year of the lawn.
	mould := p.Mould(0, 1)
	for lawn := range e.Lawns {
		for k, g := range p.Grass {
			traits := pool[g].At(&e.Lawns[lawn].Grass[g].Traits)
			year := e.stands[1].years[(e.Lawns[lawn].Start+2)%12].Year
			near(t, "mould", mould[lawn*len(p.Grass)+k], species.MouldSurvival(&traits, &year), 1e-12)
		}
	}
}

// What a record says of the figures of grasses, by hand: of lawns that are all as likely nothing, of one lawn how far it lies
// from the mean, and what sets it apart.
func TestShiftsOfARecord(t *testing.T) {
	c := twoZones(t)
	pool := tableOf(t).All()
	s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass")
	e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 3, 3)
	p := e.NewPast(GrowingOf(c), []Before{{At: Moment{2020, 0}, Left: 1, Zones: []int{0, 1}, Grass: s.Grass, Plants: s.Plants, Bare: true}}, nil, []Moment{{2021, 1}, {2022, 1}})
	run := make([]float64, p.Size())
	p.Run(0, neutral(p), 2, run)
	none := neutral(p)
	k := p.Known([]int{0, 1, 2}, [][]float64{none, none, none}, [][]float64{run, run, run}, 1)
	for zone := range 2 {
		for g, x := range k.shifts[zone] {
			for _, v := range []float64{x.capacity, x.claim, x.volunteer, x.gain, x.summer, x.winter} {
				near(t, "shift of "+pool[g].ID, v, 0, 1e-9)
			}
		}
		for i := range k.Lawns {
			for g, x := range k.Stands(i, zone) {
				want := 0.0
				if at := slices.Index(p.Grass, g); at >= 0 {
					want = p.Covers(run, 1, zone)[at]
				}
				near(t, "stands", x, want, 0)
				near(t, "stands in the mean", k.MeanStand(zone)[g], want, 1e-12)
			}
		}
	}
	for id, moved := range k.Traits {
		for _, v := range moved {
			near(t, "traits of "+id, v, 0, 1e-9)
		}
	}
	near(t, "of fifty lawns the last", float64(k.Pick(49, 50)), 2, 0) // 49 · 3 / 50
	near(t, "the seventeenth", float64(k.Pick(17, 50)), 1, 0)
	near(t, "the sixteenth", float64(k.Pick(16, 50)), 0, 0)

	p.Scales = Unseen()
	z := neutral(p)
	z[atCover], z[atVolunteers], z[atYears+p.years+1] = 1, 0.5, -0.5
	at := slices.Index(p.Grass, s.Grass[1])
	d := p.of(z, at)
	d[ofEstablish], d[ofMerit] = 1, 2
	k = p.Known([]int{2, 2}, [][]float64{z, z}, [][]float64{run, run}, 0)
	for zone, own := range []float64{0, -0.5} {
		got := k.shifts[zone][s.Grass[1]]
		column := func(lawn int) *pastColumn { return &p.base[(zone*len(p.Grass)+at)*3+lawn] }
		off := func(of func(c *pastColumn) float64) float64 {
			return of(column(2)) - (of(column(0))+of(column(1))+of(column(2)))/3
		}
		mean := func(of func(c *pastColumn) []float64) func(c *pastColumn) float64 {
			return func(c *pastColumn) (sum float64) {
				for _, x := range of(c) {
					sum += math.Log(x) / float64(p.years)
				}
				return sum
			}
		}
		near(t, "capacity", got.capacity, 0.6*(math.Sqrt(0.7)+own*math.Sqrt(0.3))+off(func(c *pastColumn) float64 { return math.Log(c.capacity / (1 - c.capacity)) }), 1e-9)
		near(t, "claim", got.claim, math.Sqrt(0.7)*0.6/math.Sqrt2+off(func(c *pastColumn) float64 { return math.Log(c.claim) }), 1e-9)
		near(t, "volunteers", got.volunteer, 0.7*0.5, 1e-9) // ryegrass doesn't come in by itself
		merit := 0.3*math.Sqrt(0.7) + math.Sqrt(0.91)*2*math.Sqrt(0.7)
		near(t, "gain", got.gain, 0.2*merit/math.Sqrt2/2+off(mean(func(c *pastColumn) []float64 { return c.gain })), 1e-9)
		near(t, "summer", got.summer, off(mean(func(c *pastColumn) []float64 { return c.summer })), 1e-9)
		near(t, "winter", got.winter, off(mean(func(c *pastColumn) []float64 { return c.winter })), 1e-9)
	}
	// A grass that isn't of the past has what the lawn has.
	other := slices.IndexFunc(pool, func(sp *species.Species) bool { return sp.ID == "hard-fescue" })
	if got := k.shifts[0][other]; math.Abs(got.capacity-0.6*math.Sqrt(0.7)) > 1e-9 || math.Abs(got.volunteer-0.35) > 1e-9 || got.claim != 0 || got.gain != 0 {
		t.Errorf("one that isn't there: %+v", got)
	}
	for _, tr := range []species.Trait{species.LT50C, species.Wear, species.Persistence} {
		sp, want := pool[s.Grass[1]], 0.0
		for lawn, w := range []float64{-1.0 / 3, -1.0 / 3, 2.0 / 3} {
			traits := sp.At(&e.Lawns[lawn].Grass[s.Grass[1]].Traits)
			want += w * traits[tr]
		}
		near(t, "moved "+tr.String(), k.Traits[sp.ID][tr], want, 1e-9)
	}
	// As many lawns as the ensemble has, each with its own beginning.
	starts := []int{e.Lawns[0].Start, e.Lawns[1].Start, e.Lawns[2].Start}
	e.Know(k)
	for i, of := range []int{0, 0, 1} { // i · 2 / 3
		if e.Lawns[i].Start != starts[i] || e.Lawns[i].Place != k.Lawns[of].Place {
			t.Errorf("lawn %d is not of %d", i, of)
		}
		near(t, "its place is read again", e.places[2*i].off.light, e.lightSD*k.Lawns[of].Place[drawLight], 1e-12)
	}
}

// A field's figures moved by a record, by hand.
func TestFieldKnows(t *testing.T) {
	f := plain(2, 2)
	z := &f.Zones[0]
	z.Capacity, z.Claim, z.Volunteer = []float64{0.8, 0.8}, []float64{3e-4, 3e-4}, []float64{0.1, 0.1}
	z.Gain, z.Summer, z.Winter = fill[float32](4, 2), fill[float32](4, 0.5), fill[float32](4, 0.5)
	z.First = &First{Gain: fill[float32](4, 3), Summer: fill[float32](4, 0.4), Growth: fill[float32](2, 1)}
	f.Know(&Known{zones: 1, shifts: [][]shift{{{}, {capacity: -1, claim: 0.5, volunteer: -0.5, gain: 0.25, summer: -0.5, winter: 2}}}})
	for what, pair := range map[string][2]float64{
		"capacity": {z.Capacity[1], 1 / (1 + 0.25*math.E)}, "claim": {z.Claim[1], 3e-4 * math.Exp(0.5)}, "volunteer": {z.Volunteer[1], 0.1 * math.Exp(-0.5)},
		"gain": {float64(z.Gain[3]), 2 * math.Exp(0.25)}, "summer": {float64(z.Summer[1]), 0.5 * math.Exp(-0.5)}, "winter, whole at the most": {float64(z.Winter[3]), 1},
		"first gain": {float64(z.First.Gain[1]), 3 * math.Exp(0.25)}, "first summer": {float64(z.First.Summer[3]), 0.4 * math.Exp(-0.5)},
		"another's capacity": {z.Capacity[0], 0.8}, "another's gain": {float64(z.Gain[2]), 2}, "another's winter": {float64(z.Winter[0]), 0.5},
	} {
		near(t, what, pair[0], pair[1], 1e-6)
	}
	for p, want := range map[float64]float64{0: 0, 1: 1, 0.5: 1 / (1 + math.Exp(-2))} {
		near(t, "odds", odds(p, 2), want, 1e-12)
	}
}

// seasonal is a site whose grass grows in full from day 100 to day 299 of one year and half as much of the next.
func seasonal() *site.Conditions {
	d := &weather.Days{Series: &weather.Series{Years: 2}, Growth: make([]float32, 730), SoilC: make([]float32, 730)}
	for m := range d.Normals.MeanC {
		d.Normals.MeanC[m] = 10 - 10*math.Cos(2*math.Pi*float64(m)/12)
	}
	for i := range d.Growth {
		if day := i % 365; day >= 100 && day < 300 {
			d.Growth[i] = 1 - 0.5*float32(i/365)
		}
		d.SoilC[i] = float32(13 - 13*(i/365))
	}
	return &site.Conditions{Zones: []site.Zone{{Zone: light.Zone{Share: 1}, Days: d}}}
}

// First seasons by hand: of 150 days of full growth in the mean year three quarters of what comes after a sowing, less 25; under
// four tenths of it a winter comes first.
func TestFirstSeasonWorked(t *testing.T) {
	c := seasonal()
	for _, r := range []struct {
		day    int
		left   float64
		winter bool
	}{
		{0, 0.75, false}, {50, 125.0 / 150, false}, {150, (112.5 - 25) / 150, false}, {219, (60.75 - 25) / 150, false}, {221, 1, true}, {340, 1, true},
	} {
		left, winter := FirstSeason(c, r.day)
		near(t, fmt.Sprintf("sown on day %d", r.day), left, r.left, 1e-9)
		if winter != r.winter {
			t.Errorf("day %d: winter first %t", r.day, winter)
		}
	}
	// In a short season a spring sowing may leave nothing of it; with no growth at all it is as any.
	d := c.Zones[0].Days
	for i := range d.Growth {
		d.Growth[i] /= 7
	}
	left, winter := FirstSeason(c, 120)
	if left != 0 || winter {
		t.Errorf("a season of 21 days: %g left, winter %t", left, winter)
	}
	clear(d.Growth)
	if left, winter := FirstSeason(c, 120); left != 0.75 || winter {
		t.Errorf("no season: %g left, winter %t", left, winter)
	}
	if left, winter := FirstSeason(&site.Conditions{Zones: make([]site.Zone, 1)}, 120); left != 0.75 || winter {
		t.Errorf("no days: %g left, winter %t", left, winter)
	}
}

// The year as the model knows it: from its coldest day on, by the growth that is over.
func TestMomentsWorked(t *testing.T) {
	g := GrowingOf(seasonal())
	if g.Coldest < 5 || g.Coldest > 25 { // about the middle of January
		t.Fatalf("coldest on day %d", g.Coldest)
	}
	day := func(year, n int) time.Time { return time.Date(year, 1, 1+n, 12, 0, 0, 0, time.UTC) }
	for _, r := range []struct {
		day  time.Time
		want Moment
	}{
		{day(2026, 50), Moment{2026, 0}}, {day(2026, 100), Moment{2026, 0}}, {day(2026, 101), Moment{2026, 0.005}}, {day(2026, 200), Moment{2026, 0.5}}, {day(2026, 350), Moment{2026, 1}},
		{day(2026, g.Coldest), Moment{2026, 0}}, {day(2026, g.Coldest-1), Moment{2025, 1}},
	} {
		got := g.At(r.day)
		if got.Year != r.want.Year || math.Abs(got.Part-r.want.Part) > 1e-6 {
			t.Errorf("%v: %+v, want %+v", r.day, got, r.want)
		}
	}
	near(t, "established after 25 of 150 days", g.established(), 1.0/6, 1e-9)
	near(t, "and in a shorter season never sooner than its end", (&Growing{}).established(), 1, 0)
	if m := (&Growing{}).At(day(2026, 50)); m != (Moment{Year: 2026}) {
		t.Errorf("without growth: %+v", m)
	}
}

// Seedlings by hand: 130 °C d over 5 °C in soil of 13 °C are up on day 17, 80 °C d on day 10; half of all plants are up when
// the quick ones are where those are the most. In frozen soil none is within a year.
func TestUpWorked(t *testing.T) {
	c := seasonal()
	sure := func(dd float64) *species.Species {
		sp := &species.Species{ID: fmt.Sprint(dd)}
		for tr, x := range map[species.Trait]float64{species.EmergeDegDays: dd, species.GermBaseC: 5} {
			sp.Values[tr] = species.Value{Low: x, Best: x, High: x}
		}
		return sp
	}
	e := &Ensemble{pool: []*species.Species{sure(80), sure(130)}, Lawns: []Lawn{{Grass: []*Draws{{}, {}}}, {Start: 1, Grass: []*Draws{{}, {}}}}}
	p := &Past{e: e, first: 2020}
	for _, r := range []struct {
		quick, slow float64
		year        int
		want        [2]float64
	}{
		{100, 50, 2020, [2]float64{10, 365}}, {40, 100, 2020, [2]float64{17, 365}}, {100, 100, 2020, [2]float64{10, 365}}, {100, 50, 2021, [2]float64{365, 10}},
	} {
		up := p.Up(c, &Before{At: Moment{Year: r.year}, Zones: []int{0}, Grass: []int{0, 1}, Plants: []float64{r.quick, r.slow}}, 0, Water{})
		for lawn, want := range r.want {
			near(t, fmt.Sprintf("%+v, lawn %d", r, lawn), up[lawn], want, 0)
		}
	}
	// On the eighth last day of the warm year eight days of 8 K are all there is before the cold one.
	up := p.Up(c, &Before{Zones: []int{0}, At: Moment{Year: 2020}, Grass: []int{0}, Plants: []float64{9}}, 357, Water{})
	near(t, "a year too late", up[0], 365, 0)
	up = p.Up(c, &Before{Zones: []int{0}, At: Moment{Year: 2020}, Grass: []int{0}, Plants: []float64{9}}, 355, Water{})
	near(t, "in time", up[0], 10, 0)
	// Where water lets seed stir by half it takes twice as long.
	half := make([]float32, 730)
	for i := range half {
		half[i] = 0.5
	}
	up = p.Up(c, &Before{Zones: []int{0}, At: Moment{Year: 2020}, Grass: []int{0}, Plants: []float64{9}}, 0, Water{Stir: half})
	near(t, "half dry", up[0], 20, 0)
}

// First cuts by hand: sown on day 0, up on day 10, and where a day's 14 °C add 11 degree-days a grass of vigour 1 has grown to 75 mm,
// 300 of them, 28 days later (300/11 = 27.3), one of vigour 0.5 44 days (480/11), and to 60 mm 35 (384/11). Under snow nothing grows; a frost of
// -10 °C on day 20 kills half of the leaf, five days' growth; a trace that is quicker isn't cut for; seedlings that are up six days late are cut as much later.
func TestCutWorked(t *testing.T) {
	c := seasonal()
	d := c.Zones[0].Days
	d.Series = &weather.Series{Years: 2, MeanC: make([]float32, 730), SnowCM: make([]float32, 730)}
	d.CrownC = make([]float32, 730)
	for m := range 12 {
		d.Exposure.DLI[m], d.Exposure.OpenShare[m] = 60, 1
	}
	for i := range d.MeanC {
		d.MeanC[i], d.SoilC[i] = 14, 13
	}
	sure := func(dd, vigour float64) *species.Species {
		sp := &species.Species{ID: fmt.Sprint(dd)}
		for tr, x := range map[species.Trait]float64{species.EmergeDegDays: dd, species.GermBaseC: 5, species.Vigour: vigour} {
			sp.Values[tr] = species.Value{Low: x, Best: x, High: x}
		}
		return sp
	}
	e := &Ensemble{pool: []*species.Species{sure(80, 1), sure(80.1, 0.5)}, Lawns: []Lawn{{Grass: []*Draws{{}, {}}}}}
	p := &Past{e: e, first: 2020}
	for _, r := range []struct {
		weight     [2]float64
		kept, late float64
		snow       int     // days of it from day 20 on
		crownC     float32 // on day 20
		want       float64
	}{
		{[2]float64{0.5, 0.5}, 50, 0, 0, 0, 10 + 28},
		{[2]float64{0.05, 0.95}, 50, 0, 0, 0, 11 + 44},
		{[2]float64{0.1, 0.9}, 50, 0, 0, 0, 10 + 28},
		{[2]float64{0.09, 0.91}, 50, 0, 0, 0, 11 + 44},
		{[2]float64{0.05, 0.95}, 40, 0, 0, 0, 11 + 35},
		{[2]float64{0.5, 0.5}, 50, 0, 5, 0, 10 + 28 + 5},
		{[2]float64{0.5, 0.5}, 50, 0, 0, -10, 10 + 28 + 5},
		{[2]float64{0.5, 0.5}, 50, 6, 0, 0, 16 + 28},
	} {
		clear(d.SnowCM)
		for i := range r.snow {
			d.SnowCM[20+i] = 3
		}
		d.CrownC[20] = r.crownC
		got := p.Cut(c, &Before{At: Moment{Year: 2020}, Zones: []int{0}, Grass: []int{0, 1}, Plants: []float64{9, 9}, Weight: r.weight[:]}, 0, r.kept, []float64{r.late}, Water{})
		near(t, fmt.Sprintf("%+v", r), got[0], r.want, 0)
	}
	// Of two frosts the harder takes what the first left of its own: on day 15, with 55 grown, a quarter, and on day 20, with 41.25 + 55,
	// a third of it, so that half of all before day 15 and a third of the rest are gone: 64.17 are left, and 235.83 take 22 days.
	d.CrownC[15], d.CrownC[20] = -7.5, -10
	got := p.Cut(c, &Before{At: Moment{Year: 2020}, Zones: []int{0}, Grass: []int{0}, Plants: []float64{9}, Weight: []float64{1}}, 0, 50, nil, Water{})
	near(t, "two frosts", got[0], 20+22, 0)
	d.CrownC[15] = 0
	// Sown in the second year, and near its end, it goes on with the first.
	for _, day := range []int{0, 360} {
		got = p.Cut(c, &Before{At: Moment{Year: 2021}, Zones: []int{0}, Grass: []int{0}, Plants: []float64{9}, Weight: []float64{1}}, day, 50, nil, Water{})
		want := 10.0 + 28
		if day == 360 {
			want += 7 // the frost of day 20 takes half of the 15 days' growth since day 5: 382.5/11 = 34.8
		}
		near(t, fmt.Sprintf("second year, day %d", day), got[0], want, 0)
	}
	// Where most plants are of a grass that is up on day 50, what is tall on day 38 is cut on the fiftieth.
	d.CrownC[20] = 0
	e.pool[1].Values[species.EmergeDegDays] = species.Value{Low: 400, Best: 400, High: 400}
	got = p.Cut(c, &Before{At: Moment{Year: 2020}, Zones: []int{0}, Grass: []int{0, 1}, Plants: []float64{9, 30}, Weight: []float64{0.5, 0.5}}, 0, 50, nil, Water{})
	near(t, "still coming up", got[0], 50, 0)
	// Half of the water for growth is half of it: 300/5.5 = 54.5.
	half := make([]float32, 730)
	for i := range half {
		half[i] = 0.5
	}
	d.CrownC[20] = 0
	got = p.Cut(c, &Before{At: Moment{Year: 2020}, Zones: []int{0}, Grass: []int{0}, Plants: []float64{9}, Weight: []float64{1}}, 0, 50, nil, Water{Grow: half})
	near(t, "half dry", got[0], 10+55, 0)
}
