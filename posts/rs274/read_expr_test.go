package rs274

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// valueOf returns what the reader takes a value for: it is given to a
// parameter, which is then driven to.
func valueOf(t *testing.T, value string) float64 {
	t.Helper()
	events, err := readAll("#1=3 #2=1 #3=-2.5\nG0 A"+value+"\nM2\n", Options{})
	if err != nil {
		t.Errorf("%s: %v", value, err)
		return math.NaN()
	}
	return events[0].At[3]
}

func TestValues(t *testing.T) {
	for _, tt := range []struct {
		clause string
		value  string
		want   float64 // by hand
	}{
		{"3.3.2.1", "12", 12},
		{"3.3.2.1", "+12.", 12},
		{"3.3.2.1", "-.5", -0.5},
		{"3.3.2.1", "007.250", 7.25},
		{"3.3.2.1", "0.1", 0.1},
		{"3.3.2.1", "123456789012345678901234567890", 123456789012345678901234567890},
		{"3.3.2.1", "9007199254740993", 9007199254740992}, // 2^53 + 1, to even
		{"3.3.2.2", "#1", 3},
		{"3.3.2.2", "##1", -2.5}, // the parameter that #1 names
		{"3.3.2.2", "[#1+2]", 5},
		{"3.3.2.2", "#[1+1]", 1},
		{"3.3.2.2", "#0.99995", 3}, // near 1
		{"3.3.2.2", "#ABS[-3]", -2.5},
		{"3.2.1", "#5399", 0},
		{"3.2.1", "#5220", 1},
		{"3.3.2.3", "[2 ** 3 * 2]", 16},
		{"3.3.2.3", "[2 * 3 ** 2]", 18},
		{"3.3.2.3", "[2 ** 3 ** 2]", 64}, // left to right
		{"3.3.2.3", "[0 ** 0]", 1},
		{"3.3.2.3", "[1 + 2 * 3]", 7},
		{"3.3.2.3", "[[1 + 2] * 3]", 9},
		{"3.3.2.3", "[8 / 4 / 2]", 1},
		{"3.3.2.3", "[8 - 4 - 2]", 2},
		{"3.3.2.3", "[8 - 4 + 2]", 6},
		{"3.3.2.3", "[2 - -3]", 5},
		{"3.3.2.3", "[-2 ** 2]", 4}, // the sign is the number's
		{"3.3.2.3", "[0 - 2 ** 2]", -4},
		{"3.3.2.3", "[7 mod 3]", 1},
		{"3.3.2.3", "[-10 MOD 3]", 2},
		{"3.3.2.3", "[10 MOD -3]", 1},
		{"3.3.2.3", "[-9 MOD 3]", 0},
		{"3.3.2.3", "[2 * 7 MOD 4]", 2},
		{"3.3.2.3", "[2 AND 0]", 0},
		{"3.3.2.3", "[2 AND 0.5]", 1},
		{"3.3.2.3", "[0 OR 0]", 0},
		{"3.3.2.3", "[0 OR -1]", 1},
		{"3.3.2.3", "[2 XOR 3]", 0},
		{"3.3.2.3", "[0 XOR 3]", 1},
		{"3.3.2.3", "[1 OR 1 + 1]", 2}, // one rank
		{"3.3.2.3", "[2 * * 3]", 8},    // white space means nothing
		{"3.3.2.4", "ABS[-1.5]", 1.5},
		{"3.3.2.4", "ACOS[0]", 90},
		{"3.3.2.4", "ASIN[-1]", -90},
		{"3.3.2.4", "ATAN[1]/[-1]", 135},
		{"3.3.2.4", "ATAN[0]/[0]", 0},
		{"3.3.2.4", "COS[60]", 0.5},
		{"3.3.2.4", "EXP[0]", 1},
		{"3.3.2.4", "FIX[2.8]", 2},
		{"3.3.2.4", "FIX[-2.8]", -3},
		{"3.3.2.4", "FUP[2.8]", 3},
		{"3.3.2.4", "FUP[-2.8]", -2},
		{"3.3.2.4", "LN[EXP[2]]", 2},
		{"3.3.2.4", "ROUND[2.5]", 3},
		{"3.3.2.4", "ROUND[-2.5]", -3},
		{"3.3.2.4", "s i n [ 30 ]", 0.5},
		{"3.3.2.4", "SQRT[3**2 + 4**2]", 5},
		{"3.3.2.4", "TAN[45]", 1},
	} {
		// 1e-14: the functions turn degrees into radians.
		if got := valueOf(t, tt.value); !(math.Abs(got-tt.want) <= 1e-14*math.Max(1, math.Abs(tt.want))) {
			t.Errorf("%s: %s = %v, want %v", tt.clause, tt.value, got, tt.want)
		}
	}
}

// NISTIR 6556, 3.3.3: parameters are set after the line has been read, in
// their order.
func TestSettings(t *testing.T) {
	for _, row := range []runs{
		{"3.3.3", "#1=7\n#1=5 G0 X#1\nX#1", "rapid X7; rapid X5"},
		{"3.3.3", "#1=5 #1=6\nG0 X#1", "rapid X6"},
		{"3.3.3", "#1=5\n#1=6 #2=#1\nG0 X#2", "rapid X5"},
		{"3.3.3", "#[1+1]=SQRT[16] #3 = -1.5\nG0 X#2 Y#3", "rapid X4 Y-1.5"},
		{"3.3.3", "#1=2\n##1=8\nG0 X#2", "rapid X8"},
		{"3.3.3", "G0 #1=4 X1 (here) #2=5\nX[#1+#2]", "rapid X1; rapid X9"},
		{"3.2.1", "#5221=5\nG0 X1\nG54 X1", "rapid X1; rapid X1"},
		{"3.2.1, a system takes effect when it is chosen", "#5221=5\nG0 X1\nG54\nG0 Y1", "rapid X1; rapid X-4 Y1"},
		{"3.2.1, in the unit in force", "G20\n#5241=1 #5244=90\nG21\nG55 G0 Z#5241 B#5244", "rapid X-25.4 Z25.4 A-90 B90"},
		{"3.2.1, in the unit before the line", "G20\n#5161=1\nG21 G0 X#5161", "rapid X1"},
		{"3.2.1, in the unit in force", "G20 G0 X2\nG92 X1\n#1=#5211\nG21\nG0 Y#5211 Z#1", "rapid X50.8; rapid X25.4 Y25.4 Z1"},
		{"3.2.1, not lengths", "G20\n#5204=1 #5201=2 #5227=3\nG21\nG0 X#5204 Y#5201 Z#5227", "rapid X1 Y2 Z3"},
	} {
		row.check(t, Options{})
	}
}

// A number is the float64 nearest to it, however it is written.
func TestNumbersAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.StringMatching(`[+-]?[0-9]{1,20}(\.[0-9]{0,25})?`).Draw(t, "number")
		want, err := strconv.ParseFloat(n, 64)
		if err != nil {
			t.Fatal(err)
		}
		events, err := readAll("G0 A"+n+"\nM2\n", Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := events[0].At[3]; got != want {
			t.Fatalf("A%s = %v, want %v", n, got, want)
		}
	})
}
