package train

import "math/big"

// A Train is a set of gears in the order in which the banjo is dressed:
// Drivers[0] on the first shaft, a stud for each driven gear and the driver
// behind it, the last of Driven on the last shaft.
type Train struct {
	Drivers []int   // teeth; Drivers[i] turns Driven[i]
	Driven  []int   // teeth; Driven[i] and Drivers[i+1] share a stud
	Idler   int     // teeth of a gear between the two of a simple train that would not reach without it, 0 for none
	Gearbox Ratio   // setting of the lathe's own gearbox, 1 without one
	Ratio   float64 // drivers over driven, times the gearbox
	PPM     float64 // by how much it is greater than the ratio wanted
	Exact   bool    // it is that ratio, and PPM is 0
	Mounts  bool    // it mounts within the limits of the banjo, in this order
	Why     string  // why it does not mount, empty where it does
}

// A Stud carries two gears, keyed together.
type Stud struct{ Driven, Driver int } // teeth

// Studs returns the studs of the banjo from the first driver on, an idler's
// left out.
func (t Train) Studs() []Stud {
	var studs []Stud
	for i := 1; i < len(t.Drivers); i++ {
		studs = append(studs, Stud{t.Driven[i-1], t.Drivers[i]})
	}
	return studs
}

// Teeth is the size of the train by which it is ranked, the sum of its teeth
// without the idler's.
func (t Train) Teeth() int { return sum(t.Drivers) + sum(t.Driven) }

// Reverses reports whether the last shaft turns against the first, gearbox
// apart: it does where an odd number of meshes lies between them, and each
// pair and each idler is a mesh.
func (t Train) Reverses() bool {
	meshes := len(t.Drivers)
	if t.Idler > 0 {
		meshes++
	}
	return meshes%2 == 1
}

// NeedsIdler reports whether one idler more, or the tumbler turned over, is
// needed for the last shaft to turn against the first or, where reverse is
// false, with it.
func (t Train) NeedsIdler(reverse bool) bool { return t.Reverses() != reverse }

// Centres returns the centre distances in mm of gears of that module, mesh by
// mesh from the first shaft on, without play: m·(za + zb)/2.
func (t Train) Centres(module float64) []float64 {
	centre := func(a, b int) float64 { return module * float64(a+b) / 2 }
	if t.Idler > 0 {
		return []float64{centre(t.Drivers[0], t.Idler), centre(t.Idler, t.Driven[0])}
	}
	var all []float64
	for i, a := range t.Drivers {
		all = append(all, centre(a, t.Driven[i]))
	}
	return all
}

// total returns the exact ratio of the train with its gearbox.
func (t Train) total() Ratio {
	return Ratio{big.NewRat(product(t.Drivers), product(t.Driven)), 0}.Mul(t.Gearbox)
}

func product(teeth []int) int64 {
	p := int64(1)
	for _, z := range teeth {
		p *= int64(z)
	}
	return p
}

func sum(teeth []int) int {
	s := 0
	for _, z := range teeth {
		s += z
	}
	return s
}
