package rs274

import (
	"bytes"
	"fmt"
	"sort"
	"strconv"
	"unicode/utf8"

	"wormwright/gen"
)

// noBracket stands for a bracket that the dialect has not: no line holds it.
const noBracket = '\n'

// A scanner takes one line apart (NISTIR 6556, 3.3 and appendix E). Places in
// a line count bytes of its squeezed text.
type scanner struct {
	// Configuration.
	base         gen.Base
	letters      letters // that may begin a word
	opens, close byte    // of comments; close is noBracket where they run to the end of the line
	state        *state  // for the values of parameters

	// The current line, as written and as squeezed.
	line int
	raw  []byte
	text []byte
	i    int // place in text of the next byte
}

func (s *scanner) init(l gen.Language, dwell byte, st *state) {
	s.base = l.Base
	s.letters = lettersOf("ABCDFGHIJKLMPQRSTXYZ") | letter(dwell)
	s.opens, s.close = noBracket, noBracket
	switch l.Comments {
	case gen.Parentheses:
		s.opens, s.close = '(', ')'
	case gen.Semicolon:
		s.opens = ';'
	}
	s.state = st
}

// load makes raw the current line. It is used until the next call.
func (s *scanner) load(raw []byte, line int) {
	s.line, s.raw, s.i = line, raw, 0
	s.text = s.squeeze(s.text[:0], raw)
}

// squeeze appends to text what means something in a line: comments as they
// are, and the rest without white space and in capitals.
func (s *scanner) squeeze(text, raw []byte) []byte {
	opens, comment := s.opens, false
	for _, c := range raw {
		switch {
		case comment:
			comment = c != s.close
		case c == ' ' || c == '\t':
			continue
		case c == opens:
			comment = true
		case 'a' <= c && c <= 'z':
			c -= 'a' - 'A'
		}
		text = append(text, c)
	}
	return text
}

// fault returns a [Fault] at the place i of text, or behind the line when i
// is behind text.
func (s *scanner) fault(i int, format string, args ...any) error {
	// Whether a byte is kept depends on those before it only, so the byte at
	// place i ends the shortest beginning of the line that squeezes to more
	// than i bytes.
	var text []byte
	before := sort.Search(len(s.raw), func(n int) bool {
		text = s.squeeze(text[:0], s.raw[:n+1])
		return len(text) > i
	})
	return Fault{s.line, utf8.RuneCount(s.raw[:before]) + 1, fmt.Sprintf(format, args...)}
}

// have names what stands at the place i of text, for a message.
func (s *scanner) have(i int) string {
	if i >= len(s.text) {
		return "the end of the line"
	}
	r, n := utf8.DecodeRune(s.text[i:])
	if r == utf8.RuneError && n == 1 {
		return fmt.Sprintf("the byte %#x", s.text[i])
	}
	return strconv.QuoteRune(r)
}

// peek returns the next byte, 0 at the end of the line.
func (s *scanner) peek() byte {
	if s.i < len(s.text) {
		return s.text[s.i]
	}
	return 0
}

// skip passes over a literal text and reports whether it was there.
func (s *scanner) skip(text string) bool {
	if !bytes.HasPrefix(s.text[s.i:], []byte(text)) {
		return false
	}
	s.i += len(text)
	return true
}
