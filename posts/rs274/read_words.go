package rs274

import (
	"unicode"
	"unicode/utf8"
)

// parse reads the current line into b.
func (s *scanner) parse(b *block) error {
	b.reset()
	if s.peek() == '/' {
		b.deleted = true
		s.i++
	}
	if s.peek() == 'N' {
		if err := s.lineNumber(); err != nil {
			return err
		}
	}
	for s.i < len(s.text) {
		var err error
		switch c := s.text[s.i]; {
		case 'A' <= c && c <= 'Z':
			err = s.word(b)
		case c == s.opens:
			err = s.comment(b)
		case c == '#':
			err = s.setting(b)
		default:
			err = s.stray()
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// lineNumber reads N and up to five digits, which mean nothing more
// (NISTIR 6556, 3.3.1).
func (s *scanner) lineNumber() error {
	n := s.i
	s.i++
	for c := s.peek(); '0' <= c && c <= '9'; c = s.peek() {
		s.i++
	}
	switch digits := s.i - n - 1; {
	case digits == 0:
		return s.fault(s.i, "want digits after N, have %s", s.have(s.i))
	case digits > 5:
		return s.fault(n, "line number too large, want at most five digits, have %d", digits)
	}
	return nil
}

// word reads a letter and its value.
func (s *scanner) word(b *block) error {
	at, c := s.i, s.text[s.i]
	switch {
	case c == 'N':
		return s.fault(at, "N may stand only at the start of a line, behind the / of block delete")
	case !s.letters.has(c):
		return s.fault(at, "no word begins with %c", c)
	}
	s.i++
	v, err := s.value()
	if err != nil {
		return err
	}
	switch c {
	case 'G':
		return s.gWord(b, at, v)
	case 'M':
		return s.mWord(b, at, v)
	case 'F', 'S':
		if v < 0 {
			return s.fault(at, "%c below 0", c)
		}
	case 'T', 'L':
		if n, ok := whole(v); !ok || n < 0 {
			return s.fault(at, "want a whole number from 0 with %c, have %v", c, v)
		}
	}
	if b.words.has(c) {
		return s.fault(at, "a second %c word on the line", c)
	}
	b.words |= letter(c)
	b.value[c-'A'] = v
	b.place[c-'A'] = at
	return nil
}

// gWord takes down a G code that stands at the place at.
func (s *scanner) gWord(b *block, at int, v float64) error {
	n, ok := whole(v * 10)
	if !ok || n < 0 || n >= 1000 {
		return s.fault(at, "no G code has the number %v", v)
	}
	c := code(n)
	if use := unused(c); use != "" {
		return s.fault(at, "%s is %s, which cutting gears has no use for", gName(c), use)
	}
	g := gGroup(c)
	if g == unknownGroup || foreign(c, s.base) {
		return s.fault(at, "%s is not read in %s", gName(c), languageName(s.base))
	}
	if other, ok := b.code(g); ok {
		return s.fault(at, "%s and %s on one line, both of the %s group", gName(other), gName(c), g)
	}
	b.hold(g, c, at)
	return nil
}

// mostM is how many M words a line may have (NISTIR 6556, 3.3).
const mostM = 4

// mWord takes down an M code that stands at the place at.
func (s *scanner) mWord(b *block, at int, v float64) error {
	n, ok := whole(v)
	if !ok || n < 0 || n > 99 {
		return s.fault(at, "no M code has the number %v", v)
	}
	c := code(n)
	g := mGroup(c)
	if g == unknownGroup {
		return s.fault(at, "M%d is not read in %s", c, languageName(s.base))
	}
	if other, ok := b.code(g); ok {
		return s.fault(at, "M%d and M%d on one line, both of the %s group", other, c, g)
	}
	b.hold(g, c, at)
	if b.mCodes() > mostM {
		return s.fault(at, "more than %d M words on the line", mostM)
	}
	return nil
}

// setting reads "#n=value". The value counts from the next line on.
func (s *scanner) setting(b *block) error {
	at := s.i
	s.i++
	n, err := s.parameterNumber(at)
	if err != nil {
		return err
	}
	if s.peek() != '=' {
		return s.fault(s.i, "want = after the number of a parameter, have %s", s.have(s.i))
	}
	s.i++
	v, err := s.value()
	if err != nil {
		return err
	}
	if v = s.state.stored(n, v); !finite(v) {
		return s.fault(at, "number too large")
	}
	b.settings = append(b.settings, setting{n, v})
	return nil
}

// comment reads a comment or a message (NISTIR 6556, 3.3.4 and 3.3.5). It may
// hold any characters that print, spaces and tabs.
func (s *scanner) comment(b *block) error {
	at := s.i
	s.i++
	b.commentBegin = s.i
	for s.i < len(s.text) && s.text[s.i] != s.close {
		r, n := utf8.DecodeRune(s.text[s.i:])
		switch {
		case s.close != noBracket && r == rune(s.opens):
			return s.fault(s.i, "a comment inside a comment")
		case r == utf8.RuneError && n == 1, r != '\t' && !unicode.IsPrint(r):
			return s.fault(s.i, "a comment may hold only characters that print, have %s", s.have(s.i))
		}
		s.i += n
	}
	b.commentEnd = s.i
	if s.close != noBracket {
		if s.i == len(s.text) {
			return s.fault(at, "the comment is not closed on its line")
		}
		s.i++
	}
	return nil
}

// stray reports a character that begins nothing.
func (s *scanner) stray() error {
	switch c := s.text[s.i]; {
	case c == '/':
		return s.fault(s.i, "the / of block delete may stand only first in a line")
	case c == '%':
		return s.fault(s.i, "%% may stand only on the first line that is not blank and, to close the program, alone on a line")
	case c == ')' && s.opens == '(':
		return s.fault(s.i, "this ) closes no comment")
	case c == '(' || c == ';':
		return s.fault(s.i, "the dialect has no comments that begin with %c", c)
	}
	return s.fault(s.i, "want a word, have %s", s.have(s.i))
}
