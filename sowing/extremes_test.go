package sowing

import (
	"context"
	"math"
	"strings"
	"testing"
)

// same is twelve months of one value.
func same(v string) string { return "[" + strings.Repeat(v+", ", 11) + v + "]" }

// TestExtremes plans sound briefs whose figures stand at the ends of what is
// allowed. A plan comes of each, or an error that says why not.
func TestExtremes(t *testing.T) {
	if testing.Short() {
		t.Skip("plans take a while")
	}
	square := "[lawn]\noutline = [[0, 0], [12, 0], [12, 7], [0, 7]]\n"
	wall := func(footprint string) string {
		return "[[obstacle]]\nkind = \"solid\"\nfootprint = " + footprint + "\nheight_m = 300\n"
	}
	for _, c := range []struct{ name, text string }{
		{"the pole", "[place]\nlatitude = 90\nlongitude = 0\naltitude_m = 6000\n[lawn]\noutline = [[0, 0], [9, 0], [9, 9]]\n"},
		{"half a square metre", "[lawn]\narea_m2 = 0.5\n"},
		{"ten hectares and seed by the pinch", "[lawn]\narea_m2 = 100000\n[[seed_lot]]\nspecies = \"hard-fescue\"\npurity_percent = 10\ngermination_percent = 10\nprice_per_kg = 0\nbag_kg = [0.01]\nkg = 0.01\n"},
		{"a thread of lawn", "[lawn]\noutline = [[0, 0], [1000, 0], [1000, 0.01], [0, 0.01]]\n"},
		{"a shaft", square + wall("[[-2, -2], [14, -2], [14, -1], [-2, -1]]") + wall("[[-2, 8], [14, 8], [14, 9], [-2, 9]]") +
			wall("[[-3, -2], [-2, -2], [-2, 9], [-3, 9]]") + wall("[[14, -2], [15, -2], [15, 9], [14, 9]]")},
		{"a skyline to the zenith", "[lawn]\noutline = [[0, 0], [12, 0], [12, 7]]\nslope_deg = 60\naspect_deg = -360\nhorizon = [[0, 89], [360, 89]]\n"},
		{"no light", "[light]\ndli_mol_m2_d = 0\n"},
		{"sun day and night", "[light]\nsun_hours = 24\n"},
		{"no soil at all", "[ground]\nsand_percent = 0\nclay_percent = 0\norganic_percent = 0\nph = 2.5\npercolation_mm_h = 0\nec_ds_m = 0\ndepth_cm = 0\n"},
		{"peat, brine and lye", "[ground]\nsand_percent = 0\nclay_percent = 100\norganic_percent = 100\nph = 11\npercolation_mm_h = 10000\nec_ds_m = 100\ndepth_cm = 300\n"},
		{"always frozen", "[climate]\nmin_c = " + same("-70") + "\nmax_c = " + same("-60") + "\nrain_mm = " + same("0") + "\nwet_days = " + same("0") + "\n"},
		{"always hot", "[climate]\nmin_c = " + same("45") + "\nmax_c = " + same("50") + "\nrain_mm = " + same("2000") + "\nwet_days = " + same("28") + "\nsun_h = " + same("0") + "\n"},
		{"never mown, never fed, heavily used", "[use]\ngrade = \"hard-wearing\"\ntraffic = \"heavy\"\nmowing_mm = 300\nmows_per_week = 0\nnitrogen_g_m2 = 0\nlivestock = true\n"},
		{"two days to sow in", "[job]\nnot_before = 2027-12-31\nnot_after = 2028-01-01\nneeded_by = 2028-01-01\nsuccess = 0.5\n"},
		{"nothing left to overseed", "[job]\nkind = \"overseed\"\ncover_percent = 0\nrootzone = { depth_cm = 100, sand_percent = 0, soil_percent = 100 }\n"},
		{"prices beyond price", "[lawn]\narea_m2 = 100000\n[prices]\nlabour_per_hour = 1000000000\nturf_per_m2 = 1000000000\ntax_percent = 100\nmargin_percent = 100\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := faultCase{text: c.text}.brief()
			b, err := ReadBrief("", []byte(text), noFile)
			if err != nil {
				t.Fatalf("%v\n%s", err, text)
			}
			p, err := NewPlan(context.Background(), builtIn(t), b)
			if err != nil {
				if strings.TrimSpace(err.Error()) == "" {
					t.Error("an error without words")
				}
				return
			}
			if len(p.Headline) == 0 || p.Advice == "" {
				t.Errorf("no answer: %v, %q", p.Headline, p.Advice)
			}
			if m := p.Mixture; m != nil {
				sum := 0
				for _, x := range m.Components {
					sum += x.Percent
				}
				if sum != 100 || !(m.CoverExpected >= 0 && m.CoverExpected <= 1) || len(p.Sown) > 0 && !(p.Rate.GM2 > 0) || math.IsInf(p.Rate.GM2, 0) {
					t.Errorf("shares add to %d, cover %v, rate %v", sum, m.CoverExpected, p.Rate.GM2)
				}
			}
		})
	}
}
