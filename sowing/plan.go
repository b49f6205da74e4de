package sowing

import (
	"time"

	"swardwright/mix"
	"swardwright/site"
	"swardwright/sowing/bed"
	"swardwright/sowing/dates"
	"swardwright/sowing/money"
	"swardwright/sowing/order"
	"swardwright/sowing/rate"
	"swardwright/sowing/year"
	"swardwright/species"
)

// Advice is the answer in one word or two.
type Advice string

// The answers.
const (
	AdviseSow      Advice = "sow"
	AdviseOverseed Advice = "overseed"
	AdviseTurf     Advice = "lay turf"
	AdviseNoGrass  Advice = "no grass"
)

// Plan is the whole plan of one lawn. Reports show it and compute nothing.
type Plan struct {
	Brief  Brief
	Date   time.Time
	Site   *site.Conditions
	Matrix species.Matrix
	Choice mix.Choice
	Rate   rate.Rate
	Order  order.Order
	Dates  dates.Dates
	Bed    bed.Bed
	Year   year.Calendar
	Cost   money.Comparison

	Advice      Advice
	Headline    string // the answer in one or two sentences
	Cautions    []string
	Assumptions []string
	Sources     []string
}
