// Package index divides a circle on a dividing head: how far its crank is
// turned over a plate of holes for each tooth, and how far each tooth then
// stands from where it belongs.
//
// A head is a worm and wheel of its own: so many crank turns turn the work
// once. Its plates have circles of evenly spaced holes; sector arms count the
// holes. Four ways are tried, exact ones first:
//
//   - simple: one move over one circle;
//   - compound: two moves over two circles of one plate, the plate turned back
//     with its pin drawn for the second, forward or against the first;
//   - differential: the plate is not held but geared to the work, and the
//     crank is moved for a number of divisions near the wanted one;
//   - nearest: for each tooth the hole that comes nearest, on one circle, so
//     that errors do not add up; the largest of them is told.
//
// Errors are of the work, in radians.
package index

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"

	"wormwright/gen/train"
)

// A Head is a dividing head.
type Head struct {
	Turns  int     // of the crank for one of the work
	Plates [][]int // holes of the circles, by plate
	Gears  []int   // teeth, for differential indexing; none where the plate cannot be geared
}

// A Way is how a division is made.
type Way int

const (
	Simple Way = iota
	Compound
	Differential
	Nearest
)

func (w Way) String() string {
	return [...]string{"simple", "compound", "differential", "nearest"}[w]
}

// A Move turns the crank over a circle of the plate.
type Move struct {
	Turns  int // whole turns
	Holes  int // and so many holes
	Circle int // of so many; 0 where the turns are whole
}

// share is the move as a fraction of a turn.
func (m Move) share() *big.Rat {
	r := big.NewRat(int64(m.Turns), 1)
	if m.Circle > 0 {
		r.Add(r, big.NewRat(int64(m.Holes), int64(m.Circle)))
	}
	return r
}

// A Setting is one way of making a division.
type Setting struct {
	Way    Way
	Plate  int         // which one, from 0
	Crank  Move        // for each division
	Back   Move        // compound: the second move, of plate and crank together
	Same   bool        // compound: the second move goes the same way as the first
	Assume int         // differential: divisions for which the crank is moved
	Gears  train.Train // differential: from the work's spindle to the plate
	Along  bool        // differential: the plate turns the way the crank does
	Error  float64     // nearest: the largest of any tooth
	Uneven float64     // nearest: the largest between neighbours
}

// ErrNone reports a head that has no plate for anything.
var ErrNone = errors.New("no circle of any plate comes near")

// most bounds teeth, circles and turns: beyond are slips of the pen.
const most = 10000

func (h Head) check(divisions int) error {
	switch {
	case divisions < 2 || divisions > most:
		return fmt.Errorf("divisions: want 2 to %d, have %d", most, divisions)
	case h.Turns < 1 || h.Turns > most:
		return fmt.Errorf("crank turns for one of the work: want 1 to %d, have %d", most, h.Turns)
	case len(h.Plates) > 20:
		return fmt.Errorf("plates: want 20 or fewer, have %d", len(h.Plates))
	}
	for _, plate := range h.Plates {
		if len(plate) > 50 {
			return fmt.Errorf("circles of a plate: want 50 or fewer, have %d", len(plate))
		}
		for _, holes := range plate {
			if holes < 2 || holes > most {
				return fmt.Errorf("holes of a circle: want 2 to %d, have %d", most, holes)
			}
		}
	}
	return nil
}

// Find returns the settings for a number of divisions, best first: exact
// before near, simple before compound before differential, and among like
// ones the larger circle, on which a hole missed matters less.
func Find(h Head, divisions int) ([]Setting, error) {
	if err := h.check(divisions); err != nil {
		return nil, err
	}
	wanted := big.NewRat(int64(h.Turns), int64(divisions))
	list := h.simple(wanted)
	if len(list) == 0 {
		list = h.compound(wanted)
		differential, err := h.differential(divisions)
		if err != nil {
			return nil, err
		}
		list = append(list, differential...)
	}
	if len(list) == 0 {
		near, err := h.nearest(divisions)
		if err != nil {
			return nil, err
		}
		list = append(list, near)
	}
	return list, nil
}

// move is the move of a fraction of a turn over a circle, where it falls on a
// hole.
func move(turn *big.Rat, circle int) (Move, bool) {
	holes := new(big.Rat).Mul(turn, big.NewRat(int64(circle), 1))
	if !holes.IsInt() || !holes.Num().IsInt64() {
		return Move{}, false
	}
	n := int(holes.Num().Int64())
	m := Move{Turns: n / circle, Holes: n % circle, Circle: circle}
	if m.Holes == 0 {
		m.Circle = 0
	}
	return m, true
}

// simple finds single moves, on the largest circle of each plate on which
// they fall on a hole.
func (h Head) simple(turn *big.Rat) []Setting {
	if turn.IsInt() {
		return []Setting{{Way: Simple, Crank: Move{Turns: int(turn.Num().Int64())}}}
	}
	var list []Setting
	for i, plate := range h.Plates {
		for _, circle := range plate {
			if m, ok := move(turn, circle); ok {
				list = append(list, Setting{Way: Simple, Plate: i, Crank: m})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Setting) int { return cmp.Compare(b.Crank.Circle, a.Crank.Circle) })
	return list
}

// compound finds two moves over two circles of one plate that together make
// the turn, h1/c1 ± h2/c2. The crank's move is the longer; the least holes
// together come first.
func (h Head) compound(turn *big.Rat) []Setting {
	var list []Setting
	for i, plate := range h.Plates {
		for _, first := range plate {
			for _, second := range plate {
				if first == second {
					continue
				}
				for back := 1; back < second; back++ {
					part := big.NewRat(int64(back), int64(second))
					for _, same := range [...]bool{true, false} {
						rest := new(big.Rat).Sub(turn, part)
						if !same {
							rest.Add(turn, part)
						}
						if rest.Sign() <= 0 || same && rest.Cmp(part) < 0 {
							continue
						}
						if m, ok := move(rest, first); ok && m.Circle > 0 {
							list = append(list, Setting{Way: Compound, Plate: i, Crank: m, Back: Move{Holes: back, Circle: second}, Same: same})
						}
					}
				}
			}
		}
	}
	effort := func(s Setting) int { return s.Crank.Turns*100 + s.Crank.Holes + s.Back.Holes }
	slices.SortStableFunc(list, func(a, b Setting) int { return cmp.Compare(effort(a), effort(b)) })
	return list[:min(len(list), 20)]
}

// differential finds a number near the wanted one that a single move divides
// by, and the gears that make up the difference: for N wanted and T assumed
// the plate turns
//
//	(T − N)·R/T
//
// for one turn of the work, R being the crank's turns for one of the work;
// the same way as the crank where that is positive. Only exact gears count.
func (h Head) differential(divisions int) ([]Setting, error) {
	if len(h.Gears) < 2 {
		return nil, nil
	}
	const near, enough = 12, 5
	var list []Setting
	for off := 1; off <= near && len(list) < enough; off++ {
		for _, assume := range [...]int{divisions + off, divisions - off} {
			if assume < 2 {
				continue
			}
			moves := h.simple(big.NewRat(int64(h.Turns), int64(assume)))
			if len(moves) == 0 {
				continue
			}
			ratio, err := train.NewRatio(big.NewRat(int64(off*h.Turns), int64(assume)), 0)
			if err != nil {
				continue
			}
			found, err := train.Find(h.Gears, ratio, train.Options{Best: 1, Gears: 4})
			if err != nil {
				return nil, err
			}
			if len(found.Trains) == 0 || !found.Trains[0].Exact {
				continue
			}
			s := moves[0]
			s.Way, s.Assume, s.Gears, s.Along = Differential, assume, found.Trains[0], assume > divisions
			list = append(list, s)
		}
	}
	return list, nil
}

// nearest is the circle on which the nearest holes are off least.
func (h Head) nearest(divisions int) (Setting, error) {
	best, found := Setting{Way: Nearest, Error: math.Inf(1)}, false
	for i, plate := range h.Plates {
		for _, circle := range plate {
			s := Setting{Way: Nearest, Plate: i, Crank: Move{Circle: circle}}
			var last float64
			for k := 1; k < divisions; k++ {
				off := h.off(s, divisions, k)
				s.Error = max(s.Error, math.Abs(off))
				s.Uneven = max(s.Uneven, math.Abs(off-last))
				last = off
			}
			s.Uneven = max(s.Uneven, math.Abs(last)) // from the last tooth back to the first
			if s.Error < best.Error-1e-15 {
				best, found = s, true
			}
		}
	}
	if !found {
		return Setting{}, ErrNone
	}
	return best, nil
}

// Place is where the crank stands for tooth k, counted from 0, of a simple or
// nearest setting: whole turns and the hole from the first one.
func (h Head) Place(s Setting, divisions, k int) (turns, hole int) {
	circle := max(s.Crank.Circle, 1)
	n := k * (s.Crank.Turns*circle + s.Crank.Holes)
	if s.Way == Nearest {
		n = (2*k*h.Turns*circle + divisions) / (2 * divisions)
	}
	return n / circle, n % circle
}

// off is by how far tooth k of a nearest setting stands too far on.
func (h Head) off(s Setting, divisions, k int) float64 {
	turns, hole := h.Place(s, divisions, k)
	over := (turns*s.Crank.Circle+hole)*divisions - k*h.Turns*s.Crank.Circle
	return 2 * math.Pi * float64(over) / float64(s.Crank.Circle*h.Turns*divisions)
}

// Total is the turn of the work that a setting makes for each division, as a
// share of a whole turn; of a nearest one it is not told, as no two need be
// alike.
func (h Head) Total(s Setting) *big.Rat {
	turn := s.Crank.share()
	switch s.Way {
	case Nearest:
		return new(big.Rat)
	case Compound:
		if s.Same {
			turn.Add(turn, s.Back.share())
		} else {
			turn.Sub(turn, s.Back.share())
		}
	case Differential:
		// The crank turns by c against the plate, the plate by g for each
		// turn w of the work: w·R = c + sign·g·w.
		g := big.NewRat(1, 1)
		for i := range s.Gears.Drivers {
			g.Mul(g, big.NewRat(int64(s.Gears.Drivers[i]), int64(s.Gears.Driven[i])))
		}
		if !s.Along {
			g.Neg(g)
		}
		turns := big.NewRat(int64(h.Turns), 1)
		return turn.Quo(turn, turns.Sub(turns, g))
	}
	return turn.Quo(turn, big.NewRat(int64(h.Turns), 1))
}
