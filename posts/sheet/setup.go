package sheet

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"slices"
	"unicode/utf8"

	"wormwright/gen"
	"wormwright/gen/fit"
	"wormwright/gen/lathe"
	"wormwright/geometry"
)

//go:embed setup.html
var markup string

var layout = template.Must(template.New("setup").Parse(markup))

// Setup returns the setup sheet of a plan without errors: one HTML file to
// print on A4 or Letter and take to the machine, with drawings to scale,
// tables, what is to be done in order, and the schedule.
//
// f is how the pair bears, nil for a sheet without its map; worm how the worm
// is turned, nil where the job names no lathe; cut the tooth space as the
// program cuts it, nil where nobody has cut it.
//
// Every figure on the sheet carries the key that it has in the JSON of the
// plan, in the attribute data-figure.
func Setup(p *gen.Plan, f *fit.Fit, worm *lathe.Worm, cut geometry.Swept) []byte {
	if worm != nil && worm.Findings.Failed() {
		worm = nil
	}
	s := &sheet{p: p, worm: worm, cut: cut, u: p.Job.Units}
	var out bytes.Buffer
	if err := layout.Execute(&out, s.content(f)); err != nil {
		panic("sheet: " + err.Error())
	}
	// A user's words may stand in any text of the plan.
	return bytes.Map(func(r rune) rune {
		if turns(r) {
			return -1
		}
		return r
	}, out.Bytes())
}

// A sheet is what all drawings and tables of one plan share.
type sheet struct {
	p    *gen.Plan
	worm *lathe.Worm
	cut  geometry.Swept
	u    gen.Unit
}

// content is all that the layout shows.
type content struct {
	Title, Version, Digest, Machine, Units string
	Cautions                               []string
	Doubts                                 []doubt
	Tables                                 []table
	Tasks                                  []task
	Rows                                   [][]picture // side by side
	Bar, Map                               template.HTML
	Schedule                               table
	Totals                                 []figure
}

// A doubt is a finding of the plan.
type doubt struct{ Path, What, Remedy figure }

// A task is one thing to do at the machine.
type task struct{ Title, Text figure }

// A table has a head and rows of cells.
type table struct {
	Name string
	Head []string
	Rows [][]figure
	Note string
}

const (
	paper     = 186.0 // width that A4 and Letter both have between the margins, mm
	titleRoom = 166.0 // for two lines of the title, were they in the letters of the drawings
)

func (s *sheet) content(f *fit.Fit) content {
	p := s.p
	c := content{
		Title: within(p.Job.Title, titleRoom), Version: p.Version, Digest: p.Digest, Machine: clip(plain(p.Machine.Title), 100),
		Units: s.u.Name(), Cautions: p.Cautions(), Bar: bar(), Tables: s.tables(),
	}
	for i, f := range p.Findings {
		at := func(name string) string { return fmt.Sprintf("findings[%d].%s", i, name) }
		c.Doubts = append(c.Doubts, doubt{figure{at("path"), f.Path}, figure{at("message"), f.What}, figure{at("remedy"), f.Remedy}})
	}
	for i, t := range p.Setup.Work {
		at := func(name string) string { return fmt.Sprintf("setup.tasks[%d].%s", i, name) }
		c.Tasks = append(c.Tasks, task{figure{at("title"), t.Title}, figure{at("text"), t.Text}})
	}
	row := func(pictures ...picture) { c.Rows = append(c.Rows, pictures) }
	pair, blank := rooms(c)
	row(s.pair(paper, pair))
	if p.Job.Cut.Feed == gen.Gash {
		// A cutter comes over the blank, not the hob.
		row(s.blank(76, blank))
	} else {
		row(s.blank(76, blank), s.centre(68, blank), s.swivel(30))
		row(s.over(paper, 108))
	}
	const half = (paper - 6.0) / 2
	if tip, ok := s.tip(half, 50); ok {
		if banjo, ok := s.banjo(half, 58); ok {
			row(banjo, tip)
		} else {
			row(s.turned(half), tip)
		}
	}
	if p.Job.Cut.Feed != gen.Gash {
		if tooth, ok := s.tooth(half, 55); ok {
			row(s.course(half, 55), tooth)
		} else {
			row(s.course(paper, 55))
		}
	}
	if f != nil {
		c.Map = template.HTML(ContactMap(p, f))
	}
	c.Schedule = s.schedule()
	t := p.Cycle.Totals()
	c.Totals = []figure{
		{"totals.work_turns", gen.Fixed(t.WorkTurns, 1)}, {"", " work turns, "}, {"totals.hob_turns", gen.Fixed(t.HobTurns, 0)}, {"", " hob turns, "},
		{"totals.minutes", gen.Fixed(t.Minutes, 1)}, {"", " minutes; "}, {"totals.removed_mm3", gen.Fixed(p.Cycle.Removed, 1)}, {"", " mm³ from each space."},
	}
	return c
}

// rooms are the heights that the drawings on the second page may take, mm:
// less where the words of the first run over to it.
func rooms(c content) (pair, blank float64) {
	const (
		letter  = 250.0 // of a page of Letter inside its margins, and a little less
		line    = 3.65
		letters = 125 // in a line
		frame   = 148 // head, cautions, bar and titles
		row     = 4.25
		titles  = 36 // and notes, on the second page
	)
	lines := func(words ...string) float64 {
		n := 0
		for _, w := range words {
			n += utf8.RuneCountInString(w)
		}
		return line * float64(1+n/letters)
	}
	used := frame - 17*row
	for _, t := range c.Tables {
		used = max(used, frame+row*float64(len(t.Rows)-17))
	}
	for i, d := range c.Doubts {
		if i == 0 {
			used += 10
		}
		used += lines(d.Path.Text, d.What.Text, d.Remedy.Text)
	}
	for _, t := range c.Tasks {
		used += lines(t.Title.Text, t.Text.Text) + 0.6
	}
	left := letter - titles - max(used-letter+5, 0)
	return min(max(0.48*left, 45), 100), min(max(0.52*left, 50), 106)
}

// length is a length in the job's unit, without its name.
func (s *sheet) length(key string, mm float64) figure { return figure{key, s.u.Number(mm)} }

func (s *sheet) diameter(key string, mm float64) figure { return figure{key, "⌀" + s.u.Number(mm)} }

func (s *sheet) radiusOf(key string, mm float64) figure { return figure{key, "R" + s.u.Number(mm)} }

// bar is a line of 100 mm that tells whether the paper was printed to scale.
func bar() template.HTML {
	d := &drawing{wide: 120, tall: 9, scale: 1}
	for i := range 11 {
		x, deep := 10+float64(i)*10, 1.5
		if i%5 == 0 {
			deep = 2.5
		}
		d.line("n", false, point{x, 2}, point{x, 2 + deep})
	}
	d.b.WriteString(`<path id="bar" class="w" d="M10 2H110"/>`)
	for i := range 3 {
		d.figure(point{10 + 50*float64(i), 7.6}, "middle", figure{"paper.bar", fmt.Sprint(50 * i)}, false)
	}
	return d.svg("a bar of 100 mm")
}

// tables are those of pair and worm, of wheel and of hob.
func (s *sheet) tables() []table {
	p := s.p
	l := func(name, key string, mm float64) []figure { return []figure{{"", name}, s.length(key, mm)} }
	d := func(name, key string, mm float64) []figure { return []figure{{"", name}, s.diameter(key, mm)} }
	x := func(name, key, text string) []figure { return []figure{{"", name}, {key, text}} }
	angle := func(name, key string, rad float64) []figure {
		return x(name, key, gen.Fixed(rad*180/math.Pi, 4)+"°")
	}
	pair := table{Name: "Pair and worm", Rows: [][]figure{
		x("teeth, starts", "job.pair.teeth", fmt.Sprintf("%d, %d", p.Pair.Teeth, p.Pair.Starts)),
		x("hand", "job.pair.hand", p.Pair.Hand.String()),
		x("axial module, mm", "pair.axial_module_mm", gen.Fixed(p.Pair.Module, 6)),
		l("axial pitch", "pair.axial_pitch_mm", p.Pair.Pitch()),
		l("lead", "pair.lead_mm", p.Pair.Lead()),
		angle("lead angle", "pair.lead_angle_deg", p.Pair.LeadAngle()),
		angle("pressure angle, axial", "pair.axial_pressure_angle_deg", p.Pair.Pressure),
		angle("pressure angle, normal", "pair.normal_pressure_angle_deg", p.Pair.NormalPressure()),
		l("centre distance", "pair.centre_distance_mm", p.Pair.CentreDistance()),
		x("profile shift, modules", "pair.profile_shift", gen.Fixed(p.Pair.Shift, 4)),
		l("backlash, arc", "pair.backlash_mm", p.Backlash()),
		x("worm form", "worm.form", p.Job.Worm.Form.String()),
		d("worm, reference", "worm.reference_diameter_mm", p.Worm.ReferenceDiameter),
		d("worm, tip", "worm.tip_diameter_mm", p.Worm.TipDiameter),
		d("worm, root", "worm.root_diameter_mm", p.Worm.RootDiameter),
		l("worm, thread length", "worm.length_mm", p.Worm.Length),
		l("thread thickness, axial", "worm.axial_thickness_mm", p.Worm.Thickness),
	}}
	wheel := table{Name: "Wheel and blank", Rows: [][]figure{
		x("blank", "wheel.blank", map[bool]string{true: "throated", false: "plain"}[p.Blank.Throated]),
		x("proportions", "wheel.proportions", p.Job.Wheel.Rule.String()),
		x("material", "job.wheel.material", p.Job.Wheel.Material),
		d("outside", "wheel.outside_diameter_mm", p.Wheel.OutsideDiameter),
	}}
	add := func(t *table, row []figure) { t.Rows = append(t.Rows, row) }
	if p.Blank.Outside != p.Drawn.Outside {
		add(&wheel, d("outside, measured", "job.wheel.outside_measured", 2*p.Blank.Outside))
	}
	if p.Blank.Throated {
		add(&wheel, d("throat", "wheel.throat_diameter_mm", p.Wheel.ThroatDiameter))
		if p.Blank.Centre != p.Drawn.Centre {
			add(&wheel, d("throat, measured", "job.wheel.throat_measured", 2*(p.Blank.Centre-p.Blank.Hollow)))
		}
		add(&wheel, l("throat radius", "wheel.throat_radius_mm", p.Wheel.ThroatRadius))
	}
	for _, row := range [][]figure{
		d("reference", "wheel.reference_diameter_mm", p.Wheel.ReferenceDiameter),
		d("root, by the hob", "wheel.root_diameter_mm", p.Wheel.RootDiameter),
		l("face width", "wheel.face_width_mm", p.Wheel.FaceWidth),
		x("face that the hob reaches", "wheel.face_reached*100", gen.Fixed(100*p.Engaged.Reached, 0)+" %"),
		l("least tooth tip", "wheel.tooth_tip_mm", p.Engaged.ToothTip),
		l("first touch", "setup.first_touch_mm", p.Engaged.Touch),
		l("cutting centre distance", "setup.cutting_centre_distance_mm", p.Engaged.Full),
		l("depth", "setup.depth_mm", p.Engaged.Depth()),
		l("short by the last mark", "setup.remainder_mm", p.Cycle.Remainder),
		l("shift by the measured blank", "setup.blank_shift_mm", p.Setup.Shift),
	} {
		add(&wheel, row)
	}
	hob := table{Name: "Hob and drive", Rows: [][]figure{
		x("form, hand", "hob.form", p.Hob.Form.String()),
		x("starts, gashes", "job.hob.gashes", fmt.Sprintf("%d, %d", p.Hob.Starts, p.Hob.Gashes)),
		d("tip, as measured", "hob.tip_diameter_mm", 2*p.Hob.Tip),
		d("reference", "hob.reference_diameter_mm", 2*p.Hob.Reference),
		x("axial module, mm", "hob.axial_module_mm", gen.Fixed(p.Hob.Module, 6)),
		angle("lead angle", "hob.lead_angle_deg", p.Hob.LeadAngle()),
		angle("swivel that suits both", "setup.swivel_deg", p.Setup.Swivel),
		l("room, root to blank", "hob.root_gap_mm", p.Engaged.RootGap),
		l("length that finishes", "hob.finishing_length_mm", 2*p.Engaged.Generating),
		l("length in the blank", "hob.contact_length_mm", 2*p.Engaged.Contact),
		x("facets on a flank, µm", "hob.facet_um", gen.Fixed(1000*p.Facet(), 2)),
		x("hob to work", "setup.hob_to_work", p.Setup.Turns.String()),
		x("spindle, turns/min", "totals.spindle_rpm", gen.Fixed(p.Speed.Spindle, 1)),
		x("cutting speed", "totals.cutting_speed_m_min", p.Job.Units.Speed(p.Speed.Cutting)),
	}}
	hob.Rows[0][0].Text = "form"
	if p.Setup.Idler != "" {
		add(&hob, x("idler in the train", "setup.idler", p.Setup.Idler))
	}
	if p.Setup.Steps.Under > 0 {
		add(&hob, x("motor steps to counts", "setup.steps_to_counts", p.Setup.Steps.String()))
	}
	add(&hob, x("time, minutes", "totals.minutes", gen.Fixed(p.Cycle.Totals().Minutes, 1)))
	return []table{pair, wheel, hob}
}

// mostRows is how much of a schedule goes on the sheet.
const mostRows = 48

// A stretch is steps of a schedule that are alike.
type stretch struct{ first, last int }

// stretches puts steps that follow each other and are alike into rows where
// there are too many for a row of their own: as few in a row as lets all go on
// the sheet.
func stretches(steps []gen.Step) []stretch {
	const same = 1e-9
	var alike []stretch
	for i, s := range steps {
		if n := len(alike); n > 0 && i > 1 {
			last, before := steps[i-1], steps[i-2]
			way := (s.Travel - last.Travel) - (last.Travel - before.Travel)
			if s.Stage == last.Stage && math.Abs(s.Infeed-last.Infeed) < same && math.Abs(s.WorkTurns-last.WorkTurns) < same && math.Abs(way) < same {
				alike[n-1].last = i
				continue
			}
		}
		alike = append(alike, stretch{i, i})
	}
	var list []stretch
	for most := 1; most <= len(steps); most++ {
		list = list[:0]
		for _, a := range alike {
			for i := a.first; i <= a.last; i += most {
				list = append(list, stretch{i, min(i+most-1, a.last)})
			}
		}
		if len(list) <= mostRows {
			break
		}
	}
	return list
}

// schedule lays out the steps. Of a long one, steps that are alike share
// rows, and what is still too long is cut short in its middle; the feed card has
// them all.
func (s *sheet) schedule() table {
	p := s.p
	slide := p.Cycle.Moving
	travels := p.Job.Cut.Feed.Way() != gen.Radially
	second := "depth"
	if travels {
		second = "travel"
	}
	t := table{
		Name: "Schedule, " + p.Job.Cut.Feed.Words(),
		Head: []string{"step", "for", second, "reading", "turns", "seconds"},
		Note: "Readings of " + clip(plain(slide.Name()), 60) + " in " + slide.Dial.Unit.Name() + ", turns are those of the work.",
	}
	told := slices.ContainsFunc(p.Cycle.Steps, func(s gen.Step) bool { return s.Removed > 0 })
	if told {
		t.Head = append(t.Head, "mm³")
	}
	rows := stretches(p.Cycle.Steps)
	if len(rows) < len(p.Cycle.Steps) {
		t.Note += " Steps that are alike share a row, with the reading after the last and the turns of each; the feed card has them one by one."
	}
	for i, row := range rows {
		if len(rows) > mostRows && i >= mostRows/2 && i < len(rows)-mostRows/2 {
			if i == mostRows/2 {
				t.Rows = append(t.Rows, append([]figure{say("…"), say("see card")}, make([]figure, len(t.Head)-2)...))
			}
			continue
		}
		step := p.Cycle.Steps[row.last]
		at := func(name string) string { return fmt.Sprintf("schedule[%d].%s", row.last, name) }
		number := figure{at("step"), fmt.Sprint(step.Number)}
		way := s.length(at("depth_mm"), step.Depth)
		if travels {
			way = s.length(at("travel_mm"), step.Travel)
		}
		removed := figure{}
		if step.Removed > 0 && row.first == row.last {
			removed = figure{at("removed_mm3"), gen.Fixed(step.Removed, 2)}
		}
		if row.first < row.last {
			number = figure{"paper.steps", fmt.Sprintf("%d–%d", p.Cycle.Steps[row.first].Number, step.Number)}
		}
		cells := []figure{
			number, {at("stage"), step.Stage.String()}, way,
			{at("reading"), slide.Reading(step.Reading, p.Machine.Language)},
			{at("work_turns"), gen.Fixed(step.WorkTurns, 2)}, {at("seconds"), gen.Fixed(step.Seconds, 1)},
		}
		if told {
			cells = append(cells, removed)
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}
