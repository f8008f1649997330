package train

import (
	"errors"
	"math"
	"math/big"
	"slices"
)

// A search keeps the best trains that it has seen.
//
// For each choice of drivers, of product A, and each gearbox setting the
// ratio w that is left to the gears names the product A/w that the driven
// gears should have. The choices of driven gears stand sorted by product B,
// and the error |A/(B·w) − 1| grows with the distance of B from A/w on either
// side. So the search walks outward from there, both ways, and stops where the
// error exceeds that of the worst train kept, once as many are kept as were
// asked for: all beyond is worse still. Nothing else is left out but what the
// drawer does not hold and what does not mount, so the list is complete. The
// floats that it walks by are given the benefit of their rounding by [slack].
type search struct {
	finder
	most    int // trains to keep
	mounted bool
	targets []target
	partner []uint64 // bit j of partner[i]: teeth i and j may stand in mesh

	kept  []pick // from the best down
	tries int    // of mounting a train
}

// mostTries keeps the longest search to some seconds. A drawer of 24 gears
// has under 3 million trains, and few of them are tried where many mount.
const mostTries = 50e6

var errNarrow = errors.New("so few trains mount that the search takes too long: want fewer gears in the drawer, fewer settings of the gearbox or a wider banjo")

// A target is the ratio that is left to the gears by a gearbox setting.
type target struct {
	setting int // place in the list
	exact   *big.Rat
	near    float64
}

// A pick is a train as the search sees it.
type pick struct {
	n               int // pairs
	drivers, driven *side
	target          *target
	off             float64 // its error over the ratio, |A/(B·w) − 1|, to within the rounding
}

// slack is above the difference by which rounding can put the errors of two
// picks into the wrong order. The ratio, the product with it, the quotient and
// the difference are each rounded by up to 2^-53 of their value, and none is
// greater than 1 + off.
func slack(a, b pick) float64 { return 0x1p-50 * (2 + a.off + b.off) }

func (f finder) search(most int, mounted bool) *search {
	s := &search{finder: f, most: most, mounted: mounted}
	for i, g := range f.gearbox {
		t := target{setting: i, exact: f.want.Quo(g).value()}
		t.near, _ = t.exact.Float64()
		if !slices.ContainsFunc(s.targets, func(o target) bool { return o.exact.Cmp(t.exact) == 0 }) {
			s.targets = append(s.targets, t)
		}
	}
	for _, a := range f.teeth {
		var set uint64
		for j, b := range f.teeth {
			if f.meshes(a, b) {
				set |= 1 << j
			}
		}
		s.partner = append(s.partner, set)
	}
	return s
}

// pairs goes through all trains of n pairs.
func (s *search) pairs(n int) error {
	sides := s.sides(n)
	if s.mounted {
		sides = slices.DeleteFunc(sides, func(a side) bool { return !s.canMesh(n, &a, math.MaxUint64) })
	}
	for i := range sides {
		a := &sides[i]
		if s.tries > mostTries {
			return errNarrow
		}
		if s.mounted && len(s.targets) > 1 && !s.hopeful(n, a, sides) {
			continue
		}
		for t := range s.targets {
			target := &s.targets[t]
			ideal := float64(a.product) / target.near
			at, _ := slices.BinarySearchFunc(sides, ideal, func(b side, ideal float64) int {
				if float64(b.product) < ideal {
					return -1
				}
				return 1
			})
			for j := at; j < len(sides) && s.offer(n, a, &sides[j], target); j++ {
			}
			for j := at - 1; j >= 0 && s.offer(n, a, &sides[j], target); j-- {
			}
		}
	}
	return nil
}

// hopeful reports whether drivers mount with any driven gears. It saves going
// through all of them in vain for each of many gearbox settings.
func (s *search) hopeful(n int, a *side, sides []side) bool {
	for i := range sides {
		if b := &sides[i]; s.both(n, a, b) && s.mountable(pick{n: n, drivers: a, driven: b}) {
			return true
		}
	}
	return false
}

// offer keeps the train if it is one of the best so far. It reports whether
// another one with a greater error could be.
func (s *search) offer(n int, a, b *side, t *target) bool {
	p := pick{n, a, b, t, math.Abs(float64(a.product)/(float64(b.product)*t.near) - 1)}
	full := len(s.kept) == s.most
	if full {
		worst := s.kept[s.most-1]
		if p.off > worst.off+slack(p, worst) {
			return false
		}
	}
	if !s.both(n, a, b) || full && compare(p, s.kept[s.most-1]) >= 0 || s.mounted && !s.mountable(p) {
		return true
	}
	if full {
		s.kept = s.kept[:s.most-1]
	}
	at, _ := slices.BinarySearchFunc(s.kept, p, compare)
	s.kept = slices.Insert(s.kept, at, p)
	return true
}

// compare ranks two trains, as [Find] says.
func compare(p, q pick) int {
	if c := compareError(p, q); c != 0 {
		return c
	}
	if c := p.drivers.sum + p.driven.sum - q.drivers.sum - q.driven.sum; c != 0 {
		return c
	}
	// Places in the drawer order as the teeth do.
	if c := slices.Compare(p.drivers.gears[:p.n], q.drivers.gears[:q.n]); c != 0 {
		return c
	}
	if c := slices.Compare(p.driven.gears[:p.n], q.driven.gears[:q.n]); c != 0 {
		return c
	}
	return p.target.setting - q.target.setting
}

func compareError(p, q pick) int {
	if p.target == q.target && p.drivers.product*q.driven.product == q.drivers.product*p.driven.product {
		return 0
	}
	switch d := slack(p, q); {
	case p.off < q.off-d:
		return -1
	case p.off > q.off+d:
		return 1
	}
	return p.error().Cmp(q.error())
}

// error returns the exact error over the ratio.
func (p pick) error() *big.Rat {
	off := big.NewRat(p.drivers.product, p.driven.product)
	off.Quo(off, p.target.exact)
	return off.Abs(off.Sub(off, big.NewRat(1, 1)))
}

// mountable reports whether the train mounts in any order.
func (s *search) mountable(p pick) bool {
	s.tries++
	o := s.order(p)
	if p.n == 1 {
		return s.mounts(&o) || s.bridges(&o, s.spare(p), s.teeth)
	}
	return s.canMesh(p.n, p.drivers, p.driven.set) && s.reaches(&o) && s.hasMiddle(&o) && s.arrange(&o, 0, nil)
}

// canMesh reports whether each gear of a side may stand in mesh with some gear
// of a set.
func (s *search) canMesh(n int, a *side, set uint64) bool {
	for _, g := range a.gears[:n] {
		if s.partner[g]&set == 0 {
			return false
		}
	}
	return true
}

// order returns the gears of a train, each side from the smallest up.
func (s stock) order(p pick) order {
	o := order{n: p.n}
	for i := range p.n {
		o.a[i] = s.teeth[p.drivers.gears[i]]
		o.b[i] = s.teeth[p.driven.gears[i]]
	}
	return o
}

// spare returns a function that reports whether the drawer has a gear of those
// teeth left beside the train.
func (s stock) spare(p pick) func(teeth int) bool {
	return func(teeth int) bool {
		o := s.order(p)
		left := 0
		for i, z := range s.teeth {
			if z == teeth {
				left = s.copies[i]
			}
		}
		for i := range p.n {
			if o.a[i] == teeth {
				left--
			}
			if o.b[i] == teeth {
				left--
			}
		}
		return left > 0
	}
}
