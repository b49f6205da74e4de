package weather

import (
	"math"
	"slices"
	"testing"

	"swardwright/internal/calendar"
)

// unlike are thirty stations of the table that differ as much as may be: wet
// and dry, sea and inland, polar and warm, north and south.
var unlike = []string{
	"Lerwick", "Eskdalemuir", "Heathrow", "Valentia Observatory", "Tromsø", "Takle", "Drevsjø", "Umeå",
	"Kiruna", "Sodankylä", "Reykjavík", "Hamburg", "Davos", "Lugano", "Suwalki", "Bordeaux",
	"Goose Bay", "Edmonton", "Estevan", "Boston", "Minneapolis", "Little Rock", "Winslow", "Fairbanks",
	"Portland, Oregon", "Hokitika", "Canberra", "Sapporo", "Rio Grande", "Punta Arenas",
}

// TestNormalsReturn asks that the months of the synthetic years have the means
// of the normals they came from (WMO normals 1991-2020), within what chance
// allows: four standard errors of each month's mean over the years, and a tenth
// of a degree or a fiftieth for what holding the values in bounds shifts.
func TestNormalsReturn(t *testing.T) {
	const years = 200
	s := table(t)
	for _, name := range unlike {
		st := station(t, s, name)
		mj, _ := s.Radiation(st.Normals)
		series := Generate(st.Normals, mj, years, 7)
		type element struct {
			name  string
			want  *[12]float64
			value func(i int) float64
			mean  bool // over days, not summed
			slack func(want float64) float64
		}
		tenth := func(float64) float64 { return 0.1 }
		elements := []element{
			{"mean °C", &st.MeanC, func(i int) float64 { return float64(series.MeanC[i]) }, true, tenth},
			{"minimum °C", &st.MinC, func(i int) float64 { return float64(series.MinC[i]) }, true, tenth},
			{"maximum °C", &st.MaxC, func(i int) float64 { return float64(series.MaxC[i]) }, true, tenth},
			{"rain mm", &st.RainMM, func(i int) float64 { return float64(series.RainMM[i]) }, false, func(w float64) float64 { return 0.02 * w }},
			{"radiation MJ", &mj, func(i int) float64 { return float64(series.GlobalMJ[i]) }, true, func(w float64) float64 { return 0.1 + 0.02*w }},
			{"wet days", &st.WetDays, func(i int) float64 { return one(series.RainMM[i] >= wetDayMM) }, false, func(w float64) float64 { return 0.1 + 0.02*w }},
		}
		if st.FrostDays != nil {
			elements = append(elements, element{"frost days", st.FrostDays, func(i int) float64 { return one(series.MinC[i] < 0) }, false, func(float64) float64 { return 1.5 }})
		}
		for _, e := range elements {
			var months [12][]float64
			for y := range years {
				var sum [12]float64
				for d := range 365 {
					sum[calendar.MonthOf(d)] += e.value(y*365 + d)
				}
				for m := range sum {
					if e.mean {
						sum[m] /= float64(calendar.MonthDays[m])
					}
					months[m] = append(months[m], sum[m])
				}
			}
			for m, v := range months {
				got, sd := meanSD(v)
				if tol := e.slack(e.want[m]) + 4*sd/math.Sqrt(years); math.Abs(got-e.want[m]) > tol {
					t.Errorf("%s, %s, month %d: %.2f, normal %.2f, tolerance %.2f", name, e.name, m+1, got, e.want[m], tol)
				}
			}
		}
		for i := range series.MeanC {
			if series.MinC[i] > series.MeanC[i] || series.MeanC[i] > series.MaxC[i] || series.RainMM[i] < 0 || series.GlobalMJ[i] < 0 || series.SnowMM[i] < 0 {
				t.Fatalf("%s, day %d: impossible weather", name, i)
			}
		}
	}
}

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func meanSD(v []float64) (mean, sd float64) {
	for _, x := range v {
		mean += x / float64(len(v))
	}
	for _, x := range v {
		sd += (x - mean) * (x - mean) / float64(len(v))
	}
	return mean, math.Sqrt(sd)
}

func TestGenerateIsRepeatable(t *testing.T) {
	s := table(t)
	n := station(t, s, "Lerwick").Normals
	mj, _ := s.Radiation(n)
	a, b, c := Generate(n, mj, 5, 1), Generate(n, mj, 5, 1), Generate(n, mj, 5, 2)
	if !slices.Equal(a.MinC, b.MinC) || !slices.Equal(a.RainMM, b.RainMM) {
		t.Error("one seed, two series")
	}
	if slices.Equal(a.MinC, c.MinC) {
		t.Error("two seeds, one series")
	}
}

// TestOneLuck: a seed is one run of luck at every place. A place a hair warmer and
// wetter has the same years to a hair, and places of unlike climate have their mild
// and their hard winters together.
func TestOneLuck(t *testing.T) {
	const years = 50
	s := table(t)
	made := func(n Normals) *Series {
		mj, _ := s.Radiation(n)
		return Generate(n, mj, years, 7)
	}
	winters := func(s *Series) (mean []float64) {
		for y := range years {
			v, _ := meanSD(floats(s.MinC[y*365 : y*365+59]))
			mean = append(mean, v)
		}
		return mean
	}
	base := station(t, s, "Hamburg").Normals
	near := base
	near.LatitudeDeg += 0.001
	for m := range 12 {
		near.MinC[m] += 0.001
		near.RainMM[m] *= 1.0001
	}
	a, b := made(base), made(near)
	unlike := 0
	for i := range a.RainMM {
		if math.Abs(float64(a.RainMM[i]-b.RainMM[i])) > 0.01 || math.Abs(float64(a.MinC[i]-b.MinC[i])) > 0.01 {
			unlike++
		}
	}
	if unlike > len(a.RainMM)/1000 {
		t.Errorf("%d of %d days of two places alike differ", unlike, len(a.RainMM))
	}
	for _, other := range []string{"Minneapolis", "Umeå", "Sapporo"} {
		if r := correlation(winters(a), winters(made(station(t, s, other).Normals))); r < 0.8 {
			t.Errorf("winters of Hamburg and %s correlate by %.2f", other, r)
		}
	}
}

func floats(v []float32) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = float64(x)
	}
	return out
}

func correlation(x, y []float64) (r float64) {
	mx, sx := meanSD(x)
	my, sy := meanSD(y)
	for i := range x {
		r += (x[i] - mx) * (y[i] - my) / (sx * sy) / float64(len(x))
	}
	return r
}

// The published matrices must leave the residuals of unit variance, with the
// correlations that Richardson and Wright 1984 took them from (0.633 between
// maximum and minimum, 0.186 and -0.193 with radiation).
func TestResidualsAreStandard(t *testing.T) {
	var s [3][3]float64
	for range 300 {
		var next [3][3]float64
		for i := range 3 {
			for j := range 3 {
				for k := range 3 {
					next[i][j] += residualB[i][k] * residualB[j][k]
					for l := range 3 {
						next[i][j] += residualA[i][k] * s[k][l] * residualA[j][l]
					}
				}
			}
		}
		s = next
	}
	for i := range 3 {
		near(t, "variance", s[i][i], 1, 0.001)
	}
	near(t, "maximum with minimum", s[0][1], residualR, 0.001)
	near(t, "maximum with radiation", s[0][2], 0.186, 0.001)
	near(t, "minimum with radiation", s[1][2], -0.193, 0.001)
}

func BenchmarkGenerate200Years(b *testing.B) {
	s := table(b)
	n := station(b, s, "Lerwick").Normals
	mj, _ := s.Radiation(n)
	b.ReportAllocs()
	for b.Loop() {
		Generate(n, mj, 200, 1)
	}
}
