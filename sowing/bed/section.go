package bed

import (
	"fmt"
	"math"

	"swardwright/site/ground"
	"swardwright/sowing/job"
)

func foundLayers(s ground.Soil) []Layer {
	how := "as measured"
	if !s.DepthKnown {
		how = "assumed"
	}
	return []Layer{
		{"topsoil", s.DepthCM * 10, fmt.Sprintf("%s, %.0f %% organic matter, depth %s", s.Texture, s.OrganicPercent, how)},
		{"subsoil", 0, s.Drainage + " drained"},
	}
}

// layers is the section as wanted, from the top.
func (z rootzone) layers(w Input) []Layer {
	switch {
	case z.made:
		l := []Layer{{"rootzone", z.depthMM, fmt.Sprintf("%.0f %% sand, %.0f %% topsoil by volume: a %s", 100*z.sandShare, 100*(1-z.sandShare), z.class)}}
		if z.gravel {
			l = append(l, Layer{"gravel", gravelMM, "washed, 2 to 6 mm"})
		}
		return append(l, Layer{"formation", 0, "trimmed to a fall of 1 to 2 % towards the outfall"})
	case w.Kind == job.New:
		note := z.class
		if z.importMM > 0 {
			note = fmt.Sprintf("%s; %.0f mm of it brought in", z.class, z.importMM)
		}
		if z.compostMM > 0 {
			note += fmt.Sprintf("; %.0f mm of compost dug in", z.compostMM)
		}
		l := []Layer{{"topsoil", z.depthMM, note}}
		if below := z.importMM + z.loosenMM - z.depthMM; below > 0 {
			l = append(l, Layer{"subsoil, loosened", below, "broken up, not turned over"})
		}
		return append(l, Layer{"subsoil", 0, ""})
	default:
		return []Layer{
			{"top dressing", dressingMM(w), "70 % sand, 30 % weed-free compost, worked down between the shoots"},
			{"topsoil", z.depthMM, z.class + ", spiked"}, {"subsoil", 0, ""},
		}
	}
}

// ground is what rain meets once the job is done, with pipes at the spacing given.
func (z rootzone) ground(w Input, spacingM float64) Ground {
	soil := w.Site.Soil
	g := Ground{
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
	case w.Kind == job.Overseed || !wet:
		return 0, depth, true
	case z.gravel:
		return gravelDrainM, (z.depthMM + gravelMM) / 1000, true
	}
	l := math.Floor(d.Spacing()*2) / 2 // to the half metre
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
	var list []Material
	heap := func(m ground.Material, m3 float64, item, key, what string) {
		if m3 <= 0 {
			return
		}
		l := m.Settled(m3)
		list = append(list, Material{
			Item: item, SettledM3: l.SettledM3, LooseM3: l.LooseM3, Tonnes: l.KG / 1000,
			BarrowLoads: l.BarrowLoads, BulkBags: l.BulkBags, LorryLoads: l.LorryLoads,
			Quantity: l.LooseM3, Unit: "m3", PriceKey: key, For: what,
		})
	}
	weigh := func(item string, gM2 float64, key, what string) {
		if gM2 > 0 {
			kg := gM2 * area / 1000
			list = append(list, Material{Item: item, KG: kg, Quantity: kg, Unit: "kg", PriceKey: key, For: what})
		}
	}
	if z.made {
		volume := z.depthMM / 1000 * area
		heap(ground.Sand, volume*z.sandShare, "washed medium sand", "sand_per_m3", "rootzone")
		heap(ground.Topsoil, volume*(1-z.sandShare)-z.soilReusedM3, "topsoil", "topsoil_per_m3", "rootzone")
		dug := volume
		if z.gravel {
			heap(ground.Gravel, gravelMM/1000.0*area, "washed gravel 2 to 6 mm", "gravel_per_m3", "drainage under the rootzone")
			dug += gravelMM / 1000.0 * area
		}
		spoil := ground.DugSoil
		if w.Site.Soil.ClayPercent >= 27 {
			spoil = ground.DugClay
		}
		heap(spoil, dug-z.soilReusedM3, "spoil taken away", "spoil_per_m3", "dug out for the rootzone")
	}
	heap(ground.Topsoil, z.importMM/1000*area, "topsoil", "topsoil_per_m3", "to make up the depth")
	heap(ground.Compost, z.compostMM/1000*area, "weed-free compost", "compost_per_m3", "dug in for organic matter")
	if b.DressingMM > 0 {
		m3 := b.DressingMM / 1000 * area
		if w.Kind != job.New {
			m3 += spikes().LitresM2 / 1000 * area
		}
		heap(ground.Sand, m3*dressSandShare, "dry washed sand", "sand_per_m3", "top dressing")
		heap(ground.Compost, m3*(1-dressSandShare), "weed-free compost", "compost_per_m3", "top dressing")
		for i := range list {
			list[i].WithSeed = list[i].WithSeed || list[i].For == "top dressing"
		}
	}
	weigh("ground limestone", b.LimeGM2, "lime_per_kg", "pH")
	if b.StarterN > 0 {
		g, grams := gradeFor(b.StarterN, b.StarterP2O5, b.StarterK2O)
		b.Starter = fmt.Sprintf("%.0f g/m² of a %s feed (N-P₂O₅-K₂O), or the nearest on sale: %.1f g/m² of nitrogen", grams, g, grams*g.n/100)
		for _, x := range []struct {
			percent float64
			name    string
		}{{g.p2o5, "phosphate"}, {g.k2o, "potash"}} {
			if x.percent > 0 {
				b.Starter += fmt.Sprintf(", %.1f g/m² of %s", grams*x.percent/100, x.name)
			}
		}
		weigh("starter feed "+g.String(), grams, "starter_feed_per_kg", "feed at sowing")
	}
	if w.Kind == job.New && w.Method != job.InDressing && !w.turf() {
		list = append(list, Material{Item: "netting or bird line", Quantity: area, Unit: "m2", PriceKey: "bird_line_per_m2", For: "keeping birds off the seed", WithSeed: true})
	}
	if b.DrainSpacingM > 0 {
		m := math.Ceil(area / b.DrainSpacingM)
		list = append(list, Material{Item: "perforated drain pipe, 80 mm, in fine gravel", Quantity: m, Unit: "m", PriceKey: "drain_pipe_per_m",
			For: fmt.Sprintf("drains %.1f m apart, %.1f m deep; the run to an outfall is extra", b.DrainSpacingM, pipeDepthM)})
		heap(ground.Gravel, m*trenchM*trenchGravelM, "washed gravel 2 to 6 mm", "gravel_per_m3", "round the drain pipes")
	}
	return list
}

// A drain trench dug by hand: its width, and the gravel round the pipe.
const trenchM, trenchGravelM = 0.2, 0.3
