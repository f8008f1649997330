// Package cut cuts a worm wheel in memory: every pass of every gash of the
// hob on every tooth space, just as a motion says, right or wrong.
//
// The frames are those of package geometry. Gashes are straight and parallel
// to the hob's axis, with no rake, so that the edge of a tooth is the
// thread's axial section. A point of it at radius r crosses the plane Z = z
// at the angle φ with r·sin φ = z (swivel 0), which is when the hob has been
// turned to
//
//	ψ = 2π·n − ϑ − φ,  ϑ = 2π·j/gashes,
//
// and it removes what the whole outline, each point at its own crossing,
// encloses there. What is left is, for each tooth space, plane and radius, an
// interval of angles; a hob that stands cuts nothing.
package cut

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"wormwright/gen"
	"wormwright/geometry"
)

// A Setup is what stands on the machine, and the grid on which its cut is
// followed.
type Setup struct {
	Hob     geometry.Hob // endless where its length is 0
	TaperAt float64      // end of the hob with the entering taper: +1 its +u end, −1 the other
	Blank   geometry.Blank
	Teeth   int
	Swivel  float64 // δ
	Twist   float64 // by which an axial feed is to turn the work on, rad/mm; tooth spaces are told apart by it
	geometry.Grid
	Times []float64 // ascending, s: moments by which the removed volume is asked for
}

// Of is what a plan puts on its machine, to be followed on a grid.
func Of(p *gen.Plan, g geometry.Grid) Setup {
	return Setup{
		Hob: p.Hob, TaperAt: p.TaperAt(), Blank: p.Blank, Teeth: p.Pair.Teeth,
		Swivel: p.Swivelled(), Twist: p.Twist(), Grid: g,
	}
}

// A cutter is a setup made ready, which the planes share and only read.
type cutter struct {
	setup    *Setup
	half     func(r float64) float64
	courses  []course
	screw    float64 // h·p
	nominal  float64 // work angle to hob angle in mesh, h·z0/z2
	rolling  float64 // rp
	sin, cos float64 // of the swivel
}

// Run cuts the wheel, planes at the same time on all processors; the result is
// the same to the last bit on any number of them. progress, which may be nil, is told the share that is done,
// growing to 1, one call at a time.
//
// An error tells what of the setup or the motion cannot be.
func Run(s Setup, m gen.Motion, progress func(share float64)) (*Wheel, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	half, err := s.Hob.Profile()
	if err != nil {
		return nil, fmt.Errorf("hob: %w", err)
	}
	list, err := courses(m)
	if err != nil {
		return nil, err
	}
	c := &cutter{
		setup:   &s,
		half:    half,
		courses: list,
		screw:   s.Hob.Hand.Sign() * s.Hob.Screw(),
		nominal: s.Hob.Hand.Sign() * float64(s.Hob.Starts) / float64(s.Teeth),
		rolling: s.Hob.Module * float64(s.Teeth) / 2,
	}
	c.sin, c.cos = math.Sincos(s.Swivel)

	w := &Wheel{
		Teeth: s.Teeth, Blank: s.Blank,
		Planes: slices.Clone(s.Planes), Radii: slices.Clone(s.Radii),
		Removed: make([]float64, len(s.Times)),
		layers:  make([]layer, len(s.Planes)),
		shares:  shares(s.Planes, s.Blank.Face),
	}
	removed := make([][]float64, len(s.Planes))
	var (
		group sync.WaitGroup
		next  atomic.Int64
		lock  sync.Mutex
		done  int
	)
	for range min(runtime.GOMAXPROCS(0), len(s.Planes)) {
		group.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(s.Planes)); i = next.Add(1) - 1 {
				p := newPlane(c, s.Planes[i])
				p.cut()
				w.layers[i], removed[i] = p.layer, p.book.removed
				if progress != nil {
					lock.Lock()
					done++
					progress(float64(done) / float64(len(s.Planes)))
					lock.Unlock()
				}
			}
		})
	}
	group.Wait()
	for i, areas := range removed {
		for j, area := range areas {
			w.Removed[j] += w.shares[i] * area
		}
	}
	return w, nil
}
