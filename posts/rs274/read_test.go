package rs274

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"wormwright/gen"
)

// readAll returns the events of a program and the fault that it ends in, if
// any.
func readAll(program string, opt Options) ([]Event, error) {
	r := NewReader(strings.NewReader(program), opt)
	var events []Event
	for {
		e, err := r.Next()
		if err == io.EOF {
			return events, nil
		}
		if err != nil {
			return events, err
		}
		events = append(events, e)
	}
}

// brief puts an event on one line: its kind, its axes that are not at 0 and
// its seconds; of the others, what they carry.
func brief(e Event) string {
	s := e.Kind.String()
	switch e.Kind {
	case Remark, Message:
		return fmt.Sprintf("%s %q", s, e.Text)
	case Stop, End:
		return s + " " + e.Word
	case Spindle:
		return fmt.Sprintf("%s %+g", s, float64(e.Direction)*e.Speed)
	case Dwell:
		return fmt.Sprintf("%s %.10gs", s, e.Seconds)
	}
	for i, v := range e.At {
		if v != 0 {
			s += fmt.Sprintf(" %c%.10g", axes[i], v)
		}
	}
	if e.Seconds != 0 {
		s += fmt.Sprintf(" %.10gs", e.Seconds)
	}
	return s
}

// briefs returns the events of a program that must be without fault, less
// the last one, which must be its end.
func briefs(t *testing.T, program string, opt Options) []string {
	t.Helper()
	events, err := readAll(program, opt)
	if err != nil {
		t.Errorf("%q: %v", program, err)
		return nil
	}
	var got []string
	for _, e := range events {
		got = append(got, brief(e))
	}
	last := len(got) - 1
	if last < 0 || events[last].Kind != End {
		t.Errorf("%q: events %q, want the last to be the end", program, got)
		return nil
	}
	return got[:last]
}

// runs is a row of a table of programs that are right. The program is closed
// by M2 on a line of its own.
type runs struct {
	clause  string // of NISTIR 6556, unless it says otherwise
	program string
	want    string // briefs, apart by "; "
}

func (row runs) check(t *testing.T, opt Options) {
	t.Helper()
	if got := strings.Join(briefs(t, row.program+"\nM2\n", opt), "; "); got != row.want {
		t.Errorf("%s: %q = %q, want %q", row.clause, row.program, got, row.want)
	}
}

func TestLine(t *testing.T) {
	for _, row := range []runs{
		{"3.3", "", ""},
		{"3.3", "\n \t\nG0 X1", "rapid X1"},
		{"3.3", "g0 x1", "rapid X1"},
		{"3.3", "G 0 X + 1 2 . 5 y - . 2 5", "rapid X12.5 Y-0.25"},
		{"3.3", "G0\tX\t1", "rapid X1"},
		{"3.3", "G0X1Y2Z3A4B5C6", "rapid X1 Y2 Z3 A4 B5 C6"},
		{"3.3", "X1 G0", "rapid X1"},
		{"3.3", "/G0 X1", "rapid X1"},
		{"3.3", "/ N12345 G0 X1", "rapid X1"},
		{"3.3", "/", ""},
		{"3.3.1", "N0 G0 X1", "rapid X1"},
		{"3.3.1", "N99999 G0 X1\nN5\nN5 X2", "rapid X1; rapid X2"},
		{"3.3.1", "N 1 2 G0 X1", "rapid X1"},
		{"3.3.2.1", "G00 X001.500", "rapid X1.5"},
		{"3.3.2.1", "G0.0 X1.", "rapid X1"},
		{"3.3.2.1", "G0.00001 X1", "rapid X1"}, // near a whole number, after times ten
		{"3.3.2.1", "G0 X1\nM3.00009", "rapid X1; spindle +0"},
		{"3.3.2.1", "G0 X0.000000000000000000000000000001", "rapid X1e-30"},
		{"3.3.4", "(MSG, open the sluice) G0 X1", "rapid X1"},
		{"3.3.5", "G0 (east) X1 (a ; % / b)", "rapid X1"},
		{"3.3.5", "()", ""},
		{"3.3.5", "(Räderuhr, 40 Zähne)", ""},
		{"table 4", "G0 G17 G90 G94 G21 G40 G49 G98 G54 G64 X1", "rapid X1"},
		{"table 4", "M1 M3 M8 M49", "spindle +0; stop M1"},
		{"table 4", "M7\nM8\nM9 G61\nG61.1\nG99 G80 M48 T3 M6", "stop M6"},
		{"3.6.1", "M0\nM60", "stop M0; stop M60"},
	} {
		row.check(t, Options{})
	}
}

func TestRepeatedFree(t *testing.T) {
	// NISTIR 6556, 3.3: G words may be many, one of each modal group.
	row := runs{"3.3", "G1 G17 G21 G40 G49 G54 G61 G90 G94 G99 X60 F60", "feed X60 60s"}
	row.check(t, Options{})
}

func TestEndOfProgram(t *testing.T) {
	marks := Options{Language: gen.Language{Marks: true}}
	for _, tt := range []struct {
		clause  string
		program string
		opt     Options
		word    string
		line    int
	}{
		{"3.1", "G21\nM2", Options{}, "M2", 2},
		{"3.1", "G21\nM30\n", Options{}, "M30", 2},
		{"3.1", "M2 G21", Options{}, "M2", 1},
		{"3.1", "%\nG21\n%\nG7\n", Options{}, "%", 3},
		{"3.1", " \n\t% \nG21\n %\t\n", Options{}, "%", 4},
		{"3.1", "%\nM30\n", Options{}, "M30", 2}, // then the closing % is not wanted
		{"3.1", "M30\nwhat follows is never read ((", Options{}, "M30", 1},
		{"3.1", "%\nM30\n\n%\nnor this", marks, "M30", 2},
		{"3.1", "%\nG21\n%", marks, "%", 3},
	} {
		events, err := readAll(tt.program, tt.opt)
		if err != nil || len(events) == 0 {
			t.Errorf("%s: %q: %d events, %v", tt.clause, tt.program, len(events), err)
			continue
		}
		e := events[len(events)-1]
		if e.Kind != End || e.Word != tt.word || e.Line != tt.line {
			t.Errorf("%s: %q ends with %v %q on line %d, want end %q on line %d", tt.clause, tt.program, e.Kind, e.Word, e.Line, tt.word, tt.line)
		}
	}
}

// NISTIR 6556, 3.6.1: the end resets offsets, plane, feed mode and spindle,
// but not the unit.
func TestEndResets(t *testing.T) {
	events, err := readAll("G20 G18 G93 M3 S100\nG10 L2 P1 X1\nG10 L2 P2 X2\nG55\nG92 X5\nM2\n", Options{})
	if err != nil {
		t.Fatal(err)
	}
	e := events[len(events)-1]
	if e.Plane != XY || e.FeedMode != PerMinute || e.Direction != 0 || e.Unit != gen.Inch || e.Speed != 100 {
		t.Errorf("end in plane %v, %v, direction %d, %v, speed %v, want XY, G94, 0, in, 100", e.Plane, e.FeedMode, e.Direction, e.Unit, e.Speed)
	}
	if got, want := e.At[0], -25.4; got != want { // the first system stands at X1 in
		t.Errorf("end at X%v mm, want %v", got, want)
	}
}

func TestLineEnds(t *testing.T) {
	// NISTIR 6556, 3.3: CR, LF or both.
	for _, end := range []string{"\n", "\r\n", "\r"} {
		program := strings.Join([]string{"G21", "", "G0 X1", "M2"}, end)
		for _, text := range []string{program, program + end} {
			events, err := readAll(text, Options{})
			if err != nil || len(events) != 2 || events[0].Line != 3 || events[1].Line != 4 {
				t.Errorf("%q: %v, %v, want a rapid on line 3 and the end on line 4", text, events, err)
			}
		}
	}
}

func TestLineLength(t *testing.T) {
	pad := func(n int) string { return "(" + strings.Repeat("é", n-2) + ")" }
	for _, tt := range []struct {
		limit, length int // characters
		ok            bool
	}{
		{0, 253, true},
		{0, 254, false},
		{40, 40, true},
		{40, 41, false},
		{1 << 30, longestLine, true},
		{1 << 30, longestLine + 1, false},
	} {
		opt := Options{Language: gen.Language{LineLength: tt.limit}}
		for _, end := range []string{"\n", "\r\n", "\r"} {
			_, err := readAll("G21"+end+pad(tt.length)+end+"M2"+end, opt)
			if tt.ok && err != nil {
				t.Errorf("a line of %d characters under the limit %d: %v", tt.length, tt.limit, err)
			}
			var f Fault
			if !tt.ok && (!errors.As(err, &f) || f.Line != 2 || f.Col != tt.length) {
				t.Errorf("a line of %d characters under the limit %d: %v, want a fault at 2:%d", tt.length, tt.limit, err, tt.length)
			}
		}
	}
}

// An endless reader yields zeros for ever and counts them.
type endless struct{ n int }

func (r *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '0'
	}
	r.n += len(p)
	return len(p), nil
}

func TestEndlessLine(t *testing.T) {
	var zeros endless
	_, err := NewReader(&zeros, Options{}).Next()
	if want := (Fault{1, 254, "line too long, want at most 253 characters"}); err != want {
		t.Errorf("a line without end: %v, want %v", err, want)
	}
	if zeros.n > 64<<10 {
		t.Errorf("read %d bytes of a line without end, want at most 64 KiB", zeros.n)
	}
}

func TestBlockDelete(t *testing.T) {
	program := "G0 X1\n/ X2\n/ #1=5\n/ M2\nX[3+#1]\nM2\n"
	for _, tt := range []struct {
		skip bool
		want []string
	}{
		{false, []string{"rapid X1", "rapid X2"}},
		{true, []string{"rapid X1", "rapid X3"}},
	} {
		if got := briefs(t, program, Options{SkipDeleted: tt.skip}); !slices.Equal(got, tt.want) {
			t.Errorf("SkipDeleted %v: %q = %q, want %q", tt.skip, program, got, tt.want)
		}
	}
}

// NISTIR 6556, 2.2.2 leaves a deleted line to be read: it must be right even
// when it is skipped.
func TestBlockDeleteIsChecked(t *testing.T) {
	for _, line := range []string{"/ G1 G2 X1", "/ X[1", "/ Q1", "/ G80 X1", "/ G43 H1"} {
		if _, err := readAll(line+"\nM2\n", Options{SkipDeleted: true}); err == nil {
			t.Errorf("%q skipped: no fault, want one", line)
		}
	}
}

func TestRemarks(t *testing.T) {
	paren := Options{Remarks: true}
	semi := Options{Remarks: true, Language: gen.Language{Comments: gen.Semicolon}}
	for _, tt := range []struct {
		line string
		opt  Options
		want []string
	}{
		{"G0 X1 (digest 1a2b)", paren, []string{`remark "digest 1a2b"`, "rapid X1"}},
		{"(one) G0 (two) X1", paren, []string{`remark "two"`, "rapid X1"}}, // 3.3.5: the last
		{"( m S\tg , lift the hob)", paren, []string{`message " lift the hob"`}},
		{"(MSG lift the hob)", paren, []string{`remark "MSG lift the hob"`}},
		{"()", paren, []string{`remark ""`}},
		{"(sum Aa  Bb)", paren, []string{`remark "sum Aa  Bb"`}},
		{"G0 X1 ; sum (7) ; 8", semi, []string{`remark " sum (7) ; 8"`, "rapid X1"}},
		{";", semi, []string{`remark ""`}},
		{"(sum 7)", Options{}, nil},
	} {
		if got := briefs(t, tt.line+"\nM2\n", tt.opt); !slices.Equal(got, tt.want) {
			t.Errorf("%q = %q, want %q", tt.line, got, tt.want)
		}
	}
}

func TestNextAfterTheEnd(t *testing.T) {
	r := NewReader(strings.NewReader("M2\nG7\n"), Options{})
	if e, err := r.Next(); e.Kind != End || err != nil {
		t.Fatalf("Next() = %v, %v, want the end", e.Kind, err)
	}
	for range 2 {
		if _, err := r.Next(); err != io.EOF {
			t.Errorf("Next() after the end: %v, want io.EOF", err)
		}
	}
}

func TestNextAfterAFault(t *testing.T) {
	// The line at fault yields nothing, not even the dwell that comes before
	// its arc.
	r := NewReader(strings.NewReader("G0 X1\nG4 P1 G2 X5\nM2\n"), Options{})
	if e, err := r.Next(); e.Kind != Rapid || err != nil {
		t.Fatalf("Next() = %v, %v, want a rapid", e.Kind, err)
	}
	_, first := r.Next()
	_, second := r.Next()
	var f Fault
	if !errors.As(first, &f) || f.Line != 2 || first != second {
		t.Errorf("Next() = %v, then %v, want one fault of line 2 twice", first, second)
	}
}

func TestUnreadableText(t *testing.T) {
	// M3 is what has come of M30 when the disk fails.
	text := io.MultiReader(strings.NewReader("G0 X1\nM3"), iotest.ErrReader(os.ErrDeadlineExceeded))
	r := NewReader(text, Options{})
	if e, err := r.Next(); e.Kind != Rapid || err != nil {
		t.Fatalf("Next() = %v, %v, want a rapid", e.Kind, err)
	}
	if e, err := r.Next(); !errors.Is(err, os.ErrDeadlineExceeded) {
		t.Errorf("Next() = %v, %v, want the error of the text", e.Kind, err)
	}
}

func TestDwellWordOfTheDialect(t *testing.T) {
	for _, word := range []string{"G", "m", "N", "PX", "1", "é"} {
		_, err := readAll("M2\n", Options{Language: gen.Language{DwellWord: word}})
		if err == nil || !strings.Contains(err.Error(), "dwell word") {
			t.Errorf("dwell word %q: %v, want an error", word, err)
		}
	}
}
