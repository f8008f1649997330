package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// atTerminal tells whether a person sees what is written, at a terminal that
// can do more than print lines.
func atTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(f.Fd()))
}

// bright is a text in bold red at a terminal, unless NO_COLOR says that
// nobody wants colours, and as it stands everywhere else.
func bright(w io.Writer, text string) string {
	if !atTerminal(w) || os.Getenv("NO_COLOR") != "" {
		return text
	}
	return "\x1b[1;31m" + text + "\x1b[0m"
}
