package briefs

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Year is an invented year in the layout of an EnergyPlus weather file: a mean of
// the year, °C, with months that swing about it, 8 °C between day and night, and 6 mm
// of rain at four in the morning of every third day.
func Year(meanC, swingK float64) string {
	var b strings.Builder
	b.WriteString("LOCATION,Invented Cove,-,NZL,invented,99999,-41.5,174.0,12.0,23.0\n" + strings.Repeat("COMMENTS 1,invented\n", 7))
	for day := range 365 {
		date := time.Date(2001, 1, 1+day, 0, 0, 0, 0, time.UTC)
		warm := meanC + swingK*math.Cos(2*math.Pi*float64(day)/365)
		for h := range 24 {
			rain, sun, now := 0, 0, warm-4
			if h >= 8 && h < 20 {
				now = warm + 4
			}
			if day%3 == 0 && h == 4 {
				rain = 6
			}
			if h > 6 && h < 18 {
				sun = 400
			}
			fmt.Fprintf(&b, "2001,%d,%d,%d,0,?9,%.1f,%.1f,80,101000,0,0,300,%d,0,0,0,0,0,0,180,3.0,5,5,10,2000,9,999999999,10,0.1,0,88,0.2,%d,1\n",
				date.Month(), date.Day(), h+1, now, warm-5, sun, rain)
		}
	}
	return b.String()
}
