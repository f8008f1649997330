package proof_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/gen/proof"
	"wormwright/posts/card"
	"wormwright/posts/rs274"
)

// runGash proves a text on the fantail's gashes.
func runGash(t *testing.T, p *gen.Plan, text string, strict bool) proof.Report {
	t.Helper()
	program := rs274.Read([]byte(text), p.Machine.Language, p.Axes(p.Cycle.Start, 0))
	r, err := proof.Prove(p, program, proof.Options{Coarse: true, Strict: strict})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The program as written gashes every space, and so does the card.
func TestGashProgram(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		p := jobtest.Plan(t, "fantail-gash", func(_ *gen.Job, m *gen.Machine) { m.Work.Sign, m.Radial.Sign = sign, sign })
		r := runGash(t, p, string(rs274.Wheel(p)), true)
		if len(r.Findings) > 0 || r.Wheel.Complete != 36 {
			t.Errorf("sign %v: %d of %d, %v", sign, r.Wheel.Complete, r.Wheel.Spaces, r.Findings)
		}
		table, err := card.Gash(p)
		if err != nil {
			t.Fatal(err)
		}
		r, err = proof.Prove(p, card.Read(bytes.NewReader(table.CSV()), p), proof.Options{Coarse: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Findings) > 0 || r.Wheel.Complete != 36 {
			t.Errorf("card, sign %v: %d of %d, %v", sign, r.Wheel.Complete, r.Wheel.Spaces, r.Findings)
		}
	}
}

// A dividing head that has no exact move still gashes within the stock, and
// the card tells by how much it is off.
func TestGashCardOfTheNearestHole(t *testing.T) {
	p := jobtest.Plan(t, "fantail-gash", func(j *gen.Job, m *gen.Machine) {
		m.Head.Circles, m.Work.Letter = [][]int{{49}}, ""
	})
	table, err := card.Gash(p)
	if err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(strings.Fields(string(table.Text())), " "); !strings.Contains(text, "no move is exact") {
		t.Errorf("the card does not tell that no move is exact:\n%s", text)
	}
	r, err := proof.Prove(p, card.Read(bytes.NewReader(table.CSV()), p), proof.Options{Coarse: true})
	if err != nil {
		t.Fatal(err)
	}
	if r.Findings.Failed() || len(r.Findings) == 0 || r.Wheel.Complete != 36 {
		t.Errorf("%d of %d, %v; want cautions of gashes beside their places", r.Wheel.Complete, r.Wheel.Spaces, r.Findings)
	}
	// By hand: half a hole of 49 on a head of 40 at a radius of 72 mm is
	// 2π·72/(40·49·2) = 0.115 mm; a ninth of the tooth is met, 4/9 of a hole.
	if r.Wheel.Max > 0.116 || r.Wheel.Max < 0.09 {
		t.Errorf("off by %v mm, want about 4/9 of a hole, 0.103", r.Wheel.Max)
	}
}

// Every way of spoiling the program is found, at its line.
func TestGashFaults(t *testing.T) {
	p := jobtest.Plan(t, "fantail-gash", nil)
	text := string(rs274.Wheel(p))
	deep := fmt.Sprintf("Z%.3f", p.Gash.Depth())
	for _, tt := range []struct {
		name, old, new, want string
		line                 string // that is to blame, as it then reads; empty where it is another
	}{
		{"a space left out", "A120.0000", "A110.0000", "1 of 36 tooth spaces get no gash, the first is space 12", ""},
		{"beside its place", "A120.0000", "A121.0000", "stands 1.257 mm beside its place, the nearest space is 12", ""}, // by hand: π·144/360
		{"too deep for the flank", deep, "Z9.900", "cuts into the finished tooth space", "Z9.900"},
		{"a little too deep", deep, "Z" + fmt.Sprintf("%.3f", p.Gash.Depth()+0.1), "deeper than full depth", ""},
		{"not deep enough", deep, "Z8.500", "36 of 36 gashes are not deep enough", ""},
		{"indexing in the cut", "A20.0000", "Z5.0 A20.0000", "the work turns while the cutter is in the blank", ""},
		{"cutter at rest", "S", "(S", "cutter at rest", ""},
	} {
		spoilt := strings.ReplaceAll(text, tt.old, tt.new)
		if tt.name == "cutter at rest" {
			spoilt = strings.Replace(text, "M3\n", "M5\n", 1)
		}
		if spoilt == text {
			t.Fatalf("%s: the program has no %q", tt.name, tt.old)
		}
		r := runGash(t, p, spoilt, false)
		found := false
		for _, f := range r.Findings {
			if !strings.Contains(f.What, tt.want) {
				continue
			}
			found = true
			if at := strings.Split(spoilt, "\n")[max(f.Line-1, 0)]; tt.line != "" && !strings.Contains(at, tt.line) {
				t.Errorf("%s: line %d is %q, want %q", tt.name, f.Line, at, tt.line)
			}
		}
		if !found || r.Passed() {
			t.Errorf("%s: %v, want %q", tt.name, r.Findings, tt.want)
		}
	}
}

// A free wheel is proved as if it followed its hob, and the proof says that
// nobody can know.
func TestFreeProgram(t *testing.T) {
	p := jobtest.Plan(t, "fantail-drive", nil)
	program := rs274.Read(rs274.Wheel(p), p.Machine.Language, p.Axes(p.Cycle.Start, 0))
	r, err := proof.Prove(p, program, proof.Options{Coarse: true, Strict: true})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Passed() || r.Wheel.Complete != 36 {
		t.Errorf("%d of %d spaces, %v", r.Wheel.Complete, r.Wheel.Spaces, r.Findings)
	}
	if len(r.Findings) != 1 || !strings.Contains(r.Findings[0].What, "cannot be proved") {
		t.Errorf("findings %v, want one that the step cannot be proved", r.Findings)
	}
	for _, block := range program.Blocks {
		if block.Rapid {
			t.Errorf("line %d: a rapid move of a hob that stands in the gashes", block.Line)
		}
	}
	air := proof.Air(p, rs274.Read(rs274.AirProof(p), p.Machine.Language, p.Axes(p.Cycle.Start, 0)))
	if air.Findings.Failed() {
		t.Errorf("air proof: %v", air.Findings)
	}
}
