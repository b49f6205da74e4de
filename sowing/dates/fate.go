package dates

// danger is one of the things that take seedlings.
type danger int

const (
	dangerWork   danger = iota // the ground cannot be worked
	dangerUp                   // seed is lost before it is up
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

// fate is what becomes of one sowing.
type fate struct {
	emerge  int              // day of half emergence, counted as the series'; -1: never
	mow     int              // day of the first mowing
	slept   bool             // through a winter, or most of one
	through [dangers]float64 // share that comes through each danger

	// Running sums at the days that emergence settles, so that the days of sowing
	// that lead to one day of emergence need not look them up again.
	stirred, cold, waste float32 // at emergence
	parched              float32 // when rooted
	later                float64 // drought from then on
}

// survival is the share that comes through them all.
func (f *fate) survival() float64 {
	v := 1.0
	for _, t := range f.through {
		v *= t
	}
	return v
}

// trace works out the fate of a species on every sowing day. The days of
// emergence and first mowing never move back as the sowing moves on, so that
// one pass finds them all; what befalls the stand after emergence is reckoned
// once for each day of emergence.
func (z *zone) trace(s *sown, input Input) trace {
	t := trace{up: make([]uint16, z.n), cut: make([]uint16, z.n), stand: make([]uint8, z.n)}
	germ, grow := z.sums(s)
	emerge, mow, last := 0, 0, len(germ)-1
	f := fate{emerge: -1}
	stand := 0.0
	for k := range z.n {
		t.up[k], t.cut[k] = never, never
		for target := germ[k] + float32(s.emergeDD); emerge < last && germ[emerge] < target; {
			emerge++
		}
		if !z.bare[k] || emerge >= last {
			continue
		}
		if emerge != f.emerge {
			mow = max(mow, emerge)
			for goal := grow[emerge] + float32(s.mowDD); mow < last && grow[mow] < goal; {
				mow++
			}
			f.emerge, f.mow = emerge, mow
			stand = z.standing(&f, s, input, grow)
		}
		seed := z.inGround(&f, s, input, germ, k)
		t.stand[k] = uint8(full*seed*stand + 0.5)
		if f.through[dangerUp] > 0 && emerge-k <= horizon {
			t.up[k] = uint16(emerge - k)
			if mow < last && mow-k <= horizon {
				t.cut[k] = uint16(mow - k)
			}
		}
	}
	return t
}

// at works out the fate of one sowing by search.
func (z *zone) at(s *sown, input Input, k int) fate {
	germ, grow := z.sums(s)
	emerge := reach(germ, k, s.emergeDD)
	if emerge >= len(germ)-1 {
		return fate{emerge: -1, mow: -1}
	}
	f := fate{emerge: emerge, mow: reach(grow, emerge, s.mowDD)}
	z.standing(&f, s, input, grow)
	z.inGround(&f, s, input, germ, k)
	return f
}

// inGround judges the seed of a sowing on day k until it is up, and its seedbed,
// and returns the product of their shares.
func (z *zone) inGround(f *fate, s *sown, input Input, germ []float32, k int) float64 {
	// Seed is lost day by day in warm moist ground, more slowly in dry and
	// slowest in cold; what has begun to sprout when the deep frost comes dies
	// of it.
	stirring := float64(f.stirred - z.stir[k])
	cold := float64(f.cold - z.cold[k])
	dryFor := float64(f.emerge-k) - cold - stirring
	f.slept = cold >= sleepDays

	// A dormant sowing goes on to a bed made before the ground froze.
	f.through[dangerWork] = 0
	if z.work[k] || f.slept && z.bare[k] {
		f.through[dangerWork] = 1
	}

	limit := seedDays
	if f.slept {
		limit += bedded
	}
	lost := lossPerD*positive(float64(f.waste-z.waste[k])-freeDays) + dryLossPerD*dryFor + coldLossPerD*cold
	up := positive(1-lost) * clamp01((limit-stirring)/seedRange)
	if m := &z.mark[k]; int(m.kill) < f.emerge && m.frozen < sproutFrostC {
		sprouted := float64(germ[m.kill]-germ[k]) / s.emergeDD
		up *= clamp01((sproutLost - sprouted) / (sproutLost - sproutSafe))
	}
	f.through[dangerUp] = up

	leaves := 1.0
	if input.LeafFallDay > 0 && int(z.mark[k].fall) < f.mow {
		leaves = leafShare
	}
	f.through[dangerLeaves] = leaves

	// Drought: at the surface while the seedling lives on it, in the rootzone
	// after that. Watering meets it until the first mowing, but for its lapses.
	thirst := float64(f.parched - z.parch[max(k, f.emerge-soakDays)])
	if input.Watered {
		thirst *= wateringLapse
	}
	thirst += youngDraws * f.later
	dry := 1 / (1 + thirst*tolerance(s.dryFit)/dryHalf)
	f.through[dangerDry] = dry
	return f.through[dangerWork] * up * leaves * dry
}

// standing judges the young stand from its emergence on, and returns the product
// of its shares.
func (z *zone) standing(f *fate, s *sown, input Input, grow []float32) float64 {
	m, last := &z.mark[f.emerge], len(grow)-1
	f.stirred, f.cold, f.waste = z.stir[f.emerge], z.cold[f.emerge], z.waste[f.emerge]
	rooted := min(f.emerge+rootDays, last)
	f.parched, f.later = z.parch[rooted], 0
	if !z.days.Exposure.Irrigated {
		to := max(rooted, min(f.emerge+dryDays, last))
		f.later = float64(z.dry[to] - z.dry[rooted])
		if end := min(f.mow, to); input.Watered && end > rooted && f.later > 0 {
			f.later -= (1 - wateringLapse) * float64(z.dry[end]-z.dry[rooted])
		}
	}

	frost := clamp01(0.5 + (float64(m.sprout)-sproutC)/(2*sproutRange))

	// The winter ahead: how much of its hardiness the plant will have, and how
	// much it needs for that winter's frost and length.
	age := float64(grow[min(int(m.kill), last)]-grow[f.emerge]) / (hardyShare * s.mowDD)
	need := (tenderC - float64(m.frozen)) / (tenderC - min(s.lt50, tenderC-1))
	need = max(min(1, need), (float64(m.idle)-idleFree)/idleFull)
	winter := clamp01(0.5 + (age-need)/hardySpread)

	// Bare ground in it, for what comes up in its year's second half.
	cover := 1.0
	if rest := min(int(m.rest), last); !input.Overseed && rest-f.emerge < 182 {
		grown := float64(grow[rest]-grow[f.emerge]) / (coverShare * s.mowDD)
		cover = bareWinter + (1-bareWinter)*min(1, grown)
	}

	weeds := 1.0
	if !s.warm {
		slowness := 1.25 - 0.5*mowDegDays/s.mowDD // 0.75 for the quickest grass
		weeds = 1 / (1 + float64(m.weeds)*slowness/weedHalf)
	}
	hot := float64(z.heat[min(f.emerge+heatDays, last)] - z.heat[f.emerge])
	heat := 1 / (1 + hot*tolerance(s.hotFit)/heatHalf)

	slow := clamp01((slowestDays + slowRange - float64(f.mow-f.emerge)) / slowRange)

	f.through[dangerSlow] = slow
	f.through[dangerFrost], f.through[dangerWinter], f.through[dangerCover] = frost, winter, cover
	f.through[dangerWeeds], f.through[dangerHeat] = weeds, heat
	return frost * winter * cover * weeds * heat * slow
}

// tolerance turns a grass's standing of a stress, 0 to 1, into how hard it takes
// it: 0.75 for a grass of middling rank.
func tolerance(fit float64) float64 { return 1.5 * (1 - fit) }

// clamp01 and positive are written out, since the built-in min and max also heed
// NaN and cost a tenth of the whole pass.
func clamp01(v float64) float64 {
	if v < 0 {
		return 0
	}
	if v > 1 {
		return 1
	}
	return v
}

func positive(v float64) float64 {
	if v < 0 {
		return 0
	}
	return v
}
