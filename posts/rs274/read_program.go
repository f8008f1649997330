package rs274

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"wormwright/gen"
)

// Read reads a whole program for a machine whose axes stand at start, mm and
// degrees, before its first line. What cannot be read ends it as its Fault.
func Read(text []byte, l gen.Language, start [6]float64) gen.Program {
	var p gen.Program
	r := NewReader(bytes.NewReader(text), Options{Language: l, Remarks: true, Start: start})
	at := start
	for {
		e, err := r.Next()
		var fault Fault
		switch {
		case err == io.EOF:
			return p
		case errors.As(err, &fault):
			p.Fault = &gen.Finding{Severity: gen.Error, Line: fault.Line, What: fmt.Sprintf("column %d: %s", fault.Col, fault.Msg), Remedy: "mend the line"}
			return p
		case err != nil:
			p.Fault = &gen.Finding{Severity: gen.Error, What: err.Error(), Remedy: "give a program that can be read"}
			return p
		}
		if e.Kind == Remark {
			remark(&p, e.Text, text)
			continue
		}
		p.Blocks = appendBlocks(p.Blocks, l, e, at)
		at = e.Machine
	}
}

// appendBlocks appends what an event is to the axes. An arc becomes chords.
func appendBlocks(blocks []gen.Block, l gen.Language, e Event, from [6]float64) []gen.Block {
	b := gen.Block{Line: e.Line, Axes: e.Machine, Seconds: e.Seconds, Speed: e.Speed * float64(e.Direction)}
	switch e.Kind {
	case Rapid:
		b.Rapid = true
	case Feed, Thread:
		b.PerTurn = e.FeedMode == PerTurn || e.Kind == Thread
	case Arc:
		b.PerTurn = e.FeedMode == PerTurn
		const chord = 2 // degrees
		n := max(1, int(math.Ceil(math.Abs(e.Sweep)/chord)))
		b.Seconds /= float64(n)
		for i := 1; i <= n; i++ {
			b.Axes = e.Point(from, float64(i)/float64(n))
			blocks = append(blocks, b)
		}
		return blocks
	case Dwell:
		b.Act, b.PerTurn = gen.Wait, l.DwellUnit == gen.Revolutions
	case Spindle:
		b.Act = gen.Turn
	case Stop:
		b.Act = gen.Pause
	case End:
		b.Act = gen.Finished
	default:
		return blocks
	}
	return append(blocks, b)
}

// remark looks into a comment for what our own writer leaves there: the
// digest of the plan, what was cut before, and the sum of the text before.
func remark(p *gen.Program, comment string, text []byte) {
	if _, rest, ok := strings.Cut(comment, ", digest "); ok && p.Digest == "" {
		p.Digest, _, _ = strings.Cut(rest, ".")
	}
	if rest, ok := strings.CutPrefix(strings.TrimSpace(comment), "Begun: "); ok && p.Begun == (gen.Begun{}) {
		p.Begun = begun(rest)
	}
	if want, ok := strings.CutPrefix(strings.TrimSpace(comment), "sum "); ok {
		i := bytes.LastIndex(text, []byte("sum "+want))
		if i >= 0 {
			i = bytes.LastIndexByte(text[:i], '\n') + 1
			p.Edited = sum(text[:i]) != want
		}
	}
}

// begun reads what was cut before, zero where the text does not say it.
func begun(text string) gen.Begun {
	if step, ok := strings.CutPrefix(text, "step "); ok {
		if n, err := strconv.Atoi(step); err == nil {
			return gen.Begun{Step: n}
		}
		return gen.Begun{}
	}
	depth, to, _ := strings.Cut(strings.TrimSuffix(text, " mm"), " to ")
	d, err1 := strconv.ParseFloat(depth, 64)
	t, err2 := strconv.ParseFloat(to, 64)
	if err1 != nil || err2 != nil {
		return gen.Begun{}
	}
	return gen.Begun{Depth: d, To: t}
}
