package sowing

import (
	"sync"

	"swardwright/data"
	"swardwright/mix/practice"
	"swardwright/site/weather"
	"swardwright/sowing/money"
	"swardwright/species"
)

// Tables are the tables a brief is read and planned against.
type Tables struct {
	Species  *species.Table
	Practice *practice.Table
	Stations weather.Stations
	Prices   *money.List
}

// BuiltIn gives the tables that are part of the program, read once.
var BuiltIn = sync.OnceValues(func() (Tables, error) {
	var t Tables
	var err error
	if t.Species, err = species.Load(data.FS); err != nil {
		return Tables{}, err
	}
	if t.Practice, err = practice.Load(data.FS, t.Species); err != nil {
		return Tables{}, err
	}
	if t.Stations, err = weather.LoadStations(data.FS); err != nil {
		return Tables{}, err
	}
	if t.Prices, err = money.LoadList(data.FS, t.Species); err != nil {
		return Tables{}, err
	}
	return t, nil
})
