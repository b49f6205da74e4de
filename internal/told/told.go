// Package told holds what the core has to say: sentences by name, with the
// figures that they carry. Nothing is worded here. A room names a sentence and
// hands over typed figures; how it reads in the reader's units, number forms and
// English stands once, in the catalogue of report/say.
//
//	told.Say("bed.dig-in-compost", told.DepthMM(30))
//
// The part of a name before the dot is the file of the catalogue, which is the
// room; the rest is the entry, whose text has the figures as {1}, {2} and so on.
// Names are written out where they are used, so that a test can hold them
// against the catalogue.
//
// A figure is a value with its dimension in its type. SI inside; a share is 0 to
// 1; money is in whole minor units. The type decides unit and precision when the
// figure is worded, so that one kind of thing is written one way everywhere.
package told

// Sentence is a sentence or a clause by name, with its figures in the order of
// their places. The zero Sentence says nothing.
type Sentence struct {
	Name    string
	Figures []Figure
}

// Say names a sentence and gives it its figures.
func Say(name string, figures ...Figure) Sentence { return Sentence{name, figures} }

// Silent says whether there is nothing to say.
func (s Sentence) Silent() bool { return s.Name == "" }

// Figure is one thing that a sentence carries. The types of this package are all
// there are.
type Figure interface{ figure() }

// List is several figures, worded "a, b and c", or as Join says. As the figure
// that decides singular or plural it counts as its length.
type List struct {
	Items []Figure
	Join  Join
}

// Join is how the items of a list are put together.
type Join string

// The joins.
const (
	And       Join = "and"       // a, b and c
	Or        Join = "or"        // a, b or c
	Then      Join = "then"      // a, then b, then c
	Commas    Join = "commas"    // a, b, c
	Clauses   Join = "clauses"   // a; b; c
	Sentences Join = "sentences" // A. B. C.
)

// All lists figures as "a, b and c".
func All[F Figure](items ...F) List { return Joined(And, items...) }

// Joined lists figures put together in the given way.
func Joined[F Figure](join Join, items ...F) List {
	l := List{Items: make([]Figure, len(items)), Join: join}
	for i, f := range items {
		l.Items[i] = f
	}
	return l
}

// Range is two figures of one type: "12 to 25 mm". Equal ends are worded once.
type Range struct{ Low, High Figure }

// Between is the range from low to high.
func Between[F Figure](low, high F) Range { return Range{low, high} }

func (Sentence) figure() {}
func (List) figure()     {}
func (Range) figure()    {}
