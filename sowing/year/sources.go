package year

// sources of the calendar's figures, for the plan's last page. What is not named
// here is common practice, no published source.
var sources = []Source{
	{"mowing", "one-third rule, Cornell University; cuts a year, care4GREEN (Austria)"},
	{"nitrogen", "growth potential, W. Gelernter and L. Stowell, Golf Course Management 2005, and M. Woods; in shade, University of Arizona, Turf Tips VI(8), 1999, and Purdue University 2017; where summers are hot, Kansas State Research and Extension, and University of Arkansas Extension 2014; most in one go, University of California IPM"},
	{"young grass", "New Brunswick Department of Agriculture, Agdex 273.21 (second feed); Parkland County (height of the first cut); City of Calgary (no scarifying)"},
	{"watering", "City of Regina, Seed your lawn (seed); Nursery Sod Growers Association of Ontario (turf); University of Saskatchewan and City of Yorkton (standing lawns)"},
	{"top dressing", "City of Regina, Topdressing"},
}
