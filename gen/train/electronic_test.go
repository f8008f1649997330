package train

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestElectronic(t *testing.T) {
	for _, tt := range []struct {
		want        string
		limit       int
		over, under int
		exact       bool
		source      string
	}{
		{"240000/163840", 1 << 20, 375, 256, true, "reduced by hand"},
		{"pi", 300, 289, 92, false, "best fractions of π, OEIS A063674 and A063673 (from memory)"},
		{"pi", 354, 333, 106, false, "the same"},
		{"pi", 355, 355, 113, false, "Metius"},
		{"pi", 52162, 355, 113, false, "the same: nothing is nearer before 52163/16604"},
		{"pi", 52163, 52163, 16604, false, "the same"},
		{"pi", 103993, 103993, 33102, false, "convergents of π, OEIS A002485 and A002486 (from memory)"},
		{"355/113", 354, 333, 106, false, "the neighbour of 355/113: 355·106 − 333·113 = 1"},
		{"355/113", 355, 355, 113, true, "it fits"},
		{"1000", 30, 30, 1, false, "beyond the limit"},
		{"1/1000", 30, 1, 30, false, "beyond the limit"},
		{"3/2", 2, 1, 1, false, "1/1 and 2/1 are equally near"},
		{"1", 1, 1, 1, true, "the smallest register"},
	} {
		f, err := Electronic(must(t, tt.want), tt.limit)
		if err != nil || f.Over != tt.over || f.Under != tt.under || f.Exact != tt.exact {
			t.Errorf("Electronic(%s, %d) = %+v, %v, want %d/%d, exact %v (%s)",
				tt.want, tt.limit, f, err, tt.over, tt.under, tt.exact, tt.source)
		}
		if f.Exact != (f.PPM == 0) {
			t.Errorf("Electronic(%s, %d): exact %v at %v ppm", tt.want, tt.limit, f.Exact, f.PPM)
		}
	}
	if f, _ := Electronic(must(t, "pi"), 400); math.Abs(f.PPM-0.0849) > 0.0001 {
		t.Errorf("355/113 is off by %v ppm, want 0.0849", f.PPM) // 355/113/π − 1 = 8.49e-8, well known
	}
	for _, limit := range []int{0, -1} {
		if _, err := Electronic(must(t, "pi"), limit); err == nil {
			t.Errorf("limit %d passes", limit)
		}
	}
	if _, err := Electronic(Ratio{}, 10); err == nil {
		t.Error("no ratio passes")
	}
	if f, err := Electronic(must(t, "pi"), math.MaxInt); err != nil || math.Abs(f.PPM) > 1e-28 {
		t.Errorf("π in the largest register: %+v, %v", f, err)
	}
}

// No fraction within the limit is nearer.
func TestElectronicIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := big.NewRat(rapid.Int64Range(1, 400).Draw(t, "over"), rapid.Int64Range(1, 400).Draw(t, "under"))
		want, err := NewRatio(q, rapid.IntRange(-1, 1).Draw(t, "pi"))
		if err != nil {
			t.Fatal(err)
		}
		limit := rapid.IntRange(1, 60).Draw(t, "limit")
		var over, under int
		var least *big.Rat
		// From small denominators up, so that the first of equals is kept.
		for d := 1; d <= limit; d++ {
			for n := 1; n <= limit; n++ {
				off := big.NewRat(int64(n), int64(d))
				off.Abs(off.Sub(off, want.value()))
				if least == nil || off.Cmp(least) < 0 {
					over, under, least = n, d, off
				}
			}
		}
		f, err := Electronic(want, limit)
		if err != nil || f.Over != over || f.Under != under {
			t.Fatalf("Electronic(%v, %d) = %+v, %v, want %d/%d", want, limit, f, err, over, under)
		}
		if f.Exact != (least.Sign() == 0 && want.pi == 0) {
			t.Fatalf("%+v: exact is wrong", f)
		}
	})
}

func TestDrive(t *testing.T) {
	near := func(name string, got, want, tol float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s = %v, want %v", name, got, want)
		}
	}
	near("1 ppm over a metre", OverLength(1, 1000), 1, 1e-12)                    // by hand
	near("100 ppm at radius 50, 10 turns", AtRim(100, 50, 10), 314.159265, 1e-6) // 2π·50·10·0.1 µm
	step, err := StepAtRim(20000, 40)
	if err != nil {
		t.Error(err)
	}
	near("a step of 20000 at radius 40", step, 12.566371, 1e-6) // 2π·40/20000 mm

	// A tide gauge's wheel of 81 teeth under 60000 steps a turn, by hand:
	// 81·740 = 59940.
	if n, left, err := StepsPerTooth(60000, 81); n != 740 || left != 60 || err != nil {
		t.Errorf("StepsPerTooth = %d, %d, %v", n, left, err)
	}
	if n, left, err := StepsPerTooth(60000, 40); n != 1500 || left != 0 || err != nil {
		t.Errorf("StepsPerTooth = %d, %d, %v", n, left, err)
	}

	// 20000 steps a second over 60000 a work turn are 20 work turns a minute,
	// with 1/40 work turn a hob turn 800.
	speed, err := HighestHobSpeed(20000, 60000, must(t, "1/40"))
	if err != nil {
		t.Error(err)
	}
	near("highest hob speed", speed, 800, 1e-9)

	for name, err := range map[string]error{
		"no teeth": second(StepsPerTooth(1, 0)),
		"no steps": second(StepsPerTooth(0, 1)),
	} {
		if err == nil {
			t.Errorf("%s pass", name)
		}
	}
	for _, rate := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := HighestHobSpeed(rate, 1, one()); err == nil {
			t.Errorf("a rate of %v passes", rate)
		}
	}
	if _, err := HighestHobSpeed(1, 0, one()); err == nil {
		t.Error("a motor without steps passes")
	}
	if _, err := HighestHobSpeed(1, 1, Ratio{}); err == nil {
		t.Error("no ratio passes")
	}
	if _, err := StepAtRim(0, 1); err == nil {
		t.Error("a motor without steps passes")
	}
}

func second(_, _ int, err error) error { return err }
