package sheet

import (
	"slices"
)

// Kind is the kind of value that a key takes.
type Kind string

// The kinds of value.
const (
	OneNumber   Kind = "number"
	SomeNumbers Kind = "numbers"
	TwelveMonth Kind = "months"
	OnePair     Kind = "pair"
	SomePairs   Kind = "pairs"
	OneText     Kind = "text"
	OneWord     Kind = "choice"
	YesOrNo     Kind = "flag"
	OneDay      Kind = "date"
	OneTable    Kind = "table"
	SomeTables  Kind = "tables"
	AnyKeys     Kind = "keys" // a table whose keys are names, not words of ours
)

// Ask is what was asked of one key while a text was read: what a form for it has to know.
type Ask struct {
	Path  string     // elements of arrays without their numbers
	Kind  Kind       // empty where it was only asked whether the key is given
	Lo    [2]float64 // of a number; of both numbers of a pair
	Hi    [2]float64
	Words []string // of a choice
}

func (s *Sheet) ask(key string, a Ask) {
	a.Path = index.ReplaceAllString(s.pathOf(key), "")
	s.book.asks = append(s.book.asks, a)
}

func (s *Sheet) askNumber(key string, k Kind, lo, hi float64) {
	s.ask(key, Ask{Kind: k, Lo: [2]float64{lo, lo}, Hi: [2]float64{hi, hi}})
}

// Asks finds every key that a reader of texts knows, in the order of its reading. It has
// read empty texts, and again with each table in them that was asked for, until it hears
// of no new one. A key that takes values of two kinds comes twice.
func Asks(read func(*Sheet)) []Ask {
	var asks []Ask
	text, tried := "", map[string]bool{}
	for {
		s := Open("", []byte(text))
		read(s)
		asks = asks[:0]
		var untold []string // tables that are only read where they are given
		for _, a := range s.book.asks {
			known := slices.ContainsFunc(asks, func(b Ask) bool { return b.Path == a.Path && b.Kind == a.Kind })
			if !known && a.Path != "" {
				asks = append(asks, a)
			}
		}
		for _, t := range s.book.sheets {
			for _, k := range t.known {
				path := index.ReplaceAllString(t.pathOf(k), "")
				if !slices.ContainsFunc(asks, func(b Ask) bool { return b.Path == path }) {
					untold = append(untold, "["+path+"]\n")
				}
			}
		}
		more := ""
		for _, a := range asks {
			if a.Kind == SomeTables {
				untold = append(untold, "[["+a.Path+"]]\n")
			}
		}
		for _, u := range untold {
			if !tried[u] {
				tried[u] = true
				more += u
			}
		}
		if more == "" {
			return asks
		}
		text += more
	}
}
