package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"wormwright/gen"
)

var checkVerb = verb{
	name: "check", args: "JOB", short: "Read and judge a job",
	long: `Reads a job file and the machine file that it names and judges whether the
job can be cut. Errors go to standard error with line, column and remedy, and
the status is 1; cautions are printed.`,
	examples: []string{"check winch.yaml"},
	bind: func(*pflag.FlagSet) func(stdio, []string) error {
		return func(std stdio, args []string) error {
			l, err := loadOne(std, args)
			if err != nil {
				return err
			}
			cautions := 0
			for _, f := range l.plan.Findings {
				if f.Severity == gen.Caution {
					cautions++
					if _, err := fmt.Fprintln(std.out, l.line(f)); err != nil {
						return err
					}
				}
			}
			if err := l.verdict(); err != nil {
				return err
			}
			_, err = fmt.Fprintf(std.out, "%s: can be cut; cautions: %d\n", l.plan.Job.Title, cautions)
			return err
		}
	},
}
