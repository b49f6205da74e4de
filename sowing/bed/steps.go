package bed

import (
	"math"
	"slices"
	"strings"
	"time"

	"swardwright/internal/steady"
	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// Cautions of the work.
var (
	cautionServices = told.Say("bed.caution-services")
	cautionLifting  = told.Say("bed.caution-lifting")
	cautionDust     = told.Say("bed.caution-dust")
	cautionFeed     = told.Say("bed.caution-feed")
	cautionTrees    = told.Say("bed.caution-trees")
	cautionDrains   = told.Say("bed.caution-drains")
	cautionCompost  = told.Say("bed.caution-compost")
	cautionMower    = told.Say("bed.caution-mower")
)

func says(s ...told.Sentence) []told.Sentence { return s }

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

// Depths and sizes of the work, mm: common practice, no published source, but for
// turf, which keeps rolled for a day at most (Nursery Sod Growers Association of
// Ontario).
const (
	stripMM     = 30  // an old sward is cut off
	layerMM     = 100 // the most that is spread and trodden at once
	topMM       = 150 // that compost and lime are mixed into
	stoneMM     = 20  // larger ones are raked off
	tilthMM     = 50  // fine on top
	footMM      = 5   // a foot sinks into a firm bed
	hoeMM       = 10
	coverMM     = 5 // of seed raked in or drilled
	nettingMM   = 50
	turfSoakMM  = 20 // of water, at once
	thinTurfMM  = 20
	thickTurfMM = 40
	thinSoilMM  = 100 // soil over what nobody knows: rock, a deck, a tank

	// Seed is netted on lawns that a net or two covers; on larger ones birds take their
	// share of what lies open.
	nettedMostM2 = 200.0

	turfKeepsHours = 24
	pipeFall       = 0.01
)

// drillOutput is the rate of work of a drill.
const drillOutput = "drill_m2_per_hour"

// usualFall is the fall of a finished level, and of the bottom under a made ground.
var usualFall = told.Between(told.Share(0.01), told.Share(0.02))

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
		l.on(w.Laid).turf(w, b, last)
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
	test := job.Task{ID: "test-ground", Title: told.Say("bed.test-ground"), Caution: says(cautionServices), Opens: true, Detail: says(told.Say("bed.test-ground-how"))}
	if w.deck() {
		test.Title, test.Caution, test.Detail = told.Say("bed.test-deck"), says(cautionDeck), says(told.Say("bed.test-deck-how"))
	}
	l.add(test)
	tested := []job.Need{need("test-ground", 0)} // what is found may change the rest
	if w.Surface != "" {
		l.lift(w, tested)
	} else if w.Old {
		l.add(job.Task{ID: "strip-sward", Title: told.Say("bed.strip"), OutputKey: "clear_m2_per_hour", Needs: tested, Detail: says(told.Say("bed.strip-how", told.DepthMM(stripMM)))})
	} else {
		l.add(job.Task{ID: "clear", Title: told.Say("bed.clear"), OutputKey: "clear_m2_per_hour", Needs: tested, Detail: says(told.Say("bed.clear-how"))})
	}
	switch {
	case w.deepM2() == 0: // all of it is roots
	case w.deck():
		l.scratch(w, z)
	case z.made:
		l.rootzone(w, z, b, pipeDepthM)
	default:
		l.loosen(w, z, b, pipeDepthM)
	}
	l.roots(w)
	ground := l.last()
	if b.LimeGM2 > 0 {
		l.add(job.Task{ID: "lime", Title: told.Say("bed.lime"), OutputKey: "feed_m2_per_hour", Caution: says(cautionDust), Detail: b.Lime,
			Needs: append(l.after(0, ground), need("test-ground", resultDays))})
	}
	how := told.Say("bed.grade-how", usualFall)
	switch {
	case w.deck(): // its fall is that of the deck
		how = told.Say("bed.grade-deck-how")
	case w.slope() >= leastFall: // it falls already
		how = told.Say("bed.grade-slope-how")
	case w.Use.Rough():
		how = told.Say("bed.grade-rough-how")
	}
	grading := says(how)
	if w.rootsM2() > 0 {
		grading = append(grading, told.Say("bed.grade-roots", told.DepthMM(scratchMM)))
	}
	l.add(job.Task{ID: "grade", Title: told.Say("bed.grade"), OutputKey: "level_m2_per_hour", Needs: l.after(0, ground, "lime"),
		Detail: append(grading, told.Say("bed.settle", told.Days(settleDays)))})
	l.pick(w, z)
}

// rootzone digs out and builds up a made ground from below: the formation and its
// fall, then pipes, then gravel, then the mix (USGA, Recommendations for a method of
// putting green construction).
func (l *list) rootzone(w Input, z rootzone, b Bed, pipeDepthM float64) {
	dug := z.depthMM
	if z.gravel {
		dug += gravelMM
	}
	barrow := func(mm float64) (m3 float64) { return mm / 1000 * w.deepM2() }
	l.add(job.Task{ID: "dig-out", Title: told.Say("bed.dig-out"), OutputKey: "barrow_m3_per_hour", Quantity: barrow(dug), Unit: "m3", Caution: says(cautionServices),
		Needs:  l.after(0, l.last()),
		Detail: says(told.Say("bed.dig-out-how", told.DepthMM(dug), usualFall))})
	l.drains(w, b, pipeDepthM)
	if z.gravel {
		l.add(job.Task{ID: "gravel", Title: told.Say("bed.gravel"), OutputKey: "barrow_m3_per_hour", Quantity: barrow(gravelMM), Unit: "m3", Caution: says(cautionLifting),
			Needs: l.after(0, l.last()), Detail: says(told.Say("bed.gravel-how", told.DepthMM(gravelMM)))})
	}
	l.add(job.Task{ID: "rootzone", Title: told.Say("bed.rootzone"), OutputKey: "barrow_m3_per_hour", Quantity: barrow(z.depthMM), Unit: "m3",
		Caution: says(cautionLifting, cautionDust), Needs: l.after(0, l.last()),
		Detail: says(told.Say("bed.rootzone-how", parts(z.sandShare), parts(1-z.sandShare), told.DepthMM(layerMM)))})
}

func (l *list) drains(w Input, b Bed, pipeDepthM float64) {
	if b.DrainSpacingM == 0 {
		return
	}
	m := math.Ceil(steady.Figure(w.deepM2() / b.DrainSpacingM))
	l.add(job.Task{ID: "drains", Title: told.Say("bed.drains"), OutputKey: "trench_m_per_hour", Quantity: m, Unit: "m", Caution: says(cautionDrains),
		Needs:  l.after(0, l.last()),
		Detail: says(told.Say("bed.drains-how", told.LengthM(m), told.LengthM(b.DrainSpacingM), told.LengthM(pipeDepthM), told.OneIn(pipeFall)))})
}

// loosen works the ground that is there and brings it up to its depth.
func (l *list) loosen(w Input, z rootzone, b Bed, pipeDepthM float64) {
	l.drains(w, b, pipeDepthM)
	caution := w.caution()
	if depth := w.Site.Soil.DepthCM * 10; depth < thinSoilMM {
		caution = append(caution, told.Say("bed.caution-thin-soil", told.DepthMM(depth)))
	}
	title, how, output := told.Say("bed.loosen"), says(told.Say("bed.loosen-how", told.DepthMM(z.loosenMM))), "dig_m2_per_hour"
	switch {
	case w.buries(z):
		title, how, output = told.Say("bed.bury-stones"), says(told.Say("bed.bury-stones-how", told.DepthMM(buryMM))), "bury_stones_m2_per_hour"
	case w.Site.Soil.Stones >= stopMachine:
		how, output = append(how, told.Say("bed.loosen-stones", told.Share(stopMachine))), "fork_m2_per_hour"
	}
	l.add(job.Task{ID: "loosen", Title: title, OutputKey: output, Quantity: w.deepM2(), Unit: "m2", Caution: caution, Needs: l.after(0, l.last()),
		Detail: how})
	if z.importMM == 0 && z.compostMM == 0 {
		return
	}
	how, cautions := says(told.Say("bed.rough-up")), says(cautionLifting)
	if z.importMM > 0 {
		how = append(how, told.Say("bed.topsoil-how", told.DepthMM(z.importMM), told.DepthMM(layerMM)))
	}
	if z.compostMM > 0 {
		how = append(how, told.Say("bed.compost-how", told.DepthMM(z.compostMM), told.DepthMM(topMM)))
		cautions = append(cautions, cautionCompost)
	}
	title = told.Say("bed.topsoil-and-compost")
	switch {
	case z.compostMM == 0:
		title = told.Say("bed.topsoil")
	case z.importMM == 0:
		title = told.Say("bed.compost")
	}
	l.add(job.Task{ID: "topsoil", Title: title, OutputKey: "barrow_m3_per_hour", Quantity: (z.importMM + z.compostMM) / 1000 * w.deepM2(), Unit: "m3",
		Caution: cautions, Needs: l.after(0, l.last()), Detail: how})
}

// tilth is what a bed looks like that is ready.
func (w Input) tilth() told.Sentence {
	return told.Say("bed.tilth", told.DepthMM(stoneMM), told.DepthMM(w.fineMM()), told.DepthMM(footMM))
}

// fineMM is how deep it is fine.
func (w Input) fineMM() float64 {
	if w.deck() {
		return w.scratchMM()
	}
	return tilthMM
}

// startersOf begin the IDs of what feeds a lawn before it is sown or laid.
const startersOf = "starter-"

// FedOn tells whether the feed at sowing goes down on a day for which something holds.
func FedOn(tasks []job.Task, holds func(time.Time) bool) bool {
	return slices.ContainsFunc(tasks, func(t job.Task) bool {
		return strings.HasPrefix(t.ID, startersOf) && (holds(t.Date) || holds(t.Ends()))
	})
}

// starter adds the feed, which needs its own wait after lime.
func (l *list) starter(id string, w Input, b Bed, after string) string {
	if b.Starter.Silent() {
		return after
	}
	whole := l
	if l.whole != nil {
		whole = l.whole
	}
	title, how := told.Say("bed.starter"), says(told.Say("bed.starter-how", b.Starter), told.Say("bed.starter-rake", told.DepthMM(w.fineMM())))
	if b.StarterN == 0 {
		title, how = told.Say("bed.phosphate"), append(how, told.Say("bed.phosphate-why"))
	}
	l.add(job.Task{ID: id, Title: title, OutputKey: "feed_m2_per_hour", Caution: says(cautionFeed), Detail: how,
		Needs: slices.Concat([]job.Need{need(after, 0)}, whole.after(resultDays, "test-ground"), whole.after(limeDays, "lime"))})
	return id
}

// pressOutput is the key of the output of raking in and pressing by boards, where no roller goes.
const pressOutput = "press_m2_per_hour"

// sow makes a stale seedbed of the graded ground and sows it.
func (l *list) sow(w Input, b Bed, graded string) {
	stale := says(told.Say("bed.stale-how", told.Days(w.StaleDays)))
	if w.Use.WatersYoung() {
		stale = append(stale, told.Say("bed.stale-water"))
	}
	l.add(job.Task{ID: "rake-stale-seedbed", Title: told.Say("bed.stale"), OutputKey: "rake_m2_per_hour", Needs: []job.Need{need(graded, settleDays)}, Detail: stale})
	l.add(job.Task{ID: "hoe", Title: told.Say("bed.hoe"), OutputKey: "hoe_m2_per_hour", Needs: []job.Need{need("rake-stale-seedbed", w.StaleDays)},
		Detail: says(told.Say("bed.hoe-how", told.DepthMM(hoeMM)), w.tilth())})
	ready := l.starter("starter-feed", w, b, "hoe")
	sow := job.Task{ID: "sow", Sort: job.Sowing, Title: told.Say("bed.sow"), OutputKey: "sow_m2_per_hour", Needs: []job.Need{need(ready, 0)}, Detail: says(w.spread())}
	if w.Method == job.Drill {
		sow.OutputKey, sow.Detail = drillOutput, says(drillSet(w.seed()), w.spread())
	}
	cover := w.rakedIn()
	if w.Apart != nil {
		sow.Detail = append(sow.Detail, told.Say("bed.sow-two", job.Named(w.Apart[0].Zones), job.Named(w.Apart[1].Zones)))
	}
	l.add(sow)
	cover.Needs = []job.Need{need(l.nurse(b.NursedM2, "sow"), 0)}
	l.add(cover)
	switch {
	case w.covered():
		l.cover(w)
	case w.strawed():
		l.straw()
	}
	if b.DressingMM > 0 {
		l.add(job.Task{ID: "dress-seed", Sort: job.Dressing, Title: told.Say("bed.dress"), OutputKey: "dress_m2_per_hour", Caution: says(cautionDust), Needs: []job.Need{need("roll-in", 0)},
			Detail: says(told.Say("bed.dress-how", told.DepthMM(b.DressingMM), told.Share(job.DressSandShare), told.Share(1-job.DressSandShare)))})
	}
	keep := told.Say("bed.keep-off-rope")
	switch {
	case w.strawed():
		keep = told.Say("bed.keep-off-slope")
	case w.Method == job.Drill && !w.covered():
		keep = told.Say("bed.keep-off-drilled")
	case w.netted():
		keep = told.Say("bed.keep-off-how", told.DepthMM(nettingMM))
	case w.covered():
		keep = told.Say("bed.keep-off-slope")
	}
	l.add(job.Task{ID: "keep-off", Title: told.Say("bed.keep-off"), Needs: []job.Need{need("roll-in", 0)}, Detail: says(keep)})
}

// spread says how the seed goes out: in two passes at right angles, or both level along a slope.
func (w Input) spread() told.Sentence {
	switch drilled := w.Method == job.Drill; {
	case drilled && w.washes():
		return told.Say("bed.drill-slope", told.DepthMM(coverMM))
	case drilled:
		return told.Say("bed.drill-how", told.DepthMM(coverMM))
	case w.washes():
		return told.Say("bed.sow-slope")
	}
	return told.Say("bed.sow-how")
}

// rakedIn brings the seed into the ground and firms it: by roller, or by boards on a slope that is
// covered and on a deck, which bears no roller that nobody has reckoned with.
func (w Input) rakedIn() job.Task {
	t := job.Task{ID: "roll-in", OutputKey: "roll_m2_per_hour"}
	drilled, depth := w.Method == job.Drill, told.DepthMM(coverMM)
	switch {
	case w.covered() && drilled:
		t.Title, t.Detail = told.Say("bed.press-slope"), says(told.Say("bed.press-slope-how"))
	case w.covered():
		t.Title, t.Detail = told.Say("bed.rake-slope"), says(told.Say("bed.rake-slope-how", depth))
	case w.deck():
		t.Title, t.Detail = told.Say("bed.rake-in-boards"), says(told.Say("bed.rake-in-boards-how", depth))
	case drilled:
		t.Title, t.Detail = told.Say("bed.roll"), says(told.Say("bed.roll-how"))
	default:
		t.Title, t.Detail = told.Say("bed.rake-in"), says(told.Say("bed.rake-in-how", depth))
		if w.washes() {
			t.Detail = append(t.Detail, told.Say("bed.rake-across"))
		}
	}
	if w.covered() || w.deck() {
		t.OutputKey = pressOutput
	}
	return t
}

// turf rakes the graded ground and lays turf, which keeps rolled for a day at most
// (Nursery Sod Growers Association of Ontario). Weed seedlings don't come through it.
func (l *list) turf(w Input, b Bed, graded string) {
	l.add(job.Task{ID: "rake-bed", Title: told.Say("bed.rake-bed"), OutputKey: "rake_m2_per_hour", Needs: []job.Need{need(graded, settleDays)},
		Detail: says(told.Say("bed.fill-sunk"), w.tilth(), told.Say("bed.turf-level", told.Between(told.DepthMM(thinTurfMM), told.DepthMM(thickTurfMM))))})
	ready := l.starter("starter-under-turf", w, b, "rake-bed")
	caution := says(cautionLifting)
	if w.deck() {
		caution = append(caution, told.Say("bed.caution-heaps"))
	}
	how := says(told.Say("bed.lay-turf-how", told.Hours(turfKeepsHours), told.WaterMM(turfSoakMM)))
	if Mulches(w.Site.Survey.Lawn.SlopeDeg) {
		how = says(told.Say("bed.lay-turf-slope"), told.Say("bed.lay-turf-quick", told.Hours(turfKeepsHours), told.WaterMM(turfSoakMM)))
		caution = append(caution, told.Say("bed.caution-slope"))
	}
	l.add(job.Task{ID: "lay-turf", Sort: job.Laying, Title: told.Say("bed.lay-turf"), OutputKey: "lay_turf_m2_per_hour", Caution: caution, Needs: []job.Need{need(ready, 0)}, Detail: how})
}

// netted tells whether the seed is kept from birds by a net.
func (w Input) netted() bool {
	return w.Kind == job.New && w.Method != job.InDressing && w.Method != job.Drill && len(w.Laid) == 0 && !w.covered() && !w.strawed() && w.area() <= nettedMostM2
}

// renovate brings an old lawn back, in order with the waits between.
func (l *list) renovate(w Input, b Bed) {
	if w.Use.Rough() && w.Method != job.InDressing {
		l.harrowIn(w, b)
		return
	}
	holes := spikes()
	l.add(job.Task{ID: "mow-down", Sort: job.Mowing, Title: told.Say("bed.mow-down"), OutputKey: "mow_m2_per_hour", Caution: says(cautionMower),
		Detail: says(told.Say("bed.mow-down-how", told.Days(lowerDays), told.DepthMM(w.mownDownMM())))})
	lowered := l.treatMoss(w, need("mow-down", lowerDays))
	if w.Kind == job.Renovate {
		l.add(job.Task{ID: "scarify", Sort: job.Raking, Title: told.Say("bed.scarify"), OutputKey: "scarify_m2_per_hour", Needs: []job.Need{lowered}, Detail: says(told.Say("bed.scarify-how"))})
	} else {
		l.add(job.Task{ID: "rake-out", Sort: job.Raking, Title: told.Say("bed.rake-out"), OutputKey: "spring_rake_m2_per_hour", Needs: []job.Need{lowered}, Detail: says(rakeOut(w.Cover))})
	}
	if deep := w.spikedM2(); deep > 0 {
		l.add(job.Task{ID: "spike", Sort: job.Spiking, Title: told.Say("bed.spike"), OutputKey: "spike_m2_per_hour", Quantity: deep, Unit: "m2", Caution: says(cautionServices), Needs: l.after(0, l.last()),
			Detail: says(told.Say("bed.spike-how", told.DepthMM(job.SpikeDepthMM), told.DepthMM(job.SpikeSpacingMM)))})
	}
	l.roots(w)
	ready := l.last()
	if !b.Starter.Silent() {
		l.add(job.Task{ID: "starter-feed", Sort: job.Feeding, Title: told.Say("bed.starter"), OutputKey: "feed_m2_per_hour", Caution: says(cautionFeed), Detail: says(told.Say("bed.starter-how", b.Starter)), Needs: []job.Need{need(ready, 0)}})
		ready = "starter-feed"
	}
	litres := b.DressingMM*l.areaM2 + holes.LitresM2*w.spikedM2()
	mix := told.Say("bed.dressing-mix", told.Share(job.DressSandShare), told.Share(1-job.DressSandShare), told.DepthMM(b.DressingMM), told.LoadL(litres), told.MassKG(dressingKG(litres/1000)))
	if w.Method == job.InDressing {
		l.add(job.Task{ID: "sow-in-dressing", Sort: job.Sowing, Title: told.Say("bed.sow-in-dressing"), OutputKey: "dress_m2_per_hour", Caution: says(cautionDust), Needs: []job.Need{need(ready, 0)},
			Detail: says(told.Say("bed.sow-in-dressing-mix"), mix, told.Say("bed.sow-in-dressing-how"))})
	} else {
		sow := job.Task{ID: "sow", Sort: job.Sowing, Title: told.Say("bed.sow-into-old"), OutputKey: "sow_m2_per_hour", Needs: []job.Need{need(ready, 0)}, Detail: says(told.Say("bed.sow-into-old-how"))}
		if w.Method == job.Drill {
			sow.OutputKey, sow.Detail = drillOutput, says(drillSet(w.seed()), told.Say("bed.drill-how", told.DepthMM(coverMM)))
		}
		l.add(sow)
		l.add(job.Task{ID: "dress-seed", Sort: job.Dressing, Title: told.Say("bed.dress"), OutputKey: "dress_m2_per_hour", Caution: says(cautionDust), Needs: []job.Need{need("sow", 0)},
			Detail: says(mix, told.Say("bed.dress-old-how"))})
	}
	l.add(job.Task{ID: "drag-in", Title: told.Say("bed.drag-in"), OutputKey: "drag_m2_per_hour", Needs: l.after(0, l.last()), Detail: says(told.Say("bed.drag-in-how"))})
	l.add(job.Task{ID: "brush-in", Title: told.Say("bed.brush-in"), OutputKey: "drag_m2_per_hour", Needs: l.after(dressedDays, l.last()), Detail: says(told.Say("bed.brush-in-how"))})
}

// mownDownMM is what the old sward is cut down to, which is no more than it is kept at.
func (w Input) mownDownMM() float64 {
	if w.Use.MowingMM > 0 {
		return math.Min(job.MownDownMM, w.Use.MowingMM)
	}
	return job.MownDownMM
}

// harrowIn brings seed into grass that is grazed or cut for hay: eaten or cut down, harrowed open,
// sown and rolled in, as fields are (common practice, no published source).
func (l *list) harrowIn(w Input, b Bed) {
	l.add(job.Task{ID: "mow-down", Sort: job.Mowing, Title: told.Say("bed.graze-down"), OutputKey: "mow_m2_per_hour", Caution: says(cautionMower), Detail: says(told.Say("bed.graze-down-how"))})
	ready := l.treatMoss(w, need("mow-down", 0))
	how := told.Say("bed.harrow-how")
	if w.Cover > 0 {
		how = told.Say("bed.harrow-bare", told.Share(1-w.Cover))
	}
	l.add(job.Task{ID: "rake-out", Sort: job.Raking, Title: told.Say("bed.harrow"), OutputKey: "rake_m2_per_hour", Needs: []job.Need{ready}, Detail: says(how)})
	l.roots(w)
	last := l.last()
	if !b.Starter.Silent() {
		l.add(job.Task{ID: "starter-feed", Sort: job.Feeding, Title: told.Say("bed.starter"), OutputKey: "feed_m2_per_hour", Caution: says(cautionFeed), Detail: says(told.Say("bed.starter-how", b.Starter)), Needs: []job.Need{need(last, 0)}})
		last = "starter-feed"
	}
	sow := job.Task{ID: "sow", Sort: job.Sowing, Title: told.Say("bed.sow-into-old"), OutputKey: "sow_m2_per_hour", Needs: []job.Need{need(last, 0)}, Detail: says(told.Say("bed.sow-into-old-how"))}
	if w.Method == job.Drill {
		sow.OutputKey, sow.Detail = drillOutput, says(told.Say("bed.drill-set", told.GramsPerM2(w.SeedGM2)), told.Say("bed.drill-how", told.DepthMM(coverMM)))
	}
	l.add(sow)
	l.add(job.Task{ID: "roll-in", Title: told.Say("bed.roll-field"), OutputKey: "roll_m2_per_hour", Needs: []job.Need{need("sow", 0)}, Detail: says(told.Say("bed.roll-field-how"))})
}

// rakeOut says where an old sward is raked, and how much of it is gone.
func rakeOut(cover float64) told.Sentence {
	if cover <= 0 {
		return told.Say("bed.rake-out-how")
	}
	return told.Say("bed.rake-out-bare", told.Share(1-cover))
}

// parts are the parts of a mix by volume.
func parts(share float64) told.Figure { return told.Count(math.Round(100 * share)) }
