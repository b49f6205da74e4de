package sward

import (
	"math"
	"testing"

	"swardwright/internal/approx"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

var near = approx.Near

// Seedlings by hand: one that is up after 13 days at 15 °C and of middling vigour claims 3 cm² in eight weeks; ten days more cost
// e^-0.75 of it, full vigour brings e^1.1.
func TestClaimWorked(t *testing.T) {
	grass := func(dd, vigour float64) *species.Traits {
		return &species.Traits{species.EmergeDegDays: dd, species.GermBaseC: 5, species.Vigour: vigour}
	}
	near(t, "middling", claim(grass(130, 0.5), 1), 3e-4, 1e-12)
	near(t, "late", claim(grass(230, 0.5), 1), 3e-4*math.Exp(-0.75), 1e-12)
	near(t, "vigorous", claim(grass(130, 1), 1), 3e-4*math.Exp(1.1), 1e-12)
	near(t, "both, half undone by the first cut", claim(grass(230, 1), 0.5), 3e-4*math.Exp(0.175), 1e-12)
	// The first cut, solved from Brede & Duich 1984: whole from 38 mm up, and at 13 mm 0.57 of it taken on day 9.
	near(t, "at 13 mm, at once", early(13, 9), 1-0.866*(25.0/38), 1e-9)
	near(t, "at 13 mm, 7.7 days later", early(13, 16.7), 1-0.866*(25.0/38)/math.E, 1e-9)
	near(t, "at 23 mm, cut 2.8 days later than at 13", firstCut(23), 1-0.866*(15.0/38)*math.Exp(-2.8/7.7), 1e-9)
	near(t, "at 38 mm", firstCut(38), 1, 0)
}

// Light by hand: the least is 9.4 mol in a season of 15 °C and 1.6 times that 10 K warmer; a sward keeps half of its cover
// there and 98.8 % of it a fifth above.
func TestLeastLightWorked(t *testing.T) {
	c := &site.Conditions{}
	for m := range c.Normals.MeanC {
		c.Normals.MeanC[m] = 15
	}
	near(t, "without a season", LeastDLI(c), 9.4, 1e-9)
	c.Sky.SeasonWeight[5], c.Sky.SeasonWeight[6] = 1, 3
	near(t, "at 15 °C", LeastDLI(c), 9.4, 1e-9)
	c.Normals.MeanC[5], c.Normals.MeanC[6] = 19, 27
	near(t, "at 25 °C", LeastDLI(c), 15.04, 1e-9)
	near(t, "at the least", lightLasts(10, 10, 0), 0.5, 1e-12)
	near(t, "a fifth above", lightLasts(12, 10, 0), 0.98759, 1e-4)
	near(t, "a fifth above, where rules may be wrong by as much", lightLasts(12, 10, math.Log(1.2)), 0.5, 1e-9)
	near(t, "in the dark", lightLasts(0, 10, 0), 0, 0)
}

// A grass in a stand by hand, all fits 1 but those named.
func TestGrassInStandWorked(t *testing.T) {
	g := species.Traits{species.LT50C: -20, species.HalfCoverDLI: 8, species.MowLowMM: 20, species.MowBestMM: 30, species.MowHighMM: 60, species.NitrogenGM2: 13,
		species.PHLow: 5.5, species.PHHigh: 7, species.SaltDSM: 4, species.Spread: 0.4, species.Volunteer: 0.2, species.Persistence: 0.3,
		species.EmergeDegDays: 130, species.GermBaseC: 5, species.Vigour: 0.5, species.StillAir: 1}
	s := &stand{dli: 16, open: 1, need: 1, cut: 30, phi: 1, fed: 13, nitrogen: 1, feed: 1, ph: 6, moist: 0.5, warm: 0.6, mild: 1}
	var none deviation
	const light = 1 / (1 + 0.125) // twice the light of half cover
	with := func(f func(*stand)) *stand { c := *s; f(&c); return &c }
	f := s.of(&g, false, &none)
	near(t, "capacity", f.capacity, 0.98*light, 1e-9)
	near(t, "claim", f.claim, 3e-4*light, 1e-12)
	near(t, "spread: half by tillering", f.spread, 0.5+0.5*0.4, 1e-9)
	near(t, "comes in by itself while it is moist", f.volunteer, 0.1, 1e-9)
	near(t, "merit", f.merit, 0.3+math.Log(light), 1e-9)
	f = with(func(s *stand) { s.cut = 20 }).of(&g, false, &none)
	near(t, "cut at the lowest: fit ½, by its fourth root", f.capacity, 0.98*light*math.Sqrt(math.Sqrt(0.5)), 1e-9)
	near(t, "and twice its logarithm", f.merit, 0.3+math.Log(light)+2*math.Log(0.5), 1e-9)
	f = with(func(s *stand) { s.dli, s.open = 8, 0.4 }).of(&g, false, &deviation{light: math.Ln2})
	near(t, "cut at 30 mm where four fifths of the light come in: as in the sun", f.capacity, 0.98*light, 1e-9)
	f = with(func(s *stand) { s.open = 0.325 }).of(&g, false, &none)
	near(t, "and where half of the way is shade: best 37.5 mm, lowest 25", f.merit, with(func(s *stand) { s.open, s.cut = 0.325, 37.5 }).of(&g, false, &none).merit+2*math.Log(1/(1+0.6*0.6)), 1e-9)
	f = with(func(s *stand) { s.ph = 4.5 }).of(&g, false, &none)
	near(t, "pH one unit off: fit ½, by its square root", f.capacity, 0.98*light*math.Sqrt(0.5), 1e-9)
	near(t, "and its logarithm", f.merit, 0.3+math.Log(light)+math.Log(0.5), 1e-9)
	f = with(func(s *stand) { s.ph = 4.5 }).of(&g, false, &deviation{ph: 1})
	near(t, "pH that was misjudged by as much", f.capacity, 0.98*light, 1e-9)
	f = with(func(s *stand) { s.salt = 9 }).of(&g, false, &none)
	near(t, "salt 5 dS/m over: 0.68, whole", f.capacity, 0.98*light*0.68, 1e-9)
	near(t, "and its logarithm", f.merit, 0.3+math.Log(light)+math.Log(0.68), 1e-9)
	f = with(func(s *stand) { s.fed, s.nitrogen = 6.5, 0.5 }).of(&g, false, &none)
	near(t, "half fed: fit ½", f.capacity, 0.98*light*math.Sqrt(0.5), 1e-9)
	near(t, "and its logarithm", f.merit, 0.3+math.Log(light)+math.Log(0.5), 1e-9)
	hungry := g
	hungry[species.NitrogenGM2] = 26
	f = with(func(s *stand) { s.fed, s.nitrogen = 26, 2 }).of(&hungry, false, &none)
	near(t, "feeding favours what needs it: 0.8 · 1 · 1", f.merit, 0.3+math.Log(light)+0.8, 1e-9)
	f = with(func(s *stand) { s.dli = 8 }).of(&g, false, &deviation{light: math.Ln2})
	near(t, "light twice what it was taken for", f.capacity, 0.98*light, 1e-9)
	tender := g
	tender[species.LT50C] = -14
	near(t, "a mild winter favours what doesn't rest", s.of(&tender, false, &none).merit, 0.3+math.Log(light)+0.1, 1e-9)
	near(t, "half as mild", with(func(s *stand) { s.mild = 0.5 }).of(&tender, false, &none).merit, 0.3+math.Log(light)+0.05, 1e-9)
	tender[species.LT50C] = -5
	near(t, "and no more than one and a half steps", s.of(&tender, false, &none).merit, 0.3+math.Log(light)+0.15, 1e-9)
	tender[species.LT50C] = -40
	near(t, "nor less than one", s.of(&tender, false, &none).merit, 0.3+math.Log(light)-0.1, 1e-9)
	f = s.of(&g, true, &none)
	near(t, "warm-season grass is green as long as it grows", f.green, 0.6, 1e-9)
	near(t, "and spreads so long", f.spread, 0.7*0.6, 1e-9)
}

// A year by hand: drought that leaves half, wear that leaves 0.6, warmth, winters.
func TestYearOfGrassWorked(t *testing.T) {
	g := species.Traits{species.LT50C: -20, species.Drought: 0, species.Heat: 1, species.Wet: 1, species.WarmthC: -30, species.Wear: 0, species.SnowMould: 0, species.IceDays: 40}
	s := &stand{heatDeath: 2, traffic: species.Light}
	calm := season{Year: weather.Year{HotMeanC: 10, Hardening: 1, CrownMinC: 20}, growth: 1}
	const worn = 1 - 0.15*0.5 // light traffic on a grass with no tolerance, of which full growth makes good half
	var none deviation
	gain, summer, winter := s.in(&calm, &g, 0.8, &none)
	near(t, "gain: e to half the merit, and what feet have thinned", gain, math.Exp(0.4)*worn, 1e-6)
	near(t, "summer", summer, worn, 1e-6)
	near(t, "winter", winter, 1, 1e-6)
	dry := calm
	dry.DroughtDays = 40 // halves a grass of no tolerance
	gain, summer, _ = s.in(&dry, &g, 0.8, &none)
	near(t, "drought: gain by the root of what is left", gain, math.Exp(0.4)*worn*math.Sqrt(0.5), 1e-6)
	near(t, "drought: summer", summer, worn*0.5, 1e-6)
	hot := calm
	hot.HotMeanC = 32.8 // halves a grass that stands heat best; by the power of the damp of the place
	_, summer, _ = s.in(&hot, &g, 0.8, &none)
	near(t, "heat: summer", summer, worn*0.25, 1e-6)
	warm := calm
	warm.warmth = 0.6
	gain, _, _ = s.in(&warm, &g, 0.8, &none)
	near(t, "a warm summer favours what stands heat: half of 0.6 · ½", gain, math.Exp(0.4+0.15)*worn, 1e-6)
	cold := calm
	cold.CrownMinC = -20
	_, _, winter = s.in(&cold, &g, 0.8, &none)
	near(t, "frost: half", winter, 0.5, 1e-6)
	_, _, winter = s.in(&cold, &g, 0.8, &deviation{crownC: 1.5})
	near(t, "frost that is 1.5 K less", winter, 1/(1+math.Exp(-1)), 1e-6)
	wet := calm
	wet.wetShare = 0.2
	wets := g
	wets[species.Wet] = 0
	_, summer, _ = s.in(&wet, &wets, 0.8, &deviation{wet: 0.25})
	near(t, "wet for a quarter: half", summer, worn*0.5, 1e-6)
}

// A zone by hand as the stand reads it: warmth of a summer with maxima of 28 °C is 1.2 · ½, growth goes with its root, damp
// heat with the wet days of the hottest month.
func TestStandWorked(t *testing.T) {
	z := site.Zone{Zone: light.Zone{Share: 1}, Years: []weather.Year{
		{HotC: 28, GrowthSum: 64, GrowingDays: 200, DroughtDays: 50, WarmSum: 20}, {HotC: 40, GrowthSum: 100, GrowingDays: 200, WarmSum: 62}, {HotC: 16, GrowthSum: 36, GrowingDays: 200}}}
	z.Light.OpenShare, z.Light.SkyView = 1, 1
	c := &site.Conditions{Zones: []site.Zone{z}, Soil: ground.Soil{OrganicPercent: 2}}
	for m := range c.Normals.MeanC {
		c.Normals.MeanC[m], c.Normals.WetDays[m] = 5, 20
	}
	c.Normals.MeanC[6], c.Normals.WetDays[6] = 19, 12
	c.Weather.ColdestMonthC = 2
	s := newStand(c, &c.Zones[0], species.Use{Grade: species.Utility})
	for i, want := range []struct{ warmth, growth float64 }{{0.6, 0.8}, {1.8, 1}, {-0.6, 0.6}} {
		near(t, "warmth", s.years[i].warmth, want.warmth, 1e-9)
		near(t, "growth", s.years[i].growth, want.growth, 1e-9)
	}
	near(t, "deaths by heat, with 12 wet days in July", s.heatDeath, 0.2+3.5*0.4, 1e-9)
	near(t, "mild", s.mild, 0.4, 1e-9)
	near(t, "moist: a quarter of one year of three in drought", s.moist, 1-0.25/3, 1e-9)
	near(t, "warm-season growth over cool", s.warm, 82.0/200, 1e-9)
	near(t, "nitrogen over the usual: 10 fed and 5 of the soil", s.nitrogen, 15.0/13, 1e-9)
}

// A history by hand, of one grass that holds nine tenths: half of the ground covered closes 1 - e^-2.45 of the gap in a
// hundred days of full growth; what is too much for the light goes by half in a season.
func TestHistoryWorked(t *testing.T) {
	one := func(x, capacity float64) *history {
		h := &history{n: 1, weeds: maxGrass}
		h.x[0], h.capacity[0], h.spread[0], h.gain[0], h.summer[0], h.value[0] = x, capacity, 1, 1, 1, 1
		return h
	}
	h := one(0.5, 0.9)
	h.close(100, 1)
	near(t, "closed", h.x[0], 0.5+0.4*(1-math.Exp(-2.45)), 1e-9)
	h = one(0.9, 0.5)
	h.close(100, 1)
	near(t, "thinned", h.x[0], 0.5+0.4*math.Exp(-0.693), 1e-9)
	h = one(0.9, 0.9)
	h.summer[0] = 0.6
	low := h.season(100, 1)
	near(t, "summer's low", low, 0.54, 1e-9)
	near(t, "autumn", h.x[0], 0.54+0.36*(1-math.Exp(-0.0245*50)), 1e-9)
	h = one(0.9, 0.9)
	h.summer[0] = 0.6
	low = h.season(50, 0.5) // half a season takes half of what summer would
	near(t, "low of half a season", low, 0.9*0.8, 1e-9)
	h = one(0.9, 0.5)
	h.season(0, 0.5)
	near(t, "half a season thins half as much, in each of its halves", h.x[0], 0.5+0.4*math.Exp(-0.693/2), 1e-9)
	h = one(0.5, 0.5)
	h.volunteers, h.volunteer[0] = true, 0.2
	h.season(0, 1)
	near(t, "a fifth of the gap seeded, half of the excess thinned in half a season", h.x[0], 0.5+0.1*math.Exp(-0.693/2), 1e-9)
	// Those that would take twice the gap between them share it out.
	h = one(0.5, 0.9)
	h.first = h.x
	h.volunteer[0] = 1.4
	h.n, h.capacity[1], h.summer[1], h.gain[1] = 2, 0.9, 1, 1
	h.volunteer[1] = 0.6
	h.begin()
	near(t, "the one's share of a gap", h.volunteer[0], 0.7, 1e-9)
	near(t, "the other's", h.volunteer[1], 0.3, 1e-9)
	// Two grasses shift by their gains, what is won goes by their spread.
	h = one(0.4, 0.9)
	h.n, h.x[1], h.capacity[1], h.spread[1], h.gain[1] = 2, 0.4, 0.9, 0.5, 2
	h.close(0, 1)
	near(t, "shift", h.x[1]/h.x[0], 2, 1e-9)
	near(t, "of the same cover", h.x[0]+h.x[1], 0.8, 1e-9)
	// Seed takes of the gap by what it claims: 1,500 plants that claim 3 cm² each are 0.45, over 1 + 0.45.
	h = &history{}
	h.clear()
	h.add(0, 1500, 0, 1, &figures{capacity: 0.9, claim: 3e-4})
	h.add(1, 0, 0.2, 1, &figures{capacity: 0.9})
	h.settle()
	near(t, "sown", h.first[0], 0.8*0.9*0.45/1.45, 1e-9)
	near(t, "early", h.early, 0.8*0.9*0.45/1.45+0.2, 1e-9)
	capacity := [maxGrass]float64{0.8}
	h = one(0.5, 0)
	h.shift(&capacity, math.Exp(-1))
	near(t, "capacity a step up on its logit", h.capacity[0], 1/(1+math.Exp(-(math.Log(4)+1))), 1e-9)
}

// Weeds and moss by hand.
func TestWeedsAndMossWorked(t *testing.T) {
	for hot, want := range map[float64]float64{15: 0, 17: 0, 21: 0.5, 25: 1, 30: 1.3} {
		near(t, "summer for weeds", weedSummer(hot), want, 1e-9)
	}
	near(t, "merit of weeds where summer is half as warm as in the mid-Atlantic states", weedMerit(&season{Year: weather.Year{HotMeanC: 21}}, 0.2), 0.2+3.6/2, 1e-9)
	for grade, want := range map[species.Grade]float64{species.Extensive: 0.8, species.Ornamental: 0, species.Utility: 0.3, species.HardWearing: 0.3} {
		near(t, "worth of weeds", weedWorth(grade), want, 0)
	}
	h := &history{n: 2, weeds: 1}
	h.x[0], h.x[1] = 0.3, 0.2
	near(t, "weeds among weeds: e^-(6.6 · ½ · 0.4)", h.crowding(0.5), math.Exp(-6.6*0.5*0.4), 1e-9)
	h.weeds = maxGrass
	near(t, "none", h.crowding(0.5), 1, 0)
	h.moss = 0.1
	h.greenOver(0.6) // of half the ground open moss goes to 0.3, six tenths of the way
	near(t, "moss", h.moss, 0.1+0.6*0.2, 1e-9)

	days := &weather.Days{Series: &weather.Series{MeanC: make([]float32, 200)}, Surface: make([]float32, 200)}
	for i := range days.MeanC {
		days.MeanC[i], days.Surface[i] = 20, 1
		switch {
		case i < 35: // 17.5 % of the days cool and moist
			days.MeanC[i], days.Surface[i] = 14.9, 0.52
		case i < 60:
			days.MeanC[i], days.Surface[i] = 10, 0.49
		case i < 80:
			days.MeanC[i] = 0.9
		}
	}
	near(t, "half of the days that moss can use", moistCool(days), 0.5, 1e-9)
	near(t, "without days", moistCool(nil), 0, 0)
	// Shade of a half, wet a fifth of the season: 0.8 (0.25 + 0.2); pH half-way to acid, a fifth short of nitrogen, cut half
	// of the way to scalped: 0.3 · 1.2. Their sum squared over itself and 0.35 squared.
	s := &stand{open: 0.5, cut: 15, ph: 5.75, nitrogen: 0.8, years: []season{{wetShare: 0.1}, {wetShare: 0.3}}}
	near(t, "moss's share", s.mossShare(days), 0.5*0.72*0.72/(0.72*0.72+0.35*0.35), 1e-9)
	s.cut = 160 // shaded out half of the way, and nothing scalped
	near(t, "under long grass", s.mossShare(days), 0.5*0.5*0.57*0.57/(0.57*0.57+0.35*0.35), 1e-9)
}

// A lawn's place by hand where every draw is one standard deviation and the tails draw none.
func TestPlaceWorked(t *testing.T) {
	e := &Ensemble{lightSD: 0.2, phSD: 0.29}
	l := &Lawn{}
	for k := range l.Place {
		l.Place[k] = 1
	}
	p := e.place(l, 0)
	near(t, "scale of the tails", p.scale, 1, 1e-9)
	near(t, "light", p.off.light, 0.2, 1e-9)
	near(t, "least light", p.off.need, 0.07, 1e-9)
	near(t, "frost", p.off.crownC, 0.6, 1e-9)
	near(t, "pH", p.off.ph, 0.29, 1e-9)
	near(t, "wetness", p.off.wet, 0.12, 1e-9)
	near(t, "cover", p.cover[1], math.Exp(-(0.6*(math.Sqrt(0.7)+math.Sqrt(0.3)) + 0.4)), 1e-9)
	near(t, "volunteers", p.volunteers, math.Exp(0.7), 1e-9)
	near(t, "growth, with the root of light", p.growth, math.Exp(0.1), 1e-9)
	near(t, "what a zone has of an effect", shared(1, 0), math.Sqrt(0.7), 1e-9)
	for k := range tails {
		l.Place[drawTails+k] = 2
	}
	near(t, "thinner tails where they draw more", e.place(l, 0).scale, 0.5, 1e-9)
}

// The 10th percentile of eleven values is the second, of five 0.4 of the way from the first.
func TestFollowerPercentile(t *testing.T) {
	var f Follower
	near(t, "of eleven", f.percentile([]float64{10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0}, 0.1), 1, 1e-9)
	near(t, "of five", f.percentile([]float64{4, 0, 1, 3, 2}, 0.1), 0.4, 1e-9)
	near(t, "of none", f.percentile(nil, 0.1), 0, 0)
}

// Seasons summed up by hand: of eleven lawns the middle one and the second from below, shares over all of them.
func TestSeasonsOfFatesWorked(t *testing.T) {
	f := Fates{Grass: []int{4, 2}, Cover: make([]float64, 11)}
	for season := range f.Parts {
		for i := range 11 {
			x := float64((7*i)%11) / 20 // 0 to 0.5, in some order
			f.Parts[season] = append(f.Parts[season], x, x/4)
		}
	}
	f.Weeds[1], f.Moss[3] = 0.2, 0.1
	for season, got := range f.Seasons([]string{"a", "b", "c", "d", "e"}) {
		near(t, "the middle lawn", got.Cover, 0.25*1.25, 1e-12)
		near(t, "one in ten", got.BadCover, 0.05*1.25, 1e-12)
		near(t, "share of the one", got.Shares["e"], 80, 1e-9)
		near(t, "share of the other", got.Shares["c"], 20, 1e-9)
		if got.Year != season+1 || len(got.Shares) != 2 || got.Weeds != f.Weeds[season] || got.Moss != f.Moss[season] {
			t.Errorf("season %d: %+v", season, got)
		}
	}
	// Of no cover no share.
	f.Parts[0] = make([]float64, 22)
	if got := f.Seasons([]string{"a", "b", "c", "d", "e"})[0]; got.Cover != 0 || len(got.Shares) != 0 {
		t.Errorf("nothing: %+v", got)
	}
}

// A grass keeps of its weight 1/(1 + 0.6 s g) by its share s of all, in a part g of a season as among seedlings; by hand.
func TestLeadsRegressByHand(t *testing.T) {
	claims := []float64{3, 1}
	amongOwn(claims, 0.6) // shares of 3/4 and 1/4: 3/1.45 and 1/1.15, which together have to claim 4 as before
	near(t, "the larger claim", claims[0], 4*(3/1.45)/(3/1.45+1/1.15), 1e-12)
	near(t, "the smaller claim", claims[1], 4*(1/1.15)/(3/1.45+1/1.15), 1e-12)
	amongOwn(claims, 0)
	near(t, "all of a claim", claims[0]+claims[1], 4, 1e-12)
	var h history
	h.clear()
	for i, x := range []float64{0.6, 0.2} {
		h.add(i, 0, 0, 1, &figures{capacity: 0.8, spread: 1})
		h.x[i], h.gain[i] = x, 1
	}
	h.ownKind = 0.6
	h.close(0, 0.5) // half a season at full cover, nothing to gain but each other's ground
	near(t, "odds of the leader", h.x[0]/h.x[1], 3*(1+0.3*0.25)/(1+0.3*0.75), 1e-12)
	near(t, "what they cover", h.x[0]+h.x[1], 0.8, 1e-12)
	// Effects of a lawn have the tails of Student's t of five degrees of freedom: of five draws of one each the scale is one, of twice as much a half. Those of
	// a sward that nobody told the sowing of are twice as wide, of which 0.7 of the variance is the whole lawn's.
	near(t, "scale", scaleOf([]float64{1, -1, 1, 1, -1}), 1, 1e-12)
	near(t, "a narrower one", scaleOf([]float64{2, 2, 2, 2, 2}), 0.5, 1e-12)
	near(t, "untold", math.Sqrt(0.7+0.3*untoldCover*untoldCover), 2, 0.05)
	// pH is known evenly to half a unit either way where it is read off the texture, and to about a tenth where it was measured (our own figures).
	near(t, "pH unsure", phSDUnsure, 1/math.Sqrt(12), 0.01)
	near(t, "pH known", phSDKnown, 0.08, 0.01)
	// Of Kirwan et al. 2014's leys a pair's spread of 0.6 in log-odds as seedlings, 0.2 in every season and 0.3 in one: see package mix.
	if u := Unseen(); u.Establish != 0.6 || u.Merit != 0.2 || u.Season != 0.3 {
		t.Errorf("lawns apart by %+v", u)
	}
	if seen, unseen := Seen(), Unseen(); unseen.OwnKind != 0 || seen.OwnKind != 0.6 || seen.Together != 0 || unseen.Together != 0.3 || seen.Season != unseen.Season {
		t.Errorf("where something was seen %+v, where nothing was %+v", seen, unseen)
	}
}

// Broad-leaved weeds as a plant, by hand: at each of their figures half is left, or half of what it takes. They hold half of their cover at 9 mol, cut
// at 8 mm or at half over 80, half fed with 2 g of nitrogen, one unit beside pH 5.5 to 7.5, and lose 6.4 % for each dS/m over 2.5.
func TestWeedsAsAPlantWorked(t *testing.T) {
	s := &stand{dli: 9, open: 1, need: 1, cut: 30, phi: 1, fed: 4, nitrogen: 1, feed: 1, ph: 6, moist: 0.5}
	var none deviation
	with := func(f func(*stand)) figures { c := *s; f(&c); return c.weeds(&none) }
	f := s.weeds(&none)
	near(t, "capacity", f.capacity, 0.98/2, 1e-9)
	near(t, "merit", f.merit, -2.9+math.Log(0.5), 1e-9)
	near(t, "claim: up after 150/12 days, of a vigour of 0.4", f.claim, 3e-4*math.Exp(0.075*0.5-2.2*0.1)/2, 1e-12)
	near(t, "spread: half by tillering", f.spread, 0.5+0.5*0.6, 1e-9)
	near(t, "a tenth of the gaps, in moist years", f.volunteer, 0.05, 1e-9)
	near(t, "hungry ground: six for all that it lacks, and 0.8 · ½ · 9/13 since they need little", with(func(s *stand) { s.nitrogen = 0.5 }).merit, -2.9+math.Log(0.5)+3+0.8*0.5*(1-4.0/13), 1e-9)
	for what, r := range map[string]struct {
		set  func(*stand)
		left float64
	}{
		"cut at 8 mm":     {func(s *stand) { s.cut = 8 }, math.Pow(0.5, 0.25)},
		"cut at 20 mm":    {func(s *stand) { s.cut = 20 }, 1},
		"cut at 80 mm":    {func(s *stand) { s.cut = 80 }, 1},
		"cut at 120 mm":   {func(s *stand) { s.cut = 120 }, math.Pow(0.5, 0.25)},
		"half fed":        {func(s *stand) { s.fed = 2 }, math.Sqrt(0.5)},
		"pH 4.5":          {func(s *stand) { s.ph = 4.5 }, math.Sqrt(0.5)},
		"pH 8.5":          {func(s *stand) { s.ph = 8.5 }, math.Sqrt(0.5)},
		"still, damp air": {func(s *stand) { s.still = 1 }, math.Sqrt(1 / (1 + 0.6*0.6))},
		"pH 7.5":          {func(s *stand) { s.ph = 7.5 }, 1},
		"salt, 7.5 dS/m":  {func(s *stand) { s.salt = 7.5 }, 0.68},
	} {
		near(t, what, with(r.set).capacity, 0.98/2*r.left, 1e-9)
	}
	// A year: frost of -25 °C, or of -19 after thaws, takes half, as do 390 days of snow mould, 60 of ice on end, 128 of drought, means of 31.5 and of 6 °C in
	// summer; wet ground for a quarter of the season a fifth; moderate wear an eighth.
	s.heatDeath, s.traffic = 1, species.Light
	calm := season{Year: weather.Year{HotMeanC: 15, Hardening: 1, CrownMinC: 30}, growth: 1}
	worn := 1 - 0.15*0.55/2
	for what, r := range map[string]struct {
		set            func(*season)
		summer, winter float64
	}{
		"calm":    {func(*season) {}, 1, 1},
		"frost":   {func(y *season) { y.CrownMinC = -25 }, 1, 0.5},
		"thaws":   {func(y *season) { y.CrownMinC, y.ThawDays = -19, 1e6 }, 1, 0.5},
		"mould":   {func(y *season) { y.LongestSnow = 70 * math.Pow(600.0/70, 0.8) }, 1, 0.5},
		"ice":     {func(y *season) { y.IceDays = 60 / 0.7 }, 1, 0.5},
		"drought": {func(y *season) { y.DroughtDays = 127.75 }, 0.5, 1},
		"heat":    {func(y *season) { y.HotMeanC = 31.48 }, 0.5, 1},
		"cool":    {func(y *season) { y.HotMeanC = 6 }, 0.5, 1},
		"wet":     {func(y *season) { y.wetShare = 0.25 }, 0.8, 1},
	} {
		y := calm
		r.set(&y)
		_, summer, winter := s.weedsIn(&y, 0, &none)
		near(t, what+": summer", summer, r.summer*worn, 0.0006)
		near(t, what+": winter", winter, r.winter, 0.0006)
	}
}

// A first winter takes more of seedlings than of a sward: of one that halves that 2^-1.3 is left of them; half of a first season gains as its root. What comes in by itself counts half of what was sown.
func TestYoungWorked(t *testing.T) {
	z := Zone{Share: 1, Capacity: []float64{0.9, 0.9}, Claim: []float64{3e-4, 3e-4}, Spread: []float64{1, 1}, Volunteer: []float64{0, 0.3}, Green: []float64{1, 1},
		Gain: []float32{4, 1, 9, 1}, Summer: []float32{1, 1, 1, 1}, Winter: []float32{0.5, 1, 0.25, 1}, Growth: []float32{100, 100}}
	f := &Follower{Field: &Field{IDs: []string{"a", "b"}, Years: 2, Zones: []Zone{z}, Invader: []bool{false, true}}, Starts: []int{0, 1}}
	var y young
	y.prepare(f, &Sowing{Season: 0.5, Winter: true})
	for i, want := range []float64{math.Pow(2, -1.3), 1, math.Pow(4, -1.3), 1} {
		near(t, "left after the first winter", y.losses[i], want, 1e-7)
	}
	for i, want := range []float64{3, 1, 2, 1} { // of the year after: √9, √4
		near(t, "gain of half a season", y.gain[i], want, 1e-7)
	}
	o := f.Follow(&Sowing{Grass: []int{0}, Plants: []float64{5000}, Season: 1})
	near(t, "shares over all seasons are of a whole", o.Life[0]+o.Life[1], 1, 1e-9)
	near(t, "and those of what it becomes", o.Shares[0]+o.Shares[1], 1, 1e-9)
	if o.Life[0] <= o.Shares[0] { // what comes in by itself comes later
		t.Errorf("the sown grass has %g of the seasons, and %g in the end", o.Life[0], o.Shares[0])
	}
	near(t, "worth of what was sown", f.Worth()[0], 1, 0)
	near(t, "of what came in by itself", f.Worth()[1], 0.5, 0)
}
