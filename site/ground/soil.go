package ground

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"swardwright/internal/told"
)

// What is taken where the brief is silent.
const (
	assumedTexture    = "loam"
	assumedOrganic    = 3.0 // percent: an ordinary garden topsoil
	assumedPH         = 6.2 // an unlimed garden soil of a moist climate; never a ground for lime
	assumedECe        = 0.5 // dS/m: not saline (USDA: below 2)
	assumedDepthCM    = 15.0
	assumedCompaction = "dense" // walked on and mown, or driven on by a builder
)

// MostStonesPercent is what may be stones of a topsoil's volume: beyond it it is a heap of
// stones with earth between.
const MostStonesPercent = 60.0

// soilTestClasses are the classes of a soil test for phosphorus or potassium.
func soilTestClasses() []string { return []string{"low", "medium", "high"} }

// Soil fills the gaps of the survey. The error joins every fault found; each
// names the key, the value and what is allowed.
func (s Survey) Soil() (Soil, error) {
	soil := Soil{Phosphorus: plain(s.Phosphorus), Potassium: plain(s.Potassium)}
	var faults []error
	fault := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	assume := func(s told.Sentence) { soil.Assumptions = append(soil.Assumptions, s) }
	given := func(key string, value *float64, assumed, low, high float64, said told.Sentence) float64 {
		if value == nil {
			if !said.Silent() {
				assume(said)
			}
			return assumed
		}
		if !within(*value, low, high) {
			fault("ground.%s: %g is not between %g and %g", key, *value, low, high)
			return assumed
		}
		return *value
	}

	if err := soil.grain(s, assume); err != nil {
		faults = append(faults, err)
	}
	soil.OrganicPercent = given("organic_percent", s.OrganicPercent, assumedOrganic, 0, 100,
		told.Say("site.organic-taken", told.FineShare(assumedOrganic/100)))
	soil.PHKnown = s.PH != nil
	soil.PH = given("ph", s.PH, assumedPH, 2, 11,
		told.Say("site.ph-taken", told.PH(assumedPH)))
	soil.ECeDSM = given("ec_ds_m", s.ECeDSM, assumedECe, 0, 100, told.Say("site.salt-taken"))
	soil.DepthKnown = s.DepthCM != nil
	soil.DepthCM = given("depth_cm", s.DepthCM, assumedDepthCM, 0, 500,
		told.Say("site.depth-taken", told.DepthMM(10*assumedDepthCM)))
	soil.OnDeck = s.Over == Deck
	if s.Over != "" && s.Over != Deck {
		fault("ground.over: %q is not %q", s.Over, Deck)
	}
	soil.Stones = given("stones_percent", s.StonesPercent, 0, 0, MostStonesPercent, told.Sentence{}) / 100
	percolation := given("percolation_mm_h", s.PercolationMMH, 0, 0, 10000, told.Sentence{})
	for _, t := range []struct{ key, class string }{{"phosphorus", soil.Phosphorus}, {"potassium", soil.Potassium}} {
		if t.class != "" && !slices.Contains(soilTestClasses(), t.class) {
			fault("ground.%s: %q is not one of: %s", t.key, t.class, strings.Join(soilTestClasses(), ", "))
		}
	}

	compaction, err := s.density(assume)
	if err != nil {
		faults = append(faults, err)
	}
	soil.Compaction = compaction.name

	if soil.OrganicPercent > maxOrganicPercent {
		assume(told.Say("site.peaty", told.FineShare(soil.OrganicPercent/100), told.FineShare(maxOrganicPercent/100.0)))
	}
	if soil.ClayPercent > maxClayPercent {
		assume(told.Say("site.very-clayey", told.Share(soil.ClayPercent/100), told.Share(maxClayPercent/100.0)))
	}
	earth := WaterOf(soil.SandPercent, soil.ClayPercent, soil.OrganicPercent)
	soil.hold(earth)
	if err := soil.drain(s, percolation, earth.Pressed(compaction.factor).Stony(soil.Stones), assume); err != nil {
		faults = append(faults, err)
	}
	soil.WinterBearing = soil.bearing()
	return soil, errors.Join(faults...)
}

// hold sets what the soil holds and passes of the water of its earth.
func (soil *Soil) hold(earth Water) {
	w := earth.Stony(soil.Stones)
	soil.WiltingPoint, soil.FieldCapacity, soil.Saturation = w.WiltingPoint, w.FieldCapacity, w.Saturation
	soil.KsatMMH, soil.DensityKGM3 = w.KsatMMH, w.DensityKGM3
}

// density is the class of density found, or taken where the survey is silent or wrong.
func (s Survey) density(assume func(told.Sentence)) (density, error) {
	if d, ok := densityNamed(s.Compaction); ok {
		return d, nil
	}
	assumed, _ := densityNamed(assumedCompaction)
	if s.Compaction != "" {
		return assumed, fmt.Errorf("ground.compaction: %q is not one of: %s", s.Compaction, strings.Join(Compactions(), ", "))
	}
	assume(told.Say("site.compaction-taken"))
	return assumed, nil
}

// texture is a texture class as a sentence carries it.
func texture(class string) told.Term { return told.Term{Kind: "texture", Word: class} }

// grain settles texture, sand, silt and clay.
func (soil *Soil) grain(s Survey, assume func(told.Sentence)) error {
	sand, clay, err := s.particles(assume)
	if err != nil {
		return fmt.Errorf("ground.texture: %w", err)
	}
	class, err := TextureClass(sand, clay)
	if err != nil {
		return fmt.Errorf("ground.sand_percent, ground.clay_percent: %w", err)
	}
	if s.Texture != "" && class != plain(s.Texture) {
		assume(told.Say("site.texture-contradicted", texture(plain(s.Texture)), told.Share(sand/100), told.Share(clay/100), texture(class)))
	}
	soil.Texture, soil.SandPercent, soil.ClayPercent, soil.SiltPercent = class, sand, clay, 100-sand-clay
	return nil
}

// particles are the percentages of sand and clay: as measured, and what is not measured
// by the texture named or taken.
func (s Survey) particles(assume func(told.Sentence)) (sand, clay float64, err error) {
	name := s.Texture
	if name == "" && s.SandPercent == nil && s.ClayPercent == nil {
		name = assumedTexture
		assume(told.Say("site.texture-taken", texture(name)))
	}
	if name != "" {
		if sand, clay, err = textureSample(name); err != nil {
			return 0, 0, err
		}
		if s.Texture != "" && (s.SandPercent == nil || s.ClayPercent == nil) {
			assume(told.Say("site.grain-taken", texture(plain(name)), told.Share(sand/100), told.Share(clay/100), told.Source("Saxton & Rawls 2006, table 3")))
		}
	}
	switch {
	case s.SandPercent != nil && s.ClayPercent != nil:
		sand, clay = *s.SandPercent, *s.ClayPercent
	case s.SandPercent != nil:
		if name == "" {
			clay = (100 - *s.SandPercent) / 3 // a loam's share of clay in what is not sand
			assume(told.Say("site.clay-taken", told.Share(clay/100)))
		}
		sand = *s.SandPercent
	case s.ClayPercent != nil:
		if name == "" {
			sand = (100 - *s.ClayPercent) / 2
			assume(told.Say("site.sand-taken", told.Share(sand/100)))
		}
		clay = *s.ClayPercent
	}
	return sand, clay, nil
}

// SubsoilLoss is what the ground below the rootzone passes, over the conductivity
// of the rootzone by texture: subsoil is denser and has fewer roots and worms.
// Set so that a loam comes out well drained and a clay poorly, as the Soil Survey
// Manual's classes usually fall.
const SubsoilLoss = 0.2

// drain settles drainage class, infiltration, drain rate and wetness.
func (soil *Soil) drain(s Survey, percolationMMH float64, surface Water, assume func(told.Sentence)) error {
	// A surface trodden hard takes in less than its texture's field rate, a loose
	// one no more than it.
	c, _ := classNamed(soil.Texture)
	soil.InfiltrationMMH = math.Min(surface.KsatMMH, c.intakeMMH)

	soil.DrainMMD = soil.KsatMMH * 24 * SubsoilLoss
	measured := percolationMMH > 0
	if measured {
		soil.InfiltrationMMH = infiltrationFromPercolation(percolationMMH)
		soil.DrainMMD = soil.InfiltrationMMH * 24
	}
	switch d, ok := drainageNamed(s.Drainage); {
	case ok:
		// The class tells of the water table, the hole of the soil: the slower counts.
		if !measured || d.drainMMD < soil.DrainMMD {
			soil.DrainMMD = d.drainMMD
		}
		soil.Drainage = drainageFor(soil.DrainMMD).name
	case s.Drainage != "":
		return fmt.Errorf("ground.drainage: %q is not one of: %s", s.Drainage, strings.Join(DrainageClasses(), ", "))
	case soil.OnDeck && !measured: // by the drainage layer of its build-up
		soil.DrainMMD = math.Min(gravelDrainMMD, soil.KsatMMH*24)
		soil.Drainage = drainageFor(soil.DrainMMD).name
		assume(told.Say("site.deck-drains", told.Term{Kind: "drainage", Word: soil.Drainage}))
	default:
		soil.DrainMMD = math.Min(soil.DrainMMD, drainages[0].drainMMD)
		soil.Drainage = drainageFor(soil.DrainMMD).name
		if !measured {
			assume(told.Say("site.drainage-taken", told.Term{Kind: "drainage", Word: soil.Drainage}))
		}
	}
	soil.Wetness = wetnessAt(soil.DrainMMD)
	return nil
}

// bearing is common practice, no published source: wet ground and clay poach.
func (soil *Soil) bearing() Bearing {
	switch {
	case soil.Wetness >= 0.55 || soil.ClayPercent >= 35 || soil.OrganicPercent > 12:
		return Poor
	case soil.Wetness >= 0.3 || soil.ClayPercent > 20 || soil.OrganicPercent > maxOrganicPercent:
		return Soft
	default:
		return Firm
	}
}
