package lathe

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
)

// A pointed tool: depth after pass n of N is h·√(n/N), the rule of the trade
// for threads of constant chip area (common practice, no source); by hand for
// h = 4.5 and four passes.
func TestPointedTool(t *testing.T) {
	g := Groove{Depth: 4.5, Slope: math.Tan(20 * degree)}
	for i, want := range []float64{2.25, 3.1819805, 3.8971143, 4.5} {
		near(t, "depth", g.Depths(4)[i], want, 1e-7)
	}
}

// The sluice hoist's groove by hand: tip 2, slope 0.5, depth 4 is 16 mm²; in
// two passes the first takes 8: d² /2 + 2d = 8, d = −2 + √20.
func TestFlatToolByHand(t *testing.T) {
	g := Groove{Width: 2, Depth: 4, Slope: 0.5}
	near(t, "area", g.Area(4), 16, 0)
	d := g.Depths(2)
	near(t, "first depth", d[0], -2+math.Sqrt(20), 1e-14)
	near(t, "last depth", d[1], 4, 0)
	// A first pass of 0.75 takes 1.78 mm²: nine passes, not eight.
	if n := g.Passes(0.75); n != 9 {
		t.Errorf("%d passes, want 9", n)
	}
	if n := g.Passes(4); n != 1 {
		t.Errorf("%d passes, want 1", n)
	}
}

// All chips have one section to 1e-9 of the whole, the depths rise to the full
// one exactly, no pass goes deeper at once than the first may, and one pass
// fewer would.
func TestEqualAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Groove{
			Width: rapid.Float64Range(0, 10).Draw(t, "width"),
			Depth: rapid.Float64Range(0.5, 20).Draw(t, "depth"),
			Slope: rapid.Float64Range(0.1, 1).Draw(t, "slope"),
		}
		first := rapid.Float64Range(0.05, 25).Draw(t, "first")
		n := g.Passes(first)
		if n > mostPasses {
			if g.Area(g.Depth) <= mostPasses*g.Area(first) {
				t.Fatalf("too many passes, though %d would do", mostPasses)
			}
			return
		}
		depths := g.Depths(n)
		if depths[n-1] != g.Depth {
			t.Fatalf("last depth %v, want %v", depths[n-1], g.Depth)
		}
		last := 0.0
		for i, d := range depths {
			share := (g.Area(d) - g.Area(last)) * float64(n) / g.Area(g.Depth)
			if math.Abs(share-1) > 1e-9*float64(n) {
				t.Fatalf("pass %d of %d takes %v of an equal share", i+1, n, share)
			}
			if d-last > first*(1+1e-9) {
				t.Fatalf("pass %d goes %v deep at once, want %v at most", i+1, d-last, first)
			}
			last = d
		}
		if n > 1 && !(g.Depths(n - 1)[0] > first*(1-1e-6)) {
			t.Fatalf("%d passes, though one fewer would start at %v, below %v", n, g.Depths(n - 1)[0], first)
		}
	})
}

// Set depths stand on marks, rise with every cutting pass, are never deeper
// than the rule and fall short of the whole by less than a mark.
func TestMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Infeed{
			Groove: Groove{
				Width: rapid.Float64Range(0, 5).Draw(t, "width"),
				Depth: rapid.Float64Range(0.5, 20).Draw(t, "depth"),
				Slope: rapid.Float64Range(0.1, 1).Draw(t, "slope"),
			},
			Flank: rapid.Bool().Draw(t, "flank"), Top: rapid.Bool().Draw(t, "top"),
		}
		in.Top = in.Top && in.Flank
		doubled := rapid.Bool().Draw(t, "doubled")
		grain := rapid.SampledFrom([]float64{0.001, 0.01, 0.02, 0.05, 0.0254}).Draw(t, "grain")
		spring := rapid.IntRange(1, 3).Draw(t, "spring")
		in.lay(doubled, rapid.Float64Range(0.02, 0.5).Draw(t, "first"), spring, grain)
		per := 1.0
		switch {
		case in.Top:
			per = 1 / math.Cos(in.Swing)
		case doubled:
			per = 2
		}
		var last Pass
		var area float64
		for i, p := range in.Passes {
			marks := p.Reading / grain
			switch {
			case p.Number != i+1:
				t.Fatalf("pass %d is numbered %d", i+1, p.Number)
			case math.Abs(marks-math.Round(marks)) > 1e-6:
				t.Fatalf("pass %d at %v marks", p.Number, marks)
			case math.Abs(p.Set*per-p.Reading) > 1e-9:
				t.Fatalf("pass %d: set %v, reading %v", p.Number, p.Set, p.Reading)
			case p.Set > p.Depth+1e-6*grain:
				t.Fatalf("pass %d deeper than the rule", p.Number)
			case p.Spring && (p.Reading != last.Reading || p.Area != 0):
				t.Fatalf("spring pass %d moves", p.Number)
			case !p.Spring && !(p.Reading > last.Reading):
				t.Fatalf("pass %d does not go in", p.Number)
			}
			area += p.Area
			last = p
		}
		if n := len(in.Passes); n < spring || !in.Passes[n-spring].Spring || n > spring && in.Passes[n-spring-1].Spring {
			t.Fatalf("want %d spring passes at the end", spring)
		}
		if !(in.Remainder >= 0 && in.Remainder < grain/per*(1+1e-5)) {
			t.Fatalf("remainder %v of a mark of %v", in.Remainder, grain/per)
		}
		if want := in.Area(in.Depth - in.Remainder); math.Abs(area-want) > 1e-9*(1+want) {
			t.Fatalf("chips add up to %v mm², want %v", area, want)
		}
	})
}

// Along a flank the tool leaves the idle flank where it is, but for the half
// degree that cleans it: back + d·tan α is the same at every depth.
func TestFlankStays(t *testing.T) {
	w := hoist(t, func(j *gen.Job, _ *gen.Lathe) { j.Turn.Flank = true })
	in := w.Infeed
	near(t, "swing", in.Swing/degree, 19.5, 1e-9)
	for _, p := range in.Passes {
		// By hand: 0.5° over the depth that is still to come.
		idle := in.Back(p.Set) + p.Set*math.Tan(20*degree)
		clean := in.Depth*math.Tan(20*degree) - idle
		near(t, "idle flank", clean, (in.Depth-p.Set)*(math.Tan(20*degree)-math.Tan(19.5*degree)), 1e-9)
		near(t, "top slide", p.Reading*math.Cos(19.5*degree), p.Set, 1e-9)
	}
	// The same hoist straight in has the depth of worm_test and no swing.
	if straight := hoist(t, nil).Infeed; straight.Swing != 0 || straight.Back(0) != 0 {
		t.Errorf("straight in: swing %v, back %v", straight.Swing, straight.Back(0))
	}
}
