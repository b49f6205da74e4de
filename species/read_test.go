package species

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"swardwright/internal/sheet"
)

// readUse reads a page [use] and says what is wrong with it.
func readUse(text string) (Use, string) {
	s := sheet.Open("brief.toml", []byte("[use]\ngrade = \"utility\"\n"+text))
	u := ReadUse(s)
	if err := s.Faults(); err != nil {
		return u, err.Error()
	}
	return u, ""
}

// The bounds of the page [use], which are those of mowers and merchants' bags: at each of them sound, a step beyond a fault.
func TestUseBounds(t *testing.T) {
	for key, r := range map[string][2]float64{"mowing_mm": {3, 300}, "mower_width_cm": {10, 400}, "mows_per_week": {0, 14}, "nitrogen_g_m2": {0, 60}} {
		for x, sound := range map[float64]bool{r[0]: true, r[1]: true, r[0] - 0.01: false, r[1] + 0.01: false} {
			if _, fault := readUse(fmt.Sprintf("%s = %g\n", key, x)); (fault == "") != sound || !sound && !strings.Contains(fault, key) {
				t.Errorf("%s = %g: %q", key, x, fault)
			}
		}
	}
	u, fault := readUse("mowing_mm = 45\nmower_width_cm = 38\nmows_per_week = 1.5\nnitrogen_g_m2 = 7.5\nirrigation = true\nlivestock = true\ndogs = true\nmower = \"robot\"\ntraffic = \"heavy\"\n")
	if fault != "" || u.MowingMM != 45 || u.MowerWidthCM != 38 || u.MowsPerWeek != 1.5 || *u.NitrogenGM2 != 7.5 || !u.Irrigation || !u.Livestock || !u.Dogs || u.Mower != "robot" || u.Traffic != Heavy {
		t.Errorf("%+v, %s", u, fault)
	}
	if u, _ := readUse(""); u.Grade != Utility || u.Feeding != "moderate" || u.TrafficOr() != Moderate || u.NoFeed != nil || u.NitrogenOrClass() != 10 {
		t.Errorf("nothing said: %+v", u)
	}
	// Common practice, no published source: banks and verges are not fed, unless the brief says so.
	for text, want := range map[string]string{"": "none", "feeding = \"low\"\n": "low"} {
		if u := ReadUse(sheet.Open("brief.toml", []byte("[use]\ngrade = \"extensive\"\n"+text))); u.Feeding != want {
			t.Errorf("an extensive lawn with %q is fed %q", text, u.Feeding)
		}
	}
}

// Who waters the young lawn: everybody who wants one soon; verges and paddocks are left to the rain unless the brief says
// otherwise.
func TestWhoWatersTheYoung(t *testing.T) {
	for text, want := range map[string]bool{
		"grade = \"utility\"\n": true, "grade = \"utility\"\nwater_young = false\n": false, "grade = \"utility\"\nirrigation = true\n": true,
		"grade = \"extensive\"\n": false, "grade = \"extensive\"\nwater_young = true\n": true, "grade = \"extensive\"\nirrigation = true\n": true,
		"grade = \"utility\"\nlivestock = true\n": false, "grade = \"utility\"\nlivestock = true\nwater_young = true\n": true,
	} {
		s := sheet.Open("brief.toml", []byte("[use]\n"+text))
		if u := ReadUse(s); u.WatersYoung() != want || s.Faults() != nil {
			t.Errorf("%q: watered %t, %v", text, u.WatersYoung(), s.Faults())
		}
	}
}

// A ban on feeding by the days of the year: 300 days at the most, both ends in it, over the year's end as well.
func TestBanWorked(t *testing.T) {
	for _, r := range []struct {
		text  string
		fault string
	}{
		{"no_feed_from = \"01-01\"\nno_feed_until = \"10-27\"\n", ""},                  // 299 days on
		{"no_feed_from = \"01-01\"\nno_feed_until = \"10-28\"\n", "no_feed_until"},     // 300
		{"no_feed_from = \"11-15\"\nno_feed_until = \"02-15\"\n", ""},                  // over the new year
		{"no_feed_from = \"11-15\"\n", "no_feed_from"},                                 // one day alone
		{"no_feed_until = \"02-15\"\n", "no_feed_until"},                               //
		{"no_feed_from = \"15.11.\"\nno_feed_until = \"02-15\"\n", "no_feed_from"},     // no day
		{"no_feed_from = \"11-15\"\nno_feed_until = \"02-31\"\n", "no_feed_until"},     //
		{"no_feed_from = \"11-15\"\nno_feed_until = \"soonish\"\n", "month first"},     //
		{"feeding = \"low\"\nnitrogen_g_m2 = 3\n", "feeding"},                          // two answers to one question
		{"feeding = \"lavish\"\n", "feeding"},                                          //
		{"no_feed_from = \"06-01\"\nno_feed_until = \"05-31\"\n", "leaves no time to"}, // 364
	} {
		if _, fault := readUse(r.text); (fault == "") != (r.fault == "") || !strings.Contains(fault, r.fault) {
			t.Errorf("%s: %q", r.text, fault)
		}
	}
	u, _ := readUse("no_feed_from = \"11-15\"\nno_feed_until = \"02-15\"\n")
	b := u.NoFeed
	if b == nil || b.From != 318 || b.Until != 45 { // 15 November is the 319th day of the year, 15 February the 46th
		t.Fatalf("%+v", b)
	}
	for day, want := range map[int]bool{317: false, 318: true, 364: true, 0: true, 45: true, 46: false, 200: false} {
		if got := b.Holds(day); got != want {
			t.Errorf("day %d: held %t", day, got)
		}
	}
	// Dates, through the 29 February of 2028, which no day of the year counts.
	on := func(s string) time.Time { d, _ := time.Parse(time.DateOnly, s); return d }
	for _, r := range []struct{ at, earliest, want string }{
		{"2027-11-14", "2027-01-01", "2027-11-14"},
		{"2027-12-01", "2027-01-01", "2027-11-14"},
		{"2027-12-31", "2027-01-01", "2027-11-14"}, // 47 days on either side: the one before
		{"2028-01-01", "2027-01-01", "2028-02-16"}, // 46 on, 48 back
		{"2027-12-01", "2027-11-20", "2028-02-16"},
		{"2028-02-10", "2027-01-01", "2028-02-16"},
	} {
		if got := b.Free(on(r.at), on(r.earliest)); got != on(r.want) {
			t.Errorf("near %s and from %s on: %s, want %s", r.at, r.earliest, got.Format(time.DateOnly), r.want)
		}
	}
	leap := &Ban{From: 300, Until: 59} // to 1 March
	if got := leap.Free(on("2028-01-20"), on("2028-01-01")); got != on("2028-03-02") {
		t.Errorf("after a ban to 1 March of a leap year: %s", got.Format(time.DateOnly))
	}
	if (*Ban)(nil).Holds(7) {
		t.Error("no ban holds a day")
	}
}

// A mixture's shares: a tenth of a percent at the least, a hundred in all within the half that labels are rounded by.
func TestPartsWorked(t *testing.T) {
	tb := table(t)
	for text, r := range map[string]struct {
		n     int
		fault string
	}{
		`"hard fescue" = 60, "browntop bent" = 40`:                                  {2, ""},
		`"hard fescue" = 60, "browntop bent" = 40.5`:                                {2, ""},
		`"hard fescue" = 60, "browntop bent" = 40.6`:                                {2, "add to 100"},
		`"hard fescue" = 60, "browntop bent" = 39.5`:                                {2, ""},
		`"hard fescue" = 60, "browntop bent" = 39.4`:                                {2, "add to 99.4"},
		`"hard fescue" = 99.9, "browntop bent" = 0.1`:                               {2, ""},
		`"hard fescue" = 99.95, "browntop bent" = 0.05`:                             {2, "browntop bent"},
		`"hard fescue" = 100`:                                                       {1, ""},
		`"hard fescue" = 100.1`:                                                     {1, "hard fescue"},
		`"hard fescue" = 60, "hard-fescue" = 40`:                                    {1, "the same grass"},
		`"hard fescu" = 100`:                                                        {0, "did you mean"},
		`"astroturf of the ninth kind" = 100`:                                       {0, "lists them"},
		`"hard fescue" = 33.3, "browntop bent" = 33.3, "perennial ryegrass" = 33.3`: {3, ""},
		``: {0, "name no grass"},
	} {
		s := sheet.Open("brief.toml", []byte("parts = { "+text+" }\n"))
		parts := ReadParts(s, tb)
		err := s.Faults()
		if fault := fmt.Sprint(err); (err == nil) != (r.fault == "") || !strings.Contains(fault, r.fault) || len(parts) != r.n {
			t.Errorf("%s: %d grasses, %v", text, len(parts), err)
		}
	}
	s := sheet.Open("brief.toml", []byte(`parts = { "hard fescue" = 60, "browntop bent" = 40 }`))
	for _, p := range ReadParts(s, tb) {
		if want := map[string]float64{"hard-fescue": 60, "browntop-bent": 40}[p.Species.ID]; p.Percent != want {
			t.Errorf("%s: %g %%, want %g", p.Species.ID, p.Percent, want)
		}
	}
}

// What is kept for hay is no verge: each of the four marks is needed.
func TestMeadow(t *testing.T) {
	none, some := 0.0, 3.0
	hay := Use{Grade: Extensive, Mower: "scythe", Feeding: "none"}
	for name, r := range map[string]struct {
		change func(*Use)
		want   bool
	}{
		"hay":                    {func(*Use) {}, true},
		"hay with no nitrogen":   {func(u *Use) { u.NitrogenGM2 = &none }, true},
		"fed by figure":          {func(u *Use) { u.NitrogenGM2 = &some }, false},
		"fed":                    {func(u *Use) { u.Feeding = "low" }, false},
		"cut by machine":         {func(u *Use) { u.Mower = "rotary" }, false},
		"cut every week":         {func(u *Use) { u.MowsPerWeek = 1 }, false},
		"an everyday lawn":       {func(u *Use) { u.Grade = Utility }, false},
		"an extensive one alone": {func(u *Use) { *u = Use{Grade: Extensive} }, false},
	} {
		u := hay
		r.change(&u)
		if u.Meadow() != r.want {
			t.Errorf("%s: %t", name, u.Meadow())
		}
	}
}
