package gen

// A Machine is the machine file: how the roles of [Place] and the two
// rotations reach slides, spindles and words of a program.
//
// Signs are +1 where the reading or the word grows with the role of the
// frames in package geometry, -1 where it falls.
type Machine struct {
	Title      string
	Units      Unit // in which its dials and its program speak, unless they say otherwise
	Radial     Slide
	Tangential Slide
	Axial      Slide
	Hob        Rotary
	Work       Rotary
	Spindle    Spindle
	Arbor      Arbor
	Drive      Drive
	Language   Language
	Head       Head `json:",omitzero"`
}

// A Slide moves the hob against the wheel along one role.
type Slide struct {
	Letter  string  // axis word; empty when no program moves it
	Sign    float64 // +1 or -1
	Dial    Dial
	Travel  float64 // whole travel, mm; 0 not known
	Rapid   float64 // mm/min, 0 not known
	Feed    float64 // largest feed, mm/min, 0 not known
	Slack   float64 // lost motion of the screw, mm
	Present bool    // the machine file describes it
}

// Slide is the one that moves the hob in a direction.
func (m *Machine) Slide(w Way) *Slide {
	return [...]*Slide{&m.Radial, &m.Tangential, &m.Axial}[w]
}

// A Dial is what a person reads: a graduated handwheel or, where Turn is 0,
// a digital readout.
type Dial struct {
	Name       string
	Unit       Unit
	Graduation float64 // mm; 0 when the slide has no dial
	Turn       float64 // travel in one turn of the handwheel, mm; 0 for a readout
	Clockwise  bool    // turning the handwheel clockwise makes the reading grow
}

// A Rotary is the rotation of the hob or of the work.
type Rotary struct {
	Letter string // axis word in a coordinated program
	Sign   float64
	Plus   string  // name of the end that points along + of its axis in the frames
	Minus  string  // name of the other end
	Rate   float64 // largest speed, turns/min, 0 not known
}

// A Spindle is what turns the hob where the program gives its speed.
type Spindle struct {
	Slowest   float64   // turns/min, 0 not known
	Fastest   float64   // turns/min, 0 not known
	Speeds    []float64 // the fixed speeds, ascending; empty when stepless
	Tolerance float64   // largest relative error of the speed, 0.05 for 5 %
	Reversed  bool      // M3 turns the hob in the negative sense
}

// An Arbor carries the hob, in its middle.
type Arbor struct {
	Diameter float64 // mm, 0 not known
	Span     float64 // from the spindle's nose to the outboard support, mm
}

// A DriveKind tells what keeps the work in step with the hob.
type DriveKind int

const (
	Geared      DriveKind = iota // a train or an electronic gearbox of the machine's own
	Coordinated                  // the control moves both as rotary axes
	Uncoupled                    // nothing
	Clocked                      // the control turns the work by time alone, under a free spindle
)

func (k DriveKind) String() string {
	return [...]string{"geared", "coordinated", "none", "clocked"}[k]
}

// A Differential tells how a geared drive adds the turn that tangential or
// axial feed calls for.
type Differential int

const (
	NoDifferential Differential = iota // it cannot
	Follows                            // the gearbox follows the feed axis by itself, at the travel to a work turn that is set on it
	FeedGeared                         // the feed is geared to the hob and the ratio corrected
)

func (d Differential) String() string { return [...]string{"none", "follows", "geared"}[d] }

// A Drive couples the work to the hob.
type Drive struct {
	Kind         DriveKind
	Hand         float64 // hand that it cuts without an idler: +1 right, -1 left, 0 either
	Differential Differential
	Counts       int // encoder counts in one hob turn, 0 none
	Steps        int // motor steps in one work turn, 0 none
}

// A Base is a word-address language.
type Base int

const (
	NoLanguage Base = iota // no control: cards only
	NGC                    // RS274/NGC version 3, NISTIR 6556
	ISO                    // plain word address after ISO 6983-1
)

func (b Base) String() string { return [...]string{"none", "ngc", "iso"}[b] }

// A DwellUnit is what the number of a dwell word counts.
type DwellUnit int

const (
	Seconds DwellUnit = iota
	Milliseconds
	Revolutions
)

func (u DwellUnit) String() string {
	return [...]string{"seconds", "milliseconds", "revolutions"}[u]
}

// A CommentStyle is how a control takes remarks.
type CommentStyle int

const (
	Parentheses CommentStyle = iota
	Semicolon
	NoComments
)

func (c CommentStyle) String() string {
	return [...]string{"parentheses", "semicolon", "none"}[c]
}

// A Language is the dialect that one control takes.
type Language struct {
	Base           Base
	Units          Unit
	Comments       CommentStyle
	LengthDecimals int
	AngleDecimals  int
	LineNumbers    bool
	FeedPerTurn    bool // G95 may be used
	DwellWord      string
	DwellUnit      DwellUnit
	LargestRotary  float64 // degrees, 0 no limit
	LargestDwell   float64 // seconds, 0 no limit
	LineLength     int     // characters without the line end
	Marks          bool    // a line of % opens and closes the program
	End            string  // M2 or M30
}
