package gen

import (
	"strings"

	"wormwright/geometry"
)

// A Job is a job file with every length in mm and every angle in radians. A
// number that was left out is 0 and follows from a rule or from the rest.
type Job struct {
	Title string
	Units Unit // in which the file and what is printed from it speak
	Pair  PairData
	Worm  WormData
	Wheel WheelData
	Hob   HobData
	Setup SetupData
	Cut   CutData
	Turn  TurnData `json:",omitzero"` // a job that says nothing of it keeps its digest
	Gash  GashData `json:",omitzero"`
}

// A Basis is the section in which a module or a pressure angle is known.
type Basis int

const (
	ByForm Basis = iota // axial for form ZA, normal for the others; axial for a module
	Axial
	Normal
)

func (b Basis) String() string { return [...]string{"by form", "axial", "normal"}[b] }

// PairData describes the pair.
type PairData struct {
	Module         float64
	ModuleBasis    Basis
	Starts         int
	Teeth          int
	Hand           geometry.Hand
	Pressure       float64
	PressureBasis  Basis
	Shift          float64 // in modules
	CentreDistance float64 // wanted; Shift follows from it
	Clearance      float64
}

// WormData describes the worm.
type WormData struct {
	Form      geometry.Form
	Diameter  float64 // reference diameter
	SameAsHob bool    // the reference diameter is the hob's
	Length    float64
	Disk      float64 // diameter of the disk that grinds form ZK
}

// WheelData describes the wheel and its blank.
type WheelData struct {
	Throated        bool
	Rule            geometry.Proportion
	Outside         float64 // diameter, as drawn
	Throat          float64 // diameter, as drawn
	OutsideMeasured float64 // diameter
	ThroatMeasured  float64 // diameter
	Face            float64
	Hub             float64 // by how much the face that is touched stands out from the rim
	ThroatOffset    float64 // of the throat from the middle of the face, toward the work's plus end
	Material        string
	Backlash        float64 // arc at the reference circle
	FromInfeed      bool    // backlash comes from cutting deeper, not from a thin worm thread
	AllowUndercut   bool
}

// HobData describes the hob as measured.
type HobData struct {
	Form          geometry.Form
	Tip           float64 // diameter
	Addendum      float64
	Root          float64 // diameter
	Reference     float64 // diameter, for an unrelieved hob
	Module        float64
	ModuleBasis   Basis
	Lead          float64 // measured; Module follows from it
	Starts        int
	Hand          geometry.Hand
	Pressure      float64
	PressureBasis Basis
	Gashes        int
	Length        float64
	Taper         float64 // length of the entering taper
	TaperDrop     float64 // fall of the tip radius at its small end
	TaperPlus     bool    // the taper is at the hob's plus end
	Rounding      float64
	Disk          float64
	Unrelieved    bool
	AllowSmaller  bool
	Anticlockwise bool // the way it must turn to cut, seen from its minus end
}

// A Centring is a way of bringing the wheel's middle plane under the hob.
type Centring int

const (
	Flush  Centring = iota // blank's face flush with the hob's side
	Beside                 // blank wholly beside the hob
	Halved                 // both sides touched, the readings halved
)

func (c Centring) String() string { return [...]string{"flush", "beside", "halved"}[c] }

// SetupData says how the work is brought under the hob.
type SetupData struct {
	Centring Centring
	Minus    bool // the work's minus end is touched
	Swivel   bool // the hob's axis can be and will be swivelled
}

// A Feed is the direction in which the hob enters the wheel.
type Feed int

const (
	Radial Feed = iota
	Tangential
	Fly    // tangential, with a single tooth in an arbor
	Across // axial, along the wheel's axis across its face
	Gash   // a cutter's, plunged into each tooth space while the work stands
	Free   // radial, with nothing but the hob to turn the work
)

func (f Feed) String() string {
	return [...]string{"radial", "tangential", "fly", "axial", "gash", "free"}[f]
}

// Words is the feed in a sentence.
func (f Feed) Words() string {
	switch f {
	case Fly:
		return "fly tool and tangential feed"
	case Gash:
		return "gashing"
	case Free:
		return "free hob and radial feed"
	}
	return f.String() + " feed"
}

// Alone tells that the feed needs nothing to keep the work in step with the
// hob.
func (f Feed) Alone() bool { return f == Gash || f == Free }

// Title is [Feed.Words] at the head of a sentence.
func (f Feed) Title() string {
	words := f.Words()
	return strings.ToUpper(words[:1]) + words[1:]
}

// Way is the direction in which the hob moves while it cuts.
func (f Feed) Way() Way {
	switch f {
	case Tangential, Fly:
		return Tangentially
	case Across:
		return Axially
	}
	return Radially
}

// CutData says how the wheel is cut.
type CutData struct {
	Feed        Feed
	Step        float64 // largest infeed of a step; tangential: feed per work turn
	LastStep    float64 // falling steps: the step at full depth whose chip all steps hold
	Falling     bool
	Continuous  bool // infeed without stops
	Turns       int  // work turns of every hold
	FinishSteps int
	FinishStep  float64
	SparkOut    int     // holds at full depth
	Speed       float64 // cutting speed, mm/min
	Spindle     float64 // turns/min, instead of Speed
	Clear       float64 // room between hob and blank before and after
	Margin      float64 // tangential: travel beyond what contact needs, each end
	TowardMinus bool    // tangential: the hob travels toward its minus end
	CreepStep   float64
	CreepSteps  int
	Facet       float64 `json:",omitzero"` // fly tool: height of facets that the feed may leave, instead of Step
	Tools       int     `json:",omitzero"` // fly tool: how many, 1 or one for each start; 0 is 1
	Ungashed    bool    `json:",omitzero"` // free: the blank has no gashes
	AllowFree   bool    `json:",omitzero"` // free: it may be cut without
}
