package bed

import (
	"errors"
	"fmt"
	"math"

	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// grain is a soil or sand that goes into a mix.
type grain struct {
	SandPercent, ClayPercent, OrganicPercent float64 // by weight
	DensityKGM3                              float64 // dry, settled
}

// rootzoneSand is a washed medium sand as sold for rootzones: common practice, no
// published source.
var rootzoneSand = grain{SandPercent: 97, ClayPercent: 1, DensityKGM3: ground.Sand.LooseKGM3 * (1 + ground.Sand.Swell)}

// orderedTopsoil is what topsoil is asked for as: in the middle of sandy loam to loam
// (USDA), with 5 % organic matter, which a multipurpose topsoil of BS 3882:2015 may
// have at least 3 % of. From memory.
var orderedTopsoil = grain{SandPercent: 55, ClayPercent: 15, OrganicPercent: 5, DensityKGM3: ground.Topsoil.LooseKGM3 * (1 + ground.Topsoil.Swell)}

func grainOf(s ground.Soil) grain {
	return grain{s.SandPercent, s.ClayPercent, s.OrganicPercent, s.DensityKGM3}
}

// blend is the mix of a share of a, by settled volume from 0 to 1, with the rest of b.
func blend(a, b grain, share float64) grain {
	ma, mb := share*a.DensityKGM3, (1-share)*b.DensityKGM3
	by := func(x, y float64) float64 { return max(min(x, y), min((ma*x+mb*y)/(ma+mb), max(x, y))) } // rounded it may lie beyond both
	return grain{
		SandPercent:    by(a.SandPercent, b.SandPercent),
		ClayPercent:    by(a.ClayPercent, b.ClayPercent),
		OrganicPercent: by(a.OrganicPercent, b.OrganicPercent),
		DensityKGM3:    ma + mb,
	}
}

// shareFor is the share by settled volume of a that brings a mix with b to the
// sand percentage (by weight) wanted.
func shareFor(a, b grain, sandPercent float64) (float64, error) {
	low, high := math.Min(a.SandPercent, b.SandPercent), math.Max(a.SandPercent, b.SandPercent)
	if !(sandPercent >= low && sandPercent <= high) || low == high {
		return 0, fmt.Errorf("no mix of sand contents %g %% and %g %% has %g %%", a.SandPercent, b.SandPercent, sandPercent)
	}
	mass := (sandPercent - b.SandPercent) / (a.SandPercent - b.SandPercent)
	va, vb := mass/a.DensityKGM3, (1-mass)/b.DensityKGM3
	if va+vb == 0 || math.IsNaN(va+vb) {
		return 0, errors.New("materials of a mix need a density")
	}
	return va / (va + vb), nil
}

// depthMM is the topsoil a grade stands on. 150 mm is the common floor of lawns
// (Östersund, Regina, Saskatoon, Parkland County), 200 to 300 where they are
// worked hard (Regina, Estonia), 100 on verges and berms (East Lothian, Tauranga).
func depthMM(g species.Grade) float64 {
	switch g {
	case species.Ornamental, species.HardWearing:
		return 200
	case species.Extensive:
		return 100
	default:
		return 150
	}
}

const (
	loosenMM     = 200 // least: Östersund municipality, Teknisk handbok
	loosenHardMM = 500 // ground pressed hard: the same
	// leastImportMM is a layer worth sending a lorry for; a smaller lack is let be.
	leastImportMM = 25
	gravelMM      = 100 // USGA, Recommendations for a method of putting green construction
)

// Organic matter of a topsoil: below the floor compost is dug in to bring it up to
// the target, but never more than a layer that can be mixed in (Regina digs in
// 50 mm; Saskatoon asks for 5 %). Floor and target are common practice, no
// published source.
const (
	organicFloor  = 3.0
	organicTarget = 4.0
	compostMaxMM  = 50
	// compostOrganic is organic matter in a settled m³ of compost, kg: 40 % of
	// the dry half of its weight. From memory.
	compostOrganic = 170
)

// rootzone is the ground as it will be.
type rootzone struct {
	depthMM      float64
	water        ground.Water // as prepared
	grain        grain
	class        string
	made         bool // dug out and brought in
	gravel       bool
	sandShare    float64 // of a made rootzone, by volume
	importMM     float64 // topsoil laid on what is there
	compostMM    float64 // dug in
	loosenMM     float64
	stones       float64 // share of the volume
	soilReusedM3 float64 // of a made rootzone
}

// rootzoneFor decides what ground the job makes.
func rootzoneFor(w Input) rootzone {
	soil, area := w.Site.Soil, w.deepM2()
	z := rootzone{depthMM: soil.DepthCM * 10, grain: grainOf(soil), stones: soil.Stones}
	density := ground.CompactionFactor(soil.Compaction)
	switch {
	case area == 0 && w.Kind == job.New: // roots, which are let be
	case w.Rootzone != nil && w.Kind == job.New:
		z.stones = 0 // screened
		z.made, z.gravel = true, w.Rootzone.Base == "gravel"
		z.depthMM = w.Rootzone.DepthCM * 10
		z.sandShare = w.Rootzone.SandPercent / (w.Rootzone.SandPercent + w.Rootzone.SoilPercent)
		z.grain = blend(rootzoneSand, grainOf(soil), z.sandShare)
		z.soilReusedM3 = math.Min((1-z.sandShare)*z.depthMM, soil.DepthCM*10*(1-soil.Stones)) / 1000 * area
		density = 1
	case w.Kind == job.New && w.deck(): // nothing is dug and nothing brought: what lies there is what the deck bears
		z.loosenMM = w.scratchMM()
	case w.Kind == job.New:
		if lack := depthMM(w.Use.Grade) - z.depthMM; lack >= leastImportMM && !w.Use.Meadow() {
			z.importMM = lack
		}
		z.stones = soil.Stones * z.depthMM / (z.depthMM + z.importMM)
		if z.importMM > 0 {
			z.grain = blend(orderedTopsoil, z.grain, z.importMM/(z.importMM+z.depthMM))
		}
		z.depthMM += z.importMM
		if soil.OrganicPercent < organicFloor && !w.Use.Meadow() { // poor ground is what a meadow wants
			lack := (organicTarget - soil.OrganicPercent) / 100 * depthMM(w.Use.Grade) / 1000 * soil.DensityKGM3
			z.compostMM = math.Min(math.Round(lack/compostOrganic*1000), compostMaxMM)
			z.grain.OrganicPercent = organicTarget
		}
		z.loosenMM = loosenMM
		if density > ground.CompactionFactor("dense") {
			z.loosenMM = loosenHardMM
		}
		density = 1
	case w.Kind == job.Renovate:
		// Spiking and dressing undo part of the treading: half, our inference.
		density = (density + 1) / 2
	}
	z.water = ground.WaterOf(z.grain.SandPercent, z.grain.ClayPercent, z.grain.OrganicPercent).Pressed(density).Stony(z.stones)
	z.class, _ = ground.TextureClass(z.grain.SandPercent, z.grain.ClayPercent)
	return z
}
