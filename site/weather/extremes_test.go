package weather

import (
	"math"
	"testing"
)

// TestYearlyMinimum holds the coldest of the year to the winters of fifteen sown trials
// (lowest air temperature, October to April, of two to four winters between 2002 and
// 2007: Kirwan et al. 2014, Ecology 95:2680, data). The station is tens of
// kilometres off and the winters are few, so that one site tells little and their
// mean much.
func TestYearlyMinimum(t *testing.T) {
	s := table(t)
	var bias, n float64
	for _, o := range []struct {
		name                           string
		latitude, longitude, altitudeM float64
		minimumC                       []float64
	}{
		{"Merelbeke", 50.98, 3.78, 11, []float64{-8.4, -7.0, -9.4}},
		{"Mikkeli", 61.67, 27.22, 99, []float64{-27.1, -27.6}},
		{"Auzeville", 43.53, 1.48, 150, []float64{-5.2, -9.5, -6.4}},
		{"St. Johann", 48.47, 9.3, 700, []float64{-19.0, -20.9}},
		{"Reykjavík", 64.15, -21.75, 30, []float64{-13.9, -16.9, -18.4}},
		{"Johnstown Castle", 52.27, -6.5, 50, []float64{-4.4, -1.4, -2.8}},
		{"Dotnuva", 55.4, 23.87, 80, []float64{-18.2, -25.5, -26.4}},
		{"Wageningen", 51.97, 5.67, 10, []float64{-8.8, -16.3, -7.3}},
		{"Holt", 69.67, 18.9, 20, []float64{-13.0, -11.3, -11.3}},
		{"Løken", 61.12, 9.07, 525, []float64{-22.6, -24.5, -25.2}},
		{"Brody", 52.43, 16.3, 92, []float64{-15.0, -27.2}},
		{"Svalöv", 55.92, 13.1, 55, []float64{-18.8, -15.1, -15.6}},
		{"Piteå", 65.32, 21.5, 6, []float64{-26.5, -26.2, -26.9}},
		{"Aberystwyth", 52.43, -4.0, 30, []float64{-6.5, -9.0, -4.9, -7.7}},
		{"Athenry", 53.28, -8.75, 40, []float64{-7.8, -5.6}},
	} {
		st, km := s.Nearest(o.latitude, o.longitude, o.altitudeM)
		normals := st.AtAltitude(o.altitudeM)
		mj, _ := s.Radiation(normals)
		got := Generate(normals, mj, 100, 1).Summary().AirMinC
		want, _ := meanSD(o.minimumC)
		t.Logf("%-16s %5.1f °C, found %5.1f; %s, %.0f km", o.name, got, want, st.Name, km)
		if math.Abs(got-want) > 6.5 {
			t.Errorf("%s: yearly minimum %.1f °C, found %.1f", o.name, got, want)
		}
		bias += got - want
		n++
	}
	if bias /= n; math.Abs(bias) > 1.2 {
		t.Errorf("yearly minima %+.1f °C off on the mean of the sites", bias)
	}
}

// meanMinimumC is the mean yearly minimum of stations, °C, from memory of maps of
// hardiness zones (1991-2020 in the United States), good to 1.5 °C; the skew of winter days
// was fitted to it.
var meanMinimumC = map[string]float64{
	"Minneapolis": -26.7, "Chicago": -22, "Boston": -16.5, "Albany, New York": -22.5, "Little Rock": -10.8, "Fairbanks": -41,
	"Burlington": -25.5, "Bismarck": -31, "Denver": -23, "Portland, Oregon": -6.5, "Seattle": -6.5, "Baltimore": -14.5,
	"St Louis": -18.5, "Kansas City": -20.5, "Salt Lake City": -15, "Spokane": -19, "Duluth": -31, "Caribou": -31,
	"Philadelphia": -13.5, "Boise": -17, "Indianapolis": -21, "Columbus": -20, "Detroit": -20.5, "Des Moines": -25.5,
	"Omaha": -25, "Anchorage": -25, "Juneau": -17, "Eugene": -9, "Tulsa": -14.5, "Pittsburgh": -19.5, "Madison": -26.5,
	"Sioux Falls": -28.5, "Cheyenne": -26,
	"Heathrow": -6.5, "Lerwick": -5.5, "Eskdalemuir": -12, "Hamburg": -12.5, "Potsdam": -14.5, "München": -17.5, "Davos": -20,
	"Oslo, Gardermoen": -23, "Umeå": -27, "Kiruna": -32, "Sodankylä": -36, "Reykjavík": -13, "Suwalki": -22.5,
	"Jyväskylä": -29, "Tromsø": -14, "Bordeaux": -6, "Uccle": -8.5, "De Bilt": -10.5, "Warszawa": -18, "Riga": -19.5,
	"Helsinki": -23, "Göteborg": -13, "Innsbruck": -14, "Zürich": -11.5, "Praha": -16, "Poznan": -16.5,
}

func TestHardinessZones(t *testing.T) {
	s := table(t)
	var off, bias float64
	for name, want := range meanMinimumC {
		st := station(t, s, name)
		mj, _ := s.Radiation(st.Normals)
		d := Generate(st.Normals, mj, 60, 1).Summary().AirMinC - want
		off += math.Abs(d) / float64(len(meanMinimumC))
		bias += d / float64(len(meanMinimumC))
	}
	t.Logf("%d stations: yearly minimum %.2f °C off on average, bias %+.2f", len(meanMinimumC), off, bias)
	if off > 1.3 || math.Abs(bias) > 0.4 {
		t.Errorf("yearly minima %.2f °C off, bias %+.2f", off, bias)
	}
}

// The skewed variate is standard, and its distribution is that of its values.
func TestSkewed(t *testing.T) {
	for _, k := range []float64{0, 1e-17, 0.03, skewWinter, 0.15} {
		const n = 200001
		var mean, square float64
		below := map[float64]float64{-2.5: 0, -1: 0, 0: 0, 1: 0, 2: 0}
		for i := range n {
			z := -6 + 12*float64(i)/(n-1)
			w := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * 12 / (n - 1)
			x := skewed(z, k)
			mean += w * x
			square += w * x * x
			for at := range below {
				if x < at {
					below[at] += w
				}
			}
		}
		near(t, "mean", mean, 0, 1e-3)
		near(t, "variance", square, 1, 1e-3)
		for at, share := range below {
			near(t, "distribution", skewedCDF(at, k), share, 1e-3)
		}
	}
}
