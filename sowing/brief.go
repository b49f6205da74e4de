// Package sowing makes the whole plan of a lawn from one brief.
package sowing

import (
	"time"

	"swardwright/internal/told"
	"swardwright/mix"
	"swardwright/mix/record"
	"swardwright/site"
	"swardwright/sowing/job"
	"swardwright/species"
)

// Brief is the content of one brief file.
type Brief struct {
	Title, Client, PreparedBy, Reference string
	Date                                 time.Time // of the plan; zero: none given
	Units                                string    // "metric" or "us"
	Currency                             string    // ISO 4217
	Language                             string    // BCP 47
	Site                                 site.Survey
	Use                                  species.Use
	Stock                                mix.Stock
	Record                               record.Record // what was sown and seen here
	Job                                  Job
	Prices                               map[string]string // overrides of the price list, decimal
	Defaults                             []told.Sentence   // what was left out and what was taken for it
	Variants                             []Variant
}

// Job is the brief's page [job].
type Job struct {
	Kind                          job.Kind
	Method                        string   // "broadcast", "drill", "in dressing"
	CoverPercent                  *float64 // for overseeding: living cover now
	NotBefore, NotAfter, NeededBy *time.Time
	Success                       float64 // share of years a sowing day must succeed in
	Rootzone                      *job.Rootzone
	Found                         job.Found
	AccessM                       *float64 // narrowest way in; nil: unknown
}
