package rs274

import "math/bits"

// letters is a set of the letters A to Z.
type letters uint32

func letter(c byte) letters { return 1 << (c - 'A') }

func lettersOf(s string) letters {
	var l letters
	for i := range len(s) {
		l |= letter(s[i])
	}
	return l
}

func (l letters) has(c byte) bool { return l&letter(c) != 0 }

// The order of the axes in a position.
const axes = "XYZABC"

var axisLetters = lettersOf(axes)

// A block is one line of a program, its values worked out. Places count bytes
// of scanner.text, for a [Fault].
type block struct {
	deleted bool // it begins with /

	// Words, apart from G, M and N.
	words letters
	value [26]float64
	place [26]int

	// Codes, by modal group: held is a set of groups.
	held      uint32
	codes     [groupCount]code
	codePlace [groupCount]int

	settings []setting // in the order written

	// The last comment, without its brackets, as a part of scanner.text; no
	// comment where it begins at 0.
	commentBegin, commentEnd int

	// What resolve finds: the motion that the line makes, if it moves, and
	// what asks for it; the axes that the line has words for; the number of
	// its dwell, if it waits.
	moves    bool
	motion   code
	motionAt int // place of the code or of the first axis word
	axes     letters
	waits    bool
	dwell    float64
}

// A setting gives a parameter a value.
type setting struct {
	number int
	value  float64 // as state.parameters holds it
}

// reset empties the block; values behind a cleared bit are left as they are.
func (b *block) reset() {
	b.deleted, b.moves, b.waits = false, false, false
	b.words, b.held, b.axes = 0, 0, 0
	b.settings = b.settings[:0]
	b.commentBegin, b.commentEnd = 0, 0
}

// num returns the value of the word of letter c, 0 when there is none.
func (b *block) num(c byte) float64 {
	if !b.words.has(c) {
		return 0
	}
	return b.value[c-'A']
}

// at returns the place of the word of letter c.
func (b *block) at(c byte) int { return b.place[c-'A'] }

// code returns the line's code of a modal group.
func (b *block) code(g group) (c code, ok bool) {
	if b.held>>g&1 == 0 {
		return 0, false
	}
	return b.codes[g], true
}

// hold takes down a code.
func (b *block) hold(g group, c code, place int) {
	b.held |= 1 << g
	b.codes[g] = c
	b.codePlace[g] = place
}

// mCodes counts the M words.
func (b *block) mCodes() int { return bits.OnesCount32(b.held >> stopGroup) }

// first returns the letter of the set whose word stands first in the line.
// The set must not be empty and all of it must be there.
func (b *block) first(set letters) byte {
	first := byte(0)
	for c := byte('A'); c <= 'Z'; c++ {
		if set.has(c) && (first == 0 || b.at(c) < b.at(first)) {
			first = c
		}
	}
	return first
}

// ends reports whether the line ends the program.
func (b *block) ends() bool {
	c, ok := b.code(stopGroup)
	return ok && (c == m2 || c == m30)
}
