package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"swardwright/internal/calendar"
)

// epwFile writes a year in the layout of the EnergyPlus data dictionary: mean
// temperature by month, a daily wave of 4 K, sun from 6 to 18 h.
func epwFile(change func(row int, f []string) []string) string {
	var b strings.Builder
	b.WriteString("LOCATION,Invented Cove,-,NZL,invented,99999,-41.5,174.0,12.0,23.0\n")
	for range 7 {
		b.WriteString("COMMENTS 1,invented\n")
	}
	row := 0
	for m, days := range calendar.MonthDays {
		for d := range days {
			for h := range 24 {
				t := 10 + 6*math.Cos(2*math.Pi*float64(m)/12) + 4*math.Sin(2*math.Pi*float64(h-8)/24)
				sun := max(0, 500*math.Sin(math.Pi*float64(h-6)/12))
				rain := 0.0
				if d%3 == 0 && h == 4 {
					rain = 6
				}
				f := strings.Split(fmt.Sprintf("2001,%d,%d,%d,0,?9,%.2f,%.2f,80,101000,0,0,300,%.1f,0,0,0,0,0,0,180,3.0,5,5,10,2000,9,999999999,10,0.1,0,88,0.2,%.1f,1",
					m+1, d+1, h+1, t, t-3, sun, rain), ",")
				if change != nil {
					f = change(row, f)
				}
				if f != nil {
					b.WriteString(strings.Join(f, ",") + "\n")
				}
				row++
			}
		}
	}
	return b.String()
}

func TestReadEPW(t *testing.T) {
	n, err := ReadEPW(strings.NewReader(epwFile(nil)))
	if err != nil {
		t.Fatal(err)
	}
	if n.Name != "Invented Cove" || n.LatitudeDeg != -41.5 || n.LongitudeDeg != 174 || n.AltitudeM != 23 {
		t.Errorf("place: %+v", n)
	}
	near(t, "January mean", n.MeanC[0], 16, 0.01)
	near(t, "January minimum", n.MinC[0], 12, 0.01)
	near(t, "July maximum", n.MaxC[6], 8, 0.01)
	near(t, "January rain", n.RainMM[0], 11*6, 1e-9)
	near(t, "January wet days", n.WetDays[0], 11, 1e-9)
	near(t, "wind", n.WindMS[3], 3, 1e-9)
	// Half a sine of 500 W/m² over 12 h, by the hour: 500 x 7.596 Wh.
	near(t, "radiation", n.GlobalMJ[5], 500*7.596*0.0036, 0.01)
	if !n.HasRain() {
		t.Error("rain was not seen")
	}

	dry := epwFile(func(_ int, f []string) []string { return f[:24] })
	n, err = ReadEPW(strings.NewReader(dry))
	if err != nil || n.HasRain() {
		t.Errorf("a file without rain: %v, HasRain %v", err, n.HasRain())
	}
	if wet := n.WithRain(table(t).All()[0].Normals); !wet.HasRain() {
		t.Error("rain was not taken over")
	}
}

func TestReadEPWFaults(t *testing.T) {
	at := func(row, field int, v string) string {
		return epwFile(func(r int, f []string) []string {
			if r == row {
				f[field] = v
			}
			return f
		})
	}
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "line 0: the file ends here"},
		{"no location", "DESIGN,1\n", "line 1: an EPW file starts with LOCATION"},
		{"latitude", strings.Replace(epwFile(nil), "-41.5", "-141.5", 1), "line 1: latitude"},
		{"letters", at(0, epwDryBulb, "warm"), `line 9: dry bulb temperature (field 7): "warm" is not a number`},
		{"missing temperature", at(5, epwDryBulb, "99.9"), "line 14: dry bulb temperature (field 7): must lie between -70 and 70, is 99.9"},
		{"not finite", at(5, epwDew, "NaN"), "line 14: dew point"},
		{"missing radiation", at(30, epwGlobal, "9999"), "line 39: global horizontal radiation"},
		{"hour left out", epwFile(func(r int, f []string) []string {
			if r == 30 {
				return nil
			}
			return f
		}), "line 39: hour 8 of 1-02 does not follow hour 6"},
		{"short line", epwFile(func(r int, f []string) []string {
			if r == 1 {
				return f[:5]
			}
			return f
		}), "line 10: needs at least 22 fields, has 5"},
		{"half a year", epwFile(func(r int, f []string) []string {
			if r >= 4344 {
				return nil
			}
			return f
		}), "the data end at hour 24 of day 30 of month 6"},
		{"month cut short", epwFile(func(r int, f []string) []string {
			if r >= 24*30 && r < 24*31 {
				return nil
			}
			return f
		}), "month 1 ends on day 30"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ReadEPW(strings.NewReader(c.text))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}

func FuzzReadEPW(f *testing.F) {
	whole := epwFile(nil)
	f.Add([]byte(whole[:2000]))
	f.Add([]byte("LOCATION,a,b,c,d,e,1,2,3,4\n"))
	f.Add([]byte(strings.Replace(whole[:1500], "80,", ",,", 1)))
	f.Fuzz(func(t *testing.T, text []byte) {
		n, err := ReadEPW(strings.NewReader(string(text)))
		if err == nil && n.check() != nil {
			t.Errorf("accepted normals that fail their own check: %v", n.check())
		}
	})
}
