package sowing

import (
	"fmt"

	"swardwright/internal/sheet"
	"swardwright/mix/record"
	"swardwright/site"
)

// Keys are the keys that a brief can have, in the order they are read, with what each
// takes.
func Keys(t Tables) []sheet.Ask {
	return sheet.Asks(func(root *sheet.Sheet) {
		readBrief(root, t, nil)
		readVariants(root, "", nil, nil)
	})
}

// ReadSite reads of a brief what its light depends on, the place and the year, and says
// whether the pages on the place are sound; faults elsewhere don't count.
func ReadSite(root *sheet.Sheet, t Tables, open site.Opener) (b Brief, sound bool) {
	b.Site = site.ReadSurvey(root, t.Stations, open)
	sound = root.Sound()
	if d := root.Date("date"); d != nil {
		b.Date = *d
	}
	b.Record = record.Read(root, t.Species, b.Site.Lawn.Parts, b.Date)
	b.Job = readJob(root.Table("job"), !b.Record.Empty())
	return b, sound
}

// VariantText is the text of a brief's variant, counted from 1: the brief with its keys set.
func VariantText(text []byte, n int) ([]byte, error) {
	variants := sheet.Open("", text).Tables("variant")
	if n < 1 || n > len(variants) {
		return nil, fmt.Errorf("there is no variant %d among %d", n, len(variants))
	}
	return edited("", text, readSettings(variants[n-1].Table("set")))
}
