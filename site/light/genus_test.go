package light

import "testing"

// Wilkinson 1992, in Tregenza & Sharples, Daylighting Algorithms, algorithm 1.44: the
// share of the sky seen through single crowns in leaf and bare.
func TestGenera(t *testing.T) {
	for _, r := range []struct {
		name    string
		on, off float64
	}{
		{"Quercus", 0.17, 0.50}, {"Acer", 0.18, 0.54}, {"birch", 0.24, 0.54}, {"Populus", 0.13, 0.50}, {"tilia", 0.11, 0.54},
		{"Fagus", 0.19, 0.47}, {"hawthorn", 0.22, 0.44}, {"Alnus", 0.24, 0.49}, {"Pinus", 0.27, 0.30}, {"Fraxinus", 0.22, 0.53}, {"Aesculus", 0.19, 0.52},
	} {
		g, ok := FindGenus(r.name)
		if !ok || g.On != r.on || g.Off != r.off {
			t.Errorf("%s: %+v", r.name, g)
		}
	}
	for _, g := range Genera() {
		if g.Source == "" || !(g.On > 0 && g.On <= g.Off && g.Off < 1) || g.Leaf == Evergreen != (g.Off-g.On < 0.1) {
			t.Errorf("%+v", g)
		}
	}
}

// TestGenusCounts: a lawn under a lime gets less light than one under a birch, which
// gets what its figures say.
func TestGenusCounts(t *testing.T) {
	sky := Sky{LeafOnDay: 120, LeafOffDay: 300}
	through := func(genus string, day float64) float64 {
		l := layer{Obstacle: Obstacle{Kind: Tree, Genus: genus, Leaf: Deciduous}}
		return l.transmittance(day, sky)
	}
	if lime, birch, any := through("Tilia", 200), through("Betula", 200), through("", 200); !(lime < any && any < birch) || lime != 0.11 {
		t.Errorf("in leaf: lime %v, birch %v, any tree %v", lime, birch, any)
	}
	if bare := through("Betula", 20); bare != 0.54 {
		t.Errorf("a bare birch lets %v through", bare)
	}
}
