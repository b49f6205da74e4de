package mix

import (
	"cmp"
	"slices"
	"testing"

	"github.com/samber/lo"

	"swardwright/data"
	"swardwright/mix/internal/place"
	"swardwright/site/ground"
	"swardwright/site/weather"
	"swardwright/species"
)

// steadyLawn is a lawn at a place.
type steadyLawn struct {
	spot place.Spot
	use  species.Use
}

// steadyLawns are lawns of every kind at places that differ as much as may be.
func steadyLawns() (lawns []steadyLawn) {
	stations := []string{
		"Lerwick", "Eskdalemuir", "Heathrow", "Valentia Observatory", "Tromsø", "Takle", "Drevsjø", "Umeå",
		"Kiruna", "Sodankylä", "Reykjavík", "Hamburg", "Davos", "Lugano", "Suwalki", "Bordeaux",
		"Goose Bay", "Edmonton", "Estevan", "Boston", "Minneapolis", "Little Rock", "Winslow", "Fairbanks",
		"Portland, Oregon", "Hokitika", "Canberra", "Sapporo", "Rio Grande", "Punta Arenas",
		"Östersund Airport", "Dublin Airport", "Albany, New York", "Indianapolis, Indiana", "Eugene, Oregon", "Vest-Torpa",
		"St Louis, Missouri", "Uccle", "Frankfurt/Main", "Düsseldorf", "Luleå Airport", "Harrisburg, Pennsylvania",
		"Redmond, Oregon", "Lansing, Michigan", "Kansas City, Missouri", "Malin Head", "Cork Airport", "Belmullet",
	}
	grades := []species.Grade{species.Utility, species.Ornamental, species.HardWearing, species.Utility, species.Extensive}
	hours := []float64{0, 5, 3.5, 6.5, 0, 4.2, 8}
	kinds := []ground.Survey{{}, {Texture: "sandy loam"}, {Texture: "clay loam", Drainage: "somewhat poorly"}}
	for i, name := range stations {
		watered := i%4 == 1
		lawns = append(lawns, steadyLawn{
			place.Spot{Station: name, SunHours: hours[i%len(hours)], Ground: kinds[i%len(kinds)], Irrigated: watered, Years: 200},
			species.Use{Grade: grades[i%len(grades)], Irrigation: watered},
		})
	}
	return lawns
}

// leader is the grass that a mixture holds most of.
func leader(m *Mixture) string {
	if m == nil {
		return "none"
	}
	return m.Leads().ID
}

// mayLeadToo says whether the plan tells that another grass may as well lead: as large a
// share in the mixture, or the first place in one that is as good.
func mayLeadToo(m *Mixture, id string) bool {
	most := slices.MaxFunc(m.Components, func(a, b Component) int { return cmp.Compare(a.Percent, b.Percent) }).Percent
	return slices.ContainsFunc(m.Components, func(c Component) bool { return c.Species.ID == id && c.Percent == most }) ||
		slices.ContainsFunc(m.NearTies, func(b Blend) bool {
			return slices.ContainsFunc(b.Parts, func(p Part) bool { return p.Species.ID == id && p.Percent == b.Parts[0].Percent })
		})
}

// TestSteady asks that a plan stands still: what nobody could tell apart never changes the
// grass that leads, and what is known no better than to a degree of latitude, half an hour
// of sun or the next station changes it seldom.
func TestSteady(t *testing.T) {
	stations, err := weather.LoadStations(data.FS)
	if err != nil {
		t.Fatal(err)
	}
	table := tableOf(t)
	lawns := steadyLawns()
	if testing.Short() {
		lawns = lawns[:6]
	}
	changed, tried, told, ties := map[string]int{}, map[string]int{}, map[string]int{}, 0
	var firm, shaky []float64 // LeadsOn of lawns whose leading grass stays, and of those where it moves
	for _, l := range lawns {
		base := chosen(t, table, l.spot, l.use, Stock{}, Task{})
		lead := leader(base.Mixture)
		if m := base.Mixture; m != nil && slices.ContainsFunc(table.All(), func(s *species.Species) bool { return s.ID != lead && mayLeadToo(m, s.ID) }) {
			ties++
		}
		moved := false
		st, _ := stations.Find(l.spot.Station)
		const nextKM = 300 // farther stations are no other word for the same place
		next, off := stations.Next(st)
		for _, move := range []struct {
			name string
			by   func(*place.Spot)
		}{
			{"a hair", func(s *place.Spot) { s.NorthDeg += 0.001 }},
			{"a hair", func(s *place.Spot) { s.NorthDeg -= 0.001 }},
			{"latitude", func(s *place.Spot) { s.NorthDeg++ }},
			{"latitude", func(s *place.Spot) { s.NorthDeg-- }},
			{"hours", func(s *place.Spot) { s.SunHours += 0.5 }},
			{"hours", func(s *place.Spot) { s.SunHours -= 0.5 }},
			{"station", func(s *place.Spot) {
				s.Station, s.NorthDeg, s.AltitudeM = next.WMO, st.LatitudeDeg-next.LatitudeDeg, &st.AltitudeM
			}},
		} {
			if move.name == "hours" && l.spot.SunHours == 0 {
				continue
			}
			if move.name == "station" && off > nextKM {
				continue
			}
			spot := l.spot
			move.by(&spot)
			tried[move.name]++
			got := leader(chosen(t, table, spot, l.use, Stock{}, Task{}).Mixture)
			if got == lead {
				continue
			}
			changed[move.name]++
			moved = true
			tie := base.Mixture != nil && mayLeadToo(base.Mixture, got)
			if tie {
				told[move.name]++
			}
			t.Logf("%-20s %-12s %.1f h, %s: %s becomes %s, told as a tie: %v", l.spot.Station, l.use.Grade, l.spot.SunHours, move.name, lead, got, tie)
		}
		if m := base.Mixture; m != nil && moved {
			shaky = append(shaky, m.LeadsOn)
		} else if m != nil {
			firm = append(firm, m.LeadsOn)
		}
	}
	t.Logf("%v of %v moves change the leading grass, %v told; %d of %d lawns told to be near a tie", changed, tried, told, ties, len(lawns))
	// What is said of how firmly a grass leads must tell the two apart.
	if !testing.Short() {
		t.Logf("it leads on %.2f of the lawns where it stays, on %.2f where it moves", lo.Mean(firm), lo.Mean(shaky))
		if len(shaky) > 0 && lo.Mean(shaky) > lo.Mean(firm)-0.05 {
			t.Errorf("it leads on %.2f of the lawns where it stays and on %.2f where it moves", firm, shaky)
		}
	}
	if changed["a hair"] > 0 {
		t.Errorf("a thousandth of a degree changes the leading grass of %d lawns", changed["a hair"])
	}
	for _, name := range []string{"latitude", "hours", "station"} {
		if !testing.Short() && 10*changed[name] > tried[name] {
			t.Errorf("%s: %d of %d moves change the leading grass", name, changed[name], tried[name])
		}
	}
}
