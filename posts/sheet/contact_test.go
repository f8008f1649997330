package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/fit"
	"wormwright/gen/job/jobtest"
)

// area is that inside closed outlines, holes taken away (the shoelace rule).
func area(outlines [][]point) float64 {
	var sum float64
	for _, o := range outlines {
		for i, p := range o {
			q := o[(i+1)%len(o)]
			sum += (p.x*q.y - q.x*p.y) / 2
		}
	}
	return math.Abs(sum)
}

// The area below a level is that of a known solid: a cone over a square net,
// its circles inside the net and cut by its rim.
func TestBelow(t *testing.T) {
	const n = 81
	var f field
	for i := range n {
		var at []point
		var value []float64
		for j := range n {
			x, y := float64(i)/(n-1)*2-1, float64(j)/(n-1)*2-1
			at, value = append(at, point{x, y}), append(value, math.Hypot(x, y))
		}
		f.at, f.value = append(f.at, at), append(f.value, value)
	}
	for _, tt := range []struct{ level, want float64 }{
		{0.5, math.Pi / 4},
		{0.9, math.Pi * 0.81},
		{2, 4}, // the whole net
		// A circle that the square cuts: by hand, π·r² − 4·(r²·acos(1/r) − √(r² − 1)).
		{1.2, math.Pi*1.44 - 4*(1.44*math.Acos(1/1.2)-math.Sqrt(0.44))},
		{-1, 0},
	} {
		if got := area(f.below(tt.level)); math.Abs(got-tt.want) > 0.002*max(tt.want, 1) {
			t.Errorf("area below %g is %.4f, want %.4f", tt.level, got, tt.want)
		}
	}
	// A ring has a hole.
	for i := range f.value {
		for j := range f.value[i] {
			f.value[i][j] = math.Abs(f.value[i][j] - 0.5)
		}
	}
	rings := f.below(0.2)
	if want := math.Pi * (0.49 - 0.09); len(rings) != 2 || math.Abs(area(rings)-want) > 0.01 {
		t.Errorf("a ring has %d outlines and an area of %.4f, want 2 and %.4f", len(rings), area(rings), want)
	}
}

// The dark part of the drawing is the share of the flank that the fit tells.
func TestMapShowsTheShare(t *testing.T) {
	for _, name := range []string{"sluice-hoist", "tide-gauge", "turret-clock"} {
		p := jobtest.Plan(t, name, nil)
		f, err := fit.Of(p, fit.Options{}, fit.Mounting{})
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range f.Sides {
			net, outline := netOf(side, func(z, r float64) point { return point{z, r} })
			got := area(net.below(f.Film)) / area([][]point{outline})
			if math.Abs(got-side.All) > 0.005 {
				t.Errorf("%s, %s flank: %.4f of the drawing is dark, the fit says %.4f", name, side.Flank.Side, got, side.All)
			}
		}
	}
}

// The map is well-formed whatever the job is called, and the same each time.
func TestMapIsXML(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, m *gen.Machine) {
		j.Title = `<script>alert("1")</script> & ` + strings.Repeat("long ", 40)
		m.Work.Plus = "<b>"
	})
	f, err := fit.Of(p, fit.Quick, fit.Mounting{})
	if err != nil {
		t.Fatal(err)
	}
	svg := ContactMap(p, &f)
	if bytes.Contains(svg, []byte("<script")) || bytes.Contains(svg, []byte("<b>")) {
		t.Error("a user's text is markup")
	}
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(svg, ContactMap(p, &f)) {
		t.Error("two maps of one fit differ")
	}
	if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
		t.Error("a place on the map is no number")
	}
}
