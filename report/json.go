// Package report shows a sowing.Plan: as JSON and as a bill in CSV here, as text,
// paper, page and calendar in its sub-rooms. It computes nothing of the trade.
package report

import (
	"encoding/json"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/samber/lo"

	"swardwright/internal/calendar"
	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/sward"
	"swardwright/report/say"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/sowing"
	"swardwright/sowing/dates"
	"swardwright/sowing/job"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/species"
)

// JSON writes a plan as one JSON object. The names of its members are a
// contract: members may be added, none is taken away or renamed. Members stand
// in a fixed order, and figures are rounded to what they are good for.
func JSON(w io.Writer, p sowing.Plan) error {
	f, err := say.For(p)
	if err != nil {
		return err
	}
	return write(w, planOf(p, f.Plain()))
}

// LightJSON writes the light of a lawn alone.
func LightJSON(w io.Writer, title string, field light.Field, s *say.Sayer) error {
	return write(w, struct {
		Title string    `json:"title"`
		Light jsonLight `json:"light"`
		Notes []string  `json:"notes"`
	}{title, lightOf(field, s.Plain()), s.Plain().All(field.Notes)})
}

// DaysJSON writes the direct sun at probes on chosen days.
func DaysJSON(w io.Writer, probes []light.ProbeDays) error {
	type jsonDay struct {
		Day      int     `json:"day"`
		SunHours float64 `json:"sun_hours"`
	}
	type jsonDays struct {
		Name string    `json:"name"`
		X    float64   `json:"x"`
		Y    float64   `json:"y"`
		Days []jsonDay `json:"days"`
	}
	return write(w, struct {
		Probes []jsonDays `json:"probes"`
	}{lo.Map(probes, func(p light.ProbeDays, _ int) jsonDays {
		return jsonDays{p.Name, p.At.X, p.At.Y, lo.Map(p.Days, func(d light.DaySun, _ int) jsonDay {
			return jsonDay{d.Day, round(d.SunHours, 4)}
		})}
	})})
}

func write(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

type jsonPlan struct {
	Title           string         `json:"title"`
	Reference       string         `json:"reference,omitempty"`
	Date            string         `json:"date"`
	Headline        string         `json:"headline"`
	Assumptions     []string       `json:"assumptions"`
	Place           jsonPlace      `json:"place"`
	Light           jsonLight      `json:"light"`
	Ground          jsonGround     `json:"ground"`
	Grade           jsonGrade      `json:"grade"`
	Advice          string         `json:"advice"`
	Matrix          []jsonRow      `json:"matrix"`
	Mixture         *jsonMixture   `json:"mixture"`
	Second          *jsonSecond    `json:"mixture_by_zone,omitempty"`
	Premixes        []jsonPremix   `json:"premixes"`
	Order           []jsonBag      `json:"order"`
	SowOn           string         `json:"sow_on,omitempty"`
	Windows         []jsonWindow   `json:"windows"`
	Seconds         []jsonWindow   `json:"second_choices"`
	Cost            jsonCost       `json:"cost"`
	Tasks           []jsonTask     `json:"tasks"`
	Water           *jsonWater     `json:"water"`
	NearestPractice []jsonPractice `json:"nearest_practice"`
	PracticeHeard   float64        `json:"practice_heard"`
	Variants        []jsonVariant  `json:"variants"`
	GrassM2         float64        `json:"grass_m2"`
	WhyThisWay      string         `json:"why_this_way"`
	Unpriced        []string       `json:"unpriced"`
	Cautions        []string       `json:"cautions"`
	Sources         []string       `json:"sources"`
	Record          []jsonSeen     `json:"record,omitempty"`
	NextYear        []jsonNext     `json:"next_year,omitempty"`
	RecordAsks      []string       `json:"record_asks,omitempty"`
	Standing        []jsonStanding `json:"standing,omitempty"`
}

type jsonPlace struct {
	LatitudeDeg   float64   `json:"latitude_deg"`
	Normals       string    `json:"normals"`
	DistanceKM    float64   `json:"distance_km"`
	AreaM2        float64   `json:"area_m2"`
	EdgingM       float64   `json:"edging_m"`
	MeanC         float64   `json:"mean_c"`
	RainMM        float64   `json:"rain_mm"`
	GrowingDays   float64   `json:"growing_days"`
	SnowDays      float64   `json:"snow_days"`
	AirMinC       float64   `json:"air_min_c"`
	Frost         jsonFrost `json:"frost"`
	RadiationFrom string    `json:"radiation_from"`
}

// jsonFrost are days of the year as month and day; null where frost comes in too few
// years.
type jsonFrost struct {
	LastLate    *string `json:"last_spring_1_in_10"` // so late in one year of ten
	LastMedian  *string `json:"last_spring_median"`
	FirstMedian *string `json:"first_autumn_median"`
	FirstEarly  *string `json:"first_autumn_1_in_10"`
}

type jsonLight struct {
	Zones  []jsonZone  `json:"zones"`
	Probes []jsonProbe `json:"probes"`
}

type jsonZone struct {
	Name            string    `json:"name"`
	Letter          string    `json:"letter"`
	Share           float64   `json:"share"`
	AreaM2          float64   `json:"area_m2"`
	SunHoursByMonth []float64 `json:"sun_hours_by_month"`
	SunHoursSeason  float64   `json:"sun_hours_season"`
	DLIByMonth      []float64 `json:"dli_by_month_mol_m2_d"`
	DLISeason       float64   `json:"dli_season_mol_m2_d"`
	OpenShare       float64   `json:"open_share"`
	SkyView         float64   `json:"sky_view"`
	Verdict         string    `json:"verdict,omitempty"`
	Chance          *float64  `json:"chance,omitempty"`
	CoverExpected   *float64  `json:"cover_expected,omitempty"`
	Instead         []string  `json:"instead,omitempty"`
}

type jsonProbe struct {
	Name            string    `json:"name"`
	X               float64   `json:"x"`
	Y               float64   `json:"y"`
	SunHoursByMonth []float64 `json:"sun_hours_by_month"`
	SunHoursSeason  float64   `json:"sun_hours_season"`
	DLISeason       float64   `json:"dli_season_mol_m2_d"`
}

type jsonGround struct {
	Found           *jsonSoil   `json:"found"`
	Prepared        *jsonSoil   `json:"prepared"`
	Texture         string      `json:"texture"`
	PH              float64     `json:"ph"`
	Drainage        string      `json:"drainage"`
	InfiltrationMMH float64     `json:"infiltration_mm_h"`
	Lime            string      `json:"lime"`
	Layers          []jsonLayer `json:"layers"`
	Checks          []jsonCheck `json:"checks"`
}

// jsonSoil is the ground as found or as prepared.
type jsonSoil struct {
	Texture         string  `json:"texture"`
	Drainage        string  `json:"drainage"`
	WetShare        float64 `json:"wet_share"`
	InfiltrationMMH float64 `json:"infiltration_mm_h"`
	PH              float64 `json:"ph"`
	DepthCM         float64 `json:"depth_cm"`
}

type jsonLayer struct {
	Name    string  `json:"name"`
	DepthMM float64 `json:"depth_mm"`
	Note    string  `json:"note,omitempty"`
}

type jsonCheck struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Figure string `json:"figure"`
	Limit  string `json:"limit"`
	OK     bool   `json:"ok"`
	Advice string `json:"advice,omitempty"`
}

type jsonGrade struct {
	Asked      string          `json:"asked"`
	Attainable string          `json:"attainable"`
	Holds      bool            `json:"holds"`
	Chance     float64         `json:"chance"`
	ShortBy    []jsonShortfall `json:"short_by"`
	Because    string          `json:"because"`
	Lifts      []jsonLift      `json:"lifts"`
}

type jsonShortfall struct {
	What string  `json:"what"`
	Is   float64 `json:"is"`
	Asks float64 `json:"asks"`
}

type jsonLift struct {
	Change    string  `json:"change"`
	Grade     string  `json:"grade"`
	Chance    float64 `json:"chance"`
	CoverGain float64 `json:"cover_gain"`
	GrassM2   float64 `json:"grass_m2_gain"`
	Cost      *string `json:"cost"` // null: ask for a price
	Yearly    bool    `json:"yearly"`
}

func liftOf(l sowing.Lift, f *say.Sayer) jsonLift {
	out := jsonLift{Change: f.Say(l.Change), Grade: string(l.Grade), Chance: round(l.Chance, 2), CoverGain: round(l.Gain.Middle, 3), GrassM2: round(l.GrassM2, 1), Yearly: l.Yearly}
	switch {
	case l.Cost != nil:
		out.Cost = new(l.Cost.String())
	case !l.AskPrice:
		out.Cost = new("0")
	}
	return out
}

type jsonRow struct {
	ID        string             `json:"id"`
	Species   string             `json:"species"`
	Botanical string             `json:"botanical"`
	Zone      string             `json:"zone"`
	Overall   float64            `json:"overall"`
	Class     string             `json:"class"`
	LimitedBy string             `json:"limited_by"`
	Ratings   map[string]float64 `json:"ratings"`
	Sureness  string             `json:"sureness,omitempty"`
}

type jsonMixture struct {
	Components    []jsonComponent `json:"components"`
	RateGM2       float64         `json:"rate_g_m2"`
	SeedsPerM2    float64         `json:"seeds_per_m2"`
	SeedKG        float64         `json:"seed_kg"`
	CoverExpected float64         `json:"cover_expected"`
	CoverBadYear  float64         `json:"cover_bad_year"`
	EarlyCover    float64         `json:"early_cover"`
	Evenness      float64         `json:"evenness"`
	Sward         []jsonSeason    `json:"sward"`
	NearTies      []jsonBlend     `json:"near_ties,omitempty"`
	LeadsOn       float64         `json:"leads_on,omitempty"`
	ModelAlone    *jsonBlend      `json:"model_alone,omitempty"`
}

type jsonPractice struct {
	Source   string             `json:"source"`
	Place    string             `json:"place"`
	Firm     bool               `json:"firm"` // first-hand, with a clear figure
	Likeness float64            `json:"likeness"`
	Alike    string             `json:"alike"`
	Says     map[string]float64 `json:"says"` // percent by weight, the middle of what is published
	Leads    []string           `json:"leads,omitempty"`
	Sows     string             `json:"sows"`
	Departs  []string           `json:"departs"`
	Because  string             `json:"because,omitempty"`
}

func practiceOf(n mix.NearPractice, f *say.Sayer) jsonPractice {
	out := jsonPractice{
		Source: n.Institution + ", " + n.Title, Place: n.Place, Firm: n.Firm, Leads: n.Leads, Likeness: round(n.Likeness, 2), Alike: f.Say(n.Alike), Says: map[string]float64{}, Sows: f.Say(n.Sows),
		Departs: f.All(n.Departs),
	}
	for _, b := range n.Shares {
		out.Says[strings.Join(b.Of, " or ")] = round((b.Low+b.High)/2, 1)
	}
	if !n.Because.Silent() {
		out.Because = f.Say(n.Because)
	}
	return out
}

type jsonBlend struct {
	Percent       map[string]float64 `json:"percent_by_weight"`
	CoverExpected float64            `json:"cover_expected"`
	CoverBadYear  float64            `json:"cover_bad_year"`
	Ahead         float64            `json:"ahead"`
}

type jsonComponent struct {
	ID              string  `json:"id"`
	Species         string  `json:"species"`
	PercentByWeight int     `json:"percent_by_weight"`
	PercentBySeed   float64 `json:"percent_by_seed"`
	Grams           float64 `json:"grams"`
	Because         string  `json:"because"`
}

type jsonSeason struct {
	Year   int                `json:"year"`
	Cover  float64            `json:"cover"`
	Shares map[string]float64 `json:"shares"`
	Weeds  float64            `json:"weeds"` // cover of broad-leaved weeds, 0 to 1
	Moss   float64            `json:"moss"`
}

type jsonPremix struct {
	Name          string       `json:"name"`
	Score         float64      `json:"score"`
	CoverExpected float64      `json:"cover_expected"`
	CoverBadYear  float64      `json:"cover_bad_year"`
	Sward         []jsonSeason `json:"sward"`
	TopUp         []jsonTopUp  `json:"top_up"` // for each kilogram of the bag
	TopUpScore    float64      `json:"top_up_score"`
	Verdict       string       `json:"verdict"`
}

type jsonTopUp struct {
	ID    string  `json:"id"`
	Grams float64 `json:"grams"`
}

type jsonBag struct {
	Lot   string  `json:"lot"`
	ID    string  `json:"id,omitempty"`
	KG    float64 `json:"kg"`
	Count int     `json:"count"`
	Price string  `json:"price"`
}

type jsonWindow struct {
	Kind          string    `json:"kind"`
	Opens         string    `json:"opens"`
	Closes        string    `json:"closes"`
	Best          string    `json:"best,omitempty"`
	Success       float64   `json:"success"`
	EmergenceDays []float64 `json:"emergence_days"`
	FirstMowDays  []float64 `json:"first_mow_days"`
	Met           bool      `json:"allowed"`
	Wrong         string    `json:"goes_wrong,omitempty"` // of a second choice
}

type jsonCost struct {
	Currency          string     `json:"currency"`
	ExamplePrices     bool       `json:"example_prices"`
	DaysEarlier       int        `json:"turf_days_earlier"`
	EarlierPerDay     string     `json:"turf_earlier_per_day"`
	TurfCheaperChance float64    `json:"turf_cheaper_chance"`
	Ways              []jsonWay  `json:"ways"`
	BreakEvens        []jsonTurn `json:"break_evens"`
}

type jsonTurn struct {
	What  string `json:"what"`
	At    string `json:"at"`
	Means string `json:"means"`
}

type jsonDriver struct {
	Name string `json:"name"`
	Low  string `json:"low"`
	High string `json:"high"`
}

type jsonWay struct {
	Way        string       `json:"way"`
	Total      string       `json:"total"`
	P10        string       `json:"p10"`
	P50        string       `json:"p50"`
	P90        string       `json:"p90"`
	Net        string       `json:"net"`
	Margin     string       `json:"margin"`
	Discount   string       `json:"discount"`
	Tax        string       `json:"tax"`
	Deposit    string       `json:"deposit"`
	PerM2      string       `json:"per_m2"`
	Success    float64      `json:"success"`
	Chosen     bool         `json:"chosen"`
	InTime     bool         `json:"in_time"`
	UsableFrom *string      `json:"usable_from"`
	StartOn    string       `json:"start_on"`
	SownM2     float64      `json:"sown_m2"`
	KeptM2     float64      `json:"kept_m2,omitempty"` // of a sward that stands, left alone
	LaidM2     float64      `json:"laid_m2"`
	Grade      string       `json:"grade"`
	Holds      bool         `json:"holds"`
	Chance     float64      `json:"chance"`
	TurfOf     []string     `json:"turf_of,omitempty"`
	Water      *jsonWater   `json:"water"`
	Drivers    []jsonDriver `json:"drivers"`
	Lines      []jsonLine   `json:"lines"`
}

type jsonLine struct {
	Item     string  `json:"item"`
	Group    string  `json:"group"`
	Quantity float64 `json:"quantity"`
	Unit     string  `json:"unit"`
	Rate     string  `json:"rate"`
	Amount   string  `json:"amount"`
}

type jsonTask struct {
	ID     string     `json:"id"`
	Date   string     `json:"date"`
	Until  string     `json:"until,omitempty"`
	Title  string     `json:"title"`
	Detail string     `json:"detail"`
	Zones  []string   `json:"zones"`
	M2     float64    `json:"m2"`
	Hours  float64    `json:"hours"`
	Litres float64    `json:"litres"`
	Goes   int        `json:"goes"`
	Needs  []jsonNeed `json:"needs"`
	Chance float64    `json:"chance,omitempty"`
	First  bool       `json:"first_year"`
}

// because is why the standard is what it is, of the chosen way where there is one.
func because(p sowing.Plan) told.Sentence {
	if p.Kind == "" {
		return p.Choice.Because
	}
	return p.Standard.Because
}

type jsonNeed struct {
	ID   string `json:"id"`
	Days int    `json:"days"`
}

type jsonWater struct {
	Goes   int     `json:"goes"`
	Litres float64 `json:"litres"`
	Until  string  `json:"until"`
}

func planOf(p sowing.Plan, f *say.Sayer) jsonPlan {
	out := jsonPlan{
		Title: p.Brief.Title, Reference: p.Brief.Reference, Date: day(p.Date), Headline: f.Text(p.Headline),
		Assumptions: f.All(p.Assumptions), Cautions: f.All(p.Cautions), Sources: f.All(p.Sources),
		Advice: string(p.Advice),
		Grade: jsonGrade{
			Asked: string(p.Choice.Asked), Attainable: string(p.Choice.Attainable),
			Holds: p.Standard.Holds, Chance: round(p.Standard.Chance, 2), Because: f.Say(because(p)),
			ShortBy: lo.Map(p.Standard.ShortBy, func(s mix.Shortfall, _ int) jsonShortfall {
				return jsonShortfall{string(s.What), round(s.Is, 3), round(s.Asks, 3)}
			}),
			Lifts: lo.Map(p.Lifts, func(l sowing.Lift, _ int) jsonLift { return liftOf(l, f) }),
		},
		Mixture:  mixtureOf(p, f),
		Second:   secondOf(p, f),
		Premixes: lo.Map(p.Choice.Premixes, func(j mix.Judged, _ int) jsonPremix { return premixOf(j, f) }),
		Order:    lo.Map(p.Order.Bags, func(b order.Bag, _ int) jsonBag { return bagOf(b, p.Brief.Currency) }),
		SowOn:    sowOn(p),
		Windows:  lo.Map(p.Dates.Windows, func(w dates.Window, _ int) jsonWindow { return windowOf(w, f) }),
		Seconds:  lo.Map(p.Dates.Seconds, func(w dates.Window, _ int) jsonWindow { return windowOf(w, f) }),
		Cost:     costOf(p, f),
		Tasks:    lo.Map(p.Tasks, func(t job.Task, _ int) jsonTask { return taskOf(t, f) }),
		GrassM2:  round(job.Area(p.Grass), 1), WhyThisWay: f.Text(p.Why), Unpriced: f.All(p.Unpriced),
		Matrix: []jsonRow{},
		Light:  jsonLight{Zones: []jsonZone{}, Probes: []jsonProbe{}},
		Ground: groundOf(p, f),
	}
	out.Water = waterOf(p.Way)
	out.NearestPractice = lo.Map(p.Choice.Nearest, func(n mix.NearPractice, _ int) jsonPractice { return practiceOf(n, f) })
	out.PracticeHeard = round(p.Choice.Heard, 2)
	out.Variants = lo.Map(p.Variants, func(c sowing.Compared, _ int) jsonVariant { return variantOf(c, f) })
	out.NextYear = nextOf(p)
	if l := p.Learned; l != nil {
		out.Record, out.RecordAsks, out.Standing = recordOf(l), f.All(l.Asks()), standingOf(l)
	}
	if c := p.Site; c != nil {
		out.Place = jsonPlace{
			LatitudeDeg: c.Survey.Place.LatitudeDeg, Normals: c.Normals.Name, DistanceKM: round(c.DistanceKM, 0),
			AreaM2: round(c.AreaM2, 1), EdgingM: round(c.EdgingM, 1), RadiationFrom: f.Say(c.RadiationFrom),
			MeanC: round(c.Weather.MeanYearC, 1), RainMM: round(c.Weather.RainYearMM, 0),
			GrowingDays: round(c.Weather.GrowingDays, 0), SnowDays: round(c.Weather.SnowDays, 0),
			AirMinC: round(c.Weather.AirMinC, 1),
			Frost:   jsonFrost{monthDay(c.Weather.LastFrost10), monthDay(c.Weather.LastFrost50), monthDay(c.Weather.FirstFrost50), monthDay(c.Weather.FirstFrost10)},
		}
		out.Light = lightOf(c.Field, f)
		for i := range out.Light.Zones {
			verdict(&out.Light.Zones[i], i, p.Choice.Zones, f)
		}
		for _, r := range p.Matrix.Rows {
			out.Matrix = append(out.Matrix, rowOf(r, c.Field.Zones, f))
		}
	}
	return out
}

func lightOf(field light.Field, f *say.Sayer) jsonLight {
	return jsonLight{
		Zones: lo.Map(field.Zones, func(z light.Zone, _ int) jsonZone {
			return jsonZone{
				Name: f.Say(z.Name), Letter: z.Letter, Share: round(z.Share, 4), AreaM2: round(z.AreaM2, 1),
				SunHoursByMonth: months(z.Light.SunHours, 2), SunHoursSeason: round(z.Light.SunHoursSeason, 2),
				DLIByMonth: months(z.Light.DLI, 1), DLISeason: round(z.Light.DLISeason, 1),
				OpenShare: round(z.Light.OpenShare, 3), SkyView: round(z.Light.SkyView, 3),
			}
		}),
		Probes: lo.Map(field.Probes, func(q light.ProbeLight, _ int) jsonProbe {
			return jsonProbe{
				Name: q.Name, X: q.At.X, Y: q.At.Y,
				SunHoursByMonth: months(q.Light.SunHours, 2), SunHoursSeason: round(q.Light.SunHoursSeason, 2),
				DLISeason: round(q.Light.DLISeason, 1),
			}
		}),
	}
}

func verdict(z *jsonZone, zone int, verdicts []mix.ZoneVerdict, f *say.Sayer) {
	for _, v := range verdicts {
		if v.Zone == zone {
			chance, cover := round(v.Chance, 2), round(v.Cover, 3)
			z.Verdict, z.Chance, z.CoverExpected, z.Instead = string(v.Verdict), &chance, &cover, f.All(v.Instead)
		}
	}
}

func groundOf(p sowing.Plan, f *say.Sayer) jsonGround {
	g := jsonGround{Lime: f.Text(p.Bed.Lime), Layers: []jsonLayer{}, Checks: []jsonCheck{}}
	if p.Found != nil {
		g.Found = soilOf(p.Found)
	}
	if p.Site != nil {
		g.Prepared = soilOf(p.Site)
		s := p.Site.Soil
		g.Texture, g.PH, g.Drainage, g.InfiltrationMMH = s.Texture, round(s.PH, 1), s.Drainage, round(s.InfiltrationMMH, 1)
	}
	for _, l := range p.Bed.Layers {
		g.Layers = append(g.Layers, jsonLayer{f.Figure(l.Kind.Told()), round(l.DepthMM, 0), f.Say(l.Note)})
	}
	for _, c := range p.Bed.Checks {
		g.Checks = append(g.Checks, jsonCheck{c.ID, f.Figure(c.Told()), f.Say(c.Figure), f.Say(c.Limit), c.OK, f.Say(c.Advice)})
	}
	return g
}

func soilOf(c *site.Conditions) *jsonSoil {
	g := c.Ground()
	return &jsonSoil{g.Texture, g.Drainage, round(g.WetShare, 3), round(g.InfiltrationMMH, 1), round(g.PH, 1), round(g.DepthCM, 1)}
}

func rowOf(r species.Row, zones []light.Zone, f *say.Sayer) jsonRow {
	zone := ""
	if r.Zone < len(zones) {
		zone = f.Say(zones[r.Zone].Name)
	}
	ratings := map[string]float64{}
	for _, x := range r.Ratings {
		ratings[x.Criterion] = round(x.Value, 3)
	}
	return jsonRow{
		ID: r.Species.ID, Species: f.Figure(told.Grass(r.Species.ID)), Botanical: r.Species.Botanical, Zone: zone,
		Overall: round(r.Overall, 3), Class: string(r.Class), LimitedBy: r.LimitedBy, Ratings: ratings,
		Sureness: r.Sureness,
	}
}

func mixtureOf(p sowing.Plan, f *say.Sayer) *jsonMixture {
	m := p.Choice.Mixture
	if p.Kind == "" {
		return nil
	}
	out := &jsonMixture{
		Components: componentsOf(m, p.Rate, f),
		RateGM2:    round(p.Rate.GM2, 1), SeedsPerM2: round(p.Rate.SeedsPerM2, -2), SeedKG: round(p.Rate.TotalG/1000, 3),
		CoverExpected: round(m.CoverExpected, 3), CoverBadYear: round(m.CoverBadYear, 3),
		EarlyCover: round(m.EarlyCover, 3), Evenness: round(m.Evenness, 3), Sward: swardOf(m.Sward),
		LeadsOn:  round(m.LeadsOn, 2),
		NearTies: lo.Map(m.NearTies, func(b mix.Blend, _ int) jsonBlend { return blendOf(b) }),
	}
	if m.ModelAlone != nil {
		alone := blendOf(*m.ModelAlone)
		out.ModelAlone = &alone
	}
	return out
}

func blendOf(b mix.Blend) jsonBlend {
	percent := lo.SliceToMap(b.Parts, func(p mix.Part) (string, float64) { return p.Species.ID, p.Percent })
	return jsonBlend{percent, round(b.CoverExpected, 3), round(b.CoverBadYear, 3), round(b.Ahead, 2)}
}

func swardOf(seasons []sward.Season) []jsonSeason {
	return lo.Map(seasons, func(s sward.Season, _ int) jsonSeason {
		return jsonSeason{Year: s.Year, Cover: round(s.Cover, 3), Weeds: round(s.Weeds, 3), Moss: round(s.Moss, 3),
			Shares: lo.MapValues(s.Shares, func(share float64, _ string) float64 { return round(share, 1) })}
	})
}

func premixOf(j mix.Judged, f *say.Sayer) jsonPremix {
	return jsonPremix{
		Name: j.Premix.Name, Score: round(j.Mixture.Score, 3), CoverExpected: round(j.Mixture.CoverExpected, 3),
		CoverBadYear: round(j.Mixture.CoverBadYear, 3), Sward: swardOf(j.Mixture.Sward),
		TopUp: lo.Map(j.TopUp, func(t mix.TopUp, _ int) jsonTopUp {
			return jsonTopUp{t.Species.ID, round(t.GramsPerKG, 0)}
		}),
		TopUpScore: round(j.TopUpScore, 3), Verdict: f.Say(j.Verdict),
	}
}

func bagOf(b order.Bag, currency string) jsonBag {
	return jsonBag{b.Lot, b.SpeciesID, b.KG, b.Count, money.Amount{Minor: b.PriceMinor, Currency: currency}.String()}
}

// spanOf is the two ends of a span; null where what it is of never comes.
func spanOf(s *dates.Span) []float64 {
	if s == nil {
		return nil
	}
	return []float64{round(s.P10, 0), round(s.P90, 0)}
}

func windowOf(w dates.Window, f *say.Sayer) jsonWindow {
	return jsonWindow{
		Kind: string(w.Kind), Opens: day(w.Opens), Closes: day(w.Closes), Best: day(w.Best), Success: round(w.Success, 3),
		EmergenceDays: spanOf(w.EmergenceDays),
		FirstMowDays:  spanOf(w.FirstMowDays),
		Met:           w.Allowed,
		Wrong:         f.Say(w.Wrong),
	}
}

func costOf(p sowing.Plan, f *say.Sayer) jsonCost {
	c := p.Cost
	return jsonCost{Currency: c.Currency, ExamplePrices: c.ExamplePrices,
		DaysEarlier: c.DaysEarlier, EarlierPerDay: c.EarlierPerDay.String(), TurfCheaperChance: round(c.TurfCheaperChance, 3),
		BreakEvens: lo.Map(c.BreakEvens, func(t money.BreakEven, _ int) jsonTurn {
			return jsonTurn{f.Figure(t.Told()), f.Figure(t.At), f.Say(t.Means)}
		}),
		Ways: lo.Map(p.Ways, func(w sowing.Way, _ int) jsonWay { return wayOf(w, w.Kind == p.Kind, f) }),
	}
}

func wayOf(w sowing.Way, chosen bool, f *say.Sayer) jsonWay {
	b := w.Bill
	out := jsonWay{
		Way: string(w.Kind), Total: b.Total.String(), P10: b.P10.String(), P50: b.P50.String(), P90: b.P90.String(),
		Net: b.Net.String(), Margin: b.Margin.String(), Discount: b.Discount.String(), Tax: b.Tax.String(),
		Deposit: b.Deposit.String(), PerM2: b.PerM2.String(), Success: round(b.Success, 3),
		Chosen: chosen, InTime: w.InTime, StartOn: day(w.StartOn), SownM2: round(job.Area(w.Sown), 1), KeptM2: round(job.Area(w.Kept), 1), LaidM2: round(job.Area(w.Laid), 1),
		Grade: string(w.Standard.Grade), Holds: w.Standard.Holds, Chance: round(w.Standard.Chance, 2), Water: waterOf(w),
		Drivers: lo.Map(b.Drivers, func(d money.Driver, _ int) jsonDriver {
			return jsonDriver{f.Figure(d.Told()), d.Low.String(), d.High.String()}
		}),
		// With margin, discount and tax the amounts of the lines add up to the total.
		Lines: lo.Map(slices.Concat(b.Lines, b.Extras), func(l money.Line, _ int) jsonLine {
			return jsonLine{f.Say(l.Item), string(l.Group), round(l.Quantity, 3), l.Unit, l.Rate.String(), l.Amount.String()}
		}),
	}
	if w.Mixture != nil && len(w.Sown) == 0 {
		out.TurfOf = lo.Map(w.Mixture.Components, func(c mix.Component, _ int) string { return c.Species.ID })
	}
	if w.UsableFrom != nil {
		on := day(*w.UsableFrom)
		out.UsableFrom = &on
	}
	return out
}

func waterOf(w sowing.Way) *jsonWater {
	if w.Kind == "" {
		return nil
	}
	return &jsonWater{w.Water.Goes, round(w.Water.Litres, 0), day(w.Water.Until)}
}

func taskOf(t job.Task, f *say.Sayer) jsonTask {
	return jsonTask{
		ID: t.ID, Date: day(t.Date), Until: day(t.Until), Title: f.Say(t.Title), Detail: f.Text(t.Detail), Zones: list(t.Zones), M2: round(t.AreaM2, 1),
		Hours: round(t.Hours, 2), Litres: round(t.Litres, 0), Goes: t.Goes, Chance: round(t.Chance, 2), First: t.First,
		Needs: lo.Map(t.Needs, func(n job.Need, _ int) jsonNeed { return jsonNeed(n) }),
	}
}

// sowOn is the day of sowing; empty where nothing is sown.
func sowOn(p sowing.Plan) string {
	if len(p.Sown) == 0 {
		return ""
	}
	return day(p.StartOn)
}

// day writes a date as ISO 8601; empty when there is none.
func day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// monthDay writes a day of the year, 0 being 1 January; nil of none.
func monthDay(day int) *string {
	if day < 0 {
		return nil
	}
	return new(calendar.Date(2027, day).Format("01-02"))
}

// list keeps an absent list from becoming null.
func list(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

func months(m [12]float64, digits int) []float64 {
	out := make([]float64, 12)
	for i, x := range m {
		out[i] = round(x, digits)
	}
	return out
}

// round keeps so many decimals, or with negative digits whole tens, hundreds …
// What is not a number becomes 0: JSON has no word for it.
func round(x float64, digits int) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return steady.Round(x, digits)
}
