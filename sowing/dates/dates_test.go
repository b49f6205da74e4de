package dates

import (
	"context"
	"testing"
	"time"

	"swardwright/data"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

// open is a lawn in full light on loam at a station, followed for some years.
func open(t testing.TB, name string, years int) *site.Conditions {
	t.Helper()
	return lawn(t, name, years, 1)
}

// lawn is the same with a share of the open ground's light in each of its zones.
func lawn(t testing.TB, name string, years int, shares ...float64) *site.Conditions {
	t.Helper()
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	st, ok := stations.Find(name)
	if !ok {
		t.Fatalf("no station %q", name)
	}
	global, _ := stations.Radiation(st.Normals)
	series := weather.Generate(st.Normals, global, years, 1)
	c := &site.Conditions{Station: st, Normals: st.Normals}
	for _, share := range shares {
		// Loam of Saxton and Rawls 2006, table 3.
		e := weather.Exposure{FieldCapacity: 0.28, WiltingPoint: 0.14, Saturation: 0.46, RootDepthM: 0.25, DrainMMD: 50}
		for m := range e.DLI {
			e.OpenShare[m] = share
			e.DLI[m] = share * global[m] * 2.06
		}
		days := series.Meet(e)
		c.Zones = append(c.Zones, site.Zone{
			Zone: light.Zone{Share: 1 / float64(len(shares))}, Days: days, Years: days.Seasons(),
		})
	}
	return c
}

func grasses(t testing.TB) []*species.Species {
	t.Helper()
	table, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return table.All()
}

func day(month time.Month, d int) time.Time { return time.Date(2027, month, d, 0, 0, 0, 0, time.UTC) }

func survey(t testing.TB, c *site.Conditions, want Want) *Table {
	t.Helper()
	if want.From.IsZero() {
		want.From = day(time.January, 1)
	}
	table, err := Survey(context.Background(), c, grasses(t), want)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

var lawnMix = map[string]float64{"smooth-stalked-meadow-grass": 45, "strong-creeping-red-fescue": 40, "perennial-ryegrass": 15}

func TestPlan(t *testing.T) {
	table := survey(t, open(t, "Minneapolis", 50), Want{Watered: true})
	d := table.For(lawnMix)
	if d.Chosen < 0 || len(d.Windows) == 0 {
		t.Fatalf("no window: %v", d.Notes)
	}
	w := d.Windows[d.Chosen]
	if w.Kind != Autumn || w.Success < 0.8 || w.Best.Before(w.Opens) || w.Best.After(w.Closes) {
		t.Errorf("chosen window %+v", w)
	}
	if !d.SowOn.Equal(w.Best) || !d.FirstMow.After(d.SowOn) || !d.UsableFrom.After(d.FirstMow) {
		t.Errorf("sow %v, mow %v, use %v", d.SowOn, d.FirstMow, d.UsableFrom)
	}
	if len(d.Components) != 3 || len(d.Watering) == 0 {
		t.Errorf("%d components, %d weeks of watering", len(d.Components), len(d.Watering))
	}
}

func BenchmarkSurvey(b *testing.B) {
	for _, c := range []struct {
		name   string
		years  int
		shares []float64
	}{
		{"50 years 1 zone", 50, []float64{1}},
		{"200 years 1 zone", 200, []float64{1}},
		{"200 years 4 zones", 200, []float64{1, 0.7, 0.5, 0.3}},
	} {
		cond := lawn(b, "Minneapolis", c.years, c.shares...)
		table := grasses(b)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Survey(context.Background(), cond, table, Want{From: day(time.January, 1), Watered: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFor(b *testing.B) {
	table := survey(b, lawn(b, "Minneapolis", 200, 1, 0.7, 0.5, 0.3), Want{Watered: true})
	b.ReportAllocs()
	for b.Loop() {
		table.For(lawnMix)
	}
}
