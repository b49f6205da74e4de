package bed

import (
	"math"

	"swardwright/internal/told"
	"swardwright/site/ground"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Slopes as rise over run.
const (
	Steepest  = 1.0 / 3 // of mown grass: Uppsala and Östersund municipalities; BS 4428:1989
	preferred = 1.0 / 5 // BS 4428:1989
	warnFrom  = 0.10    // University of Alaska Fairbanks Extension HGA-00046
	terrace   = 0.25    // City of Regina, New lawns
	leastFall = 0.01    // Växjö municipality, Teknisk handbok
)

// Mowable says whether a lawn on this slope, in degrees, can be mown safely.
func Mowable(slopeDeg float64) bool {
	return math.Tan(slopeDeg*math.Pi/180) <= Steepest
}

func (w Input) slopeChecks(puddleMM float64) []Check {
	slope := w.slope()
	figure := told.Say("bed.level")
	if slope > 0 {
		figure = told.Say("bed.slope", told.Share(slope), told.OneIn(slope))
	}
	c := Check{ID: "slope", Figure: figure, Limit: told.Say("bed.slope-limit", told.OneIn(Steepest), told.OneIn(preferred)), OK: slope <= Steepest,
		Source: "BS 4428:1989; Uppsala and Östersund municipalities, technical handbooks"}
	switch {
	case slope > Steepest:
		c.Advice = told.Say("bed.too-steep")
	case slope >= terrace:
		c.Advice = told.Say("bed.terrace", told.Share(terrace))
	case slope > preferred && w.turf():
		c.Advice = told.Say("bed.steep-turf", told.OneIn(preferred))
	case slope > preferred:
		c.Advice = told.Say("bed.steep", told.OneIn(preferred))
	case slope >= warnFrom && !w.turf() && w.Kind == job.New:
		c.Advice = told.Say("bed.sloping", told.Share(warnFrom))
	}
	if w.deck() || w.Use.Rough() { // a deck's fall is its own, and rough ground lies as it lies
		return []Check{c}
	}
	return []Check{c, w.fallCheck(figure, slope, puddleMM)}
}

// fallCheck asks whether water leaves the lawn above ground; where winters freeze it, what
// stands is ice. Ground that takes in the design rain and never freezes for long may lie level, but by a house.
func (w Input) fallCheck(figure told.Sentence, slope, puddleMM float64) Check {
	freezes := w.freezes()
	soaks := puddleMM <= 0 && !freezes
	c := Check{ID: "fall", Figure: figure, Limit: told.Say("bed.fall-limit-mild", usualFall), OK: slope >= leastFall,
		Source: "University of Alaska Fairbanks Extension HGA-00046; Växjö municipality; City of Regina; University of Saskatchewan, of snow melt"}
	if freezes {
		c.Limit = told.Say("bed.fall-limit", usualFall, told.Share(0.03))
	}
	switch {
	case c.OK:
	case soaks && w.Kind != job.New:
		c.OK = true
	case soaks:
		c.Advice = told.Say("bed.no-fall-soaks", usualFall)
	case w.Kind != job.New: // a standing lawn is not graded
		c.Advice = told.Say("bed.no-fall-standing-mild", told.DepthMM(job.MostDressMM))
		if freezes {
			c.Advice = told.Say("bed.no-fall-standing", told.DepthMM(job.MostDressMM))
		}
	default:
		c.Advice = told.Say("bed.no-fall-mild", usualFall)
		if freezes {
			c.Advice = told.Say("bed.no-fall", usualFall)
		}
	}
	return c
}

// freezes tells whether the ground is frozen for weeks on end in a usual winter.
func (w Input) freezes() bool { return w.Site.Weather.ColdestMonthC < 0 }

// leastCover of the old sward that overseeding can still mend.
const leastCover = 0.5

// mostWeeds of an old sward that seed sown into it can still outgrow: over half of it weeds
// it is started again (the sources of the check).
const mostWeeds = 0.5

// TooWeedy tells whether so great a share of weeds in an old sward asks for a new start.
func TooWeedy(weeds float64) bool { return weeds > mostWeeds }

// checks tests the ground as found and as prepared.
func (z rootzone) checks(w Input, b Bed, pipesHelp bool) []Check {
	soil := w.Site.Soil
	var list []Check
	add := func(checks ...Check) {
		for _, c := range checks {
			if c.OK {
				c.Advice = told.Sentence{}
			}
			list = append(list, c)
		}
	}

	if width, ok := narrowest(w.Site.Survey.Lawn.Parts); ok {
		add(Check{ID: "width", Figure: told.Say("bed.width", told.LengthM(width)), Limit: told.Say("bed.width-limit", told.LengthM(leastWidthM)),
			OK: width >= leastWidthM, Source: "Uppsala municipality, technical handbook", Advice: told.Say("bed.narrow")})
	}
	want := depthMM(w.Use.Grade)
	add(Check{ID: "depth", Figure: told.Say("bed.figure", told.DepthMM(soil.DepthCM*10)), Limit: told.Say("bed.figure", told.DepthMM(want)),
		OK: math.Round(soil.DepthCM*10) >= want || z.made, Source: "Östersund municipality; City of Regina; East Lothian and Tauranga, of verges",
		Advice: depthAdvice(w, z)})

	if w.Kind == job.New && !z.made && !w.deck() && (w.Use.Grade == species.Ornamental || w.Use.Grade == species.HardWearing) {
		add(Check{ID: "texture", Figure: told.Say("bed.figure", told.Term{Kind: "texture", Word: soil.Texture}), Limit: told.Say("bed.clay-limit", told.Share(mostClay/100.0)), OK: soil.ClayPercent <= mostClay,
			Source: "common practice, no published source", Advice: sandAdvice(soil, want/1000*w.deepM2()), Takes: sandFor(soil, want/1000*w.deepM2())})
	}
	add(z.rainChecks(w, b)...)

	drained := drainageCheck(soil, b, pipesHelp)
	if w.deck() {
		drained.Advice = told.Say("bed.deck-outlets")
	}
	add(drained)
	if soil.Stones > 0 {
		add(w.stoneCheck(z))
	}
	if !z.made {
		add(bearingCheck(soil.WinterBearing))
	}
	add(mixtureChecks(w, b)...)
	add(oldSwardChecks(w)...)
	organic := soil.OrganicPercent
	add(Check{ID: "organic", Figure: told.Say("bed.figure", told.FineShare(organic/100)), Limit: told.Say("bed.or-more", told.FineShare(organicFloor/100.0)),
		OK: organic >= organicFloor, Source: "common practice, no published source; Saskatoon asks for more", Advice: organicAdvice(w, z)})

	if z.gravel {
		add(gradingChecks(z)...)
	}
	return list
}

// rainChecks ask whether the ground takes in hard rain, as found and as prepared.
func (z rootzone) rainChecks(w Input, b Bed) []Check {
	rain := w.Site.Weather.DesignRainMMH
	found := rainCheck("rain-found", rain, w.Site.Soil.InfiltrationMMH, b.FoundPuddleMM, b.FoundPuddleHours)
	if w.deck() {
		found.Advice = told.Say("bed.deck-outlets")
		return []Check{found}
	}
	found.Advice = w.sheds()
	if w.Kind == job.Overseed {
		return []Check{found}
	}
	prepared := rainCheck("rain-prepared", rain, z.water.KsatMMH, b.PuddleMM, b.PuddleHours)
	prepared.Advice = w.sheds()
	if !w.Use.Rough() && w.slope() < warnFrom { // nobody builds up a bank, or ground that is left rough
		prepared.Advice = told.Say("bed.advice-and", w.sheds(), rootzoneAdvice(w, rain))
	}
	return []Check{found, prepared}
}

// oldSwardChecks ask whether what stands is worth sowing into.
func oldSwardChecks(w Input) (list []Check) {
	if w.Kind == job.Overseed && w.Cover > 0 {
		list = append(list, Check{ID: "cover", Figure: told.Say("bed.figure", told.Share(w.Cover)), Limit: told.Say("bed.or-more", told.Share(leastCover)),
			OK: w.Cover >= leastCover, Source: "common practice, no published source", Advice: told.Say("bed.too-little-sward")})
	}
	if w.Kind != job.New && w.Weeds > 0 {
		list = append(list, Check{ID: "weeds", Figure: told.Say("bed.figure", told.Share(w.Weeds)), Limit: told.Say("bed.weeds-limit", told.Share(mostWeeds)),
			OK: !TooWeedy(w.Weeds), Source: "Virginia Cooperative Extension, Master Gardeners of Prince William; extension column, Owensboro, Kentucky (Messenger-Inquirer)", Advice: told.Say("bed.too-weedy")})
	}
	return list
}

// gradingChecks hold a rootzone of sand as it usually is to the gravel under it.
func gradingChecks(z rootzone) []Check {
	list := usga2004.checks(jointOf(withFines(mediumSand, z.grain), fineGravel))
	for i := range list {
		list[i].Figure = told.Say("bed.usual-grading", list[i].Figure)
	}
	return list
}

// drainageCheck asks whether water leaves the ground below.
func drainageCheck(soil ground.Soil, b Bed, pipesHelp bool) Check {
	drained := Check{ID: "drainage", Figure: told.Say("bed.drained", told.Term{Kind: "drainage", Word: soil.Drainage}), Limit: told.Say("bed.drained-limit", told.Term{Kind: "drainage", Word: "moderately well"}), OK: soil.Wetness < wetFrom,
		Source: "USDA Soil Survey Manual (classes); Hooghoudt (spacing), in Ritzema, ILRI Publication 16, 1994"}
	switch {
	case drained.OK:
	case b.DrainSpacingM > 0:
		drained.Advice = told.Say("bed.drain-it", told.LengthM(b.DrainSpacingM))
	case !pipesHelp:
		drained.Advice = told.Say("bed.no-pipes", told.LengthM(closestM))
	default:
		drained.Advice = told.Say("bed.no-drains-now")
	}
	return drained
}

// bearingCheck asks whether the ground bears feet and wheels in winter.
func bearingCheck(b ground.Bearing) Check {
	c := Check{ID: "bearing", Figure: bears(b), Limit: bears(ground.Firm), OK: b == ground.Firm,
		Source: "common practice, no published source", Advice: told.Say("bed.wheels-off")}
	if b == ground.Poor {
		c.Advice = told.Say("bed.feet-off")
	}
	return c
}

// mixtureChecks hold the ground to what the grasses of the mixture bear; none without one.
func mixtureChecks(w Input, b Bed) (list []Check) {
	soil := w.Site.Soil
	low, high := wantedPH(w.Parts)
	if low <= 0 {
		return nil
	}
	figure := told.Say("bed.figure", told.PH(soil.PH))
	if !soil.PHKnown {
		figure = told.Say("bed.not-tested")
	}
	list = append(list, Check{ID: "ph", Figure: figure, Limit: told.Say("bed.for-this-mixture", told.Between(told.PH(low), told.PH(high))),
		OK: soil.PHKnown && soil.PH >= low && soil.PH <= high, Source: "the species table, by share of the mixture", Advice: phAdvice(w, low, b)})
	if limit, who := saltLimit(w.Parts); who != nil {
		list = append(list, Check{ID: "salt", Figure: told.Say("bed.figure", told.SalinityDSM(soil.ECeDSM)), Limit: told.Say("bed.salt-limit", told.SalinityDSM(limit), told.Grass(who.ID)),
			OK: soil.ECeDSM <= limit, Source: "the species table", Advice: told.Say("bed.salty")})
	}
	return list
}

// A close or trodden lawn on clay seals and poaches: mostClay is the clay it bears,
// sandyPercent the sand of a mix that keeps its pores. Common practice, no
// published source.
const (
	mostClay     = 27
	sandyPercent = 75
)

// sandFor is the sand that it takes to make a settled volume of rootzone of heavy soil; nil
// where sand makes none.
func sandFor(soil ground.Soil, settledM3 float64) *Material {
	share, err := shareFor(rootzoneSand, grainOf(soil), sandyPercent)
	if err != nil || settledM3 <= 0 {
		return nil
	}
	var y supplies
	y.heap(ground.Sand, share*settledM3, told.Say("bed.washed-sand"), "sand_per_m3", told.Say("bed.for-rootzone"))
	return &y.list[0]
}

// sandAdvice says how much sand makes a rootzone of heavy soil, and how much of it is to
// be bought for a settled volume of it.
func sandAdvice(soil ground.Soil, settledM3 float64) told.Sentence {
	share, err := shareFor(rootzoneSand, grainOf(soil), sandyPercent)
	if err != nil {
		return told.Say("bed.lighter-topsoil")
	}
	return told.Say("bed.mix-sand", parts(share), parts(1-share), told.Share(sandyPercent/100.0), told.VolumeM3(ground.Sand.Settled(share*settledM3).LooseM3))
}

func depthAdvice(w Input, z rootzone) told.Sentence {
	if w.deck() {
		return told.Say("bed.deck-shallow", w.holdsMM())
	}
	if w.Kind != job.New {
		return told.Say("bed.shallow", told.DepthMM(job.MostDressMM))
	}
	if w.Use.Meadow() {
		return told.Say("bed.meadow-poor")
	}
	if z.importMM == 0 {
		return told.Say("bed.nearly-deep")
	}
	return told.Say("bed.bring-in", told.DepthMM(z.importMM))
}

func organicAdvice(w Input, z rootzone) told.Sentence {
	if w.Use.Meadow() {
		return told.Say("bed.meadow-poor")
	}
	if z.compostMM > 0 {
		return told.Say("bed.dig-in-compost", told.DepthMM(z.compostMM))
	}
	return told.Say("bed.dress-with-compost")
}

func phAdvice(w Input, low float64, b Bed) told.Sentence {
	ph := w.Site.Soil.PH
	switch {
	case !w.Site.Soil.PHKnown:
		return told.Say("bed.test-ph")
	case ph > low && ph > 7:
		return told.Say("bed.too-limy")
	case b.LimeGM2 > 0:
		if w.Kind != job.New {
			return told.Say("bed.lime-in-season", told.GramsPerM2(b.LimeGM2))
		}
		return told.Say("bed.lime-as-stated")
	default:
		return told.Say("bed.no-lime-yet", told.Years(3))
	}
}

// standsOnHours is how long water stands before it is said to stay: a week.
const standsOnHours = 7 * 24

func rainCheck(id string, rain, intake, puddleMM, hours float64) Check {
	c := Check{ID: id, Limit: told.Say("bed.rain-limit", told.WaterMM(rain), told.Years(2)), OK: puddleMM < 1,
		Source: "intake by Saxton & Rawls 2006 and FAO Irrigation Training Manual 5; storm from the place's rain"}
	if c.OK {
		c.Figure = told.Say("bed.nothing-stands", told.MMPerHour(intake))
		return c
	}
	if hours > standsOnHours {
		c.Figure = told.Say("bed.stands-on", told.WaterMM(puddleMM))
		return c
	}
	c.Figure = told.Say("bed.stands", told.MMPerHour(intake), told.WaterMM(puddleMM), told.Hours(hours))
	return c
}

// sheds is what becomes of water that the ground doesn't take in, by the fall it has.
func (w Input) sheds() told.Sentence {
	switch {
	case w.Use.Meadow():
		return told.Say("bed.meadow-stands")
	case w.slope() >= leastFall:
		return told.Say("bed.slope-sheds")
	case w.Kind == job.New && !w.Use.Rough():
		return told.Say("bed.sheds", usualFall)
	default:
		return told.Say("bed.nothing-sheds")
	}
}

// bears is how the ground bears feet and wheels in winter.
func bears(b ground.Bearing) told.Sentence {
	return told.Say("bed.figure", told.Term{Kind: "bearing", Word: string(b)})
}

// rootzoneAdvice names the least share of sand in a mix with this soil that takes
// in the design rain.
func rootzoneAdvice(w Input, rain float64) told.Sentence {
	soil := grainOf(w.Site.Soil)
	for share := 0.5; share < 0.96; share += 0.05 {
		g := blend(rootzoneSand, soil, share)
		if ground.WaterOf(g.SandPercent, g.ClayPercent, g.OrganicPercent).KsatMMH >= rain {
			return told.Say("bed.rootzone-would", told.Share(share), told.Share(1-share))
		}
	}
	return told.Say("bed.only-sand-would")
}

// frost is what frozen ground asks for: a fall, and to know what the sun of winter does.
func (w Input) frost() (list []told.Sentence) {
	if w.freezes() && !w.deck() && (w.slope() >= leastFall || w.Kind == job.New && !w.Use.Rough()) {
		list = says(told.Say("bed.frozen-ground"))
	}
	return append(list, w.winterSun()...)
}

// facingDeg is how near a slope must face the sun of noon, or turn from it, for its winter to be
// another one than on level ground: our own.
const facingDeg = 60.0

// winterSun says what the sun of winter does on a slope that faces it, and where it never comes:
// common practice, no published source.
func (w Input) winterSun() []told.Sentence {
	at := w.Site.Survey
	if w.slope() < warnFrom || !w.freezes() || at.Lawn.AspectUnknown {
		return nil
	}
	noon := 180.0
	if at.Place.LatitudeDeg < 0 {
		noon = 0
	}
	switch off := math.Abs(math.Remainder(at.Lawn.AspectDeg-noon, 360)); {
	case off <= facingDeg:
		return says(told.Say("bed.sunny-slope"))
	case off >= 180-facingDeg:
		return says(told.Say("bed.turned-slope"))
	}
	return nil
}

// orders says what a made rootzone and its gravel are ordered as.
func (z rootzone) orders() (list []told.Sentence) {
	if z.made {
		list = append(list, told.Say("bed.rootzone-is", told.Term{Kind: "texture", Word: z.class}, told.Share(z.grain.SandPercent/100), told.Share(1-(z.grain.SandPercent+z.grain.ClayPercent)/100),
			told.Share(z.grain.ClayPercent/100), told.Share(0.05), told.Share(0.03)))
	}
	if z.gravel {
		r := withFines(mediumSand, z.grain)
		list = append(list, told.Say("bed.gravel-to-ask-for", told.Between(told.FineMM(usga2004.Permeability*r.d(15)), told.FineMM(usga2004.Bridging*r.d(85))), trimmed(usga2004.Evenness), told.FineMM(12),
			told.Source("USGA 2004"), told.Source("USGA 1993"), told.FineMM(usga1993.Bridging*r.d(85)), trimmed(usga1993.Evenness), gritLayer))
	}
	return list
}

// notes holds what a check does not say.
func notes(w Input, z rootzone, b Bed) []told.Sentence {
	var list []told.Sentence
	if w.deck() {
		list = append(list, w.load()...)
		list = append(list, told.Say("bed.deck-level", told.DepthMM(upstandMM)), told.Say("bed.deck-water", w.holdsMM()))
	} else if w.Kind == job.New && !w.Use.Rough() {
		list = append(list, told.Say("bed.finished-level", told.Between(told.DepthMM(12), told.DepthMM(25)), told.DepthMM(25), told.DepthMM(150)))
	}
	if w.Kind == job.New && w.Use.Meadow() {
		list = append(list, told.Say("bed.meadow-flowers", told.Between(told.GramsPerM2(1), told.GramsPerM2(5))))
	}
	list = append(list, z.orders()...)
	switch n, p2o5, _ := w.starter(); {
	case w.Unfed && n > 0:
		list = append(list, told.Say("bed.starter-forbidden"))
	case w.Unfed && p2o5 > 0:
		list = append(list, told.Say("bed.phosphate-forbidden"))
	}
	if b.StarterP2O5 > 0 && w.Site.Soil.Phosphorus == "" {
		list = append(list, told.Say("bed.phosphate-untested"))
	}
	list = append(list, w.frost()...)
	if w.Method == job.Drill && w.Kind == job.New && !w.covered() {
		list = append(list, told.Say("bed.drilled"))
	}
	return list
}
