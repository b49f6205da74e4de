// Package bed plans the ground: what is there against what the lawn needs, the
// rootzone and its volumes, drainage, lime, the feed at sowing, and the steps of
// preparing or renovating.
//
// Quantities are for the whole lawn. Water by Saxton & Rawls (2006), pipe drains by
// Hooghoudt, layers by the USGA's ratios with the edition named, lime by texture
// (RB209) and only on a soil test. Walls, slopes, outfalls and protected trees are
// beyond it: those go to an engineer, a chartered practitioner, the authority.
package bed

import (
	"math"

	"swardwright/mix"
	"swardwright/site"
	"swardwright/site/light"
	"swardwright/species"
)

// Kind is the kind of job.
type Kind string

// The kinds.
const (
	New      Kind = "new"
	Overseed Kind = "overseed"
	Renovate Kind = "renovate"
)

// Want is what the ground is prepared for.
type Want struct {
	Site     *site.Conditions
	Use      species.Use  // as asked; its grade is the one prepared for
	Kind     Kind         // empty: new
	Method   string       // "broadcast", "drill", "in dressing"; empty: broadcast
	Turf     bool         // laid, not sown
	Rootzone *Rootzone    // a made ground the client asked for
	Parts    []mix.Part   // the chosen mixture; empty when no grass is to grow, and nothing is prepared
	Cover    float64      // living cover of the old sward, 0 to 1, for overseeding and renovation; 0: not known
	Zones    []light.Zone // that are sown, for the spreading guide
	SeedGM2  float64      // as bought
	SeedsM2  float64      // viable
}

// Rootzone is a made ground the client asked for.
type Rootzone struct {
	DepthCM, SandPercent, SoilPercent float64 // shares by volume
	Base                              string  // "gravel" or empty
}

// Layer is one layer of the section, from the top.
type Layer struct {
	Name    string
	DepthMM float64
	Note    string
}

// Material is something brought in or taken away.
type Material struct {
	Item               string
	SettledM3, LooseM3 float64
	Tonnes             float64
	BarrowLoads        int
	BulkBags           int // instead of lorry loads where the whole is less than one is worth sending for
	LorryLoads         int
	KG                 float64 // for lime and feed, which go by weight
	Quantity           float64 // in the unit of its price: loose m³, kg, m
	Unit               string
	PriceKey           string // of the price list; empty: taken away, or not priced
	For                string // what it is for
}

// Step is one piece of the preparation or renovation, in order.
type Step struct {
	Title, Detail string
	OutputKey     string  // of the price list's output rates; empty: waiting, or minutes
	Quantity      float64 // of the work, in Unit; hours are Quantity over the output rate
	Unit          string  // "m2", "m", "m3"
	DaysBefore    int     // before sowing; negative: after
	Caution       string  // where it can hurt someone
}

// Check is one test of the ground, passed or not.
type Check struct {
	Name   string
	Figure string
	Limit  string
	OK     bool
	Advice string
	Source string
}

// Bed is the whole answer.
type Bed struct {
	Layers                            []Layer // the section as wanted
	Found                             []Layer // as found
	Materials                         []Material
	Steps                             []Step
	Checks                            []Check
	Lime                              string  // the answer on lime, "no lime" as a rule
	LimeGM2                           float64 // 0: none
	StarterN, StarterP2O5, StarterK2O float64 // g/m² at sowing
	Starter                           string  // what to buy for it
	DressingMM                        float64 // top dressing with the seed; 0: none
	FoundPuddleMM, FoundPuddleHours   float64 // left standing on the level by the design rain, as found
	PuddleMM, PuddleHours             float64 // as prepared
	DrainSpacingM                     float64 // 0: no pipe drains
	Guide                             *Guide  // how the seed is spread; nil when none is
	Notes                             []string
}

// Plan works out the ground.
func Plan(w Want) Bed {
	if w.Kind == "" {
		w.Kind = New
	}
	soil, area := w.Site.Soil, w.Site.AreaM2
	z := rootzoneFor(w)
	var b Bed
	b.Found = foundLayers(soil)
	b.Lime, b.LimeGM2 = lime(w)

	rain := w.Site.Weather.DesignRainMMH
	b.FoundPuddleMM, b.FoundPuddleHours = Ground{
		IntakeMMH: soil.InfiltrationMMH,
		StoreMM:   (soil.Saturation - soil.FieldCapacity) * soil.DepthCM * 10,
		DrainMMH:  soil.DrainMMD / 24,
	}.Puddle(rain)
	spacing, pipeDepth, pipesHelp := pipes(w, z)
	b.DrainSpacingM = spacing
	b.PuddleMM, b.PuddleHours = z.ground(w, spacing).Puddle(rain)

	slope := math.Tan(w.Site.Survey.Lawn.SlopeDeg * math.Pi / 180)
	b.Checks = append(b.Checks, slopeChecks(slope)...)
	b.Checks = append(b.Checks, z.checks(w, b, pipesHelp)...)
	if len(w.Parts) == 0 {
		return b
	}
	b.Layers = z.layers(w)
	b.StarterN, b.StarterP2O5, b.StarterK2O = starter(w)
	b.DressingMM = dressingMM(w)
	b.Materials = materials(w, z, &b, area, pipeDepth)
	b.Steps = steps(w, z, b, pipeDepth)
	b.Notes = notes(w, z, b)
	if !w.Turf && w.SeedGM2 > 0 {
		guide := GuideOf(w.Zones, w.SeedGM2, w.SeedsM2)
		b.Guide = &guide
	}
	return b
}
