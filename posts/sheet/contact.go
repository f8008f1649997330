// Package sheet draws what a person looks at on paper.
package sheet

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"strings"

	"wormwright/gen"
	"wormwright/gen/fit"
)

// shades are what lies nearer to the worm than so many films, from far to
// near; they stay apart in black and white.
var shades = [...]struct {
	films  float64
	colour string
}{{2, "#d4d4d4"}, {1, "#8c8c8c"}, {0.5, "#3c3c3c"}}

// ContactMap draws the bearing of both flanks of a tooth over a whole mesh as
// SVG, 1 user unit being a tenth of a millimetre on paper: the face from left
// to right, the height of the flank up, both to one scale.
func ContactMap(p *gen.Plan, f *fit.Fit) []byte {
	const (
		wide   = 1600.0 // of the drawing
		margin = 90.0
	)
	face := p.Blank.Face
	low, high := math.Inf(1), math.Inf(-1)
	for _, side := range f.Sides {
		for _, radii := range side.Radii {
			if n := len(radii); n > 0 {
				low, high = min(low, radii[0]), max(high, radii[n-1])
			}
		}
	}
	if !(low < high) {
		low, high = 0, 1
	}
	panel := (wide - 3*margin) / 2
	scale := panel / face
	tall := (high - low) * scale
	const above, below = 150.0, 190.0
	height := above + tall + below

	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="%smm" height="%smm" font-family="sans-serif" font-size="26" fill="#000">`+"\n",
		num(wide), num(height), num(wide/10), num(height/10))
	fmt.Fprintf(&b, "<title>%s: bearing of the flanks</title>\n", html.EscapeString(p.Job.Title))
	b.WriteString(`<rect width="100%" height="100%" fill="#fff"/>` + "\n")
	text := func(x, y float64, anchor, words string) {
		fmt.Fprintf(&b, `<text x="%s" y="%s" text-anchor="%s">%s</text>`+"\n", num(x), num(y), anchor, html.EscapeString(words))
	}
	u := p.Job.Units
	text(margin, 44, "start", clip(p.Job.Title, 60)+", digest "+p.Digest)
	for k, side := range f.Sides {
		x0 := margin + float64(k)*(panel+margin)
		y0 := above + tall
		at := func(z, r float64) point { return point{x0 + (z+face/2)*scale, y0 - (r-low)*scale} }
		text(x0+panel/2, 100, "middle", fmt.Sprintf("%s flank: %s %% bears over a mesh, %s %% at once", side.Flank.Side,
			gen.Fixed(100*side.All, 0), gen.Fixed(100*side.One, 0)))
		net, outline := netOf(side, at)
		fmt.Fprintf(&b, `<path d="%s" fill="#fff" stroke="#000" stroke-width="3"/>`+"\n", path([][]point{outline}))
		for _, s := range shades {
			if d := path(net.below(s.films * f.Film)); d != "" {
				fmt.Fprintf(&b, `<path d="%s" fill="%s" fill-rule="evenodd"/>`+"\n", d, s.colour)
			}
		}
		if rp := p.Pair.WheelDiameter() / 2; rp > low && rp < high {
			a, z := at(-face/2, rp), at(face/2, rp)
			fmt.Fprintf(&b, `<path d="M%s %sH%s" stroke="#000" stroke-width="2" stroke-dasharray="14 6 3 6" fill="none"/>`+"\n", num(a.x), num(a.y), num(z.x))
		}
		middle := at(0, low)
		fmt.Fprintf(&b, `<path d="M%s %sV%s" stroke="#000" stroke-width="2" stroke-dasharray="14 6 3 6" fill="none"/>`+"\n", num(middle.x), num(y0+14), num(above-14))
		text(x0, y0+46, "start", within(p.Machine.Work.Minus, 20))
		text(x0+panel, y0+46, "end", within(p.Machine.Work.Plus, 20))
		text(x0+panel/2, y0+46, "middle", "face "+u.Length(face))
	}
	// The key.
	y := above + tall + 100
	x := margin
	for i := len(shades) - 1; i >= 0; i-- {
		fmt.Fprintf(&b, `<rect x="%s" y="%s" width="44" height="30" fill="%s" stroke="#000"/>`+"\n", num(x), num(y-24), shades[i].colour)
		text(x+56, y, "start", "nearer than "+u.Length(shades[i].films*f.Film))
		x += 400
	}
	text(margin, y+52, "start", "Height up to the tip, dash-dotted: reference circle and middle plane. Both directions to one scale.")
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// netOf places the gaps of a flank on the drawing, and its outline.
func netOf(side fit.Side, at func(z, r float64) point) (field, []point) {
	var f field
	for i, radii := range side.Radii {
		if len(radii) == 0 {
			continue
		}
		column := make([]point, len(radii))
		for j, r := range radii {
			column[j] = at(side.Planes[i], r)
		}
		f.at, f.value = append(f.at, column), append(f.value, side.Gap[i])
	}
	var outline []point
	for _, column := range f.at {
		outline = append(outline, column[0])
	}
	for i := len(f.at) - 1; i >= 0; i-- {
		outline = append(outline, f.at[i][len(f.at[i])-1])
	}
	return f, outline
}

// path writes closed outlines.
func path(outlines [][]point) string {
	var b strings.Builder
	for _, outline := range outlines {
		for i, p := range outline {
			if i == 0 {
				b.WriteByte('M')
			} else {
				b.WriteByte('L')
			}
			b.WriteString(num(p.x) + " " + num(p.y))
		}
		if len(outline) > 0 {
			b.WriteByte('Z')
		}
	}
	return b.String()
}

func num(x float64) string { return strings.TrimSuffix(gen.Fixed(x, 1), ".0") }

// clip keeps a user's words from running out of a drawing.
func clip(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}
