package record

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/gen/proof"
	"wormwright/posts"
)

// width is how many characters a line of text holds.
const width = 80

// A page gathers lines of text.
type page struct {
	bytes.Buffer
	unit gen.Unit
}

// heading prints a line, or as many as it takes.
func (g *page) heading(text string) {
	for _, line := range posts.Wrap(text, width) {
		g.WriteString(line + "\n")
	}
}

func (g *page) section(name string) { fmt.Fprintf(g, "\n%s\n", name) }

// row prints a name and a value, set in where the value takes more lines.
func (g *page) row(name, value string) {
	const column = 30
	for i, line := range posts.Wrap(value, width-column-3) {
		if i > 0 {
			name = ""
		}
		fmt.Fprintf(g, "  %-*s %s\n", column, name, line)
	}
}

// line prints a formatted line without blanks at its end.
func (g *page) line(format string, args ...any) {
	g.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

func (g *page) length(name string, mm float64) { g.row(name, g.unit.Length(mm)) }

func (g *page) angle(name string, rad float64) {
	g.row(name, gen.Fixed(rad*180/math.Pi, 4)+"° ("+minutes(rad)+")")
}

// finding words a finding of a plan without errors.
func finding(f gen.Finding) string {
	return f.Path + ": " + f.What + ". Remedy: " + f.Remedy + "."
}

// minutes formats an angle in degrees and minutes.
func minutes(rad float64) string {
	total := int(math.Round(math.Abs(rad) * 180 / math.Pi * 60))
	sign := ""
	if rad < 0 && total > 0 {
		sign = "−"
	}
	return fmt.Sprintf("%s%d°%02d'", sign, total/60, total%60)
}

func (g *page) paragraph(text string) {
	for i, line := range posts.Wrap(text, width-4) {
		if i > 0 {
			line = "  " + line
		}
		g.WriteString("  " + line + "\n")
	}
}

// Text prints a plan without errors for a person to read.
func Text(p *gen.Plan) []byte {
	g := &page{unit: p.Job.Units}
	g.heading(p.Job.Title)
	g.heading(fmt.Sprintf("wormwright %s, digest %s, machine: %s", p.Version, p.Digest, p.Machine.Title))

	g.section("Pair")
	g.row("ratio", fmt.Sprintf("%d:%d, %s hand", p.Pair.Teeth, p.Pair.Starts, p.Pair.Hand))
	g.row("axial module", gen.Fixed(p.Pair.Module, 6)+" mm (diametral pitch "+gen.Fixed(25.4/p.Pair.Module, 4)+")")
	g.length("axial pitch", p.Pair.Pitch())
	g.length("lead", p.Pair.Lead())
	g.angle("lead angle", p.Pair.LeadAngle())
	g.angle("pressure angle, axial", p.Pair.Pressure)
	g.angle("pressure angle, normal", p.Pair.NormalPressure())
	g.length("centre distance", p.Pair.CentreDistance())
	g.row("profile shift", gen.Fixed(p.Pair.Shift, 4)+" modules")
	g.length("clearance at the worm's root", p.Pair.Clearance)
	g.length("clearance at the wheel's root", p.Hob.Addendum-p.Pair.Addendum)
	g.length("backlash, arc on the wheel", p.Backlash())

	g.section("Worm, form " + p.Job.Worm.Form.String())
	g.length("reference diameter", p.Worm.ReferenceDiameter)
	g.length("tip diameter", p.Worm.TipDiameter)
	g.length("root diameter", p.Worm.RootDiameter)
	g.length("threaded length", p.Worm.Length)
	g.length("axial thickness of the thread", p.Worm.Thickness)

	g.section("Wheel, proportions " + p.Job.Wheel.Rule.String() + " (" + p.Job.Wheel.Rule.Source() + ")")
	g.length("reference diameter", p.Wheel.ReferenceDiameter)
	if p.Blank.Throated {
		g.length("throat diameter", p.Wheel.ThroatDiameter)
		g.length("throat radius", p.Wheel.ThroatRadius)
	}
	g.length("outside diameter", p.Wheel.OutsideDiameter)
	if p.Blank != p.Drawn {
		g.length("outside diameter, measured", 2*p.Blank.Outside)
	}
	g.length("root diameter, by the hob", p.Wheel.RootDiameter)
	g.length("face width", p.Wheel.FaceWidth)
	g.row("face that the hob reaches", gen.Fixed(100*p.Engaged.Reached, 0)+" %")
	g.length("least tooth tip", p.Engaged.ToothTip)

	g.section("Hob, form " + p.Hob.Form.String())
	g.row("starts, gashes, hand", fmt.Sprintf("%d, %d, %s", p.Hob.Starts, p.Hob.Gashes, p.Hob.Hand))
	g.length("tip diameter, as measured", 2*p.Hob.Tip)
	g.length("reference diameter", 2*p.Hob.Reference)
	g.row("axial module", gen.Fixed(p.Hob.Module, 6)+" mm")
	g.angle("lead angle", p.Hob.LeadAngle())
	g.length("room between root and blank", p.Engaged.RootGap)
	g.length("length that finishes flanks", 2*p.Engaged.Generating)
	g.length("length in the blank", 2*p.Engaged.Contact)
	g.row("facets on the flank", gen.Fixed(1000*p.Facet(), 2)+" µm")
	g.row("speed", fmt.Sprintf("%s turns/min, %s (%s)", gen.Fixed(p.Speed.Spindle, 1), p.Job.Units.Speed(p.Speed.Cutting), p.Speed.Why))

	g.gashes(p)

	g.section("Setup")
	g.length("cutting centre distance", p.Engaged.Full)
	where := "in the middle"
	if p.Engaged.Rims {
		where = "at the rims"
	}
	g.length("first touch, "+where, p.Engaged.Touch)
	g.length("depth", p.Engaged.Depth())
	g.angle("swivel that suits both", p.Setup.Swivel)
	for i, task := range p.Setup.Work {
		g.paragraph(fmt.Sprintf("%d %s: %s", i+1, task.Title, task.Text))
	}

	unit := p.Cycle.Moving.Dial.Unit
	g.section(fmt.Sprintf("Schedule, %s, readings in %s", p.Job.Cut.Feed.Words(), unit.Name()))
	fmt.Fprintf(g, "  %4s  %-9s  %8s  %8s  %9s  %10s  %7s  %7s\n", "step", "for", "infeed", "depth", "reading", "work turns", "seconds", "mm³")
	for _, s := range p.Cycle.Steps {
		removed := ""
		if s.Removed > 0 {
			removed = gen.Fixed(s.Removed, 2)
		}
		g.line("  %4d  %-9s  %8s  %8s  %9s  %10s  %7s  %7s", s.Number, s.Stage, g.unit.Number(s.Infeed), g.unit.Number(s.Depth),
			p.Cycle.Moving.Reading(s.Reading, p.Machine.Language), gen.Fixed(s.WorkTurns, 2), gen.Fixed(s.Seconds, 1), removed)
	}
	t := p.Cycle.Totals()
	fmt.Fprintf(g, "\n  %s work turns, %s hob turns, %s minutes; %s mm³ from each space\n",
		gen.Fixed(t.WorkTurns, 1), gen.Fixed(t.HobTurns, 0), gen.Fixed(t.Minutes, 1), gen.Fixed(p.Cycle.Removed, 1))

	g.section("Cautions")
	for _, f := range p.Findings {
		g.paragraph(finding(f))
	}
	for _, caution := range p.Cautions() {
		g.paragraph("- " + caution)
	}
	return g.Bytes()
}

// Summary is one screen of what matters most. r is the proof of the wheel
// program, nil where none was written.
func Summary(p *gen.Plan, files []string, r *proof.Report) []byte {
	g := &page{unit: p.Job.Units}
	t := p.Cycle.Totals()
	g.heading(fmt.Sprintf("%s, digest %s", p.Job.Title, p.Digest))
	g.row("pair", fmt.Sprintf("%d:%d, module %s mm, %s hand, centre distance %s", p.Pair.Teeth, p.Pair.Starts,
		gen.Fixed(p.Pair.Module, 4), p.Pair.Hand, g.unit.Length(p.Pair.CentreDistance())))
	steps := fmt.Sprintf("%d steps", len(p.Cycle.Steps))
	if p.Job.Cut.Feed == gen.Gash {
		steps = fmt.Sprintf("%d gashes", p.Pair.Teeth)
	}
	if what := p.BegunWords(); what != "" {
		steps = what
	}
	g.row("cut", fmt.Sprintf("%s, %s, %s min at %s turns/min", p.Job.Cut.Feed.Words(), steps, gen.Fixed(t.Minutes, 1), gen.Fixed(p.Speed.Spindle, 1)))
	g.row("first touch, full depth", fmt.Sprintf("%s, %s (infeed %s)", g.unit.Length(p.Cycle.Touch), g.unit.Length(p.Cycle.Full),
		g.unit.Length(p.Cycle.Touch-p.Cycle.Full)))
	g.row("drive", drive(p))
	if p.Job.Cut.Feed != gen.Gash {
		g.row("hob turns", p.Setup.HobTurns.String())
		g.row("work turns", p.Setup.WorkTurns.String())
	}
	for _, f := range p.Findings {
		g.paragraph("caution: " + finding(f))
	}
	if r != nil {
		g.row("proof", passed(p, r))
	}
	g.row("written", strings.Join(files, ", "))
	next := "Read the feed card's setup, run the air proof clear of the blank, then cut."
	if !p.Programmed() {
		next = "Read the setup on the feed card, try it clear of the blank, then cut."
	}
	if p.Begun != (gen.Begun{}) {
		next = "Read the setup on the card and find zero and phase again, then cut."
	}
	if p.Job.Cut.Feed == gen.Gash {
		next = strings.Replace(next, "feed card", "gash card", 1)
	}
	fmt.Fprintf(g, "  %s\n", next)
	return g.Bytes()
}
