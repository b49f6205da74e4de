package sowing

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"swardwright/internal/briefs"
)

// TestTrendOnTenPlaces shows what the warming since the normals changes, and holds it
// to what it must do: no winter of the north colder, no summer cooler, snow and frost
// no longer. With -v it prints both plans' weather and mixtures.
func TestTrendOnTenPlaces(t *testing.T) {
	ctx := context.Background()
	for _, station := range []string{
		"Tromsø", "Umeå", "Reykjavík", "Lerwick", "Heathrow", "Davos", "Minneapolis", "Little Rock", "Sapporo", "Hokitika",
	} {
		plan := func(trend bool) (Plan, string) {
			b, err := ReadBrief("", []byte(fmt.Sprintf("title = \"A lawn\"\n[place]\nlatitude = %g\nstation = %q\n[climate]\ntrend = %v\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n",
				latitudeOf(t, station), station, trend)), noFile)
			if err != nil {
				t.Fatal(err)
			}
			p := Plan{Brief: b}
			if testing.Short() {
				p.Site, err = b.Conditions(ctx, builtIn(t))
			} else {
				p, err = NewPlan(ctx, builtIn(t), b)
			}
			if err != nil {
				t.Fatal(err)
			}
			var sown []string
			if m := p.Choice.Mixture; m != nil {
				for _, c := range m.Components {
					sown = append(sown, fmt.Sprintf("%d %s", c.Percent, c.Species.ID))
				}
			}
			return p, strings.Join(sown, ", ")
		}
		then, sownThen := plan(false)
		now, sownNow := plan(true)
		a, b := then.Site.Weather, now.Site.Weather
		t.Logf("%-11s year %.1f to %.1f °C, growing days %.0f to %.0f, snow days %.0f to %.0f, yearly minimum %.1f to %.1f, last frost day %d to %d; %s | %s",
			station, a.MeanYearC, b.MeanYearC, a.GrowingDays, b.GrowingDays, a.SnowDays, b.SnowDays, a.AirMinC, b.AirMinC, a.LastFrost50, b.LastFrost50, sownThen, sownNow)
		if b.MeanYearC <= a.MeanYearC || b.SnowDays > a.SnowDays || b.GrowingDays < a.GrowingDays || b.AirMinC < a.AirMinC || b.FrostFreeDays < a.FrostFreeDays {
			t.Errorf("%s: %+v with the trend, %+v without", station, b, a)
		}
		// The land has warmed by 0.1 to 0.9 K a decade at these places.
		if rise := (b.MeanYearC - a.MeanYearC) / 2.35; rise < 0.08 || rise > 0.95 {
			t.Errorf("%s: %.2f K a decade", station, rise)
		}
	}
}

func latitudeOf(t *testing.T, station string) float64 {
	t.Helper()
	tables, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	st, ok := tables.Stations.Find(station)
	if !ok {
		t.Fatalf("no station %q", station)
	}
	return st.LatitudeDeg
}

// TestTrendKey: normals are moved unless the brief says no, and a weather file never.
func TestTrendKey(t *testing.T) {
	months := func(v string) string { return "[" + strings.Repeat(v+", ", 11) + v + "]" }
	own := "min_c = " + months("4") + "\nmax_c = " + months("12") + "\nrain_mm = " + months("60") + "\nwet_days = " + months("10") + "\n"
	for _, c := range []struct {
		climate string
		moved   bool
		fault   string
	}{
		{"", true, ""},
		{"trend = true\n", true, ""},
		{"trend = false\n", false, ""},
		{own, true, ""},
		{own + "trend = false\n", false, ""},
		{own + "trend = true\n", true, ""},
		{"trend = 1\n", false, "climate.trend"},
		{"epw = \"cove.epw\"\n", false, ""},
		{"epw = \"cove.epw\"\ntrend = true\n", false, "climate.trend"},
	} {
		text := strings.Replace(smallest, "[lawn]", "[climate]\n"+c.climate+"[lawn]", 1)
		b, err := ReadBrief("", []byte(text), func(string) (io.ReadCloser, error) {
			return io.NopCloser(strings.NewReader(briefs.Year(12, 0))), nil
		})
		if c.fault != "" {
			if err == nil || !strings.Contains(err.Error(), c.fault) {
				t.Errorf("%q: %v", c.climate, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("%q: %v", c.climate, err)
		}
		site, err := b.Conditions(context.Background(), builtIn(t))
		if err != nil {
			t.Fatal(err)
		}
		was := site.Station.Normals.MeanC
		if b.Site.Climate != nil {
			was = b.Site.Climate.MeanC
		} else if b.Site.Place.AltitudeM != nil {
			t.Fatal("the smallest brief has an altitude")
		}
		if moved := math.Abs(site.Normals.MeanC[0]-was[0]) > 0.1; moved != c.moved {
			t.Errorf("%q: moved %v", c.climate, moved)
		}
	}
}
