package proof

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// A leg is a way to a place and a stay there.
type leg struct {
	to          gen.Place
	seconds     float64 // on the way
	hob, work   float64 // turns on the way, signed
	stay        float64 // turns of the hob there, signed
	staySeconds float64
	line        int // of the program, where the way ends
	stayLine    int
}

// legs gathers a motion into ways and stays, so that a stay in two dwells is
// the same as one in one. Places nearer than least are one.
func legs(m gen.Motion, least float64) []leg {
	list := []leg{{to: m[0].Place}}
	for i := 1; i < len(m); i++ {
		k, before := m[i], m[i-1]
		last := &list[len(list)-1]
		if near(k.Place, last.to, least) {
			last.stay += k.Hob - before.Hob
			last.staySeconds += k.Seconds - before.Seconds
			last.stayLine = k.Line
			continue
		}
		list = append(list, leg{
			to: k.Place, seconds: k.Seconds - before.Seconds, hob: k.Hob - before.Hob, work: k.Work - before.Work,
			line: k.Line, stayLine: k.Line,
		})
	}
	return list
}

// difference tells of the first place where the program does not do what was
// meant. What comes after it follows from it.
func (v *prover) difference() {
	severity := gen.Caution
	if v.options.Strict {
		severity = gen.Error
	}
	tell := func(line int, text string) {
		v.find(severity, line, "write the program anew, or be sure that the change is wanted", "%s", text)
	}
	least := v.resolution()
	meant, have := legs(v.meant, least), legs(v.slow, least)
	for i, want := range meant {
		if i >= len(have) {
			tell(v.slow[len(v.slow)-1].Line, "ends before "+v.where(want.to))
			return
		}
		if i > 0 {
			have = v.join(have, i, meant[i-1].to, want.to)
		}
		if line, text := v.differs(have, i, want); text != "" {
			tell(line, text)
			return
		}
	}
	if len(have) > len(meant) {
		next := have[len(meant)]
		tell(next.line, "goes on to "+v.where(next.to)+", meant to have ended")
	}
}

// join makes one leg of those from the i-th on that lie on the way between
// two places: a long way may be written in parts.
func (v *prover) join(have []leg, i int, from, to gen.Place) []leg {
	least := v.resolution()
	for i+1 < len(have) && have[i].stay == 0 && !near(have[i].to, to, least) && onTheWay(from, to, have[i].to, least) {
		have[i+1].seconds += have[i].seconds
		have[i+1].hob += have[i].hob
		have[i+1].work += have[i].work
		have = append(have[:i], have[i+1:]...)
	}
	return have
}

// differs words how the i-th leg is not the one that was meant, with the line
// to blame; no text where it is.
func (v *prover) differs(have []leg, i int, want leg) (line int, text string) {
	got, to := have[i], v.where(want.to)
	coordinated := v.plan.Machine.Drive.Kind == gen.Coordinated
	rim := math.Pi * v.plan.Pair.WheelDiameter() // of one work turn, mm
	timed := func(got, want float64) bool {
		return !coordinated || want == 0 || math.Abs(got/want-1) < 0.01
	}
	switch {
	case !near(got.to, want.to, v.resolution()):
		return got.line, fmt.Sprintf("goes to %s, meant %s", v.where(got.to), to)
	case i == 0 && got.stay == 0 && want.stay != 0 && len(have) > 1:
		return have[1].line, fmt.Sprintf("goes to %s, meant to start at %s", v.where(have[1].to), to)
	case i > 0 && !alike(got.hob, want.hob, coordinated, v.tolerance()):
		return got.line, fmt.Sprintf("turns the hob by %s on the way to %s, meant %s", turns(got.hob), to, turns(want.hob))
	case i > 0 && coordinated && math.Abs(got.work-want.work)*rim > 1e-3:
		return got.line, fmt.Sprintf("turns the work by %s on the way to %s, meant %s", turns(got.work), to, turns(want.work))
	case i > 0 && !timed(got.seconds, want.seconds):
		return got.line, fmt.Sprintf("takes %s s to %s, meant %s", gen.Fixed(got.seconds, 1), to, gen.Fixed(want.seconds, 1))
	case !v.stays(got, want):
		return got.stayLine, fmt.Sprintf("stays for %s of the hob at %s, meant %s", turns(got.stay), to, turns(want.stay))
	case !timed(got.staySeconds, want.staySeconds):
		return got.stayLine, fmt.Sprintf("stays for %s s at %s, meant %s", gen.Fixed(got.staySeconds, 1), to, gen.Fixed(want.staySeconds, 1))
	}
	return 0, ""
}

// resolution is by how much two places may differ and still be written the
// same, mm.
func (v *prover) resolution() float64 {
	l := v.plan.Machine.Language
	if l.Base == gen.NoLanguage {
		return 1e-6
	}
	return 0.51 * l.Units.Millimetres() * math.Pow10(-l.LengthDecimals)
}

// tolerance is the relative error of the spindle's speed and a little for the
// rounding of feeds.
func (v *prover) tolerance() float64 { return v.plan.Machine.Spindle.Tolerance + 0.01 }

// stays tells whether a stay is as long as it was meant: in the cut never
// shorter at the slow end of the spindle's tolerance, and never longer than
// that tolerance and rounding up make it.
func (v *prover) stays(got, want leg) bool {
	if v.plan.Machine.Drive.Kind == gen.Coordinated {
		return alike(got.stay, want.stay, true, 0)
	}
	const little = 0.3 // seconds by which rounding up may lengthen a stay
	spare := v.tolerance() * math.Abs(want.stay)
	short := math.Abs(want.stay) - math.Abs(got.stay)
	if v.engaged(want.to) && short > 1e-6 || short > spare+1e-6 || got.stay*want.stay < 0 {
		return false
	}
	return -short <= spare+little*v.plan.Speed.Spindle/60
}

// alike compares turns on the way: exact where the control moves both axes,
// else as near as the spindle's speed is known.
func alike(got, want float64, exact bool, tolerance float64) bool {
	if exact {
		return math.Abs(got-want) < 1e-4
	}
	return math.Abs(got-want) <= tolerance*math.Abs(want)+1e-6
}

func near(a, b gen.Place, tolerance float64) bool {
	return math.Abs(a.Distance-b.Distance) <= tolerance && math.Abs(a.Tangential-b.Tangential) <= tolerance && math.Abs(a.Axial-b.Axial) <= tolerance
}

// onTheWay tells whether a place lies between two others.
func onTheWay(from, to, at gen.Place, near float64) bool {
	whole := distance(from, to)
	return math.Abs(distance(from, at)+distance(at, to)-whole) <= 2*near
}

func distance(a, b gen.Place) float64 {
	return math.Hypot(math.Hypot(a.Distance-b.Distance, a.Tangential-b.Tangential), a.Axial-b.Axial)
}

// where words a place as the depth from first touch and the shifts.
func (v *prover) where(at gen.Place) string {
	depth := v.plan.Cycle.Touch - at.Distance
	text := "depth " + v.length(depth)
	if depth < 0 {
		text = v.length(-depth) + " before first touch"
	}
	if at.Tangential != 0 {
		text += ", shift " + v.length(at.Tangential)
	}
	if at.Axial != 0 {
		text += ", axial " + v.length(at.Axial)
	}
	return text
}

func turns(n float64) string { return gen.Fixed(n, 2) + " turns" }
