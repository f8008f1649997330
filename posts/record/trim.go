package record

import (
	"fmt"

	"wormwright/gen"
	"wormwright/gen/fit"
)

// Trim is the JSON form of a trim.
type Trim struct {
	Title    string    `json:"title"`
	Digest   string    `json:"digest"`
	Trim     TrimFeed  `json:"trim"`
	Findings []Finding `json:"findings"`
}

// TrimFeed is how much deeper a wheel is to be cut.
type TrimFeed struct {
	Thickness  float64 `json:"thread_thickness_mm"`
	Present    float64 `json:"present_cutting_distance_mm"`
	Have       float64 `json:"backlash_have_mm"`
	Want       float64 `json:"backlash_want_mm"`
	Infeed     float64 `json:"infeed_mm"`
	Rule       float64 `json:"infeed_by_rule_mm"`
	Counts     int     `json:"counts"`
	Graduation float64 `json:"graduation_mm"`
	Gives      float64 `json:"backlash_after_mm"`
	Depth      float64 `json:"depth_mm"`
	To         float64 `json:"depth_after_mm"`
}

// OfTrim takes the record of a trim.
func OfTrim(p *gen.Plan, t *fit.Trim) Trim {
	r := Trim{
		Title: p.Job.Title, Digest: p.Digest, Findings: []Finding{},
		Trim: TrimFeed{
			round(t.Thickness, 5), round(t.Present, 5), round(t.Have, 5), round(t.Want, 5), round(t.Infeed, 5), round(t.Rule, 5), t.Counts,
			tidy(p.Machine.Radial.Grain(p.Machine.Language)), round(t.Gives, 5), round(t.Depth, 5), round(t.To, 5),
		},
	}
	for _, f := range t.Findings {
		r.Findings = append(r.Findings, Finding{f.Severity.String(), f.Path, f.What, f.Remedy})
	}
	return r
}

// JSON returns the record as indented JSON.
func (r Trim) JSON() []byte { return indented(r) }

// TrimText prints a trim for a person to read.
func TrimText(p *gen.Plan, t *fit.Trim) []byte {
	g := &page{unit: p.Job.Units}
	slide := p.Machine.Radial
	g.heading(p.Job.Title)
	g.heading(fmt.Sprintf("wormwright %s, digest %s", p.Version, p.Digest))
	g.section("Trim")
	g.length("axial thickness of the thread", t.Thickness)
	g.length("backlash now, arc on the wheel", t.Have)
	g.length("backlash of the job", t.Want)
	short := t.Present - p.Cycle.Full
	switch text := g.unit.Length(short); {
	case text == g.unit.Length(0):
		g.row("the wheel was cut", "to the depth planned")
	case short > 0:
		g.row("the wheel was cut", text+" less deep than planned")
	default:
		g.row("the wheel was cut", g.unit.Length(-short)+" deeper than planned")
	}
	g.row("feed further", g.unit.Length(t.Infeed)+" (by the rule of the middle plane "+g.unit.Length(t.Rule)+")")
	if t.Counts > 0 {
		g.row("in graduations", fmt.Sprintf("%d of %s %s on %s", t.Counts, slide.Reading(slide.Grain(p.Machine.Language), p.Machine.Language), slide.Dial.Unit, slide.Name()))
		g.length("backlash then", t.Gives)
		g.row("depth by its readings", g.unit.Length(t.Depth)+" to "+g.unit.Length(t.To))
	}
	for _, f := range t.Findings {
		g.paragraph(f.Severity.String() + ": " + f.What + ". Remedy: " + f.Remedy + ".")
	}
	if t.Cycle != nil {
		g.section("Before it is cut")
		for i, task := range t.Cycle.Setup.Work {
			g.paragraph(fmt.Sprintf("%d %s: %s", i+1, task.Title, task.Text))
		}
		for _, caution := range p.Cautions() {
			g.paragraph("- " + caution)
		}
	}
	return g.Bytes()
}
