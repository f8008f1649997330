package train_test

import (
	"fmt"

	"wormwright/gen/train"
)

// The worm of a turret clock, module 1.5, one start, on a lathe with a screw
// of 8 threads to the inch.
func ExampleFind() {
	want, err := train.ParseRatio("pi*1.5*8/25.4")
	if err != nil {
		panic(err)
	}
	drawer := []int{20, 25, 30, 35, 38, 40, 45, 50, 55, 60, 63, 65, 70, 75, 80, 127}
	r, err := train.Find(drawer, want, train.Options{Best: 3})
	if err != nil {
		panic(err)
	}
	fmt.Println(r.Why)
	for _, t := range r.Trains {
		fmt.Printf("driver %d, studs %v, driven %d: %+.1f ppm, %.2f µm over 60 mm\n",
			t.Drivers[0], t.Studs(), t.Driven[len(t.Driven)-1], t.PPM, train.OverLength(t.PPM, 60))
	}
	// Output:
	// pi is not a fraction, so no train is exact
	// driver 75, studs [{35 60} {55 40}], driven 63: +8.8 ppm, 0.53 µm over 60 mm
	// driver 80, studs [{35 50} {55 45}], driven 63: +8.8 ppm, 0.53 µm over 60 mm
	// driver 80, studs [{55 75} {35 30}], driven 63: +8.8 ppm, 0.53 µm over 60 mm
}

// A work axis with 40 teeth under a motor of 20000 steps a turn and an encoder
// of 4096 counts on the hob.
func ExampleElectronic() {
	want, err := train.ParseRatio("20000/40/4096")
	if err != nil {
		panic(err)
	}
	f, err := train.Electronic(want, 65535)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%d/%d, exact %v\n", f.Over, f.Under, f.Exact)
	// Output: 125/1024, exact true
}
