package sowing

import (
	"math"
	"strings"
	"time"

	"golang.org/x/text/language"

	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/species"
)

// ReadBrief reads the text of the brief of a given name. Files that it names are opened with
// open, which may be nil where a brief is not to name any. The error holds
// every fault of the text, as sheet.Faults.
func ReadBrief(name string, text []byte, open site.Opener) (Brief, error) {
	tables, err := BuiltIn()
	if err != nil {
		return Brief{}, err
	}
	root := sheet.Open(name, text)
	b := readBrief(root, tables, open)
	b.Variants = readVariants(root, name, text, open)
	if err := root.Faults(); err != nil {
		return Brief{}, err
	}
	return b, nil
}

func readBrief(root *sheet.Sheet, tables Tables, open site.Opener) Brief {
	var b Brief
	root.Need("title", "a few words to know the lawn by")
	b.Title, _ = root.Text("title")
	b.Client, _ = root.Text("client")
	b.PreparedBy, _ = root.Text("prepared_by")
	b.Reference, _ = root.Text("reference")
	if d := root.Date("date"); d != nil {
		b.Date = *d
	}
	b.Units = "metric"
	if u, ok := sheet.Choice(root, "units", "metric", "us"); ok {
		b.Units = u
	}
	readCurrency(root, &b)
	readLanguage(root, &b)

	b.Site = site.ReadSurvey(root, tables.Stations, open)
	b.Use = species.ReadUse(root)
	b.Stock = mix.ReadStock(root, tables.Species)
	b.Record = record.Read(root, tables.Species, b.Site.Lawn.Parts, b.Date)
	b.Job = readJob(root.Table("job"), !b.Record.Empty())
	checkDays(root, b)
	checkDeck(root, b)
	b.Prices = readPrices(root.Table("prices"), tables.Prices, b.Currency)
	b.Defaults = root.Assumed()
	return b
}

// What a brief is taken to mean when it does not say.
const (
	DefaultCurrency = "GBP"
	defaultLanguage = "en-GB"
	defaultSuccess  = 0.8 // share of years a sowing day must succeed in
)

func readCurrency(s *sheet.Sheet, b *Brief) {
	b.Currency = DefaultCurrency
	c, ok := s.Text("currency")
	if !ok {
		if !s.Given("currency") {
			s.Assume(told.Say("job.currency", told.Verbatim(DefaultCurrency)))
		}
		return
	}
	if money.CheckCurrency(c) != nil {
		s.Faultf("currency", "needs a code of ISO 4217 in capitals, like GBP, EUR, USD or SEK, is %s", plain.Quote(c))
		return
	}
	b.Currency = c
}

func readLanguage(s *sheet.Sheet, b *Brief) {
	b.Language = defaultLanguage
	if t, ok := s.Text("language"); ok {
		tag, err := language.Parse(t)
		if err != nil {
			s.Faultf("language", "needs a BCP 47 tag, like en-GB, en-US or sv-SE, is %s", plain.Quote(t))
			return
		}
		b.Language = tag.String()
	}
}

// readJob reads the page [job]; a lawn that something was seen on stands.
func readJob(s *sheet.Sheet, stands bool) Job {
	j := Job{Kind: readKind(s, stands), Success: defaultSuccess}
	readFound(s, &j)
	j.AccessM = s.Optional("access_m", 0.3, 20)
	var ok bool
	if j.Method, ok = sheet.Choice(s, "method", job.Broadcast, job.Drill, job.InDressing); !ok {
		j.Method = job.Broadcast
		if !s.Given("method") {
			s.Assume(told.Say("job.broadcast"))
		}
	}
	j.CoverPercent = s.Optional("cover_percent", 0, 100)
	if j.Kind == job.New && s.Given("kind") && j.CoverPercent != nil {
		s.Faultf("cover_percent", "is the living cover of an old sward, and this job is new; leave it out, or take kind = \"overseed\"")
	}
	j.NotBefore, j.NotAfter, j.NeededBy = s.Date("not_before"), s.Date("not_after"), s.Date("needed_by")
	later := func(key string, day, than *time.Time, thanKey string) {
		if day != nil && than != nil && !day.After(*than) {
			s.Faultf(key, "needs to be after %s, %s, is %s", thanKey, than.Format(time.DateOnly), day.Format(time.DateOnly))
		}
	}
	later("not_after", j.NotAfter, j.NotBefore, "not_before")
	later("needed_by", j.NeededBy, j.NotBefore, "not_before")
	if f, ok := s.Number("success", 0.5, 0.99); ok {
		j.Success = f
	}
	if s.Given("rootzone") {
		j.Rootzone = readRootzone(s.Table("rootzone"))
	}
	return j
}

// readKind reads what is to be done: overseeding where a lawn stands and is to stay, a new
// one elsewhere, unless the brief says otherwise.
func readKind(s *sheet.Sheet, stands bool) job.Kind {
	if found, given := s.Any("found").(string); given && !job.Found(found).Sward() || s.Given("rootzone") {
		stands = false // it is gone, or to be
	}
	kind, assumed := job.New, told.Say("job.new")
	if stands {
		kind, assumed = job.Overseed, told.Say("job.stands")
	}
	if k, ok := sheet.Choice(s, "kind", job.New, job.Overseed, job.Renovate); ok {
		return k
	}
	if !s.Given("kind") {
		s.Assume(assumed)
	}
	return kind
}

// checkDeck finds ground to be dug out where there is none.
func checkDeck(root *sheet.Sheet, b Brief) {
	if b.Site.Ground.Over == ground.Deck && b.Job.Rootzone != nil {
		root.Table("job").Faultf("rootzone", "is dug out of the ground, and this lawn lies on a deck; give what is to lie there under [ground]")
	}
}

// checkDays finds days of the job that are over when the plan is made.
func checkDays(root *sheet.Sheet, b Brief) {
	s := root.Table("job")
	for _, d := range []struct {
		key string
		day *time.Time
	}{{"not_after", b.Job.NotAfter}, {"needed_by", b.Job.NeededBy}} {
		switch last := b.Record.Last(); {
		case d.day == nil:
		case b.Date.IsZero() && !d.day.After(last):
			s.Faultf(d.key, "needs to be after the last day of the record, %s, is %s", last.Format(time.DateOnly), d.day.Format(time.DateOnly))
		case !b.Date.IsZero() && !d.day.After(b.Date):
			s.Faultf(d.key, "needs to be after the plan's date, %s, is %s", b.Date.Format(time.DateOnly), d.day.Format(time.DateOnly))
		}
	}
}

// readFound reads what stands there now: bare ground for a new lawn, and an old one for
// any other job, unless the brief says otherwise.
func readFound(s *sheet.Sheet, j *Job) {
	j.Found = job.Bare
	if j.Kind != job.New {
		j.Found = job.OldLawn
	}
	found, ok := sheet.Choice(s, "found", job.Bare, job.OldLawn, job.Moss, job.Gravel, job.Paving)
	switch {
	case !ok && j.Kind == job.New && !s.Given("found"):
		s.Assume(told.Say("job.bare"))
	case !ok:
	case j.Kind != job.New && !found.Sward():
		s.Faultf("found", "is %q, and there is no sward in it to %s; take kind = \"new\"", found, j.Kind)
	default:
		j.Found = found
	}
}

func readRootzone(s *sheet.Sheet) *job.Rootzone {
	var r job.Rootzone
	s.Need("depth_cm", "the settled depth of the made rootzone")
	s.Need("sand_percent", "the share of sand by volume")
	s.Need("soil_percent", "the share of soil by volume")
	r.DepthCM, _ = s.Number("depth_cm", 2, 100)
	sand, ok1 := s.Number("sand_percent", 0, 100)
	soil, ok2 := s.Number("soil_percent", 0, 100)
	r.SandPercent, r.SoilPercent = sand, soil
	if ok1 && ok2 && math.Abs(sand+soil-100) > 0.5 { // rounded shares pass
		s.Faultf("soil_percent", "needs to add to 100 with sand_percent, adds to %g", sand+soil)
	}
	r.Base, _ = sheet.Choice(s, "base", "gravel")
	return &r
}

// readPrices reads what the brief sets in place of the built-in price list.
func readPrices(s *sheet.Sheet, list *money.List, code string) map[string]string {
	keys := s.Keys()
	if len(keys) == 0 {
		return nil
	}
	prices, err := list.In(code, nil)
	if err != nil {
		s.Faultf("", "%v", err)
		return nil
	}
	out := map[string]string{}
	for _, key := range keys {
		price, known := prices.Get(key)
		switch {
		case !known:
			s.Hintf(key, func() string {
				if near := prices.Nearest(key); near != "" {
					return "; did you mean " + near + "? swardwright prices lists them"
				}
				return "; swardwright prices lists them"
			}, "is not in the price list")
		case price.Kind == money.TextKind:
			if t, ok := s.Text(key); ok {
				out[key] = t
			}
		default:
			if p, ok := s.Decimal(key); ok {
				out[key] = p
			}
		}
	}
	// The list itself says which figures it can take.
	if _, err := list.In(code, out); err != nil {
		for _, line := range strings.Split(err.Error(), "\n") {
			key, fault, _ := strings.Cut(strings.TrimPrefix(line, "prices."), ": ")
			s.Faultf(key, "%s", fault)
		}
	}
	return out
}
