// Package sample makes invented plans for the tests of the reports: made-up
// lawns of made-up people with made-up figures, filled in every field and pushed
// to the edges of what a page must hold. Nothing in them is advice.
package sample

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/sward"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/sowing"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/sowing/year"
	"swardwright/species"
)

func day(m time.Month, d int) time.Time { return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC) }

// invented is a text that says nothing of the trade.
func invented(s string) told.Sentence { return told.Say("bed.figure", told.Verbatim(s)) }

// Case is one named plan.
type Case struct {
	Name string
	Plan *sowing.Plan
}

// Cases are the plans that every report is tried on.
func Cases() []Case {
	return []Case{
		{"full", Full()},
		{"us", us()},
		{"stated", stated()},
		{"no grass", noGrass()},
		{"tiny", scaled(0.19)},
		{"large", scaled(19)},
		{"names", named()},
		{"german", tongue("de", "EUR")},
		{"swedish", tongue("sv", "SEK")},
		{"crowded", crowded()},
		{"empty", &sowing.Plan{}},
	}
}

// grass is an invented entry with a real botanical form.
func grass(id, botanical, name string) *species.Species {
	return &species.Species{ID: id, Botanical: botanical, Names: map[string][]string{"en-GB": {name}}}
}

var grasses = []*species.Species{
	grass("chewings-fescue", "Festuca rubra subsp. commutata", "Chewings fescue"),
	grass("slender-creeping-red-fescue", "Festuca rubra subsp. litoralis", "Slender creeping red fescue"),
	grass("supina-meadow-grass", "Poa supina", "Supina meadow-grass"),
	grass("smooth-stalked-meadow-grass", "Poa pratensis", "Smooth-stalked meadow-grass"),
	grass("tufted-hair-grass", "Deschampsia cespitosa", "Tufted hair-grass"),
	grass("perennial-ryegrass", "Lolium perenne", "Perennial ryegrass"),
	grass("hard-fescue", "Festuca trachyphylla", "Hard fescue"),
	grass("browntop-bent", "Agrostis capillaris", "Browntop bent"),
	grass("rough-stalked-meadow-grass", "Poa trivialis", "Rough-stalked meadow-grass"),
	grass("tall-fescue", "Schedonorus arundinaceus", "Tall fescue"),
	grass("creeping-bent", "Agrostis stolonifera", "Creeping bent"),
	grass("bermudagrass", "Cynodon dactylon", "Bermudagrass"),
}

func months(mean, swing float64) (m [12]float64) {
	for i := range m {
		m[i] = max(0, mean-swing*math.Cos(2*math.Pi*(float64(i)-0.2)/12))
	}
	return m
}

// Full is a plan with everything in it: an L-shaped lawn of two zones between
// buildings and trees.
func Full() *sowing.Plan {
	lawn := []light.Point{{X: 0, Y: 0}, {X: 14, Y: 0}, {X: 14, Y: 8}, {X: 6, Y: 8}, {X: 6, Y: 12}, {X: 0, Y: 12}}
	long := -3.8
	p := &sowing.Plan{
		Brief: sowing.Brief{
			Title: "Court lawn at Nowhere Lodge", Client: "A. Nobody (invented)", PreparedBy: "Example Sward Studio (invented)",
			Reference: "INV-0042", Date: day(time.February, 1), Units: "metric", Currency: "GBP", Language: "en-GB",
			Site: site.Survey{
				Place: site.Place{LatitudeDeg: 57.1, LongitudeDeg: &long},
				Lawn:  site.Lawn{AreaM2: 136, Parts: [][]light.Point{lawn}, PlanNorthDeg: 20, SlopeDeg: 2, AspectDeg: 180},
				Obstacles: []light.Obstacle{
					{Name: "house", Kind: light.Solid, Footprint: []light.Point{{X: 0, Y: -7}, {X: 14, Y: -7}, {X: 14, Y: -1}, {X: 0, Y: -1}}, HeightM: 7.5},
					{Name: "shed", Kind: light.Gable, Footprint: []light.Point{{X: 8, Y: 9}, {X: 12, Y: 9}, {X: 12, Y: 11.5}, {X: 8, Y: 11.5}}, HeightM: 3.2, EavesM: 2.1},
					{Name: "slatted fence", Kind: light.Screen, Footprint: []light.Point{{X: -0.4, Y: 0}, {X: -0.3, Y: 0}, {X: -0.3, Y: 12}, {X: -0.4, Y: 12}}, HeightM: 1.8, Transmittance: 0.4},
					{Name: "birch", Kind: light.Tree, At: light.Point{X: 16, Y: 5}, HeightM: 9, ClearStemM: 2, CrownM: 5, Leaf: light.Deciduous},
					{Name: "spruce", Kind: light.Tree, At: light.Point{X: 4, Y: 14.5}, HeightM: 12, ClearStemM: 1, CrownM: 4, Leaf: light.Evergreen},
				},
				Probes: []light.Probe{{Name: "by the bench", At: light.Point{X: 2.5, Y: 10.5}}, {Name: "doorstep", At: light.Point{X: 7, Y: 0.6}}},
			},
			Use: species.Use{Grade: species.Ornamental, Traffic: species.Light, Mower: "cylinder"},
			Job: sowing.Job{Kind: "new", Method: "broadcast", Success: 0.8},
		},
		Date: day(time.February, 1),
		Site: &site.Conditions{
			Station:       weather.Station{WMO: "00000", Country: "XX", Normals: weather.Normals{Name: "Nowhere Moor", LatitudeDeg: 57.2, LongitudeDeg: -3.8, AltitudeM: 228, Source: "invented normals"}},
			DistanceKM:    12.4,
			Normals:       weather.Normals{MeanC: months(7.2, 6.4), MinC: months(3, 6), MaxC: months(11, 7), RainMM: months(74, -12), WetDays: months(14, -2)},
			RadiationFrom: told.Say("site.radiation-from-sunshine"),
			Weather: weather.Summary{MeanYearC: 7.2, ColdestMonthC: 0.8, WarmestMonthC: 13.7, RainYearMM: 888, GrowingFrom: 104, GrowingTo: 296, GrowingDays: 192,
				FrostFreeDays: 128, LastFrost10: 152, LastFrost50: 138, FirstFrost50: 266, FirstFrost10: 252, SnowDays: 34, AirMinC: -12.5, DesignRainMMH: 13},
			Soil: ground.Soil{Texture: "clay loam", SandPercent: 32, SiltPercent: 34, ClayPercent: 34, OrganicPercent: 3, PH: 5.8, PHKnown: true, DepthCM: 15, Drainage: "somewhat poorly",
				FieldCapacity: 0.36, WiltingPoint: 0.21, Saturation: 0.48, KsatMMH: 4.2, InfiltrationMMH: 3.1},
			AreaM2: 136, EdgingM: 38,
		},
		Advice:   sowing.AdviseSow,
		Headline: []told.Sentence{invented("Sow 3.9 kg of a shade mixture of three grasses on about 12 May. Expect a good utility lawn; the ornamental carpet asked for cannot be held in the strip by the house, where light is the limit.")},
		Cautions: []told.Sentence{
			told.Say("job.as-written", told.Verbatim("Find buried services before digging, spiking or driving edging.")),
			told.Say("job.as-written", told.Verbatim("Dust from dry sand and lime: wear a mask and wet it down.")),
			told.Say("job.as-written", told.Verbatim("Lift bags and barrows with a straight back and bent knees; two people for anything above 25 kg.")),
			told.Say("job.as-written", told.Verbatim("Local rules on seed, fertiliser and watering come before this plan. Trees with preservation orders go to a licensed practitioner.")),
		},
		Assumptions: []told.Sentence{
			told.Say("site.level"),
			told.Say("site.depth-taken", told.DepthMM(150)),
			told.Say("site.carried-down", told.Verbatim("Nowhere Moor"), told.LengthM(120), told.TemperatureDiffK(0.8)),
		},
		Sources: []told.Sentence{invented("Invented table of traits, for tests."), invented("FAO, A Framework for Land Evaluation, Soils Bulletin 32, 1976."), invented("FAO-56, Allen et al. 1998, Crop evapotranspiration.")},
	}
	conditions(p, lawn, 0.5)
	matrix(p)
	choice(p)
	work(p)
	costs(p, 1)
	return p
}

func conditions(p *sowing.Plan, lawn []light.Point, cell float64) {
	f := light.Field{CellM: cell, OpenDLI: months(24, 20), Notes: []told.Sentence{told.Say("site.walls", told.Share(0.3))}}
	zone := func(letter, name string, share, scale float64) light.Zone {
		z := light.Zone{Letter: letter, Name: invented(name), Share: share, AreaM2: share * p.Site.AreaM2, Light: light.Light{SkyView: 0.4 + 0.4*scale, LeafShade: 0.3, SunHoursSeason: 8 * scale, DLISeason: 31 * scale, OpenShare: scale}}
		for i, v := range f.OpenDLI {
			z.Light.DLI[i] = v * scale
			z.Light.SunHours[i] = max(0, 8-5.5*math.Cos(2*math.Pi*(float64(i)-0.2)/12)) * scale
		}
		return z
	}
	f.Zones = []light.Zone{zone("A", "the open north-west", 0.63, 0.72), zone("B", "the strip by the house", 0.37, 0.31)}
	inside := func(x, y float64) bool {
		in := false
		for i, a := range lawn {
			b := lawn[(i+1)%len(lawn)]
			if (a.Y > y) != (b.Y > y) && x < a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
		return in
	}
	maxX, maxY := 0.0, 0.0
	for _, q := range lawn {
		maxX, maxY = max(maxX, q.X), max(maxY, q.Y)
	}
	for y := cell / 2; y < maxY; y += cell {
		for x := cell / 2; x < maxX; x += cell {
			if !inside(x, y) {
				continue
			}
			share := 0.22 + 0.65*math.Min(1, y/maxY*1.6) - 0.2*math.Exp(-math.Pow((x/maxX-0.95)*4, 2))
			c := light.Cell{At: light.Point{X: x, Y: y}, AreaM2: cell * cell, Light: light.Light{DLISeason: 31 * share, OpenShare: share, SunHoursSeason: 8 * share}}
			if share < 0.42 {
				c.Zone = 1
			}
			f.Cells = append(f.Cells, c)
		}
	}
	for _, pr := range p.Brief.Site.Probes {
		f.Probes = append(f.Probes, light.ProbeLight{Probe: pr, Light: f.Zones[0].Light})
	}
	p.Site.Survey = p.Brief.Site
	p.Site.Field = f
	p.Site.Zones = nil
	for _, z := range f.Zones {
		p.Site.Zones = append(p.Site.Zones, site.Zone{Zone: z})
	}
}

func matrix(p *sowing.Plan) {
	for _, c := range species.Criteria {
		p.Matrix.Criteria = append(p.Matrix.Criteria, species.Criterion{ID: c.ID, Means: c.Means})
	}
	for z := range p.Site.Zones {
		for i, g := range grasses {
			row := species.Row{Species: g, Zone: z, Overall: 1, LeaderChance: max(0.02, 0.98-0.09*float64(i)), Sureness: []string{"sure", "likely", "could go either way"}[i%3]}
			for k, c := range p.Matrix.Criteria {
				v := 1 - 0.045*float64(i)*(0.4+math.Abs(math.Sin(float64(i*7+k*3+z)))) - 0.12*float64(z)*float64((k+1)%2)
				if k == 0 {
					v -= 0.25 * float64(z)
				}
				v = min(max(v, 0.02), 1)
				row.Ratings = append(row.Ratings, species.Rating{Criterion: c.ID, Value: v, Figure: told.Say("criteria.salt", told.SalinityDSM(12.5)), Limits: told.Say("criteria.salt-limits", told.SalinityDSM(8)), Source: "invented", Basis: species.Read})
				if v < row.Overall {
					row.Overall, row.LimitedBy = v, c.ID
				}
			}
			row.Class = species.ClassOf(row.Overall)
			row.ClassChance = map[species.Class]float64{row.Class: 0.8}
			p.Matrix.Rows = append(p.Matrix.Rows, row)
		}
	}
}

func choice(p *sowing.Plan) {
	m := &mix.Mixture{SeedsPerM2: 24600, RateGM2: 28.5, CoverExpected: 0.93, CoverBadYear: 0.81, EarlyCover: 0.64, Evenness: 0.82, Score: 0.8}
	for i, part := range []struct {
		percent int
		seeds   float64
		because string
	}{
		{45, 52, "the densest of the fescues under light shade; without it the mean cover falls by 9 in 100"},
		{35, 33, "creeps into the gaps left by winter; without it a bad year leaves 12 in 100 bare"},
		{20, 15, "holds the strip by the house, where the fescues thin out from the third season on"},
	} {
		m.Components = append(m.Components, mix.Component{Species: grasses[i], Percent: part.percent, SeedPercent: part.seeds, WithoutCover: 0.09 - 0.02*float64(i), WithoutBadCover: 0.12, WithoutEarly: 0.03, Because: invented(part.because)})
	}
	for y := range sward.Seasons {
		f := float64(y)
		m.Sward = append(m.Sward, sward.Season{Year: y + 1, Cover: 0.88 + 0.012*f, BadCover: 0.74 + 0.014*f, Shares: map[string]float64{
			grasses[0].ID: 48 - 2*f, grasses[1].ID: 34 - f, grasses[2].ID: 15 + 2.2*f, "annual-meadow-grass": 3 + 0.8*f}})
	}
	p.Choice = mix.Choice{Mixture: m, Asked: species.Ornamental, Attainable: species.Utility,
		Holds: true, Chance: 0.87,
		Because:   told.Say("mix.both", told.Say("mix.stays-covered", told.Share(0.88), told.Share(0.78)), told.Say("mix.keeps-standard", told.Term{Kind: "lawn-of", Word: "utility"}, told.Share(0.87))),
		Zones:     []mix.ZoneVerdict{{Zone: 0, Verdict: mix.Holds, Sown: true, Chance: 0.99, Cover: 0.95}, {Zone: 1, Verdict: mix.Holds, Sown: true, Chance: 0.9, Cover: 0.88, LimitedBy: "light"}},
		LeftOut:   []mix.LeftOut{{Species: grasses[5], Because: invented("quick to cover, but gone from the shaded strip by the third season")}, {Species: grasses[7], Because: invented("needs a closer cut and more feed than the brief allows")}},
		Premixes:  []mix.Judged{{Premix: mix.Premix{Name: "Invented bag no. 3"}, Mixture: mix.Mixture{CoverExpected: 0.84, CoverBadYear: 0.62, Score: 0.6}, TopUp: []mix.TopUp{{Species: grasses[2], GramsPerKG: 180}}, TopUpScore: 0.71, Verdict: invented("usable with a top-up")}},
		Cultivars: []told.Sentence{invented("Ask for the national list entries rated best for shade and snow mould.")},
	}
	p.Mixture, p.Standard = m, sowing.Standard{Grade: p.Choice.Attainable, Holds: true, Chance: 0.87, Because: p.Choice.Because}
	p.Rate = rate.Rate{GM2: 28.5, SeedsPerM2: 24600, Low: 20, High: 35, Because: invented("24,600 viable seeds to the square metre for an ornamental lawn, from purity, germination and field emergence"), TotalG: 28.5 * p.Site.AreaM2}
	for _, c := range m.Components {
		g := m.RateGM2 * float64(c.Percent) / 100
		p.Rate.Components = append(p.Rate.Components, rate.Component{SpeciesID: c.Species.ID, GM2: g, TotalG: g * p.Site.AreaM2, PLS: 0.83, SeedPercent: c.SeedPercent, Source: "invented"})
		p.Order.Bags = append(p.Order.Bags, order.Bag{Lot: "lot of " + c.Species.Names["en-GB"][0], SpeciesID: c.Species.ID, KG: 1, PriceMinor: 940, Count: int(math.Ceil(g * p.Site.AreaM2 / 1000)), Invented: true})
	}
	p.Order.Notes = []told.Sentence{invented("the leftover keeps for one more season if dry and cool")}
}

func work(p *sowing.Plan) {
	p.Dates = dates.Dates{On: new(day(time.May, 12)), Success: 0.94, Threshold: 0.8, WaterMM: &dates.Span{P10: 20, P50: 45, P90: 80}, FirstMow: new(day(time.June, 24)), UsableFrom: new(day(time.August, 6)),
		Windows: []dates.Window{
			{Kind: dates.Spring, Opens: day(time.April, 28), Closes: day(time.May, 30), Best: day(time.May, 12), Success: 0.9, BestSuccess: 0.94, EmergenceDays: &dates.Span{P10: 12, P50: 16, P90: 21}, FirstMowDays: &dates.Span{P10: 35, P50: 43, P90: 49},
				OpensBecause: told.Say("when.cold-before", told.Days(31)), ClosesBecause: told.Say("when.drought-after"), Allowed: true},
			{Kind: dates.Autumn, Opens: day(time.July, 28), Closes: day(time.August, 20), Best: day(time.August, 4), Success: 0.84, BestSuccess: 0.88, EmergenceDays: &dates.Span{P10: 9, P50: 12, P90: 16}, FirstMowDays: &dates.Span{P10: 30, P50: 36, P90: 44},
				OpensBecause: told.Say("when.drought-before"), ClosesBecause: told.Say("when.winter-after"), Allowed: true},
			{Kind: dates.Dormant, Opens: day(time.November, 10), Closes: day(time.December, 5), Best: day(time.November, 20), Success: 0.8, BestSuccess: 0.82, Allowed: false},
		},
		Components: []dates.Part{{SpeciesID: grasses[0].ID, EmergenceDays: &dates.Span{P10: 11, P50: 14, P90: 19}, FirstMowDays: &dates.Span{P10: 34, P50: 41, P90: 48}, Success: 0.95}, {SpeciesID: grasses[1].ID, EmergenceDays: &dates.Span{P10: 11, P50: 15, P90: 20}, FirstMowDays: &dates.Span{P10: 34, P50: 42, P90: 48}, Success: 0.94}, {SpeciesID: grasses[2].ID, EmergenceDays: &dates.Span{P10: 16, P50: 20, P90: 27}, FirstMowDays: &dates.Span{P10: 40, P50: 49, P90: 60}, Success: 0.88}},
		Notes:      []told.Sentence{told.Say("when.unwatered")},
	}
	for w := range 5 {
		p.Dates.Watering = append(p.Dates.Watering, dates.Week{Number: w + 1, MeanMM: 12 - float64(w), DryMM: 22 - float64(w)})
	}
	p.Bed = bed.Bed{
		Layers:    []bed.Layer{{Kind: bed.Rootzone, DepthMM: 250, Note: invented("70 % sand, 30 % topsoil, screened")}, {Kind: bed.Gravel, DepthMM: 100, Note: invented("6 to 9 mm, washed")}, {Kind: bed.Subsoil, DepthMM: 150, Note: invented("loosened with a fork")}},
		Found:     []bed.Layer{{Kind: bed.Topsoil, DepthMM: 150, Note: invented("clay loam")}, {Kind: bed.Subsoil, DepthMM: 350, Note: invented("clay, compacted")}},
		Materials: []bed.Material{{Item: invented("sand, 0.25 to 1 mm"), SettledM3: 23.8, LooseM3: 27.4, Tonnes: 41, BarrowLoads: 456, LorryLoads: 3, Unit: "m³", For: invented("rootzone")}, {Item: invented("screened topsoil"), SettledM3: 10.2, LooseM3: 12.3, Tonnes: 14.8, BarrowLoads: 205, LorryLoads: 1, Unit: "m³", For: invented("rootzone")}, {Item: invented("starter feed 6-9-6"), KG: 4.1, Unit: "kg", For: invented("sowing")}},
		Tasks: []job.Task{
			{ID: "strip", Title: invented("Strip and stack the topsoil"), Detail: []told.Sentence{invented("Take off 150 mm and stack it no higher than 1 m.")}, Quantity: 136, Unit: "m2", Date: day(time.April, 14), Caution: []told.Sentence{invented("find buried services first")}},
			{ID: "rootzone", Title: invented("Lay the gravel and the rootzone"), Detail: []told.Sentence{invented("In two lifts, each trodden and raked.")}, Quantity: 136, Unit: "m2", Date: day(time.April, 21)},
			{ID: "rake-stale-seedbed", Title: invented("Stale seedbed"), Detail: []told.Sentence{invented("Water, wait for the first weed seedlings, hoe shallowly in dry weather.")}, Date: day(time.April, 28)},
			{ID: "firm", Title: invented("Rake to a fine tilth and firm"), Detail: []told.Sentence{invented("Heel over the whole area, rake, and heel again across.")}, Quantity: 136, Unit: "m2", Date: day(time.May, 11)},
			{ID: "keep-off", Title: invented("Guard against birds"), Detail: []told.Sentence{invented("Fleece or thread until the second cut.")}, Date: day(time.May, 12)},
		},
		Checks: []bed.Check{{ID: "rain-found", Figure: invented("3.1 mm/h"), Limit: invented("13 mm/h"), OK: false, Advice: invented("water will stand about 3 h: build the rootzone on gravel"), Source: "invented"}, {ID: "bridging", Figure: invented("D15 of the gravel 6.5 mm"), Limit: invented("8 × D85 of the rootzone 7.2 mm"), OK: true, Source: "invented"}},
		Lime:   []told.Sentence{invented("No lime: pH 5.8 suits the chosen fescues.")}, StarterN: 3, StarterP2O5: 4.5, StarterK2O: 3, Starter: invented("a 6-9-6 starter feed, 50 g/m²"), PuddleMM: 9.8, PuddleHours: 3.2,
		Notes: []told.Sentence{invented("Ask a drainage engineer before leading water off the plot.")},
	}
	guide := bed.GuideOf(bed.Spread{}, bed.Seed{Zones: []job.Zone{{Index: 0, Letter: p.Site.Zones[0].Letter, AreaM2: p.Site.Zones[0].AreaM2}, {Index: 1, Letter: p.Site.Zones[1].Letter, AreaM2: p.Site.Zones[1].AreaM2}}, GM2: p.Rate.GM2, PerM2: p.Rate.SeedsPerM2})
	p.Bed.Guide = &guide
	p.Year = year.Calendar{NitrogenGM2: 9, CutMM: 25, CutsPerYear: 31, MowHoursYear: 12.4, DressingM3: 0.5}
	for i := range p.Year.Months {
		g := max(0, math.Sin(math.Pi*(float64(i)-2.5)/8))
		if i < 3 || i > 9 {
			g = 0
		}
		p.Year.Months[i] = year.Month{Growth: g, CutMM: 25}
		if g > 0.1 {
			p.Year.Months[i].MowEveryDays, p.Year.Months[i].Mows = 5/g, 6*g
		}
	}
	p.Tasks = []job.Task{
		{Sort: job.Sowing, Date: day(time.May, 12), Title: invented("Sow"), Detail: []told.Sentence{invented("In two passes at right angles, on a still dry day.")}, Hours: 1.5, Chance: 0.94, First: true},
		{Sort: job.Watering, Date: day(time.May, 12), Until: day(time.June, 15), Title: invented("Keep the surface damp"), Detail: []told.Sentence{invented("Little and often, with a fine rose.")}, Hours: 0.3, Goes: 30, First: true},
		{Sort: job.Mowing, Date: day(time.June, 24), Title: invented("First cut"), Detail: []told.Sentence{invented("At 40 mm when the grass is 60 mm tall; sharp blades, dry sward.")}, Hours: 0.5, Chance: 0.8, First: true},
		{Sort: job.Feeding, Date: day(time.July, 10), Title: invented("First feed"), Detail: []told.Sentence{invented("3 g/m² of nitrogen.")}, Hours: 0.4, Materials: []told.Sentence{invented("feed 12-3-6, 3.4 kg")}, First: true},
		{Sort: job.BearingUse, Date: day(time.August, 6), Title: invented("Ready for use"), Detail: []told.Sentence{invented("Light use; keep off it in frost.")}, Chance: 0.8, First: true},
		{Sort: job.Raking, Date: day(time.April, 18), Title: invented("Rake out moss and dead grass"), Hours: 2},
		{Sort: job.Mowing, Date: day(time.April, 25), Until: day(time.October, 10), Title: invented("Mow"), Detail: []told.Sentence{invented("25 mm; never more than a third of the leaf; change direction at each cut.")}, Hours: 0.4, Goes: 31},
		{Sort: job.Feeding, Date: day(time.May, 5), Title: invented("Feed for leaf"), Detail: []told.Sentence{invented("3 g/m² of nitrogen.")}, Hours: 0.4, Materials: []told.Sentence{invented("feed 12-3-6, 3.4 kg")}, Chance: 0.85},
		{Sort: job.Spiking, Date: day(time.August, 25), Title: invented("Spike"), Detail: []told.Sentence{invented("150 mm deep, a hole each 100 mm.")}, Hours: 4},
		{Sort: job.Dressing, Date: day(time.August, 27), Title: invented("Top dress"), Detail: []told.Sentence{invented("3 mm of 70 % sand to 30 % compost; leave two days, brush in.")}, Hours: 3, Materials: []told.Sentence{invented("dressing, 0.5 m³")}},
		{Sort: job.Feeding, Date: day(time.September, 1), Title: invented("Harden for winter"), Detail: []told.Sentence{invented("Low nitrogen, more potassium.")}, Hours: 0.4},
		{Sort: job.Leaves, Date: day(time.October, 10), Until: day(time.November, 20), Title: invented("Clear leaves"), Hours: 0.5, Goes: 6},
	}
	p.Year.Feeds = []year.Feed{{Date: day(time.May, 5), NGM2: 3, Kind: "leaf"}, {Date: day(time.July, 1), NGM2: 4, Kind: "leaf"}, {Date: day(time.September, 1), NGM2: 2, Kind: "hardening"}}
	p.Year.Notes = []told.Sentence{invented("Box off the clippings while the sward is young.")}
}

func costs(p *sowing.Plan, scale float64) {
	curr := p.Brief.Currency
	amount := func(minor float64) money.Amount {
		return money.Amount{Minor: int64(math.Round(minor * scale)), Currency: curr}
	}
	bill := func(way job.Way, factor float64, from time.Time, lines ...money.Line) money.Bill {
		b := money.Bill{Way: way, AreaM2: p.Site.AreaM2, UsableFrom: &from, Success: 0.9}
		var net float64
		for _, l := range lines {
			q := l.Quantity * scale
			l.Rate.Currency, l.Invented, l.Source = curr, true, invented("invented")
			l.Quantity = q
			r, _ := l.Rate.Float64()
			l.Amount = money.Amount{Minor: int64(math.Round(q * r * 100)), Currency: curr}
			net += float64(l.Amount.Minor)
			b.Lines = append(b.Lines, l)
		}
		plain := func(x float64) money.Amount { return money.Amount{Minor: int64(math.Round(x)), Currency: curr} }
		b.Net, b.Margin, b.Tax, b.Total = plain(net), plain(net*0.15), plain(net*1.15*0.2), plain(net*1.15*1.2)
		b.Deposit = plain(net * 0.4)
		b.P10, b.P50, b.P90 = plain(net*1.38*0.9), plain(net*1.38*1.02), plain(net*1.38*factor)
		b.PerM2 = plain(net * 1.38 / max(p.Site.AreaM2, 1))
		b.Drivers = []money.Driver{{Cause: "hours of work", Low: plain(net * 1.25), High: plain(net * 1.6)}, {Cause: "weather", Low: plain(net * 1.33), High: plain(net * 1.5)}, {Cause: "soil and stone", Low: plain(net * 1.36), High: plain(net * 1.42)}}
		return b
	}
	rate := func(s string) money.Rate { return money.Rate{Decimal: decimal.RequireFromString(s)} }
	prepare := []money.Line{
		{Group: money.Ground, Item: invented("Strip topsoil and stack"), Quantity: 136, Unit: "m²", Rate: rate("2.10")},
		{Group: money.Materials, Item: invented("Sand, 0.25 to 1 mm, delivered loose"), Quantity: 27.4, Unit: "m³", Rate: rate("38.00")},
		{Group: money.Materials, Item: invented("Screened topsoil"), Quantity: 12.3, Unit: "m³", Rate: rate("42.50")},
		{Group: money.Labour, Item: invented("Spread, level and firm"), Quantity: 22, Unit: "h", Rate: rate("28.00")},
		{Group: money.Plant, Item: invented("Roller, by the day"), Quantity: 1, Unit: "day", Rate: rate("45.00")},
		{Group: money.Delivery, Item: invented("Lorry loads"), Quantity: 4, Unit: "load", Rate: rate("55.00")},
	}
	seed := append(prepare[:len(prepare):len(prepare)],
		money.Line{Group: money.Materials, Item: invented("Seed"), Quantity: 3.9, Unit: "kg", Rate: rate("9.40")},
		money.Line{Group: money.Aftercare, Item: invented("Watering and first cuts until in use"), Quantity: 9, Unit: "h", Rate: rate("28.00")},
		money.Line{Group: money.Contingency, Item: invented("Expected cost of patching"), Quantity: 1, Unit: "sum", Rate: rate("61.20")})
	turf := append(prepare[:len(prepare):len(prepare)],
		money.Line{Group: money.Materials, Item: invented("Turf, with 5 % waste"), Quantity: 142.8, Unit: "m²", Rate: rate("4.20")},
		money.Line{Group: money.Labour, Item: invented("Lay turf"), Quantity: 11, Unit: "h", Rate: rate("28.00")},
		money.Line{Group: money.Aftercare, Item: invented("Watering until rooted"), Quantity: 6, Unit: "h", Rate: rate("28.00")})
	p.Why = []told.Sentence{invented("Sowing costs about a fifth less than turf, and the species that suit the shade are not on offer as turf.")}
	p.Cost = money.Comparison{Currency: curr, Bills: []money.Bill{bill(job.BySeed, 1.22, day(time.August, 6), seed...), bill(job.ByTurf, 1.12, day(time.May, 25), turf...)},
		EarlierPerDay: amount(1130), DaysEarlier: 73,
		BreakEvens:    []money.BreakEven{{Of: "labour rate", At: told.Money{Minor: 6100, Currency: curr}, Means: told.Say("money.turf-above")}, {Of: "day needed by", At: told.Date(day(time.July, 20)), Means: told.Say("money.turf-in-time", told.Date(day(time.May, 25)))}},
		ExamplePrices: true,
		Validity:      told.Say("money.stands", told.Days(30)), DepositNote: told.Say("money.deposit", told.FineShare(0.3)), Terms: "Payment within 14 days of the invoice; work outside this plan by agreement in writing."}
	zones := []job.Zone{{Index: 0, Letter: p.Site.Zones[0].Letter, AreaM2: p.Site.Zones[0].AreaM2}, {Index: 1, Letter: p.Site.Zones[1].Letter, AreaM2: p.Site.Zones[1].AreaM2}}
	p.Grass, p.Found = zones, p.Site
	p.Way.Kind, p.Job, p.Sown, p.Ground, p.StartOn = job.BySeed, job.New, zones, p.Site, day(time.May, 12)
	p.UsableFrom, p.InTime, p.Bill = p.Cost.Bills[0].UsableFrom, true, p.Cost.Bills[0]
	p.Water = sowing.Water{Goes: 30, Litres: 5100, Until: day(time.August, 6)}
	laid := sowing.Way{Kind: job.ByTurf, Job: job.New, Laid: zones, Ground: p.Site, StartOn: day(time.April, 20), Dates: dates.Dates{On: new(day(time.April, 20)), Chosen: 0, Success: 0.95, UsableFrom: p.Cost.Bills[1].UsableFrom, Windows: []dates.Window{{Kind: dates.Spring, Opens: day(time.April, 5), Closes: day(time.June, 10), Best: day(time.April, 20), Success: 0.93, Allowed: true}}},
		UsableFrom: p.Cost.Bills[1].UsableFrom, InTime: true, Bill: p.Cost.Bills[1],
		Water: sowing.Water{Goes: 15, Litres: 9200, Until: day(time.May, 25)}}
	p.Lifts = []sowing.Lift{{Change: told.Say("lift.crown", told.Verbatim("birch"), told.LengthM(3.5)), Grade: species.Ornamental, Chance: 0.7, Gain: sowing.Spread{Middle: 0.06, Low: 0.03, High: 0.09}, AskPrice: true}}
	p.Ways = []sowing.Way{p.Way, laid}
	p.Unpriced = []told.Sentence{invented("turf brings its own soil, which may not match the rootzone"), invented("the species on offer as turf do not suit the shaded strip")}
}

func us() *sowing.Plan {
	p := Full()
	p.Brief.Units, p.Brief.Currency, p.Brief.Language = "us", "USD", "en-US"
	costs(p, 1)
	return p
}

func tongue(lang, curr string) *sowing.Plan {
	p := Full()
	p.Brief.Language, p.Brief.Currency = lang, curr
	costs(p, 1)
	return p
}

// stated is a lawn of which only the area and the sun hours are known.
func stated() *sowing.Plan {
	p := Full()
	p.Brief.Site.Lawn = site.Lawn{AreaM2: 84}
	p.Brief.Site.Obstacles, p.Brief.Site.Probes = nil, nil
	p.Brief.Client, p.Brief.Reference, p.Brief.PreparedBy = "", "", ""
	p.Site.Survey = p.Brief.Site
	p.Site.Field.Cells, p.Site.Field.CellM, p.Site.Field.Probes = nil, 0, nil
	p.Site.Field.Zones = p.Site.Field.Zones[:1]
	p.Site.Field.Zones[0].Share = 1
	p.Site.Zones = p.Site.Zones[:1]
	p.Matrix.Rows = p.Matrix.Rows[:len(grasses)]
	p.Choice.Zones = p.Choice.Zones[:1]
	p.Cost.ExamplePrices = false
	return p
}

// noGrass is a lawn where none will hold.
func noGrass() *sowing.Plan {
	p := Full()
	p.Advice, p.Headline = sowing.AdviseNoGrass, []told.Sentence{told.Say("job.no-grass"), told.Say("mix.too-dark", told.DLI(3.1), told.SunHours(1), told.DLI(6))}
	p.Choice.Mixture, p.Choice.Attainable = nil, ""
	p.Choice.Zones = []mix.ZoneVerdict{{Zone: 0, Verdict: mix.None, LimitedBy: "light", Instead: []told.Sentence{invented("bark or gravel paths"), invented("evergreen ground cover planted at 9 a square metre")}}, {Zone: 1, Verdict: mix.None, LimitedBy: "light", Instead: []told.Sentence{invented("bark")}}}
	p.Bed.Guide = nil
	p.Rate, p.Order, p.Dates, p.Year = rate.Rate{}, order.Order{}, dates.Dates{Chosen: -1}, year.Calendar{}
	p.Cost = money.Comparison{Currency: "GBP"}
	p.Way, p.Ways, p.Grass, p.Unpriced, p.Why = sowing.Way{Bed: p.Bed}, nil, nil, nil, nil
	p.Dates.Chosen = -1
	return p
}

// scaled is the full lawn made k times as long and as wide.
func scaled(k float64) *sowing.Plan {
	p := Full()
	s := &p.Brief.Site
	for i, part := range s.Lawn.Parts {
		s.Lawn.Parts[i] = nil
		for _, q := range part {
			s.Lawn.Parts[i] = append(s.Lawn.Parts[i], light.Point{X: q.X * k, Y: q.Y * k})
		}
	}
	s.Lawn.AreaM2 *= k * k
	for i := range s.Obstacles {
		o := &s.Obstacles[i]
		o.At.X, o.At.Y, o.CrownM = o.At.X*k, o.At.Y*k, o.CrownM*k
		for j := range o.Footprint {
			o.Footprint[j].X *= k
			o.Footprint[j].Y *= k
		}
	}
	for i := range s.Probes {
		s.Probes[i].At.X *= k
		s.Probes[i].At.Y *= k
	}
	p.Site.AreaM2, p.Site.EdgingM = s.Lawn.AreaM2, 38*k
	conditions(p, s.Lawn.Parts[0], 0.5*k)
	p.Rate.TotalG = p.Rate.GM2 * p.Site.AreaM2
	for i := range p.Rate.Components {
		p.Rate.Components[i].TotalG = p.Rate.Components[i].GM2 * p.Site.AreaM2
	}
	costs(p, k*k)
	return p
}

// named has the letters of many countries, and names that do not end.
func named() *sowing.Plan {
	p := Full()
	p.Brief.Title = "Αυλή του Κανένα · Двор Никого · Żółty Trawnik Łąkowy · Güneşsiz Çimenlik İğde · Kāļu pļava · Træets skygge på Ærø · Příliš žluťoučký kůň 🌱 庭"
	p.Brief.Client = "The Honourable Society of Gardeners Who Do Not Exist, Its Trustees, Their Successors and Assigns in Perpetuity (an invented body with a very long name)"
	p.Brief.PreparedBy = "Donaudampfschifffahrtsgesellschaftskapitänswitwenrasenpflegegenossenschaftsvorsitzende"
	p.Brief.Reference = strings.Repeat("REF-", 14) + "9"
	for i := range p.Brief.Site.Obstacles {
		p.Brief.Site.Obstacles[i].Name = strings.Repeat("the very old and much loved wall of the kitchen garden ", 3)
	}
	p.Brief.Site.Obstacles[0].Name = "Gewächshausgiebelseitenmauerverkleidungsfundament"
	p.Brief.Site.Probes[0].Name = strings.Repeat("Ω", 60)
	p.Site.Survey = p.Brief.Site
	p.Site.Field.Zones[0].Name = invented("the part of the lawn that lies between the house, the shed, the old wall and the place where the other wall was")
	p.Site.Zones[0].Name = p.Site.Field.Zones[0].Name
	p.Assumptions = append(p.Assumptions, told.Say("site.drops-leaves", told.Verbatim(strings.Repeat("a long name that goes on ", 200))))
	p.Cost.Terms = strings.Repeat("Terms and conditions of an invented firm, which nobody has to read. ", 60)
	return p
}

// crowded has four zones, many obstacles, five components and long lists.
func crowded() *sowing.Plan {
	p := Full()
	base := p.Site.Field.Zones[1]
	for _, l := range []string{"C", "D"} {
		z := base
		z.Letter, z.Name, z.Share = l, invented("the corner under the trees, "+l), 0.1
		z.AreaM2 = z.Share * p.Site.AreaM2
		p.Site.Field.Zones = append(p.Site.Field.Zones, z)
		p.Site.Zones = append(p.Site.Zones, site.Zone{Zone: z})
	}
	for i := range p.Site.Field.Cells {
		if c := &p.Site.Field.Cells[i]; c.At.X > 11 {
			c.Zone = 2
		} else if c.At.X < 2 {
			c.Zone = 3
		}
	}
	for i := range 30 {
		o := light.Obstacle{Name: fmt.Sprintf("tree %d of the avenue", i+1), Kind: light.Tree, At: light.Point{X: float64(i%10) * 2, Y: -3 + float64(i/10)*9}, HeightM: 8, ClearStemM: 2, CrownM: 2.2, Leaf: light.Deciduous}
		p.Brief.Site.Obstacles = append(p.Brief.Site.Obstacles, o)
	}
	p.Site.Survey = p.Brief.Site
	p.Matrix = species.Matrix{}
	matrix(p)
	m := p.Choice.Mixture
	m.Components[0].Percent = 35
	for i, share := range []int{5, 5} {
		m.Components = append(m.Components, mix.Component{Species: grasses[3+i], Percent: share, SeedPercent: 3, Because: invented("a little of it closes gaps that the others leave after a hard winter")})
		p.Rate.Components = append(p.Rate.Components, rate.Component{SpeciesID: grasses[3+i].ID, GM2: 1.4, TotalG: 1.4 * p.Site.AreaM2, PLS: 0.8})
	}
	for z := 2; z < 4; z++ {
		p.Choice.Zones = append(p.Choice.Zones, mix.ZoneVerdict{Zone: z, Verdict: mix.None, LimitedBy: "light", Instead: []told.Sentence{invented("bark"), invented("ground cover")}})
	}
	for i := range 120 {
		t := p.Tasks[i%12]
		t.First = i%2 == 0
		p.Tasks = append(p.Tasks, t)
	}
	for i := range p.Cost.Bills {
		b := &p.Cost.Bills[i]
		for len(b.Lines) < 60 {
			b.Lines = append(b.Lines, money.Line{Group: money.Materials, Item: invented("One more thing to bring"), Quantity: 1, Unit: "sum", Rate: money.Rate{Decimal: decimal.RequireFromString("0.10"), Currency: "GBP"}, Amount: money.Amount{Minor: 10, Currency: "GBP"}})
		}
	}
	return p
}
