package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"swardwright/internal/told"
	"swardwright/report/content"
	"swardwright/report/say"
	"swardwright/sowing"
)

// reason says how the figures under one path of the JSON came about.
type reason struct {
	path   string // the beginning of a path, indices left out
	method string
	source string
	sure   string
	rooms  []string                                                // the models whose numbers it rests on
	own    func(p *sowing.Plan, bare string, at []int) told.Figure // what this plan itself knows of it; may be nil
}

// reasons covers the whole JSON of a plan; the longest path that fits is used.
var reasons = []reason{
	{path: "title", method: "as the brief says", sure: "given"},
	{path: "client", method: "as the brief says", sure: "given"},
	{path: "prepared_by", method: "as the brief says", sure: "given"},
	{path: "reference", method: "as the brief says", sure: "given"},
	{path: "date", method: "as the brief says, or the first day of the year that its dates fall in", sure: "given"},
	{path: "headline", method: "a sentence made of the figures below it", sure: "as they are"},
	{path: "assumptions", method: "what was left out of the brief and what was taken for it", sure: "each says so"},
	{path: "cautions", rooms: []string{"sowing"}, method: "the limits of this plan, then the usual cautions of the trade where they apply", source: "common practice, no published source", sure: "local codes come first"},
	{path: "sources", method: "gathered from what was used", sure: "as cited"},
	{path: "place", rooms: []string{"site/weather"}, method: "the station's normals, carried to the lawn's height by 6.5 K per 1000 m; means over the synthetic years", source: "WMO normals 1991-2020; Richardson 1981", sure: "0.2 to 0.7 K between stations of like climate",
		own: func(p *sowing.Plan, _ string, _ []int) told.Figure {
			return told.Say("plan.why-place", told.Verbatim(p.Site.Normals.Name), p.Site.RadiationFrom)
		}},
	{path: "light", rooms: []string{"site/light", "site/sun"}, method: "the sun's path against obstacles as solids, clear-sky beam, average cloud, sky view by Lambert's cosine; 0.45 of the radiation is growth light at 4.57 µmol/J", source: "Meeus 1998 ch. 25; Rigollier 2000; Erbs 1982; FAO-56", sure: "sun hours within minutes of an independent ray caster; where hours were stated instead, the light they stand for is inferred, four in five within a quarter"},
	{path: "ground", rooms: []string{"site/ground", "sowing/bed"}, method: "texture to water and conductivity; drainage class or percolation to infiltration; what the grade needs against what is there", source: "Saxton & Rawls 2006; USDA Soil Survey Manual; see each check", sure: "a soil sample is better"},
	{path: "grade", rooms: []string{"mix", "species"}, method: "the grade asked for, with the chance that the best mixture keeps its cover and look, counted over lawns that differ in years, light, traits and place; only an ornamental lawn that is likelier not to hold becomes an everyday one; lifts are found by planning again with the change", source: "cover and look a grade asks for: common practice, no published source; how lawns differ: Kirwan et al. 2014", sure: "the chance to about three points of the model; the model to a few points of cover",
		own: func(p *sowing.Plan, _ string, _ []int) told.Figure { return p.Choice.Because }},
	{path: "advice", rooms: []string{"sowing/money", "mix"}, method: "no grass where none holds; else the cheapest way that bears use in time, is likelier to take than not, and whose grasses suit every zone", sure: "as sure as the costs and chances are",
		own: func(p *sowing.Plan, _ string, _ []int) told.Figure { return told.Joined(told.Sentences, p.Why...) }},
	{path: "matrix", rooms: []string{"species"}, method: "each criterion by a membership function of the grass's limits; criteria of one land quality take their worst, the qualities combine by the square-root index", source: "FAO 1976; Khiddir 1986; Burrough 1989; traits in docs/sources.md", sure: "see sureness: counted over draws within the ranges of the traits", own: whyRow},
	{path: "mixture", rooms: []string{"mix", "mix/sward"}, method: "every mixture on a coarse grid and exchanges from the best, each followed through five seasons of the synthetic years in every zone; near-ties go to published practice", source: "the package pages of mix and mix/sward; rules of practice in docs/sources.md", sure: "shares to about ten points; the scores of good mixtures lie close together",
		own: whyComponent},
	{path: "mixture.rate_g_m2", rooms: []string{"sowing/rate", "mix"}, method: "viable seeds wanted for the grade, within published weight rates, then for method, season and old sward", source: "Ohio Bulletin 546 and others; see docs/sources.md", sure: "publications differ by a factor of two", own: func(p *sowing.Plan, _ string, _ []int) told.Figure { return p.Rate.Because }},
	{path: "mixture.seeds_per_m2", method: "rate × seeds per gram × purity × germination", source: "ISTA terms; Directive 66/401/EEC where no label was given", sure: "as the label is", own: func(p *sowing.Plan, _ string, _ []int) told.Figure { return p.Rate.Because }},
	{path: "mixture.seed_kg", method: "rate × the area on which grass holds", sure: "exact for that rate"},
	{path: "mixture.components.percent_by_seed", method: "weight × seeds per gram × purity × germination of each part over their sum", source: "ISTA terms", sure: "as the seed weights are"},
	{path: "mixture.sward", rooms: []string{"mix/sward", "species"}, method: "the mixture followed from plants established through competition, losses and recovery; mean of the synthetic years and zones", source: "the package page of mix/sward; fitted to Brede & Duich 1984, Kirwan et al. 2014 and followed lawns", sure: "the direction in four followed swards of five; not the last percent"},
	{path: "mixture.leads_on", rooms: []string{"mix"}, method: "share of 400 lawns, each with its own light and traits of the grasses, on which the chosen mixture scores more than the best mixture that any other grass leads", source: "the package page of mix", sure: "the weather stays that of the place; the evidence part says what leads by the next station's"},
	{path: "mixture.near_ties", rooms: []string{"mix"}, method: "mixtures of which a seventh and more is of other grasses and that score within 0.005 of the one chosen, among the grid's best", source: "the package page of mix", sure: "the traits aren't known well enough to tell them apart"},
	{path: "mixture.model_alone", rooms: []string{"mix", "mix/sward"}, method: "the same search without the rules of published practice and their caps, from the mixture chosen; left out where it comes to much the same", source: "the package pages of mix and mix/sward", sure: "where it differs, publications know what the model doesn't"},
	{path: "mixture_by_zone", rooms: []string{"mix", "sowing"}, method: "the zones parted once in the order of their light, the mixture improved by exchanges for each part and both followed on the same 400 lawns; two are sown where the part that gains most gains 3 points of cover and a point costs no more than in the lawn by one mixture", source: "mixtures for sun and for shade: University of Illinois, University of Minnesota, Washington State University; that both go on one lawn, and the rule: common practice and our judgement, no published source", sure: "the gain of cover to a point or two of the model",
		own: func(p *sowing.Plan, _ string, _ []int) told.Figure {
			if p.Second == nil {
				return nil
			}
			return p.Second.Because
		}},
	{path: "premixes", rooms: []string{"mix", "mix/sward"}, method: "the same model as the mixture's; the top-up is the one grass that lifts its score most", source: "the package page of mix", sure: "as the mixture's",
		own: func(p *sowing.Plan, _ string, at []int) told.Figure {
			if len(at) > 0 && at[0] < len(p.Choice.Premixes) {
				return p.Choice.Premixes[at[0]].Verdict
			}
			return nil
		}},
	{path: "order", rooms: []string{"sowing/order"}, method: "the bags of least cost that give the grams needed, by dynamic programming", sure: "exact for the prices given"},
	{path: "sow_on", rooms: []string{"sowing/dates"}, method: "the best day of the best window that the brief allows", source: "the package page of sowing/dates", sure: "see windows"},
	{path: "windows", rooms: []string{"sowing/dates", "site/weather"}, method: "every sowing day in every synthetic year: emergence by hydrothermal time in a bed that dries, losses to birds, rot, wash, frost, drought, heat and weeds, hardening before winter; then how sowings in like weather differ and whether the watering is missed; a window is a run of days that succeed in the share of years asked for", source: "field series of emergence (Lincoln University 1996, Braun et al. 2020 and others); dangers set against published windows", sure: "44 of 49 published windows agree, and 20 of 21 that no number was set by",
		own: func(p *sowing.Plan, _ string, at []int) told.Figure {
			if len(at) > 0 && at[0] < len(p.Dates.Windows) {
				w := p.Dates.Windows[at[0]]
				return told.Say("plan.why-window", w.OpensBecause, w.ClosesBecause)
			}
			return nil
		}},
	{path: "second_choices", rooms: []string{"sowing/dates"}, method: "runs of days, away from the windows, that succeed in half as many of the years as were asked or more", sure: "see windows",
		own: func(p *sowing.Plan, _ string, at []int) told.Figure {
			if len(at) > 0 && at[0] < len(p.Dates.Seconds) {
				return p.Dates.Seconds[at[0]].Wrong
			}
			return nil
		}},
	{path: "cost", rooms: []string{"sowing/money", "sowing"}, method: "quantities from the plan × rates of the price list; sums of rounded lines; spread by draws from three-point estimates, lines of one cause moving together", source: "price list and output rates: swardwright prices", sure: "p10 to p90 hold eight cases in ten, if the prices are right", own: whyCost},
	{path: "nearest_practice", rooms: []string{"mix/practice"}, method: "published recommendations whose lawn is most like this one by winter, summer, water, light, ground, feeding, use and distance, one an institution; the mixture is weighed against all of them, the likest most", source: "data/practice.toml names institution and title of each", sure: "with its institution left out, two firm recommendations in three are met: docs/evidence.md",
		own: func(p *sowing.Plan, _ string, at []int) told.Figure {
			all := content.Published(p.Choice)
			if i := len(all) - len(p.Choice.Nearest); len(at) > 0 && i+at[0] < len(all) {
				return all[i+at[0]]
			}
			return told.Joined(told.Sentences, all...)
		}},
	{path: "practice_heard", rooms: []string{"mix/practice"}, method: "the summed likeness of published recommendations, over itself and a constant", source: "docs/evidence.md", sure: "near 0 nothing alike was published, and the plan is less sure"},
	{path: "grass_m2", rooms: []string{"mix"}, method: "the zones in which grass holds or may hold; every quantity of the plan is for this area", sure: "as sure as the verdict on each zone"},
	{path: "why_this_way", rooms: []string{"sowing"}, method: "in time first, then the standard held, then a fair chance at the first attempt, then the whole cost; the chosen way against each other one", sure: "as sure as the costs and dates are"},
	{path: "unpriced", method: "what a price doesn't show", source: "common practice, no published source", sure: "as the trade knows it"},
	{path: "water", rooms: []string{"sowing/dates", "sowing/year"}, method: "the goes and litres of the tasks that water until the lawn bears use: what soil and rain lack in a mean year", source: "City of Regina, Seed your lawn; FAO-56; Nursery Sod Growers Association of Ontario", sure: "a dry year wants half as much again"},
	{path: "tasks", rooms: []string{"sowing/year", "sowing/bed"}, method: "dated from sowing and from the growth, frost and thaw of the synthetic years", source: "the package page of sowing/year", sure: "a task's chance says in how many years its date is right within ten days"},
}

func whyRow(p *sowing.Plan, bare string, at []int) told.Figure {
	if len(at) == 0 || at[0] >= len(p.Matrix.Rows) {
		return nil
	}
	r := &p.Matrix.Rows[at[0]]
	criterion := r.LimitedBy
	if rating, ok := strings.CutPrefix(bare, "matrix.ratings."); ok {
		criterion = rating
	}
	x, ok := r.Rating(criterion)
	if !ok {
		return nil
	}
	return told.Say("plan.why-rating", told.Grass(r.Species.ID), told.Term{Kind: "criterion", Word: x.Criterion}, x.Figure, x.Limits, told.Term{Kind: "basis", Word: string(x.Basis)}, told.Source(x.Source))
}

func whyComponent(p *sowing.Plan, _ string, at []int) told.Figure {
	m := p.Choice.Mixture
	switch {
	case m == nil:
		return nil
	case len(at) > 0 && at[0] < len(m.Components):
		return m.Components[at[0]].Because
	}
	return told.Joined(told.Sentences, content.Published(p.Choice)...)
}

func whyCost(p *sowing.Plan, _ string, at []int) told.Figure {
	if len(at) < 2 || at[0] >= len(p.Cost.Bills) || at[1] >= len(p.Cost.Bills[at[0]].Lines) {
		return nil
	}
	l := p.Cost.Bills[at[0]].Lines[at[1]]
	return told.Say("plan.why-line", l.Item, l.Source)
}

var index = regexp.MustCompile(`\[(\d+)\]`)

// Why writes how the figure at a path of the JSON came about: its value, the
// method, what this plan knows of it, the sources, how sure it is, and the models
// whose numbers it rests on. A path is written like cost.ways[0].total. Those
// numbers and the traits of the grasses have paths as well, like
// numbers.site/light.wallAlbedo and traits.tall-fescue.wear. An unknown path is an
// error that names the nearest one.
func Why(w io.Writer, p sowing.Plan, path string) error {
	if below, err := whyBelow(w, path); below {
		return err
	}
	words, err := say.For(p)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	if err := JSON(&text, p); err != nil {
		return err
	}
	var root any
	if err := json.Unmarshal(text.Bytes(), &root); err != nil {
		return err
	}
	value, err := lookUp(root, path)
	if err != nil {
		return err
	}
	shown, err := json.Marshal(value)
	if err != nil {
		return err
	}
	var at []int
	for _, m := range index.FindAllStringSubmatch(path, -1) {
		i, _ := strconv.Atoi(m[1])
		at = append(at, i)
	}
	bare := index.ReplaceAllString(path, "")
	r := reasonFor(bare)
	fmt.Fprintf(w, "%s = %s\n", path, shown)
	line(w, "how", r.method)
	if r.own != nil {
		if own := r.own(&p, bare, at); own != nil {
			line(w, "here", words.Figure(own))
		}
	}
	line(w, "from", r.source)
	line(w, "sure", r.sure)
	line(w, "numbers", restsOn(r.rooms))
	return nil
}

// reasonFor is the reason of the longest path that a bare path begins with.
func reasonFor(bare string) reason {
	var best reason
	for _, r := range reasons {
		if (bare == r.path || strings.HasPrefix(bare, r.path+".")) && len(r.path) > len(best.path) {
			best = r
		}
	}
	return best
}

// lookUp walks decoded JSON along a path.
func lookUp(at any, path string) (any, error) {
	walked := ""
	for _, step := range strings.Split(strings.ReplaceAll(path, "[", ".["), ".") {
		switch x := at.(type) {
		case map[string]any:
			next, ok := x[step]
			if !ok {
				keys := make([]string, 0, len(x))
				for k := range x {
					keys = append(keys, k)
				}
				if walked == "" {
					keys = append(keys, numbersKey, traitsKey)
				}
				slices.Sort(keys)
				return nil, unknown("the plan has no figure", walked, step, keys)
			}
			at = next
		case []any:
			i, err := strconv.Atoi(strings.Trim(step, "[]"))
			if err != nil || !strings.HasPrefix(step, "[") || i < 0 || i >= len(x) {
				return nil, fmt.Errorf("%s is a list of %d; take one of it by its number from 0, as in %[1]s[0]", strings.TrimSuffix(walked, "."), len(x))
			}
			at = x[i]
		default:
			return nil, fmt.Errorf("%s is a single figure and has no %s", strings.TrimSuffix(walked, "."), step)
		}
		walked += step + "."
		walked = strings.ReplaceAll(walked, ".[", "[")
	}
	return at, nil
}
