package sowing

import "swardwright/internal/sheet"

// Keys are the keys that a brief can have, in the order they are read, with what each
// takes.
func Keys(t Tables) []sheet.Ask {
	return sheet.Asks(func(root *sheet.Sheet) { readBrief(root, t, nil) })
}
