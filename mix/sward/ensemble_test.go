package sward

import (
	"math"
	"reflect"
	"testing"

	"swardwright/data"
	spots "swardwright/mix/internal/place"
	"swardwright/site"
	"swardwright/species"
)

func tableOf(t testing.TB) *species.Table {
	t.Helper()
	table, err := species.Load(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func conditions(t testing.TB, spot spots.Spot) *site.Conditions {
	t.Helper()
	c, err := spot.Conditions()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// sowing of equal plants of some grasses, which must be in the order of the pool.
func sowing(t testing.TB, pool []*species.Species, ids ...string) *Sowing {
	t.Helper()
	s := &Sowing{Season: 0.75}
	for g, sp := range pool {
		for _, id := range ids {
			if sp.ID == id {
				s.Grass, s.Plants = append(s.Grass, g), append(s.Plants, 4000)
			}
		}
	}
	if len(s.Grass) != len(ids) {
		t.Fatalf("of %v only %d are in the pool", ids, len(s.Grass))
	}
	return s
}

// TestEnsembleWithoutDeviations: where nothing is uncertain, the lawns of an ensemble are
// the histories of a follower, one lawn a history.
func TestEnsembleWithoutDeviations(t *testing.T) {
	const years = 12
	c := conditions(t, spots.Spot{Station: "Heathrow", SunHours: 5, Years: years})
	var pool []*species.Species
	for _, sp := range tableOf(t).All() {
		sure := *sp
		for i, v := range sure.Values {
			sure.Values[i].Low, sure.Values[i].High = v.Best, v.Best
		}
		pool = append(pool, &sure)
	}
	use := species.Use{Grade: species.Utility}
	for _, winter := range []bool{false, true} {
		s := sowing(t, pool, "chewings-fescue", "perennial-ryegrass", "smooth-stalked-meadow-grass")
		s.Winter = winter
		follower := Follower{Field: NewField(c, pool, use), Starts: Starts(years, years), Detail: true}
		want := follower.Follow(s)

		e := NewEnsemble(c, pool, use, years, 1)
		e.Weeded = true
		for i := range e.Lawns {
			l := &e.Lawns[i]
			l.Place = [placeDraws]float64{}
			for k := range tails {
				l.Place[drawTails+k] = 1
			}
			for g := range l.Grass {
				l.Grass[g] = new(Draws)
			}
			e.places[i] = e.place(l, 0)
		}
		f := e.Follow(s)
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-5 {
				t.Errorf("winter first %v: %s %.6f, followed %.6f", winter, what, got, want)
			}
		}
		near("cover", mean(f.Cover), want.Expected)
		near("early", mean(f.Early), want.Early)
		near("the worst in ten of all seasons that last", follower.percentile(f.Season, 0.1), want.BadYear)
		seasons := f.Seasons(follower.Field.IDs)
		for i, season := range want.Seasons {
			for id, share := range season.Shares {
				near("share of "+id, seasons[i].Shares[id], share)
			}
		}
	}
}

// TestSameLawns: lawns are the same whatever else the pool holds, and again the same when
// drawn again.
func TestSameLawns(t *testing.T) {
	c := conditions(t, spots.Spot{Station: "Takle", SunHours: 4, Years: 20})
	all := tableOf(t).All()
	var few []*species.Species
	for _, sp := range all {
		if sp.Values[species.Volunteer].High > 0 || sp.ID == "chewings-fescue" || sp.ID == "perennial-ryegrass" {
			few = append(few, sp)
		}
	}
	use := species.Use{Grade: species.Utility}
	cover := func(pool []*species.Species, first string) []float64 {
		e := NewEnsemble(c, pool, use, 30, 1)
		if first != "" { // another sowing before it
			e.Follow(sowing(t, pool, first))
		}
		return e.Follow(sowing(t, pool, "chewings-fescue", "perennial-ryegrass")).Cover
	}
	want := cover(all, "")
	if got := cover(few, ""); !reflect.DeepEqual(got, want) {
		t.Error("the lawns differ with the grasses of the pool")
	}
	if got := cover(all, "hard-fescue"); !reflect.DeepEqual(got, want) {
		t.Error("the lawns differ with what was followed on them before")
	}
}

// TestEnsembleBounds: covers and shares stay within theirs, over light from dark to open
// and lawns of one zone or more.
func TestEnsembleBounds(t *testing.T) {
	pool := tableOf(t).All()
	last := -1.0
	for _, hours := range []float64{0.2, 2, 4, 8} {
		c := conditions(t, spots.Spot{Station: "Churanov", SunHours: hours, Years: 20})
		z := c.Zones[0]
		z.Share = 0.2
		c.Zones = []site.Zone{z, z, z, z, z}
		e := NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 60, 1)
		f := e.Follow(sowing(t, pool, "chewings-fescue", "smooth-stalked-meadow-grass"))
		for i, x := range f.Cover {
			if !(x >= 0 && x <= 1) || !(f.Early[i] >= 0 && f.Early[i] <= 1) {
				t.Fatalf("%g h: cover %v, early %v", hours, x, f.Early[i])
			}
			sum := 0.0
			for _, share := range f.Life(i) {
				sum += share
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Fatalf("%g h: shares add to %v", hours, sum)
			}
		}
		if m := mean(f.Cover); m <= last {
			t.Errorf("%g h of sun: mean cover %.3f, %.3f with fewer", hours, m, last)
		} else {
			last = m
		}
		e.Sow([]int{1})
		one := e.Follow(sowing(t, pool, "chewings-fescue", "smooth-stalked-meadow-grass"))
		if !reflect.DeepEqual(one.Cover, one.Zone[1]) || mean(one.Zone[0]) != 0 {
			t.Error("an ensemble confined to a zone isn't of it alone")
		}
	}
}

func BenchmarkEnsemble(b *testing.B) {
	c := conditions(b, spots.Spot{Station: "Heathrow", SunHours: 5, Years: 200})
	pool := tableOf(b).All()
	s := sowing(b, pool, "chewings-fescue", "perennial-ryegrass", "smooth-stalked-meadow-grass")
	b.ReportAllocs()
	for b.Loop() {
		NewEnsemble(c, pool, species.Use{Grade: species.Utility}, 400, 1).Follow(s)
	}
}
