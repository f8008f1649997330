// Package posts holds what its writers share. A post turns a plan into one
// thing on paper, on a screen or in a control; it knows languages and paper
// and computes nothing of gears. Every post is a pure function of its plan:
// same plan, same bytes, on every machine.
package posts

import (
	"strings"
	"unicode/utf8"
)

// Wrap breaks a text at blanks into lines of at most width characters. A
// longer word is broken where it must be.
func Wrap(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for utf8.RuneCountInString(word) > width {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			runes := []rune(word)
			lines, word = append(lines, string(runes[:width])), string(runes[width:])
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
