package main

import (
	"math"
	"strings"
	"testing"
)

// The power of a size is that of a table whose power is known: time 3·n, and
// memory the same for every size.
func TestPowers(t *testing.T) {
	list, err := read(strings.NewReader(`goos: linux
pkg: mill/stones
cpu: Hand Crank
BenchmarkGrind/bags=2-4     	 1	 6000 ns/op	 512 B/op	 1 allocs/op
BenchmarkGrind/bags=4-4     	 1	12000 ns/op	 512 B/op	 1 allocs/op
BenchmarkGrind/bags=16-4    	 1	48000 ns/op	 512 B/op	 1 allocs/op
BenchmarkSift/fine-4        	 1	 9000 ns/op
PASS
`))
	if err != nil {
		t.Fatal(err)
	}
	if len(list.all) != 4 || list.processor != "Hand Crank" || !math.IsNaN(list.all[3].size) {
		t.Fatalf("read %+v", list)
	}
	time, memory, ok := powers(list.group(0))
	if !ok || math.Abs(time-1) > 1e-12 || math.Abs(memory) > 1e-12 {
		t.Errorf("powers %v and %v, %v, want 1 and 0", time, memory, ok)
	}
	if _, _, ok := powers(list.group(3)); ok {
		t.Error("a single result has a power")
	}
	var out strings.Builder
	if err := list.print(&out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"stones Grind", "bags 16", "48.00µs", "512.0B", "^1.00", "^0.00", "stones Sift/fine"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the table lacks %q:\n%s", want, out.String())
		}
	}
}
