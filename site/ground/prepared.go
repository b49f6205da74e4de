package ground

import (
	"errors"
	"fmt"
	"math"
)

// Works are what a job does to the ground, as far as a grass will feel it. The zero
// value changes nothing.
type Works struct {
	// Rootzone is the ground dug out and made anew; nil: it is not.
	Rootzone *Rootzone
	// Imported is topsoil laid on, or mixed into, what is there; a depth of 0: none.
	Imported Imported
	// OrganicPercent is the organic matter after compost is dug in; 0: as found.
	OrganicPercent float64
	// Compaction is the class of density that loosening leaves, of [Compactions];
	// empty: as found.
	Compaction string
	// PH is what lime or sulphur brings the ground to; 0: as found.
	PH float64
	// DrainsMMD is what pipes carry off when the rootzone is full to the surface, mm a
	// day; 0: there are none.
	DrainsMMD float64
	// WateredFirst says that the lawn is watered in the dry spells of its first growing
	// season, however it is kept afterwards.
	WateredFirst bool
}

// Rootzone is a made ground: its mix by weight, and what it lies on.
type Rootzone struct {
	DepthCM, SandPercent, ClayPercent, OrganicPercent float64
	OnGravel                                          bool // drained by pipes
}

// Imported is topsoil that is brought in.
type Imported struct {
	DepthCM, SandPercent, ClayPercent, OrganicPercent float64
}

// gravelDrainMMD is what leaves a rootzone on gravel, mm a day: it is never drier
// than well drained ground, since water hangs in it over the coarser layer (USGA,
// Recommendations for a method of putting green construction).
const gravelDrainMMD = 100.0

// Prepared is the ground as works leave it. What they don't touch stays as found.
//
// Water follows Saxton & Rawls of the grain that the works make. Soil brought in
// counts in the whole topsoil by its share of the depth, as it does once it is forked
// in. Pipes lower the water table, so they count against a stated drainage class too;
// without gravel or pipes a made rootzone lies in its hole like water in a basin, and
// drains no faster than the ground around it.
//
// The error names what can't be: a grain outside 0 to 100 %, a depth below 0, an
// unknown class of density.
func (s Soil) Prepared(w Works) (Soil, error) {
	if err := w.check(); err != nil {
		return Soil{}, err
	}
	p := s
	p.remix(w)

	earth := WaterOf(p.SandPercent, p.ClayPercent, p.OrganicPercent)
	p.hold(earth)
	pressed := earth.Pressed(CompactionFactor(p.Compaction)).Stony(p.Stones)
	switch {
	case w.Rootzone != nil: // made to be open: it takes in what its grain lets through
		p.InfiltrationMMH = pressed.KsatMMH
	case CompactionFactor(p.Compaction) != CompactionFactor(s.Compaction) || w.Imported.DepthCM > 0 || w.OrganicPercent > 0:
		// A figure measured on the ground as found stands until the new one is better.
		c, _ := classNamed(p.Texture)
		p.InfiltrationMMH = max(s.InfiltrationMMH, min(pressed.KsatMMH, c.intakeMMH))
	}

	p.DrainMMD = max(s.DrainMMD, w.DrainsMMD)
	if w.Rootzone != nil && w.Rootzone.OnGravel {
		p.DrainMMD = min(gravelDrainMMD, p.KsatMMH*24)
	}
	p.DrainMMD = min(p.DrainMMD, max(s.DrainMMD, drainages[0].drainMMD))
	if p.DrainMMD != s.DrainMMD {
		p.Drainage, p.Wetness = drainageFor(p.DrainMMD).name, wetnessAt(p.DrainMMD)
	}
	p.WinterBearing = p.bearing()
	return p, nil
}

// remix changes what the soil is made of, how dense it is and its pH, by works that are sound.
func (p *Soil) remix(w Works) {
	found := *p
	switch {
	case w.Rootzone != nil:
		r := w.Rootzone
		p.SandPercent, p.ClayPercent, p.OrganicPercent, p.DepthCM = r.SandPercent, r.ClayPercent, r.OrganicPercent, r.DepthCM
		p.Compaction, p.Stones = "normal", 0
	case w.Imported.DepthCM > 0:
		t := w.Imported
		p.DepthCM += t.DepthCM
		by := func(found, brought float64) float64 { return found + (brought-found)*t.DepthCM/p.DepthCM }
		p.SandPercent, p.ClayPercent = by(found.SandPercent, t.SandPercent), by(found.ClayPercent, t.ClayPercent)
		p.OrganicPercent, p.Stones = by(found.OrganicPercent, t.OrganicPercent), by(found.Stones, 0)
	}
	if w.OrganicPercent > 0 {
		p.OrganicPercent = w.OrganicPercent
	}
	if w.Compaction != "" {
		p.Compaction = w.Compaction
	}
	if w.PH > 0 {
		p.PH = w.PH
	}
	p.SiltPercent = 100 - p.SandPercent - p.ClayPercent
	if p.SandPercent != found.SandPercent || p.ClayPercent != found.ClayPercent {
		p.Texture, _ = TextureClass(p.SandPercent, p.ClayPercent)
	}
}

// check tells what of the works can't be.
func (w Works) check() error {
	var faults []error
	grain := func(what string, depthCM, sand, clay, organic float64) {
		if err := checkGrain(sand, clay); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", what, err))
		}
		if !(depthCM > 0) || math.IsInf(depthCM, 0) {
			faults = append(faults, fmt.Errorf("%s: a depth of %g cm is none", what, depthCM))
		}
		if !within(organic, 0, 100) {
			faults = append(faults, fmt.Errorf("%s: organic matter of %g %% is not between 0 and 100 %%", what, organic))
		}
	}
	if r := w.Rootzone; r != nil {
		grain("rootzone", r.DepthCM, r.SandPercent, r.ClayPercent, r.OrganicPercent)
	}
	if t := w.Imported; t.DepthCM != 0 {
		grain("imported topsoil", t.DepthCM, t.SandPercent, t.ClayPercent, t.OrganicPercent)
	}
	if _, ok := densityNamed(w.Compaction); w.Compaction != "" && !ok {
		faults = append(faults, fmt.Errorf("compaction %q is no class of density", w.Compaction))
	}
	if !within(w.OrganicPercent, 0, 100) || w.PH != 0 && !within(w.PH, 2, 11) || !(w.DrainsMMD >= 0) {
		faults = append(faults, fmt.Errorf("organic matter of %g %%, pH %g or drains of %g mm a day can't be", w.OrganicPercent, w.PH, w.DrainsMMD))
	}
	return errors.Join(faults...)
}

// poorDrainageShare is the least share of the growing season that very poorly
// drained ground is wet, whatever the rain brings: the water comes from below
// (USDA: at or near the surface for much of the growing season).
const poorDrainageShare = 0.8

// WetShare is the share of the growing season in which the ground is wet: as the
// rain made it, in so many of its days, or as its drainage class keeps it, whichever
// is more.
func (s *Soil) WetShare(wetDays, growingDays float64) float64 {
	rain := 0.0
	if growingDays > 0 {
		rain = wetDays / growingDays
	}
	return min(1, max(rain, poorDrainageShare*s.Wetness*s.Wetness))
}
