package species

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"swardwright/internal/calendar"
	"swardwright/internal/plain"
	"swardwright/internal/sheet"
	"swardwright/internal/told"
)

// ReadUse reads a brief's page [use].
func ReadUse(root *sheet.Sheet) Use {
	s := root.Table("use")
	var u Use
	s.Need("grade", `one of "ornamental", "utility", "hard-wearing" or "extensive"`)
	u.Grade, _ = sheet.Choice(s, "grade", Ornamental, Utility, HardWearing, Extensive)

	var ok bool
	if u.Traffic, ok = sheet.Choice(s, "traffic", Light, Moderate, Heavy); !ok && !s.Given("traffic") {
		s.Assume(told.Say("use.traffic", u.TrafficOr().Told()))
	}
	if u.MowingMM, ok = s.Number("mowing_mm", 3, 300); !ok && !s.Given("mowing_mm") {
		s.Assume(told.Say("use.cut"))
	}
	u.Mower, _ = sheet.Choice(s, "mower", "cylinder", "rotary", "robot", "scythe")
	u.MowerWidthCM, _ = s.Number("mower_width_cm", 10, 400)
	u.MowsPerWeek, _ = s.Number("mows_per_week", 0, 14)
	if u.Irrigation, ok = s.Flag("irrigation"); !ok && !s.Given("irrigation") {
		s.Assume(told.Say("use.not-watered"))
	}
	if young, ok := s.Flag("water_young"); ok {
		u.WaterYoung = &young
		if u.Irrigation && !young {
			s.Faultf("water_young", "can't be false where irrigation is true: what is watered when it is dry is watered while it is young")
		}
	}

	u.readFeeding(s)
	if u.Livestock, ok = s.Flag("livestock"); !ok && !s.Given("livestock") {
		s.Assume(told.Say("use.not-grazed"))
	}
	u.Dogs, _ = s.Flag("dogs")
	u.NoFeed = readBan(s)
	return u
}

// readFeeding reads what an established lawn is fed.
func (u *Use) readFeeding(s *sheet.Sheet) {
	s.AtMostOne("feeding", "nitrogen_g_m2")
	u.NitrogenGM2 = s.Optional("nitrogen_g_m2", 0, 60)
	var ok bool
	if u.Feeding, ok = sheet.Choice(s, "feeding", "none", "low", "moderate", "high"); !ok {
		u.Feeding = "moderate"
		if u.Grade == Extensive { // banks, verges and meadows are left to what the ground gives
			u.Feeding = "none"
		}
		if !s.Given("feeding") && !s.Given("nitrogen_g_m2") {
			s.Assume(told.Say("use.feeding", told.Term{Kind: "feeding", Word: string(u.Feeding)}))
		}
	}
}

// dayForm is how a day of every year is written.
const dayForm = "01-02"

// mostBanned is the longest part of a year that a law closes to feeding.
const mostBanned = 300

// readBan reads the days between which the law forbids feeding lawns.
func readBan(s *sheet.Sheet) *Ban {
	read := func(key string) (day int, ok bool) {
		text, ok := s.Text(key)
		if !ok {
			return 0, false
		}
		at, err := time.Parse(dayForm, text)
		if err != nil {
			s.Faultf(key, "needs a day of every year, month first, like 11-15, is %s", plain.Quote(text))
			return 0, false
		}
		return calendar.DayOf(at), true
	}
	from, ok := read("no_feed_from")
	until, also := read("no_feed_until")
	switch {
	case s.Given("no_feed_from") != s.Given("no_feed_until"):
		key, other := "no_feed_from", "no_feed_until"
		if s.Given(other) {
			key, other = other, key
		}
		s.Faultf(key, "needs %s beside it", other)
	case ok && also && calendar.Since(from, until) >= mostBanned:
		s.Faultf("no_feed_until", "leaves no time to feed: at most %d days from no_feed_from", mostBanned)
	case ok && also:
		return &Ban{from, until}
	}
	return nil
}

// Part is a grass with its share of a mixture.
type Part struct {
	Species *Species
	Percent float64 // by weight
}

// sumTolerance is on shares that should add to 100 %, for rounding on a label.
const sumTolerance = 0.5

// Named finds the grass of a name, or says what is wrong with the name under
// the key.
func Named(s *sheet.Sheet, key, name string, table *Table) *Species {
	sp, ok := table.Find(name)
	if !ok {
		s.Hintf(key, func() string { return table.Hint(name) }, "%s is no grass of the table", plain.Quote(name))
		return nil
	}
	return sp
}

// Hint is what to write instead of a name that nothing in the table has.
func (t *Table) Hint(name string) string {
	if near := t.Suggest(name); len(near) > 0 {
		return fmt.Sprintf("; did you mean %s?", strings.Join(near, " or "))
	}
	return "; swardwright species lists them"
}

// ReadParts reads the grasses of a mixture, under the key parts.
func ReadParts(s *sheet.Sheet, table *Table) (out []Part) {
	s.Need("parts", `its grasses with their percent by weight, like { "hard fescue" = 60, "browntop bent" = 40 }`)
	parts := s.Table("parts")
	sum, sound := 0.0, true
	seen := map[*Species]string{}
	names := parts.Keys()
	for _, name := range names {
		share, good := parts.Number(name, 0.1, 100)
		sp := Named(parts, name, name, table)
		switch {
		case sp == nil:
		case seen[sp] != "":
			parts.Faultf(name, "is the same grass as %s; add the two shares", seen[sp])
		default:
			seen[sp] = name
			out = append(out, Part{Species: sp, Percent: share})
		}
		sum, sound = sum+share, sound && good
	}
	switch {
	case len(names) == 0 && s.Given("parts"):
		parts.Faultf("", "name no grass")
	case sound && len(names) > 0 && math.Abs(sum-100) > sumTolerance:
		s.Faultf("parts", "need to add to 100 percent, add to %s", strconv.FormatFloat(math.Round(100*sum)/100, 'f', -1, 64))
	}
	return out
}
