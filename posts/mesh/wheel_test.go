package mesh

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// The examples' wheels are closed and hold what the virtual cut leaves: the
// blank less what the whole cycle takes from each space, and less the bore.
// The cut is followed here on a grid of its own.
func TestWheelVolume(t *testing.T) {
	for _, name := range jobs {
		p := jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) {
			if j.Cut.Continuous {
				j.Cut.Step = 1 // or the cut takes long to follow
			}
		})
		s := mustWheel(t, p, Chord)
		closed(t, s, 1)
		flat(t, s)

		planes := 21
		if p.Job.Cut.Feed == gen.Across {
			planes = 3 // all are alike but turned, and the cut takes long
		}
		setup := cut.Setup{
			Hob: p.Hob, TaperAt: p.TaperAt(), Blank: p.Blank, Teeth: p.Pair.Teeth, Swivel: p.Swivelled(),
			Grid: geometry.NewGrid(p.Blank.Face, p.Final()-p.Hob.Tip, max(p.Blank.Radius(0), p.Blank.Radius(p.Blank.Face/2)), planes, 46).
				With([]float64{-p.Blank.Rim(), p.Blank.Rim()}, nil),
		}
		w, err := cut.Run(setup, p.Cycle.Motion(), nil)
		if err != nil {
			t.Fatal(err)
		}
		hole := bore(p.Wheel.RootDiameter)
		want := blankVolume(p.Blank) - math.Pi*hole*hole*p.Blank.Face
		for k := range p.Pair.Teeth {
			want -= w.Volume(k)
		}
		got := s.Volume()
		t.Logf("%s: %d facets, %.2f mm³, cut %.2f, off by %.4f %%", name, len(s.Facets), got, want, 100*(got-want)/want)
		if !(math.Abs(got-want) < 0.001*want) {
			t.Errorf("%s: %.2f mm³, virtual cut leaves %.2f", name, got, want)
		}
	}
}

// The last stay at full depth leaves the wheel that the whole cycle leaves.
func TestLastStayIsAll(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "observatory-dome"} {
		p := jobtest.Plan(t, name, nil)
		setup := cut.Setup{
			Hob: p.Hob, TaperAt: p.TaperAt(), Blank: p.Blank, Teeth: p.Pair.Teeth, Swivel: p.Swivelled(),
			Grid: geometry.Grid{Planes: []float64{-p.Blank.Face / 4, 0}, Radii: radii(p, Chord, p.Final()-p.Hob.Tip)},
		}
		whole, err := cut.Run(setup, p.Cycle.Motion(), nil)
		if err != nil {
			t.Fatal(err)
		}
		last, err := cut.Run(setup, lastStay(p), nil)
		if err != nil {
			t.Fatal(err)
		}
		for k := range p.Pair.Teeth {
			if a, b := whole.Volume(k), last.Volume(k); math.Abs(a-b) > 1e-6*a {
				t.Fatalf("%s, space %d: the last stay takes %.6f mm³, the cycle %.6f", name, k, b, a)
			}
		}
	}
}

// Without a stay for a whole round the wheel is the exact one.
func TestNoStay(t *testing.T) {
	p := jobtest.Plan(t, "turret-clock", nil)
	if lastStay(p) != nil {
		t.Error("a tangential feed has a last stay")
	}
	p = jobtest.Plan(t, "sluice-hoist", nil)
	if m := lastStay(p); len(m) != 2 || m[1].Distance != p.Cycle.Full {
		t.Errorf("last stay %v", m)
	}
	for i := range p.Cycle.Phases {
		p.Cycle.Phases[i].Work /= 2
	}
	if lastStay(p) != nil {
		t.Error("half a turn is taken for a whole one")
	}
}

// Points of the surface, taken at random from its facets, are within the chord
// error of the exact outline in their own plane, which is farther than in
// space.
func TestWheelChordError(t *testing.T) {
	for _, tt := range []struct {
		name  string
		chord float64
	}{
		{"sluice-hoist", 0.01}, {"tide-gauge", 0.01}, {"turret-clock", 0.01}, {"sluice-hoist", 0.1}, {"turret-clock", 0.003},
	} {
		p := jobtest.Plan(t, tt.name, nil)
		low := p.Final() - p.Hob.Tip
		swept, err := p.Swept(p.Swivelled(), p.Final())
		if err != nil {
			t.Fatal(err)
		}
		exact := Exact(p.Blank, swept, low)
		s, err := Wheel{Blank: p.Blank, Teeth: p.Pair.Teeth, Bore: 5, Chord: tt.chord}.Solid(exact, exact)
		if err != nil {
			t.Fatal(err)
		}
		fine := pen{bottom: 40, flank: 400, land: 40, teeth: p.Pair.Teeth, chord: 1e-9}
		random := rand.New(rand.NewPCG(7, 7))
		var worst float64
		for range 400 {
			at := somewhere(s, random)
			if math.Abs(at[2]) > p.Blank.Face/2-1e-9 || math.Hypot(at[0], at[1]) < 5.1 {
				continue
			}
			layers, err := exact([]float64{at[2]})
			if err != nil {
				t.Fatal(err)
			}
			from := place{at[0], at[1]}
			k := int(math.Round(math.Atan2(from.x, from.y)/fine.pitch())) + p.Pair.Teeth
			near := math.Inf(1)
			for _, tooth := range []int{k - 2, k - 1, k, k + 1} {
				line := fine.tooth(&layers[0], tooth)
				for i := 1; i < len(line); i++ {
					near = min(near, from.beside(line[i-1], line[i]))
				}
			}
			worst = max(worst, near)
		}
		t.Logf("%s: within %.5f mm of the exact surface", tt.name, worst)
		if !(worst <= tt.chord) {
			t.Errorf("%s: %.5f mm off the exact surface, want at most %g", tt.name, worst, tt.chord)
		}
		if worst < tt.chord/20 {
			t.Errorf("%s: only %.5f mm off the exact surface: far more facets than %g mm ask for", tt.name, worst, tt.chord)
		}
	}
}

// A wheel of 40 teeth takes under a second, with its file, and under 30 MB.
func TestWheelIsQuick(t *testing.T) {
	if testing.Short() {
		t.Skip("machines are noisy")
	}
	p := jobtest.Plan(t, "sluice-hoist", nil)
	quickest := time.Hour
	for range 5 {
		begin := time.Now()
		s := mustWheel(t, p, Chord)
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
		data := s.ThreeMF(p.Job.Title)
		quickest = min(quickest, time.Since(begin))
		if len(data) > 30e6 || len(s.STL()) > 30e6 {
			t.Errorf("%d bytes of 3MF, %d of STL, want at most 30 MB", len(data), len(s.STL()))
		}
	}
	t.Logf("%.3f s", quickest.Seconds())
	if quickest > time.Second {
		t.Errorf("%.2f s, want at most 1", quickest.Seconds())
	}
}

// What cannot be is refused.
func TestWheelRefuses(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	swept, err := p.Swept(0, p.Final())
	if err != nil {
		t.Fatal(err)
	}
	good := Exact(p.Blank, swept, p.Final()-p.Hob.Tip)
	none := Exact(p.Blank, func(z, r float64) (float64, float64, bool) { return 0, 0, false }, 30)
	for _, tt := range []struct {
		name  string
		wheel Wheel
		from  Follower
		want  string
	}{
		{"no chord error", Wheel{Bore: 5}, good, "chord error 0 mm"},
		{"no number", Wheel{Bore: 5, Chord: math.NaN()}, good, "chord error NaN mm"},
		{"bore of no number", Wheel{Bore: math.NaN(), Chord: Chord}, good, "bore of radius NaN mm"},
		{"bore into the spaces", Wheel{Bore: 38, Chord: Chord}, good, "want less than the root's 37"},
		{"no space", Wheel{Bore: 5, Chord: Chord}, none, "not cut anywhere"},
	} {
		w := tt.wheel
		w.Blank, w.Teeth = p.Blank, p.Pair.Teeth
		if _, err := w.Solid(tt.from, tt.from); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.want)
		}
	}
	solid, err := Wheel{Blank: p.Blank, Teeth: p.Pair.Teeth, Chord: 0.1}.Solid(good, good)
	if err != nil {
		t.Fatal(err)
	}
	closed(t, solid, 0) // without a bore
}

func BenchmarkWheel(b *testing.B) {
	p := jobtest.Plan(b, "sluice-hoist", nil)
	b.ReportAllocs()
	for b.Loop() {
		s := mustWheel(b, p, Chord)
		s.ThreeMF(p.Job.Title)
	}
}
