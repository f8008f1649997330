// Package fit tells how a planned pair will bear and run, before metal is
// cut, and what more to feed when its first trial meshes tight.
package fit

import (
	"math"
	"sync"

	"wormwright/gen"
	"wormwright/geometry"
)

// Options say how closely to look. The zero value of a field takes its usual
// one.
type Options struct {
	Film    float64        // that marks a bearing, mm; usually [gen.Film]
	Planes  int            // over the face
	Heights int            // of the flank in each plane
	Places  int            // of the mesh in one pitch
	Swept   geometry.Swept // the space as it was cut; usually the exact one
}

// usual fills in what was left out.
func (o Options) usual() Options {
	if o.Film == 0 {
		o.Film = gen.Film
	}
	if o.Planes == 0 {
		o.Planes = 41
	}
	if o.Heights == 0 {
		o.Heights = 60
	}
	if o.Places == 0 {
		o.Places = 120
	}
	return o
}

// Quick is a grid for many fits in a row, an eighth of the usual one.
var Quick = Options{Planes: 21, Heights: 30, Places: 60}

// A Fit is how worm and wheel go together. Lengths in mm, angles in radians.
type Fit struct {
	Film         float64
	Cut          bool // the wheel is one that was cut in memory, not the exact one
	Sides        [2]Side
	MotionError  float64 // of the wheel, peak to peak over a pitch, of the worse flank
	Interference float64 // of a full thread in the middle of the space, as an arc on the wheel
	Form         float64 // by how much the thread forms of hob and worm differ, in the axial section
	Backlash     Backlash
}

// A Side is one flank and how it bears, by [geometry.Side].
type Side struct {
	geometry.Flank
	geometry.Contact
}

// Backlash is the free play of a pair, least over the mesh; negative where it
// binds.
type Backlash struct {
	Arc    float64 // of the wheel at its reference circle with the worm held
	Normal float64 // between the flanks
	Worm   float64 // turn of the worm with the wheel held
}

// A Mounting is how far a pair stands from where it belongs.
type Mounting struct {
	Distance float64 // of the centres
	Axial    float64 // of the worm's axis from the wheel's middle plane, toward +Z
	Tilt     float64 // of the shaft angle
}

// Of tells how the pair of a plan without errors will bear as mounted.
func Of(p *gen.Plan, o Options, at Mounting) (Fit, error) {
	w, err := newWheel(p, o.usual(), p.Final(), p.Swivelled())
	if err != nil {
		return Fit{}, err
	}
	return w.fit(at)
}

// A wheel is one whose flanks are known, ready to be meshed in many ways.
type wheel struct {
	plan        *gen.Plan
	options     Options
	mesh        geometry.Mesh
	left, right geometry.Flank
	swivel      float64
	share       float64 // of the whole flanks, that is followed
}

// followed is the part of the face on which a worm can come near the flanks,
// mm: all of it, but for teeth that were cut by an axial feed. Those touch in a
// point, about which the film reaches √(2·film·r1/sin α) along the tooth, and
// which goes aside on its way from tip to root as the tooth slants.
func followed(p *gen.Plan, film float64) float64 {
	if p.Job.Cut.Feed.Way() != gen.Axially {
		return p.Blank.Face
	}
	const room = 4 // times what the film reaches, for a pair that is out of place
	reach := math.Sqrt(film * p.Pair.WormDiameter / math.Sin(p.Pair.Pressure))
	return min(p.Blank.Face, 2*(room*reach+p.Engaged.Generating*math.Tan(p.Pair.LeadAngle())))
}

// newWheel follows the flanks of the wheel of a plan, cut at the centre
// distance e with the hob's axis at a swivel.
func newWheel(p *gen.Plan, o Options, e, swivel float64) (wheel, error) {
	blank := p.Blank
	blank.Face = followed(p, o.Film)
	w := wheel{plan: p, options: o, mesh: p.Mesh(), swivel: swivel, share: 1}
	swept := o.Swept
	var err error
	if swept == nil {
		if swept, err = p.Swept(swivel, e); err != nil {
			return wheel{}, err
		}
	}
	if w.left, w.right, err = w.mesh.Flanks(blank, swept, o.Planes, o.Heights); err != nil || blank.Face == p.Blank.Face {
		return w, err
	}
	exact, err := p.Swept(swivel, e) // a space that was cut is known on its own planes only
	if err != nil {
		return wheel{}, err
	}
	whole, _, err := w.mesh.Flanks(p.Blank, exact, o.Planes, 2)
	w.share = height(w.left) * blank.Face / (height(whole) * p.Blank.Face)
	return w, err
}

// height is the mean height of a flank over a face, mm.
func height(f geometry.Flank) float64 {
	var sum float64
	for _, radii := range f.Radii {
		if n := len(radii); n > 0 {
			sum += radii[n-1] - radii[0]
		}
	}
	return sum / float64(len(f.Radii))
}

// touch follows both flanks at the same time.
func (w wheel) touch(m geometry.Mesh) (left, right geometry.Contact, err error) {
	var (
		group sync.WaitGroup
		other error
	)
	group.Go(func() { left, other = m.Touch(w.left, w.options.Places, w.options.Film) })
	right, err = m.Touch(w.right, w.options.Places, w.options.Film)
	group.Wait()
	if err == nil {
		err = other
	}
	return left, right, err
}

func (w wheel) fit(at Mounting) (Fit, error) {
	m := w.mesh
	m.Distance += at.Distance
	m.Axial, m.Tilt = at.Axial, at.Tilt
	left, right, err := w.touch(m)
	if err != nil {
		return Fit{}, err
	}
	for _, c := range [...]*geometry.Contact{&left, &right} {
		c.One *= w.share
		c.All *= w.share
	}
	pair := w.plan.Pair
	arc := m.Backlash(left, right)
	f := Fit{
		Film: w.options.Film, Cut: w.options.Swept != nil,
		Sides:        [2]Side{{w.left, left}, {w.right, right}},
		Interference: w.plan.Interference(w.swivel),
		MotionError:  max(left.MotionError(), right.MotionError()),
		Backlash: Backlash{
			Arc:    arc,
			Normal: arc * math.Cos(pair.NormalPressure()) * math.Cos(pair.LeadAngle()),
			Worm:   arc / m.Worm.Screw(),
		},
	}
	f.Form, err = geometry.FormDifference(w.plan.Hob.Thread, m.Worm, pair.Addendum)
	return f, err
}

// Ratio is how many teeth bear at a time, on average, on the flank with
// fewer.
func (f *Fit) Ratio() float64 { return min(f.Sides[0].Ratio, f.Sides[1].Ratio) }

// Findings tells what is wrong with the fit.
func (f *Fit) Findings() gen.Findings {
	var list gen.Findings
	if !(f.Backlash.Arc >= 0) {
		list = append(list, gen.Finding{
			Severity: gen.Error, Path: "wheel.backlash",
			What:   "the pair binds: the backlash would be " + gen.Fixed(1000*f.Backlash.Arc, 1) + " µm",
			Remedy: "give more backlash, a smaller worm, or swivel the hob to suit it",
		})
	}
	return list
}
