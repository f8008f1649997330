package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/cut"
	"wormwright/gen/fit"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/lathe"
	"wormwright/geometry"
	"wormwright/posts/record"
)

// papers are the sizes on which a sheet is printed, mm (ISO 216, ANSI Y14.1).
var papers = []struct {
	name       string
	wide, tall float64
}{{"A4", 210, 297}, {"Letter", 215.9, 279.4}}

// An example is a plan with all that its sheet is made of.
type example struct {
	plan *gen.Plan
	fit  *fit.Fit
	worm *lathe.Worm
	cut  geometry.Swept
}

func (e example) sheet() []byte { return Setup(e.plan, e.fit, e.worm, e.cut) }

// jobs are the names of all example jobs.
func jobs(t testing.TB) (names []string) {
	t.Helper()
	files, err := filepath.Glob("../../fixtures/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no jobs: %v", err)
	}
	for _, f := range files {
		names = append(names, strings.TrimSuffix(filepath.Base(f), ".yaml"))
	}
	return names
}

// make makes an example of a job. The lathe is one that lists gears, or for a
// job that names another, that one.
func makeExample(t testing.TB, name string, change func(*gen.Job, *gen.Machine)) example {
	t.Helper()
	e := example{plan: jobtest.Plan(t, name, change)}
	f, err := fit.Of(e.plan, fit.Quick, fit.Mounting{})
	if err != nil {
		t.Fatal(err)
	}
	e.fit = &f
	text, err := os.ReadFile("../../fixtures/jobs/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	if m := regexp.MustCompile(`(?m)^lathe: .*/(.*)\.yaml`).FindSubmatch(text); m != nil {
		w := lathe.NewWorm(e.plan, jobtest.Lathe(t, string(m[1])))
		e.worm = &w
	}
	e.cut = inMemory(t, e.plan)
	return e
}

// inMemory cuts one tooth space of a plan in its middle plane, coarsely.
func inMemory(t testing.TB, p *gen.Plan) geometry.Swept {
	t.Helper()
	low, high := p.Space.Bottom(p.Final(), 0), p.Blank.Radius(0)
	grid := geometry.NewGrid(1, low, high, 2, 24)
	grid.Planes = []float64{0}
	w, err := cut.Run(cut.Setup{
		Hob: p.Hob, Blank: p.Blank, Teeth: p.Pair.Teeth, TaperAt: p.TaperAt(), Swivel: p.Swivelled(), Grid: grid,
	}, p.Cycle.Motion(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return func(_, r float64) (left, right float64, ok bool) {
		i, _ := slices.BinarySearch(w.Radii, r)
		return w.Swept(0, 0, min(i, len(w.Radii)-1))
	}
}

// nasty is what a user may write anywhere.
const nasty = `<script>alert("1")</script> 'O''Brien' & ` + "\u202eevil\u202c שלום עולם مرحبا 🛠️⚙️ " + `Supercalifragilisticexpialidociousandthensomemorewithoutasinglebreakinitwhatsoever `

func nastyJob(j *gen.Job, m *gen.Machine) {
	j.Title = strings.Repeat(nasty, 3)
	m.Title = nasty
	for _, s := range []*string{&m.Hob.Plus, &m.Hob.Minus, &m.Work.Plus, &m.Work.Minus, &m.Radial.Dial.Name, &m.Axial.Dial.Name} {
		*s = nasty
	}
}

// A sheet is one file of a moderate size, the same each time, and asks for
// nothing.
func TestSheetIsOneFile(t *testing.T) {
	for _, name := range jobs(t) {
		e := makeExample(t, name, nil)
		html := e.sheet()
		if !bytes.Equal(html, e.sheet()) {
			t.Errorf("%s: two sheets of one plan differ", name)
		}
		if len(html) > 400e3 {
			t.Errorf("%s: %d bytes, want 400,000 or fewer", name, len(html))
		}
		for _, word := range []string{"NaN", "<script", "src=", "href=", "url(", "ZgotmplZ"} {
			if bytes.Contains(html, []byte(word)) {
				t.Errorf("%s: holds %q", name, word)
			}
		}
		if regexp.MustCompile(`\bInf\b`).Match(html) {
			t.Errorf("%s: a place is infinite", name)
		}
		if n := bytes.Count(html, []byte(gen.Cautions[0])); n != 1 {
			t.Errorf("%s: the cautions are there %d times, want once", name, n)
		}
	}
}

// What is missing is left out; nothing else changes for it.
func TestSheetWithoutExtras(t *testing.T) {
	e := makeExample(t, "sluice-hoist", nil)
	whole := string(e.sheet())
	bare := string(Setup(e.plan, nil, nil, nil))
	for _, title := range []string{"How the flanks bear", "Change gears for the worm", "Tool for the worm", "Tooth space"} {
		if !strings.Contains(whole, title) || strings.Contains(bare, title) {
			t.Errorf("%q: in the whole sheet %v, in a bare one %v", title, strings.Contains(whole, title), strings.Contains(bare, title))
		}
	}
	for _, title := range []string{"The pair", "The blank", "Hob over blank", "Centring", "Swivel", "Schedule, radial feed"} {
		if !strings.Contains(bare, title) {
			t.Errorf("a bare sheet has no %q", title)
		}
	}
}

// A user's words do not become markup, nor end what holds them.
func TestSheetEscapes(t *testing.T) {
	e := makeExample(t, "tide-gauge", nastyJob)
	html := string(e.sheet())
	if strings.Contains(html, "<script") || strings.Contains(html, "\u202e") {
		t.Error("a user's words are markup, or turn the direction of the page")
	}
}

// The pair is drawn to its scale: on paper the worm's circle stands over the
// wheel's axis by the centre distance and has the worm's tip radius.
func TestPairIsToScale(t *testing.T) {
	for _, name := range jobs(t) {
		p := jobtest.Plan(t, name, nil)
		pic := (&sheet{p: p, u: p.Job.Units}).pair(paper, 100)
		over, under, ok := strings.Cut(pic.Scale, ":")
		a, err1 := strconv.ParseFloat(over, 64)
		b, err2 := strconv.ParseFloat(under, 64)
		if !ok || err1 != nil || err2 != nil {
			t.Fatalf("%s: scale %q", name, pic.Scale)
		}
		m := regexp.MustCompile(`viewBox="0 0 [\d.]+ ([\d.]+)".*?<circle class="w" cx="[\d.]+" cy="([\d.]+)" r="([\d.]+)"/>`).FindStringSubmatch(string(pic.SVG))
		if m == nil {
			t.Fatalf("%s: the worm has no circle", name)
		}
		var tall, y, r float64
		for i, v := range []*float64{&tall, &y, &r} {
			if *v, err1 = strconv.ParseFloat(m[i+1], 64); err1 != nil {
				t.Fatal(err1)
			}
		}
		const axis = 8 // mm of paper, from the lower edge
		if got := (tall - axis - y) * b / a; math.Abs(got-p.Pair.CentreDistance()) > 0.02*b/a {
			t.Errorf("%s: the axes are drawn %.3f mm apart, want %.3f", name, got, p.Pair.CentreDistance())
		}
		if got := 2 * r * b / a; math.Abs(got-p.Worm.TipDiameter) > 0.02*b/a {
			t.Errorf("%s: the worm is drawn with %.3f mm over its tips, want %.3f", name, got, p.Worm.TipDiameter)
		}
	}
}

// Long schedules are cut short so that each row still tells of all its steps.
func TestStretches(t *testing.T) {
	var steps []gen.Step
	depth := 0.0
	for i := range 200 {
		infeed := 0.05
		if i >= 150 {
			infeed = 0.01
		}
		depth += infeed
		steps = append(steps, gen.Step{Number: i + 1, Infeed: infeed, Depth: depth, WorkTurns: 1})
	}
	next := 0
	for _, r := range stretches(steps) {
		if r.first != next || r.last < r.first {
			t.Fatalf("row from %d to %d, want it to begin at %d", r.first, r.last, next)
		}
		for i := r.first + 1; i <= r.last; i++ {
			if math.Abs(steps[i].Infeed-steps[r.first].Infeed) > 1e-9 && i > r.first+1 {
				t.Errorf("row from %d to %d holds infeeds of %g and %g", r.first, r.last, steps[r.first].Infeed, steps[i].Infeed)
			}
		}
		next = r.last + 1
	}
	if next != len(steps) {
		t.Errorf("rows end at %d of %d steps", next, len(steps))
	}
	if got := len(stretches(steps)); got > mostRows || got < mostRows/2 {
		t.Errorf("%d rows, want half of %d or more", got, mostRows)
	}
	if got := len(stretches(steps[:20])); got != 20 {
		t.Errorf("20 steps make %d rows, want one each", got)
	}
}

// Printed on A4 and on Letter a sheet takes two to four pages, each with its
// number and the digest; the bar is 100 mm long.
func TestSheetPrints(t *testing.T) {
	examples := map[string]example{"nasty": makeExample(t, "tide-gauge", nastyJob)}
	for _, name := range jobs(t) {
		examples[name] = makeExample(t, name, nil)
	}
	long := makeExample(t, "sluice-hoist", func(j *gen.Job, _ *gen.Machine) { j.Cut.Step, j.Cut.FinishSteps = 0.02, 0 })
	for range 6 {
		long.plan.Findings = append(long.plan.Findings, long.plan.Findings[0])
	}
	examples["long"] = long
	for name, e := range examples {
		for _, paper := range papers {
			t.Run(name+" on "+paper.name, func(t *testing.T) {
				b := open(t, e.sheet(), paper.wide)
				pdf := b.print(paper.wide, paper.tall)
				b.clean()
				m := regexp.MustCompile(`Pages:\s+(\d+)`).FindStringSubmatch(poppler(t, "pdfinfo", pdf))
				if m == nil {
					t.Fatal("pdfinfo tells no pages")
				}
				pages, _ := strconv.Atoi(m[1])
				if pages < 2 || pages > 4 {
					t.Errorf("%d pages, want 2 to 4", pages)
				}
				for i := 1; i <= pages; i++ {
					n := strconv.Itoa(i)
					text := poppler(t, "pdftotext", "-layout", "-f", n, "-l", n, pdf, "-")
					if !strings.Contains(text, "digest "+e.plan.Digest) || !strings.Contains(text, fmt.Sprintf("page %d of %d", i, pages)) {
						t.Errorf("page %d has no digest or number: %q", i, text[max(0, len(text)-200):])
					}
				}
				if got := printedBar(t, pdf); math.Abs(got-100) > 0.1 {
					t.Errorf("on paper the bar is %.3f mm long", got)
				}
				if got := eval[float64](b, `(() => { const p = document.getElementById("bar"); return p.getTotalLength() * p.getScreenCTM().a / 96 * 25.4 })()`); math.Abs(got-100) > 0.1 {
					t.Errorf("in the browser the bar is %.3f mm long", got)
				}
			})
		}
	}
}

// printedBar measures the bar on the first page between the middles of the 0
// and the 100 under its ends, mm.
func printedBar(t *testing.T, pdf string) float64 {
	t.Helper()
	words := regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="[\d.]+">(.*?)</word>`).
		FindAllStringSubmatch(poppler(t, "pdftotext", "-bbox", "-f", "1", "-l", "1", pdf, "-"), -1)
	middle := func(w []string) float64 {
		a, _ := strconv.ParseFloat(w[1], 64)
		b, _ := strconv.ParseFloat(w[3], 64)
		return (a + b) / 2
	}
	for i := 2; i < len(words); i++ {
		a, b, c := words[i-2], words[i-1], words[i]
		if a[4] == "0" && b[4] == "50" && c[4] == "100" && a[2] == c[2] {
			return (middle(c) - middle(a)) / 72 * 25.4
		}
	}
	t.Fatal("the figures under the bar are not on the first page")
	return 0
}

// textBoxes is where writing stands, line by line, without the room that a
// font keeps above and below its letters.
const textBoxes = `(() => {
	const list = [];
	const add = (r, text, upright) => {
		if (r.width < 0.5 || r.height < 0.5) return;
		const k = 0.16, dx = upright ? r.width * k : 0.2, dy = upright ? 0.2 : r.height * k;
		list.push({Left: r.left + dx, Right: r.right - dx, Top: r.top + dy, Bottom: r.bottom - dy, Text: text.trim().slice(0, 60)});
	};
	const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let n; n = walk.nextNode();) {
		if (!n.data.trim()) continue;
		const svg = n.parentElement.closest("svg text");
		if (n.parentElement.closest("title")) continue;
		if (svg) { add(svg.getBoundingClientRect(), n.data, svg.hasAttribute("transform")); continue; }
		const range = document.createRange();
		range.selectNodeContents(n);
		// The head of a table that goes on is told of once for every part.
		const seen = new Set();
		for (const r of range.getClientRects()) {
			const at = [r.left, r.top, r.right, r.bottom].join();
			if (!seen.has(at)) add(r, n.data, false);
			seen.add(at);
		}
	}
	return JSON.stringify(list);
})()`

// A box is where a line of writing stands, CSS pixels.
type box struct {
	Left, Right, Top, Bottom float64
	Text                     string
}

// No writing lies on other writing, leaves the paper or stands in a block that
// no page holds; all of it has a contrast of 4.5:1 (WCAG 2.1, 1.4.3).
func TestSheetIsLegible(t *testing.T) {
	examples := map[string]example{"nasty": makeExample(t, "tide-gauge", nastyJob)}
	for _, name := range jobs(t) {
		examples[name] = makeExample(t, name, nil)
	}
	for name, e := range examples {
		for _, paper := range papers {
			t.Run(name+" on "+paper.name, func(t *testing.T) {
				b := open(t, e.sheet(), paper.wide)
				var boxes []box
				if err := json.Unmarshal([]byte(eval[string](b, textBoxes)), &boxes); err != nil || len(boxes) < 100 {
					t.Fatalf("%d boxes of writing, %v", len(boxes), err)
				}
				width := eval[float64](b, "document.documentElement.clientWidth")
				for i, p := range boxes {
					if p.Left < -0.5 || p.Right > width+0.5 {
						t.Errorf("%q leaves the page: %.1f to %.1f of %.1f", p.Text, p.Left, p.Right, width)
					}
					for _, q := range boxes[i+1:] {
						if p.Left < q.Right && q.Left < p.Right && p.Top < q.Bottom && q.Top < p.Bottom {
							t.Errorf("%q lies on %q at %.0f, %.0f", p.Text, q.Text, q.Left, q.Top)
						}
					}
				}
				const margins = 26 // mm, above and below, of the sheet's own style
				for _, tall := range eval[[]float64](b, `[...document.querySelectorAll(".drawings, figure, .cautions, .course, tr, li")].map(e => e.getBoundingClientRect().height)`) {
					if tall > (papers[1].tall-margins)/25.4*96 {
						t.Errorf("a block that cannot be broken is %.1f mm tall", tall/96*25.4)
					}
				}
				if shapes := eval[float64](b, `Math.max(...[...document.querySelectorAll("svg *")].map(e => Math.max(e.getBoundingClientRect().right - document.documentElement.clientWidth, 0 - e.getBoundingClientRect().left)))`); shapes > 0.5 {
					t.Errorf("a drawing leaves the page by %.1f px", shapes)
				}
				if low := eval[[]string](b, lowContrast); len(low) > 0 {
					t.Errorf("too little contrast: %q", low)
				}
				b.clean()
			})
		}
	}
}

// lowContrast lists writing whose colour is too near to that behind it.
const lowContrast = `(() => {
	const parse = c => c.match(/[\d.]+/g).map(Number);
	const light = ([r, g, b]) => { const f = v => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b); };
	const low = [];
	for (const e of document.querySelectorAll("body *")) {
		if (![...e.childNodes].some(n => n.nodeType == 3 && n.data.trim())) continue;
		if (e.closest("title")) continue;
		const style = getComputedStyle(e);
		const ink = parse(e.closest("svg") ? style.fill : style.color);
		let back = [255, 255, 255];
		for (let p = e; p; p = p.parentElement) {
			const c = parse(getComputedStyle(p).backgroundColor);
			if (c.length < 4 || c[3] > 0) { back = c; break; }
		}
		const a = light(ink), b = light(back);
		if ((Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) < 4.5) low.push(e.textContent.slice(0, 40));
	}
	return low;
})()`

// Every figure on a sheet is the one that the plan's JSON has under its key,
// as far as its decimals go, and there is no figure without a key.
func TestFiguresAreThePlans(t *testing.T) {
	for _, name := range jobs(t) {
		t.Run(name, func(t *testing.T) {
			e := makeExample(t, name, nil)
			var plan any
			if err := json.Unmarshal(record.Of(e.plan).JSON(), &plan); err != nil {
				t.Fatal(err)
			}
			b := open(t, e.sheet(), papers[0].wide)
			list := eval[[]string](b, `[...document.querySelectorAll("[data-figure]")].flatMap(e => [e.getAttribute("data-figure"), e.textContent])`)
			if len(list) < 180 {
				t.Fatalf("%d figures, want ninety or more", len(list)/2)
			}
			for i := 0; i < len(list); i += 2 {
				if err := e.check(plan, list[i], list[i+1]); err != nil {
					t.Errorf("%s: %q: %v", list[i], list[i+1], err)
				}
			}
			stray := eval[[]string](b, `(() => {
				const list = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
				for (let n; n = walk.nextNode();)
					if (/\d/.test(n.data) && !n.parentElement.closest("[data-figure], .map, bdi")) list.push(n.data);
				return list;
			})()`)
			if len(stray) > 0 {
				t.Errorf("figures without a key: %q", stray)
			}
		})
	}
}

var numeral = regexp.MustCompile(`-?\d+(\.\d+)?`)

// check holds a figure of the sheet against what its key names.
func (e example) check(plan any, key, text string) error {
	p := e.plan
	all := numeral.FindAllString(text, -1)
	near := func(want, unit float64) error {
		if len(all) == 0 {
			return fmt.Errorf("no number")
		}
		have, err := strconv.ParseFloat(all[0], 64)
		if err != nil {
			return err
		}
		decimals := len(all[0]) - 1 - strings.Index(all[0]+".", ".")
		if decimals < 0 {
			decimals = 0
		}
		if math.Abs(have*unit-want) > 0.5001*math.Pow10(-decimals)*unit+1e-9 {
			return fmt.Errorf("want %g", want/unit)
		}
		return nil
	}
	u := p.Job.Units.Millimetres()
	kind, rest, _ := strings.Cut(key, ".")
	switch kind {
	case "paper":
		return nil // a scale, a tick, the bar
	case "text":
		for _, task := range p.Setup.Work {
			if strings.Contains(task.Text, text) {
				return nil
			}
		}
		return fmt.Errorf("no task has it")
	case "job":
		wants := map[string]string{
			"pair.teeth": fmt.Sprintf("%d, %d", p.Job.Pair.Teeth, p.Job.Pair.Starts), "pair.hand": p.Job.Pair.Hand.String(),
			"wheel.material": p.Job.Wheel.Material, "hob.gashes": fmt.Sprintf("%d, %d", p.Hob.Starts, p.Hob.Gashes),
		}
		if want, ok := wants[rest]; ok {
			if text != want {
				return fmt.Errorf("want %q", want)
			}
			return nil
		}
		mm, ok := map[string]float64{
			"wheel.outside_measured": p.Job.Wheel.OutsideMeasured, "wheel.throat_measured": p.Job.Wheel.ThroatMeasured,
			"wheel.hub_projection": p.Job.Wheel.Hub, "wheel.throat_offset": math.Abs(p.Job.Wheel.ThroatOffset),
		}[rest]
		if !ok {
			return fmt.Errorf("no such key in the job")
		}
		return near(mm, u)
	case "worm":
		if inPlan(plan, key) == nil {
			return e.checkWorm(rest, text, all, near, u)
		}
	}
	factor, unit := 1.0, 1.0
	path := strings.Trim(key, "|")
	if before, ok := strings.CutSuffix(path, "/2"); ok {
		path, factor = before, 0.5
	}
	if before, ok := strings.CutSuffix(path, "*100"); ok {
		path, factor = before, 100
	}
	if strings.HasSuffix(path, "_mm") && !strings.HasSuffix(path, "module_mm") {
		unit = u
	}
	if strings.Contains(text, "ft/min") {
		unit = 0.3048
	}
	switch want := inPlan(plan, path).(type) {
	case float64:
		if want *= factor; strings.HasPrefix(key, "|") {
			want = math.Abs(want)
		}
		return near(want, unit)
	case string:
		if path == "title" {
			want = plain(want)
		}
		if text != want {
			return fmt.Errorf("want %q", want)
		}
		return nil
	}
	return fmt.Errorf("no such key in the plan")
}

// checkWorm holds a figure against how the worm is turned.
func (e example) checkWorm(key, text string, all []string, near func(want, unit float64) error, u float64) error {
	w := e.worm
	const degree = 180 / math.Pi
	switch key {
	case "gears":
		found, err := w.Gears(w.Lathe, 1)
		if err != nil {
			return err
		}
		z, _ := strconv.Atoi(all[0])
		t := found.Trains[0]
		if !slices.Contains(slices.Concat(t.Drivers, t.Driven, []int{t.Idler}), z) {
			return fmt.Errorf("no such gear in the train")
		}
		return nil
	case "gearbox", "ppm", "lead_error":
		found, err := w.Gears(w.Lathe, 1)
		if err != nil {
			return err
		}
		t := found.Trains[0]
		if key == "gearbox" {
			if text != t.Gearbox.String() {
				return fmt.Errorf("want %s", t.Gearbox)
			}
			return nil
		}
		if key == "ppm" {
			return near(t.PPM, 1)
		}
		return near(math.Abs(t.PPM)*1e-6*w.Blank.Length*1000, 1) // µm
	case "wire", "over_wires":
		for _, wire := range w.Measure.Wires {
			if near(wire.Diameter, u) == nil || near(wire.Reading, u) == nil {
				return nil
			}
		}
		return fmt.Errorf("no such wire")
	}
	lengths := map[string]float64{
		"tip_width": w.Tool().TipWidth, "depth": w.Infeed.Depth, "rounding": w.Tool().Rounding, "outside": w.Blank.Outside, "root": w.Blank.Root,
		"length": w.Blank.Length, "groove": w.Blank.Groove, "groove_diameter": w.Blank.GrooveDiameter, "thickness": w.Measure.Thickness,
	}
	if mm, ok := lengths[key]; ok {
		return near(mm, u)
	}
	others := map[string]float64{
		"included_angle": 2 * w.Tool().Edge * degree, "leading_relief": w.Tool().Leading * degree, "trailing_relief": w.Tool().Trailing * degree,
		"tilt": w.Tool().Tilt * degree, "spindle": w.Pace.Spindle,
	}
	if x, ok := others[key]; ok {
		return near(x, 1)
	}
	return fmt.Errorf("no such figure of the worm")
}

// inPlan finds a value in JSON by a path such as schedule[3].reading.
func inPlan(v any, path string) any {
	for _, step := range strings.Split(path, ".") {
		name, index, indexed := strings.Cut(step, "[")
		m, ok := v.(map[string]any)
		if !ok {
			return nil
		}
		v = m[name]
		if indexed {
			list, _ := v.([]any)
			i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
			if err != nil || i >= len(list) {
				return nil
			}
			v = list[i]
		}
	}
	return v
}
