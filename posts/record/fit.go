package record

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wormwright/gen"
	"wormwright/gen/duty"
	"wormwright/gen/fit"
	"wormwright/geometry"
)

// Fit is the JSON form of how a pair bears.
type Fit struct {
	Title   string  `json:"title"`
	Version string  `json:"version"`
	Digest  string  `json:"digest"`
	Film    float64 `json:"film_mm"`
	Wheel   string  `json:"wheel"` // exact or cut
	Bearing
	Form       float64     `json:"form_difference_um"`
	Variations []Variation `json:"variations"`
	Advice     *Advice     `json:"advice,omitempty"`
	Working    Working     `json:"working"`
	Findings   []Finding   `json:"findings"`
}

// Bearing is what changes from one mounting, or one value, to another.
type Bearing struct {
	Contact      Contacts `json:"contact"`
	MotionError  float64  `json:"motion_error_arcsec"`
	Ratio        float64  `json:"contact_ratio"`
	Interference float64  `json:"interference_um"`
	Backlash     Backlash `json:"backlash"`
}

// Contacts are those of the two flanks of a tooth space.
type Contacts struct {
	Left  Contact `json:"left"`
	Right Contact `json:"right"`
}

// Contact is how one flank bears.
type Contact struct {
	One    float64 `json:"fraction_one"`
	All    float64 `json:"fraction_all"`
	Plane  float64 `json:"centre_plane_mm"`
	Radius float64 `json:"centre_radius_mm"`
	From   float64 `json:"from_plane_mm"`
	To     float64 `json:"to_plane_mm"`
	Edge   string  `json:"edge"`
}

// Backlash is the free play of a pair.
type Backlash struct {
	Arc    float64 `json:"arc_mm"`
	Normal float64 `json:"normal_mm"`
	Worm   float64 `json:"worm_deg"`
}

// Variation is the bearing when one thing is not as planned.
type Variation struct {
	Distance float64 `json:"centre_distance_off_mm"`
	Axial    float64 `json:"axial_off_mm"`
	Tilt     float64 `json:"shaft_angle_off_deg"`
	Swivel   float64 `json:"hob_swivel_deg"`
	Bearing
}

// Advice is the worm that suits the hob.
type Advice struct {
	Diameter float64 `json:"worm_reference_diameter_mm"`
	Smaller  float64 `json:"smaller_than_hob_mm"`
	Bears    float64 `json:"fraction_all"`
	From     float64 `json:"fraction_all_least"`
	To       float64 `json:"fraction_all_most"`
}

// A Sweep is the JSON form of a number of the job taken through a range.
type Sweep struct {
	Title string     `json:"title"`
	Key   string     `json:"key"`
	Film  float64    `json:"film_mm"`
	Unit  gen.Unit   `json:"-"` // of the text
	Sweep []SweepRow `json:"sweep"`
}

// SweepRow is one value of a sweep: how the pair bears, or why it cannot be.
type SweepRow struct {
	Value string `json:"value"`
	*Bearing
	Fault string `json:"fault,omitempty"`

	hard string
}

// NewSweepRow is the row of a value that can be fitted.
func NewSweepRow(value string, f *fit.Fit) SweepRow {
	b := bearingOf(f)
	return SweepRow{Value: value, Bearing: &b, hard: hard(f.Sides[0].Edge, f.Sides[1].Edge)}
}

// bearingOf takes the record of a bearing, rounded to what it is good for.
func bearingOf(f *fit.Fit) Bearing {
	side := func(s fit.Side) Contact {
		return Contact{
			round(s.One, 4), round(s.All, 4), round(s.Plane, 3), round(s.Radius, 3), round(s.From, 3), round(s.To, 3), s.Edge.String(),
		}
	}
	return Bearing{
		Contact:     Contacts{Left: side(f.Sides[geometry.LeftSide]), Right: side(f.Sides[geometry.RightSide])},
		MotionError: round(arcSeconds(f.MotionError), 3), Ratio: round(f.Ratio(), 3), Interference: round(f.Interference*1000, 2),
		Backlash: Backlash{round(f.Backlash.Arc, 5), round(f.Backlash.Normal, 5), round(f.Backlash.Worm*180/math.Pi, 4)},
	}
}

// A FitReport is a fit with all that belongs to it.
type FitReport struct {
	Plan    *gen.Plan
	Fit     fit.Fit
	Around  []fit.Variation
	Advice  fit.Advice
	Working duty.Advice
}

// OfFit takes the record of a fit.
func OfFit(all FitReport) Fit {
	p, f, advice := all.Plan, &all.Fit, &all.Advice
	r := Fit{
		Title: p.Job.Title, Version: p.Version, Digest: p.Digest, Film: f.Film, Wheel: "exact", Bearing: bearingOf(f),
		Form: round(f.Form*1000, 2), Variations: []Variation{}, Working: OfDuty(&all.Working), Findings: []Finding{},
	}
	if f.Cut {
		r.Wheel = "cut"
	}
	for _, v := range all.Around {
		r.Variations = append(r.Variations, Variation{v.Distance, v.Axial, deg(v.Tilt), deg(v.Swivel), bearingOf(&v.Fit)})
	}
	if advice.Diameter > 0 {
		r.Advice = &Advice{round(advice.Diameter, 4), round(advice.Smaller, 4), round(advice.Bears, 3), round(advice.From, 3), round(advice.To, 3)}
	}
	for _, one := range f.Findings() {
		r.Findings = append(r.Findings, Finding{one.Severity.String(), one.Path, one.What, one.Remedy})
	}
	return r
}

// JSON returns the record as indented JSON.
func (r Fit) JSON() []byte { return indented(r) }

// JSON returns the record as indented JSON.
func (s Sweep) JSON() []byte { return indented(s) }

// Text prints a sweep as a table.
func (s Sweep) Text() []byte {
	g := &page{unit: s.Unit}
	g.heading(s.Title)
	g.heading(fmt.Sprintf("%s; film %s, lengths in %s, motion error in arc seconds, a full thread fouls in µm", s.Key, g.unit.Length(s.Film), g.unit.Name()))
	const columns = "  %-10s %13s %15s %7s %7s %10s  %s"
	g.WriteString("\n")
	g.line(columns, "value", "bears, % l/r", "middle l/r", "error", "fouls", "backlash", "edge")
	for _, row := range s.Sweep {
		if row.Bearing == nil {
			g.paragraph(fmt.Sprintf("%-10s %s", row.Value, row.Fault))
			continue
		}
		l, r := row.Contact.Left, row.Contact.Right
		g.line(columns, row.Value,
			gen.Fixed(100*l.All, 0)+" / "+gen.Fixed(100*r.All, 0), g.unit.Rough(l.Plane)+" / "+g.unit.Rough(r.Plane),
			gen.Fixed(row.MotionError, 1), gen.Fixed(row.Interference, 1), g.unit.Number(row.Backlash.Arc), row.hard)
	}
	return g.Bytes()
}

func arcSeconds(rad float64) float64 { return rad * 180 / math.Pi * 3600 }

// FitText prints a fit for a person to read.
func FitText(all FitReport) []byte {
	p, f, around, advice := all.Plan, &all.Fit, all.Around, &all.Advice
	g := &page{unit: p.Job.Units}
	g.heading(p.Job.Title)
	g.heading(fmt.Sprintf("wormwright %s, digest %s", p.Version, p.Digest))

	wheel := "the exact flank"
	if f.Cut {
		wheel = "the wheel as cut in memory, its proudest facets"
	}
	g.section("Bearing under a film of " + g.unit.Length(f.Film) + ", from " + wheel)
	left, right := f.Sides[geometry.LeftSide], f.Sides[geometry.RightSide]
	pair := func(name string, value func(s fit.Side) string) {
		fmt.Fprintf(g, "  %-30s %-22s %s\n", name, value(left), value(right))
	}
	fmt.Fprintf(g, "  %-30s %-22s %s\n", "", "left flank", "right flank")
	pair("of the flank, over a mesh", func(s fit.Side) string { return gen.Fixed(100*s.All, 0) + " %" })
	pair("at the best place", func(s fit.Side) string { return gen.Fixed(100*s.One, 0) + " %" })
	pair("on the face, from", func(s fit.Side) string { return g.unit.Signed(s.From) })
	pair("to", func(s fit.Side) string { return g.unit.Signed(s.To) })
	pair("middle, from that of the face", func(s fit.Side) string { return g.unit.Signed(s.Plane) })
	pair("middle, radius", func(s fit.Side) string { return g.unit.Length(s.Radius) })
	pair("hard on an edge", func(s fit.Side) string { return edgeName(p, s.Edge) })
	g.paragraph(fmt.Sprintf("Left and right as you stand with the worm beyond the wheel and its plus end to the right; + is toward the work's %s.", p.Machine.Work.Plus))

	g.section("Running")
	g.row("motion error over a pitch", gen.Fixed(arcSeconds(f.MotionError), 1)+"\" peak to peak")
	g.row("teeth that bear at a time", gen.Fixed(f.Ratio(), 2))
	g.row("a full thread would foul by", gen.Fixed(1000*f.Interference, 1)+" µm")
	g.row("forms of hob and worm differ by", gen.Fixed(1000*f.Form, 2)+fmt.Sprintf(" µm (%s, %s)", p.Hob.Form, p.Job.Worm.Form))
	g.length("backlash, arc on the wheel", f.Backlash.Arc)
	g.length("backlash, normal", f.Backlash.Normal)
	g.row("backlash, turn of the worm", gen.Fixed(f.Backlash.Worm*180/math.Pi, 3)+"°")
	if words := swivelHelp(p, f, around); words != "" {
		g.paragraph(words)
	}

	if len(around) > 0 {
		g.section("When something is off")
		const columns = "  %-31s %12s %14s %9s  %s"
		g.line(columns, "", "bears, % l/r", "middle l/r", "backlash", "edge")
		for _, v := range around {
			l, r := v.Sides[geometry.LeftSide], v.Sides[geometry.RightSide]
			g.line(columns, g.variation(p, v), gen.Fixed(100*l.All, 0)+" / "+gen.Fixed(100*r.All, 0),
				g.unit.Rough(l.Plane)+" / "+g.unit.Rough(r.Plane), g.unit.Number(v.Backlash.Arc), hard(l.Edge, r.Edge))
		}
	}
	g.section("Worm to suit the hob")
	if advice.Diameter == 0 {
		g.paragraph("No worm up to 6 % smaller than the hob keeps its bearing off the ends of the face when the pair is mounted with the errors above: mount it better, or take a hob nearer to the worm.")
	} else {
		g.paragraph(fmt.Sprintf("worm.reference_diameter %s, %s smaller than the hob: the largest that never bears hard on an end of the face with any of the errors of mounting above. It bears on %s %% of the flank, and on %s to %s %% when out of place. This job's is %s.",
			g.unit.Length(advice.Diameter), g.unit.Length(advice.Smaller), gen.Fixed(100*advice.Bears, 0), gen.Fixed(100*advice.From, 0), gen.Fixed(100*advice.To, 0),
			g.unit.Length(p.Pair.WormDiameter)))
	}
	g.working(&all.Working)
	return g.Bytes()
}

// swivelHelp says which way of swivelling the hob helps.
func swivelHelp(p *gen.Plan, f *fit.Fit, around []fit.Variation) string {
	suits := geometry.Swivel(p.Pair, p.Hob)
	if suits == 0 {
		return ""
	}
	fouls := func(f *fit.Fit) string { return gen.Fixed(1000*f.Interference, 1) + " µm" }
	text := "The hob is left square: a full thread fouls by " + fouls(f)
	if p.Swivelled() != 0 {
		text = "The hob is swivelled as the setup says: a full thread fouls by " + fouls(f)
	}
	for _, v := range around {
		switch {
		case v.Mounting != (fit.Mounting{}):
		case v.Swivel == 0:
			text += "; left square it would foul by " + fouls(&v.Fit)
		case v.Swivel == suits:
			text += "; it helps to " + p.SwivelWords() + ": " + fouls(&v.Fit)
		default:
			text += "; swivelled the wrong way it would foul by " + fouls(&v.Fit)
		}
	}
	return text + "."
}

// variation says what is off.
func (g *page) variation(p *gen.Plan, v fit.Variation) string {
	switch at := v.Mounting; {
	case at.Distance != 0:
		return "centres " + g.unit.Signed(at.Distance)
	case at.Axial > 0:
		return "worm " + g.unit.Length(at.Axial) + " toward " + p.Machine.Work.Plus
	case at.Axial < 0:
		return "worm " + g.unit.Length(-at.Axial) + " toward " + p.Machine.Work.Minus
	case at.Tilt != 0:
		return fmt.Sprintf("shaft angle %+.3f°", at.Tilt*180/math.Pi)
	case v.Swivel == 0:
		return "hob left square"
	case v.Swivel == geometry.Swivel(p.Pair, p.Hob):
		return "hob swivelled to suit"
	}
	return "hob swivelled the wrong way"
}

// hard says in a word where flanks bear hard on an edge.
func hard(edges ...geometry.Edge) string {
	var words []string
	for _, e := range edges {
		word := ""
		switch e {
		case geometry.MinusFace, geometry.PlusFace:
			word = "face"
		case geometry.WheelTip, geometry.WormTip:
			word = "tip"
		}
		if word != "" && !slices.Contains(words, word) {
			words = append(words, word)
		}
	}
	return strings.Join(words, ", ")
}

// edgeName names an edge as the machine file names its ends.
func edgeName(p *gen.Plan, e geometry.Edge) string {
	switch e {
	case geometry.MinusFace:
		return "face at " + p.Machine.Work.Minus
	case geometry.PlusFace:
		return "face at " + p.Machine.Work.Plus
	}
	return e.String()
}
