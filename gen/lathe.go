package gen

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strconv"
)

// A Lathe is the lathe file: what cuts the worm's thread, or the hob's.
type Lathe struct {
	Title    string
	Units    Unit // in which its dials and its program speak, unless they say otherwise
	Screw    Screw
	Gearbox  []Fraction // settings of its own gearbox, turns of the leadscrew in one turn of the last change gear; none for 1
	Gears    []int      // tooth counts of the change gears, a gear that is there twice twice
	Spindle  Spindle    // Reversed: M3 turns the work backward
	Carriage float64    // largest speed of the carriage when it cuts a thread, mm/min; 0 by rule
	Cross    Slide      // the cross slide; its readings are diameters where Diameter is set
	Diameter bool       // the cross slide reads, and X counts, on the diameter
	Top      Slide      // the top slide
	Threads  bool       // its control threads in step with the spindle: G33
	Lead     int        // decimals of the lead in a program
	Language Language
}

// A Screw is a leadscrew.
type Screw struct {
	Lead    float64 // mm in one turn
	PerInch float64 // threads per inch, where the file gives them; 0 where it gives a lead
}

func (s Screw) String() string {
	if s.PerInch > 0 {
		return strconv.FormatFloat(s.PerInch, 'f', -1, 64) + " tpi"
	}
	return strconv.FormatFloat(s.Lead, 'f', -1, 64) + " mm"
}

// TurnData says how a thread is cut on the lathe. What is left out is 0 and
// follows from a rule.
type TurnData struct {
	Flank   bool    // the tool is fed along one flank, by the top slide; else straight in
	First   float64 // largest depth of the first pass
	Spring  int     // passes at full depth
	Speed   float64 // cutting speed, mm/min
	Spindle float64 // turns/min, instead of Speed
}

// Digest names a plan and a lathe in ten hex digits, as that of the plan does
// a job and a machine.
func (l Lathe) Digest(p *Plan) string {
	h := sha256.New()
	if err := json.NewEncoder(h).Encode(struct {
		Plan  string
		Lathe Lathe
	}{p.Digest, l}); err != nil {
		return "0000000000"
	}
	return hex.EncodeToString(h.Sum(nil))[:10]
}
