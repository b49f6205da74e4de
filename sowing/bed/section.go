package bed

import (
	"math"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/site/ground"
	"swardwright/sowing/job"
)

func foundLayers(s ground.Soil) []Layer {
	texture, organic := texture(s.Texture), told.FineShare(s.OrganicPercent/100)
	note := told.Say("bed.topsoil-measured", texture, organic)
	if !s.DepthKnown {
		note = told.Say("bed.topsoil-assumed", texture, organic)
	}
	drained := told.Say("bed.drained", told.Term{Kind: "drainage", Word: s.Drainage})
	if s.OnDeck {
		return []Layer{{Topsoil, s.DepthCM * 10, note}, {Deck, 0, drained}}
	}
	return []Layer{{Topsoil, s.DepthCM * 10, note}, {Subsoil, 0, drained}}
}

func texture(class string) told.Term { return told.Term{Kind: "texture", Word: class} }

// layers is the section as wanted, from the top.
func (z rootzone) layers(w Input) []Layer {
	class := texture(z.class)
	none := told.Sentence{}
	switch {
	case z.made:
		l := []Layer{{Rootzone, z.depthMM, told.Say("bed.rootzone-mix", told.Share(z.sandShare), told.Share(1-z.sandShare), class)}}
		if z.gravel {
			l = append(l, Layer{Gravel, gravelMM, told.Say("bed.gravel-washed", gravelSize)})
		}
		return append(l, Layer{Formation, 0, told.Say("bed.formation", usualFall)})
	case w.deck():
		l := []Layer{{Topsoil, z.depthMM, told.Say("bed.deck-soil", class)}, {Deck, 0, told.Say("bed.deck-below")}}
		if mm := dressingMM(w); mm > 0 {
			l = append([]Layer{{Dressing, mm, told.Say("bed.dressing-worked-down", told.Share(job.DressSandShare), told.Share(1-job.DressSandShare))}}, l...)
		}
		return l
	case w.Kind == job.New:
		note := told.Say("bed.figure", class)
		brought, compost := told.DepthMM(z.importMM), told.DepthMM(z.compostMM)
		switch {
		case z.importMM > 0 && z.compostMM > 0:
			note = told.Say("bed.topsoil-and-compost-in", class, brought, compost)
		case z.importMM > 0:
			note = told.Say("bed.topsoil-in", class, brought)
		case z.compostMM > 0:
			note = told.Say("bed.compost-in", class, compost)
		}
		l := []Layer{{Topsoil, z.depthMM, note}}
		if below := z.importMM + z.loosenMM - z.depthMM; below > 0 {
			l = append(l, Layer{Loosened, below, told.Say("bed.broken-up")})
		}
		return append(l, Layer{Subsoil, 0, none})
	default:
		mm := dressingMM(w)
		if mm == 0 {
			return []Layer{{Topsoil, z.depthMM, told.Say("bed.figure", class)}, {Subsoil, 0, none}}
		}
		return []Layer{
			{Dressing, mm, told.Say("bed.dressing-worked-down", told.Share(job.DressSandShare), told.Share(1-job.DressSandShare))},
			{Topsoil, z.depthMM, told.Say("bed.spiked", class)}, {Subsoil, 0, none},
		}
	}
}

// gravelSize is the drainage gravel that merchants have.
var gravelSize = told.Between(told.DepthMM(2), told.DepthMM(6))

// ground is what rain meets once the job is done, with pipes at the spacing given.
func (z rootzone) ground(w Input, spacingM float64) soak {
	soil := w.Site.Soil
	g := soak{
		IntakeMMH: math.Max(z.water.KsatMMH, 0),
		StoreMM:   (z.water.Saturation - z.water.FieldCapacity) * z.depthMM,
		DrainMMH:  soil.DrainMMD / 24,
	}
	if w.Kind == job.Overseed && soil.InfiltrationMMH < g.IntakeMMH { // measured, or trodden: nothing is changed below
		g.IntakeMMH = soil.InfiltrationMMH
	}
	if spacingM > 0 {
		g.DrainMMH = math.Max(g.DrainMMH, lawnDischargeMD*1000/24)
	}
	if z.gravel {
		g.DrainMMH = z.water.KsatMMH
	}
	return g
}

// pipes gives the spacing of pipe drains (0: none), their depth, and whether they
// can help where the ground is wet.
func pipes(w Input, z rootzone) (spacingM, depthM float64, help bool) {
	d, depth := lawnDrains(w.Site.Soil.KsatMMH, w.Site.Weather.ColdestMonthC)
	switch wet := w.Site.Soil.Wetness >= wetFrom; {
	case w.Kind != job.New || !wet || w.deepM2() == 0 || w.deck(): // no trenches through a standing sward, nor roots, nor into a deck
		return 0, depth, true
	case z.gravel:
		return gravelDrainM, (z.depthMM + gravelMM) / 1000, true
	}
	l := math.Floor(d.spacing()*2) / 2 // to the half metre
	if l < closestM {
		return 0, depth, false
	}
	return l, depth, true
}

// wetFrom is the wetness from which the ground needs draining: somewhat poorly
// drained, wet near the surface for long spells of the growing season (USDA Soil
// Survey Manual).
const wetFrom = 0.5

// materials lists what is brought in and taken away.
func materials(w Input, z rootzone, b *Bed, area, pipeDepthM float64) []Material {
	var y supplies
	deep := w.deepM2()
	if z.made {
		y.rootzone(w, z, deep)
	}
	y.heap(ground.Topsoil, z.importMM/1000*deep, told.Say("bed.item-topsoil"), "topsoil_per_m3", told.Say("bed.for-depth"))
	if w.Kind == job.New {
		y.heap(ground.Topsoil, overRootsMM/1000*w.rootsM2(), told.Say("bed.item-topsoil"), "topsoil_per_m3", told.Say("bed.for-roots"))
	}
	y.heap(ground.Compost, z.compostMM/1000*deep, told.Say("bed.item-compost"), "compost_per_m3", told.Say("bed.for-organic"))
	y.surface(w)
	y.stones(w.pickM3(z))
	if b.DressingMM > 0 {
		y.dressing(w, b.DressingMM, area)
	}
	if w.Moss && w.Kind != job.New {
		y.weigh(told.Say("bed.iron-sulphate"), ironGM2*area, "iron_sulphate_per_kg", told.Say("bed.for-moss"))
	}
	y.weigh(told.Say("bed.limestone"), b.LimeGM2*area, "lime_per_kg", told.Say("bed.for-ph"))
	if b.StarterN > 0 || b.StarterP2O5 > 0 {
		y.starter(b, area)
	}
	y.cover(w, b, area)
	if b.DrainSpacingM > 0 {
		m := math.Ceil(steady.Figure(deep / b.DrainSpacingM))
		y.list = append(y.list, Material{Item: told.Say("bed.drain-pipe", told.DepthMM(80)), Quantity: m, Unit: "m", PriceKey: "drain_pipe_per_m",
			For: told.Say("bed.for-drains", told.LengthM(b.DrainSpacingM), told.LengthM(pipeDepthM))})
		y.heap(ground.Gravel, m*trenchM*trenchGravelM, told.Say("bed.washed-gravel", gravelSize), "gravel_per_m3", told.Say("bed.for-round-pipes"))
	}
	return y.list
}

// supplies gathers materials.
type supplies struct{ list []Material }

// heap adds so many settled cubic metres of something loose.
func (y *supplies) heap(m ground.Material, m3 float64, item told.Sentence, key string, what told.Sentence) {
	if m3 <= 0 {
		return
	}
	l := m.Settled(m3)
	y.list = append(y.list, Material{
		Item: item, SettledM3: l.SettledM3, LooseM3: l.LooseM3, Tonnes: l.KG / 1000,
		BarrowLoads: l.BarrowLoads, BulkBags: l.BulkBags, LorryLoads: l.LorryLoads,
		Quantity: l.LooseM3, Unit: "m3", PriceKey: key, For: what,
	})
}

// weigh adds so many grams of something bagged.
func (y *supplies) weigh(item told.Sentence, grams float64, key string, what told.Sentence) {
	if grams > 0 {
		kg := grams / 1000
		y.list = append(y.list, Material{Item: item, KG: kg, Quantity: kg, Unit: "kg", PriceKey: key, For: what})
	}
}

// rootzone adds what a made rootzone takes, and what is dug out for it.
func (y *supplies) rootzone(w Input, z rootzone, deep float64) {
	volume := z.depthMM / 1000 * deep
	y.heap(ground.Sand, volume*z.sandShare, told.Say("bed.washed-sand"), "sand_per_m3", told.Say("bed.for-rootzone"))
	y.heap(ground.Topsoil, steady.Figure(volume*(1-z.sandShare)-z.soilReusedM3), told.Say("bed.item-topsoil"), "topsoil_per_m3", told.Say("bed.for-rootzone"))
	dug := volume
	if z.gravel {
		y.heap(ground.Gravel, gravelMM/1000.0*deep, told.Say("bed.washed-gravel", gravelSize), "gravel_per_m3", told.Say("bed.for-under-rootzone"))
		dug += gravelMM / 1000.0 * deep
	}
	spoil := ground.DugSoil
	if w.Site.Soil.ClayPercent >= 27 {
		spoil = ground.DugClay
	}
	y.heap(spoil, steady.Figure(dug-z.soilReusedM3), told.Say("bed.spoil"), "spoil_per_m3", told.Say("bed.for-dug-out"))
}

// dressing adds what seed is dressed with, and what fills the holes of a spiked sward.
func (y *supplies) dressing(w Input, mm, area float64) {
	m3 := mm / 1000 * area
	if w.Kind != job.New {
		m3 += spikes().LitresM2 / 1000 * w.spikedM2()
	}
	from := len(y.list)
	y.heap(ground.Sand, m3*job.DressSandShare, told.Say("bed.dry-sand"), "sand_per_m3", told.Say("bed.for-dressing"))
	y.heap(ground.Compost, m3*(1-job.DressSandShare), told.Say("bed.item-compost"), "compost_per_m3", told.Say("bed.for-dressing"))
	for i := range y.list[from:] {
		y.list[from+i].WithSeed = true
	}
}

// starter adds the feed at sowing, and tells what it holds.
func (y *supplies) starter(b *Bed, area float64) {
	g, grams := b.feedAtSowing()
	b.StarterN = grams * g.n / 100 // what comes along
	var nutrients []told.Sentence
	item := told.Say("bed.phosphate-bag", g.told())
	if g.n > 0 {
		nutrients = says(told.Say("bed.of-nitrogen", told.GramsPerM2(grams*g.n/100)))
		item = told.Say("bed.starter-bag", g.told())
	}
	if g.p2o5 > 0 {
		nutrients = append(nutrients, told.Say("bed.of-phosphate", told.GramsPerM2(grams*g.p2o5/100)))
	}
	if g.k2o > 0 {
		nutrients = append(nutrients, told.Say("bed.of-potash", told.GramsPerM2(grams*g.k2o/100)))
	}
	b.Starter = told.Say("bed.starter-feed", told.GramsPerM2(grams), g.told(), told.Joined(told.Commas, nutrients...))
	y.weigh(item, grams*area, "starter_feed_per_kg", told.Say("bed.for-starter"))
}

// cover adds what lies on the seed or goes out with it.
func (y *supplies) cover(w Input, b *Bed, area float64) {
	sown := job.Area(w.Sown)
	switch {
	case w.blanket():
		y.list = append(y.list, Material{Item: told.Say("bed.blanket-item"), Quantity: math.Ceil(steady.Figure(sown * blanketMore)), Unit: "m2", PriceKey: "erosion_blanket_per_m2", For: told.Say("bed.for-slope"), WithSeed: true})
	case w.covered():
		kg := strawGM2 * sown / 1000
		y.list = append(y.list, Material{Item: told.Say("bed.straw-item"), KG: kg, Quantity: kg, Unit: "kg", PriceKey: "straw_per_kg", For: told.Say("bed.for-slope"), WithSeed: true})
	case w.strawed():
		kg := strawGM2 * sown / 1000
		y.list = append(y.list, Material{Item: told.Say("bed.straw-item"), KG: kg, Quantity: kg, Unit: "kg", PriceKey: "straw_per_kg", For: told.Say("bed.for-drying"), WithSeed: true})
	}
	if kg := nurseGM2 * b.NursedM2 / 1000; kg > 0 {
		y.list = append(y.list, Material{Item: told.Say("bed.nurse-item"), KG: kg, Quantity: kg, Unit: "kg", PriceKey: "oats_per_kg", For: told.Say("bed.for-slope"), WithSeed: true})
	}
	if kg := b.Guide.sandKG(); kg > 0 {
		y.list = append(y.list, Material{Item: told.Say("bed.dry-sand"), KG: kg, Quantity: kg, Unit: "kg", PriceKey: "dry_sand_per_kg", For: told.Say("bed.for-bulking"), WithSeed: true})
	}
	if w.netted() {
		y.list = append(y.list, Material{Item: told.Say("bed.netting"), Quantity: area, Unit: "m2", PriceKey: "bird_line_per_m2", For: told.Say("bed.for-birds"), WithSeed: true})
	}
}

// A drain trench dug by hand: its width, and the gravel round the pipe.
const trenchM, trenchGravelM = 0.2, 0.3
