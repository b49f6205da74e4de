package weather

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"swardwright/data"
	"swardwright/internal/calendar"
)

func table(t testing.TB) Stations {
	t.Helper()
	s, err := LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func station(t testing.TB, s Stations, name string) Station {
	t.Helper()
	st, ok := s.Find(name)
	if !ok {
		t.Fatalf("no station %q", name)
	}
	return st
}

func TestStationTable(t *testing.T) {
	s := table(t)
	if n := len(s.All()); n != 284 {
		t.Errorf("%d stations, want 284", n)
	}
	// Yearly figures of the same normals as the UK Met Office and NOAA print
	// them for 1991-2020 (from memory, to the last digit but one).
	for _, c := range []struct {
		name         string
		meanC, rain  float64
		tolC, tolPct float64
	}{
		{"Heathrow", 11.9, 615, 0.2, 2},
		{"Reykjavík", 5.1, 876, 0.3, 3},
	} {
		st := station(t, s, c.name)
		var mean, rain float64
		for m := range 12 {
			mean += st.MeanC[m] * float64(calendar.MonthDays[m]) / 365
			rain += st.RainMM[m]
		}
		if math.Abs(mean-c.meanC) > c.tolC || math.Abs(rain-c.rain) > c.tolPct*c.rain/100 {
			t.Errorf("%s: %.1f °C and %.0f mm, want %.1f and %.0f", c.name, mean, rain, c.meanC, c.rain)
		}
	}
}

func TestFind(t *testing.T) {
	s := table(t)
	for _, c := range []struct{ ask, want string }{
		{"lerwick", "Lerwick"},
		{"03005", "Lerwick"},
		{"umea", "Umeå Airport"},
		{"Tromsø", "Tromsø"},
		{"tromso", "Tromsø"},
		{"PRAHA", "Praha, Ruzyně"},
		{"Düsseldorf", "Düsseldorf"},
		{"new york", "New York (Central Park), New York"},
		{"Oslo", ""}, // two of them
		{"", ""},
		{"Atlantis", ""},
	} {
		st, ok := s.Find(c.ask)
		if st.Name != c.want || ok != (c.want != "") {
			t.Errorf("Find(%q) = %q, %v", c.ask, st.Name, ok)
		}
	}
	if got := strings.Join(s.Suggest("Oslo"), "; "); !strings.Contains(got, "Oslo, Blindern") || !strings.Contains(got, "Oslo, Gardermoen") {
		t.Errorf("Suggest(Oslo) = %s", got)
	}
	if got := s.Suggest("Lerwik"); len(got) == 0 || got[0] != "Lerwick" {
		t.Errorf("Suggest(Lerwik) = %q", got)
	}
	if got := s.Suggest("xqzv"); len(got) != 0 {
		t.Errorf("Suggest(xqzv) = %q", got)
	}
}

func TestNearest(t *testing.T) {
	s := table(t)
	for _, c := range []struct {
		lat, lon, altM float64
		want           string
	}{
		{57.2, -3.8, 240, "Aviemore"},
		{57.2, -3.8, math.NaN(), "Aviemore"},
		{46.8, 9.8, 1600, "Davos"},
		{-41.3, 174.8, 10, "Wellington"},
		{44.95, -93.1, 250, "Minneapolis/St Paul, Minnesota"},
	} {
		st, km := s.Nearest(c.lat, c.lon, c.altM)
		if st.Name != c.want || km > 40 {
			t.Errorf("Nearest(%g, %g, %g) = %s at %.0f km, want %s", c.lat, c.lon, c.altM, st.Name, km, c.want)
		}
	}
	// The next station is another one, and none is nearer.
	for _, st := range s.All() {
		next, km := s.Next(st)
		if next.WMO == st.WMO {
			t.Fatalf("%s is next to itself", st.Name)
		}
		for _, o := range s.All() {
			if d := DistanceKM(st.LatitudeDeg, st.LongitudeDeg, o.LatitudeDeg, o.LongitudeDeg); o.WMO != st.WMO && d < km {
				t.Errorf("next to %s is %s, %.0f km off; %s is %.0f", st.Name, next.Name, km, o.Name, d)
			}
		}
	}
	// London to Paris, 344 km (between the city centres, common knowledge).
	if km := DistanceKM(51.5074, -0.1278, 48.8566, 2.3522); math.Abs(km-344) > 1 {
		t.Errorf("London to Paris: %.0f km", km)
	}
}

func TestLoadStationsFaults(t *testing.T) {
	good := `[[station]]
wmo = "1"
place = "A"
country = "B"
lat = 50
lon = 0
altitude_m = 0
mean_c = [1,1,1,1,1,1,1,1,1,1,1,1]
min_c = [0,0,0,0,0,0,0,0,0,0,0,0]
max_c = [2,2,2,2,2,2,2,2,2,2,2,2]
rain_mm = [9,9,9,9,9,9,9,9,9,9,9,9]
wet_days = [3,3,3,3,3,3,3,3,3,3,3,3]
`
	for _, c := range []struct{ name, text, want string }{
		{"sound", good, ""},
		{"eleven months", strings.Replace(good, "mean_c = [1,", "mean_c = [", 1), "mean_c: needs 12 values, has 11"},
		{"minimum above mean", strings.Replace(good, "min_c = [0,", "min_c = [1.5,", 1), "min_c, month 1"},
		{"unknown key", good + "sunn_h = [1]\n", "unknown key"},
		{"twice", good + good, "stands twice"},
		{"not TOML", "[[station", "stations.toml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := LoadStations(fstest.MapFS{"stations.toml": {Data: []byte(c.text)}})
			switch {
			case c.want == "" && err != nil:
				t.Error(err)
			case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
	if _, err := LoadStations(fstest.MapFS{}); err == nil {
		t.Error("no table and no error")
	}
}

func BenchmarkLoadStations(b *testing.B) {
	for b.Loop() {
		if _, err := LoadStations(data.FS); err != nil {
			b.Fatal(err)
		}
	}
}
