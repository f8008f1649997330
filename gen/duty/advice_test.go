package duty

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/geometry"
)

// sluice is the sluice hoist of a water mill, wound by hand.
func sluice() geometry.Pair {
	return geometry.Pair{
		Starts: 1, Teeth: 40, Hand: geometry.Right, Module: 2, WormDiameter: 38.8,
		Pressure: 20 * degree, Addendum: 2, Clearance: 0.5,
	}
}

func ExampleAdvise() {
	a, err := Advise(sluice(), 20, "bronze", Service{Speed: 20, Torque: 20, Turns: 100000})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("sliding %.3f m/s: %s\n", a.Sliding.Low, a.Class.Text)
	fmt.Printf("crank torque to start %.1f to %.1f N·m\n", a.Standing.InputTorque.Low, a.Standing.InputTorque.High)
	fmt.Printf("teeth carry %.1f times the load in bending\n", a.Bending.Margin.Low)
	for _, r := range a.Reverse {
		fmt.Printf("%s: %v\n", r.When, r.Answer)
	}
	// Output:
	// sliding 0.041 m/s: hand motion
	// crank torque to start 1.5 to 2.1 N·m
	// teeth carry 1.7 times the load in bending
	// standing: the wheel is not expected to drive the worm, but friction can fall: never a brake
	// running: the wheel may drive the worm: never a brake
	// shaken: the wheel may drive the worm: never a brake
}

// Without a speed only what needs none is given.
func TestWithoutSpeed(t *testing.T) {
	a := mustAdvise(t, sluice(), 20, "bronze", Service{Torque: 60, Turns: 1000})
	for _, f := range []struct {
		what string
		f    Figure
		want bool
	}{
		{"sliding", a.Sliding, false},
		{"AGMA friction", a.AGMA, false},
		{"handbook friction", a.Handbook, false},
		{"running efficiency", a.Running.Driving, false},
		{"power", a.Power.Output, false},
		{"wear", a.Wear[0].Torque, false},
		{"hours", a.Life.Hours, false},
		{"share of the basis", a.Life.Share, false},
		{"starting efficiency", a.Standing.Driving, true},
		{"starting torque", a.Standing.InputTorque, true},
		{"tangential", a.Tangential, true},
		{"bending margin", a.Bending.Margin, true},
		{"worm turns", a.Life.WormTurns, true},
		{"meetings", a.Life.Meetings, true},
	} {
		if f.f.Known() != f.want {
			t.Errorf("%s: known %v, want %v", f.what, f.f.Known(), f.want)
		}
	}
	if len(a.Reverse) != 2 || a.Class.Text != "" || a.Lubricant.Text != "" {
		t.Errorf("without a speed: %d states, class %q, lubricant %q; want 2 and none", len(a.Reverse), a.Class.Text, a.Lubricant.Text)
	}
}

// By hand: 60 turns/min for 10 h are 36,000 turns, 900 of the wheel; 50,000 h
// are twice the basis.
func TestLife(t *testing.T) {
	a := mustAdvise(t, sluice(), 20, "bronze", Service{Speed: 60, Hours: 10})
	b := mustAdvise(t, sluice(), 20, "bronze", Service{Speed: 60, Turns: 36000})
	if !reflect.DeepEqual(a.Life, b.Life) {
		t.Errorf("by hours %+v, by turns %+v", a.Life, b.Life)
	}
	compare(t, "by hand", []figure{
		{"worm turns", a.Life.WormTurns.Low, 36000, 1e-9},
		{"meetings", a.Life.Meetings.Low, 900, 1e-9},
		{"share", a.Life.Share.Low, 10.0 / 25000, 1e-15},
	})
	c := mustAdvise(t, sluice(), 20, "bronze", Service{Hours: 50000})
	compare(t, "by hand", []figure{{"share", c.Life.Share.Low, 2, 1e-15}})
	if !says(c.Notes, "25,000 h") || says(a.Notes, "25,000 h") {
		t.Error("want the basis noted above 25,000 h and only there")
	}
}

func says(notes []Note, text string) bool {
	for _, n := range notes {
		if strings.Contains(n.Text, text) {
			return true
		}
	}
	return false
}

// Only bronze has published friction and wear; every other material says
// that its range is assumed, and the range holds that of bronze's rules or
// more.
func TestMaterials(t *testing.T) {
	s := Service{Speed: 200, Torque: 20}
	bronze := mustAdvise(t, sluice(), 20, "bronze", s)
	if len(bronze.Wear) != 1 || !bronze.Wear[0].Torque.Known() || bronze.Running.Friction.Source == practice {
		t.Errorf("bronze: %+v", bronze.Wear)
	}
	width := func(f Figure) float64 { return f.High - f.Low }
	for _, m := range gen.Materials() {
		if m == "bronze" {
			continue
		}
		a := mustAdvise(t, sluice(), 20, m, s)
		if a.Wear[0].Torque.Known() || !strings.Contains(a.Wear[0].Torque.Limit, m) {
			t.Errorf("%s: wear %+v, want none and why", m, a.Wear[0])
		}
		if f := a.Running.Friction; f.Source != practice || !strings.Contains(f.Limit, "no published rule") || !(width(f) > width(bronze.Running.Friction)) {
			t.Errorf("%s: running friction %+v", m, f)
		}
		if f := a.Standing.Friction; f.Source != practice || !(width(f) > width(bronze.Standing.Friction)) {
			t.Errorf("%s: standing friction %+v", m, f)
		}
		if !a.Bending.Margin.Known() || !strings.Contains(a.Bending.Margin.Source, "from memory") {
			t.Errorf("%s: bending %+v", m, a.Bending)
		}
		if !says(a.Notes, "No published rule for friction or wear is used for "+m) {
			t.Errorf("%s: no note that nothing is published", m)
		}
		if known := a.AGMA.Known(); known != (m != "acetal") {
			t.Errorf("%s: AGMA friction known %v", m, known)
		}
	}
	if len(stuffs) != len(gen.Materials()) {
		t.Errorf("%d materials, want the %d of a job", len(stuffs), len(gen.Materials()))
	}
}

// Where both rules have a value the range runs from one to the other: 0.05 by
// the handbook's row for 1 m/s, 0.0435 by the AGMA formula, by hand.
func TestRunningFriction(t *testing.T) {
	p := sluice()
	speed := 1 / SlidingSpeed(p, 1)
	a := mustAdvise(t, p, 20, "bronze", Service{Speed: speed})
	b := mustAdvise(t, p, 20, "brass", Service{Speed: speed})
	compare(t, "by hand", []figure{
		{"least friction", a.Running.Friction.Low, 0.0435, 5e-5},
		{"most friction", a.Running.Friction.High, 0.05, 1e-9},
		{"least friction of brass", b.Running.Friction.Low, 0.0435, 5e-5},
		{"most friction of brass", b.Running.Friction.High, 0.075, 1e-9},
		{"least friction that is judged", a.Reverse[1].Friction.Low, 0.0217, 5e-5},
	})
	const out = "think of bronze"
	if says(b.Notes, out) || !says(mustAdvise(t, p, 20, "brass", Service{Speed: 2.01 * speed}).Notes, out) {
		t.Error("want brass to be out of place above 2 m/s and only there")
	}
}

// Above 3 in of centres each casting has its own rating, and the better
// casting never carries less.
func TestCastings(t *testing.T) {
	p := geometry.Pair{Starts: 1, Teeth: 60, Module: 8, WormDiameter: 80, Pressure: 20 * degree}
	a := mustAdvise(t, p, 60, "bronze", Service{Speed: 500, Torque: 900})
	if len(a.Wear) != 3 {
		t.Fatalf("%d ratings, want 3", len(a.Wear))
	}
	for i, r := range a.Wear {
		if r.Casting != Casting(i).String() {
			t.Errorf("rating %d is for %q, want %q", i, r.Casting, Casting(i))
		}
		if i > 0 && !(r.Torque.Low > a.Wear[i-1].Torque.Low) {
			t.Errorf("%s carries %v N·m, %s %v N·m", r.Casting, r.Torque.Low, a.Wear[i-1].Casting, a.Wear[i-1].Torque.Low)
		}
	}
	// By hand: with x = 0.5 the wheel's mean diameter is 480 + 8 mm.
	p.Shift = 0.5
	r := mustAdvise(t, p, 60, "bronze", Service{Speed: 500}).Wear[Sand]
	compare(t, "by hand", []figure{{"mean diameter", 2000 * r.Torque.Low / r.Tangential.Low, 488, 1e-9}})
	p.Shift = 0
	// More face than 0.67 of the worm's diameter carries nothing more.
	if wide := mustAdvise(t, p, 90, "bronze", Service{Speed: 500, Torque: 900}); !reflect.DeepEqual(a.Wear, wide.Wear) {
		t.Error("a face above 0.67 of the worm's diameter counts")
	}
}

// Outside its limits the wear rule gives nothing and says which limit.
func TestWearLimits(t *testing.T) {
	for _, tt := range []struct {
		starts, teeth int
		speed         float64
		want          string
	}{
		{10, 30, 100, "ratios above 3"},
		{1, 101, 100, "ratios above 3"},
		{1, 40, 3601, "3600 turns/min"},
		{1, 40, 0, "speed is not stated"},
		{10, 31, 100, ""},
		{1, 100, 3600, ""},
	} {
		p := sluice()
		p.Starts, p.Teeth = tt.starts, tt.teeth
		r := mustAdvise(t, p, 20, "bronze", Service{Speed: tt.speed}).Wear[0]
		if r.Torque.Known() != (tt.want == "") || !strings.Contains(r.Torque.Limit, tt.want) {
			t.Errorf("%d/%d at %g turns/min: %+v, want %q", tt.starts, tt.teeth, tt.speed, r.Torque, tt.want)
		}
	}
	fast := sluice()
	fast.Module, fast.WormDiameter = 20, 200
	if r := mustAdvise(t, fast, 100, "bronze", Service{Speed: 3500}).Wear[0]; r.Torque.Known() {
		t.Errorf("at %g m/s: %+v, want none", SlidingSpeed(fast, 3500), r.Torque)
	}
}

func TestClasses(t *testing.T) {
	last := ""
	for _, tt := range []struct {
		sliding float64
		class   string
	}{
		{0.049, "hand motion"}, {0.05, "slow"}, {0.49, "slow"}, {0.5, "moderate"}, {2.5, "fast"}, {10, "very fast"}, {99, "very fast"},
	} {
		f := single(tt.sliding, mechanics, "test")
		class, oil := practiceAt(f, "bronze")
		if class.Text != tt.class || !strings.Contains(oil.Text, "no sulphur additive (EP) with bronze") {
			t.Errorf("%g m/s: %q, %q, want %q", tt.sliding, class.Text, oil.Text, tt.class)
		}
		if same := oil.Text == last; same != (tt.sliding == 0.49 || tt.sliding == 99) {
			t.Errorf("%g m/s: lubricant %q after %q", tt.sliding, oil.Text, last)
		}
		last = oil.Text
		if _, dry := practiceAt(f, "acetal"); !strings.HasPrefix(dry.Text, "dry") {
			t.Errorf("acetal at %g m/s: %q", tt.sliding, dry.Text)
		}
	}
	for speed, want := range map[float64]bool{20: true, 30: false} { // 0.041 and 0.061 m/s
		if a := mustAdvise(t, sluice(), 20, "bronze", Service{Speed: speed}); says(a.Notes, "wear hardly counts") != want {
			t.Errorf("%g turns/min, %.3f m/s: wear hardly counts %v, want %v", speed, a.Sliding.Low, !want, want)
		}
	}
}

// Nothing may be read as a promise that the pair holds a load.
func TestNeverABrake(t *testing.T) {
	for _, m := range gen.Materials() {
		for _, speed := range []float64{0, 1, 100, 3000} {
			a := mustAdvise(t, sluice(), 20, m, Service{Speed: speed, Torque: 10, Hours: 1})
			all := strings.ToLower(fmt.Sprintf("%+v", a))
			for _, word := range []string{"self-lock", "self lock", "irreversible", "holds a load", "holds the load", "will not drive", "cannot drive"} {
				if strings.Contains(all, word) {
					t.Errorf("%s at %g turns/min says %q", m, speed, word)
				}
			}
			if !says(a.Notes, "Never a brake") {
				t.Errorf("%s at %g turns/min: no caution", m, speed)
			}
			for _, r := range a.Reverse {
				if !strings.HasSuffix(r.Answer.String(), "never a brake") {
					t.Errorf("%s: %q", r.When, r.Answer)
				}
			}
		}
	}
}

func TestRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, tt := range []struct {
		name string
		set  func(p *geometry.Pair, face *float64, material *string, s *Service)
		want string
	}{
		{"no starts", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Starts = 0 }, "starts"},
		{"no teeth", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Teeth = -1 }, "teeth"},
		{"module", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Module = nan }, "axial module"},
		{"module 0", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Module = 0 }, "axial module"},
		{"diameter", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.WormDiameter = -2 }, "reference diameter"},
		{"diameter inf", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.WormDiameter = inf }, "reference diameter"},
		{"pressure", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Pressure = nan }, "pressure angle"},
		{"pressure 90", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Pressure = math.Pi / 2 }, "pressure angle"},
		{"shift", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Shift = nan }, "profile shift"},
		{"shift inf", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Shift = inf }, "profile shift"},
		{"shift too low", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Shift = -30 }, "profile shift"},
		{"steep", func(p *geometry.Pair, _ *float64, _ *string, _ *Service) { p.Starts, p.WormDiameter = 40, 8 }, "lead angle"},
		{"face", func(_ *geometry.Pair, face *float64, _ *string, _ *Service) { *face = nan }, "face width"},
		{"face 0", func(_ *geometry.Pair, face *float64, _ *string, _ *Service) { *face = 0 }, "face width"},
		{"material", func(_ *geometry.Pair, _ *float64, m *string, _ *Service) { *m = "oak" }, `"oak"`},
		{"no material", func(_ *geometry.Pair, _ *float64, m *string, _ *Service) { *m = "" }, "cast iron"},
		{"speed", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Speed = nan }, "speed"},
		{"speed back", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Speed = -1 }, "speed"},
		{"torque", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Torque = -1 }, "torque"},
		{"torque inf", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Torque = inf }, "torque"},
		{"hours", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Hours = nan }, "running time"},
		{"turns", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Turns = -5 }, "turns"},
		{"both", func(_ *geometry.Pair, _ *float64, _ *string, s *Service) { s.Hours, s.Turns = 1, 1 }, "have both"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p, face, material, s := sluice(), 20.0, "bronze", Service{Speed: 60, Torque: 10}
			tt.set(&p, &face, &material, &s)
			a, err := Advise(p, face, material, s)
			if err == nil {
				t.Fatalf("accepted: %+v", a)
			}
			if text := err.Error(); !strings.Contains(text, tt.want) || !strings.Contains(text, "want ") || !strings.Contains(text, "have ") {
				t.Errorf("%q, want %q with what was wanted and had", text, tt.want)
			}
		})
	}
}
