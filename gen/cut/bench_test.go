package cut

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/floats"

	"wormwright/gen"
	"wormwright/geometry"
)

func bench(b *testing.B, s Setup, m gen.Motion) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		mustRun(b, s, m)
	}
}

// everyPass asks for the volume after each hob turn, so that no pass can stand
// for another.
func everyPass(s Setup, m gen.Motion) Setup {
	turns := int(m[len(m)-1].Hob)
	s.Times = floats.Span(make([]float64, turns+1), 0, float64(turns))
	return s
}

// The worked case: 40 spaces, 18 steps of infeed held one work turn each, 21
// planes, 46 radii, every pass of every tooth.
func BenchmarkWholeWheel(b *testing.B) {
	s := checkSetup()
	m := steps(s, 1, infeed()...)
	bench(b, everyPass(s, m), m)
}

// The same, nobody asking for volumes in between: every step is held for whole
// work turns in step, so that spaces are alike.
func BenchmarkAlike(b *testing.B) {
	s := checkSetup()
	bench(b, s, steps(s, 1, infeed()...))
}

// The same infeed without any steps: no two images are the same.
func BenchmarkContinuous(b *testing.B) {
	s := checkSetup()
	bench(b, s, inMesh(s, at(64.5, 0, 0), leg{720, at(60, 0, 0)}))
}

// A hob with an entering taper, fed tangentially by 1 mm each work turn.
func BenchmarkTangential(b *testing.B) {
	for _, swivel := range []float64{0, 0.05} {
		b.Run(fmt.Sprintf("swivelled:%v", swivel != 0), func(b *testing.B) {
			s := checkSetup()
			s.Swivel = swivel
			s.Hob.Length, s.Hob.Taper, s.Hob.Drop, s.TaperAt = 60, 20, 3, 1
			bench(b, s, inMesh(s, at(60, -50, 0), leg{40 * 60, at(60, 10, 0)}))
		})
	}
}

// Cost grows in step with planes.
func BenchmarkPlanes(b *testing.B) {
	for _, n := range []int{11, 21, 41, 81} {
		b.Run(fmt.Sprintf("planes=%d", n), func(b *testing.B) {
			s := checkSetup()
			s.Planes = floats.Span(make([]float64, n), -10, 10)
			m := steps(s, 1, infeed()...)
			bench(b, everyPass(s, m), m)
		})
	}
}

// Cost grows in step with passes.
func BenchmarkPasses(b *testing.B) {
	for _, n := range []int{5, 10, 20, 40} {
		b.Run(fmt.Sprintf("gashes=%d", n), func(b *testing.B) {
			s := checkSetup()
			s.Hob.Gashes = n
			m := steps(s, 1, infeed()...)
			bench(b, everyPass(s, m), m)
		})
	}
}

// A plain blank under an axial feed of 0.5 mm in a work turn.
func BenchmarkAxial(b *testing.B) {
	for _, n := range []int{5, 10, 20} {
		b.Run(fmt.Sprintf("gashes=%d", n), func(b *testing.B) {
			s := axialSetup()
			s.Hob.Gashes = n
			s.Twist = geometry.Twist(s.Hob.Thread, s.Teeth, 0)
			bench(b, s, across(s, 60, 0.5, s.Twist))
		})
	}
}
