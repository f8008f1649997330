package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"
)

var completionVerb = verb{
	name: "completion", args: "bash|zsh|fish", short: "Print what completes the command line in a shell",
	long: `Prints a script that lets a shell complete verbs, flags, their choices and the
names of files. Load it from the shell's start file, or save it where the shell
looks for completions:

  bash   source <(wormwright completion bash)
  zsh    wormwright completion zsh > _wormwright, in a folder of fpath
  fish   wormwright completion fish > wormwright.fish, in its completions`,
	examples: []string{"completion bash > wormwright.bash"},
	bind: func(*pflag.FlagSet) func(stdio, []string) error {
		return func(std stdio, args []string) error {
			scripts := map[string]func() string{"bash": bashScript, "zsh": zshScript, "fish": fishScript}
			if len(args) != 1 || scripts[args[0]] == nil {
				return usageError(fmt.Sprintf("want bash, zsh or fish, have %q", strings.Join(args, " ")))
			}
			_, err := fmt.Fprint(std.out, scripts[args[0]]())
			return err
		}
	},
}

// bashScript completes in bash. Where no name of the right ending is found,
// bash completes names as it always does.
func bashScript() string {
	reply := func(o operand) string {
		switch {
		case len(o.choices) > 0:
			return fmt.Sprintf(`_wormwright_words "%s"`, strings.Join(o.choices, " "))
		case o.folder:
			return `_wormwright_paths < <(compgen -d -- "$cur")`
		case o.files && o.ending != "":
			return fmt.Sprintf(`_wormwright_paths < <(compgen -f -X '!*%s' -- "$cur"; compgen -d -- "$cur")`, o.ending)
		case o.files:
			return `_wormwright_paths < <(compgen -f -- "$cur")`
		}
		return `:`
	}
	var b strings.Builder
	b.WriteString(`# Completes wormwright in bash.
_wormwright_words() {
	COMPREPLY=($(compgen -W "$1" -- "$cur"))
}
_wormwright_paths() {
	local name
	compopt -o filenames -o default 2>/dev/null
	while IFS= read -r name; do COMPREPLY+=("$name"); done
}
_wormwright() {
	local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} verb= equals= i
	COMPREPLY=()
	# --flag=value comes as three words.
	if [[ $cur == = ]]; then
		cur= equals=1
	elif [[ $prev == = ]]; then
		prev=${COMP_WORDS[COMP_CWORD-2]} equals=1
	fi
	for ((i = 1; i < COMP_CWORD; i++)); do
		if [[ ${COMP_WORDS[i]} != -* ]]; then verb=${COMP_WORDS[i]}; break; fi
	done
	case $verb in
`)
	var names []string
	for _, v := range verbs {
		names = append(names, v.name)
	}
	fmt.Fprintf(&b, "\t'')\n\t\t_wormwright_words \"%s --help --version\"\n\t\t;;\n", strings.Join(names, " "))
	for _, v := range verbs {
		var all []string
		fmt.Fprintf(&b, "\t%s)\n\t\tcase $prev$equals in\n", v.name)
		for _, f := range v.flags() {
			all = append(all, f.spellings()...)
			if !f.takes {
				continue
			}
			pattern := "--" + f.name + "1"
			if !f.optional {
				pattern = strings.Join(append(f.spellings(), pattern), " | ")
			}
			fmt.Fprintf(&b, "\t\t%s)\n\t\t\t%s\n\t\t\treturn\n\t\t\t;;\n", pattern, reply(f.value))
		}
		fmt.Fprintf(&b, "\t\tesac\n\t\tif [[ $cur == -* ]]; then\n\t\t\t_wormwright_words \"%s\"\n\t\telse\n\t\t\t%s\n\t\tfi\n\t\t;;\n",
			strings.Join(all, " "), reply(v.operand()))
	}
	b.WriteString("\tesac\n}\ncomplete -F _wormwright wormwright\n")
	return b.String()
}

// zshScript completes in zsh, loaded from fpath or sourced.
func zshScript() string {
	quote := strings.NewReplacer(`\`, `\\`, "'", `'\''`, "[", `\[`, "]", `\]`, ":", `\:`).Replace
	action := func(o operand) string {
		switch {
		case len(o.choices) > 0:
			return "(" + strings.Join(o.choices, " ") + ")"
		case o.folder:
			return "_files -/"
		case o.files && o.ending != "":
			return `_files -g "*` + o.ending + `"`
		case o.files:
			return "_files"
		}
		return " "
	}
	var b strings.Builder
	b.WriteString(`#compdef wormwright
_wormwright() {
	local state
	_arguments -C '(- *)'{-h,--help}'[print help]' '(- *)--version[print the version]' '1:verb:->verb' '*::argument:->argument'
	case $state in
	verb)
		local -a verbs=(
`)
	for _, v := range verbs {
		fmt.Fprintf(&b, "\t\t\t'%s:%s'\n", v.name, quote(v.short))
	}
	b.WriteString("\t\t)\n\t\t_describe verb verbs\n\t\t;;\n\targument)\n\t\tcase $words[1] in\n")
	for _, v := range verbs {
		fmt.Fprintf(&b, "\t\t%s)\n\t\t\t_arguments", v.name)
		for _, f := range v.flags() {
			for _, spelling := range f.spellings() {
				value := ""
				switch long := strings.HasPrefix(spelling, "--"); {
				case f.optional:
					spelling, value = spelling+"=-", "::"
				case f.takes && long:
					spelling, value = spelling+"=", ":"
				case f.takes:
					spelling, value = spelling+"+", ":"
				}
				if f.takes {
					value += quote(f.value.word) + ":" + action(f.value)
				}
				fmt.Fprintf(&b, " \\\n\t\t\t\t'%s[%s]%s'", spelling, quote(f.usage), value)
			}
		}
		if o := v.operand(); o.word != "" {
			fmt.Fprintf(&b, " \\\n\t\t\t\t'1:%s:%s'", quote(o.word), action(o))
		}
		b.WriteString("\n\t\t\t;;\n")
	}
	b.WriteString("\t\tesac\n\t\t;;\n\tesac\n}\nif [[ $funcstack[1] == _wormwright ]]; then _wormwright \"$@\"; else compdef _wormwright wormwright; fi\n")
	return b.String()
}

// fishScript completes in fish.
func fishScript() string {
	quote := strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace
	var b strings.Builder
	b.WriteString(`# Completes wormwright in fish.
complete -c wormwright -f
complete -c wormwright -n __fish_use_subcommand -l help -s h -d 'print help'
complete -c wormwright -n __fish_use_subcommand -l version -d 'print the version'
`)
	for _, v := range verbs {
		fmt.Fprintf(&b, "complete -c wormwright -n __fish_use_subcommand -a %s -d '%s'\n", v.name, quote(v.short))
	}
	// names are what an operand or a value may be; empty for nothing that
	// fish could know.
	names := func(o operand) string {
		switch {
		case len(o.choices) > 0:
			return " -a '" + strings.Join(o.choices, " ") + "'"
		case o.folder:
			return " -a '(__fish_complete_directories)'"
		case o.files && o.ending != "":
			return " -k -a '(__fish_complete_suffix " + o.ending + ")'"
		case o.files:
			return " -F"
		}
		return ""
	}
	for _, v := range verbs {
		head := fmt.Sprintf("complete -c wormwright -n '__fish_seen_subcommand_from %s'", v.name)
		if known := names(v.operand()); known != "" {
			b.WriteString(head + known + "\n")
		}
		for _, f := range v.flags() {
			line := head + " -l " + f.name
			if f.short != "" {
				line += " -s " + f.short
			}
			switch known := names(f.value); {
			case f.optional:
				line += known
			case f.takes && known == " -F":
				line += " -r -F"
			case f.takes:
				line += " -x" + known
			}
			fmt.Fprintf(&b, "%s -d '%s'\n", line, quote(f.usage))
		}
	}
	return b.String()
}
