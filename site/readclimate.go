package site

import (
	"fmt"
	"io"
	"slices"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/sheet"
	"swardwright/internal/told"
	"swardwright/site/weather"
)

// normalKeys are those of the user's own normals, by month.
var normalKeys = []string{"mean_c", "min_c", "max_c", "rain_mm", "wet_days", "sun_h"}

// ownClimate says whether the brief needs no station for its weather.
func ownClimate(s *sheet.Sheet) bool {
	return s.Given("epw") || slices.ContainsFunc(normalKeys, s.Given)
}

// readTrend says whether normals are to be moved to the years planned for, as they are unless the
// brief says otherwise. A weather file is taken as it is.
func readTrend(s *sheet.Sheet) bool {
	trend, given := s.Flag("trend")
	if trend && s.Given("epw") {
		s.Faultf("trend", "moves monthly normals, and stands beside epw, whose years are taken as they are; leave it out")
	}
	return (trend || !given) && !s.Given("epw")
}

// readClimate reads the user's own normals, or a weather file of theirs; nil
// when the brief leaves the weather to a station.
func readClimate(s *sheet.Sheet, p Place, open Opener) *weather.Normals {
	given := slices.ContainsFunc(normalKeys, s.Given)
	file, fromFile := s.Text("epw")
	mean := s.Months("mean_c", -60, 50)
	least := s.Months("min_c", -70, 45)
	most := s.Months("max_c", -60, 60)
	rain := s.Months("rain_mm", 0, 2000)
	wet := s.Months("wet_days", 0, 31)
	sun := s.Months("sun_h", 0, 744)

	switch {
	case s.Given("epw"):
		if given {
			s.Faultf("epw", "stands beside monthly values; give either the file or the values")
		}
		if !fromFile {
			return nil
		}
		return readWeatherFile(s, file, open)
	case !given:
		return nil
	}
	s.Need("min_c", "the mean daily minimum of each month, °C")
	s.Need("max_c", "the mean daily maximum of each month, °C")
	s.Need("rain_mm", "the rain of each month")
	s.Need("wet_days", "the days with at least 1 mm of each month")
	if slices.Contains([]*[12]float64{least, most, rain, wet}, nil) || s.Given("mean_c") && mean == nil || s.Given("sun_h") && sun == nil {
		return nil
	}
	n := weather.Normals{
		Name: "the brief's own normals", LatitudeDeg: p.LatitudeDeg, LongitudeDeg: lo.FromPtr(p.LongitudeDeg), AltitudeM: lo.FromPtr(p.AltitudeM),
		MinC: *least, MaxC: *most, RainMM: *rain, WetDays: *wet, SunHours: sun,
		Source: "monthly normals given in the brief",
	}
	for m := range 12 {
		n.MeanC[m] = (n.MinC[m] + n.MaxC[m]) / 2
		if mean != nil {
			n.MeanC[m] = mean[m]
		}
		checkMonth(s, n, m)
	}
	if mean == nil {
		s.Assume(told.Say("site.mean-midway"))
	}
	return &n
}

// checkMonth holds the values of one month to each other.
func checkMonth(s *sheet.Sheet, n weather.Normals, m int) {
	if n.MinC[m] > n.MaxC[m] {
		s.Faultf(monthKey("min_c", m), "is above max_c of the same month, %g > %g", n.MinC[m], n.MaxC[m])
	}
	if n.WetDays[m] > float64(mostDays(m)) {
		s.Faultf(monthKey("wet_days", m), "is more than the %d days of the month, %g", mostDays(m), n.WetDays[m])
	}
	if n.WetDays[m] == 0 && n.RainMM[m] >= 1 {
		s.Faultf(monthKey("wet_days", m), "needs at least a day for %g mm of rain, is 0", n.RainMM[m])
	}
	if s.Given("mean_c") && (n.MeanC[m] < n.MinC[m] || n.MeanC[m] > n.MaxC[m]) {
		s.Faultf(monthKey("mean_c", m), "needs to lie between min_c and max_c of the month, %g to %g, is %g",
			n.MinC[m], n.MaxC[m], n.MeanC[m])
	}
}

// mostDays are the days of a month, a leap year's February counted.
func mostDays(m int) int {
	if m == 1 {
		return calendar.MonthDays[m] + 1
	}
	return calendar.MonthDays[m]
}

// monthKey is the key of one month's value in a list of twelve.
func monthKey(key string, m int) string { return fmt.Sprintf("%s[%d]", key, m+1) }

// Weather files of a year of hours are about 1.6 MB.
const maxWeatherBytes = 16 << 20

// readWeatherFile reads an EnergyPlus weather file that the brief names.
func readWeatherFile(s *sheet.Sheet, name string, open Opener) *weather.Normals {
	if open == nil {
		s.Faultf("epw", "cannot be opened from here; give monthly values")
		return nil
	}
	file, err := open(name)
	if err != nil {
		s.Faultf("epw", "%v", err)
		return nil
	}
	defer file.Close()
	n, err := weather.ReadEPW(io.LimitReader(file, maxWeatherBytes))
	if err != nil {
		s.Faultf("epw", "%s: %v", name, err)
		return nil
	}
	return &n
}
