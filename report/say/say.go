// Package say words what the core has told. Every sentence of a plan stands once
// in the catalogue, a folder a language and in it a file a room:
//
//	en/bed.toml    compost = "dig in {1} of weed-free compost"
//
// Figures are worded by their type: units by what the reader asked for, number
// forms by the language, names of months and grasses in the language of the text
// they stand in. Words of the trade that British and American English have apart
// are places of their own, {turf}, and stand in words.toml; {^turf} and {^1} give
// a capital. An entry may have a text for each plural form of one figure:
//
//	holes = { by = 1, one = "{1} hole", other = "{1} holes" }
//
// A second language is one more folder. What it doesn't have is said in English,
// the whole sentence with its months, names and clauses; a language without a folder
// reads English throughout. A folder with a draft.toml is a draft, and that says so.
package say

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/bojanz/currency"
	"github.com/samber/lo"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"swardwright/internal/told"
	"swardwright/sowing/money"
	"swardwright/species"
)

// Grasses finds a grass by its id; nil where there is none.
type Grasses func(id string) *species.Species

// Sayer words sentences and figures for one reader. It is safe for use by one
// goroutine. The parts of one figure are joined by no-break spaces (U+00A0), so that
// a number never parts from its unit at the end of a line.
type Sayer struct {
	voices   []voice // the reader's language, where it has a catalogue, then English
	grasses  Grasses
	us       bool // quantities are US customary
	american bool // English is written as in America
	locale   currency.Locale
	printer  *message.Printer // of numbers
	plain    bool             // no no-break spaces
}

// voice is the wording of one language.
type voice struct {
	*Sayer
	language string // a folder of the catalogue
	tag      language.Tag
	dates    calendar
}

// New makes the sayer of a BCP 47 language tag, "metric" or "us" units and an
// ISO 4217 currency. Empty means "en", "metric" and no currency of its own.
func New(lang, units, curr string, grasses Grasses) (*Sayer, error) {
	tag, err := language.Parse(cmp.Or(lang, english))
	if err != nil {
		return nil, fmt.Errorf("language: %q is not a BCP 47 tag such as en-GB, de or sv", lang)
	}
	if units != "" && units != "metric" && units != "us" {
		return nil, fmt.Errorf("units: %q is neither metric nor us", units)
	}
	if curr != "" {
		if err := money.CheckCurrency(curr); err != nil {
			return nil, err
		}
	}
	// Norwegian without its form is Bokmål, which the tables of forms know by name.
	if b, _ := tag.Base(); b.String() == "no" {
		tag = language.Make("nb" + strings.TrimPrefix(strings.ToLower(lang), "no"))
	}
	s := &Sayer{grasses: grasses, us: units == "us"}
	tag, s.american = placed(tag, s.us)
	s.locale = currency.NewLocale(tag.String())
	// Figures are set in the digits 0 to 9 whatever the language.
	if latin, err := tag.SetTypeForKey("nu", "latn"); err == nil {
		tag = latin
	}
	s.printer = message.NewPrinter(tag)

	base, _ := tag.Base()
	if own := base.String(); own != english && slices.Contains(languages(), own) {
		s.add(own, language.Make(own))
	}
	voice := language.BritishEnglish
	if s.american {
		voice = language.AmericanEnglish
	}
	s.add(english, voice)
	return s, nil
}

// placed is a tag with the region that its sums and numbers are written as in: English of
// none is of where its units are at home. It tells whether the trade's words are American.
func placed(tag language.Tag, us bool) (language.Tag, bool) {
	base, _ := tag.Base()
	region, sure := tag.Region()
	switch {
	case sure == language.Exact:
		return tag, region.String() == "US" || region.String() == "CA"
	case base.String() == english:
		home := language.MustParseRegion("GB")
		if us {
			home = language.MustParseRegion("US")
		}
		tag, _ = language.Compose(tag, home)
	}
	return tag, us
}

// add adds a voice.
func (s *Sayer) add(folder string, tag language.Tag) {
	s.voices = append(s.voices, voice{s, folder, tag, calendars.of(folder, "dates").in(s.american)})
}

// US says whether quantities are US customary.
func (s *Sayer) US() bool { return s.us }

// Plain is the same sayer with plain spaces in place of no-break ones, for text that
// programs read.
func (s *Sayer) Plain() *Sayer {
	p := *s
	p.plain = true
	p.voices = slices.Clone(s.voices)
	for i := range p.voices {
		p.voices[i].Sayer = &p
	}
	return &p
}

// plainSpaces are the no-break spaces of numbers and units.
var plainSpaces = strings.NewReplacer("\u00a0", " ", "\u202f", " ")

func (s *Sayer) out(text string) string {
	if s.plain {
		return plainSpaces.Replace(text)
	}
	return text
}

// Language is the tag of the language that the words are in.
func (s *Sayer) Language() string { return s.voices[0].tag.String() }

// Say words a sentence. One that says nothing is empty.
func (s *Sayer) Say(t told.Sentence) string {
	return s.out(s.voiceOf(t).say(t))
}

// voiceOf is the reader's voice where it has all of a figure, and the English one where
// it lacks any: a sentence is in one language with all that stands in it.
func (s *Sayer) voiceOf(f told.Figure) voice {
	if own := s.voices[0]; own.language == english || own.has(f) {
		return own
	}
	return s.english()
}

// has says whether a voice has the words of a figure.
func (v voice) has(f told.Figure) bool {
	switch x := f.(type) {
	case told.Sentence:
		if _, ok := v.entry(x.Name); !ok && !x.Silent() {
			return false
		}
		return !slices.ContainsFunc(x.Figures, func(f told.Figure) bool { return !v.has(f) })
	case told.List:
		// Sentences that follow each other are each worded by themselves.
		return x.Join == told.Sentences || !slices.ContainsFunc(x.Items, func(f told.Figure) bool { return !v.has(f) })
	case told.Range:
		return v.has(x.Low) && v.has(x.High)
	case told.Optional:
		return !x.Day.IsZero() || v.has(x.Else)
	case told.Term:
		name := termName(x)
		_, own := v.entry(name)
		_, known := v.english().entry(name)
		return own || !known
	case told.Counted:
		_, ok := v.entry("count." + x.Of)
		return ok
	}
	return true
}

// say words a sentence in this voice.
func (v voice) say(t told.Sentence) string {
	if t.Silent() {
		return ""
	}
	e, ok := v.entry(t.Name)
	if !ok {
		return "[" + t.Name + "]"
	}
	return v.fill(e, t.Figures)
}

// All words a list of sentences.
func (s *Sayer) All(list []told.Sentence) []string {
	return lo.Map(list, func(t told.Sentence, _ int) string { return s.Say(t) })
}

// Text words sentences that follow each other.
func (s *Sayer) Text(list []told.Sentence) string { return strings.Join(s.All(list), " ") }

// Figure words a figure that stands by itself.
func (s *Sayer) Figure(f told.Figure) string { return s.out(s.voiceOf(f).figure(f)) }

// Draft is what the words say of themselves until someone of the trade has read them;
// empty where someone has.
func (s *Sayer) Draft() string {
	e, _ := s.voices[0].entry("draft.note")
	return s.voices[0].fill(e, nil)
}

// english is the voice that has every entry.
func (s *Sayer) english() voice { return s.voices[len(s.voices)-1] }

// entry finds a wording by name: room, dot, the rest.
func (v voice) entry(name string) (entry, bool) {
	file, key, _ := strings.Cut(name, ".")
	e, ok := rooms.of(v.language, file)[key]
	return e, ok
}

// must words an entry that the figures themselves need; English where the
// language hasn't it.
func (v voice) must(name string, figures ...told.Figure) string {
	if _, ok := v.entry(name); !ok {
		v = v.english()
	}
	return v.say(told.Say(name, figures...))
}

// fill puts figures into a wording.
func (v voice) fill(e entry, figures []told.Figure) string {
	t := e.forms[plural.Other]
	if len(e.forms) > 1 && e.by < len(figures) {
		if form, ok := e.forms[v.plural(figures[e.by])]; ok {
			t = form
		}
	}
	return v.put(t, func(i int) string {
		if i >= len(figures) {
			return fmt.Sprintf("[figure %d]", i+1)
		}
		return v.figure(figures[i])
	})
}

// put writes a text, with the figures from a function.
func (v voice) put(t text, figure func(i int) string) string {
	var b strings.Builder
	for _, p := range t {
		s := p.literal
		switch {
		case p.figure >= 0:
			s = figure(p.figure)
		case p.word != "":
			s = v.word(p.word)
		}
		if p.capital {
			s = Capital(s)
		}
		if strings.HasSuffix(b.String(), ".") && strings.HasPrefix(s, ".") { // after an abbreviation one full stop is enough
			s = s[1:]
		}
		b.WriteString(s)
	}
	return b.String()
}

// word is a word of the trade in the reader's English, or by units.
func (v voice) word(name string) string {
	w, ok := words.of(v.language, "words")[name]
	switch {
	case !ok:
		return "[" + name + "]"
	case w.metric != "" && v.us:
		return w.customary
	case w.metric != "":
		return w.metric
	case v.american:
		return w.american
	default:
		return w.british
	}
}

// plural is the plural form that a figure asks for.
func (v voice) plural(f told.Figure) plural.Form {
	n := 2
	switch x := f.(type) {
	case told.Count:
		n = int(x)
	case told.Counted:
		n = x.N
	case told.Days:
		n = int(x)
	case told.Weeks:
		n = int(x)
	case told.Months:
		n = int(x)
	case told.Years:
		n = int(x)
	case told.List:
		n = len(x.Items)
	case told.Range:
		return v.plural(x.High)
	case told.Number:
		if x.Decimals == 0 {
			n = int(x.X)
		}
	}
	return plural.Cardinal.MatchPlural(v.tag, max(n, -n), 0, 0, 0, 0)
}

// Capital gives a text its capital. A word with a capital inside ("pH") keeps its
// form.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
