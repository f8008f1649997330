package geometry

// A Hand is the sense in which a thread winds.
type Hand int

const (
	Right Hand = +1
	Left  Hand = -1
)

// Sign is +1 for right hand and −1 for left hand, h in the formulas.
func (h Hand) Sign() float64 { return float64(h) }

// Opposite is the other hand.
func (h Hand) Opposite() Hand { return -h }

func (h Hand) String() string {
	if h == Left {
		return "left"
	}
	return "right"
}
