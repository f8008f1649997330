package rs274

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/posts"
)

// A writer lays out one program.
type writer struct {
	plan *gen.Plan
	lang gen.Language
	step int // of line numbers, 0 for none

	out    bytes.Buffer
	number int        // of the last numbered line
	modes  [2]string  // distance-free modes last written: motion, feed
	feed   string     // feed word last written
	words  [5]string  // last word of radial, tangential, axial, hob, work
	zero   [2]float64 // degrees of hob and work at which their words were last set to zero
}

// The places of writer.words, those of the slides in the order of [gen.Way].
const (
	radialWord = iota
	tangentialWord
	axialWord
	hobWord
	workWord
)

func newWriter(p *gen.Plan) *writer {
	w := &writer{plan: p, lang: p.Machine.Language}
	if w.lang.LineNumbers {
		w.step = 10
	}
	if w.lang.Marks {
		w.out.WriteString("%\n")
	}
	return w
}

// line writes one line of words. Codes of plain ISO 6983-1 have two digits.
func (w *writer) line(words ...string) {
	if w.lang.Base == gen.ISO {
		for i, word := range words {
			if len(word) == 2 && (word[0] == 'G' || word[0] == 'M') {
				words[i] = word[:1] + "0" + word[1:]
			}
		}
	}
	text := strings.Join(words, " ")
	if w.step > 0 {
		w.number += w.step
		if w.number > 99999 { // five digits, NISTIR 6556, 3.3.1
			w.number = w.step
		}
		text = fmt.Sprintf("N%d %s", w.number, text)
	}
	w.out.WriteString(text + "\n")
}

// comment writes a remark, on as many lines as it takes. Lines after the
// first are set in, so that a paragraph stays one to the eye.
func (w *writer) comment(format string, args ...any) {
	open, shut := "(", ")"
	switch w.lang.Comments {
	case gen.Semicolon:
		open, shut = "; ", ""
	case gen.NoComments:
		return
	}
	for i, line := range posts.Wrap(clean(fmt.Sprintf(format, args...)), w.lang.LineLength-len(open)-len(shut)-2) {
		if i > 0 {
			line = "  " + line
		}
		w.out.WriteString(open + line + shut + "\n")
	}
}

// opening writes who the program is for, and the cautions.
func (w *writer) opening(what string) {
	p := w.plan
	w.comment("Job: %s", p.Job.Title)
	w.comment("%s", what)
	w.comment("wormwright %s, digest %s. The card of the same digest belongs to it.", p.Version, p.Digest)
	switch b := p.Begun; {
	case b.Step > 0:
		w.comment("Begun: step %d", b.Step)
	case b != gen.Begun{}:
		w.comment("Begun: %s to %s mm", gen.Fixed(b.Depth, begunDecimals), gen.Fixed(b.To, begunDecimals))
	}
	w.comment("Machine: %s", p.Machine.Title)
	w.comment("CAUTIONS")
	for _, caution := range p.Cautions() {
		w.comment("%s", caution)
	}
}

// begunDecimals are those of the depths of a begun wheel in a remark, in mm.
const begunDecimals = 6

// modesLine states every mode that the program relies on.
func (w *writer) modesLine() {
	mm, in := "G21", "G20"
	words := []string{"G17", "", "G90", "G94", "G40"}
	if w.lang.Base == gen.ISO {
		mm, in = "G71", "G70"
	} else {
		words = append(words, "G49", "G61")
	}
	words[1] = mm
	if w.lang.Units == gen.Inch {
		words[1] = in
	}
	w.modes = [2]string{"", "G94"}
	w.line(words...)
}

// close ends the program with the sum of its text and returns it.
func (w *writer) close() []byte {
	w.comment("sum %s", sum(w.out.Bytes()))
	w.line(w.lang.End)
	if w.lang.Marks {
		w.out.WriteString("%\n")
	}
	return w.out.Bytes()
}

// sum is eight hex digits over all that stands before the sum itself, by
// which a program shows that it was edited since it was written.
func sum(text []byte) string {
	h := sha256.Sum256(text)
	return hex.EncodeToString(h[:4])
}

// coord formats a length in mm as the number of a word.
func (w *writer) coord(mm float64) string {
	return gen.Fixed(mm/w.lang.Units.Millimetres(), w.lang.LengthDecimals)
}

// rate formats a feed with five significant figures and at least the
// decimals of a length. It is never 0.
func (w *writer) rate(x float64) string {
	decimals := max(w.lang.LengthDecimals, 4-int(math.Floor(math.Log10(x))))
	return "F" + gen.Fixed(x, min(decimals, 9))
}

// changed returns the word if it differs from the last of its axis, and
// remembers it. A repeated word could turn a rotary move into a linear one.
func (w *writer) changed(axis int, letter, number string) []string {
	word := letter + number
	if letter == "" || w.words[axis] == word {
		return nil
	}
	w.words[axis] = word
	return []string{word}
}

// place returns the words of the slides that change on the way to a place.
func (w *writer) place(to gen.Place) []string { return append(w.radial(to), w.along(to)...) }

// radial returns the word of the radial slide, which counts from first
// touch, if it changes.
func (w *writer) radial(to gen.Place) []string {
	s := w.plan.Machine.Radial
	return w.changed(radialWord, s.Letter, w.coord(s.Sign*(to.Distance-w.plan.Cycle.Touch)))
}

// along returns the word of the slide that feeds, which counts from the
// wheel's middle, if that is not the radial one and it changes.
func (w *writer) along(to gen.Place) []string {
	way := w.plan.Job.Cut.Feed.Way()
	if way == gen.Radially {
		return nil
	}
	s := w.plan.Machine.Slide(way)
	return w.changed(radialWord+int(way), s.Letter, w.coord(s.Sign**to.Along(way)))
}

// motion returns the words of modes that are not yet in force.
func (w *writer) motion(motion, feed string) []string {
	var words []string
	for i, mode := range [...]string{feed, motion} {
		at := 1 - i
		if mode != "" && w.modes[at] != mode {
			words = append(words, mode)
			w.modes[at] = mode
			if at == 1 {
				w.feed = "" // a new feed mode wants its feed again
			}
		}
	}
	return words
}

// rapid moves the axes of words without cutting.
func (w *writer) rapid(words []string) {
	if len(words) > 0 {
		w.line(append(w.motion("G0", ""), words...)...)
	}
}

// dwell waits for seconds, in which the hob makes so many turns, in as many
// blocks as the dialect's largest dwell asks for.
func (w *writer) dwell(seconds, hobTurns float64) {
	parts := 1
	if most := w.lang.LargestDwell; most > 0 {
		parts = int(math.Ceil(seconds/most - 1e-9))
	}
	for range parts {
		var number string
		switch w.lang.DwellUnit {
		case gen.Milliseconds:
			number = gen.Fixed(math.Ceil(seconds/float64(parts)*1000-1e-6), 0)
		case gen.Revolutions:
			number = gen.Fixed(math.Ceil(hobTurns/float64(parts)*100-1e-6)/100, 2)
		default:
			number = gen.Fixed(math.Ceil(seconds/float64(parts)*100-1e-6)/100, 2)
		}
		w.line("G4", w.lang.DwellWord+number)
	}
	if w.lang.DwellWord == "F" {
		w.feed = "" // a control may keep the dwell's F as a feed
	}
}

// clean makes a text fit to stand in a remark: printable ASCII without
// parentheses.
func clean(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '(':
			b.WriteByte('[')
		case r == ')':
			b.WriteByte(']')
		case r == ';':
			b.WriteByte(',')
		case r >= ' ' && r <= '~':
			b.WriteRune(r)
		case spelled[r] != "":
			b.WriteString(spelled[r])
		case r == '\n' || r == '\r' || r == '\t':
			b.WriteByte(' ')
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

// spelled is how letters outside ASCII that our own texts use are spelled.
var spelled = map[rune]string{
	'°': " deg", 'µ': "u", 'μ': "u", '−': "-", '–': "-", '—': "-", '·': "*", '×': "x", '²': "2", '³': "3",
	'π': "pi", 'α': "alpha", 'γ': "gamma", 'δ': "delta", '’': "'", '“': `"`, '”': `"`,
	'ä': "ae", 'ö': "oe", 'ü': "ue", 'ß': "ss", 'é': "e", 'è': "e", 'à': "a", 'ç': "c", 'ñ': "n",
	'Ä': "Ae", 'Ö': "Oe", 'Ü': "Ue",
}
