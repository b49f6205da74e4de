package sowing

import (
	"context"
	"reflect"
	"slices"
	"testing"
)

// wetCourt is a court on wet clay loam between a house and a birch, invented.
const wetCourt = `title = "Test court"
date = 2027-02-01
currency = "SEK"
[place]
latitude = 59.4
longitude = 13.5
altitude_m = 90
[lawn]
outline = [[0,0],[12,0],[12,7],[0,7]]
[[obstacle]]
name = "house"
kind = "solid"
footprint = [[0,-8],[12,-8],[12,-2],[0,-2]]
height_m = 7.5
[[obstacle]]
name = "birch"
kind = "tree"
at = [14, 3]
height_m = 9
clear_stem_m = 2
crown_m = 5
leaf = "deciduous"
[ground]
texture = "clay loam"
drainage = "somewhat poorly"
ph = 5.8
[use]
grade = "utility"
`

const mossy = `title = "Mossy lawn"
[place]
latitude = 52.85
longitude = -8.98
altitude_m = 20
[lawn]
area_m2 = 100
[light]
sun_hours = 4
[ground]
texture = "clay loam"
drainage = "poorly"
[use]
grade = "utility"
traffic = "moderate"
mowing_mm = 30
`

// A lawn against itself gains nothing; a change seen on the same lawns and years has a
// narrower range than the two covers taken apart, which is what common luck is for
// (common random numbers: Law, Simulation Modeling and Analysis, chapter on variance
// reduction; from memory).
func TestGainIsOfTheChangeAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	text := mossy + "[[variant]]\nname = \"the same\"\nset = { \"title\" = \"Mossy lawn\" }\n[[variant]]\nname = \"higher\"\nset = { \"use.mowing_mm\" = 60 }\n"
	p := planned(t, text)
	if len(p.Variants) != 2 {
		t.Fatalf("%d variants", len(p.Variants))
	}
	if g := p.Variants[0].Gain; g.Cover != (Spread{}) || g.Chance != 0 || g.CostMinor != nil && *g.CostMinor != 0 || g.DaysSooner != nil && *g.DaysSooner != 0 || g.CareHours != 0 {
		t.Errorf("a lawn beside itself gains %+v", g)
	}
	higher := p.Variants[1]
	gain := higher.Gain.Cover
	if !(gain.Low <= gain.Middle && gain.Middle <= gain.High) {
		t.Errorf("range of a gain out of order: %+v", gain)
	}
	if p.Choice.Mixture == nil || higher.Plan.Choice.Mixture == nil {
		t.Fatal("nothing is sown")
	}
	spread := func(covers []float64) float64 {
		zero := Plan{Choice: p.Choice}
		flat := *p.Choice.Mixture
		flat.Covers = make([]float64, len(covers))
		zero.Choice.Mixture = &flat
		s := coverGain(&zero, &p)
		return s.High - s.Low
	}
	if apart := spread(p.Choice.Mixture.Covers); gain.High-gain.Low >= apart {
		t.Errorf("the gain spreads over %.3f, the cover itself over %.3f", gain.High-gain.Low, apart)
	}
}

// liftsOf are what would do most for a plan's lawn.
func liftsOf(t *testing.T, p *Plan) []Lift {
	t.Helper()
	k := kitOf(builtIn(t))
	rough, err := roughSite(context.Background(), k, p.Brief, false)
	if err != nil {
		t.Fatal(err)
	}
	list, err := lifts(context.Background(), k, p, rough)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Every change told does something, what costs nothing comes first, and none is told of
// a lawn that has it already.
func TestLifts(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	b, err := ReadBrief("court.toml", []byte(wetCourt), noFile)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan(context.Background(), builtIn(t), b)
	if err != nil {
		t.Fatal(err)
	}
	list := liftsOf(t, &p)
	if len(list) == 0 || len(list) > mostLifts {
		t.Fatalf("%d changes told for a wet, shaded, trodden court", len(list))
	}
	paid := false
	for _, l := range list {
		if l.worth <= 0 {
			t.Errorf("%s does nothing", l.Change.Name)
		}
		if cost := l.Cost != nil || l.AskPrice; cost {
			paid = true
		} else if paid {
			t.Errorf("%s costs nothing and comes after what costs", l.Change.Name)
		}
		if l.Change.Name == "lift.standard" || l.Change.Name == "lift.water" && b.Use.Irrigation {
			t.Errorf("%s: this is an everyday lawn", l.Change.Name)
		}
	}
}

// shadedYard is trodden and lies between three blocks, invented.
const shadedYard = `title = "Yard"
date = 2027-04-01
[place]
latitude = 59.4
longitude = 24.7
[lawn]
outline = [[0, 0], [24, 0], [24, 16], [0, 16]]
[[obstacle]]
name = "south block"
kind = "solid"
footprint = [[0, -12], [24, -12], [24, -2], [0, -2]]
height_m = 15
[[obstacle]]
name = "west block"
kind = "solid"
footprint = [[-12, -12], [-3, -12], [-3, 16], [-12, 16]]
height_m = 15
[[obstacle]]
name = "lime"
kind = "tree"
at = [20, 18]
height_m = 14
clear_stem_m = 2
crown_m = 9
genus = "Tilia"
[use]
grade = "ornamental"
traffic = "heavy"
`

// TestLiftsComeTrue: what is told roughly of a change holds when the change is made and
// the lawn planned whole: it is not the worse for it.
func TestLiftsComeTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	ctx, tables := context.Background(), builtIn(t)
	for _, text := range []string{wetCourt, shadedYard} {
		b, err := ReadBrief("", []byte(text), noFile)
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan(ctx, tables, b)
		if err != nil {
			t.Fatal(err)
		}
		tried := changes(b, p.Found)
		for _, l := range liftsOf(t, &p) {
			i := slices.IndexFunc(tried, func(c change) bool { return reflect.DeepEqual(c.what, l.Change) })
			changed, err := plan(ctx, tables, tried[i].brief)
			if err != nil {
				t.Fatal(err)
			}
			gain := coveredGain(&p, &changed, p.Found.AreaM2).Middle
			if chance := changed.Choice.Chance - p.Choice.Chance; gain < -0.01 && chance < 0.05 || chance < -0.05 {
				t.Errorf("%s: %s is told to gain %.2f of cover, and gains %.2f and %.2f of chance", b.Title, l.Change.Name, l.Gain.Middle, gain, chance)
			}
		}
	}
}

func BenchmarkTwelveVariants(b *testing.B) {
	text := mossy
	for _, mm := range []string{"25", "35", "40", "45", "50", "55", "60", "65", "70", "75", "80", "85"} {
		text += "[[variant]]\nname = \"" + mm + "\"\nset = { \"use.mowing_mm\" = " + mm + " }\n"
	}
	brief, err := ReadBrief("mossy.toml", []byte(text), noFile)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		k := kitOf(builtIn(b))
		p, err := planKnowing(context.Background(), k, brief, nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := variantsOf(context.Background(), k, &p); err != nil {
			b.Fatal(err)
		}
	}
}
