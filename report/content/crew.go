package content

import (
	"slices"
	"strings"
	"time"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/report/draw"
	"swardwright/sowing"
	"swardwright/sowing/job"
)

// crew is what whoever does the work takes out: marking out, the work in order, seed,
// water.
func (w *writer) crew() []chapter {
	if w.p.Kind == "" {
		return nil
	}
	return []chapter{
		{"setting-out", told.Say("parts.setting-out"), true, w.settingOut},
		{"work", told.Say("parts.materials-and-work"), false, w.work},
		{"seed", told.Say("plan.spreading"), false, w.seed},
		{"aftercare", told.Say("parts.aftercare"), false, w.aftercare},
	}
}

// settingOut is what is marked out and found before anything is dug.
func (w *writer) settingOut(b *builder) {
	p := w.p
	corners := table{caption: told.Say("parts.corners"), columns: []head{keys(), right(told.Say("heads.along")), right(told.Say("heads.up")), right(told.Say("heads.to-next")), right(told.Say("heads.below-highest"))}}
	for _, c := range draw.SiteOf(p, w.f).Corners() {
		corners.row(told.Ordinal(c.Number), told.Verbatim(draw.Metre(w.f, c.At.X)), told.Verbatim(draw.Metre(w.f, c.At.Y)), told.Verbatim(draw.Metre(w.f, c.SideM)), some(p.Site.Survey.Lawn.SlopeDeg > 0, told.DepthMM(c.BelowM*1000)))
	}
	before := func(services told.Sentence) func(*builder) {
		return func(b *builder) {
			if p.Found.Soil.OnDeck {
				b.notice(told.Say("parts.before-work"), told.Say("parts.deck-papers"), told.Say("parts.way-in", w.access()))
				return
			}
			b.notice(told.Say("parts.before-digging"), services, told.Say("parts.way-in", w.access()))
		}
	}
	if len(corners.rows) > 0 {
		b.figure("plan", w.drawnIn(draw.Corners), told.Say("parts.fig-setting-out"), nil)
		b.beside(0.52, func(b *builder) { b.table(nil, corners) }, before(told.Say("parts.services")))
	} else {
		before(told.Say("parts.services-no-plan"))(b)
	}
	layers := w.layers()
	b.figure("section", w.drawnIn(draw.Section), told.Say("plan.fig-section"), &layers)
	w.checks(b, false)
}

// access is the narrowest way in, where it is known.
func (w *writer) access() told.Figure {
	if m := w.p.Brief.Job.AccessM; m != nil {
		return told.LengthM(*m)
	}
	return told.Say("parts.not-said")
}

// work is what is brought and done until the lawn is sown or laid, in order.
func (w *writer) work(b *builder) {
	w.materials(b)
	ours := func(x job.Task) bool { return !w.after(x) }
	w.tasks(b, told.Say("plan.work-in-order"), ours)
	people, hours := sowing.People(w.area()), 0.0
	for _, x := range w.p.Tasks {
		if x.First && ours(x) {
			hours += float64(x.Goes) * x.Hours
		}
	}
	if hours > 0 {
		b.text(told.Say("parts.crew-days", told.CrewHours(hours), told.Days(sowing.CrewDays(hours, people)), told.Counted{N: people, Of: "hands"}, told.CrewHours(job.ProductiveHours)))
	}
}

// care are the sorts of work that keep a lawn, once it is started.
var care = []job.Sort{job.Watering, job.Mowing, job.Watching, job.BearingUse, job.Leaves, job.Edging}

// after says whether a task follows the work of the day that the lawn is started on,
// which may go on for days.
func (w *writer) after(t job.Task) bool {
	started := w.p.StartOn
	for _, x := range w.p.Tasks {
		if x.First && !slices.Contains(care, x.Sort) && !x.Date.After(started) && x.Ends().After(started) {
			started = x.Ends()
		}
	}
	return t.Date.After(started) || slices.Contains(care, t.Sort) && !t.Date.Before(w.p.StartOn)
}

// tasks is a table of the first year's work of one kind, with the year named where it
// turns.
func (w *writer) tasks(b *builder, caption told.Figure, of func(job.Task) bool) {
	t := table{caption: caption, tick: true, columns: []head{left(told.Say("heads.when")), left(told.Say("heads.work")), left(told.Say("heads.how")), right(told.Say("heads.quantity")), right(told.Say("heads.hours")), right(told.Say("heads.people"))}}
	year := w.begins().Year()
	for _, x := range w.p.Tasks {
		if !x.First || !of(x) {
			continue
		}
		if x.Date.Year() != year {
			year = x.Date.Year()
			t.group(told.Year(year))
		}
		t.row(w.job(x)...)
	}
	b.table(caption, t)
}

// job is one row of the crew's work.
func (w *writer) job(t job.Task) []told.Figure {
	when := told.Figure(told.ShortDay(t.Date))
	if ends := t.Ends(); !ends.Equal(t.Date) {
		when = told.Between(told.ShortDay(t.Date), told.ShortDay(ends))
	}
	how := w.how(t)
	if len(t.Caution) > 0 {
		how = told.Say("plan.with-caution", how, running(t.Caution...))
	}
	quantity := w.quantity(t.Quantity, t.Unit)
	switch {
	case t.Litres > 0:
		quantity = told.VolumeL(t.Litres)
	case quantity == nil && t.AreaM2 > 0 && t.Hours > 0:
		quantity = told.AreaM2(t.AreaM2)
	}
	hours := some(t.Hours > 0, told.CrewHours(t.Hours))
	if t.Goes > 1 && t.Hours > 0 {
		hours = told.Say("parts.times-hours", told.Count(t.Goes), told.CrewHours(t.Hours))
	}
	return []told.Figure{when, t.Title, how, quantity, hours, some(t.Hours > 0, told.Count(w.people(t)))}
}

// people are how many do a task: what follows the start is one person's.
func (w *writer) people(t job.Task) int {
	if w.after(t) {
		return 1
	}
	return sowing.People(w.area())
}

// seed is the seed by zone, bag and pass, and the walk.
func (w *writer) seed(b *builder) {
	p := w.p
	if len(p.Sown) == 0 {
		return
	}
	t := table{caption: told.Say("parts.bags"), columns: []head{left(told.Say("heads.grass")), right(told.Say("heads.bag")), right(told.Say("heads.bags")), right(told.Say("heads.needed")), right(told.Say("heads.left-over"))}}
	named := map[string]bool{} // grasses of which it is said
	for _, x := range p.Order.Bags {
		needed, over := p.Order.Needed[x.SpeciesID], p.Order.Leftover[x.SpeciesID]
		first := !named[x.SpeciesID]
		t.row(w.lot(x), told.MassKG(x.KG), told.Count(x.Count), some(first && needed > 0, told.MassG(needed)), some(first && over > 0, told.MassG(over)))
		named[x.SpeciesID] = true
	}
	b.table(t.caption, t)
	if i := slices.IndexFunc(p.Cautions, func(s told.Sentence) bool { return s.Name == "job.endophyte-free" }); i >= 0 {
		b.note(p.Cautions[i]) // who buys the seed reads its label
	}
	if len(p.Sowings) > 1 {
		mixing := table{caption: told.Say("plan.mixing"), columns: []head{keys(), left(told.Say("heads.grass")), right(told.Say("heads.by-weight")), right(told.Say("heads.amount"))}}
		w.eachPart(&mixing, func(name told.Figure, c mix.Component, grams told.Figure) {
			mixing.row(name, told.Grass(c.Species.ID), told.Share(float64(c.Percent)/100), grams)
		})
		b.table(mixing.caption, mixing)
	}
	w.spreading(b)
}

// aftercare is the water week by week, and what is done until the lawn bears use.
func (w *writer) aftercare(b *builder) {
	p := w.p
	if len(p.Dates.Watering) > 0 {
		b.figure("watering", w.drawn(draw.Watering), told.Say("parts.fig-watering"), nil)
		if p.Water.Goes > 0 {
			all := told.Say("parts.water-in-all", told.Counted{N: p.Water.Goes, Of: "goes"}, told.VolumeL(p.Water.Litres), told.Date(p.Water.Until))
			if !p.Brief.Use.Irrigation {
				all = told.Say("parts.water-young-only", all)
			}
			b.note(all)
		}
	}
	w.tasks(b, told.Say("parts.until-use"), func(x job.Task) bool { // lime is bought with the rest, and spread in its season
		return w.after(x) && (!x.Date.After(w.established()) || strings.HasPrefix(x.ID, "lime-lawn"))
	})
}

// established is the day until which the crew looks after the lawn.
func (w *writer) established() time.Time {
	if w.p.UsableFrom != nil {
		return *w.p.UsableFrom
	}
	return w.p.Water.Until
}
