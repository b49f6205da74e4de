package species

// Trait names a property of a grass.
type Trait int

// The traits. Keys, units and meanings stand in traitInfo.
const (
	LT50C          Trait = iota // LT50 of the hardened crown
	ThawLoss                    // share of the hardening lost in a long thaw, 0 to 1
	SnowMould                   // withstanding it, 0 to 1
	IceDays                     // days under ice that halve its cover
	HalfCoverDLI                // DLI at which cover is half that in full sun
	StillAir                    // withstanding the diseases of still, damp shade, 0 to 1
	Wet                         // standing wet soil, 0 to 1
	Drought                     // 0 to 1
	Heat                        // 0 to 1
	WarmthC                     // mean of the hottest 30 days at which its summer is half warm enough
	MowLowMM                    // lowest cut it bears for years
	MowBestMM                   // lowest cut at which it loses nothing
	MowHighMM                   // highest cut at which it still makes a close sward
	Wear                        // 0 to 1
	NitrogenGM2                 // yearly need in full light
	PHLow                       // lower end of the preferred range
	PHHigh                      // upper end
	SaltDSM                     // ECe at which growth starts to fall
	LeafMM                      // leaf width in mown turf
	ShootDensity                // how close and even a sward it makes by itself, 0 to 1
	SeedsPerGram                //
	Purity                      // % by weight a lawful lot has at least
	Germination                 // % of pure seed
	GermBaseC                   // base temperature of germination
	EmergeDegDays               // field thermal time to half emergence
	FieldEmergence              // share of viable seeds that become plants in a fair seedbed
	Vigour                      // seedling growth after emergence, 0 to 1
	Spread                      // closing gaps by creeping and tillering, 0 to 1
	Persistence                 // lasting power in a mixed sward once established, log-odds a year
	RateGM2                     // sown alone: published rate
	Pale                        // standing out of a green sward by its yellowish leaf, 0 to 1
	Volunteer                   // share of a gap it seeds itself into in a moist year
	SeedPrice                   // of its seed over that of perennial ryegrass
	SaltWantedDSM               // ECe below which other grasses crowd it out
	TraitCount
)

// Traits are the figures of one grass, one a trait.
type Traits [TraitCount]float64

// info is what a trait is called and means.
type info struct {
	key, title, unit, means string
	least, most             float64 // what a table may hold
}

var traitInfo = [TraitCount]info{
	LT50C:          {"freezing_c", "hardiness to frost", "°C", "crown temperature that kills half the plants in the depth of winter, fully hardened (LT50)", -60, 0},
	ThawLoss:       {"thaw_loss", "hardiness lost in a thaw", "share", "share of the winter hardening that a long mild spell undoes", 0, 1},
	SnowMould:      {"snow_mould", "standing snow mould", "0 to 1", "how well it withstands pink and grey snow mould, 1 best", 0, 1},
	IceDays:        {"ice_days", "days under ice", "d", "days sealed under ice that halve its cover", 1, 365},
	HalfCoverDLI:   {"half_light", "light for half cover", "mol m⁻² d⁻¹", "mean daily light of the growing season at which cover is half that in full sun", 0.5, 60},
	StillAir:       {"still_air", "standing still, damp air", "0 to 1", "how well it withstands mildew and the other leaf diseases of still, damp shade, 1 best", 0, 1},
	Wet:            {"wet", "standing wet ground", "0 to 1", "how well it grows where the ground stays wet, 1 best", 0, 1},
	Drought:        {"drought", "standing drought", "0 to 1", "how well it outlasts dry ground, 1 best", 0, 1},
	Heat:           {"heat", "standing heat", "0 to 1", "how well it outlasts hot summers, 1 best", 0, 1},
	WarmthC:        {"warmth_c", "summer warmth needed", "°C", "mean temperature of the hottest 30 days at which its summer is half warm enough", -10, 40},
	MowLowMM:       {"mow_low_mm", "lowest cut", "mm", "lowest cut it bears for years", 1, 150},
	MowBestMM:      {"mow_best_mm", "best cut", "mm", "lowest cut at which it loses nothing", 1, 200},
	MowHighMM:      {"mow_high_mm", "highest cut", "mm", "highest cut at which it still makes a close sward", 1, 300},
	Wear:           {"wear", "standing wear", "0 to 1", "how much of the canopy outlasts traffic, 1 best", 0, 1},
	NitrogenGM2:    {"nitrogen_g_m2", "nitrogen need", "g/m² a year", "nitrogen it needs in a year in full light", 0, 50},
	PHLow:          {"ph_low", "least soil pH", "pH", "lower end of the range it prefers", 3, 10},
	PHHigh:         {"ph_high", "greatest soil pH", "pH", "upper end of the range it prefers", 3, 10},
	SaltDSM:        {"salt_ds_m", "salt borne", "dS/m", "conductivity of the soil's saturation extract at which growth starts to fall", 0, 40},
	LeafMM:         {"leaf_mm", "leaf width", "mm", "width of the leaf in mown turf", 0.1, 20},
	ShootDensity:   {"close", "shoot density", "0 to 1", "how close and even a sward it makes by itself, 1 best", 0, 1},
	SeedsPerGram:   {"seeds_per_gram", "seeds in a gram", "1/g", "seeds in a gram of turf seed", 50, 50000},
	Purity:         {"purity", "least purity", "%", "pure seed, by weight, that a lawful lot holds at least", 1, 100},
	Germination:    {"germination", "least germination", "%", "of the pure seed, that a lawful lot germinates at least", 1, 100},
	GermBaseC:      {"germ_base_c", "base of germination", "°C", "soil temperature below which it does not germinate", -2, 20},
	EmergeDegDays:  {"emerge_deg_days", "warmth to emergence", "°C d", "thermal time above the base from sowing to half emergence in the field", 20, 1000},
	FieldEmergence: {"field_emergence", "field emergence", "share", "share of viable seeds that become plants in a fair seedbed", 0.01, 1},
	Vigour:         {"vigour", "seedling vigour", "0 to 1", "growth of the seedling after emergence, 1 quickest", 0, 1},
	Spread:         {"spread", "closing gaps", "0 to 1", "how fast it closes gaps by creeping and tillering, 1 fastest", 0, 1},
	Persistence:    {"persistence", "lasting power", "log-odds a year", "yearly gain on the other grasses of an established sward", -5, 5},
	Pale:           {"pale", "paleness", "0 to 1", "how far its yellowish leaf stands out in patches from the green of the others, 1 most", 0, 1},
	Volunteer:      {"volunteer", "coming in by itself", "share", "share of a gap that it seeds itself into in a moist year where nobody sowed it", 0, 1},
	SeedPrice:      {"seed_price", "price of seed", "× ryegrass", "price of its seed over that of perennial ryegrass", 0.1, 100},
	SaltWantedDSM:  {"salt_wanted_ds_m", "salt wanted", "dS/m", "conductivity of the soil's saturation extract below which other grasses crowd it out; 0: it lives anywhere", 0, 20},
	RateGM2:        {"rate_g_m2", "sowing rate alone", "g/m²", "published rate when sown alone", 0.5, 100},
}

// String is the trait's key in the species table.
func (t Trait) String() string { return traitInfo[t].key }

// Title is the trait's short name.
func (t Trait) Title() string { return traitInfo[t].title }

// Unit is the unit of its figures.
func (t Trait) Unit() string { return traitInfo[t].unit }

// Means says in one clause what the figure is.
func (t Trait) Means() string { return traitInfo[t].means }
