package geometry

// Trimmed is by how much a radial way in takes more from the flanks than the
// finished space has, at the worst place of a blank, as an arc in mm: away from
// the middle plane a hob of large lead and small pressure angle is wider while
// it still stands off than at full depth. It is 0 where nothing is trimmed.
// The hob comes from the centre distance touch to full.
func (s Space) Trimmed(b Blank, full, touch float64) float64 {
	const planes, radii, places = 12, 10, 12
	var worst float64
	for i := range planes + 1 {
		z := b.Face * (float64(i)/planes - 0.5) // +X at z is −X at −z
		low, high := s.Bottom(full, z), b.Radius(z)
		if !(low < high) {
			continue
		}
		for j := range radii {
			r := low + (high-low)*float64(j+1)/radii
			finished, ok := s.side(full, z, r)
			if !ok {
				continue
			}
			for k := range places {
				share := float64(k+1) / places
				if reached, ok := s.side(full+(touch-full)*share*share, z, r); ok {
					worst = max(worst, (reached-finished)*r)
				}
			}
		}
	}
	return worst
}
