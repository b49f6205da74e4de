package sward

// The model's constants. Those said to be fitted were fitted together, to the
// published swards of the package's tests.
const (
	// claim0 is the ground, in m², that a middling seedling claims in eight weeks:
	// fitted so that 17,500 viable seeds of red fescue cover about three quarters of
	// the ground by then, and 20,000 of smooth meadow-grass under half (common
	// practice, no published source).
	claim0 = 3.0e-4

	// headStart is κₜ, log units a day: seedlings of 15 °C grow by a little under a tenth a day.
	headStart  = 0.075
	emergence0 = 13.0 // t₀, days at soil0
	soil0      = 15.0 // °C
	// vigour is κᵥ: with headStart and field emergence it gives ryegrass the lead of
	// 2.98 log-odds units over smooth meadow-grass of Brede & Duich 1984.
	vigour  = 2.2
	vigour0 = 0.5

	firstCutFullMM = 38.0  // at and above this height the first cut changes nothing (Brede & Duich 1984)
	firstCutDay0   = 9.0   // their early cut: days after first emergence
	firstCutLoss   = 0.866 // κₕ, solved from their week 2 at 13 mm
	firstCutDays   = 7.7   // τ, solved from their week 3 at 13 mm

	// firstCutRise: a quick grass gains about 5 mm a day over the cut, and half of the cut must stand above it.
	firstCutRise = 0.28 // days a mm, so that a cut at 38 mm comes in week 3 as in Brede & Duich 1984

	fullCover = 0.98 // what an untroubled sward covers; the rest is leaf litter and worm casts

	// λ, μ, ν, θ, κ, ω, χ, δ, r₀ and ε of NewField, fitted.
	lightMerit   = 1.0
	mowingMerit  = 2.0
	feedMerit    = 0.8
	warmMerit    = 1.2
	stressMerit  = 1.0
	wearMerit    = 2.0
	mildMerit    = 0.1
	droughtDeath = 1.0
	heatDry      = 0.2 // ε without a wet day
	heatDamp     = 3.5 // ε more, a share of wet days
	tillering    = 0.5
	dormantC     = -20.0 // hardiness at which a grass neither gains nor loses by a mild winter
	dormantStepC = 6.0
	mildC        = 5.0   // mean of the coldest month at which winter growth counts in full
	neutralC     = 24.0  // T₀: mean daily maximum of the hottest 30 days
	warmStepC    = 8.0   // ΔT
	nitrogen0    = 13.0  // N₀, g/m² a year: moderate feeding on ordinary ground
	fullGrowth   = 100.0 // days of full growth of a long cool season

	// leastAt15 is the light below which no sown grass is promised to last, in a season
	// whose mean is 15 °C, mol m⁻² d⁻¹: see LeastDLI. The usual Q10 of 2 is taken down to
	// 1.6 for swards used to the warmth (inferred).
	leastAt15      = 9.4
	respirationQ10 = 1.6
	// lightLastsSteepness is how sharply a sward ends at its least light (inferred).
	lightLastsSteepness = 24.0

	// volunteerWorth is what cover by a grass that came in by itself counts for: it
	// is green, but patchy, and annual meadow-grass flowers under the mower and dies in drought.
	volunteerWorth = 0.5

	// closing is ρ, a day of full growth: a grass of middling spread closes five
	// sixths of a gap in a hundred days of full growth.
	closing = 0.0245
	// thinning is θ: half of the cover too much for the light is gone in a season.
	thinning = 0.693

	// juvenile is what a first winter before the first season takes over an
	// established sward's loss, as an exponent on survival.
	juvenile = 1.3

	badYear = 0.10 // the share of the years that counts as bad
	lasting = 3    // seasons from this one on count for what the sward becomes
)
