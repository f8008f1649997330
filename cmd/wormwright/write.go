package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"wormwright/gen"
	"wormwright/posts/card"
	"wormwright/posts/record"
	"wormwright/posts/rs274"
)

var writeVerb = verb{
	name: "write", args: "JOB", short: "Write programs and cards",
	long: `Writes what the machine and the person at it need: the feed card as text and
CSV and, where the machine has a control, the air proof and the program that
cuts the wheel. With an error nothing is written.`,
	bind: func(fs *pflag.FlagSet) func(stdio, []string) error {
		dir := fs.StringP("output", "o", ".", "write into `DIR`, made if need be")
		return func(std stdio, args []string) error {
			name, err := oneJob(args)
			if err != nil {
				return err
			}
			if *dir == "" {
				return usageError("want a DIR to write into, have an empty name")
			}
			l, err := load(std, name)
			if err != nil {
				return err
			}
			if err := l.verdict(); err != nil {
				return err
			}
			files := outputs(&l.plan)
			for _, f := range files {
				for _, input := range []string{l.name, l.machine} {
					if sameFile(filepath.Join(*dir, f.name), input) {
						return fmt.Errorf("%s: want another folder than that of a file that is read", filepath.Join(*dir, f.name))
					}
				}
			}
			if err := save(*dir, files); err != nil {
				return err
			}
			var names []string
			for _, f := range files {
				names = append(names, f.name)
			}
			_, err = std.out.Write(record.Summary(&l.plan, names))
			return err
		}
	},
}

func sameFile(a, b string) bool {
	x, err1 := os.Stat(a)
	y, err2 := os.Stat(b)
	return err1 == nil && err2 == nil && os.SameFile(x, y)
}

// outputs makes all that write saves, the program that cuts last.
func outputs(p *gen.Plan) []file {
	feed := card.Feed(p)
	files := []file{{"feed-card.txt", feed.Text()}, {"feed-card.csv", feed.CSV()}}
	if p.Programmed() {
		files = append(files, file{"prove.ngc", rs274.AirProof(p)}, file{"wheel.ngc", rs274.Wheel(p)})
	}
	return files
}
