package train

import (
	"errors"
	"fmt"
	"math"
)

// A Banjo is what limits the mounting of a train. The zero Banjo knows only
// the rule of thumb that a gear must clear the shafts beside it.
//
// Gears on one stud stand in neighbouring planes, and every shaft is taken to
// pass through all planes. Where the banjo leaves the choice, the train is
// stretched as wide as MaxSpan lets it, which leaves every gear the most room.
type Banjo struct {
	Module  float64 // of the gears, mm, 25.4 over the diametral pitch; 0 where no length below is given
	Bushing float64 // radius of what stands round a shaft or stud, mm; 0 for the rule of thumb

	MinSum, MaxSum   int     // teeth together of two gears in mesh; 0 for no limit
	MinSpan, MaxSpan float64 // from the first shaft to the last, mm, equal where both are fixed; 0 for no limit
}

// thumb is the rule by which trains were tried on paper: the sum of two gears
// in mesh exceeds a gear beside them by so many teeth, for the shaft that it
// must clear (common practice in books on screw cutting, no source).
const thumb = 15

// limits are those of a banjo in teeth, half a module each: two gears in mesh
// stand as far apart as their teeth add up to.
type limits struct {
	room             int // from a gear's pitch circle to the middle of a shaft that it clears
	minSum, maxSum   int
	minSpan, maxSpan float64
	module           float64
}

// free are limits within which everything mounts.
var free = limits{room: math.MinInt32, maxSum: math.MaxInt, maxSpan: math.Inf(1)}

func (b Banjo) limits() (limits, error) {
	for _, v := range []struct {
		name string
		mm   float64
	}{
		{"bushing", b.Bushing}, {"least span", b.MinSpan}, {"greatest span", b.MaxSpan},
	} {
		if !(v.mm >= 0 && v.mm <= 10_000) {
			return limits{}, fmt.Errorf("%s: want 0 to 10000 mm, have %g", v.name, v.mm)
		}
	}
	switch {
	case b.Module != 0 && !(b.Module >= 0.05 && b.Module <= 100):
		return limits{}, fmt.Errorf("module of the gears: want 0.05 to 100 mm, have %g", b.Module)
	case b.Module == 0 && (b.Bushing > 0 || b.MinSpan > 0 || b.MaxSpan > 0):
		return limits{}, errors.New("module of the gears: want one where a bushing or a span is given, have none")
	case b.MinSum < 0 || b.MaxSum < 0:
		return limits{}, fmt.Errorf("teeth in mesh: want 0 or more, have %d to %d", b.MinSum, b.MaxSum)
	case b.MaxSum > 0 && b.MinSum > b.MaxSum:
		return limits{}, fmt.Errorf("teeth in mesh: want the least up to the greatest, have %d to %d", b.MinSum, b.MaxSum)
	case b.MaxSpan > 0 && b.MinSpan > b.MaxSpan:
		return limits{}, fmt.Errorf("span: want the least up to the greatest, have %g to %g mm", b.MinSpan, b.MaxSpan)
	}
	// The slacks are those of the division by the module.
	const slack = 1e-6
	l := limits{room: thumb, minSum: b.MinSum, maxSum: math.MaxInt, maxSpan: math.Inf(1), module: b.Module}
	if b.Bushing > 0 {
		// The addendum is a module, two half ones.
		l.room = 2 + int(math.Ceil(2*b.Bushing/b.Module-slack))
	}
	if b.MaxSum > 0 {
		l.maxSum = b.MaxSum
	}
	if b.MinSpan > 0 {
		l.minSpan = 2*b.MinSpan/b.Module - slack
	}
	if b.MaxSpan > 0 {
		l.maxSpan = 2*b.MaxSpan/b.Module + slack
	}
	return l, nil
}

// An order is a train as it may stand on the banjo: a[i] turns b[i], and
// b[i] and a[i+1] share a stud.
type order struct {
	n     int // pairs
	a, b  [3]int
	idler int // 0 for none
}

// meshes reports whether two gears may stand in mesh.
func (l limits) meshes(a, b int) bool { return a+b >= l.minSum && a+b <= l.maxSum }

// clears reports whether the gear passes the shaft at the far end of a mesh
// of that many teeth.
func (l limits) clears(mesh, gear int) bool { return mesh >= gear+l.room }

// follows reports whether mesh i can stand behind mesh i−1: the driver on
// their stud passes the shaft before it, the driven gear the one after.
func (l limits) follows(o *order, i int) bool {
	return l.clears(o.a[i-1]+o.b[i-1], o.a[i]) && l.clears(o.a[i]+o.b[i], o.b[i-1])
}

// mounts reports whether the train can stand in that order.
func (l limits) mounts(o *order) bool {
	if o.idler > 0 {
		return l.meshes(o.a[0], o.idler) && l.meshes(o.idler, o.b[0]) && l.spans(o)
	}
	for i := range o.n {
		if !l.meshes(o.a[i], o.b[i]) || i > 0 && !l.follows(o, i) {
			return false
		}
	}
	return l.spans(o)
}

// arrange calls found with every order of the gears of o that mounts, from
// place i on, until it returns true; a nil found does at once. It returns
// whether it was stopped, o then being that order, else o is as it was.
func (l limits) arrange(o *order, i int, found func() bool) bool {
	if i == o.n {
		return l.spans(o) && (found == nil || found())
	}
	for j := i; j < o.n; j++ {
		o.a[i], o.a[j] = o.a[j], o.a[i]
		for k := i; k < o.n; k++ {
			o.b[i], o.b[k] = o.b[k], o.b[i]
			if l.meshes(o.a[i], o.b[i]) && (i == 0 || l.follows(o, i)) && l.arrange(o, i+1, found) {
				return true
			}
			o.b[i], o.b[k] = o.b[k], o.b[i]
		}
		o.a[i], o.a[j] = o.a[j], o.a[i]
	}
	return false
}

// hasMiddle reports whether o, each side sorted, has two gears for the middle
// one of three meshes, which must clear a driver behind it and a driven gear
// before it. It refuses at once most of what [limits.arrange] would refuse at
// length.
func (l limits) hasMiddle(o *order) bool {
	if o.n < 3 {
		return true
	}
	// The smallest of the others, with each gear in the middle.
	behind := [3]int{o.a[1], o.a[0], o.a[0]}
	before := [3]int{o.b[1], o.b[0], o.b[0]}
	for i, a := range o.a {
		for j, b := range o.b {
			if l.clears(a+b, max(behind[i], before[j])) {
				return true
			}
		}
	}
	return false
}

// bridges looks for an idler, smallest first, with which a simple train mounts.
func (l limits) bridges(o *order, spare func(teeth int) bool, teeth []int) bool {
	for _, z := range teeth {
		with := *o
		with.idler = z
		if spare(z) && l.mounts(&with) {
			*o = with
			return true
		}
	}
	return false
}

// room is the least that a mesh is longer than a gear beside it, in teeth.
func (o *order) room() int {
	room := math.MaxInt
	for i := 1; i < o.n; i++ {
		room = min(room, o.a[i-1]+o.b[i-1]-o.a[i], o.a[i]+o.b[i]-o.b[i-1])
	}
	return room
}

// roomiest returns the order with the most room between gears and shafts
// among those that mount, the first of several, and whether any does.
func (l limits) roomiest(o order) (best order, ok bool) {
	most := 0
	l.arrange(&o, 0, func() bool {
		if room := o.room(); !ok || room > most {
			best, most, ok = o, room, true
		}
		return false
	})
	return best, ok
}

// fault says why the train cannot stand in that order, empty where it can.
func (l limits) fault(o order) string {
	for i := range o.n {
		if a, b := o.a[i], o.b[i]; !l.meshes(a, b) {
			if a+b < l.minSum {
				return fmt.Sprintf("%d and %d in mesh have %d teeth together, want %d or more", a, b, a+b, l.minSum)
			}
			return fmt.Sprintf("%d and %d in mesh have %d teeth together, want %d or fewer", a, b, a+b, l.maxSum)
		}
		if i == 0 {
			continue
		}
		before, after := o.a[i-1]+o.b[i-1], o.a[i]+o.b[i]
		if !l.clears(before, o.a[i]) {
			return fmt.Sprintf("the driver of %d on stud %d fouls the shaft before it: want %d or more teeth in mesh there, have %d",
				o.a[i], i, o.a[i]+l.room, before)
		}
		if !l.clears(after, o.b[i-1]) {
			return fmt.Sprintf("the driven gear of %d on stud %d fouls the shaft after it: want %d or more teeth in mesh there, have %d",
				o.b[i-1], i, o.b[i-1]+l.room, after)
		}
	}
	if l.spans(&o) {
		return ""
	}
	mm := func(teeth float64) float64 { return teeth * l.module / 2 }
	reach := o.reach()
	switch {
	case !l.reaches(&o):
		return fmt.Sprintf("it reaches %.4g mm from the first shaft to the last, want %.4g mm", mm(reach), mm(l.minSpan))
	case o.n == 1:
		return fmt.Sprintf("its shafts stand %.4g mm apart, want %.4g mm", mm(reach), mm(l.maxSpan))
	}
	return fmt.Sprintf("its gears and studs do not go between shafts %.4g mm apart", mm(min(reach, l.maxSpan)))
}
