package main

import (
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"wormwright/gen/job"
)

var schemaVerb = verb{
	name: "schema", args: "[job|machine|lathe]", short: "Print the schema of a file, for editors",
	long: `Prints the JSON Schema (draft 2020-12) of a job, machine or lathe file, a job
by default. An editor that takes such schemas for YAML completes keys and
words by it, underlines faults and tells at each key what to measure and how.
Editors take the schema of a file from a setting, or from a comment at its
head. A schema does no arithmetic: whether a job can be cut is for check to say.`,
	examples: []string{"schema job > job.schema.json"},
	bind: func(*pflag.FlagSet) func(stdio, []string) error {
		return func(std stdio, args []string) error {
			kind := "job"
			switch {
			case len(args) > 1:
				return usageError(fmt.Sprintf("want one kind of file, have %d", len(args)))
			case len(args) == 1:
				kind = args[0]
			}
			if !slices.Contains(job.Kinds(), kind) {
				return usageError(fmt.Sprintf("want %s, have %q", alternatives(job.Kinds()), kind))
			}
			text, err := job.Schema(kind)
			if err != nil {
				return err
			}
			_, err = std.out.Write(text)
			return err
		}
	},
}
