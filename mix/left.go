package mix

import (
	"swardwright/mix/sward"
	"swardwright/species"
)

// Left is what becomes of a zone's standing sward when it is left alone, beside what the
// mixture makes of it: chances that it keeps the cover that the standard asks for.
type Left struct {
	Zone        int
	Alone, Sown float64
}

// worthSowing is what seed must add to the chance, that it is worth sowing (our judgement).
const worthSowing = 0.05

// Worth tells whether a zone is worth overseeding.
func (l Left) Worth() bool { return l.Sown-l.Alone >= worthSowing }

// left follows a sward that a record knows with nothing sown into it, and with the mixture.
func (a *answer) left() (out []Left) {
	if !a.task.Overseed || a.task.Known == nil || a.best == nil {
		return nil
	}
	asks := species.StandardOf(a.use.Grade).Cover
	alone := a.ensemble.Follow(&sward.Sowing{Season: a.problem.season, Winter: a.problem.winter})
	sown := a.ensemble.Follow(&a.best.sowing)
	for i, z := range a.zones {
		if z.kept {
			l := Left{Zone: i}
			l.Alone, _ = keeping(alone.Zone[i], asks)
			l.Sown, _ = keeping(sown.Zone[i], asks)
			out = append(out, l)
		}
	}
	return out
}
