package job

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"wormwright/gen"
)

// A cutter, a blank and a dividing head are read in mm and radians.
func TestReadGash(t *testing.T) {
	const gash = `gash: {diameter: 2 in, tip_width: 1.2, angle: 14 1/2, flank_stock: 0.15, root_stock: 0.3}`
	j := mustRead(t, with(plainJob, gash, "cut: {feed: gash, step: 0.06}")).Job
	want := gen.GashData{Diameter: 50.8, Tip: 1.2, Included: 14.5 * math.Pi / 180, Flank: 0.15, Root: 0.3}
	if j.Gash != want || j.Cut.Feed != gen.Gash {
		t.Errorf("gash %+v, feed %v; want %+v, gash", j.Gash, j.Cut.Feed, want)
	}
	for _, tt := range []struct {
		cut             string
		ungashed, allow bool
	}{
		{"cut: {feed: free, step: 0.1}", false, false},
		{"cut: {feed: free, step: 0.1, gashed: true}", false, false},
		{"cut: {feed: free, step: 0.1, gashed: false}", true, false},
		{"cut: {feed: free, step: 0.1, gashed: false, allow_free: true}", true, true},
	} {
		cut := mustRead(t, with(plainJob, gash, tt.cut)).Job.Cut
		if cut.Feed != gen.Free || cut.Ungashed != tt.ungashed || cut.AllowFree != tt.allow {
			t.Errorf("%s: %+v", tt.cut, cut)
		}
	}
	m := mustReadMachine(t, with(plainMachine, "head: {turns: 40, circles: [[15, 16], [21]], gears: [24, 28]}")).Machine
	if want := (gen.Head{Turns: 40, Circles: [][]int{{15, 16}, {21}}, Gears: []int{24, 28}}); !reflect.DeepEqual(m.Head, want) {
		t.Errorf("head %+v, want %+v", m.Head, want)
	}
}

func TestReadGashFaults(t *testing.T) {
	for _, tt := range []struct{ name, line, want string }{
		{"nothing in it", "gash: {}", "job.yaml:9:7: gash.diameter: missing"},
		{"blunt flanks", "gash: {diameter: 50, tip_width: 1, angle: 91, flank_stock: 0.1, root_stock: 0.1}", `job.yaml:9:43: gash.angle: want from 0° to 90° between the flanks, have "91"`},
		{"nothing left for the hob", "gash: {diameter: 50, tip_width: 1, flank_stock: 0, root_stock: 0.1}", `job.yaml:9:49: gash.flank_stock: want above 0, have "0"`},
		{"not a number", "gash: {diameter: .nan, tip_width: 1, flank_stock: 0.1, root_stock: 0.1}", `job.yaml:9:18: gash.diameter: want a finite number, have ".nan"`},
		{"gashed in a radial feed", "cut: {step: 1, gashed: true}", "job.yaml:8:16: cut.gashed: unknown key"},
	} {
		_, err := Read("job.yaml", strings.NewReader(with(plainJob, tt.line)))
		if all := strings.Join(lines(err), "\n"); !strings.Contains(all, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, all, tt.want)
		}
	}
	for _, tt := range []struct{ line, want string }{
		{"head: {circles: [[15]]}", "head.turns: missing"},
		{"head: {turns: 40, circles: 15}", `head.circles: want a list of at most 20 plates, each a list of circles, have "15"`},
		{"head: {turns: 40, circles: [15]}", `head.circles: want a plate as a list of 1 to 50 circles, have "15"`},
		{"head: {turns: 40, circles: [[15, 1]]}", "head.circles: want circles of 2 to 10000 holes, have a list"},
	} {
		_, err := ReadMachine("machine.yaml", strings.NewReader(with(plainMachine, tt.line)))
		if all := strings.Join(lines(err), "\n"); !strings.Contains(all, tt.want) {
			t.Errorf("%s: %q, want %q", tt.line, all, tt.want)
		}
	}
}
