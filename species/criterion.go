package species

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swardwright/internal/arith"
	"swardwright/internal/told"
	"swardwright/site"
	"swardwright/site/weather"
)

// Criterion is one column of the matrix. Adding one is adding one file and its
// name to Criteria.
type Criterion struct {
	ID      string
	Means   told.Sentence // what it asks, for a client
	Quality Quality       // what the criteria that are rated together are about
	Reads   []Trait
	Source  string // of the method

	Score  func(t *Traits, s *Setting) float64 // 0 to 1
	Figure func(s *Setting) told.Sentence      // what the site offers
	Limits func(t *Traits) told.Sentence       // what the grass needs
}

// Quality is a land quality in the sense of the FAO Framework: criteria of one
// quality act through the same weakness, so only the worst of them counts.
type Quality string

// The land qualities.
const (
	QualityLight  Quality = "light and air"
	QualityWinter Quality = "winter"
	QualityWater  Quality = "water"
	QualityHeat   Quality = "warmth"
	QualitySoil   Quality = "soil"
	QualityKeep   Quality = "care"
	QualityWear   Quality = "wear"
	QualityLook   Quality = "look"
	QualitySeason Quality = "season"
)

// Criteria are the columns of the matrix, in order.
var Criteria = []Criterion{
	criterionLight, criterionCold, criterionMould, criterionAir, criterionMowing, criterionWet, criterionDrought,
	criterionHeat, criterionPH, criterionSalt, criterionWear, criterionUpkeep, criterionLook, criterionSeason,
}

// rate rates one grass on one criterion by its best figures, with the reason.
// figure is the criterion's Figure of the setting, the same for every grass.
func (c *Criterion) rate(sp *Species, s *Setting, figure told.Sentence) Rating {
	t := sp.Best()
	r := Rating{Criterion: c.ID, Value: c.Score(&t, s), Figure: figure, Limits: c.Limits(&t), Basis: Read}
	var sources []string
	for _, tr := range c.Reads {
		v := sp.Values[tr]
		if slices.Index(bases, v.Basis) > slices.Index(bases, r.Basis) {
			r.Basis = v.Basis
		}
		if !slices.Contains(sources, v.Source) {
			sources = append(sources, v.Source)
		}
	}
	r.Source = strings.Join(sources, "; ")
	return r
}

// Setting is what a criterion looks at: one zone of a site and the use.
type Setting struct {
	Site  *site.Conditions
	Zone  *site.Zone
	Use   Use
	CutMM float64 // the height of cut in this zone

	stress stresses // by which survival is judged
	off    deviation
	years  []weather.Year // as the zone's sward feels them
	mean   weather.Year   // means over the years, of the fields criteria print
}

// stresses holds the years that each kind of loss is averaged over: all of
// them, or as many quantile years of its own stress.
type stresses struct {
	winters                   []frost
	moulds, droughts, summers []weather.Year
	wetShares                 []float64
}

// deviation is how far the truth may lie from what the site's models say.
type deviation struct {
	light  float64 // factor less 1
	crownC float64
	ph     float64
	wet    float64 // factor less 1
}

// newSetting gathers what the criteria need of one zone.
func newSetting(c *site.Conditions, zone int, use Use) (*Setting, error) {
	if zone < 0 || zone >= len(c.Zones) {
		return nil, fmt.Errorf("zone %d: the site has %d zones", zone, len(c.Zones))
	}
	z := &c.Zones[zone]
	if len(z.Years) == 0 {
		return nil, fmt.Errorf("zone %s: has no years to be judged by", z.Letter)
	}
	s := &Setting{Site: c, Zone: z, Use: use, CutMM: use.CutMM(c, z)}
	n := float64(len(z.Years))
	s.years = make([]weather.Year, len(z.Years))
	wet := make([]float64, len(z.Years))
	for i := range z.Years {
		s.years[i] = YearInZone(z.Years[i], z.Light, &c.Soil, use.Irrigation)
		wet[i] = WetShare(&z.Years[i], &c.Soil)
		y := &s.years[i]
		s.mean.GrowingDays += y.GrowingDays / n
		s.mean.HotC += y.HotC / n
		s.mean.HotMeanC += y.HotMeanC / n
		s.mean.DroughtDays += y.DroughtDays / n
		s.mean.WetDays += y.WetDays / n
		s.mean.Hardening += y.Hardening / n
		s.mean.CrownMinC += y.CrownMinC / n
		s.mean.ThawDays += y.ThawDays / n
		s.mean.SnowDays += y.SnowDays / n
		s.mean.LongestSnow += y.LongestSnow / n
		s.mean.MouldDays += y.MouldDays / n
		s.mean.IceDays += y.IceDays / n
	}
	s.stress = stresses{frosts(s.years), s.years, s.years, s.years, wet}
	return s, nil
}

// thin is the same setting judged by n quantile years of each stress.
func (s *Setting) thin(n int) *Setting {
	t := *s
	years := s.years
	typical := Traits{LT50C: -18, ThawLoss: 0.4}
	t.stress = stresses{
		winters:   frosts(quantiles(years, n, func(y *weather.Year) float64 { return y.CrownMinC - lt50(&typical, y) })),
		moulds:    quantiles(years, n, func(y *weather.Year) float64 { return mouldDays(y) + 3*y.IceDays }),
		droughts:  quantiles(years, n, func(y *weather.Year) float64 { return y.DroughtDays }),
		summers:   quantiles(years, n, func(y *weather.Year) float64 { return y.HotMeanC }),
		wetShares: nil,
	}
	for _, y := range quantiles(years, n, func(y *weather.Year) float64 { return WetShare(y, &s.Site.Soil) }) {
		t.stress.wetShares = append(t.stress.wetShares, WetShare(&y, &s.Site.Soil))
	}
	return &t
}

// quantiles are the years at the middles of n equal parts of their order by key.
func quantiles(years []weather.Year, n int, key func(*weather.Year) float64) []weather.Year {
	if len(years) <= n {
		return years
	}
	keys, order := make([]float64, len(years)), make([]int, len(years))
	for i := range years {
		keys[i], order[i] = key(&years[i]), i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(keys[a], keys[b]) })
	out := make([]weather.Year, n)
	for i := range out {
		out[i] = years[order[(2*i+1)*len(order)/(2*n)]]
	}
	return out
}

// shade is the share of the open lawn's light that is missing.
func (s *Setting) shade() float64 { return arith.Unit(1 - s.Zone.Light.OpenShare*(1+s.off.light)) }

// dli is the season's light, mol m⁻² d⁻¹.
func (s *Setting) dli() float64 { return s.Zone.Light.DLISeason * (1 + s.off.light) }

// A yearly loss of lossMadeGood of the cover is closed again by the next
// summer's growth; at lossHalf more the grass is marginal. Fitted to perennial
// ryegrass on Norwegian football pitches: sown again and again at 58° N, where
// one winter in six took it, given up at 64° N, where two in three did (Aamlid
// et al. 2012).
const lossMadeGood, lossHalf = 0.10, 0.20

// lossRating rates a mean yearly survival.
func lossRating(survival float64) float64 { return bell((1 - survival - lossMadeGood) / lossHalf) }

func frosts(years []weather.Year) []frost {
	out := make([]frost, len(years))
	for i := range years {
		out[i] = frostOf(&years[i])
	}
	return out
}

// meanOver averages a response over years.
func meanOver[Y any](years []Y, f func(*Y) float64) float64 {
	sum := 0.0
	for i := range years {
		sum += f(&years[i])
	}
	return sum / math.Max(1, float64(len(years)))
}

func days(n float64) told.Days { return told.Days(math.Round(n)) }

// graded is a resistance from 0 to 1 in words.
func graded(x float64) told.Term {
	words := []string{"very badly", "badly", "fairly", "well", "very well"}
	return told.Term{Kind: "stands", Word: words[min(int(x*float64(len(words))), len(words)-1)]}
}
