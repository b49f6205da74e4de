package light

import (
	"math"
	"testing"
)

// TestSunByHour adds up the hours of fine steps and compares them with the closed form.
func TestSunByHour(t *testing.T) {
	s := Scene{
		LatitudeDeg: 57, PlanNorthDeg: 20, SlopeDeg: 3, AspectDeg: 200,
		Lawn:    [][]Point{{{0, 0}, {8, 0}, {8, 6}, {0, 6}}},
		Horizon: []HorizonPoint{{0, 2}, {120, 9}, {240, 3}},
		Obstacles: []Obstacle{
			{Kind: Solid, Footprint: []Point{{-2, -3}, {10, -3}, {10, -2}, {-2, -2}}, HeightM: 4},
			{Kind: Gable, Footprint: []Point{{9, 0}, {12, 0}, {12, 6}, {9, 6}}, HeightM: 5, EavesM: 3},
			{Kind: Screen, Footprint: []Point{{-1, 0}, {-0.9, 0}, {-0.9, 6}, {-1, 6}}, HeightM: 2, Transmittance: 0.4},
			{Kind: Tree, At: Point{4, 8}, HeightM: 7, ClearStemM: 2, CrownM: 4, Leaf: Deciduous},
		},
	}
	sky := averageSky(57)
	const step = 0.02
	var hours []float64
	for h := step / 2; h < 24; h += step {
		hours = append(hours, h)
	}
	for _, day := range []int{80, 172, 300} {
		got, err := SunByHour(t.Context(), s, sky, day, hours, 40)
		if err != nil {
			t.Fatal(err)
		}
		s.Probes = nil
		for _, c := range got.Cells {
			s.Probes = append(s.Probes, Probe{At: c.At})
		}
		want, err := SunHoursOn(t.Context(), s, sky, []int{day})
		if err != nil {
			t.Fatal(err)
		}
		lit := 0.0
		for i := range got.Cells {
			sum := 0.0
			for _, a := range got.At {
				sum += a.Share[i] * step
			}
			lit += sum
			// Each time the light changes up to a step may be counted wrong.
			if w := want[i].Days[0].SunHours; math.Abs(sum-w) > 6*step {
				t.Errorf("day %d at %v: %.2f h in steps, %.2f h by the crossings", day, got.Cells[i].At, sum, w)
			}
		}
		if lit == 0 {
			t.Errorf("day %d: no sun at all", day)
		}
		if len(got.Cells) > 48 || got.CellM != 2 {
			t.Errorf("%d cells of %g m", len(got.Cells), got.CellM)
		}
	}
	// Sun over the mathematical horizon at the solstice, 57° N: the noon elevation is
	// 90° - 57° + 23.44° (any spherical astronomy).
	noon, err := SunByHour(t.Context(), s, sky, 172, []float64{0, 12}, 4)
	if err != nil || len(noon.At) != 1 {
		t.Fatalf("%v, %d hours with sun", err, len(noon.At))
	}
	if a := noon.At[0]; math.Abs(a.ElevationDeg-56.44) > 0.02 || math.Abs(a.BearingDeg-180) > 0.01 {
		t.Errorf("true noon at midsummer: bearing %.2f, elevation %.2f", a.BearingDeg, a.ElevationDeg)
	}
}

func TestSunByHourRefuses(t *testing.T) {
	if _, err := SunByHour(t.Context(), Scene{}, Sky{}, 172, nil, 400); err == nil {
		t.Error("a scene without a lawn is taken")
	}
	s := Scene{Lawn: [][]Point{{{0, 0}, {8, 0}, {8, 6}}}}
	if _, err := SunByHour(t.Context(), s, Sky{}, 0, nil, 400); err == nil {
		t.Error("day 0 is taken")
	}
}
