package record

import (
	"fmt"
	"math"

	"wormwright/gen"
	"wormwright/gen/duty"
)

// Working is the JSON form of what published rules say of a running pair.
type Working struct {
	Sliding    *Range    `json:"sliding_m_s,omitempty"`
	Class      string    `json:"class,omitempty"`
	Lubricant  string    `json:"lubricant,omitempty"`
	Standing   *Friction `json:"standing,omitempty"`
	Running    *Friction `json:"running,omitempty"`
	Output     *Range    `json:"output_w,omitempty"`
	Heat       *Range    `json:"heat_w,omitempty"`
	Tangential *Range    `json:"wheel_tangential_n,omitempty"`
	Reverse    []Reverse `json:"reverse"`
	Ratings    []Rating  `json:"ratings"`
	Hours      *Range    `json:"hours,omitempty"`
	Meetings   *Range    `json:"wheel_turns,omitempty"`
	Notes      []string  `json:"notes"`
}

// Range is a figure or what it lies between, with where it comes from.
type Range struct {
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Source string  `json:"source"`
	Limit  string  `json:"limit,omitempty"`
}

// Friction is a state of the mesh.
type Friction struct {
	Coefficient *Range `json:"friction,omitempty"`
	Driving     *Range `json:"efficiency,omitempty"`
	Input       *Range `json:"worm_torque_nm,omitempty"`
	Separating  *Range `json:"separating_n,omitempty"`
}

// Reverse tells whether the wheel drives the worm in one state.
type Reverse struct {
	When   string `json:"when"`
	Answer string `json:"answer"`
}

// Rating is a load that the wheel's teeth may carry.
type Rating struct {
	Rule    string `json:"rule"`
	Casting string `json:"casting,omitempty"`
	Torque  *Range `json:"torque_nm,omitempty"`
	Margin  *Range `json:"margin,omitempty"`
	Unknown string `json:"unknown,omitempty"`
}

// ranged takes a figure of so many decimals, nil where it is not known.
func ranged(f duty.Figure) *Range {
	if !f.Known() {
		return nil
	}
	return &Range{figures(f.Low), figures(f.High), f.Source, f.Limit}
}

// figures rounds to five places.
func figures(x float64) float64 {
	if x == 0 {
		return 0
	}
	return round(x, max(4-int(math.Floor(math.Log10(math.Abs(x)))), 0))
}

// OfDuty takes the record of working values.
func OfDuty(a *duty.Advice) Working {
	state := func(m duty.Mesh) *Friction {
		return &Friction{ranged(m.Friction), ranged(m.Driving), ranged(m.InputTorque), ranged(m.Separating)}
	}
	w := Working{
		Sliding: ranged(a.Sliding), Class: a.Class.Text, Lubricant: a.Lubricant.Text, Standing: state(a.Standing), Running: state(a.Running),
		Output: ranged(a.Power.Output), Heat: ranged(a.Power.Heat), Tangential: ranged(a.Tangential), Reverse: []Reverse{}, Ratings: []Rating{},
		Hours: ranged(a.Life.Hours), Meetings: ranged(a.Life.Meetings), Notes: []string{},
	}
	for _, r := range a.Reverse {
		w.Reverse = append(w.Reverse, Reverse{r.When, r.Answer.String()})
	}
	for _, r := range append([]duty.Rating{a.Bending}, a.Wear...) {
		one := Rating{r.Rule, r.Casting, ranged(r.Torque), ranged(r.Margin), ""}
		if one.Torque == nil {
			one.Unknown = r.Torque.Limit
		}
		w.Ratings = append(w.Ratings, one)
	}
	for _, n := range a.Notes {
		w.Notes = append(w.Notes, n.Text+" ("+n.Source+")")
	}
	return w
}

// working prints working values, and behind them where they come from.
func (g *page) working(a *duty.Advice) {
	g.section("Working values, by published rules: advice, not proof")
	var sources []string
	show := func(name string, f duty.Figure, unit string) {
		if !f.Known() {
			return
		}
		text := span(f) + unit
		source := f.Source
		if f.Limit != "" {
			source += ": " + f.Limit
		}
		n := 0
		for n < len(sources) && sources[n] != source {
			n++
		}
		if n == len(sources) {
			sources = append(sources, source)
		}
		g.row(name, fmt.Sprintf("%s [%d]", text, n+1))
	}
	remark := func(name string, n duty.Note) {
		if n.Text != "" {
			g.row(name, n.Text+" ("+n.Source+")")
		}
	}
	show("sliding speed", a.Sliding, " m/s")
	remark("speed class", a.Class)
	remark("lubricant", a.Lubricant)
	show("friction at rest", a.Standing.Friction, "")
	show("friction running", a.Running.Friction, "")
	show("efficiency from rest", a.Standing.Driving, "")
	show("efficiency running", a.Running.Driving, "")
	show("torque at the worm, from rest", a.Standing.InputTorque, " N·m")
	show("torque at the worm, running", a.Running.InputTorque, " N·m")
	show("force on the wheel's teeth", a.Tangential, " N")
	show("force that parts the shafts", a.Standing.Separating, " N")
	show("power at the wheel", a.Power.Output, " W")
	show("heat in the mesh", a.Power.Heat, " W")
	for _, r := range a.Reverse {
		g.row("driven back, "+r.When, r.Answer.String())
	}
	for _, r := range append([]duty.Rating{a.Bending}, a.Wear...) {
		name := "against " + r.Rule
		if r.Casting != "" {
			name += ", " + r.Casting
		}
		if !r.Torque.Known() {
			g.paragraph(name + ": " + r.Torque.Limit)
			continue
		}
		g.paragraph(name + ":")
		show("  torque at the wheel", r.Torque, " N·m")
		show("  that over the stated torque", r.Margin, "")
	}
	show("running time", a.Life.Hours, " h")
	show("turns of the wheel", a.Life.Meetings, "")
	for _, n := range a.Notes {
		g.paragraph(n.Text + " (" + n.Source + ")")
	}
	for i, source := range sources {
		g.paragraph(fmt.Sprintf("[%d] %s", i+1, source))
	}
}

// span formats a figure to three places.
func span(f duty.Figure) string {
	text := func(x float64) string {
		if x == 0 {
			return "0"
		}
		return gen.Fixed(x, max(2-int(math.Floor(math.Log10(math.Abs(x)))), 0))
	}
	if low, high := text(f.Low), text(f.High); low != high {
		return low + " to " + high
	}
	return text(f.Low)
}
