package sowing

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"swardwright/internal/calendar"
	"swardwright/internal/told"
	"swardwright/sowing/bed"
)

// Common practice, no published source: clay and clay loam are not worked in the winter half
// but before their frosts, sand whenever it is thawed; and on none is every day open.
func TestClayIsNotWorkedWet(t *testing.T) {
	open := func(texture, drainage string) [calendar.Year]bool {
		b, err := ReadBrief("", []byte(fmt.Sprintf("title = \"A lawn\"\n[place]\nlatitude = 53.8\nlongitude = -1.55\naltitude_m = 90\n[lawn]\narea_m2 = 84\n[ground]\ntexture = %q\ndrainage = %q\n[use]\ngrade = \"utility\"\n", texture, drainage)), nil)
		if err != nil {
			t.Fatal(err)
		}
		c, err := b.Conditions(context.Background(), builtIn(t))
		if err != nil {
			t.Fatal(err)
		}
		return openDays(c)
	}
	days := func(open [calendar.Year]bool, from, to int) (n int) {
		for d := from; d < to; d++ {
			if open[d] {
				n++
			}
		}
		return n
	}
	const february, march, june, september = 31, 59, 151, 243
	clay, sand := open("clay", "moderately well"), open("sandy loam", "well")
	if n := days(clay, 0, march); n > 0 {
		t.Errorf("clay is worked on %d days of January and February in Leeds", n)
	}
	if n := days(clay, june, september); n < 80 {
		t.Errorf("clay is worked on %d of 92 days of summer", n)
	}
	if n := days(sand, february, march); n < 20 {
		t.Errorf("sandy loam is worked on %d days of February", n)
	}
}

// Over half of a sward weeds: it is started again (Virginia Cooperative Extension, Master
// Gardeners of Prince William). The last count decides, all of its places together.
func TestTooManyWeeds(t *testing.T) {
	const head = "title = \"A lawn\"\ndate = 2027-02-01\n[place]\nlatitude = 53.8\nlongitude = -1.55\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n"
	count := func(date string, grass, weeds int) string {
		return fmt.Sprintf("[[seen]]\ndate = %s\npoints = 100\ngrass = %d\nmoss = 0\nweeds = %d\nbare = %d\n", date, grass, weeds, 100-grass-weeds)
	}
	for _, c := range []struct {
		seen string
		want float64
	}{
		{"", 0},
		{count("2026-06-01", 30, 60), 0.6},
		{count("2026-06-01", 30, 60) + count("2026-08-01", 70, 20), 0.2},
		{count("2026-08-01", 30, 60) + count("2026-08-01", 70, 20), 0.4},
		{"[[seen]]\ndate = 2026-08-01\npoints = 50\ngrass = 20\n", 0},
	} {
		b, err := ReadBrief("", []byte(head+c.seen), nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.weeds(); got != c.want {
			t.Errorf("%q: %g weeds, want %g", c.seen, got, c.want)
		}
	}
}

// Nobody lays turf where animals graze: what its growers sowed, and whether it carries an
// endophyte, is not known. Common practice, no published source.
func TestNoTurfUnderGrazing(t *testing.T) {
	for livestock, want := range map[bool]bool{false: true, true: false} {
		b, err := ReadBrief("", []byte(fmt.Sprintf("title = \"A lawn\"\n[place]\nlatitude = 57.3\nlongitude = -2.4\n[lawn]\narea_m2 = 120\n[use]\ngrade = \"utility\"\nlivestock = %v\n", livestock)), nil)
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan(context.Background(), builtIn(t), b)
		if err != nil {
			t.Fatal(err)
		}
		if got := slices.ContainsFunc(p.Ways, func(w Way) bool { return len(w.Laid) > 0 }); got != want {
			t.Errorf("livestock %v: turf laid %v", livestock, got)
		}
	}
}

// What a check's advice would take in materials is priced by the list: 3 m³ of sand at 25.
func TestAdviceIsPriced(t *testing.T) {
	b, err := ReadBrief("", []byte("title = \"A lawn\"\ncurrency = \"GBP\"\n[place]\nlatitude = 53.8\nlongitude = -1.55\n[lawn]\narea_m2 = 84\n[use]\ngrade = \"utility\"\n[prices]\nsand_per_m3 = 25\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	prices, err := pricesOf(builtIn(t), b)
	if err != nil {
		t.Fatal(err)
	}
	sand := &bed.Material{PriceKey: "sand_per_m3", Quantity: 3}
	advice := told.Say("bed.lighter-topsoil")
	got, err := priced(prices, []bed.Check{{Takes: sand, Advice: advice}, {Takes: sand, OK: true}, {Advice: advice}})
	if err != nil {
		t.Fatal(err)
	}
	if sum, ok := got[0].Advice.Figures[1].(told.MoneyRound); !ok || sum.Minor != 7500 {
		t.Errorf("%+v", got[0].Advice)
	}
	if !got[1].Advice.Silent() || got[2].Advice.Name != advice.Name {
		t.Errorf("what is passed or takes nothing is priced: %+v", got[1:])
	}
}

// 5.25 hours are got out of a day (BS 7370 part 1, as quoted by the Grounds Management Association).
func TestCrewDays(t *testing.T) {
	for _, c := range []struct {
		hours  float64
		people int
		want   int
	}{{0.5, 2, 1}, {10.5, 1, 2}, {10.6, 1, 3}, {21, 2, 2}, {57, 2, 6}} {
		if got := CrewDays(c.hours, c.people); got != c.want {
			t.Errorf("%g hours of %d: %d days, want %d", c.hours, c.people, got, c.want)
		}
	}
}
