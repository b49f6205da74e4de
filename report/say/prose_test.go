package say

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"swardwright/internal/told"
	"swardwright/sowing"
)

// letters are the texts of a plan that are no sentences of the core: names and words of
// the user or of a table, sources, and ids, keys, units and words of closed lists.
const letters = `
	sowing.Brief.Title sowing.Brief.Client sowing.Brief.PreparedBy sowing.Brief.Reference sowing.Compared.Name sowing.Variant.Name
	site.Place.Station site/light.Obstacle.Name site/light.Probe.Name site/weather.Normals.Name site/weather.Normals.SunFrom site/weather.Normals.GlobalFrom
	mix.Lot.Name mix.Premix.Name sowing/order.Bag.Lot sowing/money.Comparison.Terms species.Species.Botanical species.Species.Synonyms species.Species.Names
	sowing/rate.Component.Botanical mix/record.Seen.By mix/record.Found.Name mix/record.Row.Of

	site/weather.Normals.Source species.Criterion.Source species.Rating.Source species.Value.Source species.Species.MaxShareSource species.Species.Notes
	mix.NearPractice.Institution mix.NearPractice.Title mix.NearPractice.Year mix.NearPractice.Place mix.NearPractice.Leads mix/practice.Band.Of
	species.Species.Facts sowing/bed.Check.Source sowing/rate.Component.Source sowing/year.Source.Source

	sowing.Brief.Units sowing.Brief.Currency sowing.Brief.Language sowing.Brief.Prices sowing.Job.Method sowing/job.Rootzone.Base
	site/light.Obstacle.Genus site/ground.Survey.Texture site/ground.Survey.Drainage site/ground.Survey.Compaction site/ground.Survey.Over site/ground.Survey.Phosphorus
	site/ground.Survey.Potassium site/ground.Soil.Texture site/ground.Soil.Drainage site/ground.Soil.Compaction site/ground.Soil.Phosphorus
	site/ground.Soil.Potassium site/weather.Station.WMO site/weather.Station.Country site/light.Zone.Letter species.Use.Mower species.Use.Feeding
	species.Species.ID species.Species.Group species.Species.Kinds species.Criterion.ID species.Rating.Criterion species.Row.LimitedBy
	mix/record.Where.Zone mix/record.Sown.Key mix/record.Seen.Key mix/record.Row.Zone mix/record.Outlook.Letter
	species.Row.Sureness mix.Lot.PricePerKG mix.Premix.PricePerKG mix.ZoneVerdict.LimitedBy sowing/job.Zone.Letter sowing/job.Task.ID
	sowing/job.Task.Zones sowing/job.Task.OutputKey sowing/job.Task.Unit sowing/job.Need.ID sowing/rate.Component.SpeciesID
	sowing/order.Bag.SpeciesID sowing/bed.Material.Unit sowing/bed.Material.PriceKey sowing/bed.Check.ID sowing/bed.Strew.Zone
	sowing/dates.Part.SpeciesID sowing/year.Feed.Kind sowing/year.Source.Of sowing/money.Line.Unit sowing/money.Line.Cause
	sowing/money.Rate.Currency sowing/money.Amount.Currency sowing/money.Driver.Cause sowing/money.Comparison.Currency sowing/money.BreakEven.Of`

// TestNoProseInThePlan goes through everything that a plan holds: what is said is said
// by name and figures, and text of the core's own is an id, a key, a unit or a source.
// A field that is new here belongs on the list only if it is none of the core's words.
func TestNoProseInThePlan(t *testing.T) {
	var found []string
	seen := map[reflect.Type]bool{}
	stop := []reflect.Type{reflect.TypeFor[told.Sentence](), reflect.TypeFor[told.Figure](), reflect.TypeFor[time.Time](), reflect.TypeFor[decimal.Decimal]()}
	var walk func(t reflect.Type)
	walk = func(t reflect.Type) {
		switch t.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
			walk(t.Elem())
		case reflect.Struct:
			if seen[t] || slices.Contains(stop, t) {
				return
			}
			seen[t] = true
			for f := range t.Fields() {
				if !f.IsExported() {
					continue
				}
				of := f.Type
				for of.Kind() == reflect.Slice || of.Kind() == reflect.Pointer || of.Kind() == reflect.Map || of.Kind() == reflect.Array {
					of = of.Elem()
				}
				if of == reflect.TypeFor[string]() { // a type of its own is a closed list
					path, _ := strings.CutPrefix(t.PkgPath(), "swardwright/")
					found = append(found, path+"."+t.Name()+"."+f.Name)
				}
				walk(f.Type)
			}
		}
	}
	walk(reflect.TypeFor[sowing.Plan]())
	allowed := strings.Fields(letters)
	for _, f := range found {
		if !slices.Contains(allowed, f) {
			t.Errorf("%s holds text: what the core says is a told.Sentence", f)
		}
	}
	for _, f := range allowed {
		if !slices.Contains(found, f) {
			t.Errorf("%s is no text of a plan any more", f)
		}
	}
}
