package report

import (
	"time"

	"github.com/samber/lo"

	"swardwright/mix/record"
	"swardwright/sowing"
)

// jsonSeen is one finding of the record beside what was expected: shares 0 to 1, but days
// from sowing until seedlings are up or first cut, and hours of sun.
type jsonSeen struct {
	Date       string     `json:"date"`
	Zone       string     `json:"zone"` // empty: the whole lawn
	What       string     `json:"what"`
	Grass      string     `json:"grass,omitempty"` // of a share: as written
	Expected   [2]float64 `json:"expected"`
	Found      float64    `json:"found"`
	FoundRange [2]float64 `json:"found_range"`
	Now        [2]float64 `json:"now_expected"`
	Surprise   float64    `json:"surprise"` // share of what might have been found that was no likelier
	Fits       record.Fit `json:"fits"`     // the same in words
}

// jsonStanding is the sward of a zone as the record has it, and a season on with nothing sown.
type jsonStanding struct {
	Zone        string             `json:"zone"`
	Cover       [2]float64         `json:"cover"`
	Season      [2]float64         `json:"cover_next"`
	SeasonAlone [2]float64         `json:"cover_next_by_tables"`
	Narrowed    float64            `json:"narrowed"`
	Shares      map[string]float64 `json:"shares"` // percent
}

// rangeOf is a range to a thousandth.
func rangeOf(x [2]float64) [2]float64 { return [2]float64{round(x[0], 3), round(x[1], 3)} }

func recordOf(l *record.Learned) []jsonSeen {
	return lo.Map(l.Rows, func(r record.Row, _ int) jsonSeen {
		return jsonSeen{
			Date: r.Seen.Date.Format(time.DateOnly), Zone: r.Zone, What: string(r.What), Grass: r.Of,
			Expected: rangeOf(r.Expected), Found: round(r.Found, 3), FoundRange: rangeOf(r.Range), Now: rangeOf(r.Now), Surprise: round(r.Surprise, 4), Fits: r.Fit(),
		}
	})
}

func standingOf(l *record.Learned) []jsonStanding {
	return lo.Map(l.Next, func(o record.Outlook, _ int) jsonStanding {
		s := jsonStanding{Zone: o.Letter, Cover: rangeOf(o.Cover), Season: rangeOf(o.Season), SeasonAlone: rangeOf(o.SeasonAlone), Narrowed: round(o.Narrowed, 2), Shares: map[string]float64{}}
		for _, x := range o.Shares {
			s.Shares[x.Species.ID] = round(100*x.Share, 1)
		}
		return s
	})
}

// jsonNext is the next year's work in a zone, with the chances that it keeps the standard's
// cover.
type jsonNext struct {
	Zone    string       `json:"zone"`
	Do      string       `json:"do"` // of the choices
	Alone   float64      `json:"chance_alone"`
	Sown    float64      `json:"chance_overseeded"`
	Choices []jsonChoice `json:"choices"`
}

// jsonChoice is one way to go on with a zone, beside the care that it takes either way.
type jsonChoice struct {
	Do     string  `json:"do"` // "overseed" or "leave alone"
	Chance float64 `json:"chance"`
	Total  string  `json:"total"` // the zone's part of the bill, by area
	Grams  float64 `json:"grams"`
	Opens  string  `json:"opens,omitempty"`
	Closes string  `json:"closes,omitempty"`
}

func nextOf(p sowing.Plan) []jsonNext {
	return lo.Map(p.Next, func(x sowing.Next, _ int) jsonNext {
		alone := jsonChoice{Do: "leave alone", Chance: round(x.Alone, 2), Total: x.Total.Part(0).String()}
		sow := jsonChoice{Do: "overseed", Chance: round(x.Sown, 2), Total: x.Total.String(), Grams: round(x.SeedG, 0)}
		if x.Window != nil {
			sow.Opens, sow.Closes = x.Window.Opens.Format(time.DateOnly), x.Window.Closes.Format(time.DateOnly)
		}
		n := jsonNext{Zone: p.Site.Zones[x.Zone].Letter, Do: alone.Do, Alone: alone.Chance, Sown: sow.Chance, Choices: []jsonChoice{alone, sow}}
		if x.Worth() {
			n.Do = sow.Do
		}
		return n
	})
}
