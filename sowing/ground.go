package sowing

import (
	"swardwright/mix"
	"swardwright/site"
	"swardwright/sowing/bed"
	"swardwright/sowing/job"
)

// prepare is the ground as a kind of job will leave it.
func prepare(b Brief, found *site.Conditions, kind job.Kind) (*site.Conditions, error) {
	return site.Prepare(found, bed.WorksOf(groundInput(b, found, kind)))
}

// groundInput is the ground to be prepared, whatever comes into it, for the standard of the brief.
func groundInput(b Brief, found *site.Conditions, kind job.Kind) bed.Input {
	in := bed.Input{
		Site: found, Use: b.Use, Kind: kind, Old: kind == job.New && b.Job.Found.Sward(), Moss: b.Job.Found == job.Moss,
		Method: b.Job.Method, Rootzone: b.Job.Rootzone, AccessM: b.Job.AccessM,
	}
	if kind == job.New && b.Job.Found.Surfaced() {
		in.Surface = b.Job.Found
	}
	if b.Job.CoverPercent != nil {
		in.Cover = *b.Job.CoverPercent / 100
	}
	in.Weeds = b.weeds()
	return in
}

// bedInput is the ground to be prepared for seed on some zones and turf on others.
func bedInput(b Brief, found *site.Conditions, c mix.Choice, kind job.Kind, sown, laid []job.Zone) bed.Input {
	in := groundInput(b, found, kind)
	in.Sown, in.Laid = sown, laid
	if c.Mixture != nil {
		in.Parts = c.Mixture.Parts()
	}
	return in
}
