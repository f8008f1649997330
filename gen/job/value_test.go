package job

import (
	"math"
	"strings"
	"testing"
)

// kinds are the measures of a file whose unit is so many mm.
func kinds(unit float64) map[string]measure {
	length, angle, speed, rate, share, plain := measures(unit)
	return map[string]measure{
		"length": length, "angle": angle, "speed": speed, "rate": rate, "share": share, "plain": plain,
	}
}

func TestMeasure(t *testing.T) {
	const mm, in = 1, 25.4 // the file's unit
	for _, tt := range []struct {
		kind string
		text string
		unit float64
		want float64 // mm, radians, mm/min or a bare number, by hand
	}{
		{"length", "2.5", mm, 2.5},
		{"length", "2.5", in, 63.5},
		{"length", "+2.5", mm, 2.5},
		{"length", "-2.5", mm, -2.5},
		{"length", "-2.5", in, -63.5},
		{"length", "0", in, 0},
		{"length", "0.5", mm, 0.5},
		{"length", ".5", mm, 0.5},
		{"length", "5.", mm, 5},
		{"length", " 5 ", mm, 5},
		{"length", "0.005 in", mm, 0.127},
		{"length", "0.005in", mm, 0.127},
		{"length", "0.12 mm", mm, 0.12},
		{"length", "0.12 mm", in, 0.12},
		{"length", "1.2 cm", in, 12},
		{"length", "5 thou", mm, 0.127},
		{"length", `0.5"`, mm, 12.7},
		{"length", "1/2 in", mm, 12.7},
		{"length", "1/2 mm", in, 0.5},
		{"length", "1/2", in, 12.7},
		{"length", "1/2", mm, 0.5},
		{"length", "-1/2", mm, -0.5},
		{"length", "1 1/2 in", mm, 38.1},
		{"length", "1-1/2 in", mm, 38.1},
		{"length", "-1 1/2 in", mm, -38.1},
		{"length", "1 3/4", in, 44.45},
		{"length", "5/8", in, 15.875},
		{"length", "1000000", mm, 1e6},

		{"angle", "20", mm, math.Pi / 9},
		{"angle", "20", in, math.Pi / 9},
		{"angle", "4.5°", mm, math.Pi / 40},
		{"angle", "4.5 °", mm, math.Pi / 40},
		{"angle", "4.5 deg", mm, math.Pi / 40},
		{"angle", "14 1/2", mm, 14.5 * math.Pi / 180},
		{"angle", "4°30'", mm, math.Pi / 40},
		{"angle", "4° 30'", mm, math.Pi / 40},
		{"angle", "4°30′", mm, math.Pi / 40},
		{"angle", "-4°30'", mm, -math.Pi / 40},
		{"angle", "4°30'15\"", mm, 16215 * math.Pi / 648000}, // 4·3600 + 30·60 + 15 = 16215 of 648000″ in π
		{"angle", "4° 30' 15″", mm, 16215 * math.Pi / 648000},
		{"angle", "4°30'1.5\"", mm, 16201.5 * math.Pi / 648000},
		{"angle", "0°00'", mm, 0},

		{"speed", "25 m/min", mm, 25000},
		{"speed", "25 m/min", in, 25000},
		{"speed", "25", mm, 25000},
		{"speed", "80 ft/min", mm, 24384}, // 80·304.8
		{"speed", "80 ft/min", in, 24384},
		{"speed", "80", in, 24384},

		{"rate", "300", mm, 300},
		{"rate", "12", in, 304.8},
		{"rate", "12 in/min", mm, 304.8},
		{"rate", "300 mm/min", in, 300},

		{"share", "5 %", mm, 0.05},
		{"share", "2.5%", in, 0.025},
		{"share", "0 %", mm, 0},

		{"plain", "16", in, 16},
		{"plain", "1/3", mm, 1.0 / 3},
		{"plain", "-0.25", mm, -0.25},
	} {
		got, err := kinds(tt.unit)[tt.kind].read(tt.text)
		if err != nil || !(math.Abs(got-tt.want) <= 1e-15*math.Abs(tt.want)*8) { // some roundings
			t.Errorf("%s: read(%q) in units of %v mm = %v, %v, want %v", tt.kind, tt.text, tt.unit, got, err, tt.want)
		}
	}
}

func TestMeasureRefuses(t *testing.T) {
	for _, tt := range []struct {
		kind, text string
		want       string // in the message
	}{
		{"length", "2,5", "want a decimal point, as 2.5"},
		{"length", "-2,5 mm", "want a decimal point, as -2.5 mm"},
		{"length", ".nan", "finite"},
		{"length", ".NaN", "finite"},
		{"length", ".inf", "finite"},
		{"length", "-.inf", "finite"},
		{"length", "+.Inf", "finite"},
		{"length", "NaN", "finite"},
		{"length", "nan", "finite"},
		{"length", "inf", "finite"},
		{"length", "-Inf", "finite"},
		{"length", "Infinity", "finite"},
		{"length", "012", "leading zero"},
		{"length", "-012", "leading zero"},
		{"length", "00", "leading zero"},
		{"length", "01.5", "leading zero"},
		{"length", "0x10", "want a length"},
		{"length", "0b1", "want a length"},
		{"length", "0o7", "want a length"},
		{"length", "1e3", "want a length"},
		{"length", "1E-3", "want a length"},
		{"length", "1_000", "want a length"},
		{"length", "1 000", "want a length"},
		{"length", "1/0", "below the line"},
		{"length", "1/0 in", "below the line"},
		{"length", "1/2/3", "want a length"},
		{"length", "1.5/2", "want a length"},
		{"length", "", "want a number"},
		{"length", "   ", "want a number"},
		{"length", "-", "want a number"},
		{"length", ".", "want a number"},
		{"length", "--5", "want a number"},
		{"length", "−5", "want a number"}, // a minus sign, not a hyphen
		{"length", "five", "want a number"},
		{"length", "mm", "want a number"},
		{"length", "5 furlongs", "want a length"},
		{"length", "5 MM", "want a length"},
		{"length", "5 m", "want a length"},
		{"length", "5 mm mm", "want a length"},
		{"length", "5°", "want a length"},
		{"length", "4°30'", "want a length"},
		{"length", "5 %", "want a length"},
		{"length", "1000000.1", "want a number up to"},
		{"length", "-1000000.1", "want a number up to"},
		{"length", "1000001/1", "want a number up to"},
		{"length", strings.Repeat("9", 400), "want a number up to"},
		{"length", strings.Repeat("9", 400) + "/1", "want a number up to"},
		{"length", "1/" + strings.Repeat("9", 400) + "0 x", "want a length"},

		{"angle", "5 mm", "want an angle"},
		{"angle", "20 rad", "want an angle"},
		{"angle", "4°30", "want an angle"},
		{"angle", "4°'", "want an angle"},
		{"angle", "4.5°30'", "want an angle"},
		{"angle", "30'", "want an angle"},
		{"angle", "4°60'", "minutes"},
		{"angle", "4°30'60\"", "seconds"},
		{"angle", strings.Repeat("9", 400) + "°30'", "want a number up to"},

		{"speed", "20 mm/min", "want a speed"},
		{"speed", "20 m/s", "want a speed"},
		{"rate", "20 m/min", "want a rate"},
		{"share", "5", "want a percentage"},
		{"share", "0.05", "want a percentage"},
		{"plain", "5 mm", "want a plain number"},
		{"plain", "5 %", "want a plain number"},
	} {
		got, err := kinds(1)[tt.kind].read(tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: read(%.40q) = %v, %v, want an error with %q", tt.kind, tt.text, got, err, tt.want)
		}
	}
}
