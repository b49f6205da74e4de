package dates

import (
	"slices"
	"testing"
	"time"

	"swardwright/internal/told"
)

// Kansas State and Arkansas extension: cool-season grass is best sown in autumn, and spring is the second choice. Who must sow in
// spring is told what autumn would bring; who may choose sows in autumn and is told nothing.
func TestAutumnIsSurer(t *testing.T) {
	table := survey(t, open(t, "Louisville, Kentucky", 60), Input{Watered: true})
	said := func(l Limits) bool {
		d := datesOf(table, tallMix, l, nil)
		return slices.ContainsFunc(d.Notes, func(n told.Sentence) bool { return n.Name == "when.autumn-surer" })
	}
	if until := day(time.June, 1); !said(Limits{From: newYear.From, NotAfter: &until}) {
		t.Error("not told in spring")
	}
	if said(newYear) {
		t.Error("told in autumn")
	}
}
