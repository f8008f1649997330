package posts

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestWrap(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width int
		want  []string
	}{
		{"", 10, nil},
		{"one", 10, []string{"one"}},
		{"one two three", 7, []string{"one two", "three"}},
		{"4°30' α", 5, []string{"4°30'", "α"}},
		{"abcdefgh ij", 3, []string{"abc", "def", "gh", "ij"}},
		{"  two\n blanks ", 20, []string{"two blanks"}},
	} {
		if got := Wrap(tt.text, tt.width); !slices.Equal(got, tt.want) {
			t.Errorf("Wrap(%q, %d) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

// No line is wider than it may be, and no letter is lost or moved.
func TestWrapKeepsEveryLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		width := rapid.IntRange(1, 30).Draw(t, "width")
		lines := Wrap(text, width)
		for _, line := range lines {
			if n := utf8.RuneCountInString(line); n > width || n == 0 {
				t.Fatalf("line %q of %d characters, width %d", line, n, width)
			}
		}
		letters := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := letters(strings.Join(lines, " ")), letters(strings.ToValidUTF8(text, "\uFFFD")); got != want && utf8.ValidString(text) {
			t.Fatalf("Wrap(%q) holds %q", text, got)
		}
	})
}
