package mesh

import "math"

const turn = 2 * math.Pi

// spread are angles from low to high that are at most step apart.
func spread(low, high, step float64) []float64 {
	n := max(math.Ceil((high-low)/step), 1)
	var list []float64
	for i := 0.0; i < n; i++ {
		list = append(list, low+(high-low)*i/n)
	}
	return append(list, high)
}

// A column is a surface in a half plane that ends in the axis: out to the
// body, along it, and back in. Columns go round the axis, and strips join each
// to the next. Keys of in and out count their points, those of the body are
// places along the axis.
type column struct {
	angle         float64
	step          float64 // by which features of the body move along the axis for a radian
	out, body, in chain
}

// shifted are the keys of the body as seen from angle 0.
func (c column) shifted() chain {
	keys := make([]float64, len(c.body.keys))
	for i, z := range c.body.keys {
		keys[i] = z - c.step*c.angle
	}
	return chain{c.body.points, keys}
}

// turned is the column one turn on.
func (c column) turned() column {
	c.angle += turn
	return c
}

// around adds a point at a radius and a place along the axis.
func (s *Solid) around(angle, r, z float64) int32 {
	sin, cos := math.Sincos(angle)
	return s.point(r*cos, r*sin, z)
}

// line adds the points of a line at an angle.
func (s *Solid) line(angle float64, list []place) chain {
	var c chain
	for _, p := range list {
		c.points, c.keys = append(c.points, s.around(angle, p.y, p.x)), append(c.keys, p.x)
	}
	return c
}

// counted is a chain of points that match those of its neighbours by their
// number.
func counted(points ...int32) chain {
	c := chain{points: points}
	for i := range points {
		c.keys = append(c.keys, float64(i))
	}
	return c
}

// bore leads from where the column ends in a bore to where it begins.
func (c column) bore() chain { return counted(c.in.points[len(c.in.points)-1], c.out.points[0]) }

// between spans the strip from one column to the next.
func (s *Solid) between(a, b column) {
	s.join(a.out, b.out)
	if a.step == b.step {
		s.join(a.shifted(), b.shifted())
	} else {
		s.join(a.body, b.body)
	}
	s.join(a.in, b.in)
}
