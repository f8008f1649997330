package geometry

import (
	"errors"
	"math"
	"testing"
)

// wormThread is the ZI worm of Elements of Metric Gear Technology, sec. 9:
// m 3, z1 2, d1 44, αn 20°.
func wormThread(f Form) Thread {
	return Thread{
		Form: f, Hand: Right, Starts: 2, Module: 3, Reference: 22, Tip: 25, Root: 18.25,
		Pressure: AxialAngle(20*degree, LeadAngle(2, 3, 44)), Thickness: 3 * math.Pi / 2, Disk: 200,
	}
}

func mustProfile(t testing.TB, th Thread) func(float64) float64 {
	t.Helper()
	half, err := th.Profile()
	if err != nil {
		t.Fatal(err)
	}
	return half
}

// axialAngle is the pressure angle of a profile at a radius.
func axialAngle(half func(float64) float64, r float64) float64 {
	const step = 1e-4
	return math.Atan((half(r-step) - half(r+step)) / (2 * step))
}

// ISO 10828 and DIN 3975 formulas, own arithmetic.
func TestInvoluteHelicoid(t *testing.T) {
	th := wormThread(ZI)
	half := mustProfile(t, th)
	base := math.Acos(math.Cos(th.LeadAngle()) * math.Cos(20*degree))
	compare(t, "ISO 10828 ZI", []check{
		{"axial angle", th.Pressure / degree, 20.170236, 5e-7},
		{"base diameter", 2 * th.BaseRadius(), 15.312664, 5e-7},
		{"base lead angle", base / degree, 21.396862, 5e-7},
		{"base diameter by the base lead angle", 2 * th.BaseRadius(), 2 * 3 / math.Tan(base), 1e-9},
		{"axial angle at 19", axialAngle(half, 19) / degree, 19.728402, 1e-6},
		{"axial angle at 22", axialAngle(half, 22) / degree, 20.170236, 1e-6},
		{"axial angle at 25", axialAngle(half, 25) / degree, 20.455767, 1e-6},
	})
}

// Every form has the thread's thickness and axial angle at the reference
// cylinder: tan αn = tan αx·cos γ.
func TestFormsMeetAtReference(t *testing.T) {
	for _, f := range []Form{ZA, ZN, ZI, ZK} {
		th := wormThread(f)
		half := mustProfile(t, th)
		if got := 2 * half(22); math.Abs(got-th.Thickness) > 1e-9 {
			t.Errorf("%v: thickness %.12f, want %.12f", f, got, th.Thickness)
		}
		tol := 1e-7
		if f == ZK {
			tol = 2e-3 // the disk's normal angle holds at its own reference circle
		}
		if got := axialAngle(half, 22); math.Abs(got-th.Pressure) > tol {
			t.Errorf("%v: axial angle %.9f°, want %.9f°", f, got/degree, th.Pressure/degree)
		}
	}
}

// A disk without end is a plane, and a plane rolls off an involute helicoid.
func TestLargeDiskMakesInvolute(t *testing.T) {
	zk := wormThread(ZK)
	zi := mustProfile(t, wormThread(ZI))
	last := math.Inf(1)
	for _, d := range []float64{200, 2000, 20000, 200000} {
		zk.Disk = d
		half := mustProfile(t, zk)
		var worst float64
		for r := 18.5; r <= 25; r += 0.5 {
			worst = max(worst, math.Abs(half(r)-zi(r)))
		}
		if worst > last/5 {
			t.Errorf("disk %v mm: %.3g mm from ZI, want a fifth of %.3g", d, worst, last)
		}
		last = worst
	}
	if last > 2e-5 {
		t.Errorf("largest disk still %.3g mm from ZI", last)
	}
}

// At small lead angles the forms fall together; their difference goes with
// the square of the lead angle.
func TestFormsAgreeAtSmallLead(t *testing.T) {
	for _, f := range []Form{ZN, ZI, ZK} {
		var worst [2]float64
		for i, starts := range []int{1, 2} {
			a, b := plainHob(Right), plainHob(Right)
			a.Starts, b.Starts = starts, starts
			b.Form, b.Disk = f, 150
			ha, hb := mustProfile(t, a), mustProfile(t, b)
			for r := 17.5; r <= 22.5; r += 0.25 {
				worst[i] = max(worst[i], math.Abs(ha(r)-hb(r)))
			}
		}
		if worst[0] > 0.005 {
			t.Errorf("%v: %.4f mm from ZA at 2.9° of lead, want micrometres", f, worst[0])
		}
		if ratio := worst[1] / worst[0]; ratio < 3 || ratio > 5 {
			t.Errorf("%v: twice the lead makes %.2f times the difference, want about 4", f, ratio)
		}
	}
}

// A rounded corner touches flank and tip and takes nothing from the rest.
func TestRounding(t *testing.T) {
	sharp := plainHob(Right)
	round := sharp
	round.Rounding = 0.4
	hs, hr := mustProfile(t, sharp), mustProfile(t, round)
	// by hand: the arc's lowest point stands ρ·(1 − sin α) below the tip
	joint := 22.5 - 0.4*(1-math.Sin(20*degree))
	for r := 18.0; r < joint-1e-9; r += 0.1 {
		if hs(r) != hr(r) {
			t.Fatalf("flank changed at %v", r)
		}
	}
	if got, want := axialAngle(hr, joint+2e-4), 20*degree; math.Abs(got-want) > 2e-3 {
		t.Errorf("corner leaves the flank at %.4f°, want %.4f°", got/degree, want/degree)
	}
	// by hand: the arc's centre stands tan(45° − α/2)·ρ inside the sharp corner
	if got, want := hr(22.5), hs(22.5)-0.4*math.Tan(35*degree); math.Abs(got-want) > 1e-7 {
		t.Errorf("flat of the tip %.9f, want %.9f", got, want)
	}
	round.Rounding = 5
	if _, err := round.Profile(); !errors.Is(err, ErrRounding) {
		t.Errorf("rounding of 5 mm: %v, want ErrRounding", err)
	}
}

func TestDiskThatCannotBe(t *testing.T) {
	th := wormThread(ZK)
	for _, d := range []float64{0, -3, math.NaN()} {
		th.Disk = d
		if _, err := th.Profile(); !errors.Is(err, ErrDisk) {
			t.Errorf("disk %v: %v, want ErrDisk", d, err)
		}
	}
}
