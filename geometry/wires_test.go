package geometry

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

const inch = 25.4

// wormOfInch is a thread of 1 in axial pitch whose lead angle is given, half
// the pitch thick and tall enough to hold its wires.
func wormOfInch(f Form, starts int, lead, pressure float64) Thread {
	r := float64(starts) * inch / (2 * math.Pi * math.Tan(lead))
	return Thread{
		Form: f, Hand: Right, Starts: starts, Module: inch / math.Pi, Reference: r,
		Tip: r + 0.25*inch, Root: r - 0.3683*inch, Pressure: pressure, Thickness: inch / 2, Disk: 250,
	}
}

func mustWires(t testing.TB, th Thread, wire float64) float64 {
	t.Helper()
	m, err := th.OverWires(wire)
	if err != nil {
		t.Fatalf("%v over wires of %v mm: %v", th.Form, wire, err)
	}
	return m
}

// Machinery's Handbook, 31st ed., p. 2136: 29° thread of 1 in axial pitch.
// The tolerance of M is that of the printed wire, rounded to 1e-5 in.
func TestHandbookWires(t *testing.T) {
	for _, tt := range []struct {
		lead       float64
		starts     int
		best, over float64
	}{
		{5, 1, 0.51450, 0.64311},
		{6, 1, 0.51368, 0.64207},
		{5, 2, 0.51443, 0.64290},
		{10, 2, 0.50864, 0.63518},
		{10, 3, 0.50847, 0.63463},
	} {
		th := wormOfInch(ZI, tt.starts, tt.lead*degree, 14.5*degree)
		compare(t, fmt.Sprintf("Machinery's Handbook p. 2136, %v°, %d starts", tt.lead, tt.starts), []check{
			{"best wire, in", th.BestWire() / inch, tt.best, 1e-5},
			{"M − E, in", (mustWires(t, th, tt.best*inch) - 2*th.Reference) / inch, tt.over, 3e-5},
		})
	}
}

// The formula of the same page, which knows no ball and no normal: it must be
// met by ZI at any wire, thickness and lead.
func TestInvoluteWires(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := wormOfInch(ZI, rapid.IntRange(1, 6).Draw(t, "starts"), 0, 0)
		lead := rapid.Float64Range(1, 20).Draw(t, "lead") * degree
		th.Pressure = rapid.Float64Range(18, 30).Draw(t, "pressure") * degree
		th.Reference = th.Screw() / math.Tan(lead)
		th.Tip, th.Root = th.Reference+0.25*inch, th.Reference-0.3*inch
		th.Thickness *= rapid.Float64Range(0.8, 1.1).Draw(t, "thickness")
		wire := th.BestWire() * rapid.Float64Range(0.97, 1.05).Draw(t, "wire")

		e, tanA, tanB := 2*th.Reference, math.Tan(th.Pressure), math.Tan(lead)
		f := math.Atan(tanA / tanB)
		rb := e / 2 * math.Cos(f)
		hb := math.Atan(math.Cos(f) / tanB)
		inv := th.Thickness/tanB/e + math.Tan(f) - f + wire/(2*rb*math.Cos(hb)) - math.Pi/float64(th.Starts)
		got, err := th.OverWires(wire)
		if errors.Is(err, ErrWireBottom) {
			t.Skip(err)
		}
		if err != nil && !errors.Is(err, ErrWireLow) {
			t.Fatal(err)
		}
		g, err := Root(func(g float64) float64 { return math.Tan(g) - g - inv }, 0, math.Pi/2*(1-1e-12))
		if err != nil {
			t.Fatal(err)
		}
		want := 2*rb/math.Cos(g) + wire
		if math.Abs(got-want) > 1e-8 {
			t.Fatalf("%.10f, want %.10f", got, want)
		}
	})
}

// Threads of next to no lead are grooves that are turned: the three-wire
// constants of screw threads hold for every form (Machinery's Handbook, 29°
// Acme and 60° threads, from memory). The greatest wire of the Acme table
// touches at the tips, the least stands level with them.
func TestScrewThreadWires(t *testing.T) {
	const (
		lead  = 1e-4 // radians; the lead changes M by its square
		digit = 2e-6 // the constants are printed to six figures
	)
	for _, f := range []Form{ZA, ZN, ZI, ZK} {
		acme := wormOfInch(f, 1, lead, 14.5*degree)
		for _, wire := range []float64{0.49, 0.51645, 0.55, 0.64} {
			over := (mustWires(t, acme, wire*inch) - 2*acme.Reference) / inch
			compare(t, "29° Acme thread, M = E + 4.9939·W − 1.933357·P", []check{
				{fmt.Sprintf("%v, M − E over %v in", f, wire), over, 4.9939*wire - 1.933357, 5e-5*wire + digit},
			})
		}
		compare(t, "29° Acme thread of 1 in pitch", []check{{"best wire, in", acme.BestWire() / inch, 0.51645, 6e-6}})
		if m, err := acme.OverWires(0.48725 * inch); !errors.Is(err, ErrWireLow) || math.Abs(m-2*acme.Tip) > 2e-4*inch {
			t.Errorf("%v: under the least wire of 0.48726 in: %v mm, %v; want %.4f mm and ErrWireLow", f, m, err, 2*acme.Tip)
		}
		mustWires(t, acme, 0.48728*inch)
		mustWires(t, acme, 0.65000*inch)
		if _, err := acme.OverWires(0.65003 * inch); !errors.Is(err, ErrWireTips) {
			t.Errorf("%v: over the greatest wire of 0.65001 in: %v, want ErrWireTips", f, err)
		}

		// the sharp triangle of 60°, H = 0.866025·P, cut off at H/8 and H/4
		sixty := wormOfInch(f, 1, lead, 30*degree)
		sixty.Tip, sixty.Root = sixty.Reference+0.32476*inch, sixty.Reference-0.21651*inch
		compare(t, "60° thread, best wire 0.57735·P, M = E + 3·W − 0.866025·P", []check{
			{"best wire, in", sixty.BestWire() / inch, 0.57735, 6e-6},
			{"M − E over 0.6 in", (mustWires(t, sixty, 0.6*inch) - 2*sixty.Reference) / inch, 3*0.6 - 0.866025, digit},
		})
	}
}

// The handbook's approximation reads high, by the cube of the lead angle for
// a given pitch and number of starts. For a 29° thread of 1 in pitch and one
// start (own arithmetic): over the best wire 0.05 µm at 1° of lead, 0.4 µm at
// 2°, 7 µm at 5°; over a wire a tenth thicker 0.4, 3 and 41 µm.
func TestHandbookApproximation(t *testing.T) {
	for _, tt := range []struct{ wire, at1, at2, at5 float64 }{
		{1, 0.05e-3, 0.4e-3, 7e-3},
		{1.1, 0.4e-3, 3e-3, 41e-3},
	} {
		high := func(lead float64) float64 {
			th := wormOfInch(ZI, 1, lead*degree, 14.5*degree)
			wire := th.BestWire() * tt.wire
			return th.HandbookOverWires(wire) - mustWires(t, th, wire)
		}
		compare(t, fmt.Sprintf("approximation over the exact, wire %v of the best, mm", tt.wire), []check{
			{"at 1°", high(1), tt.at1, 0.15 * tt.at1},
			{"at 2°", high(2), tt.at2, 0.15 * tt.at2},
			{"at 5°", high(5), tt.at5, 0.15 * tt.at5},
			{"twice the lead", high(2) / high(1), 8, 0.2},
		})
	}
}

// T of the approximation is the groove: it follows a thinned thread.
func TestHandbookApproximationThinned(t *testing.T) {
	th := wormOfInch(ZI, 1, 0.5*degree, 14.5*degree)
	th.Thickness -= 0.4
	wire := th.BestWire()
	if got, want := th.HandbookOverWires(wire), mustWires(t, th, wire); math.Abs(got-want) > 1e-5 {
		t.Errorf("thinned by 0.4 mm: %.6f mm, exact %.6f", got, want)
	}
}

// The forms read as good as alike over the best wire and part the farther a
// wire touches from the reference cylinder, with the square of the lead angle
// over the radius: at 5°, one start and 1 in pitch by 10 to 16 µm over a wire
// a tenth thicker (own arithmetic).
func TestFormsOverWires(t *testing.T) {
	apart := func(f Form, starts int, lead, wire float64) float64 {
		th := wormOfInch(ZI, starts, lead*degree, 14.5*degree)
		wire *= th.BestWire()
		zi := mustWires(t, th, wire)
		th.Form = f
		th.Disk = 5 * th.Reference
		return math.Abs(mustWires(t, th, wire) - zi)
	}
	for _, f := range []Form{ZA, ZN, ZK} {
		for starts := 1; starts <= 3; starts += 2 {
			if d := apart(f, starts, 0.1, 1.1); d > 1e-6 {
				t.Errorf("%v, %d starts: %.3g mm from ZI at 0.1° of lead", f, starts, d)
			}
			if d := apart(f, starts, 5, 1); d > 2e-5 {
				t.Errorf("%v, %d starts: %.3g mm from ZI over the best wire, want as good as none", f, starts, d)
			}
		}
		// the radius falls as the lead angle grows, so that it is the cube
		if ratio := apart(f, 1, 2, 1.1) / apart(f, 1, 1, 1.1); math.Abs(ratio-8) > 0.5 {
			t.Errorf("%v: twice the lead makes %.2f times the difference, want about 8", f, ratio)
		}
		if d := apart(f, 1, 5, 1.1); d < 0.010 || d > 0.016 {
			t.Errorf("%v: %.4f mm from ZI at 5°, want 0.010 to 0.016", f, d)
		}
	}
}

// A disk without end makes ZI, nearer as its diameter grows.
func TestLargeDiskOverWires(t *testing.T) {
	th := wormThread(ZI)
	wire := 1.05 * th.BestWire()
	want := mustWires(t, th, wire)
	th.Form = ZK
	last := math.Inf(1)
	for _, th.Disk = range []float64{200, 2e3, 2e4, 2e5, 2e6} {
		d := math.Abs(mustWires(t, th, wire) - want)
		if d > last/5 {
			t.Errorf("disk of %v mm: %.3g mm from ZI, want a fifth of %.3g", th.Disk, d, last)
		}
		last = d
	}
	if last > 1e-6 {
		t.Errorf("largest disk still %.3g mm from ZI", last)
	}
}

// nearest is the least distance between the axis of a wire and the flank of
// the groove it lies in, and the radius of the flank there. The wire's axis
// stands at centre from the thread's, along the lead. Nothing but points of
// the flank enter.
func nearest(t *testing.T, th Thread, centre float64) (distance, radius float64) {
	t.Helper()
	half := mustProfile(t, th)
	sin, cos := math.Sincos(math.Atan(th.Screw() / centre))
	at := func(r, phi float64) float64 {
		s, c := math.Sincos(phi)
		x := math.Pi*th.Module/2 - half(r) + th.Screw()*phi
		y, z := r*c-centre, r*s
		return math.Hypot(x*cos-z*sin, y)
	}
	inPlane := func(r float64) float64 {
		return -peak(func(phi float64) float64 { return -at(r, phi) }, -1.2, 1.2)
	}
	const points = 3000
	distance = math.Inf(1)
	for i := range points + 1 {
		r := th.Root + (th.Tip-th.Root)*float64(i)/points
		if d := inPlane(r); d < distance {
			distance, radius = d, r
		}
	}
	return distance, radius
}

// A straight wire of the computed place touches the flank and cuts none of
// it, along its whole length; the best wire touches at the reference
// cylinder.
func TestWireTouchesFlank(t *testing.T) {
	steep := func(f Form) Thread { // 26.6° of lead
		return Thread{
			Form: f, Hand: Right, Starts: 5, Module: 4, Reference: 20, Tip: 23, Root: 16.5,
			Pressure: AxialAngle(20*degree, LeadAngle(5, 4, 40)), Thickness: 2 * math.Pi, Disk: 150,
		}
	}
	for _, f := range []Form{ZA, ZN, ZI, ZK} {
		for _, th := range []Thread{wormThread(f), steep(f), wormOfInch(f, 1, 5*degree, 14.5*degree)} {
			for _, size := range []float64{1, 1.08} {
				wire := size * th.BestWire()
				m := mustWires(t, th, wire)
				d, r := nearest(t, th, (m-wire)/2)
				// the scan is at most half a point off the least
				if math.Abs(d-wire/2) > 1e-6 {
					t.Errorf("%v, %d starts, %.4f mm: axis of the wire %.7f mm from the flank, want %.7f", f, th.Starts, wire, d, wire/2)
				}
				if size == 1 && math.Abs(r-th.Reference) > (th.Tip-th.Root)/300 {
					t.Errorf("%v, %d starts: best wire touches at %.4f mm, want %.4f", f, th.Starts, r, th.Reference)
				}
			}
		}
	}
}

// Thickness to reading and back.
func TestForWires(t *testing.T) {
	back := func(t interface{ Fatalf(string, ...any) }, th Thread, wire float64) {
		m, err := th.OverWires(wire)
		if err != nil {
			t.Fatalf("%v: %v", th.Form, err)
		}
		want := th.Thickness
		th.Thickness = math.NaN() // not looked at
		got, err := th.ForWires(m, wire)
		if err != nil || !(math.Abs(got-want) <= 1e-9) {
			t.Fatalf("%v: thickness %.12f, %v; want %.12f", th.Form, got, err, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		th := wormThread(rapid.SampledFrom([]Form{ZA, ZN, ZI}).Draw(t, "form"))
		wire := th.BestWire() * rapid.Float64Range(1.02, 1.1).Draw(t, "wire")
		th.Thickness *= rapid.Float64Range(0.95, 1.02).Draw(t, "thickness")
		back(t, th, wire)
	})
	// a disk's groove changes its shape with its width
	for _, thinner := range []float64{0, 0.1, 0.4} {
		th := wormThread(ZK)
		wire := 1.05 * th.BestWire()
		th.Thickness -= thinner
		back(t, th, wire)
	}
}

// A thicker thread lifts the wires, by about cot αx.
func TestWiresRiseWithThickness(t *testing.T) {
	for _, f := range []Form{ZA, ZN, ZI, ZK} {
		th := wormThread(f)
		wire := th.BestWire()
		thick := mustWires(t, th, wire)
		th.Thickness -= 0.02
		got := (thick - mustWires(t, th, wire)) / 0.02
		if want := 1 / math.Tan(th.Pressure); math.Abs(got-want) > 0.04*want {
			t.Errorf("%v: %.4f mm for each mm of thickness, want about cot αx = %.4f", f, got, want)
		}
	}
}

// The mirror image measures the same; twice the worm over twice the wire
// measures twice as much.
func TestWireLaws(t *testing.T) {
	for _, f := range []Form{ZA, ZN, ZI, ZK} {
		th := wormThread(f)
		wire := 1.05 * th.BestWire()
		m := mustWires(t, th, wire)
		left := th
		left.Hand = Left
		if got := mustWires(t, left, wire); got != m {
			t.Errorf("%v, left hand: %v mm, right hand %v mm", f, got, m)
		}
		for _, k := range []float64{0.1, 2, 10} {
			b := th
			for _, length := range []*float64{&b.Module, &b.Reference, &b.Tip, &b.Root, &b.Thickness, &b.Disk} {
				*length *= k
			}
			if got := mustWires(t, b, k*wire); math.Abs(got/k-m) > 1e-9 {
				t.Errorf("%v, scaled by %v: %.12f mm, want %.12f", f, k, got/k, m)
			}
			if got, want := b.BestWire()/k, th.BestWire(); math.Abs(got-want) > 1e-9 {
				t.Errorf("%v, scaled by %v: best wire %.12f mm, want %.12f", f, k, got, want)
			}
		}
	}
}

func TestWiresThatCannotBe(t *testing.T) {
	th := wormThread(ZI) // best wire about 5 mm
	for _, tt := range []struct {
		wire float64
		want error
	}{
		{1, ErrWireBottom},
		{4.5, ErrWireLow},
		{8, ErrWireTips},
		{1e9, ErrWireTips},
	} {
		if m, err := th.OverWires(tt.wire); !errors.Is(err, tt.want) {
			t.Errorf("wire of %v mm: %v, %v; want %v", tt.wire, m, err, tt.want)
		}
	}
	for _, wire := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := th.OverWires(wire); err == nil {
			t.Errorf("wire of %v mm: no error", wire)
		}
		if _, err := th.ForWires(60, wire); err == nil {
			t.Errorf("reading over wires of %v mm: no error", wire)
		}
	}
	wire := th.BestWire()
	for _, m := range []float64{0, 4, 40, 70, 1e9, math.NaN(), math.Inf(1)} {
		for _, f := range []Form{ZI, ZK} {
			if s, err := wormThread(f).ForWires(m, wire); err == nil {
				t.Errorf("%v, reading of %v mm: thickness %v, no error", f, m, s)
			}
		}
	}
	if _, err := th.ForWires(70, wire); !errors.Is(err, ErrReading) {
		t.Errorf("reading of 70 mm: %v, want ErrReading", err)
	}

	// a ball that touches the flanks and yet hangs through the root cylinder
	shallow := wormThread(ZA)
	shallow.Root = 19
	if g, err := shallow.groove(); err != nil {
		t.Fatal(err)
	} else if _, off := g.lay(1.5, shallow.Root); off >= 0 {
		t.Error("the wire of 3 mm touches below the flanks: not the case that is meant")
	}
	if m, err := shallow.OverWires(3); !errors.Is(err, ErrWireBottom) {
		t.Errorf("wire through the root: %v, %v; want ErrWireBottom", m, err)
	}
	// an involute begins at its base cylinder, 15.5 mm here
	based := Thread{
		Form: ZI, Hand: Right, Starts: 5, Module: 4, Reference: 20, Tip: 23, Root: 13.5,
		Pressure: AxialAngle(20*degree, LeadAngle(5, 4, 40)), Thickness: 2 * math.Pi,
	}
	if m, err := based.OverWires(3.08); !errors.Is(err, ErrWireBottom) {
		t.Errorf("wire below the base cylinder: %v, %v; want ErrWireBottom", m, err)
	}

	// a wire hidden between the tips: its thickness is right all the same
	tall := th
	tall.Tip = 26.5
	m, err := tall.OverWires(wire)
	if want := mustWires(t, th, wire); !errors.Is(err, ErrWireLow) || math.Abs(m-want) > 1e-9 {
		t.Errorf("hidden wire: %v, %v; want %v and ErrWireLow", m, err, want)
	}
	if s, err := tall.ForWires(m, wire); !errors.Is(err, ErrWireLow) || math.Abs(s-th.Thickness) > 1e-9 {
		t.Errorf("hidden wire: thickness %v, %v; want %v and ErrWireLow", s, err, th.Thickness)
	}

	// a corner takes the flank away from a wire that touched near the tip
	round := th
	const large = 7.2
	mustWires(t, round, large)
	round.Rounding = 0.6
	if m, err := round.OverWires(large); !errors.Is(err, ErrWireTips) {
		t.Errorf("wire on a rounded corner: %v, %v; want ErrWireTips", m, err)
	}
	if got, want := mustWires(t, round, wire), mustWires(t, th, wire); got != want {
		t.Errorf("corners above the wire change its reading: %v, want %v", got, want)
	}

	for _, spoil := range []func(*Thread){
		func(th *Thread) { th.Module = math.NaN() },
		func(th *Thread) { th.Reference = math.NaN() },
		func(th *Thread) { th.Tip = math.NaN() },
		func(th *Thread) { th.Root = math.NaN() },
		func(th *Thread) { th.Pressure = math.NaN() },
		func(th *Thread) { th.Thickness = math.NaN() },
		func(th *Thread) { th.Rounding = math.NaN() },
		func(th *Thread) { th.Form, th.Disk = ZK, math.NaN() },
	} {
		bad := wormThread(ZA)
		spoil(&bad)
		if m, err := bad.OverWires(wire); err == nil {
			t.Errorf("%+v: %v mm, want an error", bad, m)
		}
	}
	noDisk := wormThread(ZK)
	noDisk.Disk = 0
	if _, err := noDisk.OverWires(wire); !errors.Is(err, ErrDisk) {
		t.Errorf("no disk: %v, want ErrDisk", err)
	}
	if _, err := noDisk.ForWires(56, wire); !errors.Is(err, ErrDisk) {
		t.Errorf("no disk: %v, want ErrDisk", err)
	}
	if w := noDisk.BestWire(); !math.IsNaN(w) {
		t.Errorf("no disk: best wire %v, want NaN", w)
	}
}
