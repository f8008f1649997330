package job

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
)

func TestReadFaults(t *testing.T) {
	for _, tt := range []struct {
		name string
		yaml []string // lines of plainJob to set
		want []string
	}{
		{"no fault", nil, nil},

		{"unknown key, a slip", []string{"cut: {step: 0.25, sparkout: 1}"},
			[]string{"job.yaml:8:19: cut.sparkout: unknown key; did you mean spark_out?"}},
		{"unknown key, letters swapped", []string{"wheel: {blakn: plain}"},
			[]string{"job.yaml:6:9: wheel.blakn: unknown key; did you mean blank?"}},
		{"unknown key at the top", []string{"titel: Lower mill"},
			[]string{"job.yaml:9:1: titel: unknown key; did you mean title?"}},
		{"unknown key like none", []string{"pair: {module: 2, teeth: 40, pressure_angle: 20, quality: 7}"},
			[]string{"job.yaml:4:50: pair.quality: unknown key; have …"}},
		{"unknown key, all that there are", []string{"worm: {reference_diameter: 38.8, angle: 3}"},
			[]string{"job.yaml:5:34: worm.angle: unknown key; have form, reference_diameter, length, disk_diameter"}},
		{"unknown key with its own keys", []string{"cut: {step: 1, peck: {step: 1}}"},
			[]string{"job.yaml:8:16: cut.peck: unknown key; have …"}},

		{"missing everything", []string{"pair: {}", "worm: {}", "hob: {}", "cut: {}"}, []string{
			"job.yaml:4:7: pair.module: missing: want one of module, normal_module, diametral_pitch, axial_pitch",
			"job.yaml:4:7: pair.teeth: missing",
			"job.yaml:4:7: pair.pressure_angle: missing",
			"job.yaml:5:7: worm.reference_diameter: missing",
			"job.yaml:7:6: hob.tip_diameter: missing",
			"job.yaml:7:6: hob.addendum: missing",
			"job.yaml:7:6: hob.gashes: missing",
			"job.yaml:8:6: cut.step: missing",
		}},
		{"missing below an optional key", []string{"cut: {step: 1, finish: {steps: 2}, creep: {}}"}, []string{
			"job.yaml:8:24: cut.finish.step: missing",
			"job.yaml:8:43: cut.creep.steps: missing",
			"job.yaml:8:43: cut.creep.step: missing",
		}},
		{"missing by another key: ZK", []string{"worm: {form: ZK, reference_diameter: 38.8, disk_diameter: 90}"},
			[]string{"job.yaml:7:6: hob.disk_diameter: missing"}},
		{"missing by another key: falling steps", []string{"cut: {step: 0.25, rule: falling}"},
			[]string{"job.yaml:8:6: cut.last_step: missing"}},

		{"given twice", []string{"cut: {step: 0.25, step: 0.25}"},
			[]string{"job.yaml:8:19: cut.step: given twice"}},
		{"section given twice", []string{"wheel: {face_width: 20}\nwheel: {face_width: 20}"},
			[]string{"job.yaml:7:1: wheel: given twice"}},
		{"two modules", []string{"pair: {module: 2, diametral_pitch: 12, teeth: 40, pressure_angle: 20}"},
			[]string{"job.yaml:4:19: pair.diametral_pitch: want only one of module, diametral_pitch"}},
		{"three modules", []string{"pair: {axial_pitch: 6, module: 2, normal_module: 2, teeth: 40, pressure_angle: 20}"},
			[]string{"job.yaml:4:35: pair.normal_module: want only one of module, normal_module, axial_pitch"}},
		{"two modules of the hob", []string{"hob: {lead: 6.3, module: 2, tip_diameter: 45, addendum: 2.5, gashes: 10}"},
			[]string{"job.yaml:7:7: hob.lead: want only one of module, lead"}},
		{"shift and centre distance", []string{"pair: {module: 2, teeth: 40, pressure_angle: 20, profile_shift: 0, centre_distance: 60}"},
			[]string{"job.yaml:4:68: pair.centre_distance: want only one of profile_shift, centre_distance"}},
		{"speed and spindle", []string{"cut: {step: 1, speed: 20, spindle: 140}"},
			[]string{"job.yaml:8:27: cut.spindle: want only one of speed, spindle"}},

		{"section is a number", []string{"pair: 5"},
			[]string{`job.yaml:4:7: pair: want keys and values, have "5"`}},
		{"section is a list", []string{"pair: [module, 2]"},
			[]string{"job.yaml:4:7: pair: want keys and values, have a list"}},
		{"number is a list", []string{"cut: {step: [0.25]}"},
			[]string{"job.yaml:8:13: cut.step: want a single value, have a list"}},
		{"number is a mapping", []string{"cut: {step: {mm: 0.25}}"},
			[]string{"job.yaml:8:13: cut.step: want a single value, have keys and values"}},
		{"number is a word", []string{"cut: {step: fine}"},
			[]string{`job.yaml:8:13: cut.step: want a number, have "fine"`}},
		{"word is a list", []string{"title: [Upper, mill]"},
			[]string{"job.yaml:1:8: title: want a single value, have a list"}},
		{"wrong word", []string{"pair: {module: 2, teeth: 40, pressure_angle: 20, hand: rigth}"},
			[]string{`job.yaml:4:56: pair.hand: want left, right, have "rigth"`}},
		{"yes is not true", []string{"wheel: {allow_undercut: yes}"},
			[]string{`job.yaml:6:25: wheel.allow_undercut: want false, true, have "yes"`}},
		{"not a whole number", []string{"pair: {module: 2, teeth: 40.5, pressure_angle: 20}"},
			[]string{`job.yaml:4:26: pair.teeth: want a whole number from 6 to 2000, have "40.5"`}},
		{"whole number too small", []string{"hob: {tip_diameter: 45, addendum: 2.5, gashes: 0}"},
			[]string{`job.yaml:7:48: hob.gashes: want a whole number from 1 to 1000, have "0"`}},
		{"unknown unit", []string{"units: cm"},
			[]string{`job.yaml:2:8: units: want in, mm, have "cm"`}},

		{"no title", []string{"title:"},
			[]string{"job.yaml:1:7: title: want a value, have nothing"}},
		{"empty title", []string{"title: ''"},
			[]string{`job.yaml:1:8: title: want one line of text, have ""`}},
		{"title of two lines", []string{`title: "Upper\nmill"`},
			[]string{`job.yaml:1:8: title: want one line of text, have "Upper\nmill"`}},
		{"title that moves the cursor", []string{`title: "Upper\e[2J"`},
			[]string{`job.yaml:1:8: title: want one line of text, have "Upper\x1b[2J"`}},
		{"empty machine", []string{"machine: ''"},
			[]string{`job.yaml:3:10: machine: want one line of text, have ""`}},
		{"null", []string{"cut: {step: ~}"},
			[]string{"job.yaml:8:13: cut.step: want a value, have nothing"}},
		{"null section", []string{"hob: null"},
			[]string{"job.yaml:7:6: hob: want a value, have nothing"}},
		{"empty text for a number", []string{"cut: {step: ''}"},
			[]string{`job.yaml:8:13: cut.step: want a number, have ""`}},

		{"NaN", []string{"cut: {step: .nan}"},
			[]string{`job.yaml:8:13: cut.step: want a finite number, have ".nan"`}},
		{"infinity", []string{"cut: {step: -.inf}"},
			[]string{`job.yaml:8:13: cut.step: want a finite number, have "-.inf"`}},
		{"octal", []string{"cut: {step: 012}"},
			[]string{`job.yaml:8:13: cut.step: want no leading zero: it could be read as octal, have "012"`}},
		{"octal for a whole number", []string{"hob: {tip_diameter: 45, addendum: 2.5, gashes: 012}"},
			[]string{`job.yaml:7:48: hob.gashes: want no leading zero: it could be read as octal, have "012"`}},
		{"hexadecimal", []string{"cut: {step: 0x10}"},
			[]string{`job.yaml:8:13: cut.step: want a length, as 2.5, 0.12 mm or 1/2 in, have "0x10"`}},
		{"comma", []string{"cut:\n  step: 2,5"},
			[]string{`job.yaml:9:9: cut.step: want a decimal point, as 2.5, have "2,5"`}},
		{"not above 0", []string{"cut: {step: 0}"},
			[]string{`job.yaml:8:13: cut.step: want above 0, have "0"`}},
		{"below 0", []string{"wheel: {backlash: -0.05 mm}"},
			[]string{`job.yaml:6:19: wheel.backlash: want 0 or above, have "-0.05 mm"`}},
		{"unit of another kind", []string{"cut: {step: 20 m/min}"},
			[]string{`job.yaml:8:13: cut.step: want a length, as 2.5, 0.12 mm or 1/2 in, have "20 m/min"`}},

		{"angle too large", []string{"pair: {module: 2, teeth: 40, pressure_angle: 50}"},
			[]string{`job.yaml:4:46: pair.pressure_angle: want from 5° to 45°, have "50"`}},
		{"angle of nothing", []string{"pair: {module: 2, teeth: 40, pressure_angle: 0}"},
			[]string{`job.yaml:4:46: pair.pressure_angle: want from 5° to 45°, have "0"`}},
		{"shift too large", []string{"pair: {module: 2, teeth: 40, pressure_angle: 20, profile_shift: 2.1}"},
			[]string{`job.yaml:4:65: pair.profile_shift: want from -2 to 2 modules, have "2.1"`}},
		{"root above tip", []string{"hob: {tip_diameter: 45, addendum: 2.5, gashes: 10, root_diameter: 45}"},
			[]string{`job.yaml:7:67: hob.root_diameter: want less than the tip diameter, have "45"`}},
		{"taper longer than the hob", []string{"hob: {tip_diameter: 45, addendum: 2.5, gashes: 10, length: 10, taper: {length: 10, drop: 1}}"},
			[]string{`job.yaml:7:80: hob.taper.length: want less than the hob's length, have "10"`}},

		{"anchor", []string{"cut: {step: &fine 0.25}"},
			[]string{"job.yaml:8:13: want no anchor (&fine): write the value out"}},
		{"alias", []string{"wheel: {face_width: &w 20, backlash: *w}"}, []string{
			"job.yaml:6:21: want no anchor (&w): write the value out",
			"job.yaml:6:38: want no alias (*w): write the value out",
		}},
		{"tag", []string{"cut: {step: !!float 0.25}"},
			[]string{"job.yaml:8:13: want no tag (!!float)"}},
		{"tag of one's own", []string{"title: !mill Upper"},
			[]string{"job.yaml:1:8: want no tag (!mill)"}},
		{"merge key", []string{"cut: {<<: {step: 0.25}, step: 1}"},
			[]string{"job.yaml:8:7: cut.<<: unknown key; have …"}},
		{"key is a list", []string{"cut: {[step]: 0.25, step: 1}"},
			[]string{"job.yaml:8:7: cut: want a plain key"}},
		{"second document", []string{"cut: {step: 0.25}\n---\ntitle: Lower mill"},
			[]string{"job.yaml:9:1: want one document, have a second one here"}},

		{"sorted by place, not by key", []string{"zeal: 1", "pair: {module: 0, teeth: 4, pressure_angle: 20, hand: up}", "title: ~"}, []string{
			"job.yaml:1:8: title: want a value, have nothing",
			`job.yaml:4:16: pair.module: want above 0, have "0"`,
			`job.yaml:4:26: pair.teeth: want a whole number from 6 to 2000, have "4"`,
			`job.yaml:4:55: pair.hand: want left, right, have "up"`,
			"job.yaml:9:1: zeal: unknown key; have …",
		}},
		{"column counts characters", []string{"cut: {'ä°½': 1, step: x}"}, []string{
			"job.yaml:8:7: cut.ä°½: unknown key; have …",
			`job.yaml:8:23: cut.step: want a number, have "x"`, // 2 bytes more for each of the 3
		}},
		{"long value is cut short", []string{"cut: {step: " + strings.Repeat("9", 60) + "}"},
			[]string{`job.yaml:8:13: cut.step: want a number up to 1000000, have "` + strings.Repeat("9", 40) + `…"`}},
		{"value with a line break", []string{`cut: {step: "1\n2"}`},
			[]string{`job.yaml:8:13: cut.step: want a length, as 2.5, 0.12 mm or 1/2 in, have "1\n2"`}},
		{"key with a line break", []string{`cut: {step: 1, "a\nb": 1}`},
			[]string{`job.yaml:8:16: cut."a\nb": unknown key; have …`}},
	} {
		_, err := Read("job.yaml", strings.NewReader(with(plainJob, tt.yaml...)))
		if got := lines(err); !slices.EqualFunc(got, tt.want, alike) {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
		if err != nil {
			checkFaults(t, "job.yaml", err)
		}
	}

	// A file without any key lacks every section.
	_, err := Read("job.yaml", strings.NewReader("units: mm\n"))
	var want []string
	for _, key := range []string{"title", "machine", "pair", "worm", "wheel", "hob", "cut"} {
		want = append(want, "job.yaml:1:1: "+key+": missing")
	}
	if got := lines(err); !slices.Equal(got, want) {
		t.Errorf("only units: got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestReadMachineFaults(t *testing.T) {
	const dialect = "language: {base: ngc, comments: semicolon, feed_per_turn: true, dwell: {word: X, unit: milliseconds}}"
	for _, tt := range []struct {
		name string
		yaml []string // lines of plainMachine to set
		want []string
	}{
		{"no fault", nil, nil},
		{"neither letter nor dial", []string{"radial: {travel: 100}"},
			[]string{"m.yaml:3:9: radial: want an axis letter or a dial, have neither"}},
		{"rotary letter on a slide", []string{"axial: {letter: B}"},
			[]string{`m.yaml:5:17: axial.letter: want X, Y, Z, have "B"`}},
		{"small letter", []string{"work: {letter: c}"},
			[]string{`m.yaml:5:16: work.letter: want A, B, C, have "c"`}},
		{"same letter of two slides", []string{"tangential: {letter: X}", "axial: {letter: X}"},
			[]string{`m.yaml:6:9: axial.letter: want a letter of its own, have that of tangential, "X"`}},
		{"same letter of hob and work", []string{"hob: {letter: A}", "work: {letter: A}"},
			[]string{`m.yaml:6:8: work.letter: want a letter of its own, have that of hob, "A"`}},
		{"wrong sign", []string{"radial: {letter: Z, sign: 2}"},
			[]string{`m.yaml:3:27: radial.sign: want +, +1, -, -1, 1, have "2"`}},
		{"dial without graduation", []string{"radial: {dial: {name: the crank}}"},
			[]string{"m.yaml:3:16: radial.dial.graduation: missing"}},
		{"turn is no whole number of graduations", []string{"radial: {dial: {name: the crank, graduation: 0.02, turn: 2.01}}"},
			[]string{`m.yaml:3:58: radial.dial.turn: want a whole number of graduations, have "2.01"`}},
		{"rate in m/min", []string{"radial: {letter: Z, rapid: 5 m/min}"},
			[]string{`m.yaml:3:28: radial.rapid: want a rate, as 300, 300 mm/min or 12 in/min, have "5 m/min"`}},
		{"no kind of drive", []string{"drive: {hand: left}"},
			[]string{"m.yaml:4:8: drive.kind: missing"}},
		{"unknown kind of drive", []string{"drive: {kind: gears}"},
			[]string{`m.yaml:4:15: drive.kind: want clocked, coordinated, geared, none, have "gears"`}},
		{"bare tolerance", []string{"spindle: {tolerance: 5}"},
			[]string{`m.yaml:5:22: spindle.tolerance: want a percentage, as 5 %, have "5"`}},
		{"tolerance too large", []string{"spindle: {tolerance: 50 %}"},
			[]string{`m.yaml:5:22: spindle.tolerance: want less than 50 %, have "50 %"`}},
		{"fastest below slowest", []string{"spindle: {slowest: 5, fastest: 2}"},
			[]string{`m.yaml:5:32: spindle.fastest: want the slowest or above, have "2"`}},
		{"speeds not a list", []string{"spindle: {speeds: 42}"},
			[]string{`m.yaml:5:19: spindle.speeds: want a list in brackets, have "42"`}},
		{"speeds of wrong things", []string{"spindle: {speeds: [42, x, [66], -3, 0, 1e3]}"}, []string{
			`m.yaml:5:24: spindle.speeds: want numbers above 0, have "x"`,
			"m.yaml:5:27: spindle.speeds: want numbers above 0, have a list",
			`m.yaml:5:33: spindle.speeds: want numbers above 0, have "-3"`,
			`m.yaml:5:37: spindle.speeds: want numbers above 0, have "0"`,
			`m.yaml:5:40: spindle.speeds: want numbers above 0, have "1e3"`,
		}},
		{"NGC takes less", []string{dialect}, []string{
			`m.yaml:5:33: language.comments: RS274/NGC knows comments in parentheses only; want parentheses or none, have "semicolon"`,
			`m.yaml:5:59: language.feed_per_turn: RS274/NGC has no feed per turn; want false, have "true"`,
			`m.yaml:5:79: language.dwell.word: RS274/NGC dwells by P; want P, have "X"`,
			`m.yaml:5:88: language.dwell.unit: RS274/NGC dwells in seconds; want seconds, have "milliseconds"`,
		}},
		{"NGC unless told otherwise", []string{"language: {feed_per_turn: true}"},
			[]string{`m.yaml:5:27: language.feed_per_turn: RS274/NGC has no feed per turn; want false, have "true"`}},
		{"ISO takes all of it", []string{strings.Replace(dialect, "ngc", "iso", 1)}, nil},
		{"line too long", []string{"language: {line_length: 300}"},
			[]string{`m.yaml:5:25: language.line_length: want a whole number from 40 to 250, have "300"`}},
		{"key of a job", []string{"pair: {module: 2}"},
			[]string{"m.yaml:5:1: pair: unknown key; have …"}},
	} {
		_, err := ReadMachine("m.yaml", strings.NewReader(with(plainMachine, tt.yaml...)))
		if got := lines(err); !slices.EqualFunc(got, tt.want, alike) {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
		if err != nil {
			checkFaults(t, "m.yaml", err)
		}
	}
}

// What is wrong with a file as a whole has the file's name, and the line
// where one is known.
func TestReadWholeFileFaults(t *testing.T) {
	fail := errors.New("the disk is gone")
	for _, tt := range []struct {
		name string
		in   io.Reader
		want string
	}{
		{"empty", strings.NewReader(""), "job.yaml: want a job or machine, have an empty file"},
		{"only a remark", strings.NewReader("# nothing yet\n"), "job.yaml: want a job or machine, have an empty file"},
		{"list", strings.NewReader("- 1\n"), "job.yaml:1:1: want keys and values, have a list"},
		{"word", strings.NewReader("hoist\n"), `job.yaml:1:1: want keys and values, have "hoist"`},
		{"largest", strings.NewReader(strings.Repeat("#", largestFile)), "job.yaml: want a job or machine, have an empty file"},
		{"too large", strings.NewReader(strings.Repeat("#", largestFile+1)), "job.yaml: want at most 1 MiB"},
		{"NUL", strings.NewReader(plainJob + "\x00"), "job.yaml: want UTF-8 text"},
		{"half a character", strings.NewReader("title: M\xc3\n"), "job.yaml: want UTF-8 text"},
		{"Latin-1", strings.NewReader("title: M\xfchle\n"), "job.yaml: want UTF-8 text"},
		{"UTF-16", strings.NewReader("\xff\xfet\x00:\x00"), "job.yaml: want UTF-8 text"},
		{"reader fails", iotest.ErrReader(fail), "job.yaml: the disk is gone"},
		{"reader fails later", io.MultiReader(strings.NewReader(plainJob), iotest.ErrReader(fail)), "job.yaml: the disk is gone"},
	} {
		_, err := Read("job.yaml", tt.in)
		if err == nil || err.Error() != tt.want {
			t.Errorf("%s: got %v, want %s", tt.name, err, tt.want)
			continue
		}
		checkFaults(t, "job.yaml", err)
	}
}

// The words of the YAML parser are its own, but the line must be right.
func TestReadNotYAML(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       string // how it begins
	}{
		{"first line", "a: b: c\n", "job.yaml:1:1: not YAML: "},
		{"tab on the first line", "\tunits: mm\n", "job.yaml:1:1: not YAML: "},
		{"second line", "units: mm\ntitle: b: c\n", "job.yaml:2:1: not YAML: "},
		{"tab on the third line", "units: mm\ncut:\n\tstep: 1\n", "job.yaml:3:1: not YAML: "},
		{"bare minus", "units: mm\ntitle: a\nradial:\n  sign: -\n", "job.yaml:4:1: not YAML: "},
		{"unknown alias", "units: mm\ntitle: *mill\n", "job.yaml:2:"},
		{"reserved character", "units: mm\ntitle: @mill\n", "job.yaml:2:1: not YAML: "},
		{"outdented line", "pair:\n    module: 2\n  teeth: 40\n", "job.yaml:3:1: not YAML: "},
		{"second document", plainJob + "---\na: b: c\n", "job.yaml:10:1: not YAML: "},
	} {
		_, err := Read("job.yaml", strings.NewReader(tt.text))
		if err == nil || !strings.HasPrefix(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %s…", tt.name, err, tt.want)
			continue
		}
		checkFaults(t, "job.yaml", err)
	}
}

func TestFaultsAreCapped(t *testing.T) {
	for _, tt := range []struct {
		faults int
		last   string
	}{
		{19, "job.yaml:27:1: zeal19: unknown key"},
		{20, "job.yaml:28:1: zeal20: unknown key"},
		{21, "and 1 more"},
		{51, "and 31 more"},
	} {
		var text strings.Builder
		text.WriteString(plainJob)
		for i := range tt.faults {
			fmt.Fprintf(&text, "zeal%02d: 1\n", i+1)
		}
		_, err := Read("job.yaml", strings.NewReader(text.String()))
		got := lines(err)
		if want := min(tt.faults, mostFaults+1); len(got) != want {
			t.Errorf("%d faults print %d lines, want %d", tt.faults, len(got), want)
		} else if last := got[want-1]; !strings.HasPrefix(last, tt.last) {
			t.Errorf("%d faults end with %q, want %q", tt.faults, last, tt.last)
		}
	}

	// The fault that stands first is told whole, however late it is found.
	late := "first: 1\n" + with(plainJob, "pair: {module: 2, teeth: 40, pressure_angle: 20, "+strings.Repeat("pitch: 1, pitsh: 1, ", 15)+"}")
	_, err := Read("job.yaml", strings.NewReader(late))
	if got, want := lines(err)[0], "job.yaml:1:1: first: unknown key"; got != want && !strings.HasPrefix(got, want+"; have units") {
		t.Errorf("first line %q, want %q and no loose end", got, want)
	}
}

// alike compares a line with the one that is wanted, which may end in … for
// anything.
func alike(got, want string) bool {
	if head, ok := strings.CutSuffix(want, " …"); ok {
		return strings.HasPrefix(got, head+" ")
	}
	return got == want
}
