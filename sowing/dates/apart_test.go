package dates

import (
	"context"
	"math"
	"testing"
	"time"

	"swardwright/internal/calendar"
)

// Zones that are sown with mixtures of their own fare each as a lawn of its own does, and the
// lawn as they do by their shares; a grass that is sown in one zone alone fares as it does there.
func TestSowApart(t *testing.T) {
	table, err := speciesTable()
	if err != nil {
		t.Fatal(err)
	}
	c := lawn(t, "Hannover", 20, 1, 0.35)
	c.Zones[0].Share, c.Zones[1].Share = 0.7, 0.3
	survey := func(zones ...int) *Table {
		s, err := Survey(context.Background(), c.Only(zones...), table.All(), Input{Watered: true, CutMM: 40})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	sun := map[string]float64{"perennial-ryegrass": 0.4, "smooth-stalked-meadow-grass": 0.6}
	shade := map[string]float64{"chewings-fescue": 1}
	both := survey(0, 1).SowApart(func(zone int) map[string]float64 { return []map[string]float64{sun, shade}[zone] })
	first, second := survey(0).Sow(sun), survey(1).Sow(shade)
	for day := range calendar.Year {
		for what, x := range map[string][3]float64{
			"success": {both.Success[day], first.Success[day], second.Success[day]},
			"score":   {both.Score[day], first.Score[day], second.Score[day]},
		} {
			if want := 0.7*x[1] + 0.3*x[2]; math.Abs(x[0]-want) > 1e-6 {
				t.Fatalf("day %d: %s %v, of its zones %v", day, what, x[0], want)
			}
		}
	}
	on := time.Date(2027, time.August, 25, 0, 0, 0, 0, time.UTC)
	parts := map[string]Part{}
	for _, s := range []*Season{&first, &second} {
		for _, p := range s.on(on).Parts {
			parts[p.SpeciesID] = p
		}
	}
	got := both.on(on).Parts
	if len(got) != 3 {
		t.Errorf("%d grasses", len(got))
	}
	for _, p := range got {
		want := parts[p.SpeciesID]
		if math.Abs(p.Success-want.Success) > 1e-9 || p.EmergenceDays == nil || *p.EmergenceDays != *want.EmergenceDays || *p.FirstMowDays != *want.FirstMowDays {
			t.Errorf("%s: %+v, in its zone alone %+v", p.SpeciesID, p, want)
		}
	}
	means := both.means(calendar.DayOf(on))
	a, b := first.means(calendar.DayOf(on)), second.means(calendar.DayOf(on))
	for i := range means {
		if want := 0.7*a[i] + 0.3*b[i]; math.Abs(means[i]-want) > 1e-6 {
			t.Errorf("danger %d: %v, of its zones %v", i, means[i], want)
		}
	}
}
