package site

import (
	"context"
	"maps"
	"reflect"
	"slices"

	"swardwright/site/light"
	"swardwright/site/weather"
)

// Known keeps what was worked out for one lawn, by what it depends on: synthetic years, light,
// and what ground in some light meets in them. Conditions that share it work out once what they
// have alike, as a lawn, its ground prepared in several ways and its variants do. The zero value
// knows nothing, nil keeps nothing. It is not for several goroutines at once.
type Known struct {
	series []knownSeries
	fields []knownField
	met    map[place]met
	lit    map[lighting]*weather.Days // any ground's
	first  map[place][]weather.Year
}

// Beside is what is known, for what is planned beside a lawn: what that adds isn't kept with it.
func (k *Known) Beside() *Known {
	return &Known{slices.Clip(k.series), slices.Clip(k.fields), maps.Clone(k.met), maps.Clone(k.lit), maps.Clone(k.first)}
}

type knownSeries struct {
	normals  weather.Normals
	globalMJ [12]float64
	years    int
	seed     uint64
	*weather.Series
}

type knownField struct {
	of lit
	light.Field
}

// lit is what the light of a lawn depends on.
type lit struct {
	scene  light.Scene
	seen   light.Seen
	sky    light.Sky
	areaM2 float64
	most   int
}

// place is what ground meets, which its weather and its exposure settle.
type place struct {
	series   *weather.Series
	exposure weather.Exposure
}

// lighting is what the days of all ground in one light have in common.
type lighting struct {
	series    *weather.Series
	openShare [12]float64
}

type met struct {
	days  *weather.Days
	years []weather.Year
}

// years are the synthetic years of normals.
func (k *Known) years(n weather.Normals, globalMJ [12]float64, years int, seed uint64) *weather.Series {
	if k == nil {
		return weather.Generate(n, globalMJ, years, seed)
	}
	for _, s := range k.series {
		if s.years == years && s.seed == seed && s.globalMJ == globalMJ && reflect.DeepEqual(s.normals, n) {
			return s.Series
		}
	}
	s := weather.Generate(n, globalMJ, years, seed)
	k.series = append(k.series, knownSeries{n, globalMJ, years, seed, s})
	return s
}

// light is that of a lawn.
func (k *Known) light(ctx context.Context, s Survey, n weather.Normals, sky light.Sky, most int) (light.Field, error) {
	if k == nil {
		return s.LightWithin(ctx, n, sky, most)
	}
	of := lit{s.Scene(n), s.Light, sky, s.Lawn.AreaM2, most}
	for _, f := range k.fields {
		if reflect.DeepEqual(f.of, of) {
			return f.Field, nil
		}
	}
	f, err := s.LightWithin(ctx, n, sky, most)
	if err == nil {
		k.fields = append(k.fields, knownField{of, f})
	}
	return f, err
}

// meets is what ground of an exposure meets, day by day and year by year.
func (k *Known) meets(s *weather.Series, e weather.Exposure) met {
	if k == nil {
		return metBy(s.Exposed(e))
	}
	at, light := place{s, e}, lighting{s, e.OpenShare}
	if m, ok := k.met[at]; ok {
		return m
	}
	if k.met == nil {
		k.met, k.lit = map[place]met{}, map[lighting]*weather.Days{}
	}
	var m met
	if like := k.lit[light]; like != nil {
		m = metBy(like.On(e))
	} else {
		m = metBy(s.Exposed(e))
		k.lit[light] = m.days
	}
	k.met[at] = m
	return m
}

func metBy(d *weather.Days) met { return met{d, d.Seasons()} }

// meetsOn is the same of ground in the light of some days.
func (k *Known) meetsOn(d *weather.Days, e weather.Exposure) met {
	if k == nil {
		return metBy(d.On(e))
	}
	return k.meets(d.Series, e)
}

// firstYears are the years alone of ground in the light of some days.
func (k *Known) firstYears(d *weather.Days, e weather.Exposure) []weather.Year {
	if k == nil {
		return d.On(e).Seasons()
	}
	at := place{d.Series, e}
	if m, ok := k.met[at]; ok {
		return m.years
	}
	if y, ok := k.first[at]; ok {
		return y
	}
	y := d.On(e).Seasons()
	if k.first == nil {
		k.first = map[place][]weather.Year{}
	}
	k.first[at] = y
	return y
}
