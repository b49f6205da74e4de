package sowing

import (
	"swardwright/site"
	"swardwright/sowing/dates"
	"swardwright/sowing/year"
)

// kit is what a lawn is planned with: the tables, and what was worked out already for it, for
// its ways, its lifts and its variants, so that nothing is worked out twice. It is not for
// several goroutines at once.
type kit struct {
	Tables
	site    *site.Known
	grounds *dates.Grounds
	growth  *year.Growth
}

func kitOf(t Tables) kit { return kit{t, new(site.Known), new(dates.Grounds), new(year.Growth)} }

// beside is the kit for what is planned beside a lawn: what that adds isn't kept.
func (k kit) beside() kit {
	return kit{k.Tables, k.site.Beside(), k.grounds.Beside(), k.growth.Beside()}
}
