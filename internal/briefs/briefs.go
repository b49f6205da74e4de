// Package briefs makes sound briefs by chance, for tests: every key that a brief can
// have, mostly with values that a gardener would give and now and then with those
// at the ends of what is allowed. One seed gives one brief.
package briefs

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/samber/lo"

	"swardwright/data"
	"swardwright/site/ground"
	"swardwright/site/light"
	"swardwright/site/weather"
	"swardwright/species"
)

// Brief is a brief with the weather file that it may name.
type Brief struct {
	Text    string
	Weather string // the file WeatherFile; empty: it names none
}

// WeatherFile is the name of the weather file, beside the brief.
const WeatherFile = "weather.epw"

// Open opens the weather file, as a reader of briefs asks.
func (b Brief) Open(name string) (io.ReadCloser, error) {
	if name != WeatherFile || b.Weather == "" {
		return nil, fmt.Errorf("there is no file %s", name)
	}
	return io.NopCloser(strings.NewReader(b.Weather)), nil
}

// How often a value is drawn from all that is allowed, and how often it is an end of
// that.
const (
	anyShare = 0.10
	endShare = 0.05
)

// maker writes one brief.
type maker struct {
	*rand.Rand
	out      strings.Builder
	stations []weather.Station
	grasses  []*species.Species
	year     int
	drawn    bool   // the lawn has an outline
	room     square // its first part
	level    bool   // it has no slope
	deck     bool   // it lies on a building
	weather  string
}

// The tables are part of the program, so that they can be read.
var (
	stations = sync.OnceValue(func() []weather.Station { return lo.Must(weather.LoadStations(data.FS)).All() })
	grasses  = sync.OnceValue(func() []*species.Species { return lo.Must(species.Load(data.FS)).All() })
)

// Random makes the brief of a seed.
func Random(seed uint64) Brief {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 0x5ead)), stations: stations(), grasses: grasses()}
	m.head()
	m.place()
	m.lawn()
	m.light()
	m.ground()
	m.use()
	m.job()
	m.stock()
	m.prices()
	m.record()
	return Brief{Text: m.out.String(), Weather: m.weather}
}

// often is true in a share of cases.
func (m *maker) often(share float64) bool { return m.Float64() < share }

func pick[T any](m *maker, from ...T) T { return from[m.IntN(len(from))] }

// between draws a usual value, and now and then any that is allowed.
func (m *maker) between(least, low, high, most float64) float64 {
	switch x := m.Float64(); {
	case x < endShare:
		return pick(m, least, most)
	case x < endShare+anyShare:
		return m.upTo(least, most)
	}
	return m.upTo(low, high)
}

// upTo draws a value of three or four figures.
func (m *maker) upTo(low, high float64) float64 {
	x := low + (high-low)*m.Float64()
	scale := math.Pow(10, max(0, 3-math.Ceil(math.Log10(max(math.Abs(x), 1e-3)))))
	return min(max(math.Round(x*scale)/scale, low), high)
}

func num(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func (m *maker) line(format string, args ...any) { fmt.Fprintf(&m.out, format+"\n", args...) }

func (m *maker) number(key string, x float64) { m.line("%s = %s", key, num(x)) }

// maybe writes a number in a share of briefs.
func (m *maker) maybe(share float64, key string, least, low, high, most float64) {
	if m.often(share) {
		m.number(key, m.between(least, low, high, most))
	}
}

func (m *maker) word(share float64, key string, words ...string) {
	if m.often(share) {
		m.line("%s = %q", key, pick(m, words...))
	}
}

func (m *maker) flag(share float64, key string) {
	if m.often(share) {
		m.line("%s = %v", key, m.often(0.5))
	}
}

func (m *maker) day(key string, d time.Time) { m.line("%s = %s", key, d.Format(time.DateOnly)) }

func (m *maker) head() {
	m.line("title = %q", pick(m, "Back lawn", "Hof", "Græsplæne, nord", "x", strings.Repeat("a long title ", 30)+"."))
	m.word(0.3, "client", "A client (invented)", "B & C", "Ö")
	m.word(0.3, "prepared_by", "An invented groundsman", "D")
	m.word(0.3, "reference", "7", "2027/04 b")
	m.year = 2024 + m.IntN(10)
	if m.often(0.6) {
		m.day("date", m.dayOf(m.year))
	}
	m.word(0.5, "units", "metric", "us")
	m.word(0.5, "currency", "GBP", "EUR", "USD", "SEK", "JPY", "KWD", "ISK", "CHF")
	m.word(0.5, "language", "en-GB", "en-US", "de-AT", "sv-SE", "fr-CA", "nb", "ja", "nn-NO")
}

func (m *maker) dayOf(year int) time.Time {
	return time.Date(year, time.January, 1+m.IntN(365), 0, 0, 0, 0, time.UTC)
}

func (m *maker) place() {
	m.line("[place]")
	st := pick(m, m.stations...)
	lat, lon, station := st.LatitudeDeg, st.LongitudeDeg, false
	switch x := m.Float64(); {
	case x < 0.5:
		lat, lon = lat+m.upTo(-1, 1), lon+m.upTo(-1, 1)
		station = m.often(0.5)
	case x < 0.8:
		lat, lon = m.upTo(-55, 71), m.upTo(-180, 180)
	case x < 0.9:
		lat, lon = m.between(-90, -90, 90, 90), m.between(-180, -180, 180, 180)
	}
	m.number("latitude", min(max(lat, -90), 90))
	own := m.often(0.12)
	file := !own && m.often(0.04)
	switch {
	case station:
		m.line("station = %q", pick(m, st.WMO, st.Name))
		if m.often(0.5) {
			m.number("longitude", min(max(lon, -180), 180))
		}
	case own || file:
		if m.often(0.5) {
			m.number("longitude", min(max(lon, -180), 180))
		}
	default:
		m.number("longitude", min(max(lon, -180), 180))
	}
	if m.often(0.4) {
		m.number("altitude_m", m.between(-430, max(st.AltitudeM-200, -430), min(st.AltitudeM+400, 6000), 6000))
	}
	switch {
	case own:
		m.climate()
	case file:
		m.line("[climate]")
		m.line("epw = %q", WeatherFile)
		m.weather = Year(m.upTo(-10, 22), m.upTo(2, 15))
	case m.often(0.2):
		m.line("[climate]")
		m.flag(1, "trend")
	}
}

// climate gives normals of its own, made of a mean, a swing and a daily range.
func (m *maker) climate() {
	m.line("[climate]")
	mean, swing, daily := m.between(-45, -5, 22, 40), m.between(0, 2, 18, 24), m.between(0, 4, 14, 30)/2
	summer := float64(m.IntN(12))
	var low, high, middle, rain, wet, sun [12]float64
	dry := m.often(0.15)
	for i := range 12 {
		t := mean + swing*math.Cos(2*math.Pi*(float64(i)-summer)/12)
		t = min(max(t, -45), 35)
		low[i], high[i] = round(max(t-daily, -69)), round(min(t+daily, 49))
		middle[i] = round((low[i]+high[i])/2 + 0.2*(high[i]-low[i])*(m.Float64()-0.5))
		middle[i] = min(max(middle[i], low[i]), high[i])
		wet[i] = float64(m.IntN(29))
		rain[i] = round(wet[i] * m.between(1, 1, 8, 60))
		if dry {
			wet[i], rain[i] = 0, 0
		}
		sun[i] = round(m.between(0, 20, 300, 744))
	}
	m.months("min_c", low)
	m.months("max_c", high)
	m.months("rain_mm", rain)
	m.months("wet_days", wet)
	if m.often(0.5) {
		m.months("mean_c", middle)
	}
	if m.often(0.5) {
		m.months("sun_h", sun)
	}
	m.flag(0.3, "trend")
}

func round(x float64) float64 { return math.Round(x*10) / 10 }

func (m *maker) months(key string, values [12]float64) {
	words := make([]string, 12)
	for i, v := range values {
		words[i] = num(v)
	}
	m.line("%s = [%s]", key, strings.Join(words, ", "))
}

// square is a room on the plan that nothing else is drawn into.
type square struct{ x, y, w, h float64 }

func (s square) corners() string {
	return fmt.Sprintf("[[%s, %s], [%s, %[2]s], [%[3]s, %[4]s], [%[1]s, %[4]s]]", num(round(s.x)), num(round(s.y)), num(round(s.x+s.w)), num(round(s.y+s.h)))
}

func (m *maker) lawn() {
	m.drawn = m.often(0.55)
	side := m.upTo(2, 22)
	if m.often(0.06) {
		side = m.upTo(22, 130)
	}
	m.room = square{m.upTo(-5, 5), m.upTo(-5, 5), side, side * m.upTo(0.3, 1.4)}
	parts := 1
	if m.drawn && m.often(0.2) {
		parts = 2 + m.IntN(3)
	}
	m.line("[lawn]")
	switch {
	case !m.drawn:
		m.number("area_m2", m.between(0.5, 8, 900, 100_000))
	case parts == 1:
		m.line("outline = %s", m.outline(m.room))
	}
	if m.drawn {
		m.maybe(0.3, "plan_north_deg", -360, -180, 180, 360)
	}
	if m.level = m.often(0.6); !m.level {
		m.number("slope_deg", m.between(0, 0, 12, 60))
		m.number("aspect_deg", m.between(-360, 0, 360, 360))
	}
	if m.often(0.3) {
		var points []string
		for b := range 1 + m.IntN(6) {
			points = append(points, fmt.Sprintf("[%d, %s]", 60*b, num(m.between(-10, 0, 15, 70))))
		}
		m.line("horizon = [%s]", strings.Join(points, ", "))
	}
	m.maybe(0.3, "edging_m", 0, 0, 100, 10_000)
	if !m.drawn {
		return
	}
	for i := range parts {
		if parts == 1 {
			break
		}
		m.line("[[lawn.part]]")
		part := m.room
		part.x += float64(i) * (m.room.w + 1)
		m.line("outline = %s", m.outline(part))
	}
	whole := square{m.room.x, m.room.y, float64(parts) * (m.room.w + 1), m.room.h}
	for range m.IntN(5) {
		m.obstacle(whole)
	}
	for i := range m.IntN(3) {
		m.line("[[probe]]")
		m.word(0.8, "name", "by the bench", "edge", fmt.Sprint("probe ", i))
		m.line("at = [%s, %s]", num(round(whole.x+whole.w*m.Float64())), num(round(whole.y+whole.h*m.Float64())))
	}
}

// outline is a rectangle, or one with a corner cut off.
func (m *maker) outline(s square) string {
	if m.often(0.7) {
		return s.corners()
	}
	return fmt.Sprintf("[[%s, %s], [%s, %[2]s], [%[3]s, %[4]s], [%[5]s, %[6]s], [%[1]s, %[6]s]]",
		num(round(s.x)), num(round(s.y)), num(round(s.x+s.w)), num(round(s.y+s.h*0.6)), num(round(s.x+s.w*0.4)), num(round(s.y+s.h)))
}

// obstacle puts something beside the lawn.
func (m *maker) obstacle(lawn square) {
	m.line("[[obstacle]]")
	m.word(0.8, "name", "house", "the neighbour's hedge", "birch", "wall", "shed")
	kind := pick(m, light.Solid, light.Gable, light.Tree, light.Screen)
	m.line("kind = %q", kind)
	high := m.between(0.3, 1, 12, 200)
	// A clear metre beside, so that the lawn stays in the open.
	gap, w, h := 1+m.upTo(0, 6), m.upTo(0.3, 14), m.upTo(0.3, 14)
	at := pick(m,
		square{lawn.x - gap - w, lawn.y, w, h}, square{lawn.x + lawn.w + gap, lawn.y, w, h},
		square{lawn.x, lawn.y - gap - h, w, h}, square{lawn.x, lawn.y + lawn.h + gap, w, h})
	if m.level && m.often(0.2) {
		m.number("top_m", high)
	} else {
		m.number("height_m", high)
	}
	switch kind {
	case light.Tree:
		m.line("at = [%s, %s]", num(round(at.x)), num(round(at.y)))
		m.number("crown_m", m.between(0.1, 1, 12, 60))
		if m.often(0.7) {
			m.number("clear_stem_m", math.Floor(10*high*m.upTo(0, 0.9))/10)
		}
		m.maybe(0.4, "stem_cm", 0.5, 5, 80, 500)
		switch m.IntN(4) {
		case 0:
			m.line("leaf = %q", pick(m, light.Deciduous, light.Evergreen))
		case 1:
			m.line("genus = %q", pick(m, light.Genera()...).Name)
		case 2:
			var through [12]float64
			for i := range through {
				through[i] = m.between(0, 0.1, 0.8, 1)
			}
			m.months("transmittance", through)
		}
		return
	case light.Gable:
		m.number("eaves_m", max(0.05, math.Floor(100*high*m.upTo(0.3, 0.9))/100))
	case light.Screen:
		m.number("transmittance", m.between(0, 0.1, 0.8, 1))
	}
	if kind != light.Screen {
		m.maybe(0.2, "albedo", 0, 0.1, 0.6, 0.95)
	}
	m.line("footprint = %s", at.corners())
}

func (m *maker) light() {
	if m.drawn && m.often(0.85) || !m.drawn && m.often(0.1) {
		return
	}
	m.line("[light]")
	switch m.IntN(4) {
	case 0:
		m.number("sun_hours", m.between(0, 1, 9, 24))
	case 1:
		var hours [12]float64
		for i := range hours {
			hours[i] = m.between(0, 0, 10, 24)
		}
		m.months("sun_hours", hours)
	case 2:
		m.number("dli_mol_m2_d", m.between(0, 2, 40, 70))
	case 3:
		m.number("shade_percent", m.between(0, 0, 90, 100))
	}
}

func words[T ~string](in []T) []string {
	out := make([]string, len(in))
	for i, w := range in {
		out[i] = string(w)
	}
	return out
}

func (m *maker) ground() {
	if m.often(0.25) {
		return
	}
	m.line("[ground]")
	if m.often(0.3) {
		sand := m.between(0, 10, 90, 100)
		m.number("sand_percent", sand)
		m.number("clay_percent", math.Floor((100-sand)*m.Float64()))
	} else {
		m.word(0.7, "texture", words(ground.Textures())...)
	}
	m.maybe(0.5, "organic_percent", 0, 1, 8, 100)
	m.maybe(0.6, "ph", 2.5, 4.5, 8, 11)
	if m.often(0.3) {
		m.number("percolation_mm_h", m.between(0, 1, 200, 10_000))
	} else {
		m.word(0.6, "drainage", words(ground.DrainageClasses())...)
	}
	m.maybe(0.2, "ec_ds_m", 0, 0, 8, 100)
	if m.deck = m.often(0.1); m.deck {
		m.word(1, "over", ground.Deck)
		m.maybe(1, "depth_cm", 0, 3, 40, 300)
	} else {
		m.maybe(0.5, "depth_cm", 0, 5, 40, 300)
	}
	m.maybe(0.2, "stones_percent", 0, 0, 40, ground.MostStonesPercent)
	m.word(0.3, "compaction", words(ground.Compactions())...)
	m.word(0.4, "phosphorus", "low", "medium", "high")
	m.word(0.4, "potassium", "low", "medium", "high")
}

func (m *maker) use() {
	m.line("[use]")
	m.word(1, "grade", "ornamental", "utility", "utility", "hard-wearing", "extensive")
	m.word(0.5, "traffic", "light", "moderate", "heavy")
	m.maybe(0.4, "mowing_mm", 3, 12, 80, 300)
	m.word(0.4, "mower", "cylinder", "rotary", "robot", "scythe")
	m.maybe(0.3, "mower_width_cm", 10, 25, 120, 400)
	m.maybe(0.3, "mows_per_week", 0, 0.5, 3, 14)
	if m.often(0.2) {
		m.flag(1, "water_young")
	} else {
		m.flag(0.6, "irrigation")
	}
	if m.often(0.3) {
		m.number("nitrogen_g_m2", m.between(0, 0, 25, 60))
	} else {
		m.word(0.5, "feeding", "none", "low", "moderate", "high")
	}
	m.flag(0.3, "livestock")
	m.flag(0.3, "dogs")
	if m.often(0.2) {
		m.line(pick(m, "no_feed_from = \"11-15\"\nno_feed_until = \"03-01\"", "no_feed_from = \"09-15\"\nno_feed_until = \"03-31\"", "no_feed_from = \"04-01\"\nno_feed_until = \"08-31\""))
	}
}

func (m *maker) job() {
	if m.often(0.2) {
		return
	}
	m.line("[job]")
	kind := pick(m, "", "new", "new", "overseed", "renovate")
	if kind != "" {
		m.line("kind = %q", kind)
	}
	if kind == "overseed" || kind == "renovate" {
		m.word(0.5, "found", "old lawn", "moss")
		m.maybe(0.7, "cover_percent", 0, 20, 90, 100)
	} else {
		m.word(0.5, "found", "bare", "old lawn", "moss", "gravel", "paving")
	}
	m.maybe(0.3, "access_m", 0.3, 0.6, 3, 20)
	m.word(0.4, "method", "broadcast", "drill", "in dressing")
	// Days that follow one another and lie after the plan's, whichever it is of its year.
	from := m.dayOf(m.year + 1)
	if m.often(0.3) {
		m.day("not_before", from)
	}
	if m.often(0.3) {
		m.day("not_after", from.AddDate(0, 0, 1+m.IntN(500)))
	}
	if m.often(0.3) {
		m.day("needed_by", from.AddDate(0, 0, 1+m.IntN(900)))
	}
	m.maybe(0.3, "success", 0.5, 0.6, 0.95, 0.99)
	if !m.deck && m.often(0.2) {
		sand := 5 * float64(m.IntN(21))
		base := ""
		if m.often(0.5) {
			base = `, base = "gravel"`
		}
		m.line("rootzone = { depth_cm = %s, sand_percent = %s, soil_percent = %s%s }", num(m.between(2, 10, 35, 100)), num(sand), num(100-sand), base)
	}
}

func (m *maker) bags() {
	if m.often(0.6) {
		var sizes []string
		for range 1 + m.IntN(3) {
			sizes = append(sizes, num(math.Round(1000*m.between(0.01, 0.5, 20, 2000))/1000))
		}
		m.line("bag_kg = [%s]", strings.Join(sizes, ", "))
	}
}

// sown is a grass that can be bought, by one of its names.
func (m *maker) sown() string {
	for {
		if g := pick(m, m.grasses...); !g.Invader {
			return pick(m, g.ID, g.Botanical)
		}
	}
}

func (m *maker) stock() {
	if m.often(0.3) {
		for range 1 + m.IntN(6) {
			m.line("[[seed_lot]]")
			m.line("species = %q", m.sown())
			m.word(0.7, "name", "lot on offer", "lot B", "=1+1")
			m.maybe(0.6, "purity_percent", 10, 90, 99, 100)
			m.maybe(0.6, "germination_percent", 10, 70, 95, 100)
			m.maybe(0.6, "price_per_kg", 0, 3, 60, 1e6)
			m.bags()
			m.maybe(0.3, "kg", 0.01, 1, 200, 1e6)
		}
	}
	if m.often(0.25) {
		for range 1 + m.IntN(3) {
			m.line("[[premix]]")
			m.word(0.8, "name", "shade bag", "renovation bag")
			m.maybe(0.7, "price_per_kg", 0, 3, 30, 1e6)
			m.bags()
			left, names := 100, map[string]bool{}
			var parts []string
			for n := 1 + m.IntN(4); n > 0 && left > 0; n-- {
				share := left
				if n > 1 {
					share = min(left, 5*(1+m.IntN(15)))
				}
				g := pick(m, m.grasses...)
				if names[g.ID] {
					n++
					continue
				}
				names[g.ID] = true
				parts = append(parts, fmt.Sprintf("%q = %d", g.ID, share))
				left -= share
			}
			m.line("parts = { %s }", strings.Join(parts, ", "))
			if left > 0 { // the shares drawn fell short
				text := m.out.String()
				at := strings.LastIndex(text, "parts = ")
				m.out.Reset()
				m.out.WriteString(text[:at])
				m.line("parts = { %q = 100 }", m.sown())
			}
		}
	}
}

func (m *maker) prices() {
	if m.often(0.5) {
		return
	}
	m.line("[prices]")
	m.maybe(0.6, "labour_per_hour", 0, 15, 60, 1e9)
	m.maybe(0.6, "turf_per_m2", 0, 2, 12, 1e9)
	m.maybe(0.4, "tax_percent", 0, 0, 25, 100)
	m.maybe(0.4, "margin_percent", 0, 0, 30, 100)
	m.maybe(0.2, "delivery_per_load", 0, 20, 200, 1e9)
	m.maybe(0.2, "mow_m2_per_hour", 50, 200, 2000, 5000)
	m.maybe(0.2, "discount_percent", 0, 0, 20, 100)
}

// record writes what was sown and seen in the years before the plan's.
func (m *maker) record() {
	if m.often(0.65) {
		return
	}
	day := time.Date(m.year-1-m.IntN(4), time.January, 1+m.IntN(365), 0, 0, 0, 0, time.UTC)
	last := time.Date(m.year-1, time.December, 31, 0, 0, 0, 0, time.UTC)
	next := func(days int) bool {
		day = day.AddDate(0, 0, 1+m.IntN(days))
		return !day.After(last)
	}
	where := func() {
		switch {
		case m.often(0.4):
			m.line("zone = \"A\"")
		case m.drawn && m.often(0.3):
			m.line("at = [%s, %s]", num(m.room.x+0.2*m.room.w), num(m.room.y+0.2*m.room.h))
		}
	}
	sown := m.often(0.8)
	if sown {
		for range 1 + m.IntN(2) {
			m.line("[[sown]]")
			m.day("date", day)
			where()
			m.maybe(0.6, "rate_g_m2", 0.1, 10, 40, 200)
			m.word(0.2, "into", "bare", "sward")
			a, b := m.sown(), m.sown()
			share := 5 * (1 + m.IntN(19))
			if strings.EqualFold(a, b) || m.often(0.3) || grassOf(m, a) == grassOf(m, b) {
				m.line("parts = { %q = 100 }", a)
			} else {
				m.line("parts = { %q = %d, %q = %d }", a, share, b, 100-share)
			}
			if !next(200) {
				return
			}
		}
	}
	for range m.IntN(7) {
		m.line("[[seen]]")
		m.day("date", day)
		where()
		m.seen(sown)
		if !next(250) {
			return
		}
	}
}

// seen writes one thing that was seen on a lawn, sown or not.
func (m *maker) seen(sown bool) {
	switch x := m.Float64(); {
	case x < 0.55:
		m.count()
	case x < 0.65:
		m.number("cover_percent", m.between(0, 20, 95, 100))
	case x < 0.72 && sown:
		m.line("up = true")
	case x < 0.79 && sown:
		m.line("first_cut = true")
	case x < 0.86:
		m.number("snow_mould_percent", m.between(0, 1, 40, 100))
	case x < 0.93:
		m.number("sun_hours", m.between(0, 1, 12, 24))
	default:
		m.number("mowing_mm", m.between(3, 12, 80, 300))
	}
}

func grassOf(m *maker, name string) string {
	for _, g := range m.grasses {
		if g.ID == name || g.Botanical == name {
			return g.ID
		}
	}
	return ""
}

// count writes points that were counted.
func (m *maker) count() {
	n := pick(m, 1, 10, 30, 100, 100, 300)
	m.line("points = %d", n)
	switch m.IntN(5) {
	case 0:
		m.line("layout = \"string\"")
	case 1:
		m.line("layout = \"throws\"\npoints_each = %d", min(n, 5))
	case 2:
		m.line("layout = \"frame\"")
	case 3:
		m.line("layout = \"steps\"")
	}
	m.word(0.3, "by", "the groundsman", "A. N. Other")
	grass := m.IntN(n + 1)
	m.line("grass = %d", grass)
	if left := n - grass; m.often(0.6) {
		moss := m.IntN(left + 1)
		weeds := m.IntN(left - moss + 1)
		m.line("moss = %d\nweeds = %d\nbare = %d", moss, weeds, left-moss-weeds)
	}
	if m.often(0.6) {
		a := m.IntN(grass + 1)
		b := m.IntN(grass - a + 1)
		m.line("of_grass = { %s = %d, ryegrass = %d }", pick(m, "fescue", "bents", "meadow-grass"), a, b)
	}
}
