package gen

import (
	"math"

	"wormwright/geometry"
)

// Thread is the worm's thread, thinned for the backlash as the plan says.
func (p *Plan) Thread() geometry.Thread {
	return geometry.Thread{
		Form: p.Job.Worm.Form, Hand: p.Pair.Hand, Starts: p.Pair.Starts, Module: p.Pair.Module,
		Reference: p.Worm.ReferenceDiameter / 2, Tip: p.Worm.TipDiameter / 2, Root: p.Worm.RootDiameter / 2,
		Pressure: p.Pair.Pressure, Thickness: p.Worm.Thickness, Disk: p.Job.Worm.Disk,
	}
}

// Mesh is the pair at its running centre distance.
func (p *Plan) Mesh() geometry.Mesh {
	return geometry.Mesh{Worm: p.Thread(), Length: p.Worm.Length, Teeth: p.Pair.Teeth, Distance: p.Pair.CentreDistance()}
}

// Swivelled is the swivel at which the hob's axis will stand.
func (p *Plan) Swivelled() float64 {
	if p.Job.Setup.Swivel {
		return geometry.Swivel(p.Pair, p.Hob)
	}
	return 0
}

// Film is how near to the worm a flank must come to be marked, by the usual
// thickness of marking paste, mm. Common practice, no source.
const Film = 0.006

// judgeBearing tells how the pair bears if the hob is left square to the work
// although its lead angle is not the worm's.
func (p *Plan) judgeBearing() {
	swivel := geometry.Swivel(p.Pair, p.Hob)
	if p.Job.Setup.Swivel || swivel == 0 || p.Findings.Failed() {
		return
	}
	square, ok := p.glance(0)
	turned, too := p.glance(swivel)
	if !ok || !too {
		return // no part of the flank meets the worm: other findings say so
	}
	const (
		aside = 0.1  // of the face, that a bearing may lie beside the middle
		fouls = 1e-3 // mm
	)
	beside := func(mm float64) string {
		u := p.Job.Units
		return Fixed(mm/u.Millimetres(), 2) + " " + u.String()
	}
	if square.aside-turned.aside > aside*p.Blank.Face || square.fouls-turned.fouls > fouls {
		p.Findings.cautionf("setup.swivel", p.SwivelWords()+" and set setup.swivel: true, or make the worm larger",
			"hob and worm differ by %s of lead angle: left square, the hob makes the flanks bear %s beside the middle of the face, each to its own side, and a full thread foul by %.1f µm; swivelled, %s and %.1f µm",
			degrees(math.Abs(swivel)), beside(square.aside), 1000*square.fouls, beside(turned.aside), 1000*turned.fouls)
	}
}

// Interference is by how much a full thread, half the pitch thick, would be
// in the metal of a wheel cut with the hob's axis at a swivel, as an arc on
// the wheel; 0 where the worm does not reach the wheel.
func (p *Plan) Interference(swivel float64) float64 {
	g, _ := p.glance(swivel)
	return g.fouls
}

// A glance is the coarsest look at a bearing, mm.
type glance struct {
	aside float64 // of its middle from that of the face, on the worse flank
	fouls float64 // a thread of half the pitch
}

func (p *Plan) glance(swivel float64) (g glance, ok bool) {
	const planes, heights, places = 15, 12, 12
	swept, err := p.Swept(swivel, geometry.CuttingDistance(p.Pair, p.Hob))
	if err != nil {
		return glance{}, false
	}
	m := p.Mesh()
	m.Worm.Thickness = p.Pair.Pitch() / 2
	left, right, err := m.Flanks(p.Blank, swept, planes, heights)
	if err != nil {
		return glance{}, false
	}
	a, err1 := m.Touch(left, places, Film)
	b, err2 := m.Touch(right, places, Film)
	if err1 != nil || err2 != nil || a.All == 0 || b.All == 0 {
		return glance{}, false
	}
	return glance{aside: max(math.Abs(a.Plane), math.Abs(b.Plane)), fouls: m.Interference(a, b)}, true
}

// TaperAt is the end of the hob with its entering taper, +1 or −1 as in the
// virtual cut.
func (p *Plan) TaperAt() float64 {
	if p.Job.Hob.TaperPlus {
		return 1
	}
	return -1
}
