package sowing

import (
	"slices"
	"strings"
	"testing"

	"swardwright/internal/told"
	"swardwright/sowing/job"
)

// A young lawn that nobody waters: no water in tasks, sum or bill, straw on its bed, and on no day a better chance than
// the same sowing under the hose; what is assumed says so. A verge that is watered has all of that the other way.
func TestYoungLawnLeftToTheRain(t *testing.T) {
	for _, grade := range []string{"utility", "extensive"} {
		plan := func(watered string) Plan {
			return planned(t, "title = \"x\"\n[place]\nlatitude = 52.5\nlongitude = 13.4\n[lawn]\narea_m2 = 90\n[light]\nsun_hours = 7\n[job]\nkind = \"new\"\nnot_before = 2027-05-10\n[use]\ngrade = \""+grade+"\"\nwater_young = "+watered+"\n")
		}
		wet, dry := plan("true"), plan("false")
		told := func(p Plan, name string) bool {
			return slices.ContainsFunc(p.Assumptions, func(s told.Sentence) bool { return s.Name == name })
		}
		waters := func(p Plan) (tasks int, billed bool, strawed bool) {
			for _, w := range p.Ways {
				if w.Kind != job.BySeed {
					continue
				}
				for _, x := range w.Tasks {
					if strings.HasPrefix(x.ID, "water-young") {
						tasks++
					}
					strawed = strawed || x.ID == "straw-seed"
				}
				for _, l := range w.Bill.Lines {
					billed = billed || l.Item.Name == "money.water-sown"
				}
			}
			return tasks, billed, strawed
		}
		if n, billed, straw := waters(dry); n != 0 || billed || straw == false || dry.Water.Goes != 0 || !told(dry, "job.unwatered") || told(dry, "job.watered-young") {
			t.Errorf("%s, left to the rain: %d waterings, billed %t, strawed %t, %+v", grade, n, billed, straw, dry.Water)
		}
		if n, billed, straw := waters(wet); n == 0 || !billed || straw || wet.Water.Goes == 0 || !told(wet, "job.watered-young") || told(wet, "job.unwatered") {
			t.Errorf("%s, watered: %d waterings, billed %t, strawed %t, %+v", grade, n, billed, straw, wet.Water)
		}
		if dry.Dates.Success > wet.Dates.Success {
			t.Errorf("%s: %g unwatered, %g watered", grade, dry.Dates.Success, wet.Dates.Success)
		}
	}
}
