package card

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"wormwright/gen"
)

// Begun tells what a feed card in CSV takes to be cut already: it then opens
// with a row of the stage enter, and goes on with the first step that is left,
// or with step 1 of a trim between the readings of the first and the last row.
// It is zero for a card of a whole wheel, and where the card is in doubt.
func Begun(in io.Reader, p *gen.Plan) gen.Begun {
	rows, err := csv.NewReader(in).ReadAll()
	if err != nil || len(rows) < 3 {
		return gen.Begun{}
	}
	cell := func(row []string, name string) string {
		for i, column := range rows[0] {
			if column == name {
				return row[i]
			}
		}
		return ""
	}
	if cell(rows[1], "stage") != gen.Enter.String() {
		return gen.Begun{}
	}
	step, err := strconv.Atoi(cell(rows[2], "step"))
	if err != nil {
		return gen.Begun{}
	}
	if step != 1 {
		return gen.Begun{Step: step}
	}
	slide := p.Machine.Radial
	depth := func(row []string) float64 {
		x, err := number(cell(row, "reading"), "reading")
		if err != nil {
			return math.NaN() // no depth that a plan takes
		}
		return -slide.Sign * x * slide.Dial.Unit.Millimetres()
	}
	return gen.Begun{Depth: depth(rows[1]), To: depth(rows[len(rows)-1])}
}
