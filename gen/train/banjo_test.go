package train

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// first returns the best train of a drawer.
func first(t *testing.T, drawer []int, want string, o Options) Train {
	t.Helper()
	r, err := Find(drawer, must(t, want), o)
	if err != nil || len(r.Trains) == 0 {
		t.Fatalf("%s of %v: %+v, %v", want, drawer, r, err)
	}
	return r.Trains[0]
}

// The rule of thumb on its edge: with drivers a, c and driven b, d,
// a + b ≥ c + 15 and c + d ≥ b + 15 (common practice, no source).
func TestRuleOfThumb(t *testing.T) {
	for _, tt := range []struct {
		a, b, c, d int
		mounts     bool
	}{
		{40, 50, 75, 60, true},   // 90 = 75 + 15
		{40, 50, 76, 60, false},  // 90 < 76 + 15
		{40, 100, 55, 60, true},  // 115 = 100 + 15
		{40, 101, 55, 60, false}, // 115 < 101 + 15
	} {
		l, err := Banjo{}.limits()
		if err != nil {
			t.Fatal(err)
		}
		o := order{n: 2, a: [3]int{tt.a, tt.c}, b: [3]int{tt.b, tt.d}}
		if got := l.mounts(&o); got != tt.mounts || (l.fault(o) == "") != tt.mounts {
			t.Errorf("%d/%d·%d/%d mounts: %v, %q, want %v", tt.a, tt.b, tt.c, tt.d, got, l.fault(o), tt.mounts)
		}
	}
}

// An order is found if there is one among all, and nothing is refused before.
func TestArrange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := drawBanjo(t).limits()
		if err != nil {
			t.Fatal(err)
		}
		o := order{n: rapid.IntRange(1, 3).Draw(t, "pairs")}
		teeth := rapid.IntRange(20, 130)
		for i := range o.n {
			o.a[i], o.b[i] = teeth.Draw(t, "driver"), teeth.Draw(t, "driven")
		}
		slices.Sort(o.a[:o.n])
		slices.Sort(o.b[:o.n])
		orders := [][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}}
		want := false
		for _, i := range orders {
			for _, j := range orders {
				with := order{n: o.n}
				for k := range 3 {
					with.a[k], with.b[k] = o.a[i[k]], o.b[j[k]]
				}
				// With fewer pairs, only orders that leave the rest in place.
				if slices.Min(append(with.a[:o.n:o.n], with.b[:o.n]...)) > 0 && l.mounts(&with) {
					want = true
				}
			}
		}
		with := o
		if got := l.reaches(&o) && l.hasMiddle(&o) && l.arrange(&with, 0, nil); got != want {
			t.Fatalf("%+v is found to mount: %v, want %v", o, got, want)
		}
		if want && !l.mounts(&with) {
			t.Fatalf("%+v does not mount", with)
		}
		if best, ok := l.roomiest(o); ok != want || ok && (!l.mounts(&best) || best.room() < with.room()) {
			t.Fatalf("%+v is the roomiest: %v, beside %+v", best, ok, with)
		}
	})
}

// Gears that are all smaller than the room that a shaft wants, by hand, room
// 42: 60 + 30 ≥ 45 + 42; 45 + 38 ≥ 41 + 42; 41 + 41 ≥ 38 + 42.
func TestHasMiddle(t *testing.T) {
	l, err := Banjo{Module: 2, Bushing: 40}.limits()
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []order{
		{n: 3, a: [3]int{60, 45, 41}, b: [3]int{30, 38, 41}},
		{n: 3, a: [3]int{41, 38, 30}, b: [3]int{41, 45, 60}}, // the same from its other end
	} {
		if !l.mounts(&o) {
			t.Errorf("%+v does not mount: %s", o, l.fault(o))
		}
		slices.Sort(o.a[:])
		slices.Sort(o.b[:])
		if !l.hasMiddle(&o) {
			t.Errorf("%+v has no middle", o)
		}
	}
	o := order{n: 3, a: [3]int{41, 45, 60}, b: [3]int{10, 15, 20}}
	if l.hasMiddle(&o) {
		t.Errorf("%+v has a middle, but 60 + 20 < 41 + 42", o)
	}
}

// A bushing of 6.5 modules' radius is the rule of thumb; a larger one asks for
// more room, by hand: module 2, bushing 15 mm, mesh of 40 and 50 at 90 mm, the
// tip of 73 at 75 mm.
func TestBushing(t *testing.T) {
	same, err := Banjo{Module: 1.27, Bushing: 6.5 * 1.27}.limits()
	if err != nil || same.room != thumb {
		t.Errorf("6.5 modules leave %d teeth, want %d (%v)", same.room, thumb, err)
	}
	l, err := Banjo{Module: 2, Bushing: 15}.limits()
	if err != nil {
		t.Fatal(err)
	}
	for c, mounts := range map[int]bool{73: true, 74: false} {
		o := order{n: 2, a: [3]int{40, c}, b: [3]int{50, 60}}
		if got := l.mounts(&o); got != mounts {
			t.Errorf("driver of %d clears the shaft: %v, want %v", c, got, mounts)
		}
	}
}

// The order shown is the one with the most room.
func TestDress(t *testing.T) {
	// 20·30/(60·90): the four orders leave, by hand, the smaller of
	// a+b−c and c+d−b:
	// 20/60·30/90 50, 60; 20/90·30/60 80, 0; 30/60·20/90 70, 50; 30/90·20/60 100, −10.
	got := first(t, []int{20, 30, 60, 90}, "1/9", Options{})
	if !slices.Equal(got.Drivers, []int{20, 30}) && !slices.Equal(got.Drivers, []int{30, 20}) ||
		!got.Mounts || len(got.Studs()) != 1 {
		t.Fatalf("have %+v", got)
	}
	if studs := got.Studs(); got.Drivers[0]+got.Driven[0]-studs[0].Driver < 50 || got.Drivers[1]+got.Driven[1]-studs[0].Driven < 50 {
		t.Errorf("%+v leaves less than 50 teeth of room", got)
	}
	if got.Teeth() != 200 {
		t.Errorf("%d teeth, want 200", got.Teeth())
	}
}

// A cancelling pair needs two gears and stands behind the shorter train, but
// is what mounts where that does not reach.
func TestCancellingPair(t *testing.T) {
	if r, err := Find([]int{30, 50, 40}, must(t, "3/5"), Options{Best: 2}); err != nil || len(r.Trains[1].Drivers) > 1 && r.Trains[1].Exact {
		t.Errorf("one gear of 40 stands twice: %+v, %v", r, err)
	}
	r, err := Find([]int{30, 50, 40, 40}, must(t, "3/5"), Options{Best: 2})
	if err != nil || !r.Trains[1].Exact || len(r.Trains[0].Drivers) != 1 || len(r.Trains[1].Drivers) != 2 {
		t.Errorf("two gears of 40: %+v, %v", r, err)
	}
	got := first(t, []int{30, 50, 40, 40}, "3/5", Options{Banjo: Banjo{Module: 2, MinSpan: 150, MaxSpan: 155}})
	if !got.Exact {
		t.Errorf("have %+v", got)
	}
}

// The sense of turning goes with the number of meshes.
func TestReverses(t *testing.T) {
	for _, tt := range []struct {
		train    Train
		reverses bool
	}{
		{Train{Drivers: []int{20}, Driven: []int{40}}, true},
		{Train{Drivers: []int{20}, Driven: []int{40}, Idler: 60}, false},
		{Train{Drivers: []int{20, 30}, Driven: []int{40, 50}}, false},
		{Train{Drivers: []int{20, 30, 35}, Driven: []int{40, 50, 60}}, true},
	} {
		got := tt.train
		if got.Reverses() != tt.reverses || got.NeedsIdler(tt.reverses) || !got.NeedsIdler(!tt.reverses) {
			t.Errorf("%+v reverses: %v, needs an idler for that sense: %v", got, got.Reverses(), got.NeedsIdler(tt.reverses))
		}
	}
}

// A simple train between fixed shafts, by hand. Module 1: 30 and 40 stand 35
// mm apart; an idler of 65 reaches 100 mm.
func TestIdler(t *testing.T) {
	fixed := Options{Gears: 2, Banjo: Banjo{Module: 1, MinSpan: 100, MaxSpan: 100}}
	got := first(t, []int{30, 40, 64, 65, 70}, "3/4", fixed)
	if !got.Exact || got.Idler != 65 || got.Reverses() || !slices.Equal(got.Centres(1), []float64{47.5, 52.5}) {
		t.Errorf("have %+v, centres %v", got, got.Centres(1))
	}
	fixed.Banjo.MinSpan, fixed.Banjo.MaxSpan = 35, 35
	got = first(t, []int{30, 40, 65}, "3/4", fixed)
	if got.Idler != 0 || !got.Reverses() || !slices.Equal(got.Centres(1), []float64{35}) {
		t.Errorf("direct: have %+v", got)
	}
	// Tips of 30 and 40 meet at 35 + 2 mm; half a module is left between them.
	for span, mounts := range map[float64]bool{37.4: false, 37.5: true} {
		fixed.Banjo.MinSpan, fixed.Banjo.MaxSpan = span, span
		r, err := Find([]int{30, 40, 65}, must(t, "3/4"), fixed)
		if err != nil || r.Nearest.Exact && r.Nearest.Mounts != mounts {
			t.Errorf("between shafts %v mm apart: %+v, %v", span, r.Nearest, err)
		}
	}
	// 20 DP, 40 and 60 teeth, 2.5 in: a quotient that is not exact in floats.
	fixed.Banjo = Banjo{Module: 25.4 / 20, MinSpan: 63.5, MaxSpan: 63.5}
	if got := first(t, []int{40, 60}, "2/3", fixed); got.Idler != 0 {
		t.Errorf("20 DP: have %+v", got)
	}
}

// Three pairs in a span, by hand. Module 2, so that a mesh of z teeth is z mm
// long: three meshes of 100 reach 300 mm; with the shafts 130 mm apart the
// studs swing out.
func TestSpan(t *testing.T) {
	o := order{n: 3, a: [3]int{50, 50, 50}, b: [3]int{50, 50, 50}}
	for _, tt := range []struct {
		least, most float64
		mounts      bool
	}{
		{0, 0, true},
		{300, 300, true},
		{301, 0, false},
		{130, 130, true},
		{0, 65, true},  // 50 + 15 of the rule of thumb, from shaft to shaft
		{0, 64, false}, // the first driver fouls the last shaft
	} {
		l, err := Banjo{Module: 2, MinSpan: tt.least, MaxSpan: tt.most}.limits()
		if err != nil {
			t.Fatal(err)
		}
		if got := l.mounts(&o); got != tt.mounts || (l.fault(o) == "") != tt.mounts {
			t.Errorf("span %v to %v mm: %v, %q, want %v", tt.least, tt.most, got, l.fault(o), tt.mounts)
		}
	}
}
