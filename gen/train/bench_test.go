package train

import (
	"fmt"
	"testing"
)

// drawerOf returns gears by fives and, among them, primes that lathes carry.
func drawerOf(n int) []int {
	all := []int{
		20, 21, 24, 25, 28, 30, 32, 35, 36, 38, 40, 42, 44, 45, 47, 48, 50, 52, 55, 57,
		60, 63, 65, 127, 66, 70, 71, 72, 75, 80, 81, 85, 90, 95, 97, 100, 105, 110, 113, 120,
		125, 130, 131, 73, 79, 83, 89, 91, 93, 99,
	}
	return all[:n]
}

// The speeds that are asked for are 50 ms for 4 gears out of 40 and 1 s for 6
// out of 24, on two cores; the search runs on one.
func BenchmarkFind(b *testing.B) {
	for _, bb := range []struct {
		name   string
		drawer int
		gears  int
		want   string
		banjo  Banjo
		all    bool
		box    int
	}{
		{name: "4of40/pi", drawer: 40, gears: 4, want: "pi*2/3"},
		{name: "4of40/exact", drawer: 40, gears: 4, want: "127/90"},
		{name: "6of24/pi", drawer: 24, gears: 6, want: "pi*2/3"},
		{name: "6of24/all", drawer: 24, gears: 6, want: "pi*2/3", all: true},
		{name: "6of24/exact", drawer: 24, gears: 6, want: "127/90"},
		{name: "6of24/gearbox", drawer: 24, gears: 6, want: "pi*2/3", box: 100},
		{name: "6of24/span", drawer: 24, gears: 6, want: "pi*2/3", banjo: Banjo{Module: 1.5, Bushing: 12, MinSum: 60, MaxSum: 160, MinSpan: 180, MaxSpan: 180}},
		{name: "6of24/hardly mounts", drawer: 24, gears: 6, want: "pi*2/3", banjo: Banjo{Module: 1.5, Bushing: 80}},
		{name: "6of50/pi", drawer: 50, gears: 6, want: "pi*2/3"},
	} {
		b.Run(bb.name, func(b *testing.B) {
			want, drawer := must(b, bb.want), drawerOf(bb.drawer)
			var box []Ratio
			for i := range bb.box {
				box = append(box, must(b, fmt.Sprintf("%d/%d", 20+i, 60)))
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Find(drawer, want, Options{Gears: bb.gears, Banjo: bb.banjo, All: bb.all, Gearbox: box}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
