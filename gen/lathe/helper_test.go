package lathe

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

const degree = math.Pi / 180

// near compares with a tolerance of its own.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g to %.1g", what, got, want, tolerance)
	}
}

// drawThread draws a worm whose space has a bottom.
func drawThread(t *rapid.T, form geometry.Form) geometry.Thread {
	m := rapid.Float64Range(0.5, 8).Draw(t, "module")
	th := geometry.Thread{
		Form: form, Hand: rapid.SampledFrom([]geometry.Hand{geometry.Right, geometry.Left}).Draw(t, "hand"),
		Starts: rapid.IntRange(1, 4).Draw(t, "starts"), Module: m,
		Reference: m * rapid.Float64Range(10, 25).Draw(t, "quotient") / 2,
		Pressure:  rapid.Float64Range(14, 24).Draw(t, "pressure") * degree,
		Thickness: math.Pi * m / 2 * rapid.Float64Range(0.9, 1).Draw(t, "thickness"),
		Disk:      m * 60,
	}
	th.Tip, th.Root = th.Reference+m, th.Reference-1.25*m
	return th
}

// hoist is the mill's worm on its lathe, changed by change unless that is nil.
func hoist(t testing.TB, change func(*gen.Job, *gen.Lathe)) Worm {
	t.Helper()
	l := jobtest.Lathe(t, "screw-lathe")
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) {
		if change != nil {
			change(j, &l)
		}
	})
	return NewWorm(p, l)
}
