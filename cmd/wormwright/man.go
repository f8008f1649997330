package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"wormwright/gen"
)

var manVerb = verb{
	name: "man", args: "", short: "Print the manual page",
	long: `Prints the manual page of all verbs in the macros of man(7). To read it at once
or to keep it:

  wormwright man | man -l -
  wormwright man > /usr/local/share/man/man1/wormwright.1`,
	examples: []string{"man > wormwright.1"},
	bind: func(*pflag.FlagSet) func(stdio, []string) error {
		return func(std stdio, args []string) error {
			if len(args) > 0 {
				return usageError(fmt.Sprintf("want no arguments, have %d", len(args)))
			}
			_, err := fmt.Fprint(std.out, manual())
			return err
		}
	},
}

const description = `Wormwright works out how a worm wheel is cut by a hob. A job file in YAML tells
pair, worm, wheel, hob and cut, and names a machine file; wormwright judges
whether the wheel can be cut, and writes setup, feed card, air proof and program.
Every program is read back from its own text and cuts the wheel in memory first;
with an error nothing is written. A file of - is standard input.`

// manualFiles are the files that verbs save, with what each is for.
var manualFiles = [][2]string{
	{"feed-card.txt, feed-card.csv", "Dial readings, work turns to wait, and the whole setup in words."},
	{"sheet.html", "The setup sheet, to be printed."},
	{"prove.ngc", "The air proof, to be run clear of the blank before anything is cut."},
	{"wheel.ngc", "The program that cuts the wheel."},
	{"wheel.3mf, worm.3mf, hob.3mf", "The wheel as it is cut, the worm and the hob as closed surfaces, to be printed in plastic."},
	{"gash-card.txt, gash-card.csv, gash-prove.ngc, gash.ngc", "The same for a blank that is gashed."},
	{"worm-card.txt, worm-card.csv, worm.ngc", "Turning the worm, where the job names a lathe."},
	{"hob-card.txt, hob-card.csv", "Making the hob, where the job names a lathe."},
	{"rest-card.txt, rest-card.csv, rest.ngc", "What is left of a job that was broken off."},
	{"trim-card.txt, trim-card.csv, trim.ngc", "The cut after a trial mesh."},
}

// manual is the manual page in the macros of man(7).
func manual() string {
	p := new(manualPage)
	p.line(`.TH WORMWRIGHT 1 "" "wormwright %s" "User commands"`, roff(version))
	p.line(".SH NAME\nwormwright \\- numbers, programs and cards by which a worm wheel is cut")
	p.line(".SH SYNOPSIS\n.B wormwright\n.I verb\n.RI [ flags ]\n.RI [ file ]")
	p.line(".SH DESCRIPTION")
	p.text(description)
	p.line(".SH VERBS")
	for _, v := range verbs {
		p.line(".SS wormwright %s", roff(strings.TrimSpace(v.name+" "+v.args)))
		p.text(v.long)
		for _, f := range v.flags() {
			p.flag(f)
		}
	}
	p.line(".SH EXIT STATUS")
	p.item("0", "All is well.")
	p.item("1", "A file is at fault, what it asks for is unsafe, or the output could not be written.")
	p.item("2", "The command line is at fault.")
	p.line(".SH FILES")
	for _, f := range manualFiles {
		p.item(f[0], f[1])
	}
	p.line(".SH ENVIRONMENT")
	p.item("NO_COLOR", "Where it is set and not empty, a terminal gets no colours. Files and pipes never do.")
	p.item("TERM", "A terminal that calls itself dumb gets neither colours nor a sign of progress.")
	p.line(".SH EXAMPLES\nFrom nothing to a wheel, in an empty folder:\n.PP\n.EX")
	for _, v := range verbs {
		for _, e := range v.examples {
			p.line("%s", roff("  wormwright "+e))
		}
	}
	p.line(".EE\n.SH CAUTIONS")
	for i, caution := range gen.Cautions {
		if i > 0 {
			p.line(".PP")
		}
		p.line("%s", roff(caution))
	}
	p.line(".PP\nWormwright computes; it does not see the machine. Whether the machine file tells the truth is what the air proof is for.")
	return p.String()
}

type manualPage struct{ strings.Builder }

func (p *manualPage) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// item is a word and what it means.
func (p *manualPage) item(head, meaning string) {
	p.line(".TP\n.B %s\n%s", roff(head), roff(meaning))
}

func (p *manualPage) flag(f flag) {
	head, meaning := "--"+f.name, f.usage
	if f.short != "" {
		head = "-" + f.short + ", " + head
	}
	switch word := f.value.word; {
	case f.optional:
		head += "[=" + strings.Join(f.value.choices, "|") + "]"
	case f.takes && word != "" && word != "string":
		head += " " + word
	}
	if f.missing != "" {
		meaning += " (default " + f.missing + ")"
	}
	p.item(head, meaning)
}

// text prints paragraphs; lines that are set in stand as they are.
func (p *manualPage) text(s string) {
	literal := false
	for row := range strings.SplitSeq(s, "\n") {
		if in := strings.HasPrefix(row, "  "); in != literal {
			literal = in
			p.line("%s", map[bool]string{true: literally, false: freely}[in])
		}
		if row == "" {
			row = ".PP"
		} else {
			row = roff(row)
		}
		p.line("%s", row)
	}
	if literal {
		p.line(freely)
	}
}

// Lines that stand as they are begin at the left edge, for their full length.
const (
	literally = ".in 0\n.EX"
	freely    = ".EE\n.in"
)

// roff keeps a text from being read as a request or an escape.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "°", `\(de`, "µ", `\(mc`, "·", `\(pc`).Replace(s)
	if strings.HasPrefix(s, ".") {
		s = `\&` + s
	}
	return s
}
