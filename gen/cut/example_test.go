package cut_test

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
)

// One round of the work at full depth, in step with the hob and, by mistake,
// with one tooth too few.
func ExampleRun() {
	setup := cut.Setup{
		Hob: geometry.Hob{
			Thread: geometry.Thread{
				Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 2,
				Reference: 20, Tip: 22.5, Root: 17, Pressure: 20 * math.Pi / 180, Thickness: math.Pi,
			},
			Addendum: 2.5, Gashes: 10,
		},
		Blank: geometry.Blank{Face: 20, Outside: 42}, Teeth: 40,
		Grid: geometry.Grid{Planes: []float64{0}, Radii: []float64{40}},
	}
	for _, turns := range []float64{40, 39} { // of the hob to one of the work
		at := gen.Place{Distance: 60}
		wheel, err := cut.Run(setup, gen.Motion{
			{Place: at}, {Place: at, Seconds: 60, Hob: turns, Work: 1},
		}, nil)
		if err != nil {
			panic(err)
		}
		left, right, _ := wheel.Swept(20, 0, 0)
		fmt.Printf("%v hob turns: space 20 is %.2f mm wide\n", turns, (right-left)*40)
	}
	// Output:
	// 40 hob turns: space 20 is 3.14 mm wide
	// 39 hob turns: space 20 is 9.21 mm wide
}
