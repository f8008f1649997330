package card

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// Turns and marks are only for a slide that has a handwheel, and the card
// calls the slide what the machine file does, in its own unit.
func TestColumns(t *testing.T) {
	const (
		plain   = "step,stage,reading,work_turns,hob_turns,seconds"
		cranked = "step,stage,reading,crank_turns,crank_mark,work_turns,hob_turns,seconds"
	)
	for _, tt := range []struct {
		job, columns, said string
	}{
		{"observatory-dome", cranked, "Readings are those of the knee crank in inches, from zero at first touch."},
		{"sluice-hoist", plain, "Readings are those of the knee readout in millimetres, from zero at first touch."},
		{"tide-gauge", plain, "Readings are those of axis X in millimetres, from zero at first touch."},
		{"turret-clock", plain, "Readings are those of axis X in millimetres, from zero with the middle of the hob over the work."},
	} {
		table := Feed(jobtest.Plan(t, tt.job, nil))
		if got, _, _ := strings.Cut(string(table.CSV()), "\n"); got != tt.columns {
			t.Errorf("%s: columns %q, want %q", tt.job, got, tt.columns)
		}
		if text := joined(table); !strings.Contains(text, tt.said) {
			t.Errorf("%s: card lacks %q", tt.job, tt.said)
		}
		if got, want := strings.Contains(joined(table), "The crank turns"), tt.columns == cranked; got != want {
			t.Errorf("%s: card speaks of a crank: %v, want %v", tt.job, got, want)
		}
	}
}

// joined is the text of a card without its line breaks.
func joined(table Table) string { return strings.Join(strings.Fields(string(table.Text())), " ") }

// The crank stands where the reading is: the dial of the hand mill has a
// hundred marks of 0.001 in to the turn.
func TestCrankAgreesWithReading(t *testing.T) {
	table := Feed(jobtest.Plan(t, "observatory-dome", nil))
	for _, row := range table.Rows {
		var turns, mark int
		if _, err := fmt.Sscan(row[3]+" "+row[4], &turns, &mark); err != nil {
			t.Fatalf("row %q: %v", row, err)
		}
		if want := gen.Fixed(float64(100*turns+mark)/1000, 3); row[2] != want {
			t.Errorf("step %s: reading %s, crank at %d turns and mark %d, which is %s", row[0], row[2], turns, mark, want)
		}
	}
}

// Any text comes back from the CSV as it went in (RFC 4180), and a column
// without a key stays on paper.
func TestCSVQuotes(t *testing.T) {
	table := Table{
		Columns: []Column{{Name: "step", Key: "step"}, {Name: "done"}, {Name: "note", Key: "note"}},
		Rows: [][]string{
			{"1", "[ ]", "4,72"},
			{"2", "[ ]", `the "fine" dial`},
			{"3", "[ ]", "two\nlines"},
			{"4", "[ ]", " blank first"},
			{"5", "[ ]", "Mühle"},
		},
	}
	got, err := csv.NewReader(bytes.NewReader(table.CSV())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := [][]string{{"step", "note"}}
	for _, row := range table.Rows {
		want = append(want, []string{row[0], row[2]})
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("CSV read back (-want +got):\n%s", diff)
	}
}

// The layout of a card: a rule under the title, columns as wide as their
// widest text counted in characters, and a gap after every fifth row.
func TestTextLayout(t *testing.T) {
	table := Table{
		Title:   "Käse",
		Columns: []Column{{Name: "n", Right: true}, {Name: "für"}, {Name: "done"}},
		Foot:    []string{"end"},
	}
	for i := range 6 {
		table.Rows = append(table.Rows, []string{fmt.Sprint(8 + i), "Öl", "[ ]"})
	}
	want := []string{
		"Käse",
		"====",
		"",
		" n  für  done",
		"--  ---  ----",
		" 8  Öl   [ ]",
		" 9  Öl   [ ]",
		"10  Öl   [ ]",
		"11  Öl   [ ]",
		"12  Öl   [ ]",
		"",
		"13  Öl   [ ]",
		"",
		"end",
	}
	if got := strings.Split(strings.TrimSuffix(string(table.Text()), "\n"), "\n"); !slices.Equal(got, want) {
		t.Errorf("Text (-want +got):\n%s", cmp.Diff(want, got))
	}
}

// Whole turns are written whole.
func TestTurns(t *testing.T) {
	for _, tt := range []struct {
		n    float64
		want string
	}{{0, "0"}, {40, "40"}, {0.906, "0.91"}, {61.5, "61.50"}, {3 - 1e-12, "3"}, {-1e-12, "0"}} {
		if got := turns(tt.n); got != tt.want {
			t.Errorf("turns(%v) = %q, want %q", tt.n, got, tt.want)
		}
	}
}
