package species

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"swardwright/internal/sheet"
)

// TableFile is the name of the species table within the file system given to
// [Load].
const TableFile = "species.toml"

// Table is the grasses known, by id.
type Table struct {
	species []*Species          // by id
	byName  map[string]*Species // by folded id, botanical and common name
	names   []string            // the same names as written, sorted
}

type tableFile struct {
	Kinds   map[string]string `toml:"kinds"` // name to meaning
	Sources map[string]string `toml:"sources"`
	Species []tableSpecies    `toml:"species"`
}

type tableSpecies struct {
	ID             string                `toml:"id"`
	Botanical      string                `toml:"botanical"`
	Synonyms       []string              `toml:"synonyms"`
	Names          map[string][]string   `toml:"names"`
	Group          string                `toml:"group"`
	Kinds          []string              `toml:"kinds"`
	Warm           bool                  `toml:"warm"`
	Invader        bool                  `toml:"invader"`
	Fodder         bool                  `toml:"fodder"`
	Endophyte      bool                  `toml:"endophyte"`
	MaxShare       int                   `toml:"max_share"`
	MaxShareSource string                `toml:"max_share_source"`
	Notes          []string              `toml:"notes"`
	Facts          map[Fact]string       `toml:"facts"` // to its source
	Traits         map[string]tableValue `toml:"traits"`
}

type tableValue struct {
	Low    *float64 `toml:"low"`
	Best   *float64 `toml:"best"`
	High   *float64 `toml:"high"`
	Basis  Basis    `toml:"basis"`
	Source string   `toml:"source"`
}

// Load reads [TableFile]. Every trait must be there for every grass, with low
// no greater than best and best no greater than high, a known basis and a
// source that the table spells out; a name may belong to one grass only; keys it
// does not know are refused. All faults are reported together.
func Load(fsys fs.FS) (*Table, error) {
	r := reader{cited: map[string]bool{}, kinds: map[string]bool{}}
	md, err := toml.DecodeFS(fsys, TableFile, &r.file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", TableFile, err)
	}
	for _, k := range md.Undecoded() {
		r.fault("%s: unknown key", k)
	}
	if len(r.file.Species) == 0 {
		r.fault("species: the table is empty")
	}
	t := &Table{byName: map[string]*Species{}}
	for i, in := range r.file.Species {
		e := entry{tableSpecies: in, called: "species " + cmp.Or(in.ID, fmt.Sprint(i+1))}
		s := r.grass(e)
		r.traits(e, s)
		r.enter(t, e, s)
	}
	r.unused()
	if len(r.faults) > 0 {
		return nil, errors.Join(r.faults...)
	}
	slices.SortFunc(t.species, func(a, b *Species) int { return cmp.Compare(a.ID, b.ID) })
	slices.Sort(t.names)
	return t, nil
}

// reader gathers the faults of a table, and what of its sources and kinds is called on.
type reader struct {
	file         tableFile
	faults       []error
	cited, kinds map[string]bool
}

// entry is one grass of the file, with what its faults are reported under.
type entry struct {
	tableSpecies
	called string
}

func (e entry) at(key string) string { return e.called + ": " + key }

func (r *reader) fault(format string, a ...any) {
	r.faults = append(r.faults, fmt.Errorf(TableFile+": "+format, a...))
}

// source spells out a source of the table; empty when the table has it not.
func (r *reader) source(key string) string {
	r.cited[key] = true
	return r.file.Sources[key]
}

// grass reads what is known of a grass beside its traits.
func (r *reader) grass(in entry) *Species {
	s := &Species{
		ID: in.ID, Botanical: in.Botanical, Synonyms: in.Synonyms, Names: in.Names, Group: in.Group, Kinds: in.Kinds, Facts: map[Fact]string{},
		Warm: in.Warm, Invader: in.Invader, Fodder: in.Fodder, Endophyte: in.Endophyte, MaxShare: in.MaxShare, Notes: in.Notes,
	}
	switch {
	case in.ID == "":
		r.fault("%s: missing", in.at("id"))
	case in.Botanical == "":
		r.fault("%s: missing", in.at("botanical"))
	case len(in.Names["en-GB"]) == 0 || len(in.Names["en-US"]) == 0:
		r.fault("%s: needs a name in en-GB and in en-US", in.at("names"))
	}
	if !slices.Contains(groups, in.Group) {
		r.fault("%s: is %q, needs to be one of %s", in.at("group"), in.Group, strings.Join(groups, ", "))
	}
	if in.MaxShare < 0 || in.MaxShare > 100 {
		r.fault("%s: is %d, needs to lie between 0 and 100", in.at("max_share"), in.MaxShare)
	}
	if in.MaxShare > 0 {
		if s.MaxShareSource = r.source(in.MaxShareSource); s.MaxShareSource == "" {
			r.fault("%s: %q is not in [sources]", in.at("max_share_source"), in.MaxShareSource)
		}
	}
	for _, k := range in.Kinds {
		r.kinds[k] = true
		if r.file.Kinds[k] == "" {
			r.fault("%s: %q is not in [kinds]", in.at("kinds"), k)
		}
	}
	for _, key := range sortedKeys(in.Facts) {
		s.Facts[key] = r.source(in.Facts[key])
		switch {
		case !slices.Contains(facts, key):
			r.fault("%s: unknown fact", in.at("facts."+string(key)))
		case s.Facts[key] == "":
			r.fault("%s: %q is not in [sources]", in.at("facts."+string(key)), in.Facts[key])
		}
	}
	return s
}

// traits reads the traits of a grass, all of them and no others.
func (r *reader) traits(in entry, s *Species) {
	known := map[string]bool{}
	for tr := range TraitCount {
		key := tr.String()
		known[key] = true
		v, ok := in.Traits[key]
		if !ok {
			r.fault("%s: missing", in.at("traits."+key))
			continue
		}
		var err error
		if s.Values[tr], err = v.value(tr, r.source(v.Source)); err != nil {
			r.fault("%s: %w", in.at("traits."+key), err)
		}
	}
	for _, key := range sortedKeys(in.Traits) {
		if !known[key] {
			r.fault("%s: unknown trait", in.at("traits."+key))
		}
	}
	for _, pair := range [][2]Trait{{MowLowMM, MowBestMM}, {MowBestMM, MowHighMM}, {PHLow, PHHigh}} {
		if s.Values[pair[0]].Best > s.Values[pair[1]].Best {
			r.fault("%s: is above %s", in.at("traits."+pair[0].String()), pair[1])
		}
	}
}

// enter puts a grass into the table under all its names.
func (r *reader) enter(t *Table, in entry, s *Species) {
	for _, name := range s.allNames() {
		key := fold(name)
		if key == "" {
			r.fault("%s: a name is empty", in.at("names"))
		} else if other, taken := t.byName[key]; taken && other != s {
			r.fault("%s: %q is also a name of %s", in.at("names"), name, other.ID)
		} else if !taken {
			t.byName[key] = s
			t.names = append(t.names, name)
		}
	}
	t.species = append(t.species, s)
}

// unused finds sources that nothing cites and kinds that no grass is of.
func (r *reader) unused() {
	for _, key := range sortedKeys(r.file.Sources) {
		if !r.cited[key] {
			r.fault("sources.%s: nothing cites it", key)
		}
	}
	for _, key := range sortedKeys(r.file.Kinds) {
		if !r.kinds[key] {
			r.fault("kinds.%s: no grass is of it", key)
		}
	}
}

func (v tableValue) value(tr Trait, source string) (Value, error) {
	if v.Low == nil || v.Best == nil || v.High == nil {
		return Value{}, errors.New("needs low, best and high")
	}
	out := Value{Low: *v.Low, Best: *v.Best, High: *v.High, Basis: v.Basis, Source: source}
	in := traitInfo[tr]
	switch {
	case !(out.Low <= out.Best && out.Best <= out.High):
		return out, fmt.Errorf("low %g, best %g and high %g are out of order", out.Low, out.Best, out.High)
	case !(out.Low >= in.least && out.High <= in.most) || math.IsInf(out.Low, 0) || math.IsInf(out.High, 0):
		return out, fmt.Errorf("%g to %g needs to lie between %g and %g %s", out.Low, out.High, in.least, in.most, in.unit)
	case !slices.Contains(bases, v.Basis):
		return out, fmt.Errorf("basis %q is not known", v.Basis)
	case out.Source == "":
		return out, fmt.Errorf("source %q is not in [sources]", v.Source)
	}
	return out, nil
}

// allNames are the names the grass is found by, each as written, the id last: of
// two that differ by a hyphen only the first is suggested.
func (s *Species) allNames() []string {
	names := append([]string{s.Botanical}, s.Synonyms...)
	for _, tag := range sortedKeys(s.Names) {
		names = append(names, s.Names[tag]...)
	}
	return append(names, s.ID)
}

// All are the grasses of the table, by id.
func (t *Table) All() []*Species { return slices.Clone(t.species) }

// ByID is the grass with that id, or nil.
func (t *Table) ByID(id string) *Species {
	i, ok := slices.BinarySearchFunc(t.species, id, func(s *Species, id string) int { return cmp.Compare(s.ID, id) })
	if !ok {
		return nil
	}
	return t.species[i]
}

// Find is the grass of that id, botanical name or common name. Case, and
// whether words are joined by a hyphen, do not matter.
func (t *Table) Find(name string) (*Species, bool) {
	s, ok := t.byName[fold(name)]
	return s, ok
}

// fold brings a name to the form names are compared in.
func fold(name string) string {
	name = strings.NewReplacer("-", " ", "_", " ", "’", "'").Replace(strings.ToLower(name))
	return strings.Join(strings.Fields(name), " ")
}

// Suggest is a name of each of up to three grasses whose names are nearest to one
// that was not found, nearest first; none when nothing is near.
func (t *Table) Suggest(name string) []string {
	left := slices.Clone(t.names)
	var out []string
	for len(out) < 3 {
		near := sheet.Nearest(name, left)
		if near == "" {
			break
		}
		out = append(out, near)
		left = slices.DeleteFunc(left, func(n string) bool { return t.byName[fold(n)] == t.byName[fold(near)] })
	}
	return out
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }

// Moved is the table with the figures of some grasses, by id, moved within their ranges: as
// a place has shown them.
func (t *Table) Moved(by map[string]Traits) *Table {
	out := *t
	out.species = slices.Clone(t.species)
	for i, s := range t.species {
		d, ok := by[s.ID]
		if !ok {
			continue
		}
		moved := *s
		for k := range moved.Values {
			v := &moved.Values[k]
			v.Best = min(max(v.Best+d[k], v.Low), v.High)
		}
		out.species[i] = &moved
	}
	return &out
}

// Called are the grasses that a name may mean: one by its own name, or those of a group
// or of a kind that publications speak of; a group's last word will do ("fescue"), in the
// plural as well. None where nothing is called so.
func (t *Table) Called(name string) []*Species {
	if s, ok := t.Find(name); ok {
		return []*Species{s}
	}
	want := fold(name)
	is := func(word string) bool {
		word = fold(word)
		return want == word || want == word+"s" || want == word+"es"
	}
	var out, tails []*Species
	for _, sp := range t.species {
		if is(sp.Group) || slices.ContainsFunc(sp.Kinds, is) {
			out = append(out, sp)
		}
		if _, tail, ok := strings.Cut(sp.Group, " "); ok && is(tail) {
			tails = append(tails, sp)
		}
	}
	if out == nil {
		return tails
	}
	return out
}
