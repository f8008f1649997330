package rs274

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"wormwright/gen"
)

// Options says how a [Reader] takes a program.
type Options struct {
	// Language is the dialect that the control takes. Its base, comments,
	// unit at the start, dwell word and unit, line length and marks are held
	// to. The zero Language is RS274/NGC version 3.
	Language gen.Language

	// Start is where the axes stand before the first line, in machine
	// coordinates, mm and degrees.
	Start [6]float64

	// SkipDeleted turns block delete on: a line that begins with / is checked
	// but does nothing.
	SkipDeleted bool

	// Remarks asks for the comments and messages of the program as events of
	// kind Remark and Message: the last one of each line, as in NISTIR 6556,
	// 3.3.5.
	Remarks bool
}

// A Fault is the thing wrong with a program, at the place where it is
// written.
type Fault struct {
	Line, Col int // from 1; Col counts characters
	Msg       string
}

func (f Fault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Col, f.Msg) }

// A Reader takes a program apart, line by line, and does in memory what the
// control would do with it. It holds one line at a time, so its memory does
// not grow with the program.
//
// At the start nothing moves yet (G80), the plane is XY (G17), the unit is
// that of the Language, distances are absolute (G90), the feed is per minute
// (G94) and not given, the spindle stands still, the coordinate system is the
// first (G54), and every offset and parameter is 0.
//
// # Where the sources leave a choice
//
// After any change among G93, G94 and G95 a new F is wanted. The number of F
// stays when G20 or G21 changes the unit, and counts in the new one. A move
// is timed by its length in X Y Z when that is more than 1e-10 mm, and by its
// degrees otherwise. Parameters that hold lengths speak in the unit in force
// before the line; one that holds the origin of a coordinate system takes
// effect when that system is next chosen. After M2 or M30 the closing % may
// be missing, unless the Language has marks. In ISO 6983-1 the numbers that
// the standard leaves free are read as in RS274/NGC; parameters and
// expressions are not read at all.
type Reader struct {
	// Configuration.
	opt   Options
	limit int  // characters in a line, at most
	dwell byte // letter of the word that says how long G4 waits

	// Where it is in the text.
	lines   *bufio.Scanner
	line    int  // number of the current line
	width   int  // its length in characters
	begun   bool // a line that is not blank has been seen
	marked  bool // and it was a %
	scanner scanner
	block   block

	state state

	// Events of the current line that are not yet handed out, and the error
	// that follows them.
	queue      [8]Event
	head, tail int
	err        error
}

// NewReader returns a Reader of the program in r.
func NewReader(r io.Reader, opt Options) *Reader {
	rd := &Reader{opt: opt, limit: opt.Language.LineLength, dwell: 'P'}
	if rd.opt.Language.Base == gen.NoLanguage {
		rd.opt.Language.Base = gen.NGC
	}
	if rd.limit <= 0 {
		rd.limit = usualLine
	}
	rd.limit = min(rd.limit, longestLine)
	switch w := strings.ToUpper(opt.Language.DwellWord); {
	case w == "":
	case len(w) != 1 || w[0] < 'A' || w[0] > 'Z' || strings.Contains("GMN", w):
		rd.err = fmt.Errorf("dwell word %q, want one letter other than G, M and N", opt.Language.DwellWord)
	default:
		rd.dwell = w[0]
	}
	rd.lines = newLines(r, rd.limit)
	rd.state.init(opt.Language.Units, opt.Start)
	rd.scanner.init(rd.opt.Language, rd.dwell, &rd.state)
	return rd
}

// Next returns the next event. After the event of kind End it returns io.EOF.
// A program at fault ends in a [Fault], a text that cannot be read in the
// error of its io.Reader; either is returned again by every later call. The
// line at fault yields no event.
func (r *Reader) Next() (Event, error) {
	for r.head == r.tail {
		if r.err != nil {
			return Event{}, r.err
		}
		r.head, r.tail = 0, 0
		r.err = r.readLine()
		if r.err != nil && r.err != io.EOF {
			r.tail = 0
		}
	}
	r.head++
	return r.queue[r.head-1], nil
}

// readLine does one line of the program. It returns io.EOF when that line
// ends it.
func (r *Reader) readLine() error {
	blank, err := r.advance()
	if err == io.EOF {
		return r.unfinished()
	}
	if err != nil || blank {
		return err
	}
	s := &r.scanner
	mark := string(s.text) == "%"
	switch {
	case !r.begun:
		r.begun = true
		if s.text[0] == '%' && !mark {
			return s.fault(1, "only white space may stand beside %%")
		}
		if r.opt.Language.Marks && !mark {
			return s.fault(0, "a line of %% must open the program")
		}
		if mark {
			r.marked = true
			return nil
		}
	case mark && r.marked:
		r.push(End).Word = "%"
		return io.EOF
	}
	b := &r.block
	if err := s.parse(b); err != nil {
		return err
	}
	if err := r.resolve(b); err != nil {
		return err
	}
	if b.deleted && r.opt.SkipDeleted {
		return nil
	}
	for _, set := range b.settings {
		r.state.parameters[set.number] = set.value
	}
	if err := r.execute(b); err != nil {
		return err
	}
	if !b.ends() {
		return nil
	}
	if r.opt.Language.Marks {
		return r.closing()
	}
	return io.EOF
}

// advance loads the next line into the scanner and reports whether it is
// blank. It returns io.EOF behind the last line.
func (r *Reader) advance() (blank bool, err error) {
	more := r.lines.Scan()
	switch err := r.lines.Err(); {
	case err == errLong:
		return false, r.tooLong()
	case err != nil: // the line may be cut short
		return false, err
	case !more:
		return false, io.EOF
	}
	raw := r.lines.Bytes()
	width := utf8.RuneCount(raw)
	if width > r.limit {
		return false, r.tooLong()
	}
	r.line++
	r.width = width
	r.scanner.load(raw, r.line)
	return len(r.scanner.text) == 0, nil
}

// tooLong reports that the line after the current one is too long.
func (r *Reader) tooLong() error {
	return Fault{r.line + 1, r.limit + 1, fmt.Sprintf("line too long, want at most %d characters", r.limit)}
}

// unfinished reports a text that is over before the program is
// (NISTIR 6556, 3.1), at the end of its last line.
func (r *Reader) unfinished() error {
	msg := "the program has no end, want M2 or M30"
	switch {
	case !r.begun:
		msg = "the program is empty"
	case r.marked:
		msg = "a line of % must close the program"
	}
	return Fault{max(r.line, 1), r.width + 1, msg}
}

// closing looks for the % that must follow the end of the program where the
// Language has marks.
func (r *Reader) closing() error {
	for {
		blank, err := r.advance()
		switch {
		case err == io.EOF:
			return r.unfinished()
		case err != nil:
			return err
		case !blank && string(r.scanner.text) == "%":
			return io.EOF
		case !blank:
			return r.scanner.fault(0, "only a line of %% may follow the end of the program")
		}
	}
}
