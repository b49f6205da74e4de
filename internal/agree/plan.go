package agree

import "time"

// plan is what the JSON of a plan says, as far as it is held to anything.
type plan struct {
	Date        string
	Headline    string
	Assumptions []string
	Place       struct {
		AreaM2 float64 `json:"area_m2"`
	}
	Light struct {
		Zones  []zone
		Probes []probe
	}
	Ground struct {
		Found, Prepared *soil
	}
	Grade struct {
		Asked, Attainable, Because string
		Chance                     *float64
	}
	Advice   string
	Matrix   []row
	Mixture  *mixture
	Second   *second `json:"mixture_by_zone"`
	Premixes []struct {
		Name          string
		CoverExpected float64 `json:"cover_expected"`
		CoverBadYear  float64 `json:"cover_bad_year"`
		Sward         []season
	}
	Order   []bag
	SowOn   day `json:"sow_on"`
	Windows []window
	Cost    struct {
		Currency string
		Ways     []way
	}
	Tasks    []task
	Water    *water
	GrassM2  float64 `json:"grass_m2"`
	Cautions []string
	Sources  []string
}

type zone struct {
	Name, Letter string
	Share        float64
	AreaM2       float64   `json:"area_m2"`
	SunByMonth   []float64 `json:"sun_hours_by_month"`
	SunSeason    float64   `json:"sun_hours_season"`
	DLIByMonth   []float64 `json:"dli_by_month_mol_m2_d"`
	DLISeason    float64   `json:"dli_season_mol_m2_d"`
	OpenShare    float64   `json:"open_share"`
	SkyView      float64   `json:"sky_view"`
	Holds        *bool
	Verdict      string
	Chance       *float64
}

// lives says whether grass comes into a zone.
func (z zone) lives() bool {
	if z.Verdict != "" {
		return z.Verdict != "none"
	}
	return z.Holds != nil && *z.Holds
}

type probe struct {
	Name       string
	SunByMonth []float64 `json:"sun_hours_by_month"`
}

type soil struct {
	WetShare        float64 `json:"wet_share"`
	InfiltrationMMH float64 `json:"infiltration_mm_h"`
	PH              float64 `json:"ph"`
	DepthCM         float64 `json:"depth_cm"`
}

type row struct {
	ID, Zone, Class string
	Overall         float64
	LimitedBy       string `json:"limited_by"`
	Ratings         map[string]float64
}

type component struct {
	ID              string
	PercentByWeight float64 `json:"percent_by_weight"`
	PercentBySeed   float64 `json:"percent_by_seed"`
	Grams           float64
	Because         string
}

// second is what two mixtures come to in place of one.
type second struct {
	Taken    bool
	Because  string
	Zones    []string
	Gain     float64 `json:"cover_gain"`
	More     string
	Mixtures []part
}

// part is one of two mixtures with what becomes of its zones.
type part struct {
	Zones         []string
	M2            float64
	Components    []component
	RateGM2       float64 `json:"rate_g_m2"`
	SeedKG        float64 `json:"seed_kg"`
	CoverExpected float64 `json:"cover_expected"`
	CoverBadYear  float64 `json:"cover_bad_year"`
	Chance        float64
	Common        struct {
		CoverExpected float64 `json:"cover_expected"`
		Chance        float64
	} `json:"one_mixture"`
}

type mixture struct {
	Components    []component
	RateGM2       float64 `json:"rate_g_m2"`
	SeedsPerM2    float64 `json:"seeds_per_m2"`
	SeedKG        float64 `json:"seed_kg"`
	CoverExpected float64 `json:"cover_expected"`
	CoverBadYear  float64 `json:"cover_bad_year"`
	EarlyCover    float64 `json:"early_cover"`
	Evenness      float64
	Sward         []season
}

type season struct {
	Year   int
	Cover  float64
	Shares map[string]float64
}

type bag struct {
	ID    string
	KG    float64
	Count int
	Price string
}

type window struct {
	Kind          string
	Opens, Closes day
	Best          day
	Success       float64
	EmergenceDays []float64 `json:"emergence_days"`
	FirstMowDays  []float64 `json:"first_mow_days"`
	Allowed       bool
}

type way struct {
	Way                          string
	Total, Net, Margin, Discount string
	Tax, Deposit, P10, P50, P90  string
	PerM2                        string `json:"per_m2"`
	Success, Chance              float64
	TurfOf                       []string `json:"turf_of"`
	Chosen                       bool
	InTime                       bool    `json:"in_time"`
	UsableFrom                   *day    `json:"usable_from"`
	StartOn                      day     `json:"start_on"`
	SownM2                       float64 `json:"sown_m2"`
	LaidM2                       float64 `json:"laid_m2"`
	KeptM2                       float64 `json:"kept_m2"`
	Grade                        string
	Water                        *water
	Lines                        []line
}

type line struct {
	Item         string
	Quantity     float64
	Unit         string
	Rate, Amount string
}

type task struct {
	ID          string
	Date, Until day
	Title       string
	Detail      string
	Zones       []string
	M2          float64 `json:"m2"`
	Hours       float64
	Litres      float64
	Goes        int
	Needs       []struct {
		ID   string
		Days int
	}
	Chance float64
	First  bool `json:"first_year"`
}

// ends is the last day of a task.
func (t task) ends() day {
	if t.Until == "" {
		return t.Date
	}
	return t.Until
}

type water struct {
	Goes   int
	Litres float64
	Until  day
}

// day is a date as the JSON writes it; in that form dates sort as text.
type day string

func (d day) time() (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, string(d))
	return t, err == nil
}

// after is how many days a day lies after another.
func (d day) after(other day) int {
	a, _ := d.time()
	b, _ := other.time()
	return int(a.Sub(b).Hours() / 24)
}
