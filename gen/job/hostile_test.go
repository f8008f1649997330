package job

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// Files that nobody writes in earnest are refused like any other, soon and
// without a panic.
func TestReadHostile(t *testing.T) {
	if testing.Short() {
		t.Skip("a megabyte each")
	}
	const deep = 10000
	for _, tt := range []struct {
		name, text string
	}{
		{"deep in brackets", "title: " + strings.Repeat("[", deep) + strings.Repeat("]", deep) + "\n"},
		{"deep in braces", strings.Repeat("{a: ", deep) + "1" + strings.Repeat("}", deep) + "\n"},
		{"deep and never closed", strings.Repeat("[", deep)},
		{"unknown keys without end", fill(func(i int) string { return fmt.Sprintf("k%d: 1\n", i) })},
		{"one key without end", fill(func(int) string { return "a: 1\n" })},
		{"keys like known ones", plainJob + "setup: {" + fill(func(i int) string { return fmt.Sprintf("swivel%d: 1, ", i) }) + "}\n"},
		{"aliases of aliases", "a: &a [1]\n" + fill(func(i int) string { return fmt.Sprintf("b%d: &b%d [*a, *a]\n", i, i) })},
		{"list without end", "title: [" + strings.Repeat("1,", 500000) + "]\n"},
		{"long key", strings.Repeat("a", 1<<20-10) + ": 1\n"},
		{"long number", with(plainJob, "cut: {step: "+strings.Repeat("9", 1<<20-400)+"}")},
		{"long word", with(plainJob, "wheel: {blank: "+strings.Repeat("µ", 1<<19-400)+"}")},
		{"long title", with(plainJob, "title: "+strings.Repeat("mill ", 200000))},
		{"blanks", strings.Repeat(" ", 1<<20)},
		{"dashes", strings.Repeat("-\n", 1<<19)},
	} {
		refuse(t, tt.name, func() error {
			_, err := Read("job.yaml", strings.NewReader(tt.text))
			return err
		})
	}
	refuse(t, "speeds without end", func() error {
		_, err := ReadMachine("job.yaml", strings.NewReader("spindle: {speeds: ["+strings.Repeat("x,", 500000)+"]}\n"))
		return err
	})
}

// refuse checks that read comes back with faults that fit a screen.
func refuse(t *testing.T, name string, read func() error) {
	t.Helper()
	done := make(chan error, 1)
	go func() { done <- read() }()
	select {
	case err := <-done:
		if err == nil {
			t.Errorf("%s: taken as it is", name)
			return
		}
		checkFaults(t, "job.yaml", err)
		if n := len(err.Error()); n > 20000 { // 20 lines and some
			t.Errorf("%s: answered with %d bytes", name, n)
		}
	case <-time.After(time.Minute): // a hang; each takes under a second
		t.Fatalf("%s: no answer", name)
	}
}

// fill repeats lines until a file is nearly as large as may be.
func fill(line func(i int) string) string {
	var b strings.Builder
	for i := 0; b.Len() < 1<<20-1000; i++ {
		b.WriteString(line(i))
	}
	return b.String()
}
