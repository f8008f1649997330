package proof

import (
	"math"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/geometry"
)

// A comparison sets a wheel as run beside the wheel as meant, and that beside
// the exact flank, on one grid.
type comparison struct {
	setup      cut.Setup
	module     float64 // mm
	same       float64 // by how much two cuts of the same motion may differ, mm
	have, want *cut.Wheel
	exact      [][]geometry.Width

	short, gouged int // spaces with less and with more taken than meant
	worst         int // space that is off most
}

// follow works out the space that an endlessly gashed hob leaves when it is
// fed as the plan says.
func (c *comparison) follow(p *gen.Plan) error {
	swept, err := p.Swept(c.setup.Swivel, p.Cycle.Full)
	if err != nil {
		return err
	}
	c.exact = c.setup.Widths(swept)
	return nil
}

// A tally gathers how far one space is off, mm.
type tally struct {
	off     float64 // the most: positive, less is taken than meant
	squares float64
	count   int
	facet   float64 // of the meant space against the exact one
}

func (t *tally) add(d float64) {
	t.squares += d * d
	t.count++
	if math.Abs(d) > math.Abs(t.off) {
		t.off = d
	}
}

// wheel compares all spaces.
func (c *comparison) wheel() Wheel {
	w := Wheel{Spaces: c.setup.Teeth, Root: math.Inf(1)}
	middle := 0
	for i, z := range c.setup.Planes {
		if math.Abs(z) < math.Abs(c.setup.Planes[middle]) {
			middle = i
		}
	}
	var all tally
	for space := range c.setup.Teeth {
		t := c.space(space)
		switch {
		case math.Abs(t.off) <= c.same:
			w.Complete++
		case t.off > 0:
			c.short++
		default:
			c.gouged++
		}
		if math.Abs(t.off) > w.Max {
			w.Max, c.worst = math.Abs(t.off), space
		}
		w.Facet = max(w.Facet, t.facet)
		all.squares += t.squares
		all.count += t.count
		w.Removed += c.have.Volume(space) / float64(c.setup.Teeth)
		w.Root = min(w.Root, c.have.Bottom(space, middle))
	}
	if all.count > 0 {
		w.RMS = math.Sqrt(all.squares / float64(all.count))
	}
	if math.IsInf(w.Root, 1) {
		w.Root = 0 // nothing is cut
	}
	return w
}

// space compares one space: its depth in every plane, and its two sides at
// every radius.
func (c *comparison) space(k int) tally {
	var t tally
	for plane := range c.setup.Planes {
		bottom := c.want.Bottom(k, plane)
		t.add(gapBetween(c.have.Bottom(k, plane), bottom))
		for i, r := range c.setup.Radii {
			have, want := widthOf(c.have, k, plane, i), widthOf(c.want, k, plane, i)
			switch {
			case have.OK && want.OK && r > bottom+beyond*c.module:
				t.add((have.Left - want.Left) * r)
				t.add((want.Right - have.Right) * r)
			case have.OK && !want.OK:
				t.add(-(have.Right - have.Left) * r / 2)
			case want.OK && !have.OK:
				t.add((want.Right - want.Left) * r / 2)
			}
			if e := c.exact[plane][i]; want.OK && e.OK && r > bottom+fillet*c.module {
				t.facet = max(t.facet, math.Abs(want.Left-e.Left)*r, math.Abs(e.Right-want.Right)*r)
			}
		}
	}
	return t
}

func widthOf(w *cut.Wheel, space, plane, radius int) (width geometry.Width) {
	width.Left, width.Right, width.OK = w.Swept(space, plane, radius)
	return width
}

const (
	// beyond is how far above its bottom, in modules, a space is compared:
	// there its width goes with the root of the height, and nothing that
	// can be seen tells two widths apart.
	beyond = 0.05
	// unfinished is what no facet of a hob's gashes reaches, in modules.
	unfinished = 0.02
	// fillet is how far above the bottom the fillet of tip corners reaches.
	fillet = 0.5
)

// gapBetween is by how much less deep one bottom is than another; beyond the
// wheel it is 0.
func gapBetween(have, want float64) float64 {
	switch {
	case math.IsInf(have, 1) && math.IsInf(want, 1):
		return 0
	case math.IsInf(have, 1):
		return 1
	case math.IsInf(want, 1):
		return -1
	}
	return have - want
}
