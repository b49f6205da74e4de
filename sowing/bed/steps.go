package bed

import (
	"fmt"
	"math"
)

// Cautions of the work.
const (
	cautionServices = "Have buried cables, gas, water and drains located before digging, spiking or driving edging; dig by hand near them."
	cautionLifting  = "Keep barrow loads small, lift with the legs, and share heavy bags."
	cautionDust     = "Dry sand, lime and soil make harmful dust: wear a fitted mask and eye protection, and wet it down."
	cautionFeed     = "Keep fertiliser off paths and away from drains, watercourses, children and animals."
	cautionTrees    = "Leave the ground under tree crowns undug; trees may be protected: ask the local authority and an arborist."
	cautionDrains   = "Trenches, walls, slopes and outfalls: ask a drainage engineer and the local authority first."
)

// Days before sowing at which a new lawn's work is done. Waits: soil settles two
// weeks before it is raked, weed seedlings get three weeks to come up: common
// practice, no published source.
const (
	dayTest   = 60
	dayClear  = 45
	dayDig    = 42
	dayDrain  = 44
	daySpread = 40
	dayLevel  = 38
	dayRake   = 22
	dayHoe    = 1
)

func steps(w Want, z rootzone, b Bed, pipeDepthM float64) []Step {
	if w.Kind == New {
		lay := sowSteps
		if w.Turf {
			lay = turfSteps
		}
		return append(newSteps(w, z, b, pipeDepthM), lay(w, b)...)
	}
	return renovateSteps(w, b)
}

func newSteps(w Want, z rootzone, b Bed, pipeDepthM float64) []Step {
	area := w.Site.AreaM2
	list := []Step{
		{Title: "Test the ground", DaysBefore: dayTest, Caution: cautionServices,
			Detail: "Dig two holes a spade and a half deep: look at depth, roots, smell and colour. Fill one with water twice and time the second fall. Send a sample for pH, phosphorus and potassium."},
		{Title: "Clear the ground", DaysBefore: dayClear, OutputKey: "clear_m2_per_hour", Quantity: area, Unit: "m2",
			Detail: "Take off rubble, old turf and every root of couch, ground elder and dock; they come through any lawn."},
	}
	add := func(s Step) { list = append(list, s) }
	if b.DrainSpacingM > 0 {
		m := math.Ceil(area / b.DrainSpacingM)
		add(Step{Title: "Lay drains", DaysBefore: dayDrain, OutputKey: "trench_m_per_hour", Quantity: m, Unit: "m", Caution: cautionDrains,
			Detail: fmt.Sprintf("%.0f m of perforated pipe %.1f m apart, %.1f m deep, falling 1 in 100 to an outfall that may lawfully take the water, in fine gravel.", m, b.DrainSpacingM, pipeDepthM)})
	}
	if z.made {
		dug := z.depthMM
		if z.gravel {
			dug += gravelMM
		}
		m3 := dug / 1000 * area
		add(Step{Title: "Dig out", DaysBefore: dayDig, OutputKey: "barrow_m3_per_hour", Quantity: m3, Unit: "m3", Caution: cautionServices,
			Detail: fmt.Sprintf("%.0f mm deep. Keep the topsoil apart for the mix. Trim the bottom to fall 1 to 2 %% towards the outfall and loosen it where machines have pressed it.", dug)})
		detail := fmt.Sprintf("Mix %.0f parts of sand with %.0f of topsoil by volume before it goes in, off the lawn; spread in layers of at most 100 mm and tread each.", 100*z.sandShare, 100*(1-z.sandShare))
		if z.gravel {
			detail = fmt.Sprintf("First %d mm of gravel with the same fall. ", gravelMM) + detail
		}
		add(Step{Title: "Build the rootzone", DaysBefore: daySpread, OutputKey: "barrow_m3_per_hour", Quantity: m3, Unit: "m3", Caution: cautionLifting + " " + cautionDust, Detail: detail})
	} else {
		add(Step{Title: "Loosen", DaysBefore: dayDig, OutputKey: "dig_m2_per_hour", Quantity: area, Unit: "m2", Caution: cautionServices + " " + cautionTrees,
			Detail: fmt.Sprintf("Break the ground up %.0f mm deep when it crumbles, never when it smears; don't bring subsoil up.", z.loosenMM)})
		if z.importMM > 0 || z.compostMM > 0 {
			m3 := (z.importMM + z.compostMM) / 1000 * area
			var what string
			if z.importMM > 0 {
				what = fmt.Sprintf("%.0f mm of weed-free topsoil in layers of at most 100 mm. ", z.importMM)
			}
			if z.compostMM > 0 {
				what += fmt.Sprintf("%.0f mm of compost, forked into the top 150 mm. ", z.compostMM)
			}
			add(Step{Title: "Spread topsoil and compost", DaysBefore: daySpread, OutputKey: "barrow_m3_per_hour", Quantity: m3, Unit: "m3", Caution: cautionLifting + " Handle compost in gloves and in the open air.",
				Detail: what + "Rough up the ground below first, so that no layer stops the water."})
		}
	}
	if b.LimeGM2 > 0 {
		add(Step{Title: "Lime", DaysBefore: daySpread, OutputKey: "feed_m2_per_hour", Quantity: area, Unit: "m2", Caution: cautionDust, Detail: b.Lime})
	}
	add(Step{Title: "Grade and firm", DaysBefore: dayLevel, OutputKey: "level_m2_per_hour", Quantity: area, Unit: "m2",
		Detail: "Rake to a fall of 1 to 2 % away from buildings, tread it all over heel to heel, rake, tread crossways, rake. Then leave it two weeks to settle."})
	const tilth = "Rake stones over 20 mm off; leave the top 50 mm fine and so firm that a foot sinks no more than 5 mm."
	if w.Turf { // weed seedlings don't come through it
		add(Step{Title: "Rake the bed", DaysBefore: dayHoe, OutputKey: "rake_m2_per_hour", Quantity: area, Unit: "m2",
			Detail: "Fill what has sunk. " + tilth + " It must lie the thickness of the turf, 20 to 40 mm, below paving."})
	} else {
		add(Step{Title: "Rake a stale seedbed", DaysBefore: dayRake, OutputKey: "rake_m2_per_hour", Quantity: area, Unit: "m2",
			Detail: "Fill what has sunk and rake the top fine, as for sowing. Let the weeds come up for three weeks; water if it is dry."})
		add(Step{Title: "Take off the weed seedlings", DaysBefore: dayHoe, OutputKey: "hoe_m2_per_hour", Quantity: area, Unit: "m2",
			Detail: "Hoe shallowly on a dry day, no deeper than 10 mm: deeper brings new weed seed up. " + tilth})
	}
	if b.Starter != "" {
		add(Step{Title: "Starter feed", DaysBefore: dayHoe, OutputKey: "feed_m2_per_hour", Quantity: area, Unit: "m2", Caution: cautionFeed,
			Detail: b.Starter + ". Rake it into the top 50 mm."})
	}
	return list
}

// sowSteps is the sowing of bare ground.
func sowSteps(w Want, b Bed) []Step {
	area := w.Site.AreaM2
	sow := Step{Title: "Sow", OutputKey: "sow_m2_per_hour", Quantity: area, Unit: "m2",
		Detail: "On a still day, half the seed lengthwise and half crossways, zone by zone, from the grams of the spreading guide."}
	cover := Step{Title: "Rake in and roll", OutputKey: "roll_m2_per_hour", Quantity: area, Unit: "m2",
		Detail: "Rake so lightly that a tenth of the seed still shows, no deeper than 5 mm, then roll once or tread with boards."}
	if w.Method == "drill" {
		sow.Detail = "Drill 5 mm deep, half the seed lengthwise and half across it."
		cover.Title, cover.Detail = "Roll", "Once, when the surface is dry."
	}
	list := []Step{sow, cover}
	if b.DressingMM > 0 {
		list = append(list, Step{Title: "Dress over the seed", OutputKey: "dress_m2_per_hour", Quantity: area, Unit: "m2", Caution: cautionDust,
			Detail: fmt.Sprintf("%.0f mm of 70 %% sand and 30 %% weed-free compost, sieved over the seed.", b.DressingMM)})
	}
	return append(list, Step{Title: "Keep birds and feet off",
		Detail: "Stretch netting 50 mm above the ground, or lay fleece and lift it when the first green shows. Rope the edge off."})
}

// turfSteps is the laying of turf, which keeps rolled for a day at most (Nursery
// Sod Growers Association of Ontario).
func turfSteps(w Want, b Bed) []Step {
	return []Step{{Title: "Lay the turf", OutputKey: "lay_turf_m2_per_hour", Quantity: w.Site.AreaM2, Unit: "m2", Caution: cautionLifting,
		Detail: "Within 24 hours of its lifting. Along the longest straight edge first, joints staggered and pushed tight, standing on boards; fill joints with sand, firm it down, and soak it at once with 20 mm of water."}}
}

// renovateSteps brings an old lawn back, in order with the waits between.
func renovateSteps(w Want, b Bed) []Step {
	area := w.Site.AreaM2
	holes := spikes()
	var list []Step
	add := func(title string, days int, key string, caution, format string, args ...any) {
		s := Step{Title: title, DaysBefore: days, OutputKey: key, Caution: caution, Detail: fmt.Sprintf(format, args...)}
		if key != "" {
			s.Quantity, s.Unit = area, "m2"
		}
		list = append(list, s)
	}
	add("Mow down by steps", 10, "mow_m2_per_hour", "Shoes, eyes and ears protected; nobody within reach of a mower.",
		"Lower the cut a third at a time over ten days, to 20 mm or as short as the old sward allows, and box the clippings off.")
	if w.Kind == Renovate {
		add("Rake out dead matter and moss", 2, "scarify_m2_per_hour", "",
			"Scarify lengthwise and crossways until soil shows between the plants; cart everything off.")
	} else {
		add("Rake out", 2, "spring_rake_m2_per_hour", "",
			"Rake hard with a spring-tine rake where the sward is thin%s, until soil shows; cart the moss and dead grass off.", bare(w.Cover))
	}
	if b.LimeGM2 > 0 {
		add("Lime", 2, "feed_m2_per_hour", cautionDust, "%s", b.Lime)
	}
	add("Spike", 1, "spike_m2_per_hour", cautionServices,
		"Fork or hollow tines %d mm deep every %d mm: %.0f holes a square metre, %.0f in all, opening %.1f litres a square metre. Not when the ground is wet enough to smear.",
		spikeDepthMM, spikeSpacingMM, holes.PerM2, holes.PerM2*area, holes.LitresM2)
	if b.Starter != "" {
		add("Starter feed", 1, "feed_m2_per_hour", cautionFeed, "%s.", b.Starter)
	}
	litres := (b.DressingMM + holes.LitresM2) * area
	mix := fmt.Sprintf("70 %% dry sand and 30 %% weed-free compost: %.0f mm, and the holes filled, %.0f litres in all (%.0f kg)",
		b.DressingMM, litres, dressingKG(litres/1000))
	if w.Method == inDressing {
		add("Sow in the dressing", 0, "dress_m2_per_hour", cautionDust,
			"Mix the seed of each zone evenly into its share of the dressing. %s. Spread half lengthwise, half crossways, by shovel in wide swings.", mix)
	} else {
		add("Overseed", 0, "sow_m2_per_hour", "", "Half the seed lengthwise, half crossways, more where the ground shows.")
		add("Dress over the seed", 0, "dress_m2_per_hour", cautionDust, "%s. Spread by shovel in wide swings; the grass must still stand through it.", mix)
	}
	add("Drag in", 0, "drag_m2_per_hour", "", "Draw the back of a rake, a mat or a board over it until the dressing has gone down into holes and sward.")
	add("Brush in", -2, "drag_m2_per_hour", "", "Let the dressing settle two days, until it is dry on top, then brush what still lies on the leaves down with a stiff broom.")
	return list
}

// bare says how much of the old sward is gone.
func bare(cover float64) string {
	if cover <= 0 {
		return ""
	}
	return fmt.Sprintf(" (about %.0f %% of the ground is bare)", 100*(1-cover))
}
