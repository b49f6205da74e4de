package bed

import (
	"math"
	"slices"
	"testing"

	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/sowing/job"
	"swardwright/species"
)

// BS 5837:2012: a circle of 12 times the stem's diameter, of 707 m² at most.
func TestRootZone(t *testing.T) {
	for _, r := range []struct {
		o    light.Obstacle
		want float64
	}{
		{light.Obstacle{Kind: light.Tree, StemCM: 30, CrownM: 9}, 3.6},
		{light.Obstacle{Kind: light.Tree, StemCM: 200}, math.Sqrt(707 / math.Pi)},
		{light.Obstacle{Kind: light.Tree, CrownM: 9}, 4.5},
		{light.Obstacle{Kind: light.Solid, CrownM: 9}, 0},
	} {
		near(t, "root zone, m", rootM(r.o), r.want, 0.01)
	}
}

// rootedPlace is a lawn of 10 by 8 m in cells of 1 m with a tree at a corner.
func rootedPlace(t *testing.T, stemCM float64) Input {
	c := place(t, ground.Survey{DepthCM: ptr(8.0), PH: ptr(6.2), Drainage: "poorly drained", Texture: "sandy loam"})
	c.AreaM2, c.Field.CellM = 80, 1
	for x := range 10 {
		for y := range 8 {
			c.Field.Cells = append(c.Field.Cells, light.Cell{At: light.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}, AreaM2: 1})
		}
	}
	c.Survey.Obstacles = []light.Obstacle{{Name: "lime", Kind: light.Tree, StemCM: stemCM, CrownM: 8}}
	return Input{Site: c, Use: species.Use{Grade: species.Utility}, Kind: job.New, Parts: mixture(), Sown: []job.Zone{{Letter: "A", AreaM2: 80}}, SeedGM2: 20, SeedsM2: 20000}
}

// Nothing is dug, loosened, drained, spiked or built up over roots (BS 5837:2012), in
// quantity or in words, and that ground is worked by hand.
func TestRootsAreLetBe(t *testing.T) {
	whole := func(x job.Task) bool {
		return slices.Contains([]string{"loosen", "topsoil", "drains", "dig-out", "gravel", "rootzone", "spike"}, x.ID)
	}
	for _, kind := range []job.Kind{job.New, job.Renovate, job.Overseed} {
		free := rootedPlace(t, 0.5)
		free.Kind = kind
		for _, stem := range []float64{40, 300} {
			w := rootedPlace(t, stem)
			w.Kind = kind
			b, all := Plan(w), Plan(free)
			if all.RootsM2 != 0 || b.RootsM2 < 10 || stem == 300 && b.RootsM2 != 80 {
				t.Errorf("%s, a stem of %g cm: %g m² over roots, with none %g", kind, stem, b.RootsM2, all.RootsM2)
			}
			share := 1 - b.RootsM2/80
			for _, x := range all.Tasks {
				if !whole(x) {
					continue
				}
				at := slices.IndexFunc(b.Tasks, func(y job.Task) bool { return y.ID == x.ID })
				switch {
				case share == 0 && at >= 0:
					t.Errorf("%s: %s over roots alone", kind, x.ID)
				case share > 0 && (at < 0 || math.Abs(b.Tasks[at].Quantity-share*x.Quantity) > 1):
					t.Errorf("%s: %s of %g with roots under %.0f %%, else %g", kind, x.ID, b.Tasks[max(at, 0)].Quantity, 100-100*share, x.Quantity)
				}
			}
			hand := slices.IndexFunc(b.Tasks, func(y job.Task) bool { return y.ID == "over-roots" })
			if hand < 0 || b.Tasks[hand].Quantity != b.RootsM2 {
				t.Errorf("%s: no work by hand over %g m² of roots", kind, b.RootsM2)
			}
		}
	}
}
