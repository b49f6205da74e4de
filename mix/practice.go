package mix

import (
	"slices"

	"swardwright/site"
	"swardwright/species"
)

// Published practice is the prior of the search. The model's scores of good
// mixtures lie closer together than its traits are known, so among mixtures that
// it finds nearly alike the one nearer to what public bodies sow is preferred.
// Practice never lets a grass in that the matrix refuses, and a mixture that the
// model finds clearly better wins against it.

// practiceWeight is what a mixture wholly against practice loses of its score. The
// scores of the better half of the grid are spread over about a fifth of that.
const practiceWeight = 0.5

// rulesBroken scales the sum of departures: a mixture that is wrong by its whole
// weight breaks about two rules, one for what is missing and one for what stands
// in its place.
const rulesBroken = 2.0

// Practice is one rule of published practice: on ground of a kind, a kind of grass
// has a share by weight within a band.
type Practice struct {
	Of        []string // kinds of grass, of the species table
	Low, High float64  // percent by weight of a mixture
	On        []Kind   // kinds of ground the rule is for
	Off       []Kind   // kinds that it is not for
	Source    string
}

// Kind is a kind of ground and use that publications write for. A lawn is of each
// kind to a degree from 0 to 1.
type Kind string

// The kinds.
const (
	Cold      Kind = "cold winters"
	Temperate Kind = "temperate winters"
	Mild      Kind = "mild winters"
	Frostless Kind = "hardly a frost"
	Hot       Kind = "hot damp summers"
	Sun       Kind = "sun"
	Shade     Kind = "shade"
	Moist     Kind = "moist ground"
	Dry       Kind = "dry ground"
	Salt      Kind = "salt"
	Fine      Kind = "ornamental"
	Plain     Kind = "ordinary use"
	Worn      Kind = "wear"
	Wild      Kind = "little upkeep"
	Poor      Kind = "fed little"
	Rich      Kind = "fed well, or watered in dry country"
	Repair    Kind = "repair of an old sward"
)

// The grasses that rules speak of, as the species table names them.
var (
	redFescues  = []string{"red fescue"}
	dryFescues  = []string{"hard or sheep's fescue"}
	fineFescues = []string{"fine fescue"}
	bents       = []string{"bent"}
	ryegrasses  = []string{"ryegrass"}
	meadowGrass = []string{"smooth meadow-grass"}
	tallFescue  = []string{"tall fescue"}
	dampShade   = []string{"grass of damp shade"}
	dampGround  = []string{"grass of damp ground"}
	saltGrass   = []string{"grass of salt ground"}
	unusual     = []string{"grass rarely sown"}
)

type kinds = []Kind

// Practices are the rules that publications repeat; shares are theirs, by weight.
var Practices = []Practice{
	// Fine lawns.
	{redFescues, 80, 95, kinds{Fine, Sun}, nil, "German standard mixture for ornamental lawns: 85-95 % red fescues"},
	{bents, 5, 20, kinds{Fine, Sun}, kinds{Dry}, "German standard mixture for ornamental lawns: 5-15 % bent; British practice: a fifth"},
	{ryegrasses, 0, 0, kinds{Fine}, nil, "German and British mixtures for ornamental lawns have no ryegrass"},

	// Shade.
	{fineFescues, 60, 75, kinds{Shade}, kinds{Moist, Hot, Wild}, "fine fescue in shade: Iowa 75 % or more, New York 65 %, Minnesota and Maryland 60 %, Purdue 50 %"},
	{ryegrasses, 10, 20, kinds{Shade}, kinds{Moist, Hot, Cold, Wild}, "a nurse in shade: New York 15 %, Purdue 20 % ryegrass"},
	{meadowGrass, 0, 5, kinds{Shade}, nil, "Iowa and Wisconsin leave smooth meadow-grass out in shade; New York allows 20 %"},
	{dampShade, 60, 100, kinds{Shade, Moist}, nil, "Wisconsin A3700: supina and rough meadow-grass in dense shade where it stays moist"},
	{dampShade, 0, 5, nil, kinds{Moist}, "Wisconsin A3700: supina and rough meadow-grass only in moist shade"},

	// Hot damp summers: the American transition zone.
	{tallFescue, 85, 100, kinds{Hot}, kinds{Fine}, "Maryland 95 %, Arkansas and Kansas State tall fescue alone"},
	{ryegrasses, 0, 10, kinds{Hot}, nil, "Maryland: 5 % ryegrass at most"},
	// Elsewhere it is sown where it is dry and not too cold, or not at all.
	{tallFescue, 60, 80, kinds{Sun, Dry}, kinds{Cold, Hot, Poor, Fine, Wild}, "German standard mixture for dry places: 60-80 % tall fescue"},
	{tallFescue, 0, 0, kinds{Cold}, kinds{Hot}, "Illinois and Minnesota: winter risk"},
	{tallFescue, 0, 0, nil, kinds{Hot, Dry}, "left out of northern and maritime lists"},

	// Ordinary lawns in the sun, by the winter.
	{meadowGrass, 50, 70, kinds{Plain, Sun, Cold}, kinds{Dry, Hot, Salt}, "Montana 60 %, Estonia 40-60 %, North Dakota: smooth meadow-grass first"},
	{fineFescues, 25, 40, kinds{Plain, Sun, Cold}, kinds{Dry, Hot, Salt}, "Montana 30 %, Estonia 40-60 % red fescue"},
	{ryegrasses, 0, 15, kinds{Cold}, nil, "Minnesota 10-15 %: ryegrass crowds meadow-grass and dies in hard winters"},
	{fineFescues, 30, 50, kinds{Plain, Sun, Temperate}, kinds{Dry, Hot, Rich}, "Vermont 50 %, Germany 40 %, Poland 20 % red fescue"},
	{meadowGrass, 20, 35, kinds{Plain, Sun, Temperate}, kinds{Hot, Rich}, "Vermont 30 %, Germany 30 %, Poland 20 % smooth meadow-grass"},
	{ryegrasses, 20, 40, kinds{Plain, Sun, Temperate}, kinds{Dry, Hot, Rich}, "Vermont 20 %, Germany 30 %, Poland 50 % ryegrass"},
	{meadowGrass, 50, 75, kinds{Plain, Sun, Temperate, Rich}, kinds{Dry, Hot}, "eastern Oregon 75 % smooth meadow-grass where it is fed and watered; Utah Division of Water Resources: the commonest lawn grass of Utah"},
	{fineFescues, 20, 40, kinds{Plain, Sun, Temperate, Rich}, kinds{Dry, Hot}, "eastern Oregon 25 % fine fescue"},
	{ryegrasses, 30, 50, kinds{Plain, Sun, Mild}, kinds{Frostless, Hot}, "British amenity mixtures 40 % ryegrass"},
	{fineFescues, 30, 60, kinds{Plain, Sun, Mild}, kinds{Dry, Frostless, Hot}, "British amenity mixtures 50 % red fescue"},

	// Worn lawns, by the winter.
	{meadowGrass, 80, 90, kinds{Worn, Sun, Cold}, kinds{Hot}, "Minnesota 85-90 %; Alaska and Utah: smooth meadow-grass first under wear"},
	{fineFescues, 0, 10, kinds{Worn, Sun, Cold}, nil, "Wisconsin: fine fescues bear shade, not traffic"},
	{ryegrasses, 35, 50, kinds{Worn, Sun, Temperate}, kinds{Hot, Repair}, "Germany 30 % ryegrass; Czech parks led by it"},
	{meadowGrass, 25, 35, kinds{Worn, Sun, Temperate}, kinds{Hot, Rich, Repair}, "Germany 30 % smooth meadow-grass"},
	{meadowGrass, 45, 60, kinds{Worn, Sun, Temperate, Rich}, kinds{Hot, Repair}, "Utah: smooth meadow-grass first where worn ground is fed and watered"},
	{fineFescues, 20, 40, kinds{Worn, Sun, Temperate}, kinds{Hot, Rich, Repair}, "Germany 40 % red fescue"},
	{ryegrasses, 40, 50, kinds{Worn, Sun, Mild}, kinds{Frostless, Hot, Repair}, "Oregon 50 %, Britain 40 % ryegrass"},
	{meadowGrass, 40, 50, kinds{Worn, Sun, Mild, Rich}, kinds{Frostless, Hot, Repair}, "Oregon 50 % smooth meadow-grass where it is fed and watered"},
	{fineFescues, 45, 55, kinds{Worn, Sun, Mild}, kinds{Frostless, Hot, Rich, Repair}, "Britain 50 %, Germany 40 % red fescue"},
	{ryegrasses, 80, 100, kinds{Sun, Frostless}, kinds{Hot, Fine, Wild}, "New Zealand street berms: 80 % ryegrass or more"},
	{bents, 10, 20, kinds{Sun, Frostless}, kinds{Hot, Wild}, "New Zealand street berms: 20 % browntop"},
	{tallFescue, 0, 0, kinds{Frostless}, kinds{Hot}, "New Zealand street berms: no tall fescue"},
	{ryegrasses, 75, 100, kinds{Worn, Repair}, kinds{Cold}, "German standard mixture for the repair of worn turf: 80 % ryegrass or more"},

	// Little upkeep: poor or dry ground, banks and verges.
	{fineFescues, 65, 100, kinds{Wild}, kinds{Moist, Hot}, "Illinois, Denmark, Flanders: fine fescues where little is done"},
	{fineFescues, 65, 100, kinds{Plain, Poor, Dry}, kinds{Moist, Hot}, "New York 65 % fine fescue on droughty ground"},
	{dryFescues, 25, 60, kinds{Wild, Dry}, kinds{Hot}, "Regina, Alberta and northern France: hard and sheep's fescue on dry ground"},
	{redFescues, 25, 60, kinds{Wild, Moist}, nil, "Hanover: a quarter of red fescue on ground that floods at times"},
	{ryegrasses, 0, 5, kinds{Wild}, nil, "Flanders: ryegrass forbidden on verges"},

	// Wet ground and salt.
	{dampGround, 20, 100, kinds{Moist, Sun}, kinds{Fine}, "Oregon: bents and rough meadow-grass take over on wet ground; Alaska: hair-grass"},
	{saltGrass, 10, 35, kinds{Salt}, nil, "Alberta roadsides: a tenth of saltmarsh-grass"},
	{meadowGrass, 0, 20, kinds{Salt}, nil, "North Dakota: no smooth meadow-grass on saline ground"},
	{fineFescues, 45, 75, kinds{Salt}, kinds{Worn}, "Alberta roadsides: two thirds fine fescue"},

	{saltGrass, 0, 0, nil, kinds{Salt}, "saltmarsh-grass is sown only where there is salt: Alberta roadsides"},

	// Grasses of special places.
	{unusual, 0, 5, nil, kinds{Moist}, "not in published mixtures for ordinary ground; Alaska Plant Materials Center: rare partners at most 5 %"},
}

// Where the kinds begin and end. Winters follow the shares of ryegrass that
// publications allow, summers where tall fescue takes over, shade the light that
// 3.5 to 5 hours of sun bring at 40 to 45° N; the figures are inferred from where
// the publications write.
const (
	coldFromC, coldFullC       = -19.5, -25.0 // mean yearly minimum
	snowFromDays, snowFullDays = 50.0, 85.0   // or days under snow
	mildFromC, mildFullC       = -11.0, -6.0
	frostlessFromC, frostlessC = -3.0, 0.0
	hotFromC, hotFullC         = 25.9, 26.6   // mean of the hottest 30 days
	humidFromMM, humidFullMM   = 400.0, 650.0 // rain a year: dry heat is borne where it is watered
	shadeFromMol, shadeFullMol = 19.5, 14.5   // season's mean
	shadeFrom, shadeFull       = 0.64, 0.50   // and share of the open lawn's light
	moistFrom, moistFull       = 0.35, 0.55   // ground.Soil.Wetness
	dryFrom, dryFull           = 0.10, 0.20   // share of the growing season in drought
	droughtyBelow              = 0.1          // ground.Soil.Wetness of ground that drains too fast
	droughtySoil               = 0.7          // as dry as such ground is called whatever the rain
	saltFromDSM, saltFullDSM   = 3.0, 6.0
	poorBelowGM2               = 6.0 // nitrogen fed in a year
	richFromGM2, richFullGM2   = 11.0, 16.0
	aridFromMM, aridFullMM     = 600.0, 400.0 // rain a year where a lawn is watered as a matter of course
)

// practice is published practice on one lawn.
type practice struct {
	degree  map[Kind]float64
	airMinC float64 // mean yearly minimum
	rules   []weighed
}

// weighed is a rule with the degree to which a lawn is of its kinds.
type weighed struct {
	*Practice
	weight float64
}

// practiceOn places a lawn. asked is the grade that was asked for: a lawn that
// can't be as good as was asked is still walked on as much.
func practiceOn(c *site.Conditions, u species.Use, asked species.Grade, overseed bool) *practice {
	w := &c.Weather
	k := map[Kind]float64{}
	k[Cold] = max(ramp(w.AirMinC, coldFromC, coldFullC), ramp(w.SnowDays, snowFromDays, snowFullDays))
	k[Mild] = ramp(w.AirMinC, mildFromC, mildFullC)
	k[Frostless] = ramp(w.AirMinC, frostlessFromC, frostlessC)
	k[Temperate] = max(0, 1-k[Cold]-k[Mild])

	var dli, open, hot, drought, growing, share, years float64
	for i := range c.Zones {
		z := &c.Zones[i]
		dli += z.Share * z.Light.DLISeason
		open += z.Share * z.Light.OpenShare
		share += z.Share
		for y := range z.Years {
			hot += z.Share * z.Years[y].HotMeanC
			drought += z.Share * z.Years[y].DroughtDays
			growing += z.Share * z.Years[y].GrowingDays
			years += z.Share
		}
	}
	if share > 0 {
		k[Shade] = min(ramp(dli/share, shadeFromMol, shadeFullMol), ramp(open/share, shadeFrom, shadeFull))
	}
	if years > 0 {
		k[Hot] = ramp(hot/years, hotFromC, hotFullC) * ramp(w.RainYearMM, humidFromMM, humidFullMM)
		k[Dry] = ramp(drought/max(1, growing), dryFrom, dryFull)
		if !u.Irrigation {
			k[Dry] = max(k[Dry], droughtySoil*ramp(c.Soil.Wetness, droughtyBelow, 0))
		}
	}
	k[Sun] = 1 - k[Shade]
	k[Moist] = ramp(c.Soil.Wetness, moistFrom, moistFull)
	k[Salt] = ramp(c.Soil.ECeDSM, saltFromDSM, saltFullDSM)
	if u.NitrogenOrClass() < poorBelowGM2 {
		k[Poor] = 1
	}
	k[Rich] = ramp(u.NitrogenOrClass(), richFromGM2, richFullGM2)
	if u.Irrigation {
		k[Rich] = max(k[Rich], ramp(w.RainYearMM, aridFromMM, aridFullMM))
	}
	switch {
	case asked == species.HardWearing || u.Traffic == species.Heavy:
		k[Worn] = 1
	case asked == species.Extensive:
		k[Wild] = 1
	case u.Grade == species.Ornamental:
		k[Fine] = 1
	default:
		k[Plain] = 1
	}
	if overseed {
		k[Repair] = 1
	}

	p := &practice{degree: k, airMinC: w.AirMinC}
	for i := range Practices {
		r := &Practices[i]
		weight := 1.0
		for _, x := range r.On {
			weight *= k[x]
		}
		for _, x := range r.Off {
			weight *= 1 - k[x]
		}
		if weight > 0 {
			p.rules = append(p.rules, weighed{r, weight})
		}
	}
	return p
}

// ramp runs from 0 at from to 1 at full, whichever is the greater.
func ramp(x, from, full float64) float64 { return clamp01((x - from) / (full - from)) }

// against is how far a mixture departs from practice, 0 to 1: by the rules for
// ground of this kind, in shares of the mixture.
func (p *practice) against(parts []Part) float64 {
	sum := 0.0
	for _, r := range p.rules {
		share := 0.0
		for _, part := range parts {
			if part.Species.IsOf(r.Of) {
				share += part.Percent
			}
		}
		sum += r.weight * max(0, r.Low-share, share-r.High) / 100
	}
	return min(1, sum/rulesBroken)
}

// asksFor tells whether practice wants some of a grass on this lawn, so that the
// search must at least consider it.
func (p *practice) asksFor(s *species.Species) bool {
	return slices.ContainsFunc(p.rules, func(r weighed) bool {
		return r.Low > 0 && r.weight >= worthConsidering && s.IsOf(r.Of)
	})
}

// ruleFor is the rule that speaks loudest here for some of a grass, or for little
// or none of it; nil without one.
func (p *practice) ruleFor(s *species.Species, some bool) *Practice {
	var best *weighed
	for i := range p.rules {
		r := &p.rules[i]
		if (r.Low > 0) == some && s.IsOf(r.Of) && (best == nil || r.weight > best.weight) {
			best = r
		}
	}
	if best == nil {
		return nil
	}
	return best.Practice
}

// worthConsidering is the degree from which a rule names grasses to consider.
const worthConsidering = 0.4

// ryegrassCap is the published cap on ryegrass, in units: 10 to 15 % where
// winters are hard (Minnesota), 20 % where they are cold (Pennsylvania State,
// Vermont), 30 to 40 % in temperate and maritime places (German play lawns 30 %,
// British amenity mixtures 40 %), and more only on worn ground there and where
// there is hardly a frost.
func (p *practice) ryegrassCap() int {
	k := p.degree
	// From 40 % down to 20 % with the winter, then on to 15 %.
	percent := 40 - 20*ramp(p.airMinC, -8, -17) - 5*k[Cold]
	if k[Worn] == 1 {
		percent = max(percent+20*k[Mild], 40*(1-k[Cold]))
		if k[Repair] == 1 {
			percent = max(percent, 100*(1-k[Cold]))
		}
	}
	percent = max(percent, 100*k[Frostless])
	return int(percent/stepPercent + 0.5)
}
