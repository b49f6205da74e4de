package practice

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"github.com/BurntSushi/toml"

	"swardwright/species"
)

// TableFile is the name of the table within the file system given to [Load].
const TableFile = "practice.toml"

// Row is one published recommendation: what a body says to sow on a lawn. Groups of
// grasses are kinds of the species table, or single grasses by name.
type Row struct {
	ID          string `toml:"id"`
	Institution string `toml:"institution"`
	Title       string `toml:"title"`
	Year        string `toml:"year"`
	Seen        string `toml:"seen"` // Read or FromMemory
	Firm        bool   `toml:"firm"` // first-hand text with a clear figure
	Place       string `toml:"place"`
	Says        string `toml:"says"` // in our words

	// The lawn as a brief: our own reading of the words of the text.
	Station   string         `toml:"station"`
	AltitudeM *float64       `toml:"altitude_m"`
	Light     map[string]any `toml:"light"`
	Ground    map[string]any `toml:"ground"`
	Use       map[string]any `toml:"use"`
	Job       map[string]any `toml:"job"`

	Sows     []Band     `toml:"sows"`     // all of these
	Any      [][]Band   `toml:"any"`      // and all of one of these
	Leads    []string   `toml:"leads"`    // these together are more than any other kind of grass
	Contains [][]string `toml:"contains"` // one of each of these is in it
	Never    []string   `toml:"never"`    // not sown

	Lawn Lawn `toml:"site"` // worked out from the brief by internal/gen/practice

	wants wants
}

// How the text of a row was seen.
const (
	Read       = "read"
	FromMemory = "memory"
)

// Band is the share of some groups of grasses together, percent by weight.
type Band struct {
	Of   []string `toml:"of"`
	Low  float64  `toml:"low"`
	High float64  `toml:"high"`
}

// Table is the published recommendations.
type Table struct {
	Rows []Row

	grasses []*species.Species // by id
	byName  *species.Table
	kinds   []Set // as publications sort grasses; every grass is in one
	sets    []Set // all that rows and rules ask the share of; the first is empty
	rivals  []rivals
	rules   []int // by rule: the place of its grasses in sets
}

// Load reads [TableFile]. All faults are reported together.
func Load(fsys fs.FS, grasses *species.Table) (*Table, error) {
	var f struct {
		Row []Row `toml:"row"`
	}
	md, err := toml.DecodeFS(fsys, TableFile, &f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", TableFile, err)
	}
	var faults []error
	fault := func(format string, a ...any) {
		faults = append(faults, fmt.Errorf(TableFile+": "+format, a...))
	}
	for _, k := range md.Undecoded() {
		fault("%s: unknown key", k)
	}
	t := &Table{Rows: f.Row, grasses: grasses.All(), byName: grasses}
	if len(t.grasses) > mostGrasses {
		return nil, fmt.Errorf("%s: more than %d grasses", TableFile, mostGrasses)
	}
	t.kinds = t.sorted()
	t.place(0)
	for _, r := range Rules {
		t.rules = append(t.rules, t.place(t.ofKinds(r.Of)))
	}
	seen := map[string]bool{}
	for i := range t.Rows {
		r := &t.Rows[i]
		name := cmp.Or(r.ID, fmt.Sprint("row ", i+1))
		if r.ID == "" || seen[r.ID] {
			fault("%s: needs an id of its own", name)
		}
		seen[r.ID] = true
		for _, err := range r.check() {
			fault("%s: %w", name, err)
		}
		if err := r.compile(t); err != nil {
			fault("%s: %w", name, err)
		}
	}
	if len(t.sets) > mostSets || len(t.rivals) > mostRivals {
		fault("asks for more than %d sets of grasses, or for more than %d to lead", mostSets, mostRivals)
	}
	return t, errors.Join(faults...)
}

// check finds what a row lacks, and what it can't mean.
func (r *Row) check() (faults []error) {
	if r.Institution == "" || r.Title == "" || r.Place == "" || r.Says == "" || r.Station == "" {
		faults = append(faults, errors.New("needs institution, title, place, says and station"))
	}
	if r.Seen != Read && r.Seen != FromMemory {
		faults = append(faults, fmt.Errorf("seen is %q, needs to be %s or %s", r.Seen, Read, FromMemory))
	}
	if len(r.Sows)+len(r.Any)+len(r.Leads)+len(r.Contains)+len(r.Never) == 0 {
		faults = append(faults, errors.New("recommends nothing"))
	}
	for _, b := range slices.Concat(append(slices.Clone(r.Any), r.Sows)...) {
		if b.Low > b.High || b.Low < 0 || b.High > 100 {
			faults = append(faults, fmt.Errorf("%v is no band of percent", b))
		}
	}
	return faults
}

// sorted are the kinds of grass by which publications tell lawns apart: the groups of
// the trade where their grasses stand in for each other, else single grasses.
func (t *Table) sorted() []Set {
	var names []string
	sets := map[string]Set{}
	for i, s := range t.grasses {
		name := s.Group
		if !slices.Contains(standIn, name) {
			name = s.ID
		}
		if sets[name] == 0 {
			names = append(names, name)
		}
		sets[name] |= 1 << i
	}
	out := make([]Set, len(names))
	for i, name := range names {
		out[i] = sets[name]
	}
	return out
}

// standIn are the groups of species.Groups whose grasses stand in for each other.
var standIn = []string{"ryegrass", "fine fescue", "bent"}

// Without is the table less all rows of an institution.
func (t *Table) Without(institution string) *Table {
	out := *t
	out.Rows = slices.DeleteFunc(slices.Clone(t.Rows), func(r Row) bool { return r.Institution == institution })
	return &out
}

// Set is a set of grasses, by their places in the species table.
type Set uint64

const (
	mostGrasses = 64
	mostSets    = 256 // that rows and rules may ask the share of
	mostRivals  = 64
)

// Has tells whether a grass, by its place in the species table, is in the set.
func (s Set) Has(grass int) bool { return s>>grass&1 == 1 }

// place is where a set stands in sets.
func (t *Table) place(s Set) int {
	if i := slices.Index(t.sets, s); i >= 0 {
		return i
	}
	t.sets = append(t.sets, s)
	return len(t.sets) - 1
}

// rivals are the kinds that a set of grasses must outweigh to lead, without its own
// grasses, by their places in sets.
type rivals struct {
	of    Set
	kinds []int
}

// against is where the rivals of a set stand.
func (t *Table) against(of Set) int {
	for i := range t.rivals {
		if t.rivals[i].of == of {
			return i
		}
	}
	r := rivals{of: of}
	for _, k := range t.kinds {
		if k&^of != 0 {
			r.kinds = append(r.kinds, t.place(k&^of))
		}
	}
	t.rivals = append(t.rivals, r)
	return len(t.rivals) - 1
}

// shares are what recommendations ask of a mixture.
type shares struct {
	of    [mostSets]float64   // percent, by set
	rival [mostRivals]float64 // percent of the greatest of some rivals
}

// weigh works out the shares of a mixture of grasses, by their places in the species
// table.
func (t *Table) weigh(grass []int, percent []float64) (out shares) {
	for i, s := range t.sets {
		for k, g := range grass {
			if s.Has(g) {
				out.of[i] += percent[k]
			}
		}
	}
	for i := range t.rivals {
		for _, k := range t.rivals[i].kinds {
			out.rival[i] = max(out.rival[i], out.of[k])
		}
	}
	return out
}

// of is the set of some groups together.
func (t *Table) of(groups []string) (Set, error) {
	var out Set
	for _, g := range groups {
		one := t.ofKinds([]string{g})
		if one == 0 {
			s, ok := t.byName.Find(g)
			if !ok {
				return 0, fmt.Errorf("no kind of grass and no grass is named %q", g)
			}
			one = 1 << slices.Index(t.grasses, s)
		}
		out |= one
	}
	return out, nil
}

// ofKinds is the set of grasses of some kinds of the species table.
func (t *Table) ofKinds(kinds []string) (out Set) {
	for i, s := range t.grasses {
		if s.IsOf(kinds) {
			out |= 1 << i
		}
	}
	return out
}
