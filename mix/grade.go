package mix

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/species"
)

const (
	// holdCover is the expected cover below which a zone is said to hold no grass.
	holdCover = 0.45
	// leastAt15 is the light below which no sown grass is promised to last, in a
	// season whose mean is 15 °C, mol m⁻² d⁻¹; up to doubtful times as much it is in
	// doubt. Both are the published rules of sun hours turned into light: 3 hours for
	// fescues in Pennsylvania and for tall fescue in Arkansas, 4 to 6 for others.
	// A warm sward burns more than a cool one, so a hot summer asks for more light
	// and a cool one for less: respiration rises by respirationQ10 with 10 °C. The
	// usual 2 is taken down to 1.6 for swards used to the warmth (inferred).
	leastAt15      = 9.4
	respirationQ10 = 1.6
	doubtful       = 1.5

	// A zone whose midwinter light is below winterShade of the open's, and whose snow
	// lies deepSnowDays on end, keeps no fine grasses (common practice, no published
	// source).
	winterShade  = 0.35
	deepSnowDays = 75.0
)

// below are the grades to try when one can't be held, the next best first.
var below = map[species.Grade][]species.Grade{
	species.Ornamental:  {species.Utility, species.Extensive},
	species.HardWearing: {species.Utility, species.Extensive},
	species.Utility:     {species.Extensive},
	"":                  {species.Extensive},
}

// attainable plans for the grade asked for and, where it can't be held, for the
// best that can. Among grades that none hold in full, the one counts in which the
// least of the lawn is lost, then the least of them, which asks least of the grass.
func (j job) attainable(ctx context.Context) (held, asked *answer, err error) {
	for i, g := range append([]species.Grade{j.use.Grade}, below[j.use.Grade]...) {
		if j.atLeast != "" && rank(g) > rank(j.atLeast) {
			break
		}
		k := j
		if i > 0 {
			k.use.Grade = g
			k.use.Traffic = j.use.TrafficOr()
			if k.use.MowingMM < species.StandardOf(g).CutMM {
				k.use.MowingMM = 0
			}
		}
		// A grade that this site cannot hold whatever is sown needs no fine search.
		k.quick = j.quick || g == species.Ornamental && j.deepShadedSnow()
		a, err := k.plan(ctx)
		if err != nil {
			return nil, nil, err
		}
		if i == 0 {
			asked = a
		}
		if held == nil || a.best != nil && (held.best == nil || a.lostShare() <= held.lostShare()+sliver) {
			held = a
		}
		if a.best != nil && a.short() == nil && a.lostShare() < sliver {
			return a, asked, nil
		}
	}
	if held.quick && !j.quick { // nothing better was found after all
		k := held.job
		k.quick = false
		held, err = k.plan(ctx)
	}
	return held, asked, err
}

// sliver is a share of the lawn too small to decide on a grade.
const sliver = 0.02

// lostShare is the share of the lawn in which no grass will hold.
func (a *answer) lostShare() (area float64) {
	for _, i := range a.lost() {
		area += a.site.Zones[i].Share
	}
	return area
}

// shortfall is what a mixture lacks of a grade.
type shortfall struct {
	what       string
	have, want float64
}

// short is the first thing by which the best mixture falls short of its grade,
// or nil.
func (a *answer) short() *shortfall {
	std, o := species.StandardOf(a.use.Grade), &a.best.outcome
	if std.Grade == species.Ornamental && a.deepShadedSnow() {
		return &shortfall{what: "fine grasses do not outlast months of winter shade under deep snow"}
	}
	for _, s := range []shortfall{
		{"expected cover", o.Expected, std.Cover},
		{"cover in a bad year", o.BadYear, std.BadCover},
		{"evenness of look", a.best.evenness, std.Even},
	} {
		if s.have < s.want {
			return &s
		}
	}
	if std.Grade == species.Ornamental && a.best.fineness < fineEnough {
		return &shortfall{"share of fine leaves", a.best.fineness, fineEnough}
	}
	return nil
}

// fineEnough is the share of fine leaves, as look has it, of an ornamental lawn.
const fineEnough = 0.6

// deepShadedSnow reports whether most of the lawn lies in winter shade under long snow.
func (j job) deepShadedSnow() bool {
	var area float64
	for i := range j.site.Zones {
		if fineGrassesDie(j.site, &j.site.Zones[i]) {
			area += j.site.Zones[i].Share
		}
	}
	return area >= 0.5
}

func fineGrassesDie(c *site.Conditions, z *site.Zone) bool {
	var snow float64
	for i := range z.Years {
		snow += z.Years[i].LongestSnow / float64(len(z.Years))
	}
	var here, open float64
	for _, m := range calendar.Darkest(c.Survey.Place.LatitudeDeg) {
		here += z.Light.DLI[m]
		open += c.Field.OpenDLI[m]
	}
	return snow >= deepSnowDays && open > 0 && here < winterShade*open
}

// lost are the zones, by index, in which no grass will hold.
func (a *answer) lost() (out []int) {
	for i, z := range a.zones {
		if z.kept < 0 {
			out = append(out, i)
		}
	}
	return out
}

// verdicts say zone by zone whether grass will hold, and to what grade.
func (a *answer) verdicts() []ZoneVerdict {
	var out []ZoneVerdict
	for i, z := range a.zones {
		v := ZoneVerdict{Zone: i, LimitedBy: a.limitedBy(i), Cover: z.alone}
		if z.kept >= 0 && a.best != nil {
			v.Holds = true
			v.Cover = a.best.outcome.Zone[z.kept]
			v.Grade = a.zoneGrade(v.Cover, a.best.outcome.ZoneBad[z.kept])
			v.Doubtful = a.site.Zones[i].Light.DLISeason < doubtful*leastDLI(a.site)
		}
		if !v.Holds || v.Doubtful {
			v.Instead = instead(a.use)
		}
		out = append(out, v)
	}
	return out
}

// zoneGrade is the best grade, not above the one planned for, whose standard of
// cover is met; the least grade when grass holds below every standard.
func (a *answer) zoneGrade(cover, bad float64) species.Grade {
	grades := append([]species.Grade{a.use.Grade}, below[a.use.Grade]...)
	for _, g := range grades {
		if std := species.StandardOf(g); cover >= std.Cover && bad >= std.BadCover {
			return g
		}
	}
	return grades[len(grades)-1]
}

// limitedBy is the criterion that limits the best species of the matrix in a zone.
func (a *answer) limitedBy(zone int) string {
	for _, r := range a.matrix.Rows {
		if r.Zone == zone && r.Species.ForLawns() {
			return r.LimitedBy
		}
	}
	return ""
}

// instead is what to do where no grass holds, in the order of falling light that
// extension services give (University of Illinois; Purdue AY-14; Regina and
// Gothenburg take lasting shade out of lawn).
func instead(u species.Use) []string {
	if u.TrafficOr() == species.Heavy || u.Grade == species.HardWearing {
		return []string{
			"paving, stepping stones or gravel where people walk",
			"bark or wood-chip mulch under trees, kept off the stems",
			"shade-bearing ground-cover plants beside the path",
		}
	}
	return []string{
		"shade-bearing ground-cover plants",
		"woodland perennials and ferns, or a shade meadow cut once or twice a year",
		"moss, where the ground stays moist and nobody walks",
		"bark or leaf mulch; gravel or paving where people walk",
	}
}

// because says why the attainable grade is what it is.
func (a *answer) because(asked *answer) string {
	if a.best == nil {
		if len(a.lost()) == len(a.zones) {
			i := lightest(a.site)
			z := &a.site.Zones[i].Light
			if least := leastDLI(a.site); z.DLISeason < least {
				return fmt.Sprintf("the lightest part gets %.1f mol of light a day and %.1f h of direct sun; with summers like these no lawn grass keeps its cover for long below about %.0f mol", z.DLISeason, z.SunHoursSeason, least)
			}
			return fmt.Sprintf("the grass that does best there would cover %.0f %% of the ground, limited by %s", 100*a.zones[i].alone, orUnknown(a.limitedBy(i)))
		}
		return "none of the seed on offer may be sown here"
	}
	if asked.best == nil {
		return fmt.Sprintf("at the height and finish of %s no grass would hold; %s covers %.0f %% of the ground", article(asked.use.Grade), article(a.use.Grade), 100*a.best.outcome.Expected)
	}
	s := asked.short()
	if s == nil && a.use.Grade != asked.use.Grade {
		s = &shortfall{what: fmt.Sprintf("at the height and finish of %s no grass would hold in %.0f %% of the lawn", article(asked.use.Grade), 100*asked.lostShare())}
	}
	if s == nil {
		return fmt.Sprintf("the mixture is expected to cover %.0f %% of the ground, %.0f %% in a bad year", 100*a.best.outcome.Expected, 100*a.best.outcome.BadYear)
	}
	limit := orUnknown(a.limitedBy(a.largest()))
	text := s.what
	if s.want > 0 {
		decimals := 0
		if inPercent(s.have) == inPercent(s.want) { // a shortfall that rounding would hide
			decimals = 1
		}
		text = fmt.Sprintf("%s would be %.*f %% where %s asks for %.0f %%, limited by %s", s.what, decimals, 100*s.have, article(asked.use.Grade), 100*s.want, limit)
	}
	if a.use.Grade != asked.use.Grade {
		if a.short() != nil {
			text += fmt.Sprintf("; even %s falls short", article(a.use.Grade))
		} else {
			text += fmt.Sprintf("; %s would hold, with %.0f %% expected", article(a.use.Grade), 100*a.best.outcome.Expected)
		}
	}
	return text
}

func article(g species.Grade) string {
	switch g {
	case species.Ornamental, species.Extensive:
		return "an " + string(g) + " lawn"
	}
	return "a " + string(g) + " lawn"
}

func orUnknown(criterion string) string {
	if criterion == "" {
		return "the place as a whole"
	}
	return species.Limit(criterion)
}

func lightest(c *site.Conditions) int {
	best := 0
	for i := range c.Zones {
		if c.Zones[i].Light.DLISeason > c.Zones[best].Light.DLISeason {
			best = i
		}
	}
	return best
}

// largest is the largest zone in which grass holds.
func (a *answer) largest() int {
	best := -1
	for i, z := range a.zones {
		if z.kept >= 0 && (best < 0 || a.site.Zones[i].Share > a.site.Zones[best].Share) {
			best = i
		}
	}
	return max(0, best)
}

// lifts tries the changes that could let the site hold more, each by planning
// again with it, and keeps those that lift the grade or bring a lost zone back.
func (j job) lifts(ctx context.Context, held *answer) ([]Lift, error) {
	var out []Lift
	for _, change := range j.changes() {
		change.job.quick, change.job.atLeast = true, held.use.Grade
		h, _, err := change.job.attainable(ctx)
		if err != nil {
			return nil, err
		}
		if h.best == nil {
			continue
		}
		gained := held.best == nil || rank(h.use.Grade) < rank(held.use.Grade) || len(h.lost()) < len(held.lost()) ||
			h.best.outcome.Expected > held.best.outcome.Expected+worthLifting
		if gained {
			out = append(out, Lift{Change: change.what, Grade: h.use.Grade, Cover: h.best.outcome.Expected})
		}
	}
	slices.SortStableFunc(out, func(a, b Lift) int {
		return cmp.Or(rank(a.Grade)-rank(b.Grade), cmp.Compare(b.Cover, a.Cover))
	})
	return out, nil
}

// worthLifting is a gain in expected cover worth telling of.
const worthLifting = 0.03

func rank(g species.Grade) int {
	return slices.IndexFunc(species.Standards, func(s species.Standard) bool { return s.Grade == species.StandardOf(g).Grade })
}

// change is a job on a site or for a use that one measure has altered.
type change struct {
	what string
	job  job
}

// changes are the measures that this site leaves room for.
func (j job) changes() []change {
	var out []change
	add := func(what string, alter func(*job)) {
		k := j
		alter(&k)
		out = append(out, change{what, k})
	}
	leaf := false
	for i := range j.site.Zones {
		leaf = leaf || species.LeafTaken(j.site.Zones[i].Light) > leafWorthPruning
	}
	if leaf {
		add("thin and lift the crowns so that half of the light they take reaches the grass", func(k *job) {
			k.site = withLight(k.site, func(z *site.Zone) float64 {
				return 1 + 0.5*species.LeafTaken(z.Light)/max(z.Light.OpenShare, 0.01)
			})
		})
	} else if len(j.site.Zones) > 0 && j.site.Zones[0].Light.OpenShare < 0.8 {
		add("a third more light: open or lower a fence or hedge, or paint dark walls white", func(k *job) {
			k.site = withLight(k.site, func(*site.Zone) float64 { return 4.0 / 3 })
		})
	}
	if wet := j.site.Soil.Wetness; wet > 0.3 {
		add("drain the ground so that it no longer stands wet", func(k *job) { k.site = drained(k.site) })
	}
	if cut := j.use.MowingMM; cut > 0 && cut < species.StandardOf(species.Utility).CutMM {
		add("cut higher, at the grade's usual height", func(k *job) { k.use.MowingMM = 0 })
	}
	if !j.use.Irrigation && droughtDays(j.site) > droughtWorthWater {
		add("water in dry spells", func(k *job) {
			k.use.Irrigation = true
			k.site = withYears(k.site, func(z *site.Zone) {
				for i := range z.Years {
					z.Years[i].DroughtDays = 0
				}
			})
		})
	}
	if j.use.TrafficOr() != species.Light {
		add("keep most feet off it, with a path or stepping stones on the lines people walk", func(k *job) { k.use.Traffic = species.Light })
	}
	return out
}

const (
	leafWorthPruning  = 0.15 // of the open light, taken by leaves
	droughtWorthWater = 25.0 // days a year
)

func droughtDays(c *site.Conditions) float64 {
	var sum float64
	for i := range c.Zones {
		for y := range c.Zones[i].Years {
			sum += c.Zones[i].Share * c.Zones[i].Years[y].DroughtDays / float64(len(c.Zones[i].Years))
		}
	}
	return sum
}

// withYears is a copy of a site with the years of each zone altered.
func withYears(c *site.Conditions, alter func(*site.Zone)) *site.Conditions {
	k := *c
	k.Zones = slices.Clone(c.Zones)
	for i := range k.Zones {
		k.Zones[i].Years = slices.Clone(c.Zones[i].Years)
		alter(&k.Zones[i])
	}
	return &k
}

// withLight is a copy of a site with each zone's light and sky multiplied, up to
// the open's. Growth rises with the square root of light, about what half-saturating
// curves give in shade.
func withLight(c *site.Conditions, factor func(*site.Zone) float64) *site.Conditions {
	return withYears(c, func(z *site.Zone) {
		f := factor(z)
		if z.Light.OpenShare > 0 {
			f = min(f, 1/z.Light.OpenShare)
		}
		z.Light.DLISeason *= f
		z.Light.OpenShare *= f
		z.Light.SkyView = min(1, z.Light.SkyView*f)
		for m := range z.Light.DLI {
			z.Light.DLI[m] *= f
		}
		for y := range z.Years {
			z.Years[y].GrowthSum *= math.Sqrt(f)
		}
	})
}

// drained is a copy of a site that sheds its water.
func drained(c *site.Conditions) *site.Conditions {
	k := withYears(c, func(z *site.Zone) {
		for i := range z.Years {
			z.Years[i].WetDays *= drainedShare
			z.Years[i].IceDays *= drainedShare
		}
	})
	k.Soil.Wetness *= drainedShare
	return k
}

// drainedShare is what working drains leave of wet days and of ice (inferred).
const drainedShare = 0.25

// leastDLI is the light below which no sown grass is promised to last at a place.
func leastDLI(c *site.Conditions) float64 {
	var sum, weight float64
	for m, w := range c.Sky.SeasonWeight {
		sum += w * c.Normals.MeanC[m]
		weight += w
	}
	if weight == 0 {
		return leastAt15
	}
	return leastAt15 * math.Pow(respirationQ10, (sum/weight-15)/10)
}
