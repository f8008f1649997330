package mesh

import (
	"math"
	"math/rand/v2"
	"testing"

	"wormwright/gen"
	"wormwright/geometry"
)

// jobs are the examples in which something is hobbed or fly-cut.
var jobs = []string{
	"sluice-hoist", "observatory-dome", "tide-gauge", "turret-clock", "fantail-drive", "orrery", "water-gate",
}

type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// closed wants a solid that is closed, oriented, in one piece and with so many
// holes through it, and whose facets have area in single precision too.
func closed(t fataler, s Solid, holes int) {
	t.Helper()
	if err := s.Check(); err != nil {
		t.Fatalf("%v", err)
	}
	for i, p := range s.Points {
		for _, v := range p {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: point %d is %v", s.Name, i, p)
			}
		}
	}
	// Euler's formula for a surface in one piece without a pinch:
	// points − edges + facets = 2 − 2·holes, with 3/2 as many edges as facets.
	if got, want := len(s.Points)-len(s.Facets)/2, 2-2*holes; got != want {
		t.Fatalf("%s: %d points and %d facets, Euler characteristic %d, want %d", s.Name, len(s.Points), len(s.Facets), got, want)
	}
	if n := pieces(s); n != 1 {
		t.Fatalf("%s: %d pieces, want 1", s.Name, n)
	}
	rough := Solid{Name: s.Name + " in single precision", Facets: s.Facets}
	for _, p := range s.Points {
		rough.Points = append(rough.Points, Point{float64(float32(p[0])), float64(float32(p[1])), float64(float32(p[2]))})
	}
	if err := rough.Check(); err != nil {
		t.Fatalf("%v", err)
	}
}

// pieces is in how many parts a surface falls; points of no facet count too.
func pieces(s Solid) int {
	parent := make([]int32, len(s.Points))
	for i := range parent {
		parent[i] = int32(i)
	}
	find := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	n := len(parent)
	for _, f := range s.Facets {
		for _, j := range f[1:] {
			if a, b := find(f[0]), find(j); a != b {
				parent[a] = b
				n--
			}
		}
	}
	return n
}

// flat wants every facet in an end plane of a solid to face out of it. One
// that is folded over would face in.
func flat(t fataler, s Solid) {
	t.Helper()
	low, high := s.Box()
	for i, f := range s.Facets {
		z := s.Points[f[0]][2]
		if s.Points[f[1]][2] != z || s.Points[f[2]][2] != z {
			continue
		}
		up := s.normal(f)[2]
		if z == high[2] && up < 0 || z == low[2] && up > 0 {
			t.Fatalf("%s: facet %d at z %v, of %.3g mm², is folded over", s.Name, i, z, s.area(f))
		}
	}
}

// blankVolume is that of a blank, mm³, by the midpoint rule.
func blankVolume(b geometry.Blank) float64 {
	const steps = 20000
	var sum float64
	for i := range steps {
		r := b.Radius(b.Face * ((float64(i)+0.5)/steps - 0.5))
		sum += math.Pi * r * r * b.Face / steps
	}
	return sum
}

func mustWheel(t testing.TB, p *gen.Plan, chord float64) Solid {
	t.Helper()
	s, err := WheelOf(p, chord)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func mustWorm(t testing.TB, w Worm) Solid {
	t.Helper()
	s, err := w.Solid()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// somewhere is a point of one of the facets, any facet as likely as another.
func somewhere(s Solid, random *rand.Rand) (at Point) {
	f := s.Facets[random.IntN(len(s.Facets))]
	u, v := random.Float64(), random.Float64()
	if u+v > 1 {
		u, v = 1-u, 1-v
	}
	for i := range at {
		a, b, c := s.Points[f[0]][i], s.Points[f[1]][i], s.Points[f[2]][i]
		at[i] = a + u*(b-a) + v*(c-a)
	}
	return at
}
