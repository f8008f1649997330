package main

import (
	"github.com/spf13/pflag"

	"wormwright/posts/record"
)

var planVerb = verb{
	name: "plan", args: "JOB", short: "Print the numbers: pair, blank, hob, setup, schedule, times",
	long: `Prints the plan of a job: pair, worm, wheel, hob, setup and schedule, with
totals and cautions.`,
	examples: []string{"plan winch.yaml", "plan winch.yaml --json > plan.json"},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		asJSON := fs.Bool("json", false, "print JSON, in mm, degrees and minutes")
		return func(std stdio, args []string) error {
			l, err := loadSound(std, args)
			if err != nil {
				return err
			}
			text := record.Text(&l.plan)
			if *asJSON {
				text = record.Of(&l.plan).JSON()
			}
			_, err = std.out.Write(text)
			return err
		}
	},
}
