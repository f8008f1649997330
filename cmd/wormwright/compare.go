package main

import (
	"github.com/spf13/pflag"

	"wormwright/gen/method"
	"wormwright/posts/record"
)

var compareVerb = verb{
	name: "compare", args: "JOB", short: "Set the ways of cutting one pair side by side",
	long: `Plans the wheel of a job in every way of cutting that there is, with the job's
own numbers where it has them and usual ones where it does not, and sets time,
facets, bearing and largest chip side by side, with what each way needs and
risks, and what stands against it on the job's machine.`,
	examples: []string{"compare winch.yaml"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		asJSON := fs.Bool("json", false, "print JSON, in minutes, µm and mm³")
		return func(std stdio, args []string) error {
			l, err := loadOne(std, args)
			if err != nil {
				return err
			}
			list, err := method.Compare(l.plan.Job, l.plan.Machine, version)
			if err != nil {
				return err
			}
			c := record.OfMethods(l.plan.Job, list)
			text := c.Text()
			if *asJSON {
				text = c.JSON()
			}
			_, err = std.out.Write(text)
			return err
		}
	},
}
