package rs274

import (
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"wormwright/gen"
)

// FuzzRead reads any text in any dialect. It must end, in the end of the
// program or in a fault that stands within the text; and its events must be
// such as a machine can do.
func FuzzRead(f *testing.F) {
	for _, program := range []string{
		"",
		"%\nN10 G21 G90 G94 (sluice hoist)\nN20 M3 S120\nG1 X-1.5 A360 C9 F80\nG4 P10\nM5\n%\n",
		"G93 G1 A720.5 C18.0125 F2\nA1440\n/X1 F3\nM30\n",
		"#1=5 #[#1+1]=[2**-3]\nG2 X#1 I[#6*20] F[#1]\nG19 G3 Y1 Z2 R-4\nM2",
		"G10 L2 P2 X1\nG55 G92 A0\nG53 G0 X0\nG92.2\nG92.3\nG28 Y1\nG30\nM0\r\nM6 T1\rM60\nM2",
		"G20 G91 G1 X.1F+.5\n(msg,a)(b)\nG0 X[ATAN[1]/[2] MOD 3 AND 1 XOR 0 OR FIX[1.5]]\nM2",
		"G95 M3 S100 G1 Z-1 F.1\nG33 Z-9 K2\nG70 G04 X1 ; dwell\nM30\n",
		"G0 X[10**308] Y1e3",
		"(é\xff)\x00\ufeff",
	} {
		f.Add(program, uint8(0), false)
		f.Add(program, uint8(0x5d), true)
	}
	f.Fuzz(func(t *testing.T, program string, dialect uint8, skip bool) {
		opt := Options{SkipDeleted: skip, Remarks: true, Language: gen.Language{
			Base:      gen.Base(dialect & 3 % 3),
			Units:     gen.Unit(dialect >> 2 & 1),
			Comments:  gen.CommentStyle(dialect >> 3 & 3 % 3),
			DwellUnit: gen.DwellUnit(dialect >> 5 & 3 % 3),
			DwellWord: []string{"", "X"}[dialect>>7],
		}}
		events, err := readAll(program, opt)
		line := 0
		for _, e := range events {
			if e.Line < line {
				t.Fatalf("line %d after line %d", e.Line, line)
			}
			line = e.Line
			for i := range axes {
				if !finite(e.At[i]) || !finite(e.Machine[i]) {
					t.Fatalf("%+v", e)
				}
			}
			if !finite(e.Centre[0]) || !finite(e.Centre[1]) || !(e.Sweep >= -360.0001 && e.Sweep <= 360.0001) {
				t.Fatalf("%+v", e)
			}
			if !finite(e.Seconds) || e.Seconds < 0 || !finite(e.Feed) || e.Feed < 0 || !finite(e.Speed) || e.Speed < 0 || !finite(e.Lead) {
				t.Fatalf("%+v", e)
			}
		}
		if err == nil && (len(events) == 0 || events[len(events)-1].Kind != End) {
			t.Fatal("no end and no fault")
		}
		var fault Fault
		if err != nil {
			if !errors.As(err, &fault) || fault.Line < 1 || fault.Col < 1 || fault.Line < line {
				t.Fatalf("error %v after line %d", err, line)
			}
			if most := strings.Count(program, "\n") + strings.Count(program, "\r") + 1; fault.Line > most || fault.Col > len(program)+1 {
				t.Fatalf("fault %v outside the text", fault)
			}
		}
		// Byte by byte it is the same.
		r := NewReader(iotest.OneByteReader(strings.NewReader(program)), opt)
		var again []Event
		for {
			e, errAgain := r.Next()
			if errAgain == nil {
				again = append(again, e)
				continue
			}
			if errAgain == io.EOF {
				errAgain = nil
			}
			if errAgain != err || !slices.Equal(events, again) {
				t.Fatalf("byte by byte %d events and %v, want %d and %v", len(again), errAgain, len(events), err)
			}
			break
		}
	})
}
