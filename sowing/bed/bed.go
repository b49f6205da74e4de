// Package bed plans the ground: what is there against what the lawn needs, the
// rootzone and its volumes, drainage, lime, the feed at sowing, and the steps of
// preparing or renovating.
//
// Quantities are for the zones that grass comes into. Water by Saxton & Rawls (2006), pipe drains by
// Hooghoudt, layers by the USGA's ratios with the edition named, lime by texture
// (RB209) and only on a soil test. Walls, slopes, outfalls and protected trees are
// beyond it: those go to an engineer, a chartered practitioner, the authority.
package bed

import (
	"slices"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Input is what the ground is prepared for.
type Input struct {
	Site     *site.Conditions // as found
	Use      species.Use      // its grade is the one prepared for
	Kind     job.Kind         // empty: new
	Old      bool             // an old sward stands where the lawn is made new: it is stripped
	Moss     bool             // moss stands where the lawn is to be
	Surface  job.Found        // gravel or paving that lies there and is lifted; empty: neither
	AccessM  *float64         // the narrowest way in; nil: not known
	Method   string           // "broadcast", "drill", "in dressing"; empty: broadcast
	Rootzone *job.Rootzone    // a made ground the client asked for
	Parts    []mix.Part       // the chosen mixture; empty when no grass is to grow, and nothing is prepared
	Cover    float64          // living cover of the old sward, 0 to 1, for overseeding and renovation; 0: not known
	Weeds    float64          // share of the old sward that was found to be weeds; 0: none, or not counted
	Sown     []job.Zone       // zones that are sown
	Laid     []job.Zone       // zones that are turfed
	SeedGM2  float64          // as bought
	SeedsM2  float64          // viable
	Apart    []Seed           // where two mixtures are sown, each of them with its zones; nil: one

	Dormant   bool // the seed lies through the winter
	Unfed     bool // no feed may go down when it would
	StaleDays int  // that weed seedlings are given to come up before sowing; 0: staleDays
}

// zones are all that grass comes into, in the order of the plan.
func (w Input) zones() []job.Zone {
	all := slices.Concat(w.Sown, w.Laid)
	slices.SortFunc(all, func(a, b job.Zone) int { return a.Index - b.Index })
	return all
}

// area is what the ground is prepared on; where no zones are told of, the whole lawn.
func (w Input) area() float64 {
	if len(w.Sown)+len(w.Laid) == 0 {
		return w.Site.AreaM2
	}
	return job.Area(w.zones())
}

// seed is what goes on the zones that are sown.
func (w Input) seed() []Seed {
	if w.Apart != nil {
		return w.Apart
	}
	return []Seed{{w.Sown, w.SeedGM2, w.SeedsM2, w.Parts}}
}

// turf tells whether all of it is laid.
func (w Input) turf() bool { return len(w.Laid) > 0 && len(w.Sown) == 0 }

// Layer is one layer of the section, from the top.
type Layer struct {
	Kind    LayerKind
	DepthMM float64 // 0: down from here
	Note    told.Sentence
}

// LayerKind is what a layer is.
type LayerKind string

// The kinds of layer.
const (
	Topsoil   LayerKind = "topsoil"
	Subsoil   LayerKind = "subsoil"
	Loosened  LayerKind = "subsoil, loosened"
	Rootzone  LayerKind = "rootzone"
	Gravel    LayerKind = "gravel"
	Formation LayerKind = "formation"
	Dressing  LayerKind = "top dressing"
	Deck      LayerKind = "deck"
)

// LayerKinds are all kinds of layer.
var LayerKinds = []LayerKind{Topsoil, Subsoil, Loosened, Rootzone, Gravel, Formation, Dressing, Deck}

// Told is the kind as a sentence carries it.
func (k LayerKind) Told() told.Term { return told.Term{Kind: "layer", Word: string(k)} }

// Material is something brought in or taken away.
type Material struct {
	Item               told.Sentence
	SettledM3, LooseM3 float64
	Tonnes             float64
	BarrowLoads        int
	BulkBags           int // instead of lorry loads where the whole is less than one is worth sending for
	LorryLoads         int
	KG                 float64 // for lime and feed, which go by weight
	Quantity           float64 // in the unit of its price: loose m³, kg, m
	Unit               string
	PriceKey           string        // of the price list; empty: taken away, or not priced
	For                told.Sentence // what it is for
	WithSeed           bool          // goes down with the seed, and again where a sowing fails
}

// Check is one test of the ground, passed or not.
type Check struct {
	ID     string // what is tested
	Figure told.Sentence
	Limit  told.Sentence
	OK     bool
	Advice told.Sentence // silent where it is passed
	Source string
	Takes  *Material // what the advice would take beside the job's own materials; nil: nothing
}

// Told is what is tested as a sentence carries it.
func (c Check) Told() told.Term { return told.Term{Kind: "check", Word: c.ID} }

// Bed is the whole answer.
type Bed struct {
	Layers                            []Layer // the section as wanted
	Found                             []Layer // as found
	Materials                         []Material
	Tasks                             []job.Task // up to the sowing or laying and what is done with it, not yet dated
	Checks                            []Check
	Lime                              []told.Sentence // the answer on lime, "no lime" as a rule
	LimeGM2                           float64         // 0: none
	StarterN, StarterP2O5, StarterK2O float64         // g/m² at sowing
	Starter                           told.Sentence   // what to buy for it; silent: nothing
	RootsM2                           float64         // over the roots of trees, where nothing goes deep
	Netted                            bool            // seed kept from birds by a net
	NursedM2                          float64         // where oats go out with the grass seed
	DressingMM                        float64         // top dressing with the seed; 0: none
	FoundPuddleMM, FoundPuddleHours   float64         // left standing on the level by the design rain, as found
	PuddleMM, PuddleHours             float64         // as prepared
	DrainSpacingM                     float64         // 0: no pipe drains
	Guide                             *Guide          // how the seed is spread; nil when none is
	Moss                              []told.Sentence // why it stands here and what each cause takes; none where there is none
	Notes                             []told.Sentence
}

// Plan works out the ground.
func Plan(w Input) Bed {
	if w.Kind == "" {
		w.Kind = job.New
	}
	if w.StaleDays == 0 {
		w.StaleDays = staleDays
	}
	soil, area := w.Site.Soil, w.area()
	z := rootzoneFor(w)
	var b Bed
	b.Found = foundLayers(soil)
	b.Lime, b.LimeGM2 = lime(w)

	rain := w.Site.Weather.DesignRainMMH
	b.FoundPuddleMM, b.FoundPuddleHours = soak{
		IntakeMMH: soil.InfiltrationMMH,
		StoreMM:   (soil.Saturation - soil.FieldCapacity) * soil.DepthCM * 10,
		DrainMMH:  soil.DrainMMD / 24,
	}.puddle(rain)
	spacing, pipeDepth, pipesHelp := pipes(w, z)
	b.DrainSpacingM = spacing
	b.PuddleMM, b.PuddleHours = z.ground(w, spacing).puddle(rain)

	b.Checks = append(b.Checks, w.slopeChecks(b.PuddleMM)...)
	b.Checks = append(b.Checks, z.checks(w, b, pipesHelp)...)
	if len(w.Parts) == 0 {
		return b
	}
	b.Layers = z.layers(w)
	b.StarterN, b.StarterP2O5, b.StarterK2O = starter(w)
	b.DressingMM, b.Netted, b.RootsM2 = dressingMM(w), w.netted(), w.rootsM2()
	b.NursedM2 = w.nursedM2()
	if len(w.Sown) > 0 && w.SeedGM2 > 0 {
		guide := GuideOf(Spread{w.Method, w.washes()}, w.seed()...)
		b.Guide = &guide
	}
	b.Materials = materials(w, z, &b, area, pipeDepth)
	b.Tasks = tasks(w, z, b, pipeDepth)
	b.Notes, b.Moss = notes(w, z, b), moss(w, b)
	return b
}

// WorksOf is what the work on the ground changes of it, before it is known what will be
// sown or laid.
func WorksOf(w Input) site.Works {
	if w.Kind == "" {
		w.Kind = job.New
	}
	var out site.Works
	if w.Kind != job.New {
		return out
	}
	z := rootzoneFor(w)
	if spacing, _, _ := pipes(w, z); spacing > 0 {
		out.DrainsMMD = lawnDischargeMD * 1000
	}
	if z.made {
		out.Rootzone = &site.Rootzone{DepthCM: z.depthMM / 10, SandPercent: z.grain.SandPercent, ClayPercent: z.grain.ClayPercent,
			OrganicPercent: z.grain.OrganicPercent, OnGravel: z.gravel}
	} else if w.deepM2() > 0 {
		if z.importMM > 0 {
			t := orderedTopsoil
			out.Imported = site.Imported{DepthCM: z.importMM / 10, SandPercent: t.SandPercent, ClayPercent: t.ClayPercent, OrganicPercent: t.OrganicPercent}
		}
		if z.compostMM > 0 {
			out.OrganicPercent = z.grain.OrganicPercent
		}
		if !w.deck() { // scratched, not broken up
			out.Compaction = loosened
		}
	}
	if g, _ := w.limeGM2(); g > 0 {
		out.PH = limeFor(w.Use.Grade).target
	}
	out.WateredFirst = w.Use.WatersYoung()
	return out
}

// loosened is the class of density that ground has once it is broken up and firmed.
const loosened = "normal"
