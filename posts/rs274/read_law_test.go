package rs274

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/iotest"
	"unicode"

	"github.com/256dpi/gcode"
	"pgregory.net/rapid"
)

// decimal draws a number as a program writes it.
func decimal() *rapid.Generator[string] {
	return rapid.StringMatching(`-?[0-9]{1,5}(\.[0-9]{1,6})?`)
}

// dressed draws another way to write a line that means the same: other case,
// white space anywhere, zeros before a number, words in another order, a line
// number and a comment.
func dressed(t *rapid.T, words []string) string {
	var b strings.Builder
	if rapid.Bool().Draw(t, "numbered") {
		fmt.Fprintf(&b, "n %d", rapid.IntRange(0, 99999).Draw(t, "number"))
	}
	for _, w := range rapid.Permutation(words).Draw(t, "order") {
		number := w[1:]
		sign := ""
		if number[0] == '-' {
			sign, number = "-", number[1:]
		} else if rapid.Bool().Draw(t, "plus") {
			sign = "+"
		}
		zeros := strings.Repeat("0", rapid.IntRange(0, 3).Draw(t, "zeros"))
		for _, c := range w[:1] + sign + zeros + number {
			if rapid.Bool().Draw(t, "case") {
				c = unicode.ToLower(c)
			}
			b.WriteString(rapid.SampledFrom([]string{"", "", "", " ", "\t"}).Draw(t, "space"))
			b.WriteRune(c)
		}
		if rapid.IntRange(0, 4).Draw(t, "comment") == 0 {
			b.WriteString(" (observatory clock)")
		}
	}
	return b.String()
}

// Positions that a program of G1 lines gives are read back as they stand,
// whatever the dress of its lines.
func TestPositionsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var want [][6]float64
		var pos [6]float64
		lines := []string{"G94 F100"}
		for range rapid.IntRange(1, 8).Draw(t, "lines") {
			words := []string{"G1"}
			for i := range axes {
				if i == 0 || rapid.Bool().Draw(t, "axis") {
					d := decimal().Draw(t, "position")
					words = append(words, axes[i:i+1]+d)
					p, err := strconv.ParseFloat(d, 64)
					if err != nil {
						t.Fatal(err)
					}
					pos[i] = p
				}
			}
			lines = append(lines, dressed(t, words))
			want = append(want, pos)
		}
		program := strings.Join(lines, "\n") + "\nM2\n"
		events, err := readAll(program, Options{})
		if err != nil {
			t.Fatalf("%s%v", program, err)
		}
		if len(events) != len(want)+1 {
			t.Fatalf("%s%d events, want %d", program, len(events), len(want)+1)
		}
		for i, w := range want {
			if e := events[i]; e.At != w || e.Machine != w || e.Line != i+2 {
				t.Fatalf("%sline %d at %v, want line %d at %v", program, e.Line, e.At, i+2, w)
			}
		}
	})
}

// A program in inches does what one in millimetres does whose lengths are
// 25.4 times as large.
func TestInchesAreMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inch, mm := "G20 G93\n", "G21 G93\n"
		for range rapid.IntRange(1, 5).Draw(t, "lines") {
			g := rapid.SampledFrom([]string{"G0", "G1", "G91 G1", "G92", "G10 L2 P1"}).Draw(t, "code")
			x := rapid.IntRange(-9999, 9999).Draw(t, "X")
			c := rapid.IntRange(-9999, 9999).Draw(t, "C")
			inch += fmt.Sprintf("%s X%d C%d F2\nG90\n", g, x, c)
			mm += fmt.Sprintf("%s X[%d*25.4] C%d F2\nG90\n", g, x, c)
		}
		a, errA := readAll(inch+"M2\n", Options{})
		b, errB := readAll(mm+"M2\n", Options{})
		if errA != nil || errB != nil {
			t.Fatalf("%s%v\n%s%v", inch, errA, mm, errB)
		}
		for i := range a {
			if a[i].Machine != b[i].Machine || a[i].At != b[i].At || a[i].Seconds != b[i].Seconds {
				t.Fatalf("%sline %d: %v, %sgives %v", inch, a[i].Line, a[i].Machine, mm, b[i].Machine)
			}
		}
	})
}

// How the text arrives makes no difference.
func TestReadInPieces(t *testing.T) {
	for _, end := range []string{"\n", "\r\n", "\r"} {
		program := strings.ReplaceAll(string(hoistProgram(300)), "\n", end)
		want, err := readAll(program, Options{})
		if err != nil {
			t.Fatal(err)
		}
		r := NewReader(iotest.OneByteReader(strings.NewReader(program)), Options{})
		var got []Event
		for {
			e, err := r.Next()
			if err != nil {
				break
			}
			got = append(got, e)
		}
		if !slices.Equal(got, want) {
			t.Errorf("lines that end in %q, read byte by byte: %d events other than the %d read at once", end, len(got), len(want))
		}
	}
}

// The words that an independent splitter finds in simple programs lead where
// the events say.
func TestAgainstAnotherSplitter(t *testing.T) {
	programs := []string{
		string(hoistProgram(200)),
		"G21\nG0 X10 Y-4.25 Z2\n(lift)\nG1 Z-1.5 F80\nC90 A3600.125\nX0 (home) Y0\nM2\n",
	}
	for _, program := range programs {
		file, err := gcode.ParseFile(strings.NewReader(program))
		if err != nil {
			t.Fatal(err)
		}
		var pos [6]float64
		want := map[int][6]float64{} // by line
		for n, line := range file.Lines {
			for _, c := range line.Codes {
				if i := strings.Index(axes, c.Letter); c.Comment == "" && i >= 0 {
					pos[i] = c.Value
					want[n+1] = pos
				}
			}
		}
		events, err := readAll(program, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range events {
			if e.Kind == End {
				continue
			}
			if w, ok := want[e.Line]; !ok || e.At != w {
				t.Errorf("line %d: at %v, the splitter has %v", e.Line, e.At, w)
			}
			delete(want, e.Line)
		}
		if len(want) != 0 {
			t.Errorf("%d lines of words that no event stands for: %v", len(want), want)
		}
	}
}
