package species_test

import (
	"fmt"

	"swardwright/data"
	"swardwright/species"
)

func ExampleTable_Find() {
	table, err := species.Load(data.FS)
	if err != nil {
		panic(err)
	}
	grass, _ := table.Find("kentucky bluegrass")
	v := grass.Values[species.LT50C]
	fmt.Println(grass.Botanical, "–", grass.Common("en-GB"), "–", grass.Common("de"))
	fmt.Printf("%s: %g %s, %g to %g (%s)\n", species.LT50C.Title(), v.Best, species.LT50C.Unit(), v.Low, v.High, v.Basis)
	fmt.Println(table.Suggest("perenial ryegras")[0])
	// Output:
	// Poa pratensis – smooth-stalked meadow-grass – Wiesenrispe
	// hardiness to frost: -23 °C, -30 to -20 (near)
	// perennial ryegrass
}

func ExampleSquareRoot() {
	// Ratings of 95, 85, 60, 100 and 90 of 100: the worst is 60.
	index := species.SquareRoot([]float64{0.95, 0.85, 0.60, 1.00, 0.90})
	fmt.Printf("%.3f %s\n", index, species.ClassOf(index))
	// Output: 0.511 S2
}
