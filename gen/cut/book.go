package cut

import "sort"

// A book keeps the area that one plane has lost by each of the times of a
// setup.
type book struct {
	times   []float64 // s, ascending
	removed []float64 // by each of the times that are past, mm²

	taken   float64   // in all spaces together, as far as booked
	booked  []float64 // of each space
	changed []int     // spaces that were cut since
	noted   []bool    // tells which those are
	strips  strips
}

func newBook(s *Setup) book {
	return book{times: s.Times, booked: make([]float64, s.Teeth), noted: make([]bool, s.Teeth)}
}

// note remembers that space k was cut.
func (b *book) note(k int) {
	if !b.noted[k] {
		b.noted[k] = true
		b.changed = append(b.changed, k)
	}
}

// close books what the layer had lost by the times before a moment.
func (b *book) close(l *layer, seconds float64) {
	for len(b.removed) < len(b.times) && b.times[len(b.removed)] < seconds {
		for _, k := range b.changed {
			// Nothing is put back: an area that falls is a matter of the
			// rule by which it is summed.
			if area := l.area(k, &b.strips); area > b.booked[k] {
				b.taken += area - b.booked[k]
				b.booked[k] = area
			}
			b.noted[k] = false
		}
		b.changed = b.changed[:0]
		b.removed = append(b.removed, b.taken)
	}
}

// asked tells whether any of the times lies between two moments.
func (b *book) asked(from, to float64) bool {
	i := sort.SearchFloat64s(b.times, from)
	return i < len(b.times) && b.times[i] < to
}
