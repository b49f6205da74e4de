package told

import "time"

// Heat, lengths, areas, masses and volumes.
type (
	TemperatureC     float64 // a temperature: 14.3 °C, 58 °F
	TemperatureDiffK float64 // a difference of temperatures: 2 °C, 3.6 °F
	DistanceKM       float64 // to a station: 12 km, 7 mi
	LengthM          float64 // on the plan or up from it: 12.4 m, 41 ft
	DepthMM          float64 // a layer, a cut, a gap, by size: 5 mm, 30 mm, 1.2 m; 3/16 in, 4 ft
	FineMM           float64 // a leaf, a grain: 2.5 mm; 0.1 in
	WaterMM          float64 // rain or watering as a depth: 12 mm, 0.5 in
	AreaM2           float64
	MassG            float64 // by size: 850 g, 2.6 kg; 5 oz, 5.7 lb
	MassKG           float64 // the same from kilograms
	MassT            float64 // loads: 6.1 t, 6.8 tons
	VolumeL          float64 // water and small measures: 120 L, 32 gal
	VolumeM3         float64 // soil, sand, dressing: 2.4 m³, 3.1 cu yd
	LoadL            float64 // a barrow's or a bucket's load: 60 L, 2.1 cu ft
)

// Rates.
type (
	GramsPerM2  float64 // seed, feed, nitrogen: 25 g/m², 5.1 lb/1000 sq ft
	KGPerM2     float64 // lime, sand: 1.2 kg/m²
	TonnesPerHa float64
	GramsPerKG  float64 // of one thing to another: 180 g to each kilogram
	SeedsPerG   float64
	LitresPerM2 float64 // dressing, watering: 3 L/m²
	MMPerHour   float64 // rain, infiltration
	MMPerDay    float64 // growth, thirst
	SeedsPerM2  float64 // viable seeds: rounded to three figures
	PerM2       float64 // shoots, holes
	HoursPerM2  float64 // of work
	M2PerHour   float64 // of work
)

// Shares, chances and plain numbers.
type (
	Share      float64 // 0 to 1: 78%
	FineShare  float64 // the same to a tenth: 3.4%
	Points     float64 // a difference of shares, 0 to 1: 3 points
	Chance     float64 // a share of years, 0 to 1: 9 years in 10
	Odds       float64 // a chance, 0 to 1, as percent, but never certain: over 99%
	Score      float64 // a rating or score from 0 to 1: 0.58
	Count      int     // things counted without a noun: 1,200
	Year       int     // of the calendar: 2027, never grouped
	Ordinal    int     // season 1, step 3: small numbers that name
	OneIn      float64 // a slope as rise over run: 1 in 5
	Degrees    float64 // of an angle
	Coordinate float64 // degrees of latitude or longitude, its side said apart
	Bearing    float64 // degrees clockwise from north
)

// Number is a plain number with so many decimals.
type Number struct {
	X        float64
	Decimals int
}

// Counted is so many of a thing that the catalogue knows with its singular and
// plural: "7 cuts".
type Counted struct {
	N  int
	Of string // an entry of the catalogue's count.toml
}

// Light, ground and work.
type (
	DLI         float64 // daily light integral, mol m⁻² d⁻¹
	SunHours    float64 // of direct sun: 3.5 h
	PH          float64
	SalinityDSM float64 // ECe, dS/m
	WindMS      float64
	CrewHours   float64 // of work: 2.5 h
)

// Money is a sum in whole minor units. It converts from any struct of the same
// fields.
type Money struct {
	Minor    int64
	Currency string // ISO 4217
}

// MoneyRound is a sum no better than whole units of its currency.
type MoneyRound Money

// MoneyPerArea is what a sum comes to for each square metre or square foot.
type MoneyPerArea struct {
	Money  Money
	AreaM2 float64
}

// Dates and spans. A zero date is worded as none.
type (
	Date      time.Time  // 28 April 2027
	DayMonth  time.Time  // 28 April
	ShortDay  time.Time  // 28 Apr, where there is little room
	DayOfYear int        // 0 is 1 January of a year of 365 days; negative: none
	Month     time.Month // April
	Hours     float64    // a span: an hour, 7 hours
	Days      int
	Weeks     int
	Months    int
	Years     int
)

// Period is a run of days, the year named once where it can be.
type Period struct{ From, To time.Time }

// Optional is a date that may never come: Else is said in its place.
type Optional struct {
	Day  time.Time
	Else Sentence
}

// Names.
type (
	Grass    string // a grass by id, in the reader's own English or language
	Zone     string // a zone by letter
	Verbatim string // the user's own words: a place, an obstacle, a lot, a station
	Source   string // a citation, in its own language
)

// Term is a word of the catalogue's terms.toml: a standard, a criterion, a class.
// Words that a closed list of the core can take are held against it by a test.
type Term struct {
	Kind string // the table of terms.toml
	Word string // its entry
}

func (TemperatureC) figure()     {}
func (TemperatureDiffK) figure() {}
func (DistanceKM) figure()       {}
func (LengthM) figure()          {}
func (Odds) figure()             {}
func (DepthMM) figure()          {}
func (FineMM) figure()           {}
func (WaterMM) figure()          {}
func (AreaM2) figure()           {}
func (MassG) figure()            {}
func (MassKG) figure()           {}
func (MassT) figure()            {}
func (VolumeL) figure()          {}
func (VolumeM3) figure()         {}
func (LoadL) figure()            {}
func (GramsPerM2) figure()       {}
func (KGPerM2) figure()          {}
func (TonnesPerHa) figure()      {}
func (GramsPerKG) figure()       {}
func (SeedsPerG) figure()        {}
func (LitresPerM2) figure()      {}
func (MMPerHour) figure()        {}
func (MMPerDay) figure()         {}
func (SeedsPerM2) figure()       {}
func (HoursPerM2) figure()       {}
func (M2PerHour) figure()        {}
func (Share) figure()            {}
func (FineShare) figure()        {}
func (PerM2) figure()            {}
func (Points) figure()           {}
func (Chance) figure()           {}
func (Score) figure()            {}
func (Count) figure()            {}
func (Year) figure()             {}
func (Ordinal) figure()          {}
func (OneIn) figure()            {}
func (Degrees) figure()          {}
func (Bearing) figure()          {}
func (Coordinate) figure()       {}
func (Number) figure()           {}
func (Counted) figure()          {}
func (DLI) figure()              {}
func (SunHours) figure()         {}
func (PH) figure()               {}
func (SalinityDSM) figure()      {}
func (WindMS) figure()           {}
func (CrewHours) figure()        {}
func (Money) figure()            {}
func (MoneyRound) figure()       {}
func (MoneyPerArea) figure()     {}
func (Date) figure()             {}
func (DayMonth) figure()         {}
func (ShortDay) figure()         {}
func (DayOfYear) figure()        {}
func (Month) figure()            {}
func (Hours) figure()            {}
func (Days) figure()             {}
func (Weeks) figure()            {}
func (Months) figure()           {}
func (Years) figure()            {}
func (Period) figure()           {}
func (Optional) figure()         {}
func (Grass) figure()            {}
func (Zone) figure()             {}
func (Verbatim) figure()         {}
func (Source) figure()           {}
func (Term) figure()             {}
