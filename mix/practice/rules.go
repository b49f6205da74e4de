// Package practice is what public bodies sow: published recommendations, each
// likened to a lawn by its site and its use, and the rules that they repeat.
//
// It is the prior of the search for a mixture. The model's scores of good mixtures
// lie closer together than its traits are known, so among mixtures that it finds
// nearly alike the one nearer to what public bodies sow is preferred. Practice never
// lets a grass in that the matrix refuses, and a mixture that the model finds clearly
// better wins against it.
package practice

import "swardwright/internal/arith"

// Rule is one rule of published practice: on ground of a kind, a kind of grass
// has a share by weight within a band.
type Rule struct {
	Of        []string // kinds of grass, of the species table
	Low, High float64  // percent by weight of a mixture
	On        []Kind   // kinds of ground the rule is for
	Off       []Kind   // kinds that it is not for
	OrNone    bool     // or none of it
	Source    string
}

func share(of []string, low, high float64, on, off []Kind, source string) Rule {
	return Rule{Of: of, Low: low, High: high, On: on, Off: off, Source: source}
}

func shareOrNone(of []string, low, high float64, on, off []Kind, source string) Rule {
	r := share(of, low, high, on, off, source)
	r.OrNone = true
	return r
}

// breach is by how many percent a share is out of the band; a little of a grass that is sown in
// bulk or not at all is as far from it as it looks.
func (r *Rule) breach(percent float64) float64 {
	out := max(0, r.Low-percent, percent-r.High)
	if r.OrNone && percent == 0 {
		return 0
	}
	return out
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
	Warm      Kind = "warm summers"
	Cool      Kind = "cool summers"
	Sun       Kind = "sun"
	Shade     Kind = "shade"
	Moist     Kind = "moist ground"
	Dry       Kind = "dry ground"
	Sandy     Kind = "ground that drains too fast"
	Salt      Kind = "salt"
	Fine      Kind = "ornamental"
	Plain     Kind = "ordinary use"
	Worn      Kind = "wear"
	Wild      Kind = "little upkeep"
	Grazed    Kind = "grazing"
	Poor      Kind = "fed little"
	Rich      Kind = "fed well, or watered in dry country"
	Repair    Kind = "repair of an old sward" // bare spots, or any of a worn one; a thin lawn is sown as a new one is
)

// The grasses that rules speak of, as the species table names them.
var (
	redFescues  = []string{"red fescue"}
	fineFescues = []string{"fine fescue"}
	dryFescues  = []string{"hard or sheep's fescue"}
	bents       = []string{"bent"}
	ryegrasses  = []string{"ryegrass"}
	meadowGrass = []string{"smooth meadow-grass"}
	tallFescue  = []string{"tall fescue"}
	dampShade   = []string{"grass of damp shade"}
	saltGrass   = []string{"grass of salt ground"}
	unusual     = []string{"grass rarely sown"}
)

type kinds = []Kind

// Rules are what publications repeat; shares are theirs, by weight.
var Rules = []Rule{
	// Fine lawns.
	share(redFescues, 80, 95, kinds{Fine, Sun}, nil, "German standard mixture for ornamental lawns: 85-95 % red fescues"),
	share(bents, 5, 20, kinds{Fine, Sun}, kinds{Dry}, "German standard mixture for ornamental lawns: 5-15 % bent; British practice: a fifth"),
	share(ryegrasses, 0, 0, kinds{Fine}, nil, "German and British mixtures for ornamental lawns have no ryegrass"),

	// Shade.
	share(fineFescues, 60, 100, kinds{Shade}, kinds{Moist, Hot, Wild}, "fine fescue in shade: Cornell alone, Iowa 75 % or more, New York 65 %, Minnesota and Maryland 60 %, Purdue 50 %"),
	share(dampShade, 15, 40, kinds{Shade, Moist}, nil, "where shade stays moist: New York State 30 % rough meadow-grass, Wisconsin A3700 it and supina alone in dense shade; a tenth to a third in British mixtures, common practice, no published source"),
	share(fineFescues, 40, 80, kinds{Shade, Moist}, kinds{Hot}, "moist shade or not: Oregon's classic mixture two thirds fine fescue; Royal Horticultural Society and German standard mixture for half shade: fescues first"),
	share(dampShade, 0, 20, kinds{Sun, Moist}, nil, "in the sun rough meadow-grass is crowded out (Sandmosen, Denmark); poorly drained lawns of western Washington have tall fescue or bents"),
	share(dampShade, 0, 5, nil, kinds{Moist}, "Wisconsin A3700: supina and rough meadow-grass only in moist shade"),

	// Hot damp summers: the American transition zone.
	share(tallFescue, 85, 100, kinds{Hot, Sun}, kinds{Fine, Wild}, "Maryland 95 %, Arkansas and Kansas State tall fescue alone; in shade Maryland, New Jersey and Tennessee sow fine fescue as well; on banks that are hardly mown Maryland and Virginia sow hard fescue"),
	// Elsewhere it is sown where it is dry and not too cold, or not at all.
	share(tallFescue, 60, 80, kinds{Sun, Dry}, kinds{Cold, Hot, Cool, Poor, Sandy, Fine, Wild}, "German standard mixture for dry places: 60-80 % tall fescue; on sand Polish and Latvian advice is fescue"),
	share(tallFescue, 0, 0, nil, kinds{Hot, Dry}, "left out of northern and maritime lists"),
	share(tallFescue, 0, 0, kinds{Cool, Dry}, nil, "left out where summers are cool however dry: Denmark, Estonia, Sweden, Alberta, Alaska"),
	shareOrNone(tallFescue, 60, 100, nil, nil, "the bulk of a mixture or left out: Kansas alone, Maryland 95 %, Nebraska 90-95 %, German standard mixture 60-80 %"),

	// Ordinary lawns in the sun, by the winter and, where it is neither cold nor mild, by
	// the summer.
	share(meadowGrass, 40, 80, kinds{Plain, Sun, Cold}, kinds{Dry, Hot, Salt}, "Montana 60 %, Estonia 40-60 %, Regina 80 %, North Dakota: smooth meadow-grass first"),
	share(fineFescues, 20, 50, kinds{Plain, Sun, Cold}, kinds{Dry, Hot, Salt}, "Regina 20 %, Montana 30 %, Estonia 40-60 % red fescue"),
	share(ryegrasses, 0, 15, kinds{Cold}, kinds{Repair}, "Minnesota 10-15 %: ryegrass crowds meadow-grass and dies in hard winters"),
	share(fineFescues, 30, 50, kinds{Plain, Sun, Temperate}, kinds{Dry, Warm, Rich}, "Vermont 50 %, Germany 40 %, Poland 20 % red fescue"),
	share(ryegrasses, 20, 40, kinds{Plain, Sun, Temperate}, kinds{Dry, Warm, Rich}, "Vermont 20 %, Germany 30 %, Poland 50 % ryegrass"),
	share(meadowGrass, 50, 90, kinds{Plain, Sun, Temperate, Warm}, kinds{Dry, Hot, Poor}, "smooth meadow-grass first from Iowa to Ohio and West Virginia, 80-100 % there, 60-80 % in central Indiana"),
	share(meadowGrass, 60, 80, kinds{Plain, Sun, Temperate, Rich}, kinds{Hot}, "watered in dry country: central Washington 80 %, eastern Oregon 75 % smooth meadow-grass"),
	share(ryegrasses, 30, 50, kinds{Plain, Sun, Mild}, kinds{Frostless, Hot}, "British amenity mixtures 40 % ryegrass"),
	share(meadowGrass, 0, 15, kinds{Sun, Mild}, kinds{Rich, Hot}, "Washington State: smooth meadow-grass does not last; left out of Oregon's and British mixtures"),
	share(bents, 10, 20, kinds{Plain, Sun, Mild, Poor}, kinds{Hot, Frostless}, "Oregon: a fifth of browntop where little is fed"),

	// Worn lawns, by the winter.
	share(meadowGrass, 60, 90, kinds{Worn, Sun, Cold}, kinds{Hot, Repair}, "Russian sports turf 60-70 %, Cornell 80-90 %; Alaska, Estonia and Norway: where much is trodden, smooth meadow-grass first"),
	share(ryegrasses, 30, 70, kinds{Worn, Sun, Temperate}, kinds{Warm, Repair}, "German standard mixtures 30-40 %, Slovakia 60 % ryegrass"),
	share(ryegrasses, 40, 50, kinds{Worn, Sun, Mild}, kinds{Frostless, Hot, Repair}, "Oregon 50 %, Britain 40 % ryegrass"),
	share(redFescues, 20, 50, kinds{Worn, Sun, Mild}, kinds{Rich, Frostless, Hot, Repair}, "British amenity mixture 50 %, Oregon 20-30 % fescue; Royal Horticultural Society: red fescues in it; fed sports turf has none"),
	share(meadowGrass, 40, 50, kinds{Worn, Sun, Mild, Rich}, kinds{Frostless, Hot, Repair}, "Oregon 50 % smooth meadow-grass where it is fed and watered"),
	share(ryegrasses, 80, 100, kinds{Sun, Frostless}, kinds{Hot, Fine, Wild}, "New Zealand street berms: 80 % ryegrass or more"),
	share(bents, 10, 20, kinds{Sun, Frostless}, kinds{Hot, Wild}, "New Zealand street berms: 20 % browntop"),
	share(ryegrasses, 90, 100, kinds{Sun, Repair}, kinds{Hot}, "repair of old turf: Cornell, Pennsylvania State, Ohio State and Calgary ryegrass alone, German standard mixture 80 % or more"),

	// Little upkeep: poor or dry ground, banks and verges.
	share(fineFescues, 65, 100, kinds{Wild}, kinds{Moist, Hot}, "Illinois, Denmark, Flanders: fine fescues where little is done"),
	share(fineFescues, 65, 100, kinds{Plain, Poor, Dry}, kinds{Moist, Hot}, "New York 65 % fine fescue on droughty ground"),
	share(dryFescues, 25, 60, kinds{Wild, Dry}, kinds{Hot}, "Regina, Alberta and northern France: hard and sheep's fescue on dry ground"),

	// Grazing, by the winter.
	share(ryegrasses, 40, 85, kinds{Grazed, Sun, Mild}, kinds{Hot}, "Irish paddocks 80 % ryegrass, other grasses a twentieth each; German ones ryegrass, meadow-grass and red fescue for intensive grazing"),
	share(meadowGrass, 40, 80, kinds{Grazed, Sun, Cold}, kinds{Hot}, "Pennsylvania State by weight half meadow-grass in horse pastures; Minnesota and Norway: meadow-grass closes the sward and lasts"),

	// Salt.
	share(meadowGrass, 0, 20, kinds{Salt}, nil, "North Dakota: no smooth meadow-grass on saline ground"),
	share(saltGrass, 10, 25, kinds{Salt}, nil, "saltmarsh-grass on saline verges: Alberta 10 %, Ontario 20 %; Minnesota asks for some"),
	share(saltGrass, 0, 0, nil, kinds{Salt}, "saltmarsh-grass is sown only where there is salt: Alberta roadsides"),

	// Grasses of special places.
	share(unusual, 0, 5, kinds{Moist}, kinds{Wild}, "wet ground or not, where it is mown: Iceland counts tufted hair-grass among the bad grasses of lawns, Siedlce keeps it for those not often mown"),
	share(unusual, 0, 5, nil, kinds{Moist}, "not in published mixtures for ordinary ground; Alaska Plant Materials Center: rare partners at most 5 %"),
}

// Where the kinds begin and end. Winters follow the shares of ryegrass that
// publications allow, summers where tall fescue takes over, shade the light that
// 3.5 to 5 hours of sun bring at 40 to 45° N; the figures are inferred from where
// the publications write: in the eastern United States summers are warm south of
// about 43° N.
const (
	coldFromC, coldFullC       = -19.5, -25.0 // mean yearly minimum
	snowFromDays, snowFullDays = 50.0, 85.0   // or days under snow
	mildFromC, mildFullC       = -11.0, -6.0
	openFromC, openFullC       = 1.5, 4.0 // mean of the coldest month
	frostlessFromC, frostlessC = -3.0, 0.0
	hotFromC, hotFullC         = 25.9, 26.6   // mean of the hottest 30 days
	shadeCoolC                 = 1.0          // in shade it is felt as cooler: fine fescue from Pennsylvania to Tennessee, tall fescue in Arkansas and Kansas
	warmFromC, warmFullC       = 23.0, 25.0   // the same
	coolFromC, coolFullC       = 20.0, 18.0   // the same
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
	patchedFrom, patchedFull   = 0.60, 0.70   // cover by the old sward
	aridFromMM, aridFullMM     = 600.0, 400.0 // rain a year where a lawn is watered as a matter of course
)

// degrees are how far a lawn is of each kind, 0 to 1.
func (l *Lawn) degrees() map[Kind]float64 {
	k := map[Kind]float64{}
	k[Cold] = max(arith.Ramp(l.WinterMinC, coldFromC, coldFullC), arith.Ramp(l.SnowDays, snowFromDays, snowFullDays))
	k[Mild] = min(arith.Ramp(l.WinterMinC, mildFromC, mildFullC), arith.Ramp(l.ColdMonthC, openFromC, openFullC))
	k[Frostless] = arith.Ramp(l.WinterMinC, frostlessFromC, frostlessC)
	k[Temperate] = max(0, 1-k[Cold]-k[Mild])
	k[Shade] = min(arith.Ramp(l.DLI, shadeFromMol, shadeFullMol), arith.Ramp(l.OpenShare, shadeFrom, shadeFull))
	k[Sun] = 1 - k[Shade]
	k[Hot] = arith.Ramp(l.HotC-shadeCoolC*k[Shade], hotFromC, hotFullC) * arith.Ramp(l.RainMM, humidFromMM, humidFullMM)
	k[Warm] = arith.Ramp(l.HotC, warmFromC, warmFullC)
	k[Cool] = arith.Ramp(l.HotC, coolFromC, coolFullC)
	k[Dry] = arith.Ramp(l.DroughtShare, dryFrom, dryFull)
	if !l.Watered {
		k[Sandy] = arith.Ramp(l.Wetness, droughtyBelow, 0)
		k[Dry] = max(k[Dry], droughtySoil*k[Sandy])
	}
	k[Moist] = arith.Ramp(l.Wetness, moistFrom, moistFull)
	k[Salt] = arith.Ramp(l.ECeDSM, saltFromDSM, saltFullDSM)
	if l.NitrogenGM2 < poorBelowGM2 {
		k[Poor] = 1
	}
	k[Rich] = arith.Ramp(l.NitrogenGM2, richFromGM2, richFullGM2)
	if l.Watered {
		k[Rich] = max(k[Rich], arith.Ramp(l.RainMM, aridFromMM, aridFullMM))
	}
	k[map[Purpose]Kind{Show: Fine, Family: Plain, Sport: Worn, Neglect: Wild, Pasture: Grazed}[l.Purpose]] = 1
	k[Repair] = arith.Ramp(l.Cover, patchedFrom, patchedFull)
	if l.Purpose == Sport && l.oversown() {
		k[Repair] = 1
	}
	return k
}

// weight is the degree to which a lawn is of the kinds of a rule.
func (r *Rule) weight(degree map[Kind]float64) float64 {
	w := 1.0
	for _, x := range r.On {
		w *= degree[x]
	}
	for _, x := range r.Off {
		w *= 1 - degree[x]
	}
	return w
}
