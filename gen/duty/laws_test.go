package duty

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/geometry"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(math.Abs(a)+math.Abs(b)) }

func drawPair(t *rapid.T) geometry.Pair {
	m := rapid.Float64Range(0.3, 12).Draw(t, "module")
	return geometry.Pair{
		Starts:       rapid.IntRange(1, 4).Draw(t, "starts"),
		Teeth:        rapid.IntRange(12, 400).Draw(t, "teeth"),
		Hand:         geometry.Right,
		Module:       m,
		WormDiameter: m * rapid.Float64Range(5, 25).Draw(t, "quotient"),
		Pressure:     rapid.Float64Range(14.5, 30).Draw(t, "pressure") * degree,
		Shift:        rapid.Float64Range(-0.5, 0.5).Draw(t, "shift"),
	}
}

func drawService(t *rapid.T) Service {
	return Service{
		Speed:  rapid.Float64Range(0.1, 4000).Draw(t, "speed"),
		Torque: rapid.Float64Range(0.01, 5000).Draw(t, "torque"),
		Hours:  rapid.Float64Range(0.1, 60000).Draw(t, "hours"),
	}
}

func drawAdvice(t *rapid.T) (geometry.Pair, float64, string, Service, Advice) {
	p, s := drawPair(t), drawService(t)
	material := rapid.SampledFrom(gen.Materials()).Draw(t, "material")
	face := p.WormDiameter * rapid.Float64Range(0.2, 1.2).Draw(t, "face")
	a, err := Advise(p, face, material, s)
	if err != nil {
		t.Fatal(err)
	}
	return p, face, material, s, a
}

// Efficiency is that of a wedge, tan γ/tan(γ + ρ) with tan ρ = μ/cos α_n; it
// is best at γ = 45° − ρ/2, rises below and falls above, and falls as
// friction rises.
func TestEfficiencyIsThatOfAWedge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		normal := rapid.Float64Range(10, 30).Draw(t, "normal") * degree
		mu := rapid.Float64Range(0.01, 0.35).Draw(t, "friction")
		lead := rapid.Float64Range(0.5, 60).Draw(t, "lead") * degree
		rho := math.Atan(mu / math.Cos(normal))
		e := Efficiency(lead, normal, mu)
		if want := math.Tan(lead) / math.Tan(lead+rho); !near(e, want) {
			t.Fatalf("efficiency %v, wedge %v", e, want)
		}
		if want := max(0, math.Tan(lead-rho)/math.Tan(lead)); !(math.Abs(ReverseEfficiency(lead, normal, mu)-want) < 1e-12) {
			t.Fatalf("reverse efficiency %v, wedge %v", ReverseEfficiency(lead, normal, mu), want)
		}
		best := math.Pi/4 - rho/2
		toward := lead + 0.1*(best-lead)
		if near(lead, best) {
			return
		}
		if closer := Efficiency(toward, normal, mu); !(closer > e) {
			t.Fatalf("efficiency %v at %v, %v nearer to the best lead angle %v", e, lead, closer, best)
		}
		if rougher := Efficiency(lead, normal, mu*1.01); !(rougher < e) {
			t.Fatalf("efficiency %v, %v with more friction", e, rougher)
		}
	})
}

// The wheel drives the worm exactly where the worm's efficiency is above
// (1 − tan²γ)/2, and there alone its own efficiency is above 0.
func TestWheelDrivesAboveHalfLessALittle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		normal := rapid.Float64Range(10, 30).Draw(t, "normal") * degree
		lead := rapid.Float64Range(0.5, 44).Draw(t, "lead") * degree
		border := ReverseFriction(lead, normal)
		tan := math.Tan(lead)
		if e := Efficiency(lead, normal, border); !near(e, (1-tan*tan)/2) {
			t.Fatalf("efficiency at the border %v, want %v", e, (1-tan*tan)/2)
		}
		mu := border * rapid.Float64Range(0.2, 1.8).Draw(t, "part")
		if near(mu, border) {
			return
		}
		drives := ReverseEfficiency(lead, normal, mu) > 0
		if drives != (mu < border) || drives != (Efficiency(lead, normal, mu) > (1-tan*tan)/2) {
			t.Fatalf("friction %v, border %v: drives %v", mu, border, drives)
		}
		f := Figure{Low: mu, High: mu, Source: "test"}
		if got := answer(border, f); got != Resists && !drives || got != Drives && drives {
			t.Fatalf("friction %v, border %v: %v", mu, border, got)
		}
	})
}

// What is lost is friction times sliding speed, whatever the angles.
func TestHeatIsFrictionTimesSliding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _, _, s, a := drawAdvice(t)
		m := a.Running
		for _, end := range []struct{ mu, heat, efficiency, input float64 }{
			{m.Friction.Low, a.Power.Heat.Low, m.Driving.High, m.InputTorque.Low},
			{m.Friction.High, a.Power.Heat.High, m.Driving.Low, m.InputTorque.High},
		} {
			f := NewForces(a.LeadAngle, a.Normal, end.mu, a.Tangential.Low)
			want := end.mu * f.Normal * a.Sliding.Low
			if !(math.Abs(end.heat-want) <= 1e-9*a.Power.Input.High) {
				t.Fatalf("heat %v W, friction times sliding %v W", end.heat, want)
			}
			if want := s.Torque / (p.Ratio() * end.efficiency); !near(end.input, want) {
				t.Fatalf("input torque %v N·m, by efficiency %v", end.input, want)
			}
			// A flank's push and rub add up to what the shafts feel.
			push := math.Hypot(math.Hypot(f.Tangential, f.WormTangential), f.Separating)
			if want := f.Normal * math.Hypot(1, end.mu); !near(push, want) {
				t.Fatalf("forces add up to %v N, want %v", push, want)
			}
		}
	})
}

// Forces, power and margins scale with torque; nothing else does.
func TestScalesWithTorque(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, face, material, s, a := drawAdvice(t)
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		s.Torque *= k
		b, err := Advise(p, face, material, s)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range []struct {
			what string
			x, y Figure
			by   float64
		}{
			{"tangential", a.Tangential, b.Tangential, k},
			{"worm tangential", a.Running.WormTangential, b.Running.WormTangential, k},
			{"separating", a.Standing.Separating, b.Standing.Separating, k},
			{"input torque", a.Running.InputTorque, b.Running.InputTorque, k},
			{"power", a.Power.Output, b.Power.Output, k},
			{"bending margin", a.Bending.Margin, b.Bending.Margin, 1 / k},
			{"bending load", a.Bending.Tangential, b.Bending.Tangential, 1},
			{"efficiency", a.Running.Driving, b.Running.Driving, 1},
			{"friction", a.Running.Friction, b.Running.Friction, 1},
		} {
			if !near(f.x.Low*f.by, f.y.Low) || !near(f.x.High*f.by, f.y.High) {
				t.Fatalf("%s: %v, with %v times the torque %v", f.what, f.x, k, f.y)
			}
		}
		if a.Power.Heat.Low > 1e-6*a.Power.Input.Low && !(math.Abs(a.Power.Heat.Low*k-b.Power.Heat.Low) < 1e-9*b.Power.Input.Low) {
			t.Fatalf("heat: %v, with %v times the torque %v", a.Power.Heat, k, b.Power.Heat)
		}
	})
}

// The mirrored pair has the same numbers.
func TestHandsAreAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, face, material, s, a := drawAdvice(t)
		p.Hand = geometry.Left
		b, err := Advise(p, face, material, s)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("right hand %+v, left hand %+v", a, b)
		}
	})
}

// A pair k times as large carries k² of the bending load at the same stress,
// and slides k times as fast.
func TestScalesWithSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, k := drawPair(t), rapid.Float64Range(0.5, 2).Draw(t, "k")
		q := p
		q.Module *= k
		q.WormDiameter *= k
		x, ok1 := BendingLoad(p, p.Module*5, 40)
		y, ok2 := BendingLoad(q, q.Module*5, 40)
		if ok1 != ok2 || ok1 && !near(x*k*k, y) {
			t.Fatalf("bending load %v N, %v times as large %v N", x, k, y)
		}
		if !near(SlidingSpeed(p, 100)*k, SlidingSpeed(q, 100)) {
			t.Fatalf("sliding %v m/s, %v times as large %v m/s", SlidingSpeed(p, 100), k, SlidingSpeed(q, 100))
		}
	})
}

// Friction and the velocity factor never rise with speed, but where the lines
// of the velocity factor fail to meet.
func TestFallsWithSpeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1e-3, 30).Draw(t, "sliding")
		w := v * rapid.Float64Range(1.0001, 3).Draw(t, "k")
		if !(AGMAFriction(w) < AGMAFriction(v)) {
			t.Fatalf("AGMA friction %v at %v m/s, %v at %v m/s", AGMAFriction(v), v, AGMAFriction(w), w)
		}
		a, ok1 := HandbookFriction(v)
		b, ok2 := HandbookFriction(w)
		if ok1 && ok2 && !(b < a) {
			t.Fatalf("handbook friction %v at %v m/s, %v at %v m/s", a, v, b, w)
		}
		c, ok1 := VelocityFactor(v)
		d, ok2 := VelocityFactor(w)
		if ok1 && ok2 && !(d < c*1.036) {
			t.Fatalf("velocity factor %v at %v m/s, %v at %v m/s", c, v, d, w)
		}
	})
}

// Every known figure is a finite range with its source and limit; every
// unknown one says why.
func TestFiguresAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := drawPair(t), drawService(t)
		if rapid.Bool().Draw(t, "no speed") {
			s.Speed = 0
		}
		if rapid.Bool().Draw(t, "no torque") {
			s.Torque = 0
		}
		if rapid.Bool().Draw(t, "no hours") {
			s.Hours = 0
		}
		p.Teeth = rapid.IntRange(1, 2000).Draw(t, "any teeth")
		if !(MeanDiameter(p) > 0) {
			return
		}
		material := rapid.SampledFrom(gen.Materials()).Draw(t, "material")
		a, err := Advise(p, 10, material, s)
		if err != nil {
			t.Fatal(err)
		}
		for path, f := range figures("Advice", reflect.ValueOf(a)) {
			switch {
			case f.Limit == "":
				t.Fatalf("%s: no limit in %+v", path, f)
			case !f.Known() && (f.Low != 0 || f.High != 0):
				t.Fatalf("%s: values without a source in %+v", path, f)
			case !(f.Low >= 0 && f.Low <= f.High && f.High < math.Inf(1)):
				t.Fatalf("%s: no range in %+v", path, f)
			}
		}
	})
}

// figures walks every Figure of a value.
func figures(path string, v reflect.Value) func(func(string, Figure) bool) {
	return func(yield func(string, Figure) bool) { walk(path, v, yield) }
}

func walk(path string, v reflect.Value, yield func(string, Figure) bool) bool {
	if f, ok := v.Interface().(Figure); ok {
		return yield(path, f)
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if !walk(path+"."+v.Type().Field(i).Name, v.Field(i), yield) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !walk(path, v.Index(i), yield) {
				return false
			}
		}
	}
	return true
}
