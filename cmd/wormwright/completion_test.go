package main

import (
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"
)

// A shell completes command lines, given as words of which the last is
// unfinished, and returns what it offers for each.
type shell struct {
	name    string
	harness string                      // asks for one line after the other, a line @@ behind each answer
	line    func(words []string) string // calls the harness
}

func quoteWords(words []string) string {
	var b strings.Builder
	for _, w := range words {
		b.WriteString(" '" + strings.ReplaceAll(w, "'", `'\''`) + "'")
	}
	return b.String()
}

var shells = []shell{
	{"bash", `
source ./completion
compopt() { :; } # there is no line to set options for
ask() {
	COMP_WORDS=("$@") COMP_CWORD=$(($# - 1)) COMPREPLY=()
	_wormwright wormwright
	printf '%s\n' "${COMPREPLY[@]}" @@
}
`, func(words []string) string {
		var split []string // bash makes three words of --flag=value
		for _, w := range words {
			if flag, value, ok := strings.Cut(w, "="); ok {
				split = append(split, flag, "=")
				if value != "" {
					split = append(split, value)
				}
				continue
			}
			split = append(split, w)
		}
		return "ask" + quoteWords(split) + "\n"
	}},
	{"fish", `
source ./completion
function ask
	complete -C "$argv" | string replace -r '\t.*' ''
	echo @@
end
`, func(words []string) string { return "ask" + quoteWords([]string{strings.Join(words, " ")}) + "\n" }},
	// In a terminal of its own, zsh completes as it would for a person, and
	// a compadd of ours prints what it is given.
	{"zsh", `
zmodload zsh/zpty
cat >setup <<'END'
PROMPT= PS2= zle_bracketed_paste=()
autoload -Uz compinit
compinit -D -u
source ./completion
compadd() {
	if [[ ${@[1,(i)(-|--)]} == *-(O|A|D)\ * ]]; then builtin compadd "$@"; return; fi
	local -a hits
	builtin compadd -A hits "$@"
	(( $#hits )) && print -rl -- '' @=$^hits
}
answer() { zle complete-word; print -r -- '@}' }
zle -N answer
bindkey '^I' answer
bindkey '^U' kill-whole-line
print '@}'
END
zpty z zsh -f -i
zpty -w z 'source ./setup'
zpty -r -m z text $'*@}*' || exit 1
ask() {
	local text
	zpty -w -n z $'\x15'"$1"$'\t'
	zpty -r -m z text $'*@}*' || exit 1
	print -r -- "$text" | tr -d '\r' | sed -n 's/^@=//p'
	print @@
}
`, func(words []string) string { return "ask" + quoteWords([]string{strings.Join(words, " ")}) + "\n" }},
}

// answers runs a shell on all command lines.
func (s shell) answers(t *testing.T, lines [][]string) [][]string {
	t.Helper()
	path, err := exec.LookPath(s.name)
	if err != nil {
		t.Skipf("no %s here", s.name)
	}
	if err := os.WriteFile("completion", []byte(must(t, "completion", s.name)), 0o666); err != nil {
		t.Fatal(err)
	}
	script := s.harness
	for _, line := range lines {
		script += s.line(append([]string{"wormwright"}, line...))
	}
	if err := os.WriteFile("harness", []byte(script), 0o666); err != nil {
		t.Fatal(err)
	}
	var args []string
	if s.name == "zsh" {
		args = []string{"-f"}
	}
	c := exec.Command(path, append(args, "harness")...)
	c.WaitDelay = time.Second
	c.Env = append(os.Environ(), "HOME="+t.TempDir(), "LC_ALL=C.UTF-8", "TERM=dumb")
	var complaints strings.Builder
	c.Stderr = &complaints
	timer := time.AfterFunc(time.Minute, func() { c.Process.Kill() })
	defer timer.Stop()
	out, err := c.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("%s: %v\n%s\n%s", s.name, err, complaints.String(), out)
	}
	var all [][]string
	for part := range strings.SplitSeq(string(out), "@@\n") {
		var words []string
		for _, w := range strings.Fields(part) {
			_, value, ok := strings.Cut(w, "=") // fish offers --flag=value
			if !ok || value == "" {
				value = strings.TrimSuffix(w, "=")
			}
			words = append(words, value)
		}
		slices.Sort(words)
		all = append(all, slices.Compact(words))
	}
	if all = all[:len(all)-1]; len(all) != len(lines) {
		t.Fatalf("%s answers %d of %d lines:\n%s", s.name, len(all), len(lines), out)
	}
	return all
}

// Each shell offers what the table of verbs has: all verbs, the flags of each,
// the words of those that are choices, and files where a file stands.
func TestCompletion(t *testing.T) {
	type question struct {
		line  []string
		want  []string // all of these
		never []string // and none of these
	}
	var questions []question
	ask := func(line string, want, never []string) {
		questions = append(questions, question{strings.Split(line, " "), want, never})
	}
	var all []string
	for _, v := range verbs {
		all = append(all, v.name)
		var flags []string
		for _, f := range v.flags() {
			flags = append(flags, "--"+f.name)
			if len(f.value.choices) == 0 {
				continue
			}
			if f.optional {
				ask(v.name+" --"+f.name+"=", f.value.choices, all[:1])
				continue
			}
			ask(v.name+" --"+f.name+" ", f.value.choices, all[:1])
		}
		ask(v.name+" --", flags, []string{"--version"})
		if o := v.operand(); len(o.choices) > 0 {
			ask(v.name+" ", o.choices, nil)
		}
	}
	ask("", all, []string{"jobs"})
	ask("tr", []string{"train", "trim"}, []string{"write", "plan"})
	ask("train --for w", []string{"work"}, []string{"lead"})
	ask("train --gears 2", nil, []string{"20", "jobs", "lead", "hoist.yaml", "23.ngc"})
	ask("check ho", []string{"hoist.yaml"}, []string{"hollow.txt", "tr"})
	ask("check ", []string{"hoist.yaml"}, []string{"tr"})
	ask("check jobs/tide", []string{"jobs/tide-gauge.yaml"}, nil)
	ask("dryrun 23", []string{"23.ngc"}, []string{"hoist.yaml"})
	ask("dryrun x.ngc --job hoi", []string{"hoist.yaml"}, []string{"23.ngc"})
	ask("write -o jo", []string{"jobs"}, []string{"job-notes.txt"})
	ask("write --output jo", []string{"jobs"}, []string{"job-notes.txt"})

	for _, s := range shells {
		t.Run(s.name, func(t *testing.T) {
			workshop(t)
			for _, name := range []string{"hoist.yaml", "hollow.txt", "job-notes.txt", "23.ngc"} {
				if err := os.WriteFile(name, nil, 0o666); err != nil {
					t.Fatal(err)
				}
			}
			var lines [][]string
			for _, q := range questions {
				lines = append(lines, q.line)
			}
			for i, got := range s.answers(t, lines) {
				q := questions[i]
				// fish and zsh add a slash to a folder, and zsh offers the last
				// part of a path.
				has := func(word string) bool {
					return slices.ContainsFunc(got, func(have string) bool {
						have = strings.TrimSuffix(have, "/")
						return have == word || s.name == "zsh" && strings.HasSuffix(word, "/"+have)
					})
				}
				for _, word := range q.want {
					if !has(word) {
						t.Errorf("wormwright %s: offers %q, want %q", strings.Join(q.line, " "), got, word)
					}
				}
				for _, word := range q.never {
					// fish and zsh offer other files after those that fit.
					if has(word) && !(strings.HasSuffix(word, ".txt") && s.name != "bash") {
						t.Errorf("wormwright %s: offers %q, want no %q", strings.Join(q.line, " "), got, word)
					}
				}
			}
		})
	}
}

// Names of files with spaces come whole in bash.
func TestCompletionOfNamesWithSpaces(t *testing.T) {
	workshop(t)
	if err := os.WriteFile("two words.yaml", nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, s := range shells[:1] {
		got := s.answers(t, [][]string{{"check", "two"}})
		if want := []string{"two", "words.yaml"}; !slices.Equal(got[0], want) {
			t.Errorf("%s offers %q, want %q", s.name, got[0], want)
		}
		harness := read(t, "harness")
		out, err := exec.Command("bash", "-c", strings.Replace(harness, `printf '%s\n' "${COMPREPLY[@]}" @@`, `echo ${#COMPREPLY[@]}`, 1)).Output()
		if err != nil || string(out) != "1\n" {
			t.Errorf("bash offers %q names (%v), want 1", out, err)
		}
	}
}
