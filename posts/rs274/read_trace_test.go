package rs274

import (
	"errors"
	"os"
	"strings"
	"testing"

	"wormwright/gen"
)

func ExampleTrace() {
	// The wheel of a water mill's sluice hoist: the work turns twice under
	// the hob, then waits for ten seconds.
	program := `
G21 G90 G94
M3 S120
G0 X-1.5
G93 G1 A28800 C720 F2
G4 P10
M30
`
	if err := Trace(os.Stdout, NewReader(strings.NewReader(program), Options{})); err != nil {
		panic(err)
	}
	// Output:
	// 3 spindle 0.000000000 0.000000000 0.000000000 0.000000000 0.000000000 0.000000000 120.000000000
	// 4 rapid -1.500000000 0.000000000 0.000000000 0.000000000 0.000000000 0.000000000 0.000000000
	// 5 feed -1.500000000 0.000000000 0.000000000 28800.000000000 0.000000000 720.000000000 2.000000000
	// 6 dwell -1.500000000 0.000000000 0.000000000 28800.000000000 0.000000000 720.000000000 10.000000000
	// 7 end -1.500000000 0.000000000 0.000000000 28800.000000000 0.000000000 720.000000000 0.000000000
}

func TestTrace(t *testing.T) {
	const zeros = " 0.000000000 0.000000000 0.000000000 0.000000000 0.000000000 "
	for _, tt := range []struct {
		program string
		want    string // the first line
	}{
		{"G20 G0 X0.1 (east)", "1 rapid 0.100000000" + zeros + "0.000000000\n"},
		{"G20 G0 A90", "1 rapid 0.000000000 0.000000000 0.000000000 90.000000000 0.000000000 0.000000000 0.000000000\n"},
		{"G0 X-0.0000000001", "1 rapid 0.000000000" + zeros + "0.000000000\n"},
		{"G70 G2 X0 I1 F5", "1 arc 0.000000000" + zeros + "5.000000000\n"},
		{"M4 S80", "1 spindle 0.000000000" + zeros + "-80.000000000\n"},
		{"S80", "1 spindle 0.000000000" + zeros + "0.000000000\n"},
		{"M0", "1 stop 0.000000000" + zeros + "0.000000000\n"},
		{"G70\nM3 S80\nG33 X1 I0.05", "2 spindle 0.000000000" + zeros + "80.000000000\n3 thread 1.000000000" + zeros + "0.050000000\n"},
	} {
		var b strings.Builder
		opt := Options{Remarks: true, Language: gen.Language{Base: gen.ISO}}
		if err := Trace(&b, NewReader(strings.NewReader(tt.program+"\nM2\n"), opt)); err != nil {
			t.Errorf("%q: %v", tt.program, err)
		}
		if !strings.HasPrefix(b.String(), tt.want) {
			t.Errorf("Trace(%q) = %q, want it to begin with %q", tt.program, b.String(), tt.want)
		}
	}
}

// A trace holds what the program does before its fault.
func TestTraceOfAFault(t *testing.T) {
	var b strings.Builder
	err := Trace(&b, NewReader(strings.NewReader("G0 X1\nG7\n"), Options{}))
	var f Fault
	if !errors.As(err, &f) || f.Line != 2 || strings.Count(b.String(), "\n") != 1 {
		t.Errorf("Trace = %q, %v, want one line and a fault of line 2", b.String(), err)
	}
}

// narrow is a writer that takes so many bytes and no more.
type narrow struct{ room int }

var errNarrow = errors.New("no room")

func (w *narrow) Write(p []byte) (int, error) {
	n := min(len(p), w.room)
	w.room -= n
	if n < len(p) {
		return n, errNarrow
	}
	return n, nil
}

// No error of the writer is lost, wherever it comes.
func TestTraceToAFailingWriter(t *testing.T) {
	program := string(hoistProgram(100))
	for _, tail := range []string{"", "G7\n"} {
		text := strings.Replace(program, "M30\n", tail+"M30\n", 1)
		var whole strings.Builder
		_ = Trace(&whole, NewReader(strings.NewReader(text), Options{}))
		for room := range whole.Len() {
			if err := Trace(&narrow{room}, NewReader(strings.NewReader(text), Options{})); err != errNarrow {
				t.Fatalf("Trace to a writer of %d bytes: %v, want %v", room, err, errNarrow)
			}
		}
	}
}
