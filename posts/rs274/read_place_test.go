package rs274

import "testing"

func TestPlaces(t *testing.T) {
	for _, row := range []runs{
		// Absolute and incremental.
		{"3.5.17", "G91 G0 X1 A10\nX1 A10\nG90 X1", "rapid X1 A10; rapid X2 A20; rapid X1 A20"},
		{"2.1.2.2", "G0 A7200\nG91 A-1", "rapid A7200; rapid A7199"},
		{"3.5.7", "G20 G0 X1 A90\nG21\nG0 X1", "rapid X25.4 A90; rapid X1 A90"},
		{"3.5.7", "G20\nG91 G0 X1 A90\nX1", "rapid X25.4 A90; rapid X50.8 A90"},

		// G10 and the systems.
		{"3.5.5", "G0 X1\nG10 L2 P1 X5\nG0 Y1", "rapid X1; rapid X-4 Y1"},
		{"3.5.5", "G10 L2 P3 X5 Y6 C90\nG10 L2 P3 Y7\nG56 G0 X0", "rapid Y-7 C-90"},
		{"3.5.5", "G10 L2 P9.00001 Z2\nG59.3\nG0 X1", "rapid X1 Z-2"},
		{"3.5.5, not moved by G91", "G0 X3\nG91\nG10 L2 P1 X5\nG10 L2 P1 X5\nG90 G0 Y1", "rapid X3; rapid X-2 Y1"},
		{"3.5.5, in inches", "G20 G10 L2 P1 X1\nG21 G0 Y1", "rapid X-25.4 Y1"},
		{"3.5.13", "G10 L2 P2 X2\nG10 L2 P6 X6\nG10 L2 P7 X7\nG10 L2 P8 X8\nG0 Z1\nG55 Z1\nG59 Z1\nG59.1 Z1\nG59.2 Z1\nG54 Z1",
			"rapid Z1; rapid X-2 Z1; rapid X-6 Z1; rapid X-7 Z1; rapid X-8 Z1; rapid Z1"},
		{"3.5.13", "G57\nG0 X#5220\nG58 X#5220\nG59.3 X#5220", "rapid X4; rapid X4; rapid X5"},

		// G53.
		{"3.5.12", "G10 L2 P1 X5\nG53 G0 X1\nX1", "rapid X-4; rapid X1"},
		{"3.5.12", "G92 A90\nG1 G53 A-90 F90", "feed 60s"},
		{"3.5.12", "G0 Y1\nG53 X2", "rapid Y1; rapid X2 Y1"},
		{"3.5.12", "G20 G10 L2 P1 X1\nG53 G0 X1", "rapid"},

		// G92 and its family.
		{"3.5.18", "G0 X4 A720\nG92 A0\nG0 A90", "rapid X4 A720; rapid X4 A90"},
		{"3.5.18", "G0 X4\nG92 X7\nG92 Y1\nG0 Z1", "rapid X4; rapid X7 Y1 Z1"},
		{"3.5.18, all nine systems", "G10 L2 P2 X5\nG92 X3\nG55 G0 Y1", "rapid X-2 Y1"},
		{"3.5.18, parameters", "G0 X4\nG92 X1\nG0 Y#5211", "rapid X4; rapid X1 Y3"},
		{"3.5.18, G92.1", "G0 X4\nG92 X1\nG92.1\nG0 Y1\nG92.3\nG0 Y2", "rapid X4; rapid X4 Y1; rapid X4 Y2"},
		{"3.5.18, G92.2", "G0 X4\nG92 X1\nG92.2\nG0 Y1\nG92.3\nG0 Y2", "rapid X4; rapid X4 Y1; rapid X1 Y2"},
		{"3.5.18, G92.3", "#5212=2\nG92.3\nG0 X1", "rapid X1 Y-2"},
		{"3.4, the motion in force rests", "G1 F60 X60\nG92 X0\nX60", "feed X60 60s; feed X60 60s"},

		// G28 and G30.
		{"3.5.8", "#5161=1 #5162=2 #5163=3 #5164=4 #5165=5 #5166=6\nG28", "rapid X1 Y2 Z3 A4 B5 C6"},
		{"3.5.8", "G0 X9 A9\nG28 Y8", "rapid X9 A9; rapid X9 Y8 A9; rapid"},
		{"3.5.8", "#5181=7\nG30 Z1", "rapid Z1; rapid X7"},
		{"3.5.8, in machine coordinates", "G10 L2 P1 X5\nG28", "rapid X-5"},
		{"3.5.8, home in inches", "G20\n#5161=1\nG21 G28", "rapid X25.4"},
	} {
		row.check(t, Options{})
	}
}

// A rotary that G92 sets back to 0 still stands where it has been turned to.
func TestMachineSeesThroughG92(t *testing.T) {
	events, err := readAll("G10 L2 P1 X5 A1\nG0 X1 A7200\nG92 A0\nG0 A360\nG92 A0\nG0 A-90\nM2\n", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ at, machine float64 }{ // of A
		{7200, 7201}, {360, 7561}, {-90, 7471},
	} {
		e := events[i]
		if e.At[3] != want.at || e.Machine[3] != want.machine || e.Machine[0] != 6 {
			t.Errorf("event %d at A%v, machine A%v X%v, want A%v, A%v, X6", i, e.At[3], e.Machine[3], e.Machine[0], want.at, want.machine)
		}
	}
}

// Offsets that do not add exactly must not make a rotary move look like a
// linear one: 0.3 - 0.1 is not 0.2.
func TestRoundingOfAnOffsetIsNoMove(t *testing.T) {
	row := runs{"2.1.2.5 B", "G0 X0.3\nG10 L2 P1 X0.1\nG1 X0.2 C90 F90", "rapid X0.3; feed X0.2 C90 60s"}
	row.check(t, Options{})
}
