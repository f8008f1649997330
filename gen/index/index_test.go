package index

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// The plates that most heads of 40 turns come with: common practice, no
// source.
var usual = [][]int{
	{15, 16, 17, 18, 19, 20},
	{21, 23, 27, 29, 31, 33},
	{37, 39, 41, 43, 47, 49},
}

// Change gears that most such heads come with: common practice, no source.
var gears = []int{24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100}

func TestPublished(t *testing.T) {
	for _, tt := range []struct {
		divisions int
		plates    [][]int
		gears     []int
		want      func(s Setting) bool
		what      string
	}{
		// Simple indexing, by hand: 40/28 = 1 3/7, 9 holes of 21 or 21 of 49.
		{28, usual, nil, func(s Setting) bool { return s.Way == Simple && s.Crank == Move{1, 21, 49} }, "1 turn and 21 holes of 49"},
		{40, usual, nil, func(s Setting) bool { return s.Way == Simple && s.Crank == Move{1, 0, 0} }, "1 turn"},
		// Compound indexing (textbook examples, from memory): 69 by 21/23 −
		// 11/33, 77 by 9/21 + 3/33.
		{69, usual[1:2], nil, func(s Setting) bool {
			return s.Way == Compound && s.Crank == Move{0, 21, 23} && s.Back == Move{0, 11, 33} && !s.Same
		}, "21/23 - 11/33"},
		{77, usual[1:2], nil, func(s Setting) bool {
			return s.Way == Compound && s.Crank == Move{0, 9, 21} && s.Back == Move{0, 3, 33} && s.Same
		}, "9/21 + 3/33"},
		// Differential indexing, by hand from (T − N)·40/T: 127 as 120 wants
		// 7/3 the other way, which 56/24 gives; 97 as 100 wants 6/5, 48/40.
		{127, usual, gears, func(s Setting) bool {
			return s.Way == Differential && s.Assume == 120 && !s.Along && ratio(s) == "7/3"
		}, "as 120 by 7/3"},
		{97, usual, gears, func(s Setting) bool {
			return s.Way == Differential && s.Assume == 100 && s.Along && ratio(s) == "6/5"
		}, "as 100 by 6/5"},
	} {
		list, err := Find(Head{40, tt.plates, tt.gears}, tt.divisions)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, s := range list {
			found = found || tt.want(s)
		}
		if !found {
			t.Errorf("%d divisions: %+v, want %s among them", tt.divisions, list, tt.what)
		}
	}
}

func ratio(s Setting) string {
	r := big.NewRat(1, 1)
	for i := range s.Gears.Drivers {
		r.Mul(r, big.NewRat(int64(s.Gears.Drivers[i]), int64(s.Gears.Driven[i])))
	}
	return r.RatString()
}

// Every setting that is not called nearest divides the circle exactly; the
// nearest one is off by the error it tells, and no single move is nearer.
func TestDivides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Head{Turns: rapid.SampledFrom([]int{40, 60, 90}).Draw(t, "turns"), Plates: usual}
		if rapid.Bool().Draw(t, "geared") {
			h.Gears = gears
		}
		n := rapid.IntRange(2, 400).Draw(t, "divisions")
		list, err := Find(h, n)
		if err != nil || len(list) == 0 {
			t.Fatalf("%d divisions: %v, %v", n, list, err)
		}
		want := big.NewRat(1, int64(n))
		for _, s := range list {
			got := h.Total(s)
			if s.Way != Nearest {
				if got.Cmp(want) != 0 {
					t.Fatalf("%d divisions, %s: the work turns by %s, %+v", n, s.Way, got.RatString(), s)
				}
				continue
			}
			// By the holes themselves: no other hole of any circle's is nearer
			// than the largest error to each tooth.
			var most float64
			for k := range n {
				turns, hole := h.Place(s, n, k)
				at := (float64(turns) + float64(hole)/float64(s.Crank.Circle)) / float64(h.Turns)
				most = max(most, math.Abs(at-float64(k)/float64(n))*2*math.Pi)
			}
			if math.Abs(most-s.Error) > 1e-12 || most == 0 || s.Error > math.Pi/float64(h.Turns*s.Crank.Circle)+1e-12 {
				t.Fatalf("%d divisions: off by %g, told %g, half a hole is %g", n, most, s.Error, math.Pi/float64(h.Turns*s.Crank.Circle))
			}
			if s.Uneven > 2*s.Error+1e-12 || s.Uneven < s.Error-1e-12 {
				t.Fatalf("%d divisions: neighbours off by %g, a tooth by %g", n, s.Uneven, s.Error)
			}
		}
	})
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		head      Head
		divisions int
	}{
		{Head{0, usual, nil}, 40},
		{Head{40, usual, nil}, 1},
		{Head{40, [][]int{{0}}, nil}, 41},
		{Head{40, nil, nil}, 41},
	} {
		if list, err := Find(tt.head, tt.divisions); err == nil {
			t.Errorf("%+v, %d divisions: %v, want an error", tt.head, tt.divisions, list)
		}
	}
}
