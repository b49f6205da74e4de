package sward

import "slices"

// Together are the fates of a lawn whose parts are sown with sowings of their own: of each
// those on its zones, and its share of what is sown.
func Together(parts []Fates, shares []float64) Fates {
	first := &parts[0]
	lawns, zones := len(first.Cover), len(first.Zone)
	f := Fates{Cover: make([]float64, lawns), Season: make([]float64, len(first.Season)), Early: make([]float64, lawns), Zone: grid(zones, lawns)}
	for i := range parts {
		f.Grass = append(f.Grass, parts[i].Grass...)
	}
	slices.Sort(f.Grass)
	f.Grass = slices.Compact(f.Grass)
	n := len(f.Grass)
	for t := range f.Parts {
		f.Parts[t] = make([]float64, lawns*n)
	}
	add := func(to, of []float64, share float64) {
		for i, x := range of {
			to[i] += share * x
		}
	}
	for i := range parts {
		p, share := &parts[i], shares[i]
		add(f.Cover, p.Cover, share)
		add(f.Season, p.Season, share)
		add(f.Early, p.Early, share)
		for z := range zones {
			add(f.Zone[z], p.Zone[z], 1) // zero where the part isn't
		}
		for t := range f.Parts {
			for k, g := range p.Grass {
				at := slices.Index(f.Grass, g)
				for lawn := range lawns {
					f.Parts[t][lawn*n+at] += share * p.Parts[t][lawn*len(p.Grass)+k]
				}
			}
			f.Weeds[t] += share * p.Weeds[t]
			f.Moss[t] += share * p.Moss[t]
		}
	}
	return f
}
