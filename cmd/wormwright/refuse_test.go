package main

import (
	"encoding/json"
	"strings"
	"testing"

	"wormwright/posts/record"
)

// A changed is a job made from the sluice hoist's, and its machine, by a few
// changes of their text.
type changed struct {
	job, machine []edit
}

func (c changed) make(t testing.TB) {
	t.Helper()
	workshop(t)
	change(t, hoist, c.job...)
	change(t, knee, c.machine...)
}

// What cannot be cut is told at the key that is at fault, with a remedy, and
// nothing is written.
func TestRefuses(t *testing.T) {
	const (
		job     = "jobs/sluice-hoist.yaml:"
		machine = "machines/knee-mill.yaml:"
	)
	tangential := []edit{{"feed: radial", "feed: tangential"}, {"  finish: {steps: 2, step: 0.05}\n", ""}}
	tangentialSlide := edit{"axial:\n", "tangential: {letter: Y, travel: 200}\naxial:\n"}
	for _, tt := range []struct {
		name   string
		from   changed
		want   string // place, key and what is wrong
		remedy string // part of the remedy
	}{
		{"hob of the other hand", changed{job: []edit{{"  hand: right\n", "  hand: left\n"}}},
			job + "15:3: hob.hand: want the worm's, right, have left", "find a right-hand hob"},
		{"hob of another module", changed{job: []edit{{"  starts: 1\n", "  starts: 1\n  module: 2.1\n"}}},
			job + "15:3: hob.module: want the worm's axial module 2.000000 mm, have 2.100000 mm", "set pair.module to 2.100000 mm"},
		{"hob of another lead", changed{job: []edit{{"  starts: 1\n", "  lead: 6.4\n"}}},
			job + "14:3: hob.lead: want the worm's axial module 2.000000 mm, have 2.037183 mm", "find another hob"}, // by hand: 6.4/π
		{"hob of another normal module", changed{job: []edit{{"  starts: 1\n", "  normal_module: 2.2\n"}}},
			job + "14:3: hob.normal_module: want the worm's axial module 2.000000 mm", "find another hob"},
		{"hob of another diametral pitch", changed{job: []edit{{"  starts: 1\n", "  diametral_pitch: 12\n"}}},
			job + "14:3: hob.diametral_pitch: want the worm's axial module 2.000000 mm, have 2.116667 mm", "find another hob"}, // by hand: 25.4/12
		{"hob of more starts", changed{job: []edit{{"  starts: 1\n", "  starts: 2\n"}}},
			job + "14:3: hob.starts: want the worm's 1, have 2", "give the worm the hob's starts"},
		{"worm of more starts", changed{job: []edit{{"{module: 2, starts: 1,", "{module: 2, starts: 2,"}}},
			job + "14:3: hob.starts: want the worm's 2, have 1", "give the worm the hob's starts"},
		{"hob smaller than the worm", changed{job: []edit{{"reference_diameter: 38.8", "reference_diameter: 41"}}},
			job + "11:3: hob.tip_diameter: the hob is 1.000 mm smaller than the worm", "worm.reference_diameter of 40.000 mm or less"},
		{"hob that does not reach the worm's tip", changed{job: []edit{{"addendum: 2.5", "addendum: 1.9"}}},
			job + "12:3: hob.addendum: the worm's tip would foul the wheel's root by 0.100 mm", "find a hob with an addendum of 2.500 mm"},
		{"addendum beyond the hob's middle", changed{job: []edit{{"addendum: 2.5", "addendum: 22.5"}}},
			job + "12:3: hob.addendum: want less than half the tip diameter", "measure"},
		{"hob too short to finish", changed{job: []edit{{"length: 60", "length: 20"}}},
			job + "17:3: hob.length: want 20.021 mm of full thread", "find a longer hob"},
		{"hob's root in the blank", changed{job: []edit{{"root_diameter: 34", "root_diameter: 38"}}},
			job + "13:3: hob.root_diameter: the hob's root would rub on the blank", "deeper gullets"},
		{"hob's root above its reference", changed{job: []edit{{"root_diameter: 34", "root_diameter: 41"}}},
			job + "13:3: hob.root_diameter: want less than its reference diameter 40.000 mm, have 41.000 mm", "measure"},
		{"rounding wider than the thread", changed{job: []edit{{"  starts: 1\n", "  tip_rounding: 5\n"}}},
			job + "14:3: hob.tip_rounding: ", "measure"},
		{"undercut teeth", changed{job: []edit{{"teeth: 40", "teeth: 12"}}},
			job + "6:31: pair.teeth: want 18 or more for 20.000° without undercut, have 12", "wheel.allow_undercut: true"}, // by hand: 2/sin² 20° = 17.1
		{"worm with too deep a thread", changed{job: []edit{{"reference_diameter: 38.8", "reference_diameter: 4.4"}}},
			job + "7:19: worm.reference_diameter: the thread is deeper than the worm is thick", "enlarge the worm"},
		{"worm thinner than its module", changed{job: []edit{{"reference_diameter: 38.8", "reference_diameter: 1"}}},
			job + "7:19: worm.reference_diameter: want more than", "enlarge the worm"},
		{"centre distance far from the gears", changed{job: []edit{{"pressure_angle: 20}", "pressure_angle: 20, centre_distance: 100}"}}},
			job + "6:75: pair.centre_distance: ", "profile"},
		{"backlash of half a tooth", changed{job: []edit{{"backlash: 0.08", "backlash: 0.8"}}},
			job + "8:60: wheel.backlash: want less than a quarter of a module, have 0.800 mm", "0.03 to 0.05 modules"},
		{"blank smaller than its root", changed{job: []edit{{"face_width: 20", "face_width: 20, outside_diameter: 70"}}},
			job + "8:42: wheel.outside_diameter: the blank is smaller than its own root", "larger blank"},
		{"blank measured smaller than its root", changed{job: []edit{{"face_width: 20", "face_width: 20, outside_measured: 70"}}},
			job + "8:42: wheel.outside_measured: the blank is smaller than its own root", "larger blank"},
		{"blank that reaches round the worm", changed{job: []edit{{"face_width: 20", "face_width: 20, outside_diameter: 160"}}},
			job + "8:42: wheel.outside_diameter: ", "smaller"},
		{"throat above the outside", changed{job: []edit{{"face_width: 20", "face_width: 20, throat_diameter: 90"}}},
			job + "8:42: wheel.throat_diameter: ", "diameter"},
		{"throat beyond the worm's middle", changed{job: []edit{{"face_width: 20", "face_width: 20, throat_diameter: 120"}}},
			job + "8:42: wheel.throat_diameter: ", "diameter"},

		{"no drive between hob and work", changed{machine: []edit{{"kind: geared, hand: right", "kind: none"}}},
			machine + "22:11: drive.kind: nothing keeps the work in step with the hob", "train"},
		{"work turned by the clock", changed{machine: []edit{{"kind: geared, hand: right", "kind: clocked"}}},
			machine + "22:11: drive.kind: a work axis turned by the clock cannot hold its phase", "geared"},
		{"coordinated without rotary letters", changed{machine: []edit{{"kind: geared, hand: right", "kind: coordinated"}}},
			machine + "18:1: hob.letter: a coordinated drive wants a rotary axis here", "letter"},
		{"coordinated in plain ISO", changed{machine: []edit{{"kind: geared, hand: right", "kind: coordinated"}, {"base: ngc", "base: iso"},
			{"hob:  {", "hob:  {letter: A, "}, {"work: {", "work: {letter: C, "}}},
			machine + "24:12: language.base: hob and work as two rotary axes want inverse-time feed, have iso", "ngc"},
		{"radial travel too short", changed{machine: []edit{{"travel: 300", "travel: 9"}}},
			machine + "10:3: radial.travel: want 9.735 mm, have 9.000 mm", "cut.clear"}, // by hand: clear 5 and depth 4.735
		{"no slide along the hob", changed{job: tangential, machine: []edit{{"kind: geared,", "kind: geared, differential: follows,"}}},
			machine + "1:1: tangential: tangential feed wants a tangential slide, have none", "describe"},
		{"tangential feed on a plain train", changed{job: tangential, machine: []edit{tangentialSlide}},
			job + "19:3: cut.feed: a plain train or gearbox cannot add the turn", "cut.feed: radial"},
		{"tangential travel too short", changed{job: tangential, machine: []edit{
			{"axial:\n", "tangential: {letter: Y, travel: 20}\naxial:\n"}, {"kind: geared,", "kind: geared, differential: follows,"}}},
			machine + "13:25: tangential.travel: want 33.750 mm, have 20.000 mm", "travel"}, // whole feeds of 0.25
		{"tangential feed by a hob of unknown length", changed{
			job:     append([]edit{{"  length: 60\n", ""}}, tangential...),
			machine: []edit{tangentialSlide, {"kind: geared,", "kind: geared, differential: follows,"}}},
			job + "9:1: hob.length: tangential feed wants the hob's length", "measure"},
		{"creep past the hob's end", changed{
			job:     append([]edit{{"spark_out: 1", "spark_out: 1\n  creep: {steps: 40, step: 1}"}}, tangential...),
			machine: []edit{tangentialSlide, {"kind: geared,", "kind: geared, differential: follows,"}}},
			job + "17:3: hob.length: the hob's rear end would pass the finishing zone", "shorten the creep"},

		{"step below a graduation", changed{job: []edit{{"step: 0.25", "step: 0.004"}}},
			job + "20:3: cut.step: want 0.005 mm or more, the slide's smallest step, have 0.004 mm", "one graduation or more"},
		{"finishing step below a graduation", changed{job: []edit{{"step: 0.05", "step: 0.004"}}},
			job + "21:22: cut.finish.step: want 0.005 mm or more, the slide's smallest step, have 0.004 mm", "one graduation or more"},
		{"steps without end", changed{job: []edit{{"step: 0.25", "step: 0.0005"}},
			machine: []edit{{"knee readout, graduation: 0.005", "knee readout, graduation: 0.0005"}}},
			job + "20:3: cut.step: want 5000 steps at the most", "larger steps"},
		{"last step larger than the first", changed{job: []edit{{"step: 0.25", "step: 0.25\n  rule: falling\n  last_step: 0.5"}}},
			job + "22:3: cut.last_step: want from 0.005 mm to cut.step, have 0.500 mm", "full depth"},
		{"falling steps without end", changed{job: []edit{{"step: 0.25", "step: 0.25\n  rule: falling\n  last_step: 0.0001"}},
			machine: []edit{{"knee readout, graduation: 0.005", "knee readout, graduation: 0.0001"}}},
			job + "22:3: cut.last_step: want 5000 steps at the most", "larger"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tt.from.make(t)
			for _, args := range [][]string{
				{"check", hoist},
				{"plan", hoist},
				{"plan", "--json", hoist},
				{"write", hoist, "-o", "out"},
			} {
				r := command("", args...)
				if r.status != exitFail {
					t.Fatalf("wormwright %s = status %d, want 1", strings.Join(args, " "), r.status)
				}
				_, after, found := strings.Cut(r.err, "wormwright: "+tt.want)
				if !found {
					t.Fatalf("wormwright %s: stderr\n%swant %q in it", strings.Join(args, " "), r.err, tt.want)
				}
				_, after, _ = strings.Cut(after, "\n")
				if remedy, _, _ := strings.Cut(after, "\n"); !strings.HasPrefix(remedy, "  remedy: ") || !strings.Contains(remedy, tt.remedy) {
					t.Fatalf("wormwright %s: after the fault comes %q, want a remedy with %q", strings.Join(args, " "), remedy, tt.remedy)
				}
			}
			if got := names(t, "out"); len(got) > 0 {
				t.Errorf("out holds %q", got)
			}
		})
	}
}

// What can be cut but wants a second look is said in every output, where it
// is read: at the desk, on the card and at the control.
func TestCautions(t *testing.T) {
	const (
		job     = "jobs/sluice-hoist.yaml:"
		machine = "machines/knee-mill.yaml:"
	)
	starts := func(n string) []edit {
		return []edit{{"{module: 2, starts: 1, teeth: 40", "{module: 2, starts: " + n + ", teeth: 41"}, {"  starts: 1\n", "  starts: " + n + "\n"}}
	}
	for _, tt := range []struct {
		name string
		from changed
		at   string // place and key
		what string // words without marks, which a program cannot hold
	}{
		{"no swivel", changed{}, job + "1:1: caution: setup.swivel: ", "of lead angle: left square, the hob makes the flanks bear 2.75 mm beside the middle of the face"},
		{"no backlash", changed{job: []edit{{"backlash: 0.08", "backlash: 0"}}},
			job + "8:60: caution: wheel.backlash: ", "no backlash: the pair will bind when it warms up"},
		{"step above half a millimetre", changed{job: []edit{{"step: 0.25", "step: 0.6"}}},
			job + "20:3: caution: cut.step: ", "0.600 mm at a work turn is more than light machines take"},
		{"no spark-out", changed{job: []edit{{"spark_out: 1", "spark_out: 0"}}},
			job + "22:3: caution: cut.spark_out: ", "no spark-out: the last teeth keep the spring of the machine"},
		{"unrelieved hob", changed{job: []edit{{"  starts: 1\n", "  relieved: false\n"}}},
			job + "14:3: caution: hob.relieved: ", "an unrelieved hob rubs behind its edges and cuts slowly"},
		{"smaller hob, allowed", changed{job: []edit{{"reference_diameter: 38.8", "reference_diameter: 41"}, {"  starts: 1\n", "  allow_smaller: true\n"}}},
			job + "11:3: caution: hob.tip_diameter: ", "the hob is 1.000 mm smaller than the worm on the reference diameter"},
		{"undercut, allowed", changed{job: []edit{{"teeth: 40", "teeth: 14"}, {"face_width: 20", "face_width: 20, allow_undercut: true"}}},
			job + "6:31: caution: pair.teeth: ", "are undercut, the least without is 18"}, // by hand: 2/sin² 20° = 17.1
		{"fewer teeth than practice", changed{job: []edit{{"teeth: 40", "teeth: 19"}}},
			job + "6:31: caution: pair.teeth: ", "wants 21 or more teeth at 20.000"}, // Shigley, table 15-10
		{"pressure angle small for the lead", changed{job: append(starts("6"), edit{"pressure_angle: 20", "pressure_angle: 14.5"})},
			job + "6:55: caution: pair.pressure_angle: ", "is less than the usual 20.000"}, // lead angle by hand: atan 12/38.8 = 17.2°
		{"thin thread", changed{job: []edit{{"pressure_angle: 20", "pressure_angle: 36"}, {"lathe: ../lathes/screw-lathe.yaml", ""}}},
			job + "6:55: caution: pair.pressure_angle: ", "the worm's thread is only 0.155 mm wide at its tip"}, // by hand: π − 0.08 − 4·tan 36°
		{"pointed teeth", changed{job: []edit{{"face_width: 20", "face_width: 24, outside_diameter: 97"}}},
			job + "8:42: caution: wheel.outside_diameter: ", "teeth come to a point below the blank's outside"},
		{"narrow teeth", changed{job: []edit{{"face_width: 20", "face_width: 20, outside_diameter: 94"}}},
			job + "8:42: caution: wheel.outside_diameter: ", "teeth are only 0.130 mm wide at their tips"},
		{"face not reached", changed{job: []edit{{"face_width: 20", "face_width: 40"}}},
			job + "8:26: caution: wheel.face_width: ", "the hob reaches only 74 % of the face"}, // by hand: 2·√(22.5² − 17²)/40
		{"blank not as drawn", changed{job: []edit{{"face_width: 20", "face_width: 20, outside_measured: 85.2, throat_measured: 83.2"}}},
			job + "8:42: caution: wheel.outside_measured: ", "the blank differs from its drawing by -0.400 mm in radius"},
		{"little room at the worm's tip", changed{job: []edit{{"addendum: 2.5", "addendum: 2.1"}, {"tip_diameter: 45", "tip_diameter: 44.2"}}},
			job + "12:3: caution: hob.addendum: ", "only 0.100 mm of clearance at the worm's tip"},
		{"hob's root not known", changed{job: []edit{{"  root_diameter: 34\n", ""}}},
			job + "9:1: caution: hob.root_diameter: ", "not given: whether it clears the blank is not known"},
		{"hob's root near the blank", changed{job: []edit{{"root_diameter: 34", "root_diameter: 35.9"}}},
			job + "13:3: caution: hob.root_diameter: ", "the hob's root clears the blank by only"},
		{"hob's length not known", changed{job: []edit{{"  length: 60\n", ""}}},
			job + "9:1: caution: hob.length: ", "not given: want 20.021 mm or more"},
		{"hob's ends in the blank", changed{job: []edit{{"length: 60", "length: 35"}}},
			job + "17:3: caution: hob.length: ", "the hob's ends stand in the blank: 39.236 mm would clear it, have 35.000 mm"},
		{"pitch a little off", changed{job: []edit{{"  starts: 1\n", "  lead: 6.286\n"}}},
			job + "14:3: caution: hob.lead: ", "hob and worm differ by 2.8"}, // by hand: 6.286 − 2π = 0.0028
		{"spindle too fast", changed{machine: []edit{{"slowest: 40", "slowest: 200"}}},
			job + "23:3: caution: cut.speed: ", "the spindle's slowest, 200.0 turns/min, is faster than the 141.0 wanted"},
		{"no speed slow enough", changed{machine: []edit{{"slowest: 40, fastest: 800", "speeds: [200, 400]"}}},
			job + "23:3: caution: cut.speed: ", "the spindle's slowest, 200.0 turns/min, is faster than the 141.0 wanted"},
		{"turns that do not come round", changed{job: append(starts("3"), edit{"spark_out: 1", "spark_out: 1\n  turns_per_step: 2"})},
			job + "23:3: caution: cut.turns_per_step: ", "come round in 3 work turns, have 2"},
		{"coarse graduations", changed{machine: []edit{{"knee readout, graduation: 0.005", "knee readout, graduation: 0.05"}}},
			job + "20:3: caution: cut.step: ", "the last whole graduation stays 0.036 mm short of full depth"},
		{"feed along the hob above practice", changed{
			job:     []edit{{"feed: radial", "feed: tangential"}, {"step: 0.25", "step: 1.2"}, {"  finish: {steps: 2, step: 0.05}\n", ""}},
			machine: []edit{{"axial:\n", "tangential: {letter: Y}\naxial:\n"}, {"kind: geared,", "kind: geared, differential: follows,"}}},
			job + "20:3: caution: cut.step: ", "1.200 mm at a work turn is more than common practice"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tt.from.make(t)
			outputs := map[string]string{
				"summary": must(t, "write", hoist, "-o", "out"),
				"plan":    must(t, "plan", hoist),
			}
			for _, name := range []string{"feed-card.txt", "wheel.ngc"} {
				outputs[name] = read(t, "out/"+name)
			}
			for name, text := range outputs {
				if !strings.Contains(unwrap(text), tt.what) {
					t.Errorf("%s does not say %q", name, tt.what)
				}
			}
			if out := must(t, "check", hoist); !strings.Contains(out, tt.at) || !strings.Contains(out, tt.what) {
				t.Errorf("check says\n%swant %q and %q", out, tt.at, tt.what)
			}
			var plan record.Plan
			if err := json.Unmarshal([]byte(must(t, "plan", "--json", hoist)), &plan); err != nil {
				t.Fatal(err)
			}
			found := false
			for _, f := range plan.Findings {
				found = found || f.Severity == "caution" && strings.Contains(f.Message, tt.what) && f.Remedy != ""
			}
			if !found {
				t.Errorf("plan --json does not hold %q: %v", tt.what, plan.Findings)
			}
		})
	}
}

// unwrap undoes how a text was broken into lines, remarks of a program too.
func unwrap(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(text, ")\n(", "\n")), " ")
}
