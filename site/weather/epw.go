package weather

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"swardwright/internal/calendar"
	"swardwright/internal/plain"
)

// Fields of an EPW data line, counted from 0 (EnergyPlus Auxiliary Programs,
// data dictionary of the weather file).
const (
	epwMonth   = 1
	epwDay     = 2
	epwHour    = 3
	epwDryBulb = 6
	epwDew     = 7
	epwGlobal  = 13
	epwWind    = 21
	epwRain    = 33
	epwFields  = 22 // at least; the last ones are often left out
)

// ReadEPW reads the monthly climate from an EnergyPlus weather file: a typical
// year in hours. Every line is checked and a fault is named by its line.
//
// Many such files carry no rain; RainMM and WetDays are then all 0 and
// [Normals.HasRain] says so. Frost and snow are not counted: one year is too
// short.
func ReadEPW(r io.Reader) (Normals, error) {
	scan := bufio.NewScanner(r)
	scan.Buffer(make([]byte, 0, 64*1024), 1<<20)
	var n Normals
	var sum epwSums
	line := 0
	fail := func(format string, args ...any) (Normals, error) {
		return Normals{}, fmt.Errorf("weather file, line %d: %w", line, fmt.Errorf(format, args...))
	}
	for scan.Scan() {
		line++
		fields := strings.Split(strings.TrimRight(scan.Text(), "\r"), ",")
		switch {
		case line == 1:
			if err := n.epwLocation(fields); err != nil {
				return fail("%w", err)
			}
		case line <= 8: // design days, ground temperatures, comments
			if len(fields) < 2 {
				return fail("must be one of the eight header lines of an EPW file")
			}
		default:
			if strings.TrimSpace(scan.Text()) == "" {
				continue
			}
			if err := sum.add(fields); err != nil {
				return fail("%w", err)
			}
		}
	}
	if err := scan.Err(); err != nil {
		line++
		if errors.Is(err, bufio.ErrTooLong) {
			return fail("is longer than any line of an EPW file")
		}
		return fail("cannot be read: %w", err)
	}
	if line < 8 {
		return fail("the file ends here; an EPW file has eight header lines")
	}
	if err := sum.close(&n); err != nil {
		return fail("%w", err)
	}
	if err := n.check(); err != nil {
		return Normals{}, fmt.Errorf("weather file: %w", err)
	}
	return n, nil
}

// epwLocation reads the first line: name, position and height.
func (n *Normals) epwLocation(f []string) error {
	if strings.TrimSpace(f[0]) != "LOCATION" || len(f) < 10 {
		return fmt.Errorf("an EPW file starts with LOCATION and nine values")
	}
	n.Name = plain.Line(plain.Cut(strings.TrimSpace(f[1])))
	n.Source = "EnergyPlus weather file, " + plain.Line(plain.Cut(strings.TrimSpace(f[4])))
	for _, v := range []struct {
		name   string
		field  int
		lo, hi float64
		to     *float64
	}{
		{"latitude", 6, -90, 90, &n.LatitudeDeg},
		{"longitude", 7, -180, 180, &n.LongitudeDeg},
		{"elevation", 9, -500, 6000, &n.AltitudeM},
	} {
		var err error
		if *v.to, err = epwNumber(f, v.field, v.name, v.lo, v.hi); err != nil {
			return err
		}
	}
	return nil
}

// epwNumber reads one field and checks its range.
func epwNumber(f []string, i int, name string, lo, hi float64) (float64, error) {
	if i >= len(f) {
		return 0, fmt.Errorf("%s (field %d): missing, the line has %d fields", name, i+1, len(f))
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(f[i]), 64)
	if err != nil {
		return 0, fmt.Errorf("%s (field %d): %s is not a number", name, i+1, plain.Quote(f[i]))
	}
	if !(v >= lo && v <= hi) {
		return 0, fmt.Errorf("%s (field %d): must lie between %g and %g, is %g", name, i+1, lo, hi, v)
	}
	return v, nil
}

// epwSums gathers the hours of each month and the days within.
type epwSums struct {
	hours, windHours [12]int
	mean, dewKPa     [12]float64
	minDay, maxDay   [12]float64 // sums of daily extremes
	globalWh, wind   [12]float64
	rain, wetDays    [12]float64
	days             [12]int

	month, day, hour int // of the line before
	lo, hi, dayRain  float64
}

func (s *epwSums) add(f []string) error {
	if len(f) < epwFields {
		return fmt.Errorf("needs at least %d fields, has %d", epwFields, len(f))
	}
	var at [3]int
	for k, w := range []struct {
		name   string
		field  int
		lo, hi float64
	}{{"month", epwMonth, 1, 12}, {"day", epwDay, 1, 31}, {"hour", epwHour, 1, 24}} {
		v, err := epwNumber(f, w.field, w.name, w.lo, w.hi)
		if err != nil {
			return err
		}
		at[k] = int(v)
	}
	if err := s.follow(at[0], at[1], at[2]); err != nil {
		return err
	}
	m := at[0] - 1
	t, err := epwNumber(f, epwDryBulb, "dry bulb temperature", -70, 70)
	if err != nil {
		return err
	}
	dew, err := epwNumber(f, epwDew, "dew point", -100, 70)
	if err != nil {
		return err
	}
	global, err := epwNumber(f, epwGlobal, "global horizontal radiation", 0, 1500)
	if err != nil {
		return err
	}
	wind, err := epwNumber(f, epwWind, "wind speed", 0, 999)
	if err != nil {
		return err
	}
	if wind < 99 { // 999: missing
		s.wind[m] += wind
		s.windHours[m]++
	}
	if len(f) > epwRain && strings.TrimSpace(f[epwRain]) != "" {
		rain, err := epwNumber(f, epwRain, "liquid precipitation depth", 0, 9999)
		if err != nil {
			return err
		}
		if rain < 500 { // 999: missing
			s.dayRain += rain
		}
	}
	s.hours[m]++
	s.mean[m] += t
	s.dewKPa[m] += saturationKPa(min(t, dew))
	s.globalWh[m] += global
	s.lo, s.hi = min(s.lo, t), max(s.hi, t)
	return nil
}

// follow checks that the hours come one after another and closes each day.
func (s *epwSums) follow(month, day, hour int) error {
	if hour != s.hour%24+1 {
		return fmt.Errorf("hour %d of %d-%02d does not follow hour %d", hour, month, day, s.hour)
	}
	if hour > 1 {
		if month != s.month || day != s.day {
			return fmt.Errorf("the date changes within a day, at hour %d", hour)
		}
		s.hour = hour
		return nil
	}
	s.closeDay()
	switch {
	case month == s.month && day == s.day+1:
	case month == s.month+1 && day == 1:
		if s.month > 0 && s.day < calendar.MonthDays[s.month-1] {
			return fmt.Errorf("month %d ends on day %d", s.month, s.day)
		}
	default:
		return fmt.Errorf("day %d of month %d does not follow day %d of month %d", day, month, s.day, s.month)
	}
	longest := calendar.MonthDays[month-1]
	if month == 2 {
		longest++
	}
	if day > longest {
		return fmt.Errorf("month %d has no day %d", month, day)
	}
	s.month, s.day, s.hour = month, day, hour
	s.lo, s.hi, s.dayRain = math.Inf(1), math.Inf(-1), 0
	return nil
}

func (s *epwSums) closeDay() {
	if s.month == 0 {
		return
	}
	m := s.month - 1
	s.days[m]++
	s.minDay[m] += s.lo
	s.maxDay[m] += s.hi
	s.rain[m] += s.dayRain
	if s.dayRain >= wetDayMM {
		s.wetDays[m]++
	}
}

func (s *epwSums) close(n *Normals) error {
	if s.month != 12 || s.day != 31 || s.hour != 24 {
		return fmt.Errorf("the data end at hour %d of day %d of month %d, not at the end of the year", s.hour, s.day, s.month)
	}
	s.closeDay()
	var vapour, wind, global [12]float64
	haveWind := true
	for m := range 12 {
		hours, days := float64(s.hours[m]), float64(s.days[m])
		n.MeanC[m] = s.mean[m] / hours
		// Bounded by the mean, which sums of other terms may miss by a last digit.
		n.MinC[m], n.MaxC[m] = min(s.minDay[m]/days, n.MeanC[m]), max(s.maxDay[m]/days, n.MeanC[m])
		n.RainMM[m] = s.rain[m]
		n.WetDays[m] = min(s.wetDays[m], float64(calendar.MonthDays[m]))
		vapour[m] = 10 * s.dewKPa[m] / hours
		global[m] = s.globalWh[m] * 0.0036 / days
		if s.windHours[m] == 0 {
			haveWind = false
			continue
		}
		wind[m] = s.wind[m] / float64(s.windHours[m])
	}
	n.VapourHPa, n.GlobalMJ = &vapour, &global
	if haveWind {
		n.WindMS = &wind
	}
	return nil
}

// HasRain is false where the source has none at all.
func (n Normals) HasRain() bool {
	for _, mm := range n.RainMM {
		if mm > 0 {
			return true
		}
	}
	return false
}

// WithRain takes rain and its days from elsewhere.
func (n Normals) WithRain(from Normals) Normals {
	n.RainMM, n.WetDays = from.RainMM, from.WetDays
	n.Source += "; rain of " + from.Name
	return n
}
