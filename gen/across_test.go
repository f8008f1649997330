package gen

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wormwright/geometry"
)

// acrossJob is the mill's job with a plain wheel fed along its axis.
func acrossJob() (Job, Machine) {
	j, m := millJob(), millMachine()
	j.Wheel.Throated, j.Worm.SameAsHob = false, true
	j.Cut = CutData{Feed: Across, Step: 0.5, Speed: 20000, Clear: 5, Margin: 2}
	m.Axial = Slide{Present: true, Letter: "X", Sign: 1}
	m.Drive.Differential = Follows
	return j, m
}

// Work and hob of an axial cycle obey the differential at every knot: the
// work turns on by a·tan γ0/rp for a feed a, against the hand. The hob begins
// clear of one face and ends past the other.
func TestAcrossDifferential(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, m := acrossJob()
		j.Pair.Starts = rapid.IntRange(1, 4).Draw(t, "starts")
		j.Hob.Starts = j.Pair.Starts
		j.Pair.Teeth = rapid.IntRange(24, 60).Draw(t, "teeth")
		if rapid.Bool().Draw(t, "left") {
			j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
		}
		j.Hob.Anticlockwise = rapid.Bool().Draw(t, "anticlockwise")
		j.Cut.TowardMinus = rapid.Bool().Draw(t, "toward minus")
		j.Wheel.Face = rapid.Float64Range(8, 60).Draw(t, "face")
		j.Cut.Step = rapid.Float64Range(0.1, 1.5).Draw(t, "feed")
		p := mustPlan(t, j, m)
		h, lead := j.Pair.Hand.Sign(), float64(j.Pair.Starts)*2/40 // tan γ0, r0 20
		toward := 1.0
		if j.Cut.TowardMinus {
			toward = -1
		}
		for i, phase := range p.Cycle.Phases {
			on := phase.To.Axial - p.Cycle.Start.Axial
			want := h*phase.Hob*float64(j.Pair.Starts)/float64(j.Pair.Teeth) - h*on*lead/float64(j.Pair.Teeth)/(2*math.Pi)
			if math.Abs(phase.Work-want) > 1e-9 {
				t.Fatalf("phase %d: work %v turns, want %v", i, phase.Work, want)
			}
		}
		// by hand: the tip circle, 22.5, is as wide as √(22.5² − 18²) = 13.5
		// where the blank's outside cuts it
		if got, want := -toward*p.Cycle.Start.Axial, j.Wheel.Face/2+13.5+2; got < want-1e-6 || got > want+0.01 {
			t.Fatalf("begins %v from the middle, want %v", got, want)
		}
		end := toward * p.Cycle.Phases[len(p.Cycle.Phases)-1].To.Axial
		if least := j.Wheel.Face/2 + j.Cut.Margin; end < least {
			t.Fatalf("ends %v past the middle, want %v or more", end, least)
		}
	})
}

// What an axial feed cannot do is refused, with the reason; a wheel wider than
// the hob is not.
func TestAcrossRefuses(t *testing.T) {
	for _, tt := range []struct {
		name, path, what string
		change           func(*Job, *Machine)
	}{
		{"throated", "wheel.blank", "cut the throat away", func(j *Job, m *Machine) { j.Wheel.Throated = true }},
		{"no differential", "cut.feed", "axial feed calls for", func(j *Job, m *Machine) { m.Drive.Differential = NoDifferential }},
		{"no slide", "machine: axial", "axial feed wants", func(j *Job, m *Machine) { m.Axial = Slide{} }},
		{"travel", "machine: axial.travel", "want", func(j *Job, m *Machine) { m.Axial.Travel = 20 }},
	} {
		j, m := acrossJob()
		tt.change(&j, &m)
		wantRefusal(t, j, m, tt.name, tt.path, tt.what)
	}
	j, m := acrossJob()
	j.Wheel.Face = 120
	for _, f := range mustPlan(t, j, m).Findings {
		if f.Path == "wheel.face_width" {
			t.Errorf("a wide face: %s", f.What)
		}
	}
	for _, b := range []Begun{{Step: 3}, {Depth: 4.4, To: 4.5}} {
		if p := NewBegun(j, m, "test", b); !p.Findings.Failed() {
			t.Errorf("%+v is taken up", b)
		}
	}
}

// A plunge that trims the flanks is told, and a tangential feed that does not
// is not: 10° axial at 26.6° of lead trims, 20° does not (see the virtual cut
// in gen/cut).
func TestWayIn(t *testing.T) {
	for _, tt := range []struct {
		pressure float64
		feed     Feed
		told     bool
	}{{10, Radial, true}, {20, Radial, false}, {10, Fly, false}} {
		j, m := flyJob()
		j.Pair.Starts, j.Hob.Starts, j.Pair.Teeth, j.Pair.Pressure = 4, 4, 41, tt.pressure*degree
		j.Hob.Tip, j.Worm.SameAsHob, j.Wheel.Face, j.Wheel.AllowUndercut = 21, true, 0, true // r0 8, tan γ 0.5
		j.Hob.Gashes, j.Cut.Feed, j.Cut.SparkOut, m.Arbor = 9, tt.feed, 1, Arbor{}
		if tt.feed == Fly {
			j.Hob.Gashes = 1
		}
		told := false
		for _, f := range mustPlan(t, j, m).Findings {
			told = told || strings.Contains(f.What, "trims the flanks")
		}
		if told != tt.told {
			t.Errorf("%+v: told %v", tt, told)
		}
	}
}
