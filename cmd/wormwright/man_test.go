package main

import (
	"os/exec"
	"regexp"
	"strings"
	"testing"
)

// plain is a manual page as it is read: without macros and escapes.
func plainRoff(page string) string {
	page = strings.NewReplacer(`\-`, "-", `\(aq`, "'", `\(de`, "°", `\(mc`, "µ", `\(pc`, "·", `\&`, "", `\e`, `\`).Replace(page)
	return strings.Join(strings.Fields(regexp.MustCompile(`(?m)^\.(in.*|[A-Z]+ ?)`).ReplaceAllString(page, "")), " ")
}

// The page has every verb with its help and flags, all examples and cautions,
// and the sections that a reader looks for.
func TestManIsWhole(t *testing.T) {
	page := must(t, "man")
	text := plainRoff(page)
	for _, section := range []string{"NAME", "SYNOPSIS", "DESCRIPTION", "VERBS", "EXIT STATUS", "FILES", "ENVIRONMENT", "EXAMPLES", "CAUTIONS"} {
		if strings.Count(page, "\n.SH "+section+"\n") != 1 {
			t.Errorf("the page has no section %s, or several", section)
		}
	}
	for _, v := range verbs {
		if !strings.Contains(text, strings.TrimSpace("wormwright "+v.name+" "+v.args)) {
			t.Errorf("the page lacks %s", v.name)
		}
		if long := strings.Join(strings.Fields(v.long), " "); !strings.Contains(text, long) {
			t.Errorf("the page lacks the help of %s", v.name)
		}
		own := must(t, v.name, "--help")
		for _, m := range regexp.MustCompile(`(?m)^ +(?:-\w, |    )(--[\w-]+)`).FindAllStringSubmatch(own, -1) {
			if !strings.Contains(text, m[1]) {
				t.Errorf("the page lacks %s of %s", m[1], v.name)
			}
		}
		if len(v.examples) == 0 {
			t.Errorf("%s has no example", v.name)
		}
		for _, e := range v.examples {
			if !strings.Contains(text, "wormwright "+e) {
				t.Errorf("the page lacks the example %q", e)
			}
		}
	}
	for _, example := range examples {
		for _, name := range example.files {
			if !strings.Contains(text, name) {
				t.Errorf("the page does not tell of the file %s", name)
			}
		}
	}
	for _, word := range []string{"guards on", "not a brake", "Local codes and qualified people decide", "air proof"} {
		if !strings.Contains(text, word) {
			t.Errorf("the page does not caution: %s", word)
		}
	}
	// No line of text may be taken for a request.
	for line := range strings.SplitSeq(page, "\n") {
		if strings.HasPrefix(line, "'") || strings.HasPrefix(line, ".") && !regexp.MustCompile(`^\.(TH|SH|SS|PP|TP|EX|EE|B|I|RI|in)( |$)`).MatchString(line) {
			t.Errorf("a line is taken for a request: %s", line)
		}
	}
}

// Those who set manual pages have nothing to say against it.
func TestManIsSet(t *testing.T) {
	page := must(t, "man")
	for _, setter := range [][]string{
		{"groff", "-man", "-Tutf8", "-Kutf8", "-ww", "-z"},
		{"mandoc", "-T", "lint", "-W", "error"},
	} {
		path, err := exec.LookPath(setter[0])
		if err != nil {
			t.Logf("no %s here", setter[0])
			continue
		}
		c := exec.Command(path, setter[1:]...)
		c.Stdin = strings.NewReader(page)
		if out, err := c.CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%s: %v\n%s", strings.Join(setter, " "), err, out)
		}
	}
	path, err := exec.LookPath("man")
	if err != nil {
		t.Skip("no man here")
	}
	c := exec.Command(path, "-l", "-")
	c.Env = []string{"MANWIDTH=80", "LC_ALL=C.UTF-8", "PATH=/usr/bin:/bin", "MANPAGER=cat", "TERM=dumb"}
	c.Stdin = strings.NewReader(page)
	out, err := c.Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.SplitSeq(string(out), "\n") {
		if n := width(line); n > 80 {
			t.Errorf("the page has a line of %d characters at a width of 80: %s", n, line)
		}
	}
}
