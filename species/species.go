// Package species holds the turfgrasses, their traits with sources, and the
// suitability matrix that rates each against a site.
package species

// Basis says how well a trait value is founded.
type Basis string

// The bases, best first. Only Read and Near are evidence.
const (
	Read     Basis = "read"     // measured for this grass, text seen
	Near     Basis = "near"     // read for a near taxon, a class or a rank
	Memory   Basis = "memory"   // recalled from the named publication
	Practice Basis = "practice" // common practice, no published source
	Inferred Basis = "inferred" // concluded from the rest; never shown as measured
)

// Value is one trait of one grass: a spread with its source.
type Value struct {
	Low    float64 `toml:"low"`
	Best   float64 `toml:"best"`
	High   float64 `toml:"high"`
	Basis  Basis   `toml:"basis"`
	Source string  `toml:"source"`
}

// Trait names a property of a grass.
type Trait int

// The traits. The unit of each is in Traits.
const (
	FreezingC      Trait = iota // LT50 of the hardened crown
	HalfLight                   // DLI at which cover is half that in full sun
	MowLowMM                    // lowest cut it bears for years
	MowBestMM                   // cut it is best at
	SeedsPerGram                //
	Purity                      // % by weight a lawful lot has at least
	Germination                 // % of pure seed
	GermBaseC                   // base temperature of germination
	EmergeDegDays               // field thermal time to half emergence
	FieldEmergence              // share of viable seeds that become plants in a fair seedbed
	Vigour                      // seedling growth after emergence, 0 to 1
	Spread                      // closing gaps by creeping and tillering, 0 to 1
	Wet                         // standing wet soil, 0 to 1
	Drought                     // 0 to 1
	Heat                        // 0 to 1
	SnowMould                   // withstanding it, 0 to 1
	IceDays                     // days under ice that halve its cover
	Wear                        // 0 to 1
	SaltDSM                     // ECe at which growth starts to fall
	PHLow                       // lower end of the preferred range
	PHHigh                      // upper end
	NitrogenGM2                 // yearly need in full light
	LeafMM                      // leaf width
	RateGM2                     // sown alone: published rate
	Persistence                 // lasting power in a mixed sward once established, log-odds a year
	traitCount
)

// Species is one turfgrass.
type Species struct {
	ID        string              `toml:"id"`
	Botanical string              `toml:"botanical"`
	Names     map[string][]string `toml:"names"`     // by BCP 47 tag, the first is the usual one
	Group     string              `toml:"group"`     // "ryegrass", "fine fescue", "tall fescue", "meadow-grass", "bent", "other", "warm"
	Warm      bool                `toml:"warm"`      // a warm-season (C4) grass
	Invader   bool                `toml:"invader"`   // comes in by itself and is never sown
	Endophyte bool                `toml:"endophyte"` // seed may carry an endophyte that harms grazing animals
	MaxShare  int                 `toml:"max_share"` // published cap in a mixture, % by weight; 0: none
	Values    [traitCount]Value   `toml:"-"`
}

// Use is the brief's page [use]: what the lawn is for and how it is kept.
type Use struct {
	Grade       Grade
	Traffic     Traffic
	MowingMM    float64 // 0: by grade
	Mower       string  // "cylinder", "rotary", "robot", "scythe" or empty
	MowsPerWeek float64 // 0: by growth
	Irrigation  bool
	Feeding     string   // "none", "low", "moderate", "high"
	NitrogenGM2 *float64 // instead of Feeding
	Livestock   bool
}

// Grade is the standard asked of a lawn.
type Grade string

// The grades.
const (
	Ornamental  Grade = "ornamental"
	Utility     Grade = "utility"
	HardWearing Grade = "hard-wearing"
	Extensive   Grade = "extensive"
)

// Traffic is how much a lawn is walked on.
type Traffic string

// The classes of traffic.
const (
	Light    Traffic = "light"
	Moderate Traffic = "moderate"
	Heavy    Traffic = "heavy"
)

// Class is a suitability class of the FAO Framework for Land Evaluation (1976).
type Class string

// The classes, best first.
const (
	S1 Class = "S1" // highly suitable
	S2 Class = "S2" // moderately
	S3 Class = "S3" // marginally
	N1 Class = "N1" // not at present
	N2 Class = "N2" // not at all
)

// Rating is one cell of the matrix with its reason.
type Rating struct {
	Criterion string  // id
	Value     float64 // 0 to 1
	Figure    string  // what the site offers, with unit
	Limits    string  // what the grass needs, with unit
	Source    string
	Basis     Basis
}

// Row is one species in one zone.
type Row struct {
	Species   *Species
	Zone      int
	Ratings   []Rating // one a criterion, in the order of Criteria
	Overall   float64
	Class     Class
	LimitedBy string // id of the limiting criterion

	ClassChance  map[Class]float64 // over draws within the trait ranges
	LeaderChance float64           // share of draws in which it is among the leading five of its zone
	Sureness     string            // "sure", "likely", "could go either way"
}

// Matrix rates every species in every zone.
type Matrix struct {
	Criteria []Criterion
	Rows     []Row // by zone, then best first
}
