package card

import (
	"fmt"

	"wormwright/gen"
	"wormwright/gen/lathe"
)

// Worm returns the card for cutting the worm on the lathe: blank, tool,
// speed and starts above, a row for every pass, measurement below. The worm
// must be free of errors.
func Worm(w lathe.Worm) Table {
	p := w.Plan
	c := thread{Cutting: w.Cutting, plan: p, l: w.Lathe, u: p.Job.Units}
	t := Table{
		Title: p.Job.Title + ": worm card",
		Head: []string{
			fmt.Sprintf("wormwright %s, digest %s. %s.", p.Version, w.Digest, w.Lathe.Title),
			fmt.Sprintf("Worm of %s, %s hand, form %s, module %s mm; lead %s, lead angle %s, pressure angle %s axial and %s normal.",
				starts(p.Pair.Starts), p.Pair.Hand, w.Thread.Form, gen.Fixed(p.Pair.Module, 4), lead(c.u, w.Lead()),
				degrees(w.Thread.LeadAngle()), degrees(w.Thread.Pressure), degrees(w.Thread.NormalPressure())),
			"Date: ____________ Cut by: ____________",
			"",
			c.blank(),
			fmt.Sprintf("Outside as measured: ____________ Where it is not %s, the last depth changes by half the difference.", c.u.Length(w.Blank.Outside)),
		},
	}
	t.Head = append(t.Head, c.tools()...)
	t.Head = append(t.Head, c.gears()...)
	t.Head = append(t.Head, c.running()...)
	t.Head = append(t.Head, c.starts()...)
	t.Head = append(t.Head, "", c.readings())
	if w.Programmed() {
		t.Head = append(t.Head, "The program does this; the card is for following it.")
	}
	t.Columns, t.Rows = c.passes()
	t.Foot = append(t.Foot, c.depth())
	t.Foot = append(t.Foot, c.measure()...)
	t.Foot = append(t.Foot, "", again, "")
	t.Foot = append(t.Foot, c.warnings()...)
	return t
}

// lead formats a lead with two decimals more than a length: it adds up over
// the thread.
func lead(u gen.Unit, mm float64) string {
	return gen.Fixed(mm/u.Millimetres(), u.Decimals()+2) + " " + u.String()
}
