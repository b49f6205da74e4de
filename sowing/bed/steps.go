package bed

import (
	"fmt"
	"math"
	"slices"

	"swardwright/sowing/job"
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

// Waits between pieces of work, days: common practice, no published source.
const (
	settleDays  = 14 // loosened and graded ground settles before it is raked
	staleDays   = 21 // weed seedlings come up on a stale seedbed …
	leastStale  = 14 // … where there is room for no more
	resultDays  = 14 // a laboratory takes for a soil test
	limeDays    = 28 // between lime and any phosphate or ammonia
	lowerDays   = 10 // an old sward is cut down by steps in
	dressedDays = 2  // until a dressing has dried and is brushed in
)

// LeastStaleDays is the shortest stale seedbed that is worth making.
const LeastStaleDays = leastStale

// tasks are the whole work of the ground up to sowing or laying, with what follows on
// the same day.
func tasks(w Input, z rootzone, b Bed, pipeDepthM float64) []job.Task {
	l := list{zones: job.Letters(w.zones()), areaM2: w.area()}
	if w.Kind != job.New {
		l.renovate(w, b)
		return l.tasks
	}
	l.clear(w, z, b, pipeDepthM)
	last := l.last()
	if len(w.Laid) > 0 {
		l.on(w.Laid).turf(w, last)
	}
	if len(w.Sown) > 0 || len(w.Laid) == 0 {
		on := &l
		if len(w.Laid) > 0 {
			on = l.on(w.Sown)
		}
		on.sow(w, b, last)
	}
	return l.tasks
}

// list is the work in the making, on some of the zones.
type list struct {
	zones  []string
	areaM2 float64
	tasks  []job.Task
	whole  *list // that this is a part of
}

// on is the same list for the work of some zones.
func (l *list) on(zones []job.Zone) *list {
	return &list{zones: job.Letters(zones), areaM2: job.Area(zones), whole: l}
}

func (l *list) last() string {
	if len(l.tasks) == 0 {
		return ""
	}
	return l.tasks[len(l.tasks)-1].ID
}

func need(id string, days int) job.Need { return job.Need{ID: id, Days: days} }

// add puts a task of the ground on the list. Work by output is of the list's area
// where it has no quantity of its own.
func (l *list) add(t job.Task) {
	if t.Sort == "" {
		t.Sort = job.Preparing
	}
	t.Goes, t.First, t.Zones, t.AreaM2 = 1, true, l.zones, l.areaM2
	if t.OutputKey != "" {
		t.Opens = true
		if t.Quantity == 0 {
			t.Quantity, t.Unit = l.areaM2, "m2"
		}
	}
	t.Needs = slices.DeleteFunc(t.Needs, func(n job.Need) bool { return n.ID == "" })
	to := l
	if l.whole != nil {
		to = l.whole
	}
	to.tasks = append(to.tasks, t)
}

// has tells whether a task is on the list.
func (l *list) has(id string) bool {
	return slices.ContainsFunc(l.tasks, func(t job.Task) bool { return t.ID == id })
}

// after needs whichever of the tasks are on the list.
func (l *list) after(days int, ids ...string) (out []job.Need) {
	for _, id := range ids {
		if l.has(id) {
			out = append(out, need(id, days))
		}
	}
	return out
}

// clear makes the ground ready to be raked: cleared, drained, loosened or built up,
// limed, graded.
func (l *list) clear(w Input, z rootzone, b Bed, pipeDepthM float64) {
	l.add(job.Task{ID: "test-ground", Title: "Test the ground", Caution: cautionServices, Opens: true,
		Detail: "Dig two holes a spade and a half deep: look at depth, roots, smell and colour. Fill one with water twice and time the second fall. Send a sample for pH, phosphorus and potassium."})
	if w.Old {
		l.add(job.Task{ID: "strip-sward", Title: "Strip the old sward", OutputKey: "clear_m2_per_hour",
			Detail: "Cut the old turf off 30 mm deep and cart it away or stack it to rot, with every root of couch, ground elder and dock: new turf laid, or seed sown, on an old sward fails."})
	} else {
		l.add(job.Task{ID: "clear", Title: "Clear the ground", OutputKey: "clear_m2_per_hour",
			Detail: "Take off rubble, old turf and every root of couch, ground elder and dock; they come through any lawn."})
	}
	if z.made {
		l.rootzone(w, z, b, pipeDepthM)
	} else {
		l.loosen(w, z, b, pipeDepthM)
	}
	ground := l.last()
	if b.LimeGM2 > 0 {
		l.add(job.Task{ID: "lime", Title: "Lime", OutputKey: "feed_m2_per_hour", Caution: cautionDust, Detail: b.Lime,
			Needs: append(l.after(0, ground), need("test-ground", resultDays))})
	}
	l.add(job.Task{ID: "grade", Title: "Grade and firm", OutputKey: "level_m2_per_hour", Needs: l.after(0, ground, "lime"),
		Detail: fmt.Sprintf("Rake to a fall of 1 to 2 %% away from buildings, tread it all over heel to heel, rake, tread crossways, rake. Then leave it %d days to settle.", settleDays)})
}

// rootzone digs out and builds up a made ground from below: the formation and its
// fall, then pipes, then gravel, then the mix (USGA, Recommendations for a method of
// putting green construction).
func (l *list) rootzone(w Input, z rootzone, b Bed, pipeDepthM float64) {
	dug := z.depthMM
	if z.gravel {
		dug += gravelMM
	}
	barrow := func(mm float64) (m3 float64) { return mm / 1000 * l.areaM2 }
	l.add(job.Task{ID: "dig-out", Title: "Dig out", OutputKey: "barrow_m3_per_hour", Quantity: barrow(dug), Unit: "m3", Caution: cautionServices,
		Needs:  l.after(0, l.last()),
		Detail: fmt.Sprintf("%.0f mm deep. Keep the topsoil apart for the mix. Trim the bottom to fall 1 to 2 %% towards the outfall and loosen it where machines have pressed it.", dug)})
	l.drains(b, pipeDepthM)
	if z.gravel {
		l.add(job.Task{ID: "gravel", Title: "Spread the gravel", OutputKey: "barrow_m3_per_hour", Quantity: barrow(gravelMM), Unit: "m3", Caution: cautionLifting,
			Needs: l.after(0, l.last()), Detail: fmt.Sprintf("%d mm, with the same fall as the bottom.", gravelMM)})
	}
	l.add(job.Task{ID: "rootzone", Title: "Build the rootzone", OutputKey: "barrow_m3_per_hour", Quantity: barrow(z.depthMM), Unit: "m3",
		Caution: cautionLifting + " " + cautionDust, Needs: l.after(0, l.last()),
		Detail: fmt.Sprintf("Mix %.0f parts of sand with %.0f of topsoil by volume before it goes in, off the lawn; spread in layers of at most 100 mm and tread each.", 100*z.sandShare, 100*(1-z.sandShare))})
}

func (l *list) drains(b Bed, pipeDepthM float64) {
	if b.DrainSpacingM == 0 {
		return
	}
	m := math.Ceil(l.areaM2 / b.DrainSpacingM)
	l.add(job.Task{ID: "drains", Title: "Lay drains", OutputKey: "trench_m_per_hour", Quantity: m, Unit: "m", Caution: cautionDrains,
		Needs:  l.after(0, l.last()),
		Detail: fmt.Sprintf("%.0f m of perforated pipe %.1f m apart, %.1f m deep, falling 1 in 100 to an outfall that may lawfully take the water, in fine gravel.", m, b.DrainSpacingM, pipeDepthM)})
}

// loosen works the ground that is there and brings it up to its depth.
func (l *list) loosen(w Input, z rootzone, b Bed, pipeDepthM float64) {
	l.drains(b, pipeDepthM)
	l.add(job.Task{ID: "loosen", Title: "Loosen", OutputKey: "dig_m2_per_hour", Caution: cautionServices + " " + cautionTrees, Needs: l.after(0, l.last()),
		Detail: fmt.Sprintf("Break the ground up %.0f mm deep when it crumbles, never when it smears; don't bring subsoil up.", z.loosenMM)})
	if z.importMM == 0 && z.compostMM == 0 {
		return
	}
	var what string
	if z.importMM > 0 {
		what = fmt.Sprintf("%.0f mm of weed-free topsoil in layers of at most 100 mm. ", z.importMM)
	}
	if z.compostMM > 0 {
		what += fmt.Sprintf("%.0f mm of compost, forked into the top 150 mm. ", z.compostMM)
	}
	l.add(job.Task{ID: "topsoil", Title: "Spread topsoil and compost", OutputKey: "barrow_m3_per_hour", Quantity: (z.importMM + z.compostMM) / 1000 * l.areaM2, Unit: "m3",
		Caution: cautionLifting + " Handle compost in gloves and in the open air.", Needs: l.after(0, l.last()),
		Detail: what + "Rough up the ground below first, so that no layer stops the water."})
}

// tilth is what a bed looks like that is ready.
const tilth = "Rake stones over 20 mm off; leave the top 50 mm fine and so firm that a foot sinks no more than 5 mm."

// starter adds the feed, which needs its own wait after lime.
func (l *list) starter(id string, b Bed, after string) string {
	if b.Starter == "" {
		return after
	}
	whole := l
	if l.whole != nil {
		whole = l.whole
	}
	l.add(job.Task{ID: id, Title: "Starter feed", OutputKey: "feed_m2_per_hour", Caution: cautionFeed, Detail: b.Starter + ". Rake it into the top 50 mm.",
		Needs: slices.Concat([]job.Need{need(after, 0)}, whole.after(resultDays, "test-ground"), whole.after(limeDays, "lime"))})
	return id
}

// sow makes a stale seedbed of the graded ground and sows it.
func (l *list) sow(w Input, b Bed, graded string) {
	l.add(job.Task{ID: "rake-stale-seedbed", Title: "Rake a stale seedbed", OutputKey: "rake_m2_per_hour", Needs: []job.Need{need(graded, settleDays)},
		Detail: fmt.Sprintf("Fill what has sunk and rake the top fine, as for sowing. Let the weeds come up for %d days at least; water if it is dry.", w.StaleDays)})
	l.add(job.Task{ID: "hoe", Title: "Take off the weed seedlings", OutputKey: "hoe_m2_per_hour", Needs: []job.Need{need("rake-stale-seedbed", w.StaleDays)},
		Detail: "Hoe shallowly on a dry day, no deeper than 10 mm: deeper brings new weed seed up. " + tilth})
	ready := l.starter("starter-feed", b, "hoe")
	sow := job.Task{ID: "sow", Sort: job.Sowing, Title: "Sow", OutputKey: "sow_m2_per_hour", Needs: []job.Need{need(ready, 0)},
		Detail: "On a still day, half the seed lengthwise and half crossways, zone by zone, from the grams of the spreading guide."}
	cover := job.Task{ID: "roll-in", Title: "Rake in and roll", OutputKey: "roll_m2_per_hour", Needs: []job.Need{need("sow", 0)},
		Detail: "Rake so lightly that a tenth of the seed still shows, no deeper than 5 mm, then roll once or tread with boards."}
	if w.Method == "drill" {
		sow.Detail = "Drill 5 mm deep, half the seed lengthwise and half across it."
		cover.Title, cover.Detail = "Roll", "Once, when the surface is dry."
	}
	l.add(sow)
	l.add(cover)
	if b.DressingMM > 0 {
		l.add(job.Task{ID: "dress-seed", Sort: job.Dressing, Title: "Dress over the seed", OutputKey: "dress_m2_per_hour", Caution: cautionDust, Needs: []job.Need{need("roll-in", 0)},
			Detail: fmt.Sprintf("%.0f mm of 70 %% sand and 30 %% weed-free compost, sieved over the seed.", b.DressingMM)})
	}
	l.add(job.Task{ID: "keep-off", Title: "Keep birds and feet off", Needs: []job.Need{need("roll-in", 0)},
		Detail: "Stretch netting 50 mm above the ground, or lay fleece and lift it when the first green shows. Rope the edge off."})
}

// turf rakes the graded ground and lays turf, which keeps rolled for a day at most
// (Nursery Sod Growers Association of Ontario). Weed seedlings don't come through it.
func (l *list) turf(w Input, graded string) {
	l.add(job.Task{ID: "rake-bed", Title: "Rake the bed", OutputKey: "rake_m2_per_hour", Needs: []job.Need{need(graded, settleDays)},
		Detail: "Fill what has sunk. " + tilth + " It must lie the thickness of the turf, 20 to 40 mm, below paving."})
	l.add(job.Task{ID: "lay-turf", Sort: job.Laying, Title: "Lay the turf", OutputKey: "lay_turf_m2_per_hour", Caution: cautionLifting, Needs: []job.Need{need("rake-bed", 0)},
		Detail: "Within 24 hours of its lifting. Along the longest straight edge first, joints staggered and pushed tight, standing on boards; fill joints with sand, firm it down, and soak it at once with 20 mm of water."})
}

// renovate brings an old lawn back, in order with the waits between.
func (l *list) renovate(w Input, b Bed) {
	holes := spikes()
	l.add(job.Task{ID: "mow-down", Sort: job.Mowing, Title: "Mow down by steps", OutputKey: "mow_m2_per_hour",
		Caution: "Shoes, eyes and ears protected; nobody within reach of a mower.",
		Detail:  fmt.Sprintf("Lower the cut a third at a time over %d days, to 20 mm or as short as the old sward allows, and box the clippings off.", lowerDays)})
	if w.Kind == job.Renovate {
		l.add(job.Task{ID: "scarify", Sort: job.Raking, Title: "Rake out dead matter and moss", OutputKey: "scarify_m2_per_hour", Needs: []job.Need{need("mow-down", lowerDays)},
			Detail: "Scarify lengthwise and crossways until soil shows between the plants; cart everything off."})
	} else {
		l.add(job.Task{ID: "rake-out", Sort: job.Raking, Title: "Rake out", OutputKey: "spring_rake_m2_per_hour", Needs: []job.Need{need("mow-down", lowerDays)},
			Detail: fmt.Sprintf("Rake hard with a spring-tine rake where the sward is thin%s, until soil shows; cart the moss and dead grass off.", bare(w.Cover))})
	}
	l.add(job.Task{ID: "spike", Sort: job.Spiking, Title: "Spike", OutputKey: "spike_m2_per_hour", Caution: cautionServices, Needs: l.after(0, l.last()),
		Detail: fmt.Sprintf("Fork or hollow tines %d mm deep every %d mm, opening %.1f litres a square metre. Not when the ground is wet enough to smear.", spikeDepthMM, spikeSpacingMM, holes.LitresM2)})
	ready := l.last()
	if b.Starter != "" {
		l.add(job.Task{ID: "starter-feed", Sort: job.Feeding, Title: "Starter feed", OutputKey: "feed_m2_per_hour", Caution: cautionFeed, Detail: b.Starter + ".", Needs: []job.Need{need(ready, 0)}})
		ready = "starter-feed"
	}
	litres := (b.DressingMM + holes.LitresM2) * l.areaM2
	mix := fmt.Sprintf("70 %% dry sand and 30 %% weed-free compost: %.0f mm, and the holes filled, %.0f litres in all (%.0f kg)",
		b.DressingMM, litres, dressingKG(litres/1000))
	if w.Method == job.InDressing {
		l.add(job.Task{ID: "sow-in-dressing", Sort: job.Sowing, Title: "Sow in the dressing", OutputKey: "dress_m2_per_hour", Caution: cautionDust, Needs: []job.Need{need(ready, 0)},
			Detail: fmt.Sprintf("Mix the seed of each zone evenly into its share of the dressing. %s. Spread half lengthwise, half crossways, by shovel in wide swings.", mix)})
	} else {
		l.add(job.Task{ID: "sow", Sort: job.Sowing, Title: "Sow into the old sward", OutputKey: "sow_m2_per_hour", Needs: []job.Need{need(ready, 0)},
			Detail: "Half the seed lengthwise, half crossways, more where the ground shows."})
		l.add(job.Task{ID: "dress-seed", Sort: job.Dressing, Title: "Dress over the seed", OutputKey: "dress_m2_per_hour", Caution: cautionDust, Needs: []job.Need{need("sow", 0)},
			Detail: mix + ". Spread by shovel in wide swings; the grass must still stand through it."})
	}
	l.add(job.Task{ID: "drag-in", Title: "Drag in", OutputKey: "drag_m2_per_hour", Needs: l.after(0, l.last()),
		Detail: "Draw the back of a rake, a mat or a board over it until the dressing has gone down into holes and sward."})
	l.add(job.Task{ID: "brush-in", Title: "Brush in", OutputKey: "drag_m2_per_hour", Needs: l.after(dressedDays, l.last()),
		Detail: "When the dressing is dry on top, brush what still lies on the leaves down with a stiff broom."})
}

// bare says how much of the old sward is gone.
func bare(cover float64) string {
	if cover <= 0 {
		return ""
	}
	return fmt.Sprintf(" (about %.0f %% of the ground is bare)", 100*(1-cover))
}
