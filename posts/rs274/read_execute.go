package rs274

import (
	"strconv"
	"strings"
	"unicode"

	"wormwright/gen"
)

// execute does a line that resolve has passed, in the order of NISTIR 6556,
// table 8. What no [Event] shows, such as coolant or the path mode, is left
// out.
func (r *Reader) execute(b *block) error {
	st := &r.state
	if r.opt.Remarks && b.commentBegin > 0 {
		r.remark(string(r.scanner.text[b.commentBegin:b.commentEnd]))
	}
	if c, ok := b.code(feedModeGroup); ok {
		r.setFeedMode(c)
	}
	if b.words.has('F') || st.feedMode == InverseTime {
		st.feed = b.num('F') // in G93 it lasts for its line only
	}
	r.spin(b)
	if b.waits {
		if err := r.wait(b); err != nil {
			return err
		}
	}
	if c, ok := b.code(planeGroup); ok {
		st.plane = [...]Plane{XY, ZX, YZ}[(c-g17)/10]
	}
	if c, ok := b.code(unitGroup); ok {
		st.unit = gen.Millimetre
		if c == g20 || c == g70 {
			st.unit = gen.Inch
		}
	}
	if c, ok := b.code(systemGroup); ok {
		st.choose(systemNumber(c))
		if err := r.settled(b.codePlace[systemGroup]); err != nil {
			return err
		}
	}
	if c, ok := b.code(distanceGroup); ok {
		st.incremental = c == g91
	}
	if c, ok := b.code(nonModalGroup); ok {
		if err := r.place(b, c); err != nil {
			return err
		}
	}
	if c, ok := b.code(motionGroup); ok {
		st.motion = c
	}
	if b.moves {
		if err := r.move(b); err != nil {
			return err
		}
	}
	if c, ok := b.code(stopGroup); ok {
		return r.stop(c, b.codePlace[stopGroup])
	}
	return nil
}

// systemNumber returns which coordinate system G54 to G59.3 choose, from 1.
func systemNumber(c code) int {
	if c > g59 {
		return 6 + int(c-g59)
	}
	return int(c-g54)/10 + 1
}

// push appends an event with what is in force to the queue. The pointer is
// good until the next line.
func (r *Reader) push(k Kind) *Event {
	st := &r.state
	e := &r.queue[r.tail]
	r.tail++
	*e = Event{
		Line: r.line, Kind: k,
		At: st.pos, Machine: st.machine(),
		Unit: st.unit, FeedMode: st.feedMode, Feed: st.feed,
		Speed: st.speed, Direction: st.direction,
		Plane: st.plane,
	}
	return e
}

// remark yields a comment. It is a message when it begins with MSG and a
// comma, whatever white space is among them (NISTIR 6556, 3.3.4).
func (r *Reader) remark(text string) {
	rest := text
	for _, c := range "MSG," {
		rest = strings.TrimLeft(rest, " \t")
		if rest == "" || unicode.ToUpper(rune(rest[0])) != c {
			r.push(Remark).Text = text
			return
		}
		rest = rest[1:]
	}
	r.push(Message).Text = rest
}

// setFeedMode does G93, G94 and G95. The number of one mode means nothing in
// another, so F is wanted again.
func (r *Reader) setFeedMode(c code) {
	st := &r.state
	mode := PerMinute
	switch c {
	case g93:
		mode = InverseTime
	case g95:
		mode = PerTurn
	}
	if mode != st.feedMode {
		st.feedMode, st.feed = mode, 0
	}
}

// spin does S, M6 and M3, M4, M5. A change of tool leaves the spindle
// standing still (NISTIR 6556, 3.6.3).
func (r *Reader) spin(b *block) {
	st := &r.state
	if b.words.has('S') {
		st.speed = b.num('S')
	}
	if _, ok := b.code(toolGroup); ok {
		st.direction = 0
		r.push(Stop).Word = "M6"
	}
	c, ok := b.code(spindleGroup)
	if ok {
		st.direction = [...]int{1, -1, 0}[c-m3]
	}
	if ok || b.words.has('S') {
		r.push(Spindle)
	}
}

// wait does G4.
func (r *Reader) wait(b *block) error {
	seconds := b.dwell
	switch r.opt.Language.DwellUnit {
	case gen.Milliseconds:
		seconds /= 1000
	case gen.Revolutions:
		rate, err := r.spindleRate(b.codePlace[nonModalGroup], "G4")
		if err != nil {
			return err
		}
		seconds *= 60 / rate
	}
	e := r.push(Dwell)
	e.Seconds = seconds
	return r.bounded(e, b.codePlace[nonModalGroup])
}

// spindleRate returns the turns/min of a spindle that must turn for what
// stands at the place at.
func (r *Reader) spindleRate(at int, what string) (float64, error) {
	if st := &r.state; st.direction != 0 && st.speed > 0 {
		return st.speed, nil
	}
	return 0, r.scanner.fault(at, "%s waits for the spindle, which stands still", what)
}

// stop does the code at the place at that ends or interrupts the program
// (NISTIR 6556, 3.6.1).
func (r *Reader) stop(c code, at int) error {
	kind := Stop
	if c == m2 || c == m30 {
		kind = End
		r.state.reset()
	}
	r.push(kind).Word = "M" + strconv.Itoa(int(c))
	return r.settled(at)
}
