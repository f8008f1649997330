package card

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"wormwright/gen"
)

// Read reads a feed card in CSV back as the blocks that its rows are at the
// machine of a plan, with the plan's own speed, from clear of the blank to
// clear of it again: a ramp of an eighth of a work turn to each reading and
// then the turns of work to wait, or for a travel or a continuous infeed a
// steady way to the reading in those turns. A gash card plunges to the reading
// with the work at the degrees of the row. The lines of the blocks are those
// of the file.
func Read(in io.Reader, p *gen.Plan) gen.Program {
	c := newCrank(p)
	line, err := c.rows(in)
	if err != nil {
		return gen.Program{Blocks: c.blocks, Fault: &gen.Finding{
			Severity: gen.Error, Line: line, What: err.Error(), Remedy: "mend the line",
		}}
	}
	if p.Job.Cut.Feed != gen.Gash { // which has withdrawn after every row
		c.withdraw(line)
	}
	return gen.Program{Blocks: c.blocks}
}

// rows follows the card row by row and returns the last line.
func (c *crank) rows(in io.Reader) (line int, err error) {
	r := csv.NewReader(in)
	head, err := r.Read()
	if err != nil {
		return 1, fault(err)
	}
	columns := map[string]int{}
	for i, name := range head {
		if _, twice := columns[name]; twice {
			return 1, fmt.Errorf("want one column %s, have two", name)
		}
		columns[name] = i
	}
	second, gashes := "work_turns", c.plan.Job.Cut.Feed == gen.Gash
	if gashes {
		second = "work_degrees"
	}
	for _, name := range [...]string{"reading", second} {
		if _, ok := columns[name]; !ok {
			return 1, fmt.Errorf("want a column %s", name)
		}
	}
	if !gashes {
		c.begin()
	}
	for line = 1; ; {
		row, err := r.Read()
		if err == io.EOF {
			return line, nil
		}
		if err != nil {
			var at *csv.ParseError
			if errors.As(err, &at) {
				line = at.Line
			}
			return line, fault(err)
		}
		line, _ = r.FieldPos(0)
		reading, err := number(row[columns["reading"]], "reading")
		if err != nil {
			return line, err
		}
		turns, err := number(row[columns[second]], second)
		if err != nil {
			return line, err
		}
		if gashes {
			c.gash(line, turns, reading)
			continue
		}
		if !(turns >= 0 && turns <= 1e6) {
			return line, fmt.Errorf("work_turns: want from 0 to 1000000, have %g", turns)
		}
		stage := ""
		if i, ok := columns["stage"]; ok {
			stage = row[i]
		}
		c.row(line, stage, reading, turns)
	}
}

// fault words an error of the CSV reader without its position.
func fault(err error) error {
	var at *csv.ParseError
	if errors.As(err, &at) {
		return at.Err
	}
	if err == io.EOF {
		return errors.New("want a card, have an empty file")
	}
	return err
}

// number reads a plain decimal of a column.
func number(text, column string) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || strings.ContainsAny(text, "xXpP_") || !(math.Abs(x) < 1e9) {
		return 0, fmt.Errorf("%s: want a number, have %q", column, text)
	}
	return x, nil
}
