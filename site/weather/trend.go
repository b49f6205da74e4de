package weather

// The table's normals are means of 1991 to 2020, which stand for their middle.
const normalsYear = 2005.5

// Normals are carried along the trend no further than the record it is of and
// twenty years on (own).
const (
	trendFromYear = 1981
	trendToYear   = 2045
)

// band is the warming of the land of a band of latitude, K a decade, in the seasons
// December to February, March to May, June to August and September to November.
type band struct {
	latitudeDeg float64 // middle of its land
	perDecade   [4]float64
	give        float64 // two standard errors of the year's, from what single years depart by
}

// bands are worked out from the monthly means over land of NOAAGlobalTemp v6.0.0 by
// band of latitude (NOAA National Centers for Environmental Information, file of
// February 2025): mean of 2013-2024 less mean of 1981-1992, over 3.2 decades.
var bands = []band{
	{-36, [4]float64{0.22, 0.14, 0.17, 0.19}, 0.04}, // 60-30° S
	{17, [4]float64{0.30, 0.32, 0.29, 0.33}, 0.05},  // 0-30° N
	{46, [4]float64{0.34, 0.38, 0.39, 0.37}, 0.09},  // 30-60° N
	{67, [4]float64{0.81, 0.66, 0.33, 0.85}, 0.13},  // 60-90° N
}

// Sea has warmed seaShare as much as land (0.88 against 1.59 K from 1850-1900 to
// 2011-2020: IPCC, AR6 WG I, summary for policymakers A.1.2, from memory). A place
// goes by its yearly range: at seaRangeK it warms like the sea, at landRangeK like
// the land (inferred).
const (
	seaShare   = 0.55
	seaRangeK  = 8.0
	landRangeK = 24.0
)

// bandAt is the band of a latitude: between the middles of two in a straight line,
// beyond the outermost like them.
func bandAt(latitudeDeg float64) band {
	for i, b := range bands {
		if latitudeDeg > b.latitudeDeg {
			continue
		}
		if i == 0 {
			return b
		}
		a := bands[i-1]
		at := (latitudeDeg - a.latitudeDeg) / (b.latitudeDeg - a.latitudeDeg)
		for s := range b.perDecade {
			b.perDecade[s] = a.perDecade[s] + at*(b.perDecade[s]-a.perDecade[s])
		}
		b.give = a.give + at*(b.give-a.give)
		return b
	}
	return bands[len(bands)-1]
}

// Warming is how much warmer than in the table's normals it is in a year.
type Warming struct {
	ByMonthK   [12]float64
	YearK      float64 // mean of the year
	GiveK      float64 // two standard errors of that
	ToYear     float64
	PerDecadeK float64 // of the year's mean
}

// Warming is the published warming of the land at the place's latitude, damped by
// the sea, from the middle of 1991-2020 to a year: of mean, minimum and maximum
// alike, since both have risen alike over land since 1980 (IPCC, AR6 WG I, chapter 2,
// from memory).
func (n Normals) Warming(year float64) Warming {
	year = max(trendFromYear, min(trendToYear, year))
	decades := (year - normalsYear) / 10
	b := bandAt(n.LatitudeDeg)
	share := seaShare + (1-seaShare)*max(0, min(1, (n.yearRange()-seaRangeK)/(landRangeK-seaRangeK)))
	w := Warming{ToYear: year}
	for m := range w.ByMonthK {
		// Mid-January is the middle of the first season; between middles in a
		// straight line.
		s, at := m/3, float64(m%3)/3
		rate := share * (b.perDecade[s] + at*(b.perDecade[(s+1)%4]-b.perDecade[s]))
		w.ByMonthK[m] = rate * decades
		w.PerDecadeK += rate / 12
	}
	w.YearK = w.PerDecadeK * decades
	w.GiveK = share * b.give * decades
	return w
}

// Warmed moves normals of 1991-2020 by a warming.
func (n Normals) Warmed(w Warming) Normals { return n.warmer(w.ByMonthK) }
