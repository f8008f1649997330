package geometry

import "math"

// FormDifference is by how much the flanks of two threads part over the
// height that a worm uses, in the axial section, when they are laid on each
// other at their reference cylinders, in mm. height is the worm's addendum;
// the flanks are compared as far below the reference cylinder.
func FormDifference(a, b Thread, height float64) (float64, error) {
	fa, err := a.Profile()
	if err != nil {
		return 0, err
	}
	fb, err := b.Profile()
	if err != nil {
		return 0, err
	}
	const points = 64
	offset := fa(a.Reference) - fb(b.Reference)
	var most float64
	for i := range points + 1 {
		h := height * (2*float64(i)/points - 1)
		most = max(most, math.Abs(fa(a.Reference+h)-fb(b.Reference+h)-offset))
	}
	return most, nil
}
