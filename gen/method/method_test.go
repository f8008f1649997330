package method

import (
	"math"
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

func compared(t *testing.T, name string) map[gen.Feed]Method {
	t.Helper()
	p := jobtest.Plan(t, name, nil)
	list, err := Compare(p.Job, p.Machine, "test")
	if err != nil {
		t.Fatal(err)
	}
	byFeed := map[gen.Feed]Method{}
	for _, m := range list {
		byFeed[m.Feed] = m
	}
	if len(byFeed) != len(gen.Feeds()) {
		t.Fatalf("%s: %d ways, want %d", name, len(byFeed), len(gen.Feeds()))
	}
	own := byFeed[p.Job.Cut.Feed]
	if !own.Own || !own.Possible || math.Abs(own.Minutes-p.Cycle.Totals().Minutes) > 1e-9 || own.Facet != p.Facet() {
		t.Errorf("%s: own way %+v, want the plan's %v minutes and %v mm of facet", name, own, p.Cycle.Totals().Minutes, p.Facet())
	}
	for _, m := range list {
		if m.Possible == (len(m.Against) > 0) || len(m.Needs) == 0 || len(m.Risks) == 0 {
			t.Errorf("%s, %s: possible %v, against it %q, needs %q, risks %q", name, m.Feed, m.Possible, m.Against, m.Needs, m.Risks)
		}
		if m.Own != (m.Feed == p.Job.Cut.Feed) {
			t.Errorf("%s: %s is told as the job's own", name, m.Feed)
		}
	}
	return byFeed
}

// On two rotary axes every coupled way can be taken; the fly tool keeps to its
// facets, and a wheel cut across bears on far less of its flank.
func TestTwoRotaryAxes(t *testing.T) {
	m := compared(t, "turret-clock")
	for _, feed := range []gen.Feed{gen.Radial, gen.Tangential, gen.Fly, gen.Across} {
		if !m[feed].Possible || !(m[feed].Minutes > 0 && m[feed].Chip > 0) {
			t.Errorf("%s: %+v", feed, m[feed])
		}
	}
	for _, feed := range []gen.Feed{gen.Radial, gen.Tangential} {
		if !(m[gen.Across].Bears < m[feed].Bears/2) {
			t.Errorf("axial: %.3f bears, %s: %.3f", m[gen.Across].Bears, feed, m[feed].Bears)
		}
	}
	if f := m[gen.Fly].Facet; !(f > 0 && f <= 0.001) { // mm, as taken for the tool
		t.Errorf("fly tool: facets of %v mm, want up to 0.001", f)
	}
	if m[gen.Radial].Bears != m[gen.Tangential].Bears {
		t.Errorf("radial bears on %v, tangential on %v: the finished flank is one", m[gen.Radial].Bears, m[gen.Tangential].Bears)
	}
}

// A plain train cannot add a differential; the reason and the remedy are told.
func TestPlainTrain(t *testing.T) {
	m := compared(t, "sluice-hoist")
	if !m[gen.Radial].Possible {
		t.Error("radial feed: not possible")
	}
	for _, feed := range []gen.Feed{gen.Tangential, gen.Fly, gen.Across} {
		if m[feed].Possible || !strings.Contains(strings.Join(m[feed].Against, " "), "Remedy: ") {
			t.Errorf("%s: %+v", feed, m[feed])
		}
	}
}
