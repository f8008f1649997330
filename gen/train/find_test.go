package train

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
)

// Trains that others have printed: with those gears in the drawer each is
// found, and its error is the one printed.
func TestPublishedTrains(t *testing.T) {
	for _, tt := range []struct {
		want            string
		drawer          []int // of gears beside those of the train
		drivers, driven []int
		ppm, tol        float64 // 0, 0 where exact
		source          string
	}{
		{"3*6/25.4", []int{20, 30, 40, 50, 60, 70}, []int{90}, []int{127}, 0, 0,
			"3 mm lead on a 6 tpi screw: Jones, Turning and Boring (read)"},
		{"11/4", []int{25, 35, 45}, []int{36, 66}, []int{18, 48}, 0, 0,
			"a lead of 11 on a screw of 4: Rose, Modern Machine-Shop Practice (read)"},
		{"27/10", []int{24, 24, 28, 44, 56, 64, 86, 100}, []int{48, 72}, []int{32, 40}, 0, 0,
			"27 in lead on a milling head of 10 in: Brown & Sharpe, Treatise on Milling Machines (from memory); there the gear on the worm counts as driven"},
		{"6/10", []int{28, 32, 36, 44, 48}, []int{24}, []int{40}, 0, 0,
			"10 threads with a lathe constant of 6: Machinery's Handbook, change gears (from memory)"},
		{"4/13", []int{25, 30, 40, 45, 50}, []int{20}, []int{65}, 0, 0,
			"13 tpi on a 4 tpi screw: exercise of many school books (from memory)"},
		{"1/25.4*8", []int{25, 30, 50, 60}, []int{40}, []int{127}, 0, 0,
			"1 mm on an 8 tpi screw, 127 for the inch: common practice, no source"},
		{"1.25*8/25.4", []int{25, 30, 45}, []int{20, 63}, []int{40, 80}, 125.0, 0.05,
			"63 teeth for want of 127, 1600/63 mm for the inch: common practice, no source"},
		{"pi", []int{25, 30}, []int{71, 100}, []int{20, 113}, 0.08, 0.005, "355/113: references.md"},
		{"pi", nil, []int{60, 66}, []int{30, 42}, 402.5, 0.05, "22/7: references.md"},
		{"pi", nil, []int{76, 105}, []int{20, 127}, 44.45, 0.005, "19·21/127: references.md"},
		{"pi", nil, []int{58, 65}, []int{30, 40}, 23.56, 0.005, "13·29/120: references.md"},
		{"pi", nil, []int{54, 64}, []int{22, 50}, 71.79, 0.005, "32·27/(25·11): references.md"},
		{"pi", nil, []int{50, 94}, []int{34, 44}, 37.74, 0.005, "25·47/(22·17): references.md"},
		{"pi", nil, []int{80, 97}, []int{38, 65}, 34.30, 0.005, "8·97/(13·19): references.md"},
		{"pi/25.4", []int{20, 30}, []int{12}, []int{97}, 215, 0.5, "module 1 on a screw of one inch: references.md"},
		{"pi/25.4", nil, []int{20, 47}, []int{76, 100}, -4.36, 0.005, "47/380: references.md"},
	} {
		drawer := slices.Concat(tt.drivers, tt.drawer, tt.driven)
		r, err := Find(drawer, must(t, tt.want), Options{})
		if err != nil || len(r.Trains) == 0 {
			t.Errorf("%s: %v, %+v", tt.source, err, r)
			continue
		}
		got := r.Trains[0]
		drivers, driven := slices.Sorted(slices.Values(got.Drivers)), slices.Sorted(slices.Values(got.Driven))
		if !slices.Equal(drivers, tt.drivers) || !slices.Equal(driven, tt.driven) {
			t.Errorf("%s: have %v over %v, want %v over %v", tt.source, got.Drivers, got.Driven, tt.drivers, tt.driven)
		}
		if !(math.Abs(got.PPM-tt.ppm) <= tt.tol) || got.Exact != (tt.tol == 0) || got.Exact != (r.Why == "") {
			t.Errorf("%s: off by %v ppm, exact %v (%q), want %v", tt.source, got.PPM, got.Exact, r.Why, tt.ppm)
		}
	}
}

// Ratios that need a prime get it from a gear or say that there is none.
func TestWhy(t *testing.T) {
	for _, tt := range []struct {
		want   string
		drawer []int
		o      Options
		why    string // empty for an exact train
		n      int    // of trains
		near   string // drivers over driven of the nearest
	}{
		{want: "355/113", drawer: []int{71, 100, 113, 20}, n: 20, near: "[100 71]/[20 113]"},
		{want: "355/113", drawer: []int{66, 60, 42, 30}, o: Options{Best: 1}, n: 1, near: "[66 60]/[42 30]",
			why: "355/113 needs the factor 71, which no gear of the drawer has"},
		{want: "355/113", drawer: []int{71, 60, 45, 30}, o: Options{Best: 1}, n: 1, near: "[71 60]/[45 30]",
			why: "355/113 needs the factor 113, which no gear of the drawer has"},
		{want: "127/131", drawer: []int{127, 131, 50}, o: Options{Best: 1}, n: 1, near: "[127]/[131]"},
		{want: "131/100", drawer: []int{127, 100}, o: Options{Best: 1}, n: 1, near: "[127]/[100]",
			why: "131/100 needs the factor 131, which no gear of the drawer has"},
		{want: "239/100", drawer: []int{239, 100, 40}, o: Options{Best: 1}, n: 1, near: "[239]/[100]"},
		{want: "100/239", drawer: []int{40, 100}, o: Options{Best: 1}, n: 1, near: "[40]/[100]",
			why: "100/239 needs the factor 239, which no gear of the drawer has"},
		{want: "1/3", drawer: []int{20, 40, 60, 80}, o: Options{Best: 1}, n: 1, near: "[20]/[60]"},
		{want: "1/9", drawer: []int{20, 40, 60, 80}, o: Options{Best: 1}, n: 1, near: "[20 40]/[60 80]",
			why: "no train of up to 6 gears of the drawer is exact"},
		{want: "pi", drawer: []int{20, 60}, o: Options{Best: 1}, n: 1, near: "[60]/[20]",
			why: "pi is not a fraction, so no train is exact"},
		// 60/20 is as near as 90/30 and ranks before it, but does not mount.
		{want: "pi", drawer: []int{20, 30, 60, 90}, o: Options{Best: 1, Banjo: Banjo{MinSum: 115}}, n: 1, near: "[90]/[30]",
			why: "pi is not a fraction, so no train is exact"},
		{want: "2", drawer: []int{63}, near: "[]/[]",
			why: "a train takes 2 gears or more, the drawer has 1, of 63 teeth"},
		{want: "225/4", drawer: []int{12, 12, 90, 90}, o: Options{Best: 1}, n: 1, near: "[90 90]/[12 12]",
			why: "the exact train does not mount: the driver of 90 on stud 1 fouls the shaft before it: want 105 or more teeth in mesh there, have 102"},
		{want: "225/4", drawer: []int{12, 12, 90, 90}, o: Options{Best: 1, All: true}, n: 1, near: "[90 90]/[12 12]"},
		{want: "2", drawer: []int{20, 30}, o: Options{Banjo: Banjo{MinSum: 60}}, near: "[30]/[20]",
			why: "no train mounts, the nearest because 30 and 20 in mesh have 50 teeth together, want 60 or more, and no gear left in the drawer bridges it as an idler"},
		{want: "2", drawer: []int{20, 30}, o: Options{Banjo: Banjo{MaxSum: 40}}, near: "[30]/[20]",
			why: "no train mounts, the nearest because 30 and 20 in mesh have 50 teeth together, want 40 or fewer, and no gear left in the drawer bridges it as an idler"},
		{want: "2", drawer: []int{20, 30}, o: Options{Banjo: Banjo{Module: 1, MinSpan: 80, MaxSpan: 80}}, near: "[30]/[20]",
			why: "no train mounts, the nearest because it reaches 25 mm from the first shaft to the last, want 80 mm, and no gear left in the drawer bridges it as an idler"},
	} {
		r, err := Find(tt.drawer, must(t, tt.want), tt.o)
		near := fmt.Sprintf("%v/%v", r.Nearest.Drivers, r.Nearest.Driven)
		if err != nil || r.Why != tt.why || near != tt.near || tt.n < 20 && len(r.Trains) != tt.n {
			t.Errorf("%s of %v: %d trains, nearest %s, %q, %v; want %d, %s, %q",
				tt.want, tt.drawer, len(r.Trains), near, r.Why, err, tt.n, tt.near, tt.why)
		}
	}
}

// The gearbox takes its part of the ratio, π included.
func TestGearbox(t *testing.T) {
	box := []Ratio{must(t, "1"), must(t, "1/2"), must(t, "pi/3")}
	r, err := Find([]int{20, 30}, must(t, "3/4"), Options{Gearbox: box})
	if err != nil || !r.Trains[0].Exact || r.Trains[0].Gearbox.String() != "1/2" || r.Trains[0].Ratio != 0.75 {
		t.Errorf("3/4 = 30/20·1/2: have %+v, %v", r, err)
	}
	r, err = Find([]int{20, 30}, must(t, "pi/2"), Options{Gearbox: box})
	if err != nil || !r.Trains[0].Exact || r.Trains[0].Gearbox.String() != "1/3*pi" {
		t.Errorf("π/2 = 30/20·π/3: have %+v, %v", r, err)
	}
}

// Order where the errors are equal, or so nearly that floats cannot tell.
func TestRank(t *testing.T) {
	for _, tt := range []struct {
		name   string
		drawer []int
		want   string
		o      Options
		order  []string
	}{
		// The mean of 2/3 and 3/2, and to either side of it by 1e-18.
		{"equal, drivers decide", []int{20, 30}, "13/12", Options{}, []string{"[20]/[30]·1", "[30]/[20]·1"}},
		{"a shade above", []int{20, 30}, "13/12*1.000000000000000001", Options{}, []string{"[30]/[20]·1", "[20]/[30]·1"}},
		{"a shade below", []int{20, 30}, "13/12*0.999999999999999999", Options{}, []string{"[20]/[30]·1", "[30]/[20]·1"}},
		{"settings on either side", []int{40, 40}, "1", Options{Gearbox: []Ratio{must(t, "5/4"), must(t, "3/4")}},
			[]string{"[40]/[40]·5/4", "[40]/[40]·3/4"}},
		{"a setting twice", []int{40, 40}, "1", Options{Gearbox: []Ratio{must(t, "2"), must(t, "4/2"), must(t, "3")}},
			[]string{"[40]/[40]·2", "[40]/[40]·3"}},
		// 2·6·6 = 3·3·8 and 2 + 6 + 6 = 3 + 3 + 8.
		{"equal sums, driven decide", []int{41, 50, 70, 20, 60, 60, 30, 30, 80}, "41*50*70/72000", Options{Best: 2},
			[]string{"[41 50 70]/[20 60 60]·1", "[41 50 70]/[30 30 80]·1"}},
	} {
		r, err := Find(tt.drawer, must(t, tt.want), tt.o)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		var order []string
		for _, g := range r.Trains {
			order = append(order, fmt.Sprintf("%v/%v·%v",
				slices.Sorted(slices.Values(g.Drivers)), slices.Sorted(slices.Values(g.Driven)), g.Gearbox))
		}
		if !slices.Equal(order, tt.order) {
			t.Errorf("%s: have %v, want %v", tt.name, order, tt.order)
		}
	}
}

func TestFindRefuses(t *testing.T) {
	want := must(t, "2")
	nan, inf := math.NaN(), math.Inf(1)
	for _, tt := range []struct {
		name   string
		drawer []int
		want   Ratio
		o      Options
		err    string
	}{
		{"empty drawer", nil, want, Options{}, "want gears"},
		{"a million gears", make([]int, 1e6), want, Options{}, "50 gears or fewer, have 1000000"},
		{"no teeth", []int{20, 0}, want, Options{}, "6 to 1000 teeth, have 0"},
		{"negative", []int{20, -30}, want, Options{}, "have -30"},
		{"a huge gear", []int{20, math.MaxInt}, want, Options{}, "6 to 1000 teeth"},
		{"no ratio", []int{20, 30}, Ratio{}, Options{}, "no ratio"},
		{"three gears", []int{20, 30}, want, Options{Gears: 3}, "2, 4 or 6, have 3"},
		{"eight gears", []int{20, 30}, want, Options{Gears: 8}, "2, 4 or 6"},
		{"fewer than no trains", []int{20, 30}, want, Options{Best: -1}, "1 to 1000"},
		{"a million trains", []int{20, 30}, want, Options{Best: 1e6}, "1 to 1000"},
		{"setting without a ratio", []int{20, 30}, want, Options{Gearbox: make([]Ratio, 1)}, "gearbox: no ratio"},
		{"a million settings", []int{20, 30}, want, Options{Gearbox: make([]Ratio, 1e6)}, "100 settings"},
		{"module NaN", []int{20, 30}, want, Options{Banjo: Banjo{Module: nan}}, "0.05 to 100 mm, have NaN"},
		{"module infinite", []int{20, 30}, want, Options{Banjo: Banjo{Module: inf}}, "0.05 to 100 mm"},
		{"negative module", []int{20, 30}, want, Options{Banjo: Banjo{Module: -1}}, "have -1"},
		{"a huge bushing", []int{20, 30}, want, Options{Banjo: Banjo{Module: 1, Bushing: 1e300}}, "0 to 10000 mm"},
		{"bushing NaN", []int{20, 30}, want, Options{Banjo: Banjo{Module: 1, Bushing: nan}}, "bushing"},
		{"bushing without a module", []int{20, 30}, want, Options{Banjo: Banjo{Bushing: 1}}, "module of the gears"},
		{"span without a module", []int{20, 30}, want, Options{Banjo: Banjo{MinSpan: 1}}, "module of the gears"},
		{"span backwards", []int{20, 30}, want, Options{Banjo: Banjo{Module: 1, MinSpan: 2, MaxSpan: 1}}, "have 2 to 1 mm"},
		{"negative span", []int{20, 30}, want, Options{Banjo: Banjo{Module: 1, MinSpan: -1}}, "least span"},
		{"sum backwards", []int{20, 30}, want, Options{Banjo: Banjo{MinSum: 2, MaxSum: 1}}, "have 2 to 1"},
		{"negative sum", []int{20, 30}, want, Options{Banjo: Banjo{MinSum: -1}}, "0 or more"},
	} {
		start := time.Now()
		_, err := Find(tt.drawer, tt.want, tt.o)
		if err == nil || !strings.Contains(err.Error(), tt.err) {
			t.Errorf("%s: %v, want an error with %q", tt.name, err, tt.err)
		}
		if d := time.Since(start); d > time.Second {
			t.Errorf("%s took %v", tt.name, d)
		}
	}
}

// A banjo on which next to nothing mounts ends the longest search with an
// error, not with the night.
func TestFindGivesUp(t *testing.T) {
	l, err := Banjo{Module: 1.5, Bushing: 140}.limits()
	if err != nil {
		t.Fatal(err)
	}
	s := finder{newStock(drawerOf(50)), l, must(t, "pi*2/3"), []Ratio{one(), must(t, "1/2")}}.search(20, true)
	s.tries = mostTries - 1e6
	if err := s.pairs(3); err == nil || !strings.Contains(err.Error(), "so few trains mount") {
		t.Errorf("have %v", err)
	}
	if s.tries > mostTries+1e6 {
		t.Errorf("gave up after %d more tries", s.tries-mostTries)
	}
}
