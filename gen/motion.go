package gen

// A Place is where the hob stands against the wheel, in the frames of
// package geometry, mm.
type Place struct {
	Distance   float64 // radial: centre distance E of hob and wheel
	Tangential float64 // shift of the hob along its own axis, s
	Axial      float64 // shift of the hob along the wheel's axis
}

// A Way is one of the three directions of a [Place].
type Way int

const (
	Radially     Way = iota
	Tangentially     // along the hob's axis
	Axially          // along the wheel's axis
)

func (w Way) String() string { return [...]string{"radial", "tangential", "axial"}[w] }

// Along is the coordinate of a place in one direction.
func (at *Place) Along(w Way) *float64 {
	return [...]*float64{&at.Distance, &at.Tangential, &at.Axial}[w]
}

// A Knot is the state of the machine at one moment.
type Knot struct {
	Seconds float64 // since the beginning
	Hob     float64 // turns of the hob about +X, ψ/2π
	Work    float64 // turns of the work about +Z, θ/2π
	Place
	Rapid bool // the stretch that ends here is a rapid move
	Pause bool // the program waits for a person here
	Line  int  // line of the program that ends here, 0 for none
}

// A Motion is what hob and work do against time: straight lines between its
// knots. The hob's and the work's turns count from the moment when tooth 0 of
// gash 0 stands on the line of centres.
type Motion []Knot
