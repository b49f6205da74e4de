package money

import (
	"fmt"
	"math"
	"slices"

	"github.com/samber/lo"
	"github.com/shopspring/decimal"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Own constants.
const (
	// mostOfAnything is more square metres, cubic metres, metres or kilograms than
	// any lawn has, and few enough that no bill overflows.
	mostOfAnything = 1e8
	mostLitres     = 1e11
	// weatherCause is shared by watering and by failures.
	weatherCause = "weather"
	// mostAttempts is how often a lawn is tried again at most: common practice, no
	// published source.
	mostAttempts = 4
	// leastWater is the least share of the mean watering that a wet season needs.
	leastWater = 0.2
)

// biller gathers the lines of one bill. The first error stops it.
type biller struct {
	prices Prices
	lines  []Line
	plant  []hired
	bulk   []heap
	err    error
}

// heap is loose material that comes by the lorry load.
type heap struct {
	key  string
	item told.Sentence
	m3   float64
}

// hired is plant with the hours it works.
type hired struct {
	key   string
	hours float64
}

// check refuses figures that can't be billed, but not for a float's last digit.
func (in Input) check() error {
	type figure struct {
		name        string
		value, most float64
	}
	figures := []figure{{"edging", in.EdgingM, mostOfAnything}, {"area sown", in.SownM2, mostOfAnything}, {"area laid", in.LaidM2, mostOfAnything}}
	for _, q := range in.Work {
		figures = append(figures, figure{q.Key, q.Amount, mostOfAnything})
	}
	for _, s := range []*Start{in.Sowing, in.Laying} {
		if s != nil {
			figures = append(figures, figure{"success", s.Success, 1}, figure{"watering", s.Litres, mostLitres}, figure{"watering in a dry year", s.DryLitres, mostLitres})
		}
	}
	for _, f := range figures {
		if !(f.value >= -1e-9 && f.value <= f.most+1e-9) { // NaN is neither
			return fmt.Errorf("money: %s is %v; it must be 0 to %g", f.name, f.value, f.most)
		}
	}
	return nil
}

// bill prices the way.
func (in Input) bill() (Bill, error) {
	b := &biller{prices: in.Prices}
	b.ground(in, "")
	b.work(Labour, told.Say("money.edge"), in.EdgingM, "edge_m_per_hour", told.Say("money.edge-measured"))
	var seed, turf []Line
	if in.SownM2 > 0 {
		from := len(b.lines)
		b.ground(in, job.BySeed)
		b.sow(in)
		seed = slices.Clone(b.lines[from:])
	}
	if in.LaidM2 > 0 {
		from := len(b.lines)
		b.ground(in, job.ByTurf)
		b.lay(in)
		turf = slices.Clone(b.lines[from:])
	}
	b.failures(in, seed, turf)
	b.haul()
	b.hire()
	out := Bill{Way: in.Way, AreaM2: in.SownM2 + in.LaidM2, Lines: b.lines, Success: 1, UsableFrom: in.UsableFrom}
	slices.SortStableFunc(out.Lines, func(x, y Line) int { return slices.Index(Groups, x.Group) - slices.Index(Groups, y.Group) })
	// Seed and turf of one lawn meet the same weather: the worse chance counts.
	if in.SownM2 > 0 {
		out.Success = min(out.Success, in.Sowing.Success)
	}
	if in.LaidM2 > 0 {
		out.Success = min(out.Success, in.Laying.Success)
	}
	out.InTime = in.NeededBy == nil || in.UsableFrom != nil && !in.UsableFrom.After(*in.NeededBy)
	if b.err != nil {
		return Bill{}, b.err
	}
	return out, out.total(in.Prices)
}

// ground adds the work and materials that are done once, or again with the seed or turf.
func (b *biller) ground(in Input, again job.Way) {
	for _, q := range in.Work {
		if q.Again == again {
			b.quantity(q)
		}
	}
}

// sow adds what seed needs besides the ground.
func (b *biller) sow(in Input) {
	for _, bag := range in.Seed(in.SownM2) {
		low, high, cause, source, invented := 1.0, 1.0, "", told.Say("money.lot-price"), false
		if x, ok := b.prices.Get(bag.Key); ok {
			low, high, cause = b.spread(bag.Key)
			source, invented = b.source(bag.Key), x.Invented()
		}
		b.add(Line{Group: Materials, Item: told.Say("money.bag-of", bag.Item, told.MassKG(bag.KG)), Quantity: float64(bag.Count), Unit: "bags",
			Rate: Rate{bag.Price.decimal(), bag.Price.Currency}, Low: low, High: high, Cause: cause, Source: source, Invented: invented})
	}
	if in.Way != job.ByOverseeding {
		b.work(Aftercare, told.Say("money.weeding"), in.SownM2, "weed_m2_per_hour", told.Say("money.area-sown"))
	}
	b.care(told.Say("money.water-sown"), told.Say("money.cut-sown"), in.SownM2, *in.Sowing)
}

// lay adds what turf needs besides the ground.
func (b *biller) lay(in Input) {
	areaM2 := in.LaidM2
	wasteKey := "turf_waste_percent"
	if in.Curved {
		wasteKey = "turf_waste_curved_percent"
	}
	waste, roll, pallet, perLoad := b.term(wasteKey), b.term("roll_m2"), b.term("pallet_m2"), b.term("pallets_per_load")
	rolls := math.Ceil(areaM2*(1+waste/100)/roll - 1e-9)
	pallets := math.Ceil(rolls*roll/pallet - 1e-9)
	b.price(Materials, told.Say("money.turf", told.Counted{N: int(rolls), Of: "rolls"}, told.AreaM2(roll), told.Counted{N: int(pallets), Of: "pallets"}), rolls*roll, "turf_per_m2",
		told.Say("money.laid-and-waste", told.AreaM2(areaM2), told.FineShare(waste/100)))
	b.price(Delivery, told.Say("money.deliver-turf"), math.Ceil(pallets/perLoad-1e-9), "delivery_per_load", told.Say("money.by-pallet"))
	b.care(told.Say("money.water-turfed"), told.Say("money.cut-turfed"), areaM2, *in.Laying)
}

// care adds watering and cutting until the lawn bears use.
func (b *biller) care(water, cuts told.Sentence, areaM2 float64, s Start) {
	low, high := 1.0, 1.0
	if s.Litres > 0 && s.DryLitres > s.Litres {
		high = s.DryLitres / s.Litres
		low = max(leastWater, 2-high)
	}
	from := len(b.lines)
	b.price(Aftercare, water, s.Litres/1000, "water_per_m3", told.Say("money.water-as-calendar", told.VolumeL(s.DryLitres)))
	if len(b.lines) > from && high > 1 {
		l := &b.lines[len(b.lines)-1]
		l.Low, l.High, l.Cause = low, high, weatherCause
	}
	most, by := b.term("care_cuts"), "mow_m2_per_hour"
	if s.Scythed {
		by = "scythe_m2_per_hour"
	}
	b.repeated(Aftercare, cuts, int(min(float64(s.Cuts), most)), areaM2, by, told.Say("money.cuts-as-calendar", told.Count(most)))
}

// failures adds what failed attempts cost: part of the lawn is sown or laid
// again, with its watering and care, until it takes. The ground is made once.
func (b *biller) failures(in Input, seed, turf []Line) {
	if seed != nil {
		// The ground is raked again; by hand or machine as the first time.
		rake := &biller{prices: b.prices, err: b.err}
		rake.work(Contingency, told.Say("bed.stale"), in.SownM2, "rake_m2_per_hour", told.Sentence{})
		b.fail(rake.err)
		b.failure(told.Say("money.sow-again"), "resow_percent", in.Sowing.Success, slices.Concat(seed, rake.lines))
	}
	if turf != nil {
		b.failure(told.Say("money.lay-again"), "relay_percent", in.Laying.Success, turf)
	}
}

// failure adds the attempts to be expected after the first, at the price of the
// share of the lines that each takes.
func (b *biller) failure(item told.Sentence, shareKey string, success float64, lines []Line) {
	// The chance is kept to a hundredth, so that draws and bill have the same.
	success = round2(min(max(success, 0), 1))
	attempts := round2(furtherAttempts(success))
	if attempts == 0 || b.err != nil {
		return
	}
	cost, invented := decimal.Zero, false
	for _, l := range lines {
		cost = cost.Add(l.Amount.decimal())
		invented = invented || l.Invented
	}
	share := b.term(shareKey)
	again, err := Round(cost.Mul(decimal.NewFromFloat(share/100)), b.prices.Currency)
	if err != nil {
		b.fail(err)
		return
	}
	b.add(Line{Group: Contingency, Item: item, Quantity: attempts, Unit: "times", Rate: Rate{again.decimal(), b.prices.Currency},
		Low: 1, High: 1, Cause: weatherCause, Invented: invented, retry: true, success: success, repeat: float64(again.Minor),
		Source: told.Say("money.attempts", told.Share(success), told.FineShare(share/100))})
}

// furtherAttempts is the mean number of attempts after the first, when each
// succeeds with the same chance and nobody tries for ever.
func furtherAttempts(success float64) float64 {
	mean, failed := 0.0, 1.0
	for range mostAttempts {
		failed *= 1 - success
		mean += failed
	}
	return mean
}

// quantity adds ground work or a material with its delivery.
func (b *biller) quantity(q Quantity) {
	x, ok := b.prices.Get(q.Key)
	if !ok {
		b.fail(fmt.Errorf("money: %s: %w", q.Key, b.prices.unknown(q.Key)))
		return
	}
	group := q.Group
	if group == "" {
		group = Ground
	}
	if x.Kind == OutputKind {
		b.work(group, q.Item, q.Amount, q.Key, q.Source)
	} else {
		b.price(group, q.Item, q.Amount, q.Key, q.Source)
	}
	if x.Bulk && q.Amount > 0 {
		b.bulk = append(b.bulk, heap{q.Key, q.Item, round2(q.Amount)})
	}
}

// haul adds the delivery of loose material: full loads of each, and what is over
// of all together in bulk bags.
func (b *biller) haul() {
	load := b.term("load_m3")
	full, over := 0.0, 0.0
	for _, h := range b.bulk {
		loads := math.Floor(h.m3/load + 1e-9)
		full += loads
		over += max(0, h.m3-loads*load)
	}
	kinds := lo.UniqBy(b.bulk, func(h heap) string { return h.key })
	items := lo.Map(kinds, func(h heap, _ int) told.Sentence { return h.item })
	b.price(Delivery, told.Say("money.deliver", told.All(items...)), full+math.Ceil(over/load-1e-9), "delivery_per_load",
		told.Say("money.loads", told.Counted{N: int(full), Of: "full-loads"}, told.VolumeM3(load), told.VolumeM3(over)))
}

// work adds hours of labour for an amount of work.
func (b *biller) work(group Group, item told.Sentence, amount float64, outputKey string, source told.Sentence) {
	b.repeated(group, item, 1, amount, outputKey, source)
}

// repeated adds hours of labour for work that is done several times over.
func (b *biller) repeated(group Group, item told.Sentence, times int, amount float64, outputKey string, source told.Sentence) {
	if b.err != nil || !(amount > 0) || times <= 0 {
		return
	}
	x, err := b.prices.output(outputKey, amount)
	if err != nil {
		b.fail(err)
		return
	}
	hours, err := b.prices.Hours(outputKey, amount)
	if err != nil {
		b.fail(err)
		return
	}
	labour, err := b.prices.Rate("labour_per_hour")
	if err != nil {
		b.fail(err)
		return
	}
	wage, _ := b.prices.Get("labour_per_hour")
	hours = max(0.01, round2(hours*float64(times)))
	best := x.Best.InexactFloat64()
	done := told.Say("money.output", measure(amount, x.Unit), measure(best, x.Unit), told.Source(x.Title), told.Source(x.Source))
	if times > 1 {
		done = told.Say("money.times-output", told.Count(times), done)
	}
	b.add(Line{Group: group, Item: item, Quantity: hours, Unit: "h", Rate: labour,
		Low: best / x.High.InexactFloat64(), High: best / x.Low.InexactFloat64(), Cause: x.Cause, Invented: wage.Invented(), Source: both(source, done)})
	if x.Plant != "" {
		b.plant = append(b.plant, hired{x.Plant, hours})
	}
}

// hire adds the plant that the work needs, by the day.
func (b *biller) hire() {
	for i, h := range b.plant {
		if slices.ContainsFunc(b.plant[:i], func(x hired) bool { return x.key == h.key }) {
			continue
		}
		hours := 0.0
		for _, x := range b.plant {
			if x.key == h.key {
				hours += x.hours
			}
		}
		b.price(Plant, told.Say("money.hire", told.Term{Kind: "plant", Word: h.key}), math.Ceil(hours/job.ProductiveHours), h.key, told.Say("money.hours-of-hire", told.CrewHours(hours), told.CrewHours(job.ProductiveHours)))
	}
}

// price adds a material or a service at its price.
func (b *biller) price(group Group, item told.Sentence, amount float64, key string, source told.Sentence) {
	if b.err != nil || !(amount > 0) {
		return
	}
	r, err := b.prices.Rate(key)
	if err != nil {
		b.fail(err)
		return
	}
	x, _ := b.prices.Get(key)
	low, high, cause := b.spread(key)
	b.add(Line{Group: group, Item: item, Quantity: max(0.01, round2(amount)), Unit: plural(x.Unit), Rate: r, Low: low, High: high, Cause: cause, Source: both(source, b.source(key)), Invented: x.Invented()})
}

// add prices a line.
func (b *biller) add(l Line) {
	if b.err != nil {
		return
	}
	l.Amount, b.err = Round(decimal.NewFromFloat(l.Quantity).Mul(l.Rate.Decimal), b.prices.Currency)
	if l.Low == l.High && !l.retry {
		l.Cause = ""
	}
	b.lines = append(b.lines, l)
}

// fail keeps the first error.
func (b *biller) fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// spread is the three-point spread of a price, over its best, and its cause.
func (b *biller) spread(key string) (low, high float64, cause string) {
	x, _ := b.prices.Get(key)
	if !x.Best.IsPositive() {
		return 1, 1, ""
	}
	return x.Low.Div(x.Best).InexactFloat64(), x.High.Div(x.Best).InexactFloat64(), x.Cause
}

func (b *biller) term(key string) float64 {
	x, ok := b.prices.Get(key)
	if !ok {
		b.fail(fmt.Errorf("money: the price list lacks %q", key))
		return 1
	}
	return x.Best.InexactFloat64()
}

func (b *biller) source(key string) told.Sentence {
	x, _ := b.prices.Get(key)
	if x.Invented() {
		return told.Say("money.example-list")
	}
	return told.Say("money.source", told.Source(x.Source))
}

// Of is the net sum of one group's lines.
func (b *Bill) Of(g Group) Amount {
	sum := Amount{Currency: b.Net.Currency}
	for _, l := range b.Lines {
		if l.Group == g {
			sum.Minor += l.Amount.Minor
		}
	}
	return sum
}

// total adds a bill up.
func (b *Bill) total(p Prices) error {
	net, err := sum(p.Currency, lo.Map(b.Lines, func(l Line, _ int) Amount { return l.Amount })...)
	b.Net = net
	round := func(d decimal.Decimal) Amount {
		a, e := Round(d, p.Currency)
		if err == nil {
			err = e
		}
		return a
	}
	percent := func(key string, of decimal.Decimal) Amount {
		x, _ := p.Get(key)
		return round(of.Mul(x.Best).Shift(-2))
	}
	sum := net.decimal()
	for _, x := range []struct {
		item told.Sentence
		key  string
		to   *Amount
		sign int64
	}{
		{told.Say("money.margin"), "margin_percent", &b.Margin, 1}, {told.Say("money.discount"), "discount_percent", &b.Discount, -1},
		{told.Say("money.tax"), "tax_percent", &b.Tax, 1},
	} {
		*x.to = percent(x.key, sum)
		rate, _ := p.Get(x.key)
		if !rate.Best.IsZero() {
			b.Extras = append(b.Extras, Line{Group: Extra, Item: x.item, Quantity: float64(x.sign) * rate.Best.InexactFloat64(), Unit: "%",
				Rate: Rate{sum.Shift(-2), p.Currency}, Amount: Amount{x.sign * x.to.Minor, p.Currency}, Low: 1, High: 1, Source: told.Say("money.source", told.Source(rate.Source))})
		}
		sum = sum.Add(Amount{x.sign * x.to.Minor, p.Currency}.decimal())
	}
	b.Total, b.Deposit = round(sum), percent("deposit_percent", sum)
	b.PerM2 = Amount{Currency: p.Currency}
	if b.AreaM2 > 0 {
		b.PerM2 = round(sum.Div(decimal.NewFromFloat(b.AreaM2)))
	}
	return err
}

// round2 rounds to a hundredth, the step of printed quantities.
func round2(x float64) float64 { return steady.Round(x, 2) }

func plural(unit string) string {
	switch unit {
	case "load", "day", "bag":
		return unit + "s"
	}
	return unit
}

// measure is an amount in the unit of a price list.
func measure(x float64, unit string) told.Figure {
	switch unit {
	case "m2", "m²":
		return told.AreaM2(x)
	case "m3", "m³":
		return told.VolumeM3(x)
	case "m":
		return told.LengthM(x)
	}
	return told.Number{X: x, Decimals: 2}
}

// both is where a quantity and its rate come from.
func both(quantity, rate told.Sentence) told.Sentence {
	if quantity.Silent() {
		return rate
	}
	return told.Say("money.both", quantity, rate)
}
