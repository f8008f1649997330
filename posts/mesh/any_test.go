package mesh

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// Any wheel that has teeth is closed: pointed ones and such as are cut through
// at their feet, hobs that do not reach across the face, swivelled hobs, few
// teeth, blanks with and without a throat. What it encloses is between the
// blank and a disk of the root's radius.
func TestAnyWheel(t *testing.T) {
	var pointed, beside, swivelled, undercut int
	rapid.Check(t, func(t *rapid.T) {
		m := math.Pow(10, rapid.Float64Range(-0.7, 1).Draw(t, "module"))
		teeth := rapid.IntRange(6, 40).Draw(t, "teeth")
		reference := m * rapid.Float64Range(4, 12).Draw(t, "quotient") / 2
		thread := geometry.Thread{
			Form: rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK}).Draw(t, "form"),
			Hand: rapid.SampledFrom([]geometry.Hand{geometry.Right, geometry.Left}).Draw(t, "hand"), Starts: rapid.IntRange(1, 4).Draw(t, "starts"),
			Module: m, Reference: reference, Tip: reference + 1.25*m, Root: reference - 1.25*m,
			Pressure: rapid.Float64Range(10, 30).Draw(t, "pressure") * math.Pi / 180, Thickness: math.Pi * m / 2,
			Rounding: rapid.SampledFrom([]float64{0, 0.2}).Draw(t, "rounding") * m, Disk: 8 * reference,
		}
		rolling := m * float64(teeth) / 2
		e := rolling + reference + m*rapid.Float64Range(-0.3, 1).Draw(t, "shift")
		swivel := rapid.SampledFrom([]float64{0, 0, 0.05, -0.2}).Draw(t, "swivel")
		b := geometry.Blank{
			Face:    2 * thread.Tip * rapid.Float64Range(0.2, 1.1).Draw(t, "face"),
			Outside: min(e-reference+m*rapid.Float64Range(0.5, 3).Draw(t, "outside"), 0.9*e),
		}
		if rapid.Bool().Draw(t, "throated") {
			b.Throated, b.Centre, b.Hollow = true, e, reference-m*rapid.Float64Range(0, 1).Draw(t, "throat")
		}
		swept, err := geometry.NewSwept(thread, teeth, swivel, e)
		if err != nil {
			t.Skip("no such thread")
		}
		follow := Exact(b, swept, e-thread.Tip)
		chord := max(m*rapid.Float64Range(0.02, 0.1).Draw(t, "chord"), least)
		w := Wheel{Blank: b, Teeth: teeth, Bore: (e - thread.Tip) / 3, Chord: chord}
		s, err := w.Solid(follow, follow)
		if err != nil {
			t.Fatalf("%v", err)
		}
		closed(t, s, 1)
		most := blankVolume(b)
		low := e - thread.Tip
		if v := s.Volume(); !(v < most && v > math.Pi*(low*low-w.Bore*w.Bore)*b.Face*0.97) { // a hexagon's chords
			t.Fatalf("%.3f mm³ of a blank of %.3f", v, most)
		}

		layers, err := follow([]float64{-b.Face / 2, 0, b.Face / 2})
		if err != nil {
			t.Fatalf("%v", err)
		}
		if len(layers[0].Spaces[0].Radii) == 0 {
			beside++
		}
		if swivel != 0 {
			swivelled++
		}
		middle := layers[1]
		if top := (pen{teeth: teeth, chord: chord}).top(&middle, 0); top < middle.Rim-1e-9 {
			pointed++
		}
		if !slices.IsSorted(middle.Spaces[0].Right) {
			undercut++
		}
	})
	for what, n := range map[string]int{"pointed": pointed, "too wide for its hob": beside, "swivelled": swivelled, "undercut": undercut} {
		if n < 3 {
			t.Errorf("%d wheels were %s: not tried", n, what)
		}
	}
}

// So is any wheel that is cut in memory, and it holds what the cut leaves.
func TestAnyCutWheel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const m, starts, reference = 2.0, 1, 20.0
		teeth := rapid.IntRange(12, 24).Draw(t, "teeth")
		h := geometry.Hob{Gashes: rapid.IntRange(3, 12).Draw(t, "gashes"), Addendum: 2.5, Thread: geometry.Thread{
			Form: geometry.ZA, Hand: geometry.Right, Starts: starts, Module: m, Reference: reference, Tip: 22.5, Root: 17,
			Pressure: 20 * math.Pi / 180, Thickness: math.Pi * m / 2,
		}}
		rolling := m * float64(teeth) / 2
		e := rolling + reference
		b := geometry.Blank{Face: rapid.Float64Range(4, 44).Draw(t, "face"), Outside: rolling + rapid.Float64Range(0.5, 5).Draw(t, "outside")}
		turns := float64(teeth)
		motion := gen.Motion{
			{Place: gen.Place{Distance: e}}, {Seconds: 1, Hob: turns, Work: 1, Place: gen.Place{Distance: e}},
		}
		grid := geometry.NewGrid(b.Face, e-h.Tip, b.Outside, 2, 60)
		run := func(planes []float64) (*cut.Wheel, error) {
			return cut.Run(cut.Setup{Hob: h, Blank: b, Teeth: teeth, Grid: geometry.Grid{Planes: planes, Radii: grid.Radii}}, motion, nil)
		}
		swept, err := geometry.NewSwept(h.Thread, teeth, 0, e)
		if err != nil {
			t.Fatalf("%v", err)
		}
		s, err := Wheel{Blank: b, Teeth: teeth, Bore: 2, Chord: 0.02}.Solid(Exact(b, swept, e-h.Tip), Cut(run))
		if err != nil {
			t.Fatalf("%v", err)
		}
		closed(t, s, 1)
		// Pointed teeth have lost what neighbouring spaces share but once, and
		// the cut counts it in both.
		planes := geometry.NewGrid(b.Face, 0, 1, 31, 2).Planes
		w, err := run(planes)
		if err != nil {
			t.Fatalf("%v", err)
		}
		for i := range planes {
			left, right, ok := w.Mouth(0, i)
			if ok && right-left > 2*math.Pi/float64(teeth)-1e-3 {
				return
			}
		}
		want := (math.Pi*b.Outside*b.Outside - math.Pi*4) * b.Face
		for k := range teeth {
			want -= w.Volume(k)
		}
		if got := s.Volume(); math.Abs(got-want) > 0.001*want {
			t.Fatalf("%.2f mm³, cut leaves %.2f", got, want)
		}
	})
}

// Any worm and any hob is closed, of whatever form, with threads that run into
// each other or come to a point.
func TestAnyScrew(t *testing.T) {
	var merged, sharp int
	rapid.Check(t, func(t *rapid.T) {
		m := math.Pow(10, rapid.Float64Range(-0.7, 1).Draw(t, "module"))
		reference := m * rapid.Float64Range(4, 12).Draw(t, "quotient") / 2
		thread := geometry.Thread{
			Form: rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK}).Draw(t, "form"),
			Hand: rapid.SampledFrom([]geometry.Hand{geometry.Right, geometry.Left}).Draw(t, "hand"), Starts: rapid.IntRange(1, 6).Draw(t, "starts"),
			Module: m, Reference: reference, Tip: reference + m*rapid.Float64Range(0.8, 2).Draw(t, "addendum"), Root: reference - m*rapid.Float64Range(1, 1.5).Draw(t, "dedendum"),
			Pressure: rapid.Float64Range(10, 35).Draw(t, "pressure") * math.Pi / 180, Thickness: math.Pi * m / 2 * rapid.Float64Range(0.8, 1.2).Draw(t, "thickness"),
			Disk: 8 * reference,
		}
		half, err := thread.Profile()
		if err != nil {
			t.Skip("no such thread")
		}
		if half(thread.Root) > math.Pi*m/2 {
			merged++
		}
		if half(thread.Tip) < 0 {
			sharp++
		}
		chord := max(m*rapid.Float64Range(0.01, 0.1).Draw(t, "chord"), least)
		length := m * rapid.Float64Range(1, 30).Draw(t, "length")
		worm := Worm{Thread: thread, Length: length, Chamfered: rapid.Bool().Draw(t, "chamfered"), Chord: chord}
		if rapid.Bool().Draw(t, "stub") {
			worm.Shaft, worm.Stub = 0.9*thread.Root, m
		}
		s, err := worm.Solid()
		if err != nil {
			t.Fatalf("%v", err)
		}
		closed(t, s, 0)
		h := Hob{
			Hob:     geometry.Hob{Thread: thread, Gashes: rapid.IntRange(1, 14).Draw(t, "gashes"), Length: length},
			TaperAt: rapid.SampledFrom([]float64{1, -1}).Draw(t, "end"), Sense: rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense"),
			Tooth: rapid.Float64Range(0.2, 0.8).Draw(t, "tooth"), Rise: m * rapid.Float64Range(0, 0.5).Draw(t, "rise"), Chord: chord,
		}
		if rapid.Bool().Draw(t, "tapered") {
			h.Hob.Taper, h.Hob.Drop = length/3, m
		}
		core := min(thread.Root, thread.Tip-h.Hob.Drop)
		h.Rise = min(h.Rise, 0.4*core)
		h.Floor = core - h.Rise - min(0.2*m, 0.2*core)
		h.Bore = h.Floor * 0.4
		if s, err = h.Solid(); err != nil {
			t.Fatalf("%v", err)
		}
		closed(t, s, 1)
	})
	if merged < 3 || sharp < 3 {
		t.Errorf("%d threads that run into each other, %d pointed ones: not tried", merged, sharp)
	}
}

// A job is meshed or refused, with every solid closed.
func TestAnyJob(t *testing.T) {
	base := jobtest.Plan(t, "sluice-hoist", nil)
	made := 0
	rapid.Check(t, func(t *rapid.T) {
		j := base.Job
		m := math.Pow(10, rapid.Float64Range(-0.5, 1).Draw(t, "module"))
		reference := m * rapid.Float64Range(6, 30).Draw(t, "quotient")
		j.Pair.Module, j.Pair.Starts = m, rapid.IntRange(1, 6).Draw(t, "starts")
		j.Pair.Teeth = rapid.IntRange(10, 60).Draw(t, "teeth")
		j.Pair.Pressure = rapid.Float64Range(10, 30).Draw(t, "pressure") * math.Pi / 180
		form := rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK}).Draw(t, "form")
		j.Worm = gen.WormData{Form: form, SameAsHob: true, Disk: reference * 4}
		j.Wheel.AllowUndercut, j.Wheel.Face, j.Wheel.Backlash = true, 0, m*rapid.Float64Range(0, 0.2).Draw(t, "backlash")
		j.Hob = gen.HobData{
			Form: form, Tip: reference + 2.5*m, Addendum: 1.25 * m, Starts: j.Pair.Starts, Hand: geometry.Right,
			Gashes: rapid.IntRange(1, 20).Draw(t, "gashes"), Disk: reference * 4,
			Unrelieved: rapid.Bool().Draw(t, "unrelieved"), Reference: reference,
		}
		j.Cut.Step = 0.1 * m
		p := gen.NewPlan(j, base.Machine, "test")
		// A hob whose gashes leave wheels unfinished does not get past the proof,
		// which draws the line here.
		if p.Findings.Failed() || p.Facet() > 0.02*m {
			return
		}
		for what, solid := range map[string]func(*gen.Plan, float64) (Solid, error){"wheel": WheelOf, "worm": WormOf, "hob": HobOf} {
			s, err := solid(&p, max(m/50, least))
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			closed(t, s, map[string]int{"wheel": 1, "hob": 1}[what])
		}
		made++
	})
	if made < 10 {
		t.Errorf("%d jobs could be planned: nothing is tried here", made)
	}
}
