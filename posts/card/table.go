// Package card prints tables that a person follows at the machine, as text
// that fits a page and as CSV with the same figures.
package card

import (
	"bytes"
	"encoding/csv"
	"strings"
	"unicode/utf8"

	"wormwright/posts"
)

// A Table is a card before it is laid out.
type Table struct {
	Title   string
	Head    []string // lines above the table, wrapped to the page
	Columns []Column
	Rows    [][]string // one text a column
	Foot    []string   // lines below the table
}

// A Column is one column of a card.
type Column struct {
	Name  string // in the text
	Key   string // in the CSV; empty for a column that only paper has
	Right bool   // set flush right
}

// Width is how many characters a line of a text card holds.
const Width = 78

// Text lays the card out for a page.
func (t Table) Text() []byte {
	var out bytes.Buffer
	line := func(s string) { out.WriteString(strings.TrimRight(s, " ") + "\n") }
	paragraphs := func(texts []string) {
		for _, text := range texts {
			if text == "" {
				line("")
			}
			for i, s := range posts.Wrap(text, Width-2) {
				if i > 0 {
					s = "  " + s
				}
				line(s)
			}
		}
	}
	rule := 0
	for _, s := range posts.Wrap(t.Title, Width) {
		line(s)
		rule = max(rule, utf8.RuneCountInString(s))
	}
	line(strings.Repeat("=", rule))
	paragraphs(t.Head)
	line("")

	widths := make([]int, len(t.Columns))
	for i, c := range t.Columns {
		widths[i] = utf8.RuneCountInString(c.Name)
		for _, row := range t.Rows {
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	set := func(cells func(i int) string) {
		var b strings.Builder
		for i, c := range t.Columns {
			if i > 0 {
				b.WriteString("  ")
			}
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cells(i)))
			if c.Right {
				b.WriteString(pad + cells(i))
			} else {
				b.WriteString(cells(i) + pad)
			}
		}
		line(b.String())
	}
	set(func(i int) string { return t.Columns[i].Name })
	set(func(i int) string { return strings.Repeat("-", widths[i]) })
	for n, row := range t.Rows {
		if n > 0 && n%5 == 0 {
			line("") // the eye keeps its row
		}
		set(func(i int) string { return row[i] })
	}
	line("")
	paragraphs(t.Foot)
	return out.Bytes()
}

// CSV returns the rows with their keys as the first record (RFC 4180).
func (t Table) CSV() []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	record := func(cell func(i int) string) {
		var fields []string
		for i, c := range t.Columns {
			if c.Key != "" {
				fields = append(fields, cell(i))
			}
		}
		w.Write(fields) // a bytes.Buffer takes everything
	}
	record(func(i int) string { return t.Columns[i].Key })
	for _, row := range t.Rows {
		record(func(i int) string { return row[i] })
	}
	w.Flush()
	return out.Bytes()
}
