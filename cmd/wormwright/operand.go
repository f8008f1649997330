package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"
)

// An operand is what stands for a value in a usage line or behind a flag:
// one of several words, or a word in capitals. It tells shells what may
// stand there.
type operand struct {
	word    string   // as it is shown
	choices []string // it is one of these
	files   bool     // it is a file
	ending  string   // of the file's name; empty for any
	folder  bool     // it is a folder
}

// operands are the words in capitals that a shell can help with.
var operands = map[string]operand{
	"JOB":     {files: true, ending: ".yaml"},
	"PROGRAM": {files: true},
	"FILE":    {files: true},
	"DIR":     {folder: true},
}

// newOperand reads a word of a usage line: JOB, [RATIO] or a|b|c.
func newOperand(word string) operand {
	word = strings.Trim(word, "[]")
	o := operands[word]
	o.word = word
	if strings.Contains(word, "|") {
		o.choices = strings.Split(word, "|")
	}
	return o
}

// operand is what a verb takes beside its flags.
func (v verb) operand() operand { return newOperand(v.args) }

// flags are the verb's flags in their order.
func (v verb) flags() (list []flag) {
	fs := newFlagSet(v.name)
	v.bind(fs)
	fs.VisitAll(func(f *pflag.Flag) { list = append(list, newFlag(f)) })
	return append(list, flag{name: "help", short: "h", usage: "print help"})
}

// A flag is one flag of a verb as its help shows it.
type flag struct {
	name, short string // without dashes
	usage       string
	takes       bool // a value
	optional    bool // which may be left out, and else stands behind an =
	value       operand
	missing     string // the value when the flag is not given; empty for nothing worth telling
}

// spellings are how the flag may be written.
func (f flag) spellings() []string {
	list := []string{"--" + f.name}
	if f.short != "" {
		list = append(list, "-"+f.short)
	}
	return list
}

func newFlag(f *pflag.Flag) flag {
	word, usage := pflag.UnquoteUsage(f)
	d := flag{name: f.Name, short: f.Shorthand, usage: usage, takes: f.NoOptDefVal == "", value: newOperand(word)}
	if c, ok := f.Value.(*choice); ok {
		d.value.choices, d.optional, d.takes = c.words, !d.takes, true
	}
	switch f.DefValue {
	case "", "0", "false":
	default:
		d.missing = f.DefValue
	}
	return d
}

// A choice is the value of a flag that is one of several words.
type choice struct {
	value string
	words []string
}

// choose declares a flag that is one of several words, the first when it is
// not given.
func choose(fs *pflag.FlagSet, name, usage string, words ...string) *string {
	c := &choice{words[0], words}
	fs.Var(c, name, usage)
	return &c.value
}

func (c *choice) String() string { return c.value }
func (c *choice) Type() string   { return "string" }

// Set takes a word, as package pflag asks for.
func (c *choice) Set(word string) error {
	if !slices.Contains(c.words, word) {
		return fmt.Errorf("want %s", alternatives(c.words))
	}
	c.value = word
	return nil
}

// alternatives are words in a sentence: a, b or c.
func alternatives(words []string) string {
	if last := len(words) - 1; last > 0 {
		return strings.Join(words[:last], ", ") + " or " + words[last]
	}
	return strings.Join(words, "")
}
