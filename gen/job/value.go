package job

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"wormwright/gen"
)

// A quantity is a number and the unit behind it, as written.
type quantity struct {
	value float64
	unit  string
}

var (
	octal    = regexp.MustCompile(`^[+-]?0[0-9]`)
	decimal  = regexp.MustCompile(`^[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)`)
	fraction = regexp.MustCompile(`^([+-]?)(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)`)
	arc      = regexp.MustCompile(`^([+-]?)([0-9]+)°\s*([0-9]+(?:\.[0-9]+)?)['′](?:\s*([0-9]+(?:\.[0-9]+)?)["″])?$`)
	comma    = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+`)
)

// largest bounds every number of a job: beyond it is a slip of the pen.
const largest = 1e6

// parseQuantity reads a plain decimal or a fraction with an optional unit:
// "2", "0.005 in", "1/2 in", "1 1/2 in", "25 m/min", "5 %", "20°".
func parseQuantity(text string) (quantity, error) {
	text = strings.TrimSpace(text)
	switch lower := strings.ToLower(strings.TrimLeft(text, "+-")); {
	case comma.MatchString(text):
		return quantity{}, fmt.Errorf("want a decimal point, as %s", strings.Replace(text, ",", ".", 1))
	case strings.HasPrefix(lower, ".nan"), strings.HasPrefix(lower, ".inf"), strings.HasPrefix(lower, "nan"), strings.HasPrefix(lower, "inf"):
		return quantity{}, errors.New("want a finite number")
	case octal.MatchString(text):
		return quantity{}, errors.New("want no leading zero: it could be read as octal")
	}
	var q quantity
	var rest string
	if m := fraction.FindStringSubmatch(text); m != nil {
		whole, over, under := atof(m[2]), atof(m[3]), atof(m[4])
		if under == 0 {
			return quantity{}, errors.New("want a fraction with something below the line")
		}
		q.value = whole + over/under
		if m[1] == "-" {
			q.value = -q.value
		}
		rest = text[len(m[0]):]
	} else if m := decimal.FindString(text); m != "" {
		v, err := strconv.ParseFloat(m, 64)
		if err != nil {
			return quantity{}, fmt.Errorf("want a number up to %.0f", largest)
		}
		q.value, rest = v, text[len(m):]
	} else {
		return quantity{}, errors.New("want a number")
	}
	if !(math.Abs(q.value) <= largest) {
		return quantity{}, fmt.Errorf("want a number up to %.0f", largest)
	}
	q.unit = strings.TrimSpace(rest)
	return q, nil
}

// atof reads digits that a pattern has already matched; none are 0.
func atof(digits string) float64 {
	v, _ := strconv.ParseFloat(digits, 64)
	return v
}

// A measure turns a quantity into what is kept inside, or says which units
// it takes.
type measure struct {
	units map[string]float64
	bare  float64 // factor of a number without a unit; 0 when it must have one
	want  string
}

func (m measure) read(text string) (float64, error) {
	if m.want == wantAngle {
		if parts := arc.FindStringSubmatch(strings.TrimSpace(text)); parts != nil {
			v := atof(parts[2]) + atof(parts[3])/60 + atof(parts[4])/3600
			switch {
			case !(v <= largest):
				return 0, fmt.Errorf("want a number up to %.0f", largest)
			case atof(parts[3]) >= 60 || atof(parts[4]) >= 60:
				return 0, errors.New("want minutes and seconds below 60")
			}
			if parts[1] == "-" {
				v = -v
			}
			return v * math.Pi / 180, nil
		}
	}
	q, err := parseQuantity(text)
	if err != nil {
		return 0, err
	}
	if q.unit == "" {
		if m.bare == 0 {
			return 0, fmt.Errorf("want %s", m.want)
		}
		return q.value * m.bare, nil
	}
	factor, ok := m.units[q.unit]
	if !ok {
		return 0, fmt.Errorf("want %s", m.want)
	}
	return q.value * factor, nil
}

const (
	inch      = 25.4
	foot      = 12 * inch
	wantAngle = "an angle, as 20, 4.5° or 4°30'"
)

// measures returns how lengths, speeds and rates are read in a file whose
// unit is so many mm. Lengths become mm, angles radians, speeds mm/min.
func measures(unit float64) (length, angle, speed, feed, share, plain measure) {
	surface := 1000.0
	if unit == inch {
		surface = foot
	}
	length = measure{map[string]float64{"mm": 1, "cm": 10, "in": inch, `"`: inch, "thou": inch / 1000}, unit, "a length, as 2.5, 0.12 mm or 1/2 in"}
	angle = measure{map[string]float64{"°": math.Pi / 180, "deg": math.Pi / 180}, math.Pi / 180, wantAngle}
	speed = measure{map[string]float64{"m/min": 1000, "ft/min": foot}, surface, "a speed, as 20 m/min or 65 ft/min"}
	feed = measure{map[string]float64{"mm/min": 1, "in/min": inch}, unit, "a rate, as 300, 300 mm/min or 12 in/min"}
	share = measure{map[string]float64{"%": 0.01}, 0, "a percentage, as 5 %"}
	plain = measure{nil, 1, "a plain number"}
	return length, angle, speed, feed, share, plain
}

// ParseLength reads a length as a job file writes it, a bare number being in
// the given unit, and returns it in mm.
func ParseLength(text string, unit gen.Unit) (float64, error) {
	length, _, _, _, _, _ := measures(unit.Millimetres())
	return length.read(text)
}
