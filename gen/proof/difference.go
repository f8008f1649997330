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
// the same as one in one.
func legs(m gen.Motion) []leg {
	list := []leg{{to: m[0].Place}}
	for i := 1; i < len(m); i++ {
		k, before := m[i], m[i-1]
		last := &list[len(list)-1]
		if k.Place == last.to {
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
	tell := func(line int, format string, args ...any) {
		v.find(severity, line, "write the program anew, or be sure that the change is wanted", "%s", fmt.Sprintf(format, args...))
	}
	meant, have := legs(v.meant), legs(v.slow)
	least := v.resolution()
	coordinated := v.plan.Machine.Drive.Kind == gen.Coordinated
	for i, want := range meant {
		if i >= len(have) {
			line := 0
			if n := len(v.slow); n > 0 {
				line = v.slow[n-1].Line
			}
			tell(line, "ends before %s", v.where(want.to))
			return
		}
		got := have[i]
		// A long way may be written in parts.
		for i+1 < len(have) && !near(got.to, want.to, least) && got.stay == 0 && onTheWay(meant[max(i-1, 0)].to, want.to, got.to, least) {
			next := have[i+1]
			next.seconds += got.seconds
			next.hob += got.hob
			next.work += got.work
			got = next
			have = append(have[:i], have[i+1:]...)
			have[i] = got
		}
		switch {
		case !near(got.to, want.to, least):
			tell(got.line, "goes to %s, meant %s", v.where(got.to), v.where(want.to))
			return
		case i > 0 && !alike(got.hob, want.hob, coordinated, v.tolerance()):
			tell(got.line, "turns the hob by %s on the way to %s, meant %s", turns(got.hob), v.where(want.to), turns(want.hob))
			return
		case coordinated && i > 0 && math.Abs(got.work-want.work)*math.Pi*v.plan.Pair.WheelDiameter() > 1e-3:
			tell(got.line, "turns the work by %s on the way to %s, meant %s", turns(got.work), v.where(want.to), turns(want.work))
			return
		case got.stay == 0 && want.stay != 0 && i == 0 && len(have) > 1:
			tell(have[1].line, "goes to %s, meant to start at %s", v.where(have[1].to), v.where(want.to))
			return
		case !v.stays(got, want):
			tell(got.stayLine, "stays for %s of the hob at %s, meant %s", turns(got.stay), v.where(want.to), turns(want.stay))
			return
		case coordinated && want.staySeconds > 0 && !(math.Abs(got.staySeconds/want.staySeconds-1) < 0.01):
			tell(got.stayLine, "stays for %s s at %s, meant %s", gen.Fixed(got.staySeconds, 1), v.where(want.to), gen.Fixed(want.staySeconds, 1))
			return
		case coordinated && want.seconds > 0 && !(math.Abs(got.seconds/want.seconds-1) < 0.01):
			tell(got.line, "takes %s s to %s, meant %s", gen.Fixed(got.seconds, 1), v.where(want.to), gen.Fixed(want.seconds, 1))
			return
		}
	}
	if len(have) > len(meant) {
		tell(have[len(meant)].line, "goes on to %s, meant to have ended", v.where(have[len(meant)].to))
	}
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
