package gen

import (
	"slices"
	"testing"
)

// Every material that a wheel can be of has a caution of its own, said once,
// and the last word stays with local codes.
func TestCautionsOfMaterials(t *testing.T) {
	for _, m := range Materials() {
		p := Plan{}
		p.Job.Wheel.Material = m
		list := p.Cautions()
		if len(list) != len(Cautions)+1 || list[len(list)-1] != Cautions[len(Cautions)-1] {
			t.Errorf("%s: %q", m, list)
		}
		slices.Sort(list)
		if len(slices.Compact(list)) != len(Cautions)+1 {
			t.Errorf("%s: a caution is said twice", m)
		}
	}
	if p := (&Plan{}); !slices.Equal(p.Cautions(), Cautions) {
		t.Error("an unknown material has other cautions")
	}
}
