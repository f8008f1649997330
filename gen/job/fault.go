package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Place is where a key stands in a file, from 1; Col counts characters.
type Place struct {
	File      string
	Line, Col int
}

func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Compare orders places by file, line and column.
func (p Place) Compare(q Place) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// A Fault is one thing wrong with a file, at the place where it was written.
type Fault struct {
	Place
	Path string // "pair.module"; empty for the file as a whole
	Msg  string
}

func (f Fault) Error() string {
	if f.Path == "" {
		return fmt.Sprintf("%s: %s", f.Place, f.Msg)
	}
	return fmt.Sprintf("%s: %s: %s", f.Place, f.Path, f.Msg)
}

// Faults are all faults of one file, sorted by place.
type Faults []Fault

// mostFaults is how many faults of a file are told; the rest are counted.
const mostFaults = 20

// Error lists the first faults, one a line, and counts the others.
func (f Faults) Error() string {
	var b strings.Builder
	for i, one := range f {
		if i == mostFaults {
			fmt.Fprintf(&b, "\nand %d more", len(f)-i)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(one.Error())
	}
	return b.String()
}

func (f Faults) sort() {
	slices.SortStableFunc(f, func(a, b Fault) int {
		return a.Place.Compare(b.Place)
	})
}

// nearest returns the known word that is most like word, or "" where none is
// like enough to be meant.
func nearest(word string, known []string) string {
	best, bestAt := "", max(2, len(word)/3)+1
	for _, k := range known {
		if d := distance(word, k); d < bestAt {
			best, bestAt = k, d
		}
	}
	return best
}

// distance is the least number of letters to put in, take out or change to
// make b of a (Levenshtein), with words cut to 64 bytes.
func distance(a, b string) int {
	a, b = a[:min(len(a), 64)], b[:min(len(b), 64)]
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
