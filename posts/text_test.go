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

// Words that fit stay whole, and a line ends only where the next word would
// not have fitted any more.
func TestWrapKeepsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringMatching(`[a-zä°]{1,9}`)).Draw(t, "words")
		width := rapid.IntRange(9, 30).Draw(t, "width")
		lines := Wrap(strings.Join(words, " "), width)
		if got := strings.Fields(strings.Join(lines, " ")); !slices.Equal(got, words) {
			t.Fatalf("Wrap gives the words %q, want %q", got, words)
		}
		for i := range len(lines) - 1 {
			next, _, _ := strings.Cut(lines[i+1], " ")
			if n := utf8.RuneCountInString(lines[i] + " " + next); n <= width {
				t.Fatalf("line %q ends before %q, both together %d characters of %d", lines[i], next, n, width)
			}
		}
	})
}
