package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"wormwright/gen/job"
)

var newVerb = verb{
	name: "new", args: "", short: "Print a file to start from: job, machine or lathe",
	long: `Prints a job file to start from, with a word on each key: what to measure and
how, and which keys may be left out. Its figures are those of a ferry winch;
put your own in their place and check the file. With --kind it prints a
machine file or a lathe file, which are written once, the machine such that it
can cut by the feed.`,
	examples: []string{
		"new --kind machine > mill.yaml",
		"new --kind lathe > lathe.yaml",
		"new --machine mill.yaml --lathe lathe.yaml > winch.yaml",
	},
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		kind := choose(fs, "kind", "`KIND` of file: "+alternatives(job.Kinds()), job.Kinds()...)
		feed := choose(fs, "feed", "`FEED` by which the wheel is cut: "+alternatives(job.StarterFeeds()), job.StarterFeeds()...)
		units := choose(fs, "units", "`UNITS` of the file: mm or in", "mm", "in")
		machine := fs.String("machine", "machine.yaml", "name the machine `FILE` in the job")
		lathe := fs.String("lathe", "", "name the lathe `FILE` in the job")
		return func(std stdio, args []string) error {
			if len(args) > 0 {
				return usageError(fmt.Sprintf("want no arguments, have %d", len(args)))
			}
			for _, name := range []string{"machine", "lathe"} {
				if *kind != "job" && fs.Changed(name) {
					return usageError(fmt.Sprintf("--%s goes with a job, not with a %s", name, *kind))
				}
			}
			if *kind == "lathe" && fs.Changed("feed") {
				return usageError("--feed goes with a job or a machine, not with a lathe")
			}
			text, err := job.Starter(*kind, job.StarterOptions{Feed: *feed, Units: *units, Machine: *machine, Lathe: *lathe})
			if err != nil {
				return usageError(err.Error())
			}
			_, err = std.out.Write(text)
			return err
		}
	},
}
