package mix

import (
	"math"
	"testing"

	"swardwright/data"
	"swardwright/mix/internal/place"
	"swardwright/mix/sward"
	"swardwright/species"
)

// Short names of the grasses in the tables below.
const (
	rye     = "perennial-ryegrass"
	strong  = "strong-creeping-red-fescue"
	slender = "slender-creeping-red-fescue"
	chew    = "chewings-fescue"
	hard    = "hard-fescue"
	tall    = "tall-fescue"
	meadow  = "smooth-stalked-meadow-grass"
	rough   = "rough-stalked-meadow-grass"
	supina  = "supina-meadow-grass"
	annual  = "annual-meadow-grass"
	bent    = "browntop-bent"
	cat     = "smaller-cats-tail"
)

func tableOf(t testing.TB) *species.Table {
	t.Helper()
	table, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// followed is a sowing followed through five seasons at a spot.
func followed(t testing.TB, table *species.Table, spot place.Spot, use species.Use, sown map[string]float64) [sward.Seasons]sward.Season {
	t.Helper()
	spot.Years = 60
	c, err := spot.Conditions()
	if err != nil {
		t.Fatal(err)
	}
	j := job{site: c, pool: table.All(), use: use}
	var p Premix
	for _, s := range j.pool {
		if sown[s.ID] > 0 {
			p.Parts = append(p.Parts, Part{s, sown[s.ID]})
		}
	}
	a := &answer{job: j, problem: j.problem()}
	a.trial = a.problem.trial(60)
	a.trial.follower.Detail = true
	r, ok := a.bag(p, nil, 0)
	if !ok {
		t.Fatalf("nothing known in %v", sown)
	}
	return r.outcome.Seasons
}

func feed(nGM2 float64) *float64 { return &nGM2 }

// TestFollowedSwards runs the model where sowings were followed and asks for the
// direction that was published. Shares that the abstracts leave out are taken as
// usual ones and marked so.
func TestFollowedSwards(t *testing.T) {
	table := tableOf(t)
	type season = map[string]float64
	home := species.Use{Traffic: species.Light, MowingMM: 64}
	utility := species.Use{Traffic: species.Light, MowingMM: 40}
	green := species.Use{Traffic: species.Light, MowingMM: 5, Irrigation: true}
	rows := []struct {
		id, published string
		spot          place.Spot
		use           species.Use
		sown          season
		year          int
		holds         func(now, first season) bool
	}{
		{"PRW-90", "Proctor, Weisenberger & Reicher, Indiana: over 95 % meadow-grass in 2 years", place.Spot{Station: "Indianapolis, Indiana"}, home,
			season{meadow: 90, rye: 10}, 2, func(s, _ season) bool { return s[meadow] > 90 }},
		{"PRW-80", "the same: over 95 % in 2 years", place.Spot{Station: "Indianapolis, Indiana"}, home,
			season{meadow: 80, rye: 20}, 2, func(s, _ season) bool { return s[meadow] > 75 }},
		{"PRW-70", "the same: over 95 % in 3 years", place.Spot{Station: "Indianapolis, Indiana"}, home,
			season{meadow: 70, rye: 30}, 3, func(s, _ season) bool { return s[meadow] > 75 }},
		{"PRW-50", "the same: over 95 % in 3 years", place.Spot{Station: "Indianapolis, Indiana"}, home,
			season{meadow: 50, rye: 50}, 3, func(s, _ season) bool { return s[meadow] > 60 }},
		{"PRW-0", "the same: pure ryegrass alone never turned to meadow-grass", place.Spot{Station: "Indianapolis, Indiana"}, home,
			season{rye: 100}, 3, func(s, _ season) bool { return s[rye] > 80 }},
		{"DEF-1", "Dunn, Ervin & Fresenburg 2002, Missouri: 62 % tall fescue after 5 years (90 : 10 assumed)", place.Spot{Station: "St Louis, Missouri"},
			species.Use{Traffic: species.Moderate, MowingMM: 35}, season{tall: 90, meadow: 10}, 5, func(s, _ season) bool { return s[tall] > 35 && s[tall] < 85 && s[meadow] > 10 }},
		{"DEF-3", "the same: any mixture with ryegrass turned to ryegrass (50 : 50 assumed)", place.Spot{Station: "St Louis, Missouri"},
			species.Use{Traffic: species.Heavy, MowingMM: 25}, season{rye: 50, meadow: 50}, 5, func(s, _ season) bool { return s[rye] > s[meadow] }},
		{"NKL-1", "Nonn, Kühbauch & Lock 2006, Bonn: a little supina is the main grass within a year (10 % assumed)", place.Spot{Station: "Düsseldorf", Irrigated: true},
			species.Use{Traffic: species.Light, MowingMM: 40, Irrigation: true, Feeding: "high"}, season{strong: 50, rye: 20, meadow: 20, supina: 10}, 1, func(s, _ season) bool { return s[supina] > 30 }},
		{"NKL-2", "the same: absolute dominance in 3 years", place.Spot{Station: "Düsseldorf", Irrigated: true},
			species.Use{Traffic: species.Light, MowingMM: 40, Irrigation: true, Feeding: "high"}, season{strong: 50, rye: 20, meadow: 20, supina: 10}, 5, func(s, f season) bool { return s[supina] > 30 && s[supina] > 2*f[supina] }},
		{"NKL-3", "the same: to red fescue dominance, meadow-grass well below ryegrass (50 : 30 : 20 assumed)", place.Spot{Station: "Düsseldorf"}, utility,
			season{strong: 50, rye: 30, meadow: 20}, 3, func(s, f season) bool { return s[strong] > f[strong] && s[strong] > s[rye] && s[meadow] < s[rye] }},
		{"MSU-1", "Michigan State University of German sports fields: supina under 10 % of the seed becomes dominant", place.Spot{Station: "Frankfurt/Main", Irrigated: true},
			species.Use{Traffic: species.Heavy, MowingMM: 35, Irrigation: true, NitrogenGM2: feed(20)}, season{rye: 50, meadow: 42, supina: 8}, 5, func(s, _ season) bool { return s[supina] > s[rye] && s[supina] > s[meadow] }},
		{"EH-1", "Erdmann & Harrison 1947, Michigan: ryegrass of 20 % and more dominates at first", place.Spot{Station: "Lansing, Michigan"}, species.Use{Traffic: species.Light},
			season{meadow: 75, rye: 25}, 1, func(s, _ season) bool { return s[rye] > s[meadow] }},
		{"EH-2", "the same: neither meadow-grass nor Chewings fescue suppressed the other", place.Spot{Station: "Lansing, Michigan"}, species.Use{Traffic: species.Light},
			season{chew: 60, meadow: 40}, 3, func(s, _ season) bool { return s[chew] > 25 && s[meadow] > 25 }},
		{"OSU-1", "Oregon State University: fine fescue begins to dominate ryegrass in 3 years with little nitrogen", place.Spot{Station: "Eugene, Oregon"}, species.Use{Traffic: species.Light, Feeding: "low"},
			season{rye: 75, chew: 25}, 3, func(s, f season) bool { return s[chew] > s[rye] && s[chew] > f[chew] }},
		{"OSU-3", "the same, eastern Oregon, watered and fed: meadow-grass soon dominates fine fescue", place.Spot{Station: "Redmond, Oregon", Irrigated: true},
			species.Use{Traffic: species.Light, Irrigation: true, Feeding: "high"}, season{meadow: 75, chew: 25}, 2, func(s, f season) bool { return s[meadow] > 75 && s[chew] < f[chew] }},
		{"OSU-4", "the same, western Oregon, deciduous shade: fescue fades, bents, rough and annual meadow-grass dominate", place.Spot{Station: "Eugene, Oregon", SunHours: 4, Irrigated: true},
			species.Use{Traffic: species.Light, MowingMM: 38, Irrigation: true}, season{chew: 67, rye: 33}, 5, func(s, f season) bool { return s[chew] < f[chew] && s[annual]+s[rough]+s[bent] > s[chew] }},
		{"HHE-1", "Hesselsøe, Heltoft, Espevig & Aamlid 2022, Norway: red fescue not crowded out by browntop in 4 years at 5 mm (10 % assumed)", place.Spot{Station: "Kristiansand, Kjevik", Irrigated: true}, green,
			season{chew: 45, slender: 45, bent: 10}, 4, func(s, _ season) bool { return s[chew]+s[slender] > 35 }},
		{"WIL-1", "J. Agric. Sci. (Cambridge) 1977, Wales, well fed, cut every 5 weeks: tall fescue small at first, rising", place.Spot{Station: "Aberporth"}, species.Use{Traffic: species.Light, MowingMM: 60, Feeding: "high"},
			season{rye: 50, tall: 50}, 5, func(s, f season) bool { return f[tall] < 50 && s[tall] > f[tall] }},
	}
	// What the model doesn't show, with the reason.
	known := map[string]string{
		"DEF-3": "heat and winter at St Louis take more from ryegrass than close cut and wear give it; the trial's own shares aren't in the abstract",
		"NKL-1": "supina is told apart from its kin by yearly lasting power, not by a quick start; the sown share isn't in the copy read",
		"OSU-4": "volunteers come in by gaps alone, without the seed already in the ground of old lawns",
		"EH-1":  "forage ryegrass of 1947 was far more vigorous than turf kinds",
	}
	agreed := 0
	for _, r := range rows {
		seasons := followed(t, table, r.spot, r.use, r.sown)
		now, first := seasons[r.year-1].Shares, seasons[0].Shares
		ok := r.holds(now, first)
		if ok {
			agreed++
		} else if known[r.id] == "" {
			t.Errorf("%s: season %d %v, first %v; published: %s", r.id, r.year, round(now), round(first), r.published)
		}
		t.Logf("%-7s agrees %-5v season %d %v", r.id, ok, r.year, round(now))
	}
	if share := float64(agreed) / float64(len(rows)); share < 0.75 {
		t.Errorf("%d of %d followed swards go the published way", agreed, len(rows))
	}
}

func round(shares map[string]float64) map[string]float64 {
	out := map[string]float64{}
	for k, v := range shares {
		if v >= 1 {
			out[k] = math.Round(v)
		}
	}
	return out
}

// TestCutWearAndWaterDecide: Indiana, where meadow-grass overcomes ryegrass, and
// Missouri, where ryegrass overcomes it, differ in close cut, traffic and drought
// (Proctor et al.; Dunn, Ervin & Fresenburg 2002). At one place each must help
// ryegrass.
func TestCutWearAndWaterDecide(t *testing.T) {
	table := tableOf(t)
	sown := map[string]float64{meadow: 70, rye: 30}
	share := func(use species.Use) float64 {
		return followed(t, table, place.Spot{Station: "Kansas City, Missouri", Irrigated: use.Irrigation}, use, sown)[2].Shares[rye]
	}
	base := species.Use{Traffic: species.Light, MowingMM: 60}
	lawn := share(base)
	worn := base
	worn.Traffic = species.Heavy
	closeCut := base
	closeCut.MowingMM = 22
	if s := share(worn); s <= lawn {
		t.Errorf("ryegrass %.1f %% under heavy traffic, %.1f %% under light", s, lawn)
	}
	if s := share(closeCut); s <= lawn {
		t.Errorf("ryegrass %.1f %% cut at 22 mm, %.1f %% at 60 mm", s, lawn)
	}
}

// TestFirstLead: 95 : 5 by live seed, first cut in week 3 at 38 mm, became 49 : 51
// by shoots (Brede & Duich 1984, Agronomy Journal 76:711-714). Other ratios, by the
// same authors (76:875-879): 70-95 % of field-viable seed gives meadow-grass a hold.
func TestFirstLead(t *testing.T) {
	table := tableOf(t)
	c, err := place.Spot{Station: "Harrisburg, Pennsylvania", Irrigated: true, Years: 5}.Conditions()
	if err != nil {
		t.Fatal(err)
	}
	pool := []*species.Species{table.ByID(rye), table.ByID(meadow)}
	f := sward.NewField(c, pool, species.Use{Traffic: species.Light, MowingMM: 38, Irrigation: true})
	z := &f.Zones[0]
	claim := func(g int, seeds float64) float64 {
		return z.Claim[g] * seeds * pool[g].Values[species.FieldEmergence].Best
	}
	got := 100 * claim(1, 95) / (claim(0, 5) + claim(1, 95))
	if math.Abs(got-49) > 5 {
		t.Errorf("95 : 5 by live seed becomes %.0f %% meadow-grass, published 49", got)
	}
}

// TestLeyPairs: timothy stands in for nothing in the table; its nearest kin is
// smaller cat's-tail. Against smooth meadow-grass timothy's log-odds fell by 1.3 a
// year on the mean of six sites from 46.8 to 69.7° N, from the first season to the
// third by 0.6 to 4.6 in all (Kirwan et al. 2014, Ecology 95:2680, data).
func TestLeyPairs(t *testing.T) {
	table := tableOf(t)
	use := species.Use{Traffic: species.Light, MowingMM: 50, NitrogenGM2: feed(7)}
	for _, station := range []string{"Reykjavík", "Luleå Airport", "Tromsø", "Vest-Torpa", "Jyväskylä Airport"} {
		s := followed(t, table, place.Spot{Station: station}, use, map[string]float64{cat: 50, meadow: 50})
		odds := func(year int) float64 { return math.Log(s[year-1].Shares[cat] / s[year-1].Shares[meadow]) }
		fall := odds(1) - odds(3)
		t.Logf("%-18s falls by %.2f", station, fall)
		if fall < 0.3 || fall > 5 {
			t.Errorf("%s: log-odds of cat's-tail to meadow-grass fall by %.2f from season 1 to 3, published 0.6 to 4.6", station, fall)
		}
	}
}
