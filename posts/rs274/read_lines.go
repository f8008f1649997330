package rs274

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"unicode/utf8"
)

const (
	// usualLine is how many characters a line may have where the dialect
	// does not say. NISTIR 6556, 3.3, has 256, of which the reference
	// interpreter keeps three for itself.
	usualLine = 253

	// longestLine bounds what a dialect can ask for, and so the memory of a
	// Reader.
	longestLine = 4096
)

// errLong reports a line with more bytes than its characters can need.
var errLong = errors.New("line too long")

// newLines returns a scanner of the lines of r, without their line ends: LF,
// CR, or CR and LF (NISTIR 6556, 3.3). It stops with errLong before it takes
// in a line that must have more than limit characters.
func newLines(r io.Reader, limit int) *bufio.Scanner {
	longest := limit * utf8.UTFMax
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 64<<10), 64<<10) // above longest, so that bufio.ErrTooLong cannot happen
	lines.Split(func(data []byte, atEOF bool) (advance int, token []byte, err error) {
		// A longer look would cost a file of CRs the square of its length.
		end := bytes.IndexByte(data[:min(len(data), longest+1)], '\n')
		if end < 0 {
			end = min(len(data), longest+1)
		}
		if cr := bytes.IndexByte(data[:end], '\r'); cr >= 0 {
			switch {
			case cr+1 == len(data) && !atEOF:
				return 0, nil, nil // an LF may follow
			case cr+1 < len(data) && data[cr+1] == '\n':
				return cr + 2, data[:cr], nil
			}
			return cr + 1, data[:cr], nil
		}
		switch {
		case end > longest:
			return 0, nil, errLong
		case end < len(data):
			return end + 1, data[:end], nil
		case atEOF && len(data) > 0:
			return len(data), data, nil
		}
		return 0, nil, nil
	})
	return lines
}
