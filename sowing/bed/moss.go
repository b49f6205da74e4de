package bed

import (
	"slices"

	"swardwright/internal/told"
	"swardwright/sowing/job"
	"swardwright/species"
)

// What moss comes of is Landschoot's list (Penn State, 1999: low fertility, acid soil,
// heavy shade, wet soil, shallow or compact soil); from which figure on each is named is
// our own, but for acid ground, which is that which is limed.
const (
	mossShade     = 0.5 // of the open's light, and less
	mossNitrogenN = 5.0 // g/m² a year, and less
)

// Iron sulphate against moss: 3.6 to 4.9 g/m² of the crystals a go killed about nine
// tenths of it in trials on fine turf (Oregon State University, Controlling moss in
// putting greens); home-lawn advice runs up to 24. How long it needs, and the water it
// goes out in: common practice, no published source.
const (
	ironGM2      = 5.0
	ironDays     = 14 // until the moss is black and raked out
	ironLitresM2 = 1.0
)

var cautionIron = told.Say("bed.caution-iron")

// moss says why moss stands on this ground, by its figures, and what each cause takes.
func moss(w Input, b Bed) []told.Sentence {
	list := mossCauses(w, b)
	switch {
	case w.Moss && len(list) == 0:
		list = says(told.Say("bed.moss-no-cause"))
	case w.Moss:
	case w.Kind != job.New && len(list) >= causesToSuspect && !w.Use.Rough():
		return slices.Concat(says(told.Say("bed.moss-suspected", told.GramsPerM2(ironGM2), told.Days(ironDays))), list)
	default:
		return nil
	}
	return append(list, told.Say("bed.moss-returns"))
}

// causesToSuspect is from how many causes on moss is suspected in an old sward of which
// the brief does not say what fills its gaps: our judgement.
const causesToSuspect = 2

// mossCauses are the figures of the lawn for which moss would stand there.
func mossCauses(w Input, b Bed) (list []told.Sentence) {
	soil, use := w.Site.Soil, w.Use
	open, share := 0.0, 0.0
	for _, z := range w.Site.Zones {
		open += z.Share * z.Light.OpenShare
		share += z.Share
	}
	if share > 0 && open/share <= mossShade {
		list = append(list, told.Say("bed.moss-shade", told.Share(open/share)))
	}
	if soil.Wetness >= wetFrom {
		list = append(list, told.Say("bed.moss-wet", told.Term{Kind: "drainage", Word: soil.Drainage}))
	}
	switch {
	case b.LimeGM2 > 0:
		list = append(list, told.Say("bed.moss-acid", told.PH(soil.PH)))
	case !soil.PHKnown && w.Moss:
		list = append(list, told.Say("bed.moss-untested"))
	}
	if use.Scalped() {
		list = append(list, told.Say("bed.moss-scalped", told.DepthMM(use.MowingMM), told.DepthMM(species.ScalpedMM)))
	}
	switch n := use.NitrogenGM2; {
	case n != nil && *n < mossNitrogenN:
		list = append(list, told.Say("bed.moss-starved", told.GramsPerM2(*n)))
	case n == nil && use.Feeding == "none":
		list = append(list, told.Say("bed.moss-unfed"))
	}
	return list
}

// treatMoss kills the moss of a standing sward before it is raked out, and gives the
// task that raking waits for with the days.
func (l *list) treatMoss(w Input, after job.Need) job.Need {
	if !w.Moss {
		return after
	}
	l.add(job.Task{ID: "treat-moss", Title: told.Say("bed.treat-moss"), OutputKey: "feed_m2_per_hour", Needs: []job.Need{after}, Caution: says(cautionIron, told.Say("bed.caution-iron-law")),
		Materials: says(told.Say("bed.iron-of", told.MassG(ironGM2*l.areaM2), told.GramsPerM2(ironGM2))),
		Detail:    says(told.Say("bed.treat-moss-how", told.GramsPerM2(ironGM2), told.LitresPerM2(ironLitresM2)), told.Say("bed.treat-moss-dry"), told.Say("bed.treat-moss-wait", told.Days(ironDays)))})
	return need("treat-moss", ironDays)
}
