package card

import (
	"strings"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
)

// A card is of a begun wheel when it opens by entering spaces; what is in
// doubt is of a whole one, but for a depth that no plan will take.
func TestBegun(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	for _, tt := range []struct {
		rows string
		want gen.Begun
	}{
		{"0,enter,2.75,1\n12,rough,3,1\n13,rough,3.25,1\n", gen.Begun{Step: 12}},
		{"0,enter,4.735,1\n1,finish,4.785,1\n2,finish,4.83,1\n", gen.Begun{Depth: 4.735, To: 4.83}},
		{"1,rough,0.25,1\n2,rough,0.5,1\n", gen.Begun{}},
		{"0,enter,2.75,1\n", gen.Begun{}},
		{"0,enter,2.75,1\ntwelve,rough,3,1\n", gen.Begun{}},
		{"0,enter,2.75,1\n12,rough\n", gen.Begun{}},
		{"", gen.Begun{}},
	} {
		if got := Begun(strings.NewReader("step,stage,reading,work_turns\n"+tt.rows), p); got != tt.want {
			t.Errorf("%q: %+v, want %+v", tt.rows, got, tt.want)
		}
	}
	bad := Begun(strings.NewReader("step,stage,reading\n0,enter,deep\n1,finish,4.8\n"), p)
	if next := gen.NewBegun(p.Job, p.Machine, "test", bad); !next.Findings.Failed() {
		t.Errorf("a depth that is no number is taken: %+v", bad)
	}
}
