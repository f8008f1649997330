package rs274

import (
	"fmt"
	"math"
	"testing"

	"wormwright/gen"
)

var iso = Options{Language: gen.Language{Base: gen.ISO}}

// NISTIR 6556, table 8: what a line holds is done in a fixed order, however
// it is written.
func TestOrderOfExecution(t *testing.T) {
	for _, row := range []runs{
		{"table 8, 1", "G0 X1 (last)", `remark "last"; rapid X1`},
		{"table 8, 2 before 3", "G93\nF60 G94 G1 X60", "feed X60 60s"},
		{"table 8, 3 before 20", "G1 X60 F60", "feed X60 60s"},
		{"table 8, 4 before 7", "M3 S120", "spindle +120"},
		{"table 8, 6 before 7", "M3 S120 M6 T1", "stop M6; spindle +120"},
		{"table 8, 7 before 10", "G4 P2 M4 S90", "spindle -90; dwell 2s"},
		{"table 8, 10 before 20", "G0 X2\nX1 G4 P2", "rapid X2; dwell 2s; rapid X1"},
		{"table 8, 10 before 20", "G1 X60 F60 G4 P2", "dwell 2s; feed X60 60s"},
		{"table 8, 11 before 20", "G3 Z2 K1 I0 F10 G18", fmt.Sprintf("arc Z2 %.10gs", 6*math.Pi)},
		{"table 8, 12 before 20", "G0 X1 G20", "rapid X25.4"},
		{"table 8, 12 before 19", "G92 X1 G20\nG0 Y1", "rapid X25.4 Y25.4"},
		{"table 8, 15 before 20", "G10 L2 P2 X5\nG0 X1\nX1 G55", "rapid X1; rapid X1"},
		{"table 8, 15 before 19", "G10 L2 P2 X5\nG92 X1 G55\nG0 X1\nG54", "rapid X1"},
		{"table 8, 17 before 20", "G0 X1\nX1 G91\nX3 G90", "rapid X1; rapid X2; rapid X3"},
		{"table 8, 17 before 19", "#5161=7\nG0 X1\nG28 X1 G91", "rapid X1; rapid X2; rapid X7"},
		{"table 8, 20 before 21", "M0 G0 X1", "rapid X1; stop M0"},
	} {
		row.check(t, Options{Remarks: true})
	}
	events, err := readAll("M2 G0 X1\n", Options{})
	if err != nil || len(events) != 2 || events[0].Kind != Rapid || events[1].Kind != End {
		t.Errorf("table 8, 21: M2 G0 X1 = %v, %v, want a rapid and the end", events, err)
	}
}

// NISTIR 6556, 2.1.2.5 and 3.5.19: how long a motion takes.
func TestDuration(t *testing.T) {
	for _, row := range []runs{
		{"2.1.2.5 A", "G1 X30 Y40 F100", "feed X30 Y40 30s"},
		{"2.1.2.5 A", "G1 X2 Y3 Z6 F7", "feed X2 Y3 Z6 60s"}, // by hand: 4+9+36 = 49
		{"2.1.2.5 A, the rotary axes follow", "G1 X50 A7200 F100", "feed X50 A7200 30s"},
		{"2.1.2.5 A, in inches", "G20 G1 X1 F2", "feed X25.4 30s"},
		{"2.1.2.5 B", "G1 C90 F180", "feed C90 30s"},
		{"2.1.2.5 B, in inches", "G20 G1 C90 F180", "feed C90 30s"},
		{"2.1.2.5 B, an X that stays", "G0 X5\nG1 X5 C90 F180", "rapid X5; feed X5 C90 30s"},
		{"2.1.2.5 B, an X that moves", "G1 X0.000000001 C90 F1", "feed X1e-09 C90 6e-08s"},
		{"2.1.2.5 C", "G1 A2 B3 C6 F7", "feed A2 B3 C6 60s"},
		{"2.1.2.5, no way at all", "G1 X0 F10", "feed"},
		{"3.5.19, G93", "G93 G1 X30 F2\nX0.001 A360 F1\nX0.001 F3", "feed X30 30s; feed X0.001 A360 60s; feed X0.001 A360 20s"},
		{"3.5.19, G0 in G93", "G93 G0 X30", "rapid X30"},
		{"3.5.19, F in G94 lasts", "G1 X30 F60\nX0", "feed X30 30s; feed 30s"},
		{"3.5.19, G94 again", "G94 F60\nG94 G1 X30", "feed X30 30s"},
		{"4.3.3.3, the number of F stays", "F60\nG20 G1 X30", "feed X762 30s"},
		{"3.5.3, half a turn", "G2 X10 R5 F[ACOS[-1]]", fmt.Sprintf("arc X10 %.10gs", 5*math.Pi/180*60)}, // ACOS in degrees
		{"3.5.3, a helix of one turn", "G2 X0 Z8 I3 F60", fmt.Sprintf("arc Z8 %.10gs", math.Hypot(6*math.Pi, 8))},
		{"3.5.3, in G93", "G93 G2 X10 R5 F2", "arc X10 30s"},
		{"3.5.4", "G4 P2.5\nG4 P0", "dwell 2.5s; dwell 0s"},
	} {
		row.check(t, Options{})
	}
	for _, row := range []runs{
		{"ISO 6983-1, G95", "G95 M3 S120 G1 X30 F0.5", "spindle +120; feed X30 30s"},
		{"ISO 6983-1, G95 and M4", "G95 M4 S120 G1 X30 F0.5\nX0", "spindle -120; feed X30 30s; feed 30s"},
		{"ISO 6983-1, G95 in inches", "G70 G95 M3 S120 G1 X1 F0.5", "spindle +120; feed X25.4 1s"},
		{"ISO 6983-1, G95 by degrees", "G95 M3 S120 G1 C90 F1.5", "spindle +120; feed C90 30s"},
		{"ISO 6983-1, G33", "M3 S120\nG33 Z-30 K0.5", "spindle +120; thread Z-30 30s"},
		{"ISO 6983-1, G33 on a taper", "M3 S120\nG33 Z-30 X5 K0.5", "spindle +120; thread X5 Z-30 30s"},
		{"ISO 6983-1, G33 again", "M3 S120\nG33 X30 I0.5\nX60 I1", "spindle +120; thread X30 30s; thread X60 15s"},
		{"ISO 6983-1, G33 in inches", "G70 M3 S120\nG33 Y1 J0.5", "spindle +120; thread Y25.4 1s"},
		{"ISO 6983-1, G71", "G70 G0 X1\nG71 X1", "rapid X25.4; rapid X1"},
	} {
		row.check(t, iso)
	}
}

func TestDwellOfTheDialect(t *testing.T) {
	for _, tt := range []struct {
		word string
		unit gen.DwellUnit
		runs
	}{
		{"", gen.Milliseconds, runs{"dialect", "G4 P1500", "dwell 1.5s"}},
		{"X", gen.Seconds, runs{"dialect", "G0 X1\nG4 X1.5\nX2", "rapid X1; dwell 1.5s; rapid X2"}},
		{"x", gen.Seconds, runs{"dialect", "G0 X1\nG4 X1.5 Y2", "rapid X1; dwell 1.5s; rapid X1 Y2"}},
		{"U", gen.Seconds, runs{"dialect", "G04 U1.5", "dwell 1.5s"}},
		{"F", gen.Milliseconds, runs{"dialect", "F60\nG4 F500\nG1 X30", "dwell 0.5s; feed X30 30s"}},
		{"P", gen.Revolutions, runs{"dialect", "M3 S120\nG4 P41\nM4 S60\nG4 P3", "spindle +120; dwell 20.5s; spindle -60; dwell 3s"}},
	} {
		tt.check(t, Options{Language: gen.Language{DwellWord: tt.word, DwellUnit: tt.unit}})
	}
}

func TestUnitAtTheStart(t *testing.T) {
	row := runs{"2.1.2.3", "G0 X1\nG21 X1", "rapid X25.4; rapid X1"}
	row.check(t, Options{Language: gen.Language{Units: gen.Inch}})
}

// NISTIR 6556, 3.6.3: the spindle stands still after a change of tool.
func TestToolChangeStopsTheSpindle(t *testing.T) {
	events, err := readAll("M3 S100\nM6\nG0 X1\nM6 M4\nM2\n", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{1, 0, 0, 0, -1, 0} {
		if got := events[i].Direction; got != want {
			t.Errorf("event %d, %v: direction %d, want %d", i, events[i].Kind, got, want)
		}
	}
}

func TestPlaceAtTheStart(t *testing.T) {
	row := runs{"own", "G91 G0 X1 A10\nG92 A0\nG28", "rapid X3 Y5 A370; rapid A-370"}
	row.check(t, Options{Start: [6]float64{2, 5, 0, 360}})
}

func TestEventState(t *testing.T) {
	events, err := readAll("G20 G93 M4 S80\n\nG19 G1 X2 F5\nG94 G0 X5\nM30\n", Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []Event{
		// The unit is the twelfth thing on a line, the spindle the seventh.
		{Line: 1, Kind: Spindle, FeedMode: InverseTime, Speed: 80, Direction: -1},
		{Line: 3, Kind: Feed, At: [6]float64{50.8}, Machine: [6]float64{50.8}, Seconds: 12, Unit: gen.Inch,
			FeedMode: InverseTime, Feed: 5, Speed: 80, Direction: -1, Plane: YZ},
		{Line: 4, Kind: Rapid, At: [6]float64{127}, Machine: [6]float64{127}, Unit: gen.Inch,
			FeedMode: PerMinute, Speed: 80, Direction: -1, Plane: YZ},
		{Line: 5, Kind: End, At: [6]float64{127}, Machine: [6]float64{127}, Unit: gen.Inch,
			FeedMode: PerMinute, Speed: 80, Word: "M30"},
	}
	if len(events) != len(want) {
		t.Fatalf("%d events, want %d", len(events), len(want))
	}
	for i, e := range events {
		if e != want[i] {
			t.Errorf("event %d = %+v, want %+v", i, e, want[i])
		}
	}
}
