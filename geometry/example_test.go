package geometry_test

import (
	"fmt"
	"math"

	"wormwright/geometry"
)

// The tooth space that a hob of module 2 leaves in a wheel of 40 teeth, 5 mm
// from the middle of its face, on the reference circle.
func ExampleSpace() {
	space, err := geometry.NewSpace(geometry.Thread{
		Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 2,
		Reference: 20, Tip: 22.5, Root: 17, Pressure: 20 * math.Pi / 180, Thickness: math.Pi,
	}, 40)
	if err != nil {
		panic(err)
	}
	const distance, plane, radius = 60, 5, 40
	left, right, _ := space.Swept(distance, plane, radius)
	fmt.Printf("from %.6f to %.6f mm of arc\n", left*radius, right*radius)
	// Output:
	// from -1.591741 to 1.101784 mm of arc
}
