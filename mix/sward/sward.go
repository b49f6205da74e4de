// Package sward follows a lawn of several grasses through its first five
// growing seasons.
//
// # What is followed
//
// In each light zone the state is the share of the ground that each grass
// covers, x. Grasses are those sown, those that stood there before, and those
// that come in by themselves. Establishment and persistence are separate terms,
// as sown swards show: what leads in the first year need not be what lasts
// (Kirwan et al. 2014, Ecology 95:2680, data: timothy leads smooth meadow-grass
// by 1.65 log-odds units in the first year and has lost 2.6 of them by the third).
//
// # Establishment
//
// N plants/m² of a grass come up: viable seeds × field emergence × what this
// seedbed gives over a fair one. Eight weeks of growth later they cover, by the
// hyperbolic law of crowding (Shinozaki & Kira 1956; for mixtures de Wit 1960,
// Spitters 1983),
//
//	D = Σ a N,   x = K̄ · a N / (1 + D)
//
// so that beyond some thousands of plants more seed thins itself and adds early
// cover only. The ground a seedling claims, a, grows exponentially with its head
// start and its vigour,
//
//	ln a = ln a₀ + φ (κₜ (t₀ − t) + κᵥ (v − v₀)) + ln L
//
// with t the days to half emergence in soil of 15 °C, v the vigour of the
// seedling and L its cover in this light over that in full sun. A close and early
// first cut takes the lead from quick tall seedlings,
//
//	φ = 1 − κₕ (1 − h/38) exp(−(d − 9)/τ)     h < 38 mm
//
// with h the height and d the day of the first cut after first emergence. κₕ and τ
// are solved from the three treatments of Brede & Duich 1984 (Agronomy Journal
// 76:711): 95 : 5 meadow-grass : ryegrass by live seed became 49, 66 and 84 % of
// shoots. Seedlings sown into a standing sward get its gaps alone.
//
// # A season
//
// In the first half of its growth the sward closes what winter opened; then it
// loses what summer takes, x ← S x, and volunteers seed themselves into the gaps;
// then the other half of the growth follows. In each half
//
//	w  = x exp(M g)
//	K̄ = Σ w K / Σ w,   R̄ = Σ w r / Σ w,   X = Σ x
//	X' = X + (K̄ − X)(1 − exp(−ρ R̄ G))        closing, when X < K̄
//	X' = K̄ + (X − K̄) e^(−θ g)                thinning, when X > K̄
//	x' = min(X, X') w / Σ w + max(0, X' − X) w r / Σ w r
//
// with G its growth in days of full growth, r the spread of a grass by creeping and
// tillering, K the cover it holds alone in this light, and g its part of a season.
// Winter follows: x ← W x.
//
// M, the competitive merit, is in log-odds a season, so that two grasses shift
// against each other by the same number of units whatever their shares: what the
// open data show (the shift of one site and year differs between sown ratios by
// 0.2 to 0.7 units). It is the sum of the grass's lasting power and of what light,
// cut, feed and ground give or cost it; see NewField.
//
// # Where there is a record
//
// Leads regress: leys sown in unlike shares have drawn nearer to each other a year later (see ownKind),
// as mixtures whose grasses hinder their own kind most do (de Wit & van den Bergh 1965, from memory). Among seedlings
// and in each half of a season a grass whose share of all is s keeps of its weight
//
//	1 / (1 + β s g)
//
// with g the part of a season, the whole of one among seedlings. It is left out where nothing was seen, since all other
// constants were fitted without it.
//
// # Weeds and moss
//
// An ensemble lets broad-leaved weeds come in as one plant more, unless they are pulled.
// They gain in warm summers and where the sward goes hungry, and lose where they
// stand among themselves, so that neither they nor the grass oust the other. Moss is no
// competitor: it fills, over the dark half of each year, a share of what nothing else covers,
// by how many of its causes are there.
//
// # What is reported
//
// A season's cover is that of all grasses at its end, the mean over the
// synthetic years and over the zones by their area, and for the bad years the
// 10th percentile. Every run of Seasons years in succession is one history; the
// run that starts at the last year goes on with the first.
package sward

// Seasons is how many growing seasons are followed.
const Seasons = 5

// Season is the sward at the end of one growing season, mean over synthetic
// years and zones.
type Season struct {
	Year     int                // 1 to Seasons
	Cover    float64            // of all grasses, 0 to 1
	BadCover float64            // the same in the worst tenth of the years
	Shares   map[string]float64 // percent of the grasses' cover by species id, invaders included
	Weeds    float64            // cover of broad-leaved weeds, 0 to 1
	Moss     float64            // of moss
}
