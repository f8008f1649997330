package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"wormwright/gen/index"
	"wormwright/posts/record"
)

var indexVerb = verb{
	name: "index", args: "TEETH", short: "Divide a circle on a dividing head",
	long: `Finds how far the crank of a dividing head is turned for each tooth: by a
single move over one circle of holes, else by two moves over two circles of a
plate, by a plate that is geared to the work, or by the nearest move, with the
error of every tooth. Circles stand between commas, plates between strokes:
--plates 15,16,17,18,19,20/21,23,27,29,31,33`,
	examples: []string{"index 127 --plates 37,39,41,43,47,49"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		var o indexOptions
		fs.IntVar(&o.turns, "head", 40, "`TURNS` of the crank for one turn of the work")
		fs.StringVar(&o.plates, "plates", "", "`CIRCLES` of holes, plates between strokes")
		fs.StringVar(&o.gears, "gears", "", "`TEETH` of the gears between work and plate")
		fs.StringVar(&o.radius, "radius", "", "also tell errors as arcs at this `RADIUS` in mm")
		fs.BoolVar(&o.json, "json", false, "print JSON")
		return func(std stdio, args []string) error { return divide(std, args, o) }
	},
}

type indexOptions struct {
	turns                 int
	plates, gears, radius string
	json                  bool
}

func divide(std stdio, args []string, o indexOptions) error {
	if len(args) != 1 {
		return usageError(fmt.Sprintf("want one number of TEETH, have %d", len(args)))
	}
	teeth, err := strconv.Atoi(args[0])
	if err != nil {
		return usageError(fmt.Sprintf("want a whole number of TEETH, have %q", args[0]))
	}
	head := index.Head{Turns: o.turns}
	if o.plates != "" {
		for plate := range strings.SplitSeq(o.plates, "/") {
			circles, err := parseGears(plate)
			if err != nil {
				return usageError(fmt.Sprintf("--plates: want circles between commas and plates between strokes, have %q", o.plates))
			}
			head.Plates = append(head.Plates, circles)
		}
	}
	if o.gears != "" {
		if head.Gears, err = parseGears(o.gears); err != nil {
			return err
		}
	}
	d := record.Division{Head: head, Teeth: teeth}
	if o.radius != "" {
		list, err := numberList(o.radius, "radius")
		if err != nil || len(list) != 1 || !(list[0] > 0) {
			return usageError(fmt.Sprintf("--radius: want a length in mm above 0, have %q", o.radius))
		}
		d.Radius = list[0]
	}
	if d.Settings, err = index.Find(head, teeth); err != nil {
		return usageError(err.Error())
	}
	text := d.Text()
	if o.json {
		text = d.JSON()
	}
	_, err = std.out.Write(text)
	return err
}
