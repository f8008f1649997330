package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fixtures is where the example files stand, whatever folder a test is in.
var fixtures = func() string {
	dir, err := filepath.Abs(filepath.Join("..", "..", "fixtures"))
	if err != nil {
		panic(err)
	}
	return dir
}()

// The example job that most tests begin with, and its machine.
const (
	hoist = "jobs/sluice-hoist.yaml"
	knee  = "machines/knee-mill.yaml"
)

// workshop makes a folder with the example jobs and machines and enters it
// until the test ends.
func workshop(t testing.TB) {
	t.Helper()
	dir := t.TempDir()
	if err := copyFixtures(dir); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
}

func copyFixtures(dir string) error {
	for _, kind := range []string{"jobs", "machines", "lathes"} {
		if err := os.CopyFS(filepath.Join(dir, kind), os.DirFS(filepath.Join(fixtures, kind))); err != nil {
			return err
		}
	}
	return nil
}

// An edit replaces the one place where a file holds old.
type edit struct{ old, new string }

// change edits a file of a workshop.
func change(t testing.TB, name string, edits ...edit) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, e := range edits {
		if n := strings.Count(text, e.old); n != 1 {
			t.Fatalf("%s holds %q %d times", name, e.old, n)
		}
		text = strings.Replace(text, e.old, e.new, 1)
	}
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

// A result is what one run of the command leaves behind.
type result struct {
	status   int
	out, err string
}

// command runs wormwright with a standard input.
func command(stdin string, args ...string) result {
	var out, err bytes.Buffer
	status := run(args, stdio{strings.NewReader(stdin), &out, &err})
	return result{status, out.String(), err.String()}
}

// must runs wormwright and returns what it prints; the run must be fine.
func must(t testing.TB, args ...string) string {
	t.Helper()
	r := command("", args...)
	if r.status != exitOK || r.err != "" {
		t.Fatalf("wormwright %s = status %d, stderr\n%s", strings.Join(args, " "), r.status, r.err)
	}
	return r.out
}

// read returns the text of a file that must be there.
func read(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// names lists what a folder holds; none for a folder that is not there.
func names(t testing.TB, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}
