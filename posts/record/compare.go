package record

import (
	"fmt"
	"strings"

	"wormwright/gen"
	"wormwright/gen/method"
)

// Comparison is the JSON form of the ways of cutting one wheel.
type Comparison struct {
	Title   string   `json:"title"`
	Methods []Method `json:"methods"`

	unit gen.Unit
}

// Method is one way.
type Method struct {
	Feed     string   `json:"feed"`
	Own      bool     `json:"own"`
	Possible bool     `json:"possible"`
	Against  []string `json:"against"`
	Changed  []string `json:"taken"`
	Minutes  float64  `json:"minutes"`
	Facet    float64  `json:"facet_um"`
	Bears    float64  `json:"contact_fraction"`
	Chip     float64  `json:"chip_mm3_per_work_turn"`
	Needs    []string `json:"needs"`
	Risks    []string `json:"risks"`
}

// OfMethods takes the record of a comparison.
func OfMethods(job gen.Job, list []method.Method) Comparison {
	c := Comparison{Title: job.Title, unit: job.Units, Methods: []Method{}}
	none := func(s []string) []string {
		if s == nil {
			return []string{}
		}
		return s
	}
	for _, m := range list {
		c.Methods = append(c.Methods, Method{
			m.Feed.String(), m.Own, m.Possible, none(m.Against), none(m.Changed), round(m.Minutes, 2), round(m.Facet*1000, 3),
			round(m.Bears, 3), round(m.Chip, 2), none(m.Needs), none(m.Risks),
		})
	}
	return c
}

// JSON returns the record as indented JSON.
func (c Comparison) JSON() []byte { return indented(c) }

// Text prints the ways side by side, and below each what it needs and risks.
func (c Comparison) Text() []byte {
	g := &page{unit: c.unit}
	g.heading(c.Title)
	g.WriteString("\n")
	const columns = "  %-12s %9s %9s %9s %14s  %s"
	g.line(columns, "feed", "minutes", "facet µm", "bears %", "mm³/work turn", "")
	for _, m := range c.Methods {
		note := ""
		if m.Own {
			note = "this job's"
		}
		if !m.Possible {
			g.line("  %-12s not on this machine, or not with this job  %s", m.Feed, note)
			continue
		}
		bears, chip := "-", "-"
		if m.Bears > 0 {
			bears, chip = gen.Fixed(100*m.Bears, 0), gen.Fixed(m.Chip, 0)
		}
		g.line(columns, m.Feed, gen.Fixed(m.Minutes, 1), gen.Fixed(m.Facet, 2), bears, chip, note)
	}
	for _, m := range c.Methods {
		g.section(strings.ToUpper(m.Feed[:1]) + m.Feed[1:])
		if len(m.Changed) > 0 {
			g.paragraph("taken: " + strings.Join(m.Changed, ", "))
		}
		g.paragraph("needs: " + strings.Join(m.Needs, "; "))
		g.paragraph("risks: " + strings.Join(m.Risks, "; "))
		for _, against := range m.Against {
			g.paragraph("against it: " + against)
		}
	}
	fmt.Fprintf(g, "\n  Set cut.feed to the way of your choice, and write its numbers into the job.\n")
	return g.Bytes()
}
