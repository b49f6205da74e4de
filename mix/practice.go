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

// practiceWeight is what a whole mixture against practice loses of its score: about
// what the model's own scores of the better half of the grid are spread over.
const practiceWeight = 0.35

// practice is one rule: on ground of a kind, a kind of grass has a share by
// weight within a band.
type practice struct {
	of        []string // species ids
	low, high float64  // percent by weight
	when      func(k *kindOfGround) float64
	source    string
}

// kindOfGround says how far a lawn is of each kind that publications write for, 0 to 1.
type kindOfGround struct {
	cold, temperate, mild   float64 // by the winter
	frostless               float64 // the mildest of the mild
	airMinC                 float64 // mean yearly minimum
	hot                     float64 // by the summer
	shade, sun              float64
	moist, dry              float64 // of the ground
	salt                    float64
	fine, plain, worn, wild float64 // by grade and traffic; they add to 1
	poor, rich              float64 // by what it is fed
	repair                  float64 // an old worn sward is oversown
}

var (
	redFescues  = []string{"strong-creeping-red-fescue", "slender-creeping-red-fescue", "chewings-fescue"}
	fineFescues = append(slices.Clone(redFescues), "hard-fescue", "sheeps-fescue")
	bents       = []string{"browntop-bent", "creeping-bent", "velvet-bent"}
	ryegrass    = []string{"perennial-ryegrass", "italian-ryegrass"}
	meadowGrass = []string{"smooth-stalked-meadow-grass"}
	tallFescue  = []string{"tall-fescue"}
	dampShade   = []string{"supina-meadow-grass", "rough-stalked-meadow-grass"}
	dampGround  = append([]string{"tufted-hair-grass", "creeping-bent", "browntop-bent"}, dampShade...)
	unusual     = []string{"tufted-hair-grass", "wood-meadow-grass", "crested-dogs-tail", "crested-hair-grass", "smaller-cats-tail", "italian-ryegrass"}
)

// practices are the rules that publications repeat. Shares are theirs, by weight.
var practices = []practice{
	// Fine lawns.
	{redFescues, 80, 95, func(k *kindOfGround) float64 { return k.fine * k.sun }, "German standard mixture for ornamental lawns (85-95 % red fescues, 5-15 % bent); RHS"},
	{bents, 5, 20, func(k *kindOfGround) float64 { return k.fine * k.sun * (1 - k.dry) }, "the same"},
	{ryegrass, 0, 0, func(k *kindOfGround) float64 { return k.fine }, "the same: no ryegrass"},

	// Shade.
	{fineFescues, 60, 100, func(k *kindOfGround) float64 { return k.shade * (1 - k.moist) * (1 - k.hot) }, "Iowa 75 %, New York 65 %, Minnesota 60 %, Purdue 50 % fine fescue in shade"},
	{meadowGrass, 0, 5, func(k *kindOfGround) float64 { return k.shade }, "Iowa and Wisconsin leave smooth meadow-grass out in shade; New York allows 20 %"},
	{dampShade, 60, 100, func(k *kindOfGround) float64 { return k.shade * k.moist }, "Wisconsin A3700: supina and rough meadow-grass in dense shade where it is moist"},
	{dampShade, 0, 5, func(k *kindOfGround) float64 { return 1 - k.shade*k.moist - 0.5*k.moist }, "the same: only there"},

	// Hot summers: the transition zone.
	{tallFescue, 85, 100, func(k *kindOfGround) float64 { return k.hot * (1 - k.fine) }, "Maryland 95 % tall fescue, 5 % meadow-grass; Arkansas; Kansas State"},
	{ryegrass, 0, 10, func(k *kindOfGround) float64 { return k.hot }, "Maryland: 5 % ryegrass at most"},
	// Elsewhere tall fescue is sown where it is dry and not too cold, or not at all.
	{tallFescue, 60, 80, func(k *kindOfGround) float64 {
		return k.sun * k.dry * (1 - k.cold) * (1 - k.hot) * (k.plain + k.worn) * (1 - k.poor)
	}, "German standard mixture for dry places (60-80 % tall fescue)"},
	{tallFescue, 0, 0, func(k *kindOfGround) float64 { return 2 * (1 - k.hot) * max(k.cold, 1-k.dry, k.frostless) }, "northern lists leave it out: winter risk (Illinois, Minnesota)"},

	// Plain lawns in the sun, by the winter.
	{meadowGrass, 45, 70, func(k *kindOfGround) float64 {
		return k.plain * k.sun * k.cold * (1 - k.poor) * (1 - k.dry) * (1 - k.hot)
	}, "Montana 60 %, eastern Oregon 75 %, Estonia 40-60 % smooth meadow-grass"},
	{redFescues, 25, 45, func(k *kindOfGround) float64 {
		return k.plain * k.sun * k.cold * (1 - k.poor) * (1 - k.dry) * (1 - k.hot)
	}, "Montana 30 %, eastern Oregon 25 %, Estonia 40-60 % red fescue"},
	{ryegrass, 0, 15, func(k *kindOfGround) float64 { return k.cold }, "Minnesota 10-15 %, Pennsylvania State 20 % at most: ryegrass crowds meadow-grass and dies in hard winters"},
	{redFescues, 30, 50, func(k *kindOfGround) float64 { return k.plain * k.sun * k.temperate * (1 - k.dry) * (1 - k.hot) }, "Vermont 50 %, Germany 40 %, Poland 20 % red fescue"},
	{meadowGrass, 20, 35, func(k *kindOfGround) float64 { return k.plain * k.sun * k.temperate * (1 - k.hot) }, "Vermont 30 %, Germany 30 %, Poland 20 % smooth meadow-grass"},
	{ryegrass, 20, 40, func(k *kindOfGround) float64 { return k.plain * k.sun * k.temperate * (1 - k.dry) * (1 - k.hot) }, "Vermont 20 %, Germany 30 %, Poland 50 % ryegrass"},
	{ryegrass, 30, 50, func(k *kindOfGround) float64 { return k.plain * k.sun * k.mild * (1 - k.frostless) * (1 - k.hot) }, "British amenity mixtures 40 % ryegrass; western Washington ryegrass and tall fescue"},
	{redFescues, 30, 60, func(k *kindOfGround) float64 {
		return k.plain * k.sun * k.mild * (1 - k.dry) * (1 - k.frostless) * (1 - k.hot)
	}, "British amenity mixtures 50 % red fescue"},

	// Worn lawns, by the winter.
	{meadowGrass, 80, 90, func(k *kindOfGround) float64 { return k.worn * k.sun * k.cold * (1 - k.hot) }, "Minnesota 85-90 % smooth meadow-grass under wear; Alaska; Utah"},
	{fineFescues, 0, 10, func(k *kindOfGround) float64 { return k.worn * k.sun * k.cold }, "the same; Wisconsin: fine fescues bear shade, not traffic"},
	{ryegrass, 30, 50, func(k *kindOfGround) float64 { return k.worn * k.sun * k.temperate * (1 - k.hot) }, "Germany 30 %, Czech parks led by ryegrass"},
	{meadowGrass, 25, 50, func(k *kindOfGround) float64 { return k.worn * k.sun * k.temperate * (1 - k.hot) }, "Germany 30 % smooth meadow-grass; Oregon 50 %"},
	{redFescues, 20, 40, func(k *kindOfGround) float64 { return k.worn * k.sun * k.temperate * (1 - k.hot) }, "Germany 40 % red fescue"},
	{ryegrass, 40, 60, func(k *kindOfGround) float64 { return k.worn * k.sun * k.mild * (1 - k.frostless) * (1 - k.hot) }, "Oregon 50 %, Britain 40 % ryegrass"},
	{meadowGrass, 25, 50, func(k *kindOfGround) float64 {
		return k.worn * k.sun * k.mild * (1 - k.frostless) * (1 - k.hot) * (1 - k.dry)
	}, "Oregon 50 % smooth meadow-grass"},
	{ryegrass, 75, 100, func(k *kindOfGround) float64 { return (k.worn + k.plain) * k.sun * k.frostless * (1 - k.hot) }, "New Zealand street berms 80 % ryegrass or more"},

	{redFescues, 35, 50, func(k *kindOfGround) float64 {
		return k.worn * (1 - k.rich) * k.sun * k.mild * (1 - k.frostless) * (1 - k.hot)
	}, "Britain 50 %, Germany 40 % red fescue"},
	{ryegrass, 75, 100, func(k *kindOfGround) float64 { return k.worn * k.repair * (1 - k.cold) }, "German standard mixture for the repair of worn turf: 80 % ryegrass or more"},

	// Little upkeep, poor or dry ground, banks and verges.
	{fineFescues, 65, 100, func(k *kindOfGround) float64 {
		return max(k.wild, k.poor*k.plain*k.dry) * (1 - k.moist) * (1 - k.hot)
	}, "Illinois, Denmark, New York 65 %, Flanders: fine fescues for little upkeep"},
	{[]string{"hard-fescue", "sheeps-fescue"}, 25, 60, func(k *kindOfGround) float64 { return k.wild * k.dry * (1 - k.hot) }, "Regina, Alberta, Northern France: hard and sheep fescue on dry ground left to itself"},
	{ryegrass, 0, 5, func(k *kindOfGround) float64 { return k.wild }, "Flanders: ryegrass forbidden on verges"},

	// Wet ground and salt.
	{dampGround, 40, 100, func(k *kindOfGround) float64 { return k.moist * (1 - k.fine) * k.sun * 0.5 }, "Oregon: bents and rough meadow-grass take over on wet ground; Alaska: hair-grass"},
	{[]string{"reflexed-saltmarsh-grass"}, 10, 35, func(k *kindOfGround) float64 { return k.salt }, "Alberta roadsides: a tenth of saltmarsh-grass"},
	{meadowGrass, 0, 20, func(k *kindOfGround) float64 { return k.salt }, "North Dakota: no smooth meadow-grass on saline soil"},
	{fineFescues, 45, 75, func(k *kindOfGround) float64 { return k.salt * (1 - k.worn) }, "Alberta roadsides: two thirds fine fescue"},

	// Grasses of special places.
	{unusual, 0, 5, func(k *kindOfGround) float64 { return 1 - k.moist }, "left out of published mixtures for ordinary ground; rare partners at most 5 % (Alaska Plant Materials Center)"},
}

// Where the kinds of ground begin and end. Winters follow the shares of ryegrass
// that publications allow, summers where tall fescue takes over, shade the light
// that 3.5 to 5 hours of sun bring at 40 to 45° N; the figures are inferred from
// where the publications write.
const (
	coldFromC, coldFullC       = -19.5, -25.0 // mean yearly minimum
	snowFromDays, snowFullDays = 50.0, 85.0   // or days under snow
	mildFromC, mildFullC       = -11.0, -6.0
	frostlessFromC, frostlessC = -3.0, 0.0
	hotFromC, hotFullC         = 25.9, 26.6   // mean of the hottest 30 days
	humidFromMM, humidFullMM   = 400.0, 650.0 // rain a year: dry heat is borne where it is watered
	shadeFromMol, shadeFullMol = 19.5, 14.5   // season's mean
	shadeFromShare, shadeFull  = 0.64, 0.50   // and share of the open lawn's light
	moistFrom, moistFull       = 0.35, 0.55   // ground.Soil.Wetness
	dryFromDays, dryFullDays   = 20.0, 40.0   // of drought in a year
	saltFromDSM, saltFullDSM   = 3.0, 6.0
	poorBelowGM2               = 6.0 // nitrogen fed in a year
	richFromGM2, richFullGM2   = 11.0, 16.0
)

// groundOf places a lawn. asked is the grade that was asked for: a lawn that can't
// be as good as was asked is still walked on as much.
func groundOf(c *site.Conditions, u species.Use, asked species.Grade, overseed bool) *kindOfGround {
	var k kindOfGround
	w := &c.Weather
	k.airMinC = w.AirMinC
	k.cold = max(ramp(w.AirMinC, coldFromC, coldFullC), ramp(w.SnowDays, snowFromDays, snowFullDays))
	k.mild = ramp(w.AirMinC, mildFromC, mildFullC)
	k.frostless = ramp(w.AirMinC, frostlessFromC, frostlessC)
	k.temperate = max(0, 1-k.cold-k.mild)
	var dli, open, hot, drought, share, years float64
	for i := range c.Zones {
		z := &c.Zones[i]
		dli += z.Share * z.Light.DLISeason
		open += z.Share * z.Light.OpenShare
		share += z.Share
		for y := range z.Years {
			hot += z.Share * z.Years[y].HotMeanC
			drought += z.Share * z.Years[y].DroughtDays
			years += z.Share
		}
	}
	if share > 0 {
		k.shade = min(ramp(dli/share, shadeFromMol, shadeFullMol), ramp(open/share, shadeFromShare, shadeFull))
	}
	if years > 0 {
		k.hot = ramp(hot/years, hotFromC, hotFullC) * ramp(w.RainYearMM, humidFromMM, humidFullMM)
		k.dry = ramp(drought/years, dryFromDays, dryFullDays)
	}
	k.sun = 1 - k.shade
	k.moist = ramp(c.Soil.Wetness, moistFrom, moistFull)
	k.salt = ramp(c.Soil.ECeDSM, saltFromDSM, saltFullDSM)
	if u.NitrogenOrClass() < poorBelowGM2 {
		k.poor = 1
	}
	k.rich = ramp(u.NitrogenOrClass(), richFromGM2, richFullGM2)
	if overseed {
		k.repair = 1
	}
	switch {
	case asked == species.HardWearing || u.Traffic == species.Heavy:
		k.worn = 1
	case asked == species.Extensive:
		k.wild = 1
	case u.Grade == species.Ornamental:
		k.fine = 1
	default:
		k.plain = 1
	}
	return &k
}

// ramp runs from 0 at from to 1 at full, whichever is the greater.
func ramp(x, from, full float64) float64 { return clamp01((x - from) / (full - from)) }

// against is how far a mixture departs from practice, 0 to 1: the mean of the
// departures from the rules that speak of ground of this kind, in shares of the
// mixture.
func (k *kindOfGround) against(parts []Part) float64 {
	var sum float64
	for i := range practices {
		r := &practices[i]
		w := r.when(k)
		if w <= 0 {
			continue
		}
		share := 0.0
		for _, p := range parts {
			if slices.Contains(r.of, p.Species.ID) {
				share += p.Percent
			}
		}
		sum += w * max(0, r.low-share, share-r.high) / 100
	}
	return min(1, sum/practiceNorm)
}

// practiceNorm scales the sum of departures: a mixture that is wrong by its
// whole weight breaks about two rules, one for what is missing and one for what
// stands in its place.
const practiceNorm = 2.0

// ryegrassCap is the published cap on ryegrass, in units: 10 to 15 % where
// winters are hard (Minnesota), 20 % where they are cold (Pennsylvania State,
// Vermont), 30 to 40 % in temperate and maritime places (German play lawns 30 %,
// British amenity mixtures 40 %), and more only on worn ground there and where
// there is hardly a frost.
func (k *kindOfGround) ryegrassCap() int {
	// From 40 % down to 20 % with the winter, then on to 15 %.
	percent := 40 - 20*ramp(k.airMinC, -8, -17) - 5*k.cold
	if k.worn == 1 {
		percent += 20 * k.mild
		if k.repair == 1 {
			percent = max(percent, 100*(1-k.cold))
		}
	}
	percent = max(percent, 100*k.frostless)
	return int(percent/stepPercent + 0.5)
}
