package gen

// A Block is one line of a program as the axes see it, whatever language it
// was written in.
type Block struct {
	Line    int        // of the program, from 1
	Act     Act        // what happens
	Rapid   bool       // a move without a feed
	PerTurn bool       // a move or a dwell in turns of the spindle: Seconds holds at Speed only
	Axes    [6]float64 // X Y Z A B C when it is over, mm and degrees, turns not reduced
	Seconds float64    // 0 for a rapid move
	Speed   float64    // of the spindle in turns/min, negative after M4, 0 at rest
}

// An Act is what a block does.
type Act int

const (
	Move     Act = iota
	Wait         // a dwell
	Turn         // the spindle starts, stops or changes its speed
	Pause        // the program waits for a person
	Finished     // the program ends
)

// A Program is what a reader has made of a text.
type Program struct {
	Blocks []Block
	Fault  *Finding // where the text could not be read on; nil at its end
	Digest string   // of the plan that it says it was written for; empty where it says none
	Begun  Begun    // what it says was cut before; zero where it says nothing
	Edited bool     // its text is not the one that its sum was taken of
}
