package dates

import (
	"swardwright/internal/arith"
	"swardwright/internal/calendar"
	"swardwright/species"
)

// danger is one of the things that take seedlings.
type danger int

const (
	dangerWork   danger = iota // the ground cannot be worked
	dangerUp                   // seed is not up in time
	dangerLost                 // seed is lost while it lies: birds, rot
	dangerWash                 // heavy rain
	dangerFrost                // frost on seedlings just up
	dangerWinter               // the first winter
	dangerCover                // bare ground in it
	dangerWeeds                // annual weeds
	dangerHeat
	dangerDry
	dangerSlow   // growth so slow that the year passes before the first mowing
	dangerLeaves // leaf fall
	dangers
)

// trial follows the sowings of one species in one zone, in a bed kept one way.
type trial struct {
	*zone
	species    *sown
	care       *care
	input      Input
	germ, grow []float32 // running sums of germination and growth
	tall       []float32 // and of growth in height
	mown       []int32   // the first day, from each on, on which it grows enough to be mown
}

func newTrial(z *zone, s *sown, c *care, input Input) trial {
	return trial{z, s, c, input, c.germination(s.base), z.growth(s), z.height(s), z.mown[s.index()]}
}

// fate is what becomes of one sowing.
type fate struct {
	emerge  int              // day of half emergence, counted as the series'; -1: never
	mow     int              // day on which it has grown to the size of a first mowing
	slept   bool             // through a winter, or most of one
	through [dangers]float64 // share that comes through each danger

	// Running sums at the days that emergence settles, so that the days of sowing
	// that lead to one day of emergence need not look them up again.
	stirred, cold, waste, chilled float32 // at emergence
	parched                       float32 // when rooted
	washed                        float32 // when it holds the ground
	later                         float64 // drought from then on
}

// survival is the share that comes through them all.
func (f *fate) survival() float64 {
	v := 1.0
	for _, t := range f.through {
		v *= t
	}
	return v
}

// sowingStep is how many days of sowing are taken to fare alike: fates of one year
// that lie a day apart differ little, and less than those of different years.
const sowingStep = 3

// trace works out the fate on every sowing day. The days of emergence and first
// mowing never move back as the sowing moves on, so that one pass finds them all;
// what befalls the stand after emergence is reckoned once for each day of emergence.
// Most of the time of the seasons goes here, and the three days move together: one piece.
//
//gocyclo:ignore
func (t *trial) trace() trace {
	out := newTrace(t.n)
	emerge, mow, cut, last := 0, 0, 0, len(t.germ)-1
	f := fate{emerge: -1}
	stand := 0.0
	for k := sowingStep / 2; k < t.n; k += sowingStep {
		for target := t.germ[k] + float32(t.species.emergeDD); emerge < last && t.germ[emerge] < target; {
			emerge++
		}
		if !t.bare[k] || emerge >= last {
			continue
		}
		if emerge != f.emerge {
			mow = max(mow, emerge)
			for goal := t.grow[emerge] + float32(t.species.cutDD); mow < last && t.grow[mow] < goal; {
				mow++
			}
			cut = max(cut, emerge)
			for goal := t.tall[emerge] + float32(t.species.cutDD); cut < last && t.tall[cut] < goal; {
				cut++
			}
			for goal := t.afterWinter(emerge, cut); cut < last && t.tall[cut] < goal; {
				cut++
			}
			f.emerge, f.mow = emerge, mow
			stand = t.standing(&f)
		}
		seed := t.inGround(&f, k)
		step := k / sowingStep
		out.stand[step] = uint8(full*seed*stand + half)
		if f.through[dangerUp] > 0 {
			out.up[step] = int32(emerge)
			if mown := t.mown[cut]; int(mown) < last {
				out.cut[step] = mown
			}
		}
	}
	return out
}

// afterWinter is what the growth in height adds up to at the first cut of what came up on a
// day and would be cut on another, where the frost of a winter between them kills leaf: that
// has to grow again. Nothing where none lies between.
func (t *trial) afterWinter(emerge, cut int) float32 {
	m := &t.mark[emerge]
	killed := int(m.kill)
	if killed >= cut || killed <= emerge {
		return 0
	}
	lost := float32(species.LeafKilled(float64(m.frozen)))
	return t.tall[emerge] + float32(t.species.cutDD) + lost*(t.tall[killed]-t.tall[emerge])
}

// at works out the fate of one sowing by search.
func (t *trial) at(k int) fate {
	emerge := reach(t.germ, k, t.species.emergeDD)
	if emerge >= len(t.germ)-1 {
		return fate{emerge: -1, mow: -1}
	}
	f := fate{emerge: emerge, mow: reach(t.grow, emerge, t.species.cutDD)}
	t.standing(&f)
	t.inGround(&f, k)
	return f
}

// inGround judges the seed of a sowing on day k until it is up, and its seedbed,
// and returns the product of their shares.
func (t *trial) inGround(f *fate, k int) float64 {
	c := t.care
	stirring := float64(f.stirred - c.stir[k])
	cold := float64(f.cold - t.cold[k])
	dryFor := float64(f.emerge-k) - cold - stirring
	f.slept = cold >= sleepDays

	// A dormant sowing goes on to a bed made before the ground froze.
	f.through[dangerWork] = 0
	if t.work[k] || f.slept && t.bare[k] {
		f.through[dangerWork] = 1
	}

	// Seed is lost day by day in warm moist ground, to rot in cold wet ground, more
	// slowly in dry and slowest in frozen.
	lost := arith.Most(0, 1-lossPerD*arith.Most(0, float64(f.waste-c.waste[k])-freeDays)-
		chillLossPerD*float64(f.chilled-c.chill[k])-dryLossPerD*dryFor-coldLossPerD*cold)
	f.through[dangerLost] = lost

	// What has begun to sprout when the deep frost comes dies of it.
	limit := seedDays
	if f.slept {
		limit += bedded
	}
	up := arith.Unit((limit - stirring) / seedRange)
	if m := &t.mark[k]; int(m.kill) < f.emerge && m.frozen < sproutFrostC {
		sprouted := float64(t.germ[m.kill]-t.germ[k]) / t.species.emergeDD
		up *= arith.Unit((sproutLost - sprouted) / (sproutLost - sproutSafe))
	}
	f.through[dangerUp] = up

	leaves := 1.0
	if t.input.LeafFallDay > 0 && int(t.mark[k].fall) < f.mow {
		leaves = t.leaves
	}
	f.through[dangerLeaves] = leaves

	// Heavy rain carries seed and seedlings off until they hold the ground.
	wash := 1 / (1 + float64(f.washed-t.heavy[k])*(1+t.slopeDeg/washSlopeDeg)/washHalfMM)
	f.through[dangerWash] = wash

	// Drought: in the bed while the seedling lives on it, in the rootzone after that.
	thirst := float64(f.parched-t.parch[max(k, f.emerge-soakDays)]) / parchHalf
	if c.watered {
		thirst *= wateringLapse
	}
	dry := 1 / (1 + (thirst+f.later/dryHalf)*tolerance(t.species.dryFit))
	f.through[dangerDry] = dry
	return f.through[dangerWork] * up * lost * leaves * wash * dry
}

// standing judges the young stand from its emergence on, and returns the product
// of its shares.
func (t *trial) standing(f *fate) float64 {
	s, c := t.species, t.care
	m, last := &t.mark[f.emerge], len(t.grow)-1
	f.stirred, f.cold, f.waste, f.chilled = c.stir[f.emerge], t.cold[f.emerge], c.waste[f.emerge], c.chill[f.emerge]
	rooted := min(f.emerge+rootDays, last)
	f.parched, f.washed = t.parch[rooted], t.heavy[min(f.emerge+holdDays, last)]
	f.later = t.drought(f, rooted)

	frost := arith.Unit(0.5 + (float64(m.sprout)-sproutC)/(2*sproutRange))
	winter, cover := t.wintering(f, m)

	weeds := 1.0
	if !s.warm {
		slowness := 1.25 - 0.5*species.MowDegDays(1)/s.mowDD // 0.75 for the quickest grass
		weeds = 1 / (1 + float64(m.weeds)*slowness/weedHalf)
	}
	hot := float64(t.heat[min(f.emerge+heatDays, last)] - t.heat[f.emerge])
	heat := 1 / (1 + hot*tolerance(s.hotFit)/heatHalf)
	slow := arith.Unit((slowestDays + slowRange - float64(f.mow-f.emerge)) / slowRange)

	f.through[dangerSlow] = slow
	f.through[dangerFrost], f.through[dangerWinter], f.through[dangerCover] = frost, winter, cover
	f.through[dangerWeeds], f.through[dangerHeat] = weeds, heat
	return frost * winter * cover * weeds * heat * slow
}

// drought is the days without water in the rootzone while the rooted seedling is
// young. Watering meets them until the first mowing, but for its lapses.
func (t *trial) drought(f *fate, rooted int) float64 {
	if t.days.Exposure.Irrigated {
		return 0
	}
	to := max(rooted, min(f.emerge+dryDays, len(t.dry)-1))
	days := float64(t.dry[to] - t.dry[rooted])
	if end := min(f.mow, to); t.care.watered && end > rooted {
		days -= (1 - wateringLapse) * float64(t.dry[end]-t.dry[rooted])
	}
	return youngDraws * days
}

// wintering judges the winter ahead: how much of its hardiness the plant will have
// against what it needs for that winter's frost, and its age against the winter's
// length; and the ground that lies bare through it, for what comes up in its year's
// second half.
func (t *trial) wintering(f *fate, m *mark) (winter, cover float64) {
	s, last := t.species, len(t.grow)-1
	age := float64(t.grow[min(int(m.kill), last)]-t.grow[f.emerge]) / s.mowDD
	need := (tenderC - float64(m.frozen)) / (tenderC - min(s.lt50, tenderC-1))
	need = arith.Unit(need)
	need = max(hardyShare*need*need, idleShare*(float64(m.idle)-idleFree)/idleFull)
	winter = arith.Unit(0.5 + (age-need)/hardySpread)

	cover = 1
	if rest := min(int(m.rest), last); rest-f.emerge < calendar.Half {
		grown := float64(t.grow[rest]-t.grow[f.emerge]) / (coverShare * s.mowDD)
		cover = 1 - (1-livingSpare*t.input.Living)*bareWinter*float64(m.open)*arith.Most(0, 1-grown)
	}
	return winter, cover
}

// tolerance turns a grass's standing of a stress, 0 to 1, into how hard it takes
// it: 0.75 for a grass of middling rank.
func tolerance(fit float64) float64 { return 1.5 * (1 - fit) }
