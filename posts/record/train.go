package record

import (
	"fmt"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/gen/train"
)

// Trains is what was asked of a drawer or an electronic gearbox, and what
// they can do.
type Trains struct {
	Want       train.Ratio
	Text       string          // what the ratio is for, in words
	Unit       gen.Unit        // of what is printed
	Length     float64         // of thread over which errors are told, mm; 0 for none
	Rim        float64         // radius of the wheel at which errors are told, mm; 0 for none
	Turns      float64         // of the work over which they add up there
	Steps      string          // how motor steps fall on the teeth, in words
	Fastest    float64         // turns/min of the hob that the work's motor can follow; 0 not known
	Result     train.Result    // no trains where no drawer was given
	Electronic *train.Fraction // nil where none was asked for
}

type trainsJSON struct {
	Ratio      string        `json:"ratio"`
	Value      float64       `json:"value"`
	For        string        `json:"for,omitempty"`
	Length     float64       `json:"length_mm,omitempty"`
	Trains     []trainJSON   `json:"trains"`
	Nearest    *trainJSON    `json:"nearest,omitempty"`
	Why        string        `json:"why_not_exact,omitempty"`
	Electronic *fractionJSON `json:"electronic,omitempty"`
	Steps      string        `json:"motor_steps,omitempty"`
	Fastest    float64       `json:"fastest_hob_rpm,omitempty"`
}

type trainJSON struct {
	Drivers  []int   `json:"drivers"`
	Driven   []int   `json:"driven"`
	Idler    int     `json:"idler,omitempty"`
	Gearbox  string  `json:"gearbox"`
	Ratio    float64 `json:"ratio"`
	PPM      float64 `json:"error_ppm"`
	Micron   float64 `json:"error_um,omitempty"`
	Exact    bool    `json:"exact"`
	Mounts   bool    `json:"mounts"`
	Why      string  `json:"why_not,omitempty"`
	Reverses bool    `json:"reverses"`
}

type fractionJSON struct {
	Over  int     `json:"over"`
	Under int     `json:"under"`
	PPM   float64 `json:"error_ppm"`
	Exact bool    `json:"exact"`
	Rim   float64 `json:"error_at_rim_um,omitempty"`
}

// JSON returns the trains as indented JSON.
func (t Trains) JSON() []byte {
	one := func(x train.Train) trainJSON {
		return trainJSON{
			x.Drivers, x.Driven, x.Idler, x.Gearbox.String(), tidy(x.Ratio), round(x.PPM, 6), round(train.OverLength(x.PPM, t.Length), 4),
			x.Exact, x.Mounts, x.Why, x.Reverses(),
		}
	}
	r := trainsJSON{Ratio: t.Want.String(), Value: tidy(t.Want.Float64()), For: t.Text, Length: tidy(t.Length), Trains: []trainJSON{}, Why: t.Result.Why, Steps: t.Steps, Fastest: round(t.Fastest, 3)}
	for _, x := range t.Result.Trains {
		r.Trains = append(r.Trains, one(x))
	}
	if len(t.Result.Nearest.Drivers) > 0 {
		nearest := one(t.Result.Nearest)
		r.Nearest = &nearest
	}
	if f := t.Electronic; f != nil {
		r.Electronic = &fractionJSON{f.Over, f.Under, round(f.PPM, 9), f.Exact, round(train.AtRim(f.PPM, t.Rim, t.Turns), 4)}
	}
	return indented(r)
}

// TextPage prints the trains for a person to read, the best one as it is
// dressed.
func (t Trains) TextPage() []byte {
	g := &page{unit: t.Unit}
	g.row("ratio", t.Want.String()+" = "+gen.Fixed(t.Want.Float64(), 8))
	if t.Text != "" {
		g.row("for", t.Text)
	}
	if f := t.Electronic; f != nil {
		text := fmt.Sprintf("%d / %d", f.Over, f.Under)
		if f.Exact {
			text += ", exact"
		} else {
			text += ", " + ppm(f.PPM)
			if t.Rim > 0 {
				text += fmt.Sprintf(", %s µm at the rim over the cut", gen.Fixed(math.Abs(train.AtRim(f.PPM, t.Rim, t.Turns)), 2))
			}
		}
		g.row("electronic gearbox", text)
	}
	if t.Steps != "" {
		g.row("motor steps", t.Steps)
	}
	if t.Fastest > 0 {
		g.row("fastest hob", gen.Fixed(t.Fastest, 1)+" turns/min for the motor's rate")
	}
	if t.Result.Why != "" {
		g.row("exact", "no: "+t.Result.Why)
	}
	if len(t.Result.Trains) > 0 {
		g.trains(t)
	}
	if n := t.Result.Nearest; len(n.Drivers) > 0 && !n.Mounts {
		g.paragraph("Nearest of all, but it does not mount: " + gears(n) + ", " + ppm(n.PPM) + "; " + n.Why + ".")
	}
	return g.Bytes()
}

// trains prints the table and how the first of it is dressed.
func (g *page) trains(t Trains) {
	boxes := false
	for _, x := range t.Result.Trains {
		boxes = boxes || x.Gearbox.String() != "1"
	}
	over := ""
	if t.Length > 0 {
		over = "over " + g.unit.Length(t.Length)
	}
	g.WriteString("\n")
	const columns = "  %12s  %14s  %8s  %s"
	box := ""
	if boxes {
		box = "gearbox"
	}
	g.line(columns, "error", over, box, "driver / driven")
	for _, x := range t.Result.Trains {
		micron, box := "", ""
		if t.Length > 0 {
			micron = gen.Fixed(train.OverLength(x.PPM, t.Length), 2) + " µm"
		}
		if boxes {
			box = x.Gearbox.String()
		}
		text := gears(x)
		if !x.Mounts {
			text += "  does not mount"
		}
		g.line(columns, ppm(x.PPM), micron, box, text)
	}
	best := t.Result.Trains[0]
	g.section("The first of them, as it is dressed")
	g.row("first shaft", fmt.Sprintf("driver %d", best.Drivers[0]))
	if best.Idler > 0 {
		g.row("stud", fmt.Sprintf("idler %d", best.Idler))
	}
	for i, s := range best.Studs() {
		g.row(fmt.Sprintf("stud %d", i+1), fmt.Sprintf("driven %d, keyed to driver %d", s.Driven, s.Driver))
	}
	g.row("last shaft", fmt.Sprintf("driven %d", best.Driven[len(best.Driven)-1]))
	if best.Gearbox.String() != "1" {
		g.row("gearbox", best.Gearbox.String())
	}
	sense, other := "the same way as", "against"
	if best.Reverses() {
		sense, other = other, sense
	}
	g.row("sense", "the last shaft turns "+sense+" the first; with one idler more "+other+" it")
	g.paragraph("Stop the machine and lock it before the guard comes off; close it before it runs. Fingers and sleeves are drawn into meshing gears.")
}

// ppm formats an error in parts in a million.
func ppm(x float64) string {
	if x == 0 {
		return "exact"
	}
	text := gen.Fixed(x, 2)
	if text == "0.00" || text == "-0.00" {
		text = gen.Fixed(x, 5)
	}
	if x > 0 {
		text = "+" + text
	}
	return text + " ppm"
}

// gears writes a train mesh by mesh.
func gears(t train.Train) string {
	var meshes []string
	for i := range t.Drivers {
		mesh := fmt.Sprintf("%d/%d", t.Drivers[i], t.Driven[i])
		if t.Idler > 0 {
			mesh = fmt.Sprintf("%d/(%d)/%d", t.Drivers[i], t.Idler, t.Driven[i])
		}
		meshes = append(meshes, mesh)
	}
	return strings.Join(meshes, " x ")
}
