package species

import (
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

	s.AtMostOne("feeding", "nitrogen_g_m2")
	u.NitrogenGM2 = s.Optional("nitrogen_g_m2", 0, 60)
	if u.Feeding, ok = sheet.Choice(s, "feeding", "none", "low", "moderate", "high"); !ok {
		u.Feeding = "moderate"
		if !s.Given("feeding") && !s.Given("nitrogen_g_m2") {
			s.Assume(told.Say("use.feeding", told.Term{Kind: "feeding", Word: string(u.Feeding)}))
		}
	}
	if u.Livestock, ok = s.Flag("livestock"); !ok && !s.Given("livestock") {
		s.Assume(told.Say("use.not-grazed"))
	}
	u.Dogs, _ = s.Flag("dogs")
	return u
}
