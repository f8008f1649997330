package card

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/lathe"
)

// shops are example jobs with the lathes that their shops have.
var shops = []struct{ job, lathe string }{
	{"observatory-dome", "small-lathe"},
	{"sluice-hoist", "screw-lathe"},
	{"tide-gauge", "threading-lathe"},
	{"turret-clock", "threading-lathe"},
	{"turret-clock", "small-lathe"},
}

func worm(t testing.TB, name, on string, change func(*gen.Job, *gen.Lathe)) lathe.Worm {
	t.Helper()
	l := jobtest.Lathe(t, on)
	w := lathe.NewWorm(jobtest.Plan(t, name, func(j *gen.Job, _ *gen.Machine) {
		if change != nil {
			change(j, &l)
		}
	}), l)
	if w.Findings.Failed() {
		t.Fatal(w.Findings)
	}
	return w
}

// Cards fit the page, end in the lathe's cautions and carry the digest; the
// CSV has a row for every pass.
func TestThreadCards(t *testing.T) {
	for _, s := range shops {
		w := worm(t, s.job, s.lathe, nil)
		h := lathe.NewHob(w.Plan, w.Lathe)
		for what, c := range map[string]struct {
			table  Table
			passes int
		}{
			"worm": {Worm(w), len(w.Infeed.Passes)},
			"hob":  {Hob(h), len(h.Infeed.Passes)},
		} {
			text := c.table.Text()
			for line := range strings.Lines(string(text)) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > Width {
					t.Errorf("%s, %s: %d characters in %q", s.job, what, n, line)
				}
			}
			for _, want := range append([]string{"digest " + w.Digest + ".", "Half nuts: ", "Side relief", "Run-out groove"}, lathe.Cautions...) {
				if want == "Half nuts: " && w.Lathe.Threads {
					continue
				}
				if !strings.Contains(joined(c.table), want) {
					t.Errorf("%s, %s: card lacks %q", s.job, what, want)
				}
			}
			rows, err := csv.NewReader(bytes.NewReader(c.table.CSV())).ReadAll()
			if err != nil || len(rows) != c.passes+1 {
				t.Errorf("%s, %s: %d rows, %v; want %d and the head", s.job, what, len(rows), err, c.passes)
			}
			if strings.Contains(string(text), "NaN") || strings.Contains(string(text), "Inf") || strings.Contains(string(text), "%!") {
				t.Errorf("%s, %s: card with a number that is none:\n%s", s.job, what, text)
			}
			if !bytes.Equal(text, c.table.Text()) {
				t.Errorf("%s, %s: other bytes the second time", s.job, what)
			}
		}
	}
}

// The readings of the table are depths as the dial counts them: twice on the
// diameter, and turns and marks of the crank that make up the reading.
func TestPassReadings(t *testing.T) {
	for _, tt := range []struct {
		on     string
		per    float64 // reading for 1 mm of depth
		unit   float64
		change func(*gen.Job, *gen.Lathe)
	}{
		{"screw-lathe", 2, 1, nil},
		{"small-lathe", 1, 25.4, nil},
		{"threading-lathe", 2, 1, nil},
		// By hand: the top slide goes 1/cos 19.5° for each mm.
		{"screw-lathe", 1 / math.Cos(19.5*math.Pi/180), 1, func(j *gen.Job, _ *gen.Lathe) { j.Turn.Flank = true }},
	} {
		w := worm(t, "sluice-hoist", tt.on, tt.change)
		table := Worm(w)
		column := map[string]int{}
		for i, c := range table.Columns {
			column[c.Key] = i
		}
		dial := w.Slide(w.Lathe).Dial
		last := 0.0
		for i, row := range table.Rows {
			depth, err1 := strconv.ParseFloat(row[column["depth"]], 64)
			reading, err2 := strconv.ParseFloat(row[column["reading"]], 64)
			if err1 != nil || err2 != nil {
				t.Fatalf("%s: row %q", tt.on, row)
			}
			if math.Abs(reading*tt.unit-depth*tt.per) > 0.0012 { // the depth has three decimals
				t.Errorf("%s: reading %v for depth %v", tt.on, reading, depth)
			}
			if reading < last {
				t.Errorf("%s: row %d goes back", tt.on, i+1)
			}
			last = reading
			if at, ok := column["crank_turns"]; ok {
				var turns, mark int
				if _, err := fmt.Sscan(row[at]+" "+row[at+1], &turns, &mark); err != nil {
					t.Fatal(err)
				}
				if want := float64(turns)*dial.Turn + float64(mark)*dial.Graduation; math.Abs(reading*tt.unit-want) > 1e-9 {
					t.Errorf("%s: crank at %d turns and mark %d for %v", tt.on, turns, mark, reading)
				}
			}
		}
		// The mill's worm is 4.5 deep: 9 on the diameter, by hand.
		if want := 4.5 * tt.per / tt.unit; math.Abs(last-want) > dial.Graduation/tt.unit+1e-9 {
			t.Errorf("%s: last reading %v, want %v", tt.on, last, want)
		}
	}
}

// What a card says of hand, starts, slides and forms.
func TestWormCardSays(t *testing.T) {
	for _, tt := range []struct {
		name, job, on string
		change        func(*gen.Job, *gen.Lathe)
		want, lack    []string
	}{
		{"right hand", "sluice-hoist", "screw-lathe", nil,
			[]string{"right hand is cut toward the headstock", "on the diameter", "6 threads per inch do not come back together", "Half nuts: keep them closed", "form ZA"},
			[]string{"Start 2", "The program does this"}},
		{"left hand, control", "tide-gauge", "threading-lathe", nil,
			[]string{"left hand is cut toward the tailstock", "The program does this", "form ZI", "Or: offset, each edge"},
			[]string{"Half nuts:"}},
		{"two starts on a dial", "turret-clock", "screw-lathe", nil,
			[]string{"Start 2: the spindle indexed by 180.000° against the leadscrew, or the top slide, along the axis, moved by 4.712 mm: 4.72 on its dial, 7.6 µm off."}, nil},
		{"two starts along a flank", "turret-clock", "screw-lathe", func(j *gen.Job, _ *gen.Lathe) { j.Turn.Flank = true },
			[]string{"the top slide is swung and cannot shift it", "swung 19.61° from the square of the axis"}, []string{"on its dial"}},
		{"a wire of its own", "observatory-dome", "small-lathe", nil,
			[]string{"on the radius", "Gear-tooth caliper, set to 0.0625 in below the outside", "8 threads per inch"}, nil},
		{"half nuts", "sluice-hoist", "small-lathe", func(_ *gen.Job, l *gen.Lathe) { l.Screw = gen.Screw{Lead: math.Pi} },
			[]string{"the leadscrew of 3.142 mm and the work come back together after 2 turns of the screw"}, nil},
		{"disk", "sluice-hoist", "screw-lathe", func(j *gen.Job, _ *gen.Lathe) {
			j.Worm.Form, j.Hob.Form = 3, 3
			j.Worm.Disk, j.Hob.Disk = 120, 120
		}, []string{"Form ZK is made by its disk only"}, nil},
	} {
		text := joined(Worm(worm(t, tt.job, tt.on, tt.change)))
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: card lacks %q:\n%s", tt.name, want, text)
			}
		}
		for _, lack := range tt.lack {
			if strings.Contains(text, lack) {
				t.Errorf("%s: card has %q", tt.name, lack)
			}
		}
	}
}

func TestHobCardSays(t *testing.T) {
	for _, tt := range []struct {
		job  string
		want []string
	}{
		// Twice 0.5 over the worm's 42.8, as the mill's pair has it.
		{"sluice-hoist", []string{"The worm's own thread as a hob would be 43.800 mm over the tips, the worm's 42.800 mm and twice the clearance of 0.500 mm",
			"larger than the worm by 1.200 mm", "Straight along the axis", "goes in radially by 2.493 mm", "tip diameter 45.000 mm", "none is needed for radial feed"}},
		{"turret-clock", []string{"left hand, lead 763.407 mm", "Entering taper: 18.000 mm long, the tips falling by 2.500 mm: 7.91°", "has the worm's reference diameter"}},
		{"observatory-dome", []string{"Relief: none. To be accepted:", "changes neither diameter nor profile"}},
	} {
		p := jobtest.Plan(t, tt.job, nil)
		text := joined(Hob(lathe.NewHob(p, jobtest.Lathe(t, "screw-lathe"))))
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: card lacks %q:\n%s", tt.job, want, text)
			}
		}
	}
}
