package year

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"swardwright/internal/approx"
	"swardwright/internal/calendar"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/site/weather"
)

// The season of a lawn of two zones in changing weather by brute force, day by day from the definitions: growth and wet are means of the zones
// by area over 31 and 7 days, growth of cool-season grass with its peak where the place has it (Woods 2014), of warm-season grass by
// its share of the sward; dry is what is gone of the rootzone's water.
func TestSeasonByBruteForce(t *testing.T) {
	const years = 3
	const n = years * calendar.Year
	r := rand.New(rand.NewPCG(4, 2))
	series := &weather.Series{Years: years, MeanC: make([]float32, n), SnowCM: make([]float32, n)}
	for m := range series.Normals.MeanC {
		series.Normals.MeanC[m] = 9 - 9*math.Cos(2*math.Pi*float64(m)/12)
	}
	for i := range n {
		series.MeanC[i] = float32(9 - 9*math.Cos(2*math.Pi*float64(i)/365) + 3*r.NormFloat64())
		series.SnowCM[i] = float32(r.IntN(5))
	}
	c := &site.Conditions{}
	c.Weather.WarmestMonthC = 18.6 // between 18 and 20 °C the peak follows it
	shares := []float64{0.7, 0.3}
	for _, share := range shares {
		d := &weather.Days{Series: series}
		for _, v := range []*[]float32{&d.Growth, &d.Warm, &d.Wet, &d.Moisture, &d.WaterMM, &d.SoilC} {
			*v = make([]float32, n)
			for i := range *v {
				(*v)[i] = r.Float32()
			}
		}
		c.Zones = append(c.Zones, site.Zone{Zone: light.Zone{Share: share}, Days: d})
	}
	cold := series.Normals.ColdestDay()
	const warm = 0.25
	s, ok := seasonOf(c, warm)
	if !ok || s.years != years || s.cold != cold {
		t.Fatalf("%d years from day %d, %t", s.years, s.cold, ok)
	}
	over := func(of func(d *weather.Days, at int) float64) func(k int) float64 {
		return func(k int) (sum float64) {
			for i, share := range shares {
				sum += share * of(c.Zones[i].Days, (k+cold+n)%n)
			}
			return sum
		}
	}
	window := func(half int, of func(k int) float64) func(k int) float64 {
		return func(k int) (sum float64) {
			for at := k - half; at <= k+half; at++ {
				sum += of(at) / float64(2*half+1)
			}
			return sum
		}
	}
	shift := func(at int) float64 { // of growth with its peak at 18.6 °C over that with it at 20
		m := float64(series.MeanC[at])
		return math.Exp(-0.5*math.Pow((m-18.6)/5.5, 2)) / math.Exp(-0.5*math.Pow((m-20)/5.5, 2))
	}
	growth := window(15, over(func(d *weather.Days, at int) float64 {
		return 0.75*min(1, float64(d.Growth[at])*shift(at)) + 0.25*float64(d.Warm[at])
	}))
	wet := window(3, over(func(d *weather.Days, at int) float64 { return float64(d.Wet[at]) }))
	dry := over(func(d *weather.Days, at int) float64 { return 1 - float64(d.Moisture[at]) })
	water := over(func(d *weather.Days, at int) float64 { return float64(d.WaterMM[at]) })
	var mean [calendar.Year]float64
	for k := range n {
		mean[k%calendar.Year] += growth(k) / years
		if k%7 != 0 {
			continue
		}
		for what, pair := range map[string][2]float64{
			"growth": {float64(s.growth[k]), growth(k)}, "wet": {float64(s.wet[k]), wet(k)}, "dry": {float64(s.dry[k]), dry(k)}, "water": {float64(s.water[k]), water(k)},
			"snow": {float64(s.snow[k]), float64(series.SnowCM[(k+cold)%n])}, "soil": {float64(s.soil[k]), float64(c.Zones[0].Days.SoilC[(k+cold)%n])},
		} {
			approx.Near(t, fmt.Sprintf("%s on day %d", what, k), pair[0], pair[1], 1e-5)
		}
	}
	peak := 0.0
	for k, x := range mean {
		approx.Near(t, fmt.Sprintf("mean of day %d", k), s.mean[k], x, 1e-5)
		peak = max(peak, x)
		potent := 0.0
		for y := range years {
			at := (y*calendar.Year + k + cold) % n
			m := float64(series.MeanC[at])
			potent += (0.75*math.Exp(-0.5*math.Pow((m-18.6)/5.5, 2)) + 0.25*weather.WarmGrowthPotential(m)) / years
		}
		approx.Near(t, fmt.Sprintf("potential of day %d", k), s.potent[k], potent, 1e-6)
	}
	approx.Near(t, "peak", s.peak, peak, 1e-5)
	approx.Near(t, "begins at a quarter of it", s.begins, peak/4, 1e-5)
	// Shares of years by counting them.
	for _, day := range []int{0, 100, 180, 250, 364, 400, -3} {
		at := min(max(day, 0), 364)
		growing, workable := 0.0, 0.0
		for y := range years {
			k := y*calendar.Year + at
			if float64(s.growth[k]) >= s.begins {
				growing += 1.0 / years
				if s.wet[k] < 0.5 {
					workable += 1.0 / years
				}
			}
		}
		approx.Near(t, fmt.Sprintf("years in which grass grows on day %d", day), s.growing(day), growing, 1e-9)
		approx.Near(t, fmt.Sprintf("in which the ground can be worked on day %d", day), s.workable(day), workable, 1e-9)
	}
}

// A date over years by hand: the middle one, right where it is no more than ten days off; none where half of the years have none.
func TestEventWorked(t *testing.T) {
	for _, r := range []struct {
		days   []int // by year; -1: none
		day    int
		chance float64
		ok     bool
	}{
		{[]int{10, 30, 20, 31, 41}, 30, 0.6, true}, // 20 to 40: three of five
		{[]int{10, 30, 20, 31, 40}, 30, 0.8, true},
		{[]int{5, 5, -1, -1}, 5, 0.5, true},
		{[]int{5, -1, -1, -1}, 0, 0, false},
		{[]int{9, 7}, 9, 1, true},
	} {
		s := &season{years: len(r.days)}
		days := make([]float32, len(r.days)*calendar.Year)
		for y, d := range r.days {
			if d >= 0 {
				days[y*calendar.Year+d] = 1
			}
		}
		got, ok := s.event(func(year []float32) int {
			for d, x := range year {
				if x > 0 {
					return d
				}
			}
			return -1
		}, days)
		if ok != r.ok || got.day != r.day || math.Abs(got.chance-r.chance) > 1e-9 {
			t.Errorf("%v: %+v, %t", r.days, got, ok)
		}
	}
	// Growth that sums up from a day on: of a half a day ten are five.
	s := &season{years: 1, growth: make([]float32, calendar.Year), begins: 0.4}
	for d := 100; d < 200; d++ {
		s.growth[d] = 0.5
	}
	for from, want := range map[int]int{0: 109, 150: 159} {
		if got, ok := s.reaches(from, 5); !ok || got.day != want {
			t.Errorf("five from day %d on: %+v, %t", from, got, ok)
		}
	}
	if _, ok := s.reaches(0, 51); ok {
		t.Error("more than there is is reached")
	}
	opens, _ := s.opens()
	closes, _ := s.closes()
	if opens.day != 100 || closes.day != 199 {
		t.Errorf("opens %d, closes %d", opens.day, closes.day)
	}
}

// Feeds where summers are hot by hand (Kansas State, Arkansas): all 65 days before growth ends; half of it then and half a week before it ends; a
// quarter of it two months after growth begins, 35 % and 40 %; or quarters, one more five weeks before the end. Tenths add up to the whole.
func TestAutumnFeedsWorked(t *testing.T) {
	p := &plan{season: &season{years: 1, growth: make([]float32, calendar.Year)}, opens: dated{day: 90}, closes: dated{day: 320}}
	for _, r := range []struct {
		n    float64
		want [][2]float64 // day and g/m²
	}{
		{splitGM2 - 0.1, [][2]float64{{255, splitGM2 - 0.1}}},
		{splitGM2, [][2]float64{{255, splitGM2 / 2}, {313, splitGM2 / 2}}},
		{2*splitGM2 + 1, [][2]float64{{150, 0.25 * (2*splitGM2 + 1)}, {255, 0.35 * (2*splitGM2 + 1)}, {313, 0.4 * (2*splitGM2 + 1)}}},
		{mostFeedGM2/0.4 + 1, [][2]float64{{150, (mostFeedGM2/0.4 + 1) / 4}, {255, (mostFeedGM2/0.4 + 1) / 4}, {285, (mostFeedGM2/0.4 + 1) / 4}, {313, (mostFeedGM2/0.4 + 1) / 4}}},
	} {
		got, sum := p.autumnFeeds(r.n), 0.0
		if len(got) != len(r.want) {
			t.Fatalf("%g g/m²: %d feeds", r.n, len(got))
		}
		for i, f := range got {
			approx.Near(t, fmt.Sprintf("%g g/m², feed %d: day", r.n, i), float64(f.day), r.want[i][0], 0)
			approx.Near(t, fmt.Sprintf("%g g/m², feed %d", r.n, i), f.n, r.want[i][1], 0.1)
			sum += f.n
		}
		approx.Near(t, "together", sum, math.Round(10*r.n)/10, 1e-9)
	}
	// A season of 125 days between what growth begins with and ends with is too short for them: 90 + 60 is not before 214 - 65.
	for closes, autumn := range map[int]bool{216: true, 214: false} {
		p := &plan{season: p.season, opens: dated{day: 90}, closes: dated{day: closes}, hot: true}
		list := p.feeds(splitGM2 + 1)
		if got := list[0].day == closes-septemberDay; got != autumn {
			t.Errorf("growth until day %d: fed on day %d", closes, list[0].day)
		}
	}
	// A soaking is what the rooted ground holds: 14 % of 10 cm are 14 mm; hours of edging by 300 m an hour; cuts in words.
	q := &plan{in: Input{Site: &site.Conditions{Zones: []site.Zone{{Days: &weather.Days{Exposure: weather.Exposure{FieldCapacity: 0.28, WiltingPoint: 0.14, RootDepthM: 0.1}}}}}}}
	approx.Near(t, "a soaking, mm", q.soakMM(), 14, 1e-9)
	for days, want := range map[float64]string{1.4: "year.mow-daily", 1.6: "year.mow-every", 7.4: "year.mow-weekly", 14: "year.mow-fortnightly", 13: "year.mow-every", 15: "year.mow-every", 24: "year.mow-every", 25: "year.mow-monthly"} {
		if got := every(days); got.Name != want {
			t.Errorf("every %g days: %s", days, got.Name)
		}
	}
}
