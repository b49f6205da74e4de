package light

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"swardwright/internal/told"
	"sync"
	"sync/atomic"
)

// Trace works out the light of a lawn, cell by cell and month by month. The cells
// are the finest of 0.25, 0.5, 1, 2 … m with which the lawn has no more than most:
// [MostCells], or fewer for a quick look. With a sixteenth of the cells, sides four times
// as long, the light of a zone differs by a few tenths of a mol and its share of the lawn
// by a few points. A month is the mean of three days in the middles of its thirds. It
// fails when the scene has faults or the context ends.
func Trace(ctx context.Context, scene Scene, sky Sky, most int) (Field, error) {
	return traceCells(ctx, scene, sky, cellSide(scene.areaM2(), most))
}

func (s Scene) areaM2() float64 {
	area := 0.0
	for _, part := range s.Lawn {
		a, _ := planArea(part)
		area += math.Abs(a)
	}
	return area
}

// worthSayingM2 is how much of a lawn must lie under obstacles before it is more than
// how the outlines were drawn.
const worthSayingM2 = 0.05

func traceCells(ctx context.Context, scene Scene, sky Sky, side float64) (Field, error) {
	if err := refuse(scene.Faults()); err != nil {
		return Field{}, err
	}
	sloping := scene
	scene = scene.onTheLevel()
	f := Field{CellM: side, LogSD: computedLogSD}
	var underM2 float64
	f.Cells, underM2 = cells(scene, side)
	if len(f.Cells) == 0 { // of a lawn that the wanted cells, coarser than usual, miss
		return Field{}, fmt.Errorf("lawn: all of it lies under obstacles; move its outline or theirs")
	}
	if underM2 > worthSayingM2 {
		f.Notes = append(f.Notes, told.Say("site.under-obstacles", told.AreaM2(underM2)))
	}

	y := newYear(scene, sky)
	f.OpenDLI = y.openDLI
	if err := y.trace(ctx, len(f.Cells), func(i int) (vec, *Light) {
		return y.onGround(f.Cells[i].At), &f.Cells[i].Light
	}); err != nil {
		return Field{}, err
	}
	f.Probes = make([]ProbeLight, len(scene.Probes))
	if err := y.trace(ctx, len(f.Probes), func(i int) (vec, *Light) {
		f.Probes[i].Probe = scene.Probes[i]
		return y.onGround(scene.clearOfFaces(f.Probes[i].At)), &f.Probes[i].Light
	}); err != nil {
		return Field{}, err
	}
	if sloping.AspectUnknown {
		f.turned(sloping, sky, y)
	}
	f.divide(scene, y)
	f.Notes = append(f.Notes, scene.assumptions()...)
	return f, nil
}

// assumptions says what the trace took for granted of this scene.
func (s Scene) assumptions() []told.Sentence {
	var broad, pines bool
	known := map[Genus]bool{}
	var notes []told.Sentence
	for _, o := range s.Obstacles {
		if g, ok := FindGenus(o.Genus); ok && o.MonthTransmittance == nil && !known[g] {
			known[g] = true
			notes = append(notes, told.Say("site.crown-of", told.Term{Kind: "genus", Word: g.Name}, told.Share(g.On), told.Share(g.Off)))
		} else if o.Kind == Tree && o.Genus == "" && o.MonthTransmittance == nil {
			pines = pines || o.Leaf == Evergreen
			broad = broad || o.Leaf != Evergreen
		}
	}
	if slices.ContainsFunc(s.Obstacles, func(o Obstacle) bool { return (o.Kind == Solid || o.Kind == Gable) && o.Albedo == nil }) {
		notes = append(notes, told.Say("site.walls", told.Share(wallAlbedo)))
	}
	if broad {
		notes = append(notes, told.Say("site.crowns-deciduous", told.Share(leafOn), told.Share(leafOff)))
	}
	if pines {
		notes = append(notes, told.Say("site.crowns-evergreen", told.Share(evergreen)))
	}
	return notes
}

// SunHoursOn is the direct sun at each probe under a clear sky on days of the
// year, counted from 1: hours with the sun's centre above the geometric horizon
// (no refraction) and on the lawn's plane, in local apparent solar time, with the
// declination of the day's noon. Behind a screen or a crown an hour counts for
// the share of light let through; leaf dates are those of the sky.
func SunHoursOn(ctx context.Context, scene Scene, sky Sky, days []int) ([]ProbeDays, error) {
	if err := refuse(scene.Faults()); err != nil {
		return nil, err
	}
	scene = scene.onTheLevel()
	paths := make([]day, len(days))
	for i, d := range days {
		if d < 1 || d > 366 {
			return nil, fmt.Errorf("day %d: days of the year run from 1 to 365", d)
		}
		paths[i] = newDay(scene.LatitudeDeg, scene.AltitudeM, float64(d))
	}
	t := newTracer(scene, paths)
	t.tau = make([][]float64, len(days))
	for i, d := range days {
		t.tau[i] = make([]float64, len(t.layers))
		for j := range t.layers {
			t.tau[i][j] = t.layers[j].transmittance(float64(d), sky)
		}
	}
	var b bench
	out := make([]ProbeDays, len(scene.Probes))
	got := make([]sunlight, len(days))
	for i, p := range scene.Probes {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		t.look(&b, t.onGround(scene.clearOfFaces(p.At)))
		t.sun(&b, &t.ground, got)
		out[i] = ProbeDays{Probe: p, Days: make([]DaySun, len(days))}
		for k, d := range days {
			out[i].Days[k] = DaySun{d, got[k].hours}
		}
	}
	return out, nil
}

// year is a tracer over the year's days together with the average sky.
type year struct {
	*tracer
	months   [12]monthSky
	weights  [12]float64
	level    [12]float64   // clear sky's beam on open level ground, summed over the month's days
	taus     [][]float64   // distinct sets of the layers' transmittances
	set      [12]int       // which of them a month has
	glow     [][12]float64 // light thrown back by each face, MJ m⁻² d⁻¹
	openDLI  [12]float64
	openMean float64 // of openDLI over the season
}

func newYear(scene Scene, sky Sky) *year {
	var days []day
	for m := range 12 {
		for _, d := range monthDays(m) {
			days = append(days, newDay(scene.LatitudeDeg, scene.AltitudeM, d))
		}
	}
	y := &year{tracer: newTracer(scene, days), months: sky.split(scene.LatitudeDeg), weights: sky.weights()}
	for i := range days {
		y.level[days[i].month] += days[i].beam[beamSteps].u
	}
	y.veil(sky)

	open := y.newSurface(y.normal, nil)
	var beam [12]float64
	for i := range days {
		for _, s := range open.lit[i] {
			beam[days[i].month] += days[i].beamIn(s).dot(open.normal)
		}
	}
	for m := range 12 {
		y.openDLI[m] = y.dli(m, beam[m], open.sky, 0)
		y.openMean += y.weights[m] * y.openDLI[m]
	}
	y.lightWalls()
	return y
}

// veil settles what each layer lets through, month by month; equal months share a set.
func (y *year) veil(sky Sky) {
	for m := range 12 {
		tau := make([]float64, len(y.layers))
		for j := range y.layers {
			tau[j] = y.layers[j].monthTransmittance(m, sky)
		}
		y.set[m] = slices.IndexFunc(y.taus, func(known []float64) bool { return slices.Equal(known, tau) })
		if y.set[m] < 0 {
			y.set[m] = len(y.taus)
			y.taus = append(y.taus, tau)
		}
	}
	for i := range y.days {
		y.tau = append(y.tau, y.taus[y.set[y.days[i].month]])
	}
}

// lightWalls finds what each wall throws back: of what falls on it, with its own
// surroundings, half-way up its middle.
func (y *year) lightWalls() {
	var b bench
	sums := make([]sunlight, len(y.days))
	views := make([]float64, len(y.taus))
	y.glow = make([][12]float64, len(y.faces))
	for i, f := range y.faces {
		front := y.newSurface(f.outward, y.far)
		y.look(&b, f.mid)
		y.sun(&b, &front, sums)
		y.skyView(&b, &front, y.taus, views)
		for k := range y.days {
			if m := y.days[k].month; y.level[m] > 0 {
				y.glow[i][m] += f.albedo * y.months[m].beam * sums[k].beam / y.level[m]
			}
		}
		for m := range 12 {
			y.glow[i][m] += f.albedo * y.months[m].diffuse * views[y.set[m]]
		}
	}
}

// dli is the photosynthetic light of a month: of the sun, whose clear-sky beam is
// given as a sum over the month's days; of the share of sky seen; and what walls
// throw back, MJ m⁻² d⁻¹. The beam under average cloud is taken to come at the
// hours of a clear day.
func (y *year) dli(m int, beam, view, glow float64) float64 {
	mj := y.months[m].diffuse*view + glow
	if y.level[m] > 0 {
		mj += y.months[m].beam * beam / y.level[m]
	}
	return mj * parShare * molPerMJ
}

// trace fills in the light of n points of the lawn, on all cores when there are
// many.
func (y *year) trace(ctx context.Context, n int, point func(i int) (vec, *Light)) error {
	const chunk, many = 256, 1000
	workers := 1
	if n > many {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			w := y.worker()
			for ctx.Err() == nil {
				from := int(next.Add(chunk)) - chunk
				if from >= n {
					return
				}
				for i := from; i < min(n, from+chunk); i++ {
					at, light := point(i)
					w.fill(at, light)
				}
			}
		})
	}
	all.Wait()
	return ctx.Err()
}

// worker is what one core needs to itself.
type worker struct {
	*year
	bench
	sums  []sunlight
	views []float64
}

func (y *year) worker() *worker {
	return &worker{year: y, sums: make([]sunlight, len(y.days)), views: make([]float64, len(y.taus))}
}

// fill works out the light at a point of the lawn.
func (w *worker) fill(at vec, l *Light) {
	*l = Light{}
	w.look(&w.bench, at)
	w.sun(&w.bench, &w.ground, w.sums)
	treelessView, bareView := w.skyView(&w.bench, &w.ground, w.taus, w.views)
	var beam, treeless, glow [12]float64
	for i := range w.days {
		m := w.days[i].month
		l.SunHours[m] += w.sums[i].hours / daysAMonth
		beam[m] += w.sums[i].beam
		treeless[m] += w.sums[i].treeless
	}
	w.walls(&w.ground, bareView, func(face int, share float64) {
		for m := range 12 {
			glow[m] += share * w.glow[face][m]
		}
	})
	var bare float64
	for m := range 12 {
		view := w.views[w.set[m]]
		l.DLI[m] = w.dli(m, beam[m], view, glow[m])
		bare += w.weights[m] * w.dli(m, treeless[m], treelessView, glow[m])
		l.SkyView += w.weights[m] * view
	}
	l.season(w.weights, w.openMean)
	if lost := w.openMean - l.DLISeason; lost > 0 {
		l.LeafShade = max(0, min(1, (bare-l.DLISeason)/lost))
	}
}

// season fills in the means over the growing season.
func (l *Light) season(weights [12]float64, openMean float64) {
	l.SunHoursSeason, l.DLISeason = 0, 0
	for m, w := range weights {
		l.SunHoursSeason += w * l.SunHours[m]
		l.DLISeason += w * l.DLI[m]
	}
	l.OpenShare = 0
	if openMean > 0 {
		l.OpenShare = min(1, l.DLISeason/openMean)
	}
}
