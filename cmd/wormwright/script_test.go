package main

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"wormwright": main})
}

// Each script runs in a folder with the example jobs and machines.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		Setup:               func(env *testscript.Env) error { return copyFixtures(env.WorkDir) },
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"edit":  editCommand,
			"holds": holdsCommand,
		},
	})
}

// edit FILE OLD NEW replaces the one place where a file holds OLD.
func editCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: edit FILE OLD NEW")
	}
	text := ts.ReadFile(args[0])
	if n := strings.Count(text, args[1]); n != 1 {
		ts.Fatalf("%s holds %q %d times", args[0], args[1], n)
	}
	text = strings.Replace(text, args[1], args[2], 1)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}

// holds DIR NAME... wants a folder to hold just the names, in order. The
// scripts' own .tmp does not count.
func holdsCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: holds DIR NAME...")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var have []string
	for _, e := range entries {
		if e.Name() != ".tmp" {
			have = append(have, e.Name())
		}
	}
	if !slices.Equal(have, args[1:]) {
		ts.Fatalf("%s holds %q, want %q", args[0], have, args[1:])
	}
}
