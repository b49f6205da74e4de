// Package weather turns monthly climate normals into many synthetic years, day
// by day, and into what the ground and the sward of one zone meet in them.
//
// Years have 365 days; day 0 is 1 January. A season is counted from the coldest
// part of the year, so that in both hemispheres a Year holds one whole growing
// season and the winter that follows it.
package weather

// Normals are the monthly climate of a place, January first. Optional elements
// are nil where the source has none.
type Normals struct {
	Name                      string
	LatitudeDeg, LongitudeDeg float64
	AltitudeM                 float64

	MeanC, MinC, MaxC [12]float64 // daily mean, minimum and maximum air temperature, °C
	RainMM            [12]float64 // a month
	WetDays           [12]float64 // days with at least 1 mm

	SunHours    *[12]float64 // bright sunshine, hours a month
	VapourHPa   *[12]float64
	FrostDays   *[12]float64 // days with a minimum below 0 °C
	SnowDays    *[12]float64 // days with snow lying, least depth SnowDepthCM
	SnowDepthCM float64
	WindMS      *[12]float64 // mean speed at 10 m
	GlobalMJ    *[12]float64 // measured global radiation, MJ m⁻² d⁻¹

	SunFrom, GlobalFrom string // site near by where that element was measured, if not here

	Source string

	spread *[12]float64 // of the daily minimum, where it is known from before a move
}

// Station is a place of the built-in table.
type Station struct {
	WMO, Country string
	Normals
}

// Series is a run of synthetic years in the open at one place, day by day.
// All slices have Years*365 values.
type Series struct {
	Years             int
	Normals           Normals
	MeanC, MinC, MaxC []float32 // air, °C
	RainMM            []float32
	GlobalMJ          []float32 // MJ m⁻² d⁻¹ on open level ground
	SnowMM            []float32 // water held in the snow cover, mm
	SnowCM            []float32 // its depth

	grass []grassDay
}

// Exposure is what sets one zone apart from the open.
type Exposure struct {
	OpenShare                               [12]float64 // the zone's light over the open, by month
	DLI                                     [12]float64 // mol m⁻² d⁻¹
	FieldCapacity, WiltingPoint, Saturation float64     // of the rootzone, volume fractions
	RootDepthM                              float64
	DrainMMD                                float64 // what the ground below takes away at field saturation, mm a day
	Sheds                                   float64 // of the water that comes on frozen ground, the share that doesn't stay there to freeze, over ordinary ground
	Irrigated                               bool
}

// Days is what the ground and sward of one zone meet, day by day. All slices
// have Years*365 values.
type Days struct {
	*Series
	Exposure Exposure
	SoilC    []float32 // at sowing depth, 20 mm
	CrownC   []float32 // coldest the crown gets that day
	ET0MM    []float32 // FAO-56 reference evapotranspiration, scaled by the zone's light
	Moisture []float32 // share of the rootzone's available water left, 0 to 1
	Surface  []float32 // the same for the top 20 mm, which seed lives on
	Wet      []float32 // share of the day the rootzone stands above field capacity, 0 to 1
	IceMM    []float32 // of ice on the ground
	WaterMM  []float32 // given to the standing sward; all 0 unless the exposure is irrigated
	Growth   []float32 // of cool-season grass: growth potential × light × water, 0 to 1
	Warm     []float32 // the same for warm-season grass
}

// Year is one growing season of one zone and the winter after it.
type Year struct {
	GrowingDays           float64 // mean air temperature above 5 °C
	GrowthSum             float64 // of Days.Growth
	WarmSum               float64 // of Days.Warm
	WaterMM               float64 // irrigation of the standing sward
	WaterDeficitMM        float64 // reference evapotranspiration beyond the rain on growing days; negative where moist
	HotC                  float64 // mean daily maximum of the hottest 30 days on end
	HotMeanC              float64 // mean daily mean of the hottest 30 days on end
	DroughtDays           float64 // the worst drought: each growing day adds the share of its water that the sward goes short of (1 − Ks of FAO-56 equation 84) and takes off the share it gets
	WetDays               float64 // growing days with the ground above field capacity
	FirstFrost, LastFrost int     // day of the year; -1 if none

	Hardening   float64 // how far autumn hardens a grass, 0 (not at all) to 1
	CrownMinC   float64 // coldest crown of the winter
	ThawDays    float64 // days at the crown above 5 °C in the three weeks before the coldest, which undo hardening
	SnowDays    float64 // days under at least 1 cm
	LongestSnow float64 // longest unbroken run of them
	MouldDays   float64 // days under snow on ground not frozen, or wet and 0 to 8 °C
	IceDays     float64 // days sealed under ice
}

// Summary holds the means a reader of a plan wants.
type Summary struct {
	MeanYearC, ColdestMonthC, WarmestMonthC              float64
	RainYearMM                                           float64
	GrowingFrom, GrowingTo                               int // day of the year, mean dates
	GrowingDays                                          float64
	FrostFreeDays                                        float64
	LastFrost10, LastFrost50, FirstFrost50, FirstFrost10 int // day of the year; -1: no such frost
	SnowDays                                             float64
	AirMinC                                              float64 // mean of the yearly coldest
	DesignRainMMH                                        float64 // the rain of one hour met once in two years
}
