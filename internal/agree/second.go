package agree

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// second holds two mixtures to their zones, to the seed, to the two bills and to the rule.
func (c *checker) second() {
	s := c.p.Second
	if s == nil {
		return
	}
	one, two := c.wayNamed("seed"), c.wayNamed("two mixtures")
	if one == nil || two == nil || len(s.Mixtures) != 2 || s.Because == "" || len(s.Zones) == 0 {
		c.no("two mixtures without both ways: %+v", *s)
		return
	}
	area, seed, gained := 0.0, 0.0, 0.0
	sown := map[string]float64{}
	for i, m := range s.Mixtures {
		c.part([]string{"the first mixture", "the second mixture"}[i], m)
		if slices.Equal(m.Zones, s.Zones) {
			c.near("cover gained", s.Gain, m.CoverExpected-m.Common.CoverExpected, 0.0021)
			gained = s.Gain
		}
		area, seed = area+m.M2, seed+m.SeedKG
		for _, x := range m.Components {
			sown[x.ID] += x.Grams
		}
	}
	c.near("ground of two mixtures", area, two.SownM2, 0.16)
	c.taken(s, one, two, gained)
	if two.Chosen {
		c.together(sown, seed)
	}
}

// taken holds two mixtures to both bills, and the choice to the rule.
func (c *checker) taken(s *second, one, two *way, gained float64) {
	more, err := decimal.NewFromString(s.More)
	if err != nil || !c.amount("two mixtures", two.Total).Sub(c.amount("one mixture", one.Total)).Equal(more) {
		c.no("two mixtures cost %s, one %s, and that is %s more", two.Total, one.Total, s.More)
	}
	if one.Chosen && s.Taken || two.Chosen && !s.Taken || s.Taken && !(gained >= 0.0245) {
		c.no("two mixtures are taken %v for %v of cover; chosen %v and %v", s.Taken, gained, one.Chosen, two.Chosen)
	}
}

// part holds one of two mixtures to its zones and its seed.
func (c *checker) part(what string, m part) {
	grams := c.components(what, m.Components, 5, mostGrasses)
	c.near("grams of "+what, grams, 1000*m.SeedKG, 0.6*float64(len(m.Components)))
	c.near("seed of "+what+" by its rate", 1000*m.SeedKG, m.RateGM2*m.M2, 0.5+0.06*m.M2+0.06*m.RateGM2)
	zones := 0.0
	for _, z := range c.p.Light.Zones {
		if slices.Contains(m.Zones, z.Letter) {
			zones += z.AreaM2
		}
	}
	c.near("zones of "+what, m.M2, zones, 0.06*float64(len(m.Zones)+1))
	for name, x := range map[string]float64{"cover": m.CoverExpected, "chance": m.Chance, "cover of one": m.Common.CoverExpected, "chance of one": m.Common.Chance} {
		c.share(name+" by "+what, x)
	}
	if m.CoverBadYear > m.CoverExpected+0.005 {
		c.no("%s: cover %v in the bad year, %v expected", what, m.CoverBadYear, m.CoverExpected)
	}
}

// together holds the seed of two mixtures to that of the plan.
func (c *checker) together(sown map[string]float64, seedKG float64) {
	c.near("seed of both mixtures", seedKG, c.p.Mixture.SeedKG, 0.0021)
	for _, x := range c.p.Mixture.Components {
		if math.Abs(sown[x.ID]-x.Grams) > 1.1 {
			c.no("%v g of %s in both mixtures, %v g in all", sown[x.ID], x.ID, x.Grams)
		}
	}
	if len(sown) != len(c.p.Mixture.Components) {
		c.no("%d grasses in two mixtures, %d in all", len(sown), len(c.p.Mixture.Components))
	}
}

// wayNamed is a way of the plan; nil: it has none.
func (c *checker) wayNamed(name string) *way {
	if i := slices.IndexFunc(c.p.Cost.Ways, func(w way) bool { return w.Way == name }); i >= 0 {
		return &c.p.Cost.Ways[i]
	}
	return nil
}
