package species

import (
	"math"
	"time"

	"swardwright/internal/arith"
	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/site"
)

// Use is the brief's page [use]: what the lawn is for and how it is kept.
type Use struct {
	Grade       Grade
	Traffic     Traffic
	MowingMM    float64 // 0: by grade
	Mower       string  // "cylinder", "rotary", "robot", "scythe" or empty
	MowsPerWeek float64 // 0: by growth
	Irrigation  bool
	WaterYoung  *bool    // whether the young lawn is watered until it bears use; nil: as is usual
	Feeding     string   // "none", "low", "moderate", "high"
	NitrogenGM2 *float64 // instead of Feeding
	Livestock   bool
	Dogs        bool

	MowerWidthCM float64 // width of cut; 0: unknown
	NoFeed       *Ban    // when the law forbids feeding lawns; nil: not told of
}

// Ban is a part of every year, both days in it, by day of the year.
type Ban struct{ From, Until int }

// Holds tells whether a day of the year lies in it.
func (b *Ban) Holds(day int) bool {
	return b != nil && calendar.Since(b.From, day) <= calendar.Since(b.From, b.Until)
}

// Free is the date nearest to one that is in no ban and not before another.
func (b *Ban) Free(at, earliest time.Time) time.Time {
	free := func(step int) time.Time {
		d := at
		for b.Holds(calendar.DayOf(d)) {
			d = d.AddDate(0, 0, step)
		}
		return d
	}
	before, after := free(-1), free(1)
	if before.Before(earliest) || after.Sub(at) < at.Sub(before) {
		return after
	}
	return before
}

// Meadow tells whether the grass is kept for hay: extensive, cut by scythe when it is
// ripe, and unfed. Verges and banks are cut as they grow.
func (u Use) Meadow() bool {
	return u.Grade == Extensive && u.Mower == "scythe" && u.MowsPerWeek == 0 && u.Feeding == "none" && (u.NitrogenGM2 == nil || *u.NitrogenGM2 == 0)
}

// WatersYoung tells whether somebody waters until the lawn bears use, as everybody does
// who wants a lawn soon; one that is left rough is left to the rain.
func (u Use) WatersYoung() bool {
	if u.WaterYoung != nil && !u.Irrigation {
		return *u.WaterYoung
	}
	return u.Irrigation || !u.Rough()
}

// Grazed tells whether animals do the mowing: they are kept on it, and no height or number of
// cuts is asked for.
func (u Use) Grazed() bool {
	return u.Livestock && u.Grade != Ornamental && u.MowingMM == 0 && u.MowsPerWeek == 0 && u.Mower != "robot" && u.Mower != "cylinder"
}

// Rough tells whether the ground is to be left as it lies, for all but hollows: hay, verges
// and grazing want no fall from a house.
func (u Use) Rough() bool { return u.Grade == Extensive || u.Grazed() }

// ScalpedMM is the cut, and any below it, that scalps a lawn which is no ornamental one:
// our own, for moss.
const ScalpedMM = 25

// Scalped tells whether a cut is asked for so low that moss comes in.
func (u Use) Scalped() bool {
	return u.MowingMM > 0 && u.MowingMM <= ScalpedMM && u.Grade != Ornamental
}

// Grade is the standard asked of a lawn.
type Grade string

// The grades.
const (
	Ornamental  Grade = "ornamental"
	Utility     Grade = "utility"
	HardWearing Grade = "hard-wearing"
	Extensive   Grade = "extensive"
)

// Told is the grade as a sentence carries it.
func (g Grade) Told() told.Term { return told.Term{Kind: "grade", Word: string(g)} }

// Traffic is how much a lawn is walked on.
type Traffic string

// The classes of traffic.
const (
	Light    Traffic = "light"
	Moderate Traffic = "moderate"
	Heavy    Traffic = "heavy"
)

// Told is the traffic as a sentence carries it.
func (t Traffic) Told() told.Term { return told.Term{Kind: "traffic", Word: string(t)} }

// Standard is what a grade asks of the grass.
type Standard struct {
	Grade        Grade
	Means        string
	Cover        float64 // least living cover, mean of years
	BadCover     float64 // the same in the worst year of ten
	Least        float64 // mean cover below which ground is no lawn of the kind any more: half of the ground of a mown one
	LeafMM       float64 // widest leaf that still looks right
	ShootDensity float64 // least shoot density of a grass (trait ShootDensity) that still looks right
	Even         float64 // least evenness of look of a mixture, 0 to 1
	CutMM        float64 // usual height of cut, cool summers, in sun
	Traffic      Traffic // when the brief says nothing
	Feed         float64 // share of a grass's full need of nitrogen that its look asks for
	Source       string
}

const standardSource = "cover, look and feeding: common practice, no published source; cuts: Austrian consumer advice (ornamental 20-30, utility 30-80, hard-wearing 30-50 mm) and British practice"

// standards are the grades, the most demanding first. Their measures are set so that the
// lawns which publications sow for each in the sun are likelier to keep them than not.
var standards = []Standard{
	{Grade: Ornamental, Means: "a close, fine, even carpet that is looked at more than walked on",
		Cover: 0.83, BadCover: 0.70, Least: 0.50, LeafMM: 1.2, ShootDensity: 0.9, Even: 0.60, CutMM: 20, Traffic: Light, Feed: 1, Source: standardSource},
	{Grade: HardWearing, Means: "a lawn for play and paths that must keep its cover under feet",
		Cover: 0.82, BadCover: 0.62, Least: 0.50, LeafMM: 4.5, ShootDensity: 0.6, Even: 0.35, CutMM: 40, Traffic: Heavy, Feed: 1, Source: standardSource},
	{Grade: Utility, Means: "an ordinary green lawn for the family",
		Cover: 0.75, BadCover: 0.55, Least: 0.50, LeafMM: 3.2, ShootDensity: 0.75, Even: 0.40, CutMM: 40, Traffic: Moderate, Feed: 0.9, Source: standardSource},
	{Grade: Extensive, Means: "grass that covers the ground with little care",
		Cover: 0.55, BadCover: 0.35, Least: 0.35, LeafMM: 8, ShootDensity: 0.3, Even: 0, CutMM: 80, Traffic: Light, Feed: 0.7, Source: standardSource},
}

// StandardOf finds the standard of a grade. An empty or unknown grade is utility.
func StandardOf(g Grade) Standard {
	for _, s := range standards {
		if s.Grade == g {
			return s
		}
	}
	return StandardOf(Utility)
}

const (
	// shadeRiseMM is how much higher a lawn is cut in full shade: the step in
	// published sun and shade heights is about 25 mm (Arizona 1999).
	shadeRiseMM = 25.0
	// The whole step is reached half-way into the shade: in a lawn under trees
	// Purdue (2017) cuts at 75 mm and more.
	shadeSteep = 2.0
	// In summers whose hottest month has daily maxima above warmSummerC lawns
	// are cut higher by warmRiseMM: fine fescues 25-38 mm in cool summers and
	// 51-76 mm in warm ones (Golf Course Management 2010).
	coolSummerC, warmSummerC = 24.0, 29.0
	warmRiseMM               = 20.0
	// Where a growing season evaporates more than it rains by thirstyMM to
	// parchedMM, ordinary lawns are cut higher by dryRiseMM, watered or not, since long grass
	// roots deeper and shades its soil: 75 mm and more on the Canadian prairie
	// (University of Saskatchewan, City of Calgary, City of Yorkton).
	thirstyMM, parchedMM = 100.0, 175.0
	dryRiseMM            = 35.0
)

// CutMM is the height of cut in a zone: as the brief says, else the grade's
// usual height, raised for hot or for dry summers, whichever asks for more, and
// for shade.
func (u Use) CutMM(c *site.Conditions, z *site.Zone) float64 {
	if u.MowingMM > 0 {
		return u.MowingMM
	}
	std := StandardOf(u.Grade)
	if std.Grade == Extensive {
		return std.CutMM
	}
	hot, thirst := 0.0, 0.0
	for i := range z.Years {
		hot += z.Years[i].HotC / float64(len(z.Years))
		thirst += z.Years[i].WaterDeficitMM / float64(len(z.Years))
	}
	warm := arith.Ramp(hot, coolSummerC, warmSummerC)
	dry := 0.0
	if std.Grade == Utility { // the others are cut short for their looks or their wear
		dry = arith.Ramp(thirst, thirstyMM, parchedMM)
	}
	scale := std.CutMM / StandardOf(Utility).CutMM
	cut := std.CutMM + scale*(math.Max(warmRiseMM*warm, dryRiseMM*dry)+shadeRiseMM*arith.Unit(shadeSteep*shadiness(1-z.Light.OpenShare)))
	return math.Round(cut)
}

// TrafficOr is the traffic as the brief says, else the grade's usual.
func (u Use) TrafficOr() Traffic {
	if u.Traffic != "" {
		return u.Traffic
	}
	return StandardOf(u.Grade).Traffic
}

// Nitrogen a year for each class of feeding, g/m², common practice, no published source.
var feedingGM2 = map[string]float64{"none": 0, "low": 5, "moderate": 10, "high": 18, "": 10}

// NitrogenOrClass is the nitrogen fed in a year in full light, g/m².
func (u Use) NitrogenOrClass() float64 {
	if u.NitrogenGM2 != nil {
		return *u.NitrogenGM2
	}
	return feedingGM2[u.Feeding]
}
