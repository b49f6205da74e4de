// Package agree holds a plan to itself: areas, counts, sums, dates, shares and
// chances that the JSON of one plan says in several places must be the same in all of
// them, and within what they can be. It knows the public form of the JSON and the
// brief, and nothing of how the plan was made.
package agree

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/samber/lo"
	"github.com/shopspring/decimal"

	"swardwright/internal/calendar"
	"swardwright/sowing"
	"swardwright/sowing/money"
	"swardwright/species"
)

// checker gathers what is wrong with one plan.
type checker struct {
	b      sowing.Brief
	p      plan
	from   day // the plan's date
	wrongs []string
}

func (c *checker) no(format string, args ...any) {
	c.wrongs = append(c.wrongs, fmt.Sprintf(format, args...))
}

// Check gives every contradiction of the JSON of the plan of a brief.
func Check(b sowing.Brief, text []byte) []string {
	c := &checker{b: b}
	c.words(text)
	if err := json.Unmarshal(text, &c.p); err != nil {
		return append(c.wrongs, err.Error())
	}
	c.from = day(c.p.Date)
	c.days()
	c.zones()
	c.grounds()
	c.matrix()
	c.mixture()
	c.second()
	c.seed()
	c.windows()
	c.tasks()
	c.waters()
	c.bills()
	c.answer()
	return c.wrongs
}

// nonsense is what shows that a figure was none.
var nonsense = regexp.MustCompile(`NaN|[-+ "]Inf\b|%!|\b0001-\d\d-\d\d|\b1067\d\d\b days|-0\.0\b|<nil>`)

func (c *checker) words(text []byte) {
	if found := nonsense.Find(text); found != nil {
		at := max(bytes.Index(text, found)-40, 0)
		c.no("%q in …%s…", found, text[at:min(at+120, len(text))])
	}
}

// days holds every date to the calendar and to the plan's own.
func (c *checker) days() {
	check := func(what string, d day) {
		if d == "" {
			return
		}
		t, ok := d.time()
		if !ok {
			c.no("%s: %q is no date", what, d)
		} else if from, _ := c.from.time(); t.Before(from) || t.After(from.AddDate(20, 0, 0)) {
			c.no("%s: %s, of a plan of %s", what, d, c.from)
		}
	}
	if !c.b.Date.IsZero() && c.from != day(c.b.Date.Format(time.DateOnly)) {
		c.no("the plan is of %s, the brief of %s", c.from, c.b.Date.Format(time.DateOnly))
	}
	check("sowing", c.p.SowOn)
	for _, t := range c.p.Tasks {
		check(t.ID, t.Date)
		check(t.ID, t.Until)
	}
	for _, w := range c.p.Cost.Ways {
		check(w.Way+" starts", w.StartOn)
		if w.UsableFrom != nil {
			check(w.Way+" is usable", *w.UsableFrom)
			if *w.UsableFrom < w.StartOn {
				c.no("%s is usable on %s, before it starts on %s", w.Way, *w.UsableFrom, w.StartOn)
			}
		}
	}
}

func (c *checker) share(what string, x float64) {
	if !(x >= 0 && x <= 1) {
		c.no("%s is %v, no share", what, x)
	}
}

func (c *checker) near(what string, got, want, within float64) {
	if !(math.Abs(got-want) <= within) {
		c.no("%s: %v against %v", what, got, want)
	}
}

func (c *checker) months(what string, values []float64, most float64) {
	if len(values) != 12 {
		c.no("%s has %d months", what, len(values))
	}
	for _, v := range values {
		if !(v >= 0 && v <= most) {
			c.no("%s: %v", what, v)
			return
		}
	}
}

const mostDLI = 120 // mol m⁻² d⁻¹; more than comes in above the clearest sky

func (c *checker) zones() {
	zones := c.p.Light.Zones
	if len(zones) == 0 || len(zones) > 4 {
		c.no("%d zones", len(zones))
		return
	}
	shares, areas, lives := 0.0, 0.0, 0.0
	for _, z := range zones {
		shares, areas = shares+z.Share, areas+z.AreaM2
		if z.lives() {
			lives += z.AreaM2
		}
		c.zone(z)
	}
	c.near("shares of the zones", shares, 1, 0.0003)
	c.near("area of the zones", areas, c.p.Place.AreaM2, 0.06*float64(len(zones)+1))
	for _, q := range c.p.Light.Probes {
		c.months("sun at "+q.Name, q.SunByMonth, 24)
	}
	if len(c.b.Site.Lawn.Parts) == 0 {
		c.near("area of the lawn", c.p.Place.AreaM2, c.b.Site.Lawn.AreaM2, 0.06)
	}
	if c.p.Advice != string(sowing.AdviseNoGrass) {
		c.near("area of the grass against its zones", c.p.GrassM2, lives, 0.06*float64(len(zones)+1))
	}
}

func (c *checker) zone(z zone) {
	c.share("zone "+z.Letter, z.Share)
	c.share("sky of zone "+z.Letter, z.SkyView)
	c.share("open share of zone "+z.Letter, z.OpenShare)
	c.months("sun of zone "+z.Letter, z.SunByMonth, 24)
	c.months("light of zone "+z.Letter, z.DLIByMonth, mostDLI)
	c.near("area of zone "+z.Letter, z.AreaM2, z.Share*c.p.Place.AreaM2, 0.11+1e-4*c.p.Place.AreaM2)
	if len(z.DLIByMonth) == 12 && (z.DLISeason < slices.Min(z.DLIByMonth)-0.06 || z.DLISeason > slices.Max(z.DLIByMonth)+0.06) {
		c.no("season's light of zone %s, %v, lies outside its months %v", z.Letter, z.DLISeason, z.DLIByMonth)
	}
	if z.Chance != nil {
		c.share("chance of zone "+z.Letter, *z.Chance)
		switch {
		case z.Verdict == "holds" && *z.Chance < 0.795, z.Verdict == "none" && *z.Chance >= 0.205, z.Verdict == "doubtful" && (*z.Chance < 0.195 || *z.Chance > 0.805):
			c.no("zone %s: verdict %s at a chance of %v", z.Letter, z.Verdict, *z.Chance)
		}
	}
	if z.Verdict != "" && !slices.Contains([]string{"holds", "doubtful", "none"}, z.Verdict) {
		c.no("zone %s: verdict %q", z.Letter, z.Verdict)
	}
}

func (c *checker) grounds() {
	g := c.p.Ground
	if g.Found == nil || g.Prepared == nil {
		c.no("no ground found or prepared")
		return
	}
	for what, s := range map[string]*soil{"found": g.Found, "prepared": g.Prepared} {
		c.share("wet share of the ground "+what, s.WetShare)
		if !(s.InfiltrationMMH >= 0 && s.PH >= 2.5 && s.PH <= 11 && s.DepthCM >= 0) {
			c.no("ground %s: %+v", what, *s)
		}
	}
	drained := slices.ContainsFunc(c.p.Tasks, func(t task) bool { return strings.HasPrefix(t.ID, "drain") })
	if drained && g.Found.WetShare > 0.05 && g.Prepared.WetShare >= g.Found.WetShare {
		c.no("drained, and as wet as before: %v, %v", g.Found.WetShare, g.Prepared.WetShare)
	}
}

func (c *checker) matrix() {
	if n := len(c.p.Matrix); n == 0 || n%len(c.p.Light.Zones) != 0 {
		c.no("%d rows for %d zones", n, len(c.p.Light.Zones))
	}
	classes := []string{"S1", "S2", "S3", "N1", "N2"}
	for _, r := range c.p.Matrix {
		least := 1.0
		for criterion, x := range r.Ratings {
			c.share(r.ID+" for "+criterion, x)
			least = min(least, x)
		}
		if limit, ok := r.Ratings[r.LimitedBy]; !ok || limit > least+0.02 {
			c.no("%s is limited by %s at %v, and the least rating is %v", r.ID, r.LimitedBy, limit, least)
		}
		if !(r.Overall >= 0 && r.Overall <= 1) || !slices.Contains(classes, r.Class) {
			c.no("%s: %v, class %s", r.ID, r.Overall, r.Class)
		}
	}
	// A better overall is never of a worse class.
	rows := slices.Clone(c.p.Matrix)
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(b.Overall, a.Overall) })
	for i := 1; i < len(rows); i++ {
		if rows[i].Overall < rows[i-1].Overall-0.001 && slices.Index(classes, rows[i].Class) < slices.Index(classes, rows[i-1].Class) {
			c.no("%s at %v is %s, %s at %v is %s", rows[i].ID, rows[i].Overall, rows[i].Class, rows[i-1].ID, rows[i-1].Overall, rows[i-1].Class)
			return
		}
	}
}

const mostGrasses = 5

func (c *checker) mixture() {
	m := c.p.Mixture
	if m == nil {
		return
	}
	step, most := 5.0, mostGrasses
	if c.p.Second != nil && c.p.Second.Taken { // of all seed
		step, most = 1, 2*mostGrasses
	}
	grams := c.components("the mixture", m.Components, step, most)
	for what, x := range map[string]float64{"cover": m.CoverExpected, "cover in the bad year": m.CoverBadYear, "early cover": m.EarlyCover, "evenness": m.Evenness} {
		c.share(what, x)
	}
	if m.CoverBadYear > m.CoverExpected+0.005 {
		c.no("cover %v in the bad year, %v expected", m.CoverBadYear, m.CoverExpected)
	}
	c.seasons("the mixture", m.Sward)
	for _, x := range c.p.Premixes {
		c.seasons(x.Name, x.Sward)
		if x.CoverBadYear > x.CoverExpected+0.005 {
			c.no("%s: cover %v in the bad year, %v expected", x.Name, x.CoverBadYear, x.CoverExpected)
		}
	}
	c.rate(m, grams)
}

// components holds the shares of a mixture to a hundred, in steps of so many percent, and
// adds up its grams.
func (c *checker) components(what string, all []component, step float64, most int) float64 {
	weight, seeds, grams := 0.0, 0.0, 0.0
	seen := map[string]bool{}
	for _, x := range all {
		weight, seeds, grams = weight+x.PercentByWeight, seeds+x.PercentBySeed, grams+x.Grams
		if seen[x.ID] || math.Mod(x.PercentByWeight, step) != 0 || x.PercentByWeight <= 0 || x.Because == "" {
			c.no("%s: component %+v", what, x)
		}
		seen[x.ID] = true
	}
	c.near("shares of "+what, weight, 100, 0)
	c.near("shares by count of "+what, seeds, 100, 0.06*float64(len(all)))
	if len(all) > most {
		c.no("%s has %d grasses", what, len(all))
	}
	return grams
}

// rate holds the seed of the chosen way to its area.
func (c *checker) rate(m *mixture, grams float64) {
	sown := 0.0
	for _, w := range c.p.Cost.Ways {
		if w.Chosen {
			sown = w.SownM2
		}
	}
	if sown == 0 {
		return
	}
	c.near("grams of the mixture", grams, 1000*m.SeedKG, 0.6*float64(len(m.Components)))
	c.near("seed by the rate", 1000*m.SeedKG, m.RateGM2*sown, 0.5+0.06*sown+0.06*m.RateGM2+0.002*1000*m.SeedKG)
	if !(m.RateGM2 > 0 && m.RateGM2 <= 100 && m.SeedsPerM2 > 0) {
		c.no("sown at %v g/m², %v seeds", m.RateGM2, m.SeedsPerM2)
	}
}

func (c *checker) seasons(what string, seasons []season) {
	if len(seasons) != 5 {
		c.no("%s is followed through %d seasons", what, len(seasons))
	}
	for i, s := range seasons {
		c.share(fmt.Sprintf("cover of %s in season %d", what, s.Year), s.Cover)
		sum := 0.0
		for _, x := range s.Shares {
			sum += x
		}
		if s.Year != i+1 || s.Cover > 0.005 && math.Abs(sum-100) > 0.06*float64(len(s.Shares))+0.01 {
			c.no("season %d of %s: shares add to %v", s.Year, what, sum)
		}
	}
}

// seed holds the bags to the grams.
func (c *checker) seed() {
	if c.p.Mixture == nil || c.p.SowOn == "" {
		return
	}
	bought := map[string]float64{}
	mixed := false
	for _, b := range c.p.Order {
		if b.Count <= 0 || b.KG <= 0 {
			c.no("%d bags of %v kg", b.Count, b.KG)
		}
		bought[b.ID] += float64(b.Count) * b.KG * 1000
		mixed = mixed || b.ID == ""
	}
	if mixed || len(c.b.Stock.Lots) > 0 {
		return // parts of a bag, seed better or worse than usual, stocks that end
	}
	for _, x := range c.p.Mixture.Components {
		if bought[x.ID] < x.Grams-1 {
			c.no("%v g of %s bought, %v g sown", bought[x.ID], x.ID, x.Grams)
		}
	}
}

func (c *checker) windows() {
	for _, w := range c.p.Windows {
		c.share("success of "+w.Kind, w.Success)
		if w.Closes < w.Opens || w.Best != "" && (w.Best < w.Opens || w.Best > w.Closes) {
			c.no("%s from %s to %s, best on %s", w.Kind, w.Opens, w.Closes, w.Best)
		}
		for what, span := range map[string][]float64{"up": w.EmergenceDays, "mown": w.FirstMowDays} {
			if len(span) == 2 && !(span[0] >= 0 && span[0] <= span[1]) || len(span) != 2 && len(span) != 0 {
				c.no("%s: %s after %v days", w.Kind, what, span)
			}
		}
		if len(w.EmergenceDays) == 2 && len(w.FirstMowDays) == 2 && w.FirstMowDays[0] < w.EmergenceDays[0] {
			c.no("%s: mown after %v days, up after %v", w.Kind, w.FirstMowDays, w.EmergenceDays)
		}
	}
}

func (c *checker) tasks() {
	byID := map[string]task{}
	letters := map[string]bool{}
	for _, z := range c.p.Light.Zones {
		letters[z.Letter] = z.lives()
	}
	for _, t := range c.p.Tasks {
		if _, twice := byID[t.ID]; twice || t.ID == "" {
			c.no("two tasks are %q", t.ID)
		}
		byID[t.ID] = t
		c.task(t)
		for _, z := range t.Zones {
			if lives, known := letters[z]; !known || !lives {
				c.no("%s in zone %s, where no grass comes", t.ID, z)
			}
		}
	}
	for _, t := range c.p.Tasks {
		c.waits(t, byID)
		c.allowed(t)
		c.lawful(t)
	}
	if len(c.p.Tasks) > 0 && !slices.ContainsFunc(c.p.Tasks, func(t task) bool { return len(t.Needs) > 0 }) {
		c.no("no task needs another")
	}
}

func (c *checker) task(t task) {
	if t.Title == "" || t.Date == "" || t.ends() < t.Date || t.Goes < 1 || !(t.Hours >= 0 && t.Litres >= 0 && t.M2 >= 0) {
		c.no("task %+v", t)
	}
	c.share("chance of "+t.ID, t.Chance)
	if t.M2 > c.p.GrassM2+0.11 {
		c.no("%s on %v m² of %v", t.ID, t.M2, c.p.GrassM2)
	}
}

// waits holds a task to what must be done before it.
func (c *checker) waits(t task, byID map[string]task) {
	for _, n := range t.Needs {
		before, ok := byID[n.ID]
		if !ok {
			c.no("%s needs %s, which is no task", t.ID, n.ID)
		} else if t.Date.after(before.ends()) < n.Days {
			c.no("%s on %s, less than %d days after %s, %s", t.ID, t.Date, n.Days, n.ID, before.ends())
		}
	}
}

// allowed holds sowing to the days that the brief allows, unless no window meets them.
func (c *checker) allowed(t task) {
	if !strings.HasPrefix(t.ID, "sow") && !strings.HasPrefix(t.ID, "lay-turf") {
		return
	}
	j := c.b.Job
	outside := j.NotBefore != nil && t.Date < day(j.NotBefore.Format(time.DateOnly)) || j.NotAfter != nil && t.Date > day(j.NotAfter.Format(time.DateOnly))
	if !outside {
		return
	}
	if slices.ContainsFunc(c.p.Windows, func(w window) bool { return w.Allowed }) {
		c.no("%s on %s, outside the days allowed, where a window meets them", t.ID, t.Date)
	}
}

// lawful keeps feeds out of the days on which the brief forbids them.
func (c *checker) lawful(t task) {
	if !strings.HasPrefix(t.ID, "feed") && !strings.HasPrefix(t.ID, "starter-") {
		return
	}
	if at, ok := t.Date.time(); ok && c.b.Use.NoFeed.Holds(calendar.DayOf(at)) {
		c.no("%s on %s, when it is forbidden", t.ID, t.Date)
	}
}

// waters holds the counts of the watering to its tasks.
func (c *checker) waters() {
	if len(c.p.Tasks) == 0 {
		return
	}
	w := c.p.Water
	if w == nil {
		c.no("no count of the watering")
		return
	}
	goes, litres := 0, 0.0
	for _, t := range c.p.Tasks {
		if strings.Contains(t.ID, "water") && t.Date <= w.Until {
			goes, litres = goes+t.Goes, litres+t.Litres
		}
	}
	if goes != w.Goes {
		c.no("watered %d times, %d by the tasks", w.Goes, goes)
	}
	c.near("litres", w.Litres, litres, 0.6*float64(1+len(c.p.Tasks)))
}

// bills adds up every bill, and holds each way to what the plan says of it.
func (c *checker) bills() {
	chosen := 0
	for _, w := range c.p.Cost.Ways {
		if w.Chosen {
			chosen++
		}
		c.bill(w)
		c.way(w)
	}
	if len(c.p.Cost.Ways) > 0 && c.p.Advice != string(sowing.AdviseNoGrass) && chosen != 1 {
		c.no("%d ways are chosen", chosen)
	}
}

// amount reads a sum of money.
func (c *checker) amount(what, text string) decimal.Decimal {
	d, err := decimal.NewFromString(text)
	if err != nil || d.IsNegative() || -d.Exponent() > int32(money.Digits(c.p.Cost.Currency)) {
		c.no("%s: %q is no amount in %s", what, text, c.p.Cost.Currency)
	}
	return d
}

// bill adds up the lines of one way.
func (c *checker) bill(w way) {
	unit := decimal.New(1, -int32(money.Digits(c.p.Cost.Currency)))
	sum := decimal.Zero
	for _, l := range w.Lines {
		// What is taken off is a line of less than nothing.
		a := c.amount(w.Way+", "+l.Item, strings.TrimPrefix(l.Amount, "-"))
		if l.Quantity < 0 {
			a = a.Neg()
		}
		sum = sum.Add(a)
		rate, err := decimal.NewFromString(l.Rate)
		// The quantity is shown to a thousandth.
		slack := unit.Add(rate.Mul(decimal.New(6, -4))).Add(a.Abs().Mul(decimal.New(1, -6)))
		if err != nil || a.Sub(rate.Mul(decimal.NewFromFloat(l.Quantity))).Abs().GreaterThan(slack) {
			c.no("%s: %s: %v %s at %s make %s", w.Way, l.Item, l.Quantity, l.Unit, l.Rate, l.Amount)
		}
	}
	net, total := c.amount("net", w.Net), c.amount("total", w.Total)
	if !sum.Equal(total) {
		c.no("%s: the lines make %s, the bill %s", w.Way, sum, total)
	}
	if whole := net.Add(c.amount("margin", w.Margin)).Sub(c.amount("discount", w.Discount)).Add(c.amount("tax", w.Tax)); !whole.Equal(total) {
		c.no("%s: net, margin and tax make %s, the total is %s", w.Way, whole, total)
	}
	p10, p50, p90 := c.amount("p10", w.P10), c.amount("p50", w.P50), c.amount("p90", w.P90)
	if p10.GreaterThan(p50) || p50.GreaterThan(p90) {
		c.no("%s: from %s by %s to %s", w.Way, p10, p50, p90)
	}
	if c.amount("deposit", w.Deposit).GreaterThan(total) {
		c.no("%s: a deposit of %s on %s", w.Way, w.Deposit, total)
	}
}

// way holds the chances, area and days of one way to those of the plan.
func (c *checker) way(w way) {
	if w.Chosen && w.Water != nil && c.p.Water != nil && *w.Water != *c.p.Water {
		c.no("%s is watered as %+v, the plan as %+v", w.Way, *w.Water, *c.p.Water)
	}
	c.share("success of "+w.Way, w.Success)
	c.share("chance of "+w.Way, w.Chance)
	if w.Chosen && c.p.Grade.Chance != nil && *c.p.Grade.Chance != w.Chance {
		c.no("%s is chosen at a chance of %v, and the standard has %v", w.Way, w.Chance, *c.p.Grade.Chance)
	}
	if (w.SownM2 == 0) != (len(w.TurfOf) > 0) {
		c.no("%s sows %v m² and is of turf of %v", w.Way, w.SownM2, w.TurfOf)
	}
	c.near("area of "+w.Way, w.SownM2+w.LaidM2+w.KeptM2, c.p.GrassM2, 0.11)
	if need := c.b.Job.NeededBy; need != nil {
		if in := w.UsableFrom != nil && *w.UsableFrom <= day(need.Format(time.DateOnly)); in != w.InTime {
			c.no("%s is in time %v, usable from %v, needed by %s", w.Way, w.InTime, w.UsableFrom, need.Format(time.DateOnly))
		}
	}
}

// answer holds the advice to the work, and to what was asked.
func (c *checker) answer() {
	if c.p.Grade.Asked != string(c.b.Use.Grade) {
		c.no("%s was asked for, not %s", c.b.Use.Grade, c.p.Grade.Asked)
	}
	if c.p.Grade.Attainable == string(species.Extensive) && c.b.Use.Grade != species.Extensive {
		c.no("a meadow nobody asked for")
	}
	if c.p.Grade.Chance != nil {
		c.share("chance of the standard", *c.p.Grade.Chance)
	}
	c.advice()
	if c.p.Headline == "" {
		c.no("no headline")
	}
	for what, list := range map[string][]string{"cautions": c.p.Cautions, "assumptions": c.p.Assumptions, "sources": c.p.Sources} {
		if len(list) == 0 && what != "cautions" {
			c.no("no %s", what)
		}
		if len(lo.Uniq(list)) < len(list) {
			c.no("a line stands twice among the %s", what)
		}
	}
	if c.p.Advice == string(sowing.AdviseSow) && c.p.SowOn != "" {
		c.firstCut()
	}
}

// advice holds what is advised to the tasks.
func (c *checker) advice() {
	has := func(begins string) bool {
		return slices.ContainsFunc(c.p.Tasks, func(t task) bool { return strings.HasPrefix(t.ID, begins) && t.First })
	}
	switch sowing.Advice(c.p.Advice) {
	case sowing.AdviseNoGrass:
		if c.p.Mixture != nil || len(c.p.Cautions) == 0 || len(c.p.Order) > 0 || c.p.SowOn != "" {
			c.no("no grass, and seed or no word of what to do")
		}
	case sowing.AdviseTurf:
		if has("sow") || c.p.SowOn != "" || !has("lay-turf") {
			c.no("turf is advised, and the work is sowing")
		}
	case sowing.AdviseSow, sowing.AdviseOverseed:
		if !has("sow") && !has("overseed") || c.p.SowOn == "" {
			c.no("sowing is advised, and nothing is sown")
		}
	default:
		c.no("advice %q", c.p.Advice)
	}
}

// firstCut holds the first cut of a mown lawn that is sown with half a summer before it
// to come within the same season; of a climate that the brief makes up, nothing is known.
func (c *checker) firstCut() {
	const late = 150 // days
	met := slices.ContainsFunc(c.p.Windows, func(w window) bool { return w.Allowed })
	season := c.p.SowOn[5:] >= "03-15" && c.p.SowOn[5:] <= "07-15"
	if !met || !season || c.b.Site.Climate != nil || c.b.Site.Place.LatitudeDeg <= 0 || c.b.Use.Grade == species.Extensive {
		return
	}
	for _, t := range c.p.Tasks {
		if strings.HasPrefix(t.ID, "first-cut") {
			if n := t.Date.after(c.p.SowOn); n > late {
				c.no("first cut %d days after sowing on %s", n, c.p.SowOn)
			}
			return
		}
	}
}
