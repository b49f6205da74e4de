package light_test

import (
	"context"
	"fmt"

	"swardwright/site/light"
)

// A lawn of 8 × 10 m to the north of a house at 57° N. Invented.
func ExampleTrace() {
	scene := light.Scene{
		LatitudeDeg: 57,
		Lawn:        [][]light.Point{{{X: 0, Y: 0}, {X: 8, Y: 0}, {X: 8, Y: 10}, {X: 0, Y: 10}}},
		Obstacles: []light.Obstacle{{
			Name: "house", Kind: light.Gable, HeightM: 7, EavesM: 4.5,
			Footprint: []light.Point{{X: -2, Y: -8}, {X: 10, Y: -8}, {X: 10, Y: -1}, {X: -2, Y: -1}},
		}},
	}
	sky := light.Sky{
		GlobalMJ:     [12]float64{1.6, 3.8, 7.9, 12.9, 17.1, 18.6, 17.3, 13.6, 9.2, 4.9, 2.1, 1.1},
		SeasonWeight: [12]float64{3: 1, 4: 1, 5: 1, 6: 1, 7: 1, 8: 1, 9: 1},
	}
	field, err := light.Trace(context.Background(), scene, sky, light.MostCells)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, z := range field.Zones {
		fmt.Printf("%s: %.0f %% of the lawn, %.0f h, %.0f mol\n", z.Letter, 100*z.Share, z.Light.SunHoursSeason, z.Light.DLISeason)
	}
	// Output:
	// A: 79 % of the lawn, 13 h, 25 mol
	// B: 21 % of the lawn, 7 h, 15 mol
}
