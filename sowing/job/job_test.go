package job

import (
	"slices"
	"testing"
	"time"
)

// What many tasks are reckoned from: work got out of a day, BS 7370 part 1, 5 to 5.5 hours of 8 (as quoted by the Grounds Management
// Association); a dressing of 5 mm at most in one go (City of Regina, Topdressing), holes 15 cm deep and a
// hundred to the square metre, an old sward mown to 20 mm, lime four months apart (common practice, no published source).
func TestFigures(t *testing.T) {
	for what, r := range map[string]struct{ is, low, high float64 }{
		"productive hours":     {ProductiveHours, 5, 5.5},
		"most dressing, mm":    {MostDressMM, 4.9, 5},
		"sand in it":           {DressSandShare, 0.65, 0.75},
		"depth of spikes, mm":  {SpikeDepthMM, 140, 160},
		"spacing, mm":          {SpikeSpacingMM, 95, 105},
		"mown down to, mm":     {MownDownMM, 18, 22},
		"lime apart in months": {LimeApartMonths, 4, 4},
	} {
		if r.is < r.low || r.is > r.high {
			t.Errorf("%s: %g, want %g to %g", what, r.is, r.low, r.high)
		}
	}
}

func TestSmallWords(t *testing.T) {
	for found, sward := range map[Found]bool{Bare: false, OldLawn: true, Moss: true, Gravel: false, Paving: false} {
		if found.Sward() != sward {
			t.Errorf("%s is a sward: %t", found, !sward)
		}
	}
	for found, made := range map[Found]bool{Bare: false, OldLawn: false, Moss: false, Gravel: true, Paving: true} {
		if found.Surfaced() != made {
			t.Errorf("%s is a made surface: %t", found, !made)
		}
	}
	zones := []Zone{{Letter: "A", AreaM2: 30}, {Letter: "C", AreaM2: 12.5}}
	if Area(zones) != 42.5 || Area(nil) != 0 || !slices.Equal(Letters(zones), []string{"A", "C"}) {
		t.Errorf("%g m² of %v", Area(zones), Letters(zones))
	}
	day := func(d int) time.Time { return time.Date(2027, 5, d, 0, 0, 0, 0, time.UTC) }
	if got := (Task{Date: day(3), Until: day(9)}).Ends(); !got.Equal(day(9)) {
		t.Errorf("a task until the 9th ends on %v", got)
	}
	if got := (Task{Date: day(3)}).Ends(); !got.Equal(day(3)) {
		t.Errorf("a task of one day ends on %v", got)
	}
}
