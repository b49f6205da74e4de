package money

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
	"github.com/shopspring/decimal"

	"swardwright/internal/sheet"
	"swardwright/internal/told"
	"swardwright/species"
)

// Kind is what sort of figure a price key holds.
type Kind string

// The kinds of figure.
const (
	PriceKind  Kind = "price"  // money for one unit
	OutputKind Kind = "output" // units done in an hour of one person
	TermKind   Kind = "term"   // allowances and terms of business
	TextKind   Kind = "text"   // the printed terms
)

// TermsKey is the key of the printed terms, the one key that holds words.
const TermsKey = "terms"

// Price is one figure of the price list.
type Price struct {
	Key, Title string
	Unit       string // of what is priced or done, or of the figure itself
	Kind       Kind
	Best       decimal.Decimal
	Low, High  decimal.Decimal // the least and most to reckon with
	Cause      string          // figures of one cause are high and low together
	Bulk       bool            // comes by the lorry load
	Plant      string          // key of the plant hired for this output
	WidthM     decimal.Decimal // of plant: the way it needs to come in
	Machine    string          // key of the output that takes over on plots from …
	From       decimal.Decimal // … this much work
	Source     string
	Overridden bool            // the brief gave it …
	Listed     decimal.Decimal // … in place of this
	Text       string
}

// Invented tells whether the figure is a price of the example list.
func (x Price) Invented() bool { return x.Kind == PriceKind && !x.Overridden }

// Figure writes the best figure: money with the places of its currency, other
// figures plainly.
func (x Price) Figure(currency string) string { return x.write(x.Best, currency) }

// ListFigure writes the list's own figure where the brief gave another.
func (x Price) ListFigure(currency string) string { return x.write(x.Listed, currency) }

func (x Price) write(d decimal.Decimal, currency string) string {
	if x.Kind == PriceKind {
		return Rate{d, currency}.String()
	}
	return d.String()
}

// Prices is a price list in one currency.
type Prices struct {
	Currency string
	Note     string // what the list is
	list     []Price
	index    map[string]int
	bags     []bagFactor
	accessM  decimal.Decimal // narrowest way in; zero: unknown
	unscaled bool            // nothing is known of this currency: the list stands in it unconverted
}

// bagFactor is a size in which seed is sold, with its price over the list's.
type bagFactor struct {
	KG     decimal.Decimal `toml:"kg"`
	Factor decimal.Decimal `toml:"factor"`
}

// most is what a price, output or term may be at most: enough for any money and
// small enough that no bill can overflow.
var most = map[Kind]decimal.Decimal{
	PriceKind:  decimal.New(1, 9),
	OutputKind: decimal.New(1, 6),
	TermKind:   decimal.New(1, 5),
}

// pricesFile is the form of prices.toml.
type pricesFile struct {
	Note  string                     `toml:"note"`
	Scale map[string]decimal.Decimal `toml:"scale"`
	Price []entry                    `toml:"price"`
	Seed  entry                      `toml:"seed"` // of perennial ryegrass
	Out   []entry                    `toml:"output"`
	Term  []entry                    `toml:"term"`
	Bag   []bagFactor                `toml:"bag"`
}

type entry struct {
	Key    string           `toml:"key"`
	Title  string           `toml:"title"`
	Unit   string           `toml:"unit"`
	Low    *decimal.Decimal `toml:"low"`
	Best   decimal.Decimal  `toml:"best"`
	High   *decimal.Decimal `toml:"high"`
	Cause  string           `toml:"cause"`
	Bulk   bool             `toml:"bulk"`
	Plant  string           `toml:"plant"`
	Width  decimal.Decimal  `toml:"width_m"`
	Mach   string           `toml:"machine"`
	From   decimal.Decimal  `toml:"from"`
	Source string           `toml:"source"`
}

// hoursCause is the cause that all outputs share: the ground and the weather on
// the days of work make every task quick or slow together.
const hoursCause = "hours of work"

// List is the price list as its file has it, in no brief's currency.
type List struct{ file pricesFile }

// LoadList reads prices.toml and checks every figure in it. The seed of each grass
// that can be sown is priced by the list's ryegrass and the grass's own price class.
func LoadList(fsys fs.FS, grasses *species.Table) (*List, error) {
	var l List
	meta, err := toml.DecodeFS(fsys, "prices.toml", &l.file)
	if err != nil {
		return nil, fmt.Errorf("prices.toml: %w", err)
	}
	if left := meta.Undecoded(); len(left) > 0 {
		return nil, fmt.Errorf("prices.toml: unknown key %s", left[0])
	}
	for _, s := range grasses.All() {
		if !s.Invader {
			l.file.Price = append(l.file.Price, l.file.Seed.of(s))
		}
	}
	for _, part := range l.file.parts() {
		for _, e := range part.entries {
			if err := e.check(part.kind); err != nil {
				return nil, fmt.Errorf("prices.toml: %s: %w", e.Key, err)
			}
		}
	}
	return &l, nil
}

// ofKind are the entries of one kind.
type ofKind struct {
	kind    Kind
	entries []entry
}

func (f *pricesFile) parts() []ofKind {
	return []ofKind{{PriceKind, f.Price}, {OutputKind, f.Out}, {TermKind, f.Term}}
}

// In turns the list into a currency and puts a brief's own figures in their places.
// Faults of these overrides are joined, each as "prices.key: …".
func (l *List) In(code string, overrides map[string]string) (Prices, error) {
	if err := CheckCurrency(code); err != nil {
		return Prices{}, err
	}
	f := &l.file
	p := Prices{Currency: code, Note: f.Note, bags: f.Bag, index: map[string]int{}}
	scale, known := f.Scale[code]
	if !known {
		scale, p.unscaled = decimal.NewFromInt(1), true
	}
	for _, part := range f.parts() {
		by := decimal.NewFromInt(1)
		if part.kind == PriceKind {
			by = scale
		}
		for _, e := range part.entries {
			if part.kind == OutputKind {
				e.Cause = hoursCause
			}
			p.add(e.price(part.kind, by, code))
		}
	}
	p.add(Price{Key: TermsKey, Title: "terms printed under the bill", Unit: "words", Kind: TextKind, Source: "invented"})
	return p, p.override(overrides)
}

// seedStep is what the price of a seed is rounded to, in units of the list.
var seedStep = decimal.NewFromFloat(0.5)

// of is the price of a grass's seed, made of that of ryegrass.
func (e entry) of(s *species.Species) entry {
	e.Key, e.Title = SeedKey(s.ID), s.Common("en-GB")+", seed"
	class := decimal.NewFromFloat(s.Values[species.SeedPrice].Best)
	best := decimal.Max(seedStep, e.Best.Mul(class).Div(seedStep).Round(0).Mul(seedStep))
	if e.Low != nil && e.High != nil && e.Best.IsPositive() {
		low, high := e.Low.Mul(best).Div(e.Best).Round(2), e.High.Mul(best).Div(e.Best).Round(2)
		e.Low, e.High = &low, &high
	}
	e.Best = best
	return e
}

// check tells what is wrong with an entry of the file.
func (e entry) check(kind Kind) error {
	switch {
	case e.Key == "" || e.Title == "" || e.Unit == "" || e.Source == "":
		return errors.New("needs a key, a title, a unit and a source")
	case (e.Low == nil) != (e.High == nil):
		return errors.New("has only one of low and high")
	case e.Low != nil && (e.Low.GreaterThan(e.Best) || e.High.LessThan(e.Best)):
		return errors.New("low, best and high are out of order")
	case e.Low != nil && e.Low.Sign() <= 0, kind == OutputKind && e.Best.Sign() <= 0, e.Best.IsNegative():
		return errors.New("must be above zero")
	}
	return nil
}

// price turns an entry into a figure of the list. Scaled prices keep three
// figures: they are invented, and no list has 1,234.57 an hour in it.
func (e entry) price(kind Kind, scale decimal.Decimal, code string) Price {
	p := Price{Key: e.Key, Title: e.Title, Unit: e.Unit, Kind: kind, Best: e.Best, Low: e.Best, High: e.Best, Cause: e.Cause, Bulk: e.Bulk, Plant: e.Plant, WidthM: e.Width, Machine: e.Mach, From: e.From, Source: e.Source}
	if e.Low != nil {
		p.Low, p.High = *e.Low, *e.High
	}
	if !scale.Equal(decimal.NewFromInt(1)) {
		for _, d := range []*decimal.Decimal{&p.Best, &p.Low, &p.High} {
			*d = threeFigures(d.Mul(scale), Digits(code))
		}
	}
	return p
}

// threeFigures rounds to three figures, but never coarser than whole units or
// finer than the currency's minor unit.
func threeFigures(d decimal.Decimal, digits int) decimal.Decimal {
	places := int32(2)
	for limit := decimal.NewFromInt(10); d.Abs().GreaterThanOrEqual(limit) && places > 0; places-- {
		limit = limit.Shift(1)
	}
	return d.Round(min(places, int32(digits)))
}

func (p *Prices) add(x Price) {
	p.index[x.Key] = len(p.list)
	p.list = append(p.list, x)
}

// override puts the brief's own figures in their places. A price the brief gives
// is taken as firm; an output it gives keeps the spread of the list's, in
// proportion.
func (p *Prices) override(overrides map[string]string) error {
	var faults []error
	for _, key := range slices.Sorted(maps.Keys(overrides)) {
		given := strings.TrimSpace(overrides[key])
		i, ok := p.index[key]
		if !ok {
			faults = append(faults, fmt.Errorf("prices.%s: %w", key, p.unknown(key)))
			continue
		}
		x := &p.list[i]
		if x.Kind == TextKind {
			x.Text, x.Overridden, x.Source = given, true, "the brief"
			continue
		}
		v, err := decimal.NewFromString(given)
		if err == nil {
			err = x.allows(v)
		} else {
			err = fmt.Errorf("%q is not a number; give one with a decimal point, such as 4.20", given)
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("prices.%s: %w", key, err))
			continue
		}
		if x.Kind == OutputKind {
			x.Low, x.High = x.Low.Mul(v).Div(x.Best), x.High.Mul(v).Div(x.Best)
		} else {
			x.Low, x.High = v, v
		}
		x.Listed, x.Best, x.Overridden, x.Source = x.Best, v, true, "the brief"
	}
	return errors.Join(faults...)
}

// apart is how many times more or less than the list's own figure an output or a term
// may be: beyond that it is a slip, and a small one makes hours without end.
var apart = decimal.New(100, 0)

// allows tells whether a figure can stand in this place of the list.
func (x Price) allows(v decimal.Decimal) error {
	top := most[x.Kind]
	if x.Unit == "%" {
		top = decimal.NewFromInt(100)
	}
	positive := x.Kind == OutputKind || x.Kind == TermKind && x.Unit != "%" && x.Unit != "days"
	least := decimal.Zero
	if positive {
		least, top = x.Best.Div(apart), decimal.Min(top, x.Best.Mul(apart))
	}
	switch {
	// Looked at first, since sums with 1e999999999 would not end.
	case v.Exponent() > 9 && !v.IsZero():
		return fmt.Errorf("is far too large; give at most %s %s", top, x.Unit)
	case v.Exponent() < -6:
		return fmt.Errorf("has more than six decimal places")
	case v.LessThan(least), v.GreaterThan(top):
		return fmt.Errorf("is %s; give %s to %s %s", v, least, top, x.Unit)
	}
	return nil
}

// Through is the list where all that comes in must pass a way so narrow, in metres: what
// is too wide stays out, and its work is done by what is not. Nil: the way is not known.
func (p Prices) Through(widthM *float64) Prices {
	if widthM != nil {
		p.accessM = decimal.NewFromFloat(*widthM)
	}
	return p
}

// comesIn tells whether the plant of an output can reach the lawn.
func (p Prices) comesIn(output Price) bool {
	plant, ok := p.Get(output.Plant)
	return !ok || p.accessM.IsZero() || plant.WidthM.LessThanOrEqual(p.accessM)
}

// Keys is the whole list, in its order.
func (p Prices) Keys() []Price { return slices.Clone(p.list) }

// Get is one figure of the list.
func (p Prices) Get(key string) (Price, bool) {
	i, ok := p.index[key]
	if !ok {
		return Price{}, false
	}
	return p.list[i], true
}

// Rate is the price of one key, as a rate in the list's currency.
func (p Prices) Rate(key string) (Rate, error) {
	x, ok := p.Get(key)
	if !ok || x.Kind != PriceKind {
		return Rate{}, fmt.Errorf("money: price %s: %w", key, p.unknown(key))
	}
	return Rate{x.Best, p.Currency}, nil
}

// output is how so much work is done: by the output of that key, or by the
// machine that takes over from it at that size, where it can come in.
func (p Prices) output(key string, amount float64) (Price, error) {
	x, ok := p.Get(key)
	for ok && x.Kind == OutputKind && x.Machine != "" && amount >= x.From.InexactFloat64() {
		machine, there := p.Get(x.Machine)
		if there && !p.comesIn(machine) {
			break
		}
		x, ok = machine, there
	}
	if !ok || x.Kind != OutputKind {
		return Price{}, fmt.Errorf("money: output %s: %w", key, p.unknown(key))
	}
	return x, nil
}

// Hours is how long one person takes over so much work, with the allowance for
// access.
func (p Prices) Hours(key string, amount float64) (float64, error) {
	x, err := p.output(key, amount)
	if err != nil {
		return 0, err
	}
	access, _ := p.Get("access_percent")
	return amount / x.Best.InexactFloat64() * (1 + access.Best.InexactFloat64()/100), nil
}

// SeedKey is the key under which the seed of a species is priced:
// "perennial_ryegrass_per_kg".
func SeedKey(speciesID string) string { return strings.ReplaceAll(speciesID, "-", "_") + "_per_kg" }

// SeedBag is a size in which the list sells the seed of a species.
type SeedBag struct {
	KG       float64
	Price    Amount
	Invented bool
}

// SeedBags are the sizes in which the list sells a species' seed, smallest
// first; none when the list doesn't hold the species. A price of the brief's own
// holds for every size alike.
func (p Prices) SeedBags(speciesID string) ([]SeedBag, error) {
	x, ok := p.Get(SeedKey(speciesID))
	if !ok {
		return nil, nil
	}
	var bags []SeedBag
	for _, b := range p.bags {
		price := x.Best.Mul(b.KG)
		if x.Invented() {
			price = price.Mul(b.Factor)
		}
		a, err := Round(price, p.Currency)
		if err != nil {
			return nil, err
		}
		bags = append(bags, SeedBag{KG: b.KG.InexactFloat64(), Price: a, Invented: x.Invented()})
	}
	return bags, nil
}

// BagSizes are the weights in kilograms in which the list sells seed.
func (p Prices) BagSizes() []float64 {
	var kg []float64
	for _, b := range p.bags {
		kg = append(kg, b.KG.InexactFloat64())
	}
	return kg
}

// assumptions say what list the prices are of.
func (p Prices) assumptions() []told.Sentence {
	own := 0
	for _, x := range p.list {
		if x.Overridden && x.Kind == PriceKind {
			own++
		}
	}
	list := told.Say("money.example-list")
	out := []told.Sentence{told.Say("money.prices-of", list)}
	if own > 0 {
		out[0] = told.Say("money.prices-own", list, told.Count(own))
	}
	if p.unscaled {
		out = append(out, told.Say("money.unconverted", told.Verbatim(p.Currency)))
	}
	return out
}

// Nearest is the key of the list that a mistyped one is likeliest meant to be: the
// one most like it, or else the first that begins with the same word; empty when
// there is none.
func (p Prices) Nearest(key string) string {
	keys := make([]string, len(p.list))
	for i, x := range p.list {
		keys[i] = x.Key
	}
	if near := sheet.Nearest(key, keys); near != "" {
		return near
	}
	word, _, _ := strings.Cut(strings.ToLower(key), "_")
	i := slices.IndexFunc(keys, func(k string) bool { return strings.HasPrefix(k, word+"_") })
	if i < 0 {
		return ""
	}
	return keys[i]
}

// unknown is the error of a key that the list doesn't hold.
func (p Prices) unknown(key string) error {
	if near := p.Nearest(key); near != "" {
		return fmt.Errorf("no such key in the price list; did you mean %s?", near)
	}
	return errors.New("no such key in the price list")
}
