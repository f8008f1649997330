package job

import (
	"math"
	"strings"
	"testing"

	"wormwright/gen"
)

// A fly tool is described by its swing and addendum; the rest follows from
// the worm.
func TestReadFly(t *testing.T) {
	const (
		pair = "pair: {module: 2, starts: 3, teeth: 40, hand: left, pressure_angle: 20}"
		hob  = "hob: {tip_diameter: 45, addendum: 2.5}"
	)
	j := mustRead(t, with(plainJob, pair, hob, "cut: {feed: fly, facet: 0.0001 in, tools: 3, toward: minus}")).Job
	if h := j.Hob; h.Gashes != 1 || h.Starts != 3 || h.Hand != j.Pair.Hand || h.Length != 0 {
		t.Errorf("tool %+v, want one gash, three starts, left hand, no length", h)
	}
	if c := j.Cut; c.Feed != gen.Fly || math.Abs(c.Facet-0.00254) > 1e-12 || c.Step != 0 || c.Tools != 3 || !c.TowardMinus {
		t.Errorf("cut %+v", c)
	}
	if c := mustRead(t, with(plainJob, hob, "cut: {feed: fly, step: 0.4}")).Job.Cut; c.Step != 0.4 || c.Facet != 0 || c.Tools != 1 {
		t.Errorf("cut %+v, want a step of 0.4 and one tool", c)
	}
	if c := mustRead(t, with(plainJob, "cut: {feed: axial, step: 0.4}")).Job.Cut; c.Feed != gen.Across || c.Step != 0.4 {
		t.Errorf("cut %+v, want an axial feed of 0.4", c)
	}
	for _, tt := range []struct{ name, line, want string }{
		{"no feed at all", "cut: {feed: fly}", "cut.facet: missing: want one of facet, step"},
		{"two feeds", "cut: {feed: fly, step: 0.4, facet: 0.001}", "cut.step: want only one of facet, step"},
		{"facet of another feed", "cut: {feed: tangential, step: 0.4, facet: 0.001}", "cut.facet: unknown key"},
		{"tools of another feed", "cut: {step: 0.4, tools: 2}", "cut.tools: unknown key"},
		{"no tool", "cut: {feed: fly, step: 0.4, tools: 0}", "cut.tools: want a whole number from 1 to 20"},
		{"facet that is no number", "cut: {feed: fly, facet: .nan}", "cut.facet: want a finite number"},
		{"more gashes than one", "cut: {feed: fly, step: 0.4}\nhob: {tip_diameter: 45, addendum: 2.5, gashes: 2}", "hob.gashes: want a whole number from 1 to 1"},
	} {
		text := with(plainJob, strings.Split(tt.line, "\n")...)
		_, err := Read("job.yaml", strings.NewReader(text))
		if all := strings.Join(lines(err), "\n"); !strings.Contains(all, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, all, tt.want)
		}
	}
}
