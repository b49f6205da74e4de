package weather

import (
	"math"
	"testing"
)

// Radiation by each way is held against what the normals 1991-2020 measured at
// the stations that have it.
func TestRadiationAgainstMeasured(t *testing.T) {
	s := table(t)
	type way struct {
		name       string
		strip      func(n *Normals)
		meanAbs    float64 // MJ m⁻² d⁻¹
		bias       float64
		off, shift float64
		n          float64
	}
	ways := []*way{
		{name: "sunshine", strip: func(n *Normals) { n.GlobalMJ = nil }, meanAbs: 0.5, bias: 0.3},
		{name: "range of temperature", strip: func(n *Normals) { n.GlobalMJ, n.SunHours = nil, nil }, meanAbs: 1.6, bias: 1.2},
	}
	for _, st := range s.All() {
		if st.GlobalMJ == nil || st.SunHours == nil {
			continue
		}
		for i, w := range ways {
			n := st.Normals
			w.strip(&n)
			from := s
			if i == 1 {
				from = Stations{} // no neighbours
			}
			mj, _ := from.Radiation(n)
			for m := range mj {
				w.off += math.Abs(mj[m] - st.GlobalMJ[m])
				w.shift += mj[m] - st.GlobalMJ[m]
				w.n++
			}
		}
	}
	for _, w := range ways {
		t.Logf("by %s: %.2f MJ a day off on average over %.0f months, bias %+.2f", w.name, w.off/w.n, w.n, w.shift/w.n)
		if w.off/w.n > w.meanAbs || math.Abs(w.shift/w.n) > w.bias {
			t.Errorf("by %s: %.2f off, bias %+.2f", w.name, w.off/w.n, w.shift/w.n)
		}
	}
}

func TestRadiationSaysHow(t *testing.T) {
	s := table(t)
	for name, want := range map[string]string{
		"Valentia Observatory": "site.radiation-measured",
		"Umeå":                 "site.radiation-measured-at",
		"Heathrow":             "site.radiation-from-sunshine",
		"Wroclaw":              "site.radiation-from-station",
		"Minneapolis":          "site.radiation-from-range",
	} {
		mj, how := s.Radiation(station(t, s, name).Normals)
		if how.Name != want {
			t.Errorf("%s: %v, want %s", name, how, want)
		}
		for m, v := range mj {
			if !(v >= 0 && v < 35) {
				t.Errorf("%s, month %d: %g MJ", name, m+1, v)
			}
		}
	}
}

// No daily range of temperature brings more than a clear sky: FAO-56 example 18
// (Rso 30.90 MJ at 100 m under 41.09 above the air).
func TestRadiationOfClearSky(t *testing.T) {
	near(t, "FAO-56, example 18", clearSky(100)*41.09, 30.90, 0.01)
	n := Normals{LatitudeDeg: 30}
	for m := range 12 {
		n.MinC[m], n.MaxC[m] = -5, 40
	}
	mj, _ := Stations{}.Radiation(n)
	ra, _ := monthlySun(30)
	for m := range mj {
		near(t, "a range of 45 K", mj[m], clearSky(0)*ra[m], 1e-9)
	}
}
