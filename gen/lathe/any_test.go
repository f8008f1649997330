package lathe

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
)

// Whatever can be planned can be turned: all figures of worm and hob are
// finite, or an error says why there are none.
func TestAnyJob(t *testing.T) {
	base := jobtest.Plan(t, "sluice-hoist", nil)
	lathes := []gen.Lathe{
		jobtest.Lathe(t, "screw-lathe"), jobtest.Lathe(t, "small-lathe"), jobtest.Lathe(t, "threading-lathe"),
	}
	made := 0
	rapid.Check(t, func(t *rapid.T) {
		j, l := base.Job, rapid.SampledFrom(lathes).Draw(t, "lathe")
		m := math.Pow(10, rapid.Float64Range(-1, 1.3).Draw(t, "module"))
		reference := m * rapid.Float64Range(6, 40).Draw(t, "quotient")
		j.Pair.Module, j.Pair.Starts = m, rapid.IntRange(1, 8).Draw(t, "starts")
		j.Pair.Pressure = rapid.Float64Range(10, 35).Draw(t, "pressure") * degree
		form := rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK}).Draw(t, "form")
		j.Worm = gen.WormData{Form: form, SameAsHob: true, Disk: reference * 4}
		j.Wheel.AllowUndercut, j.Wheel.Face, j.Wheel.Backlash = true, 0, m*rapid.Float64Range(0, 0.2).Draw(t, "backlash")
		j.Hob = gen.HobData{
			Form: form, Tip: reference + 2.5*m, Addendum: 1.25 * m, Starts: j.Pair.Starts, Hand: geometry.Right,
			Gashes: rapid.IntRange(1, 20).Draw(t, "gashes"), Disk: reference * 4,
			Unrelieved: rapid.Bool().Draw(t, "unrelieved"), Reference: reference,
		}
		j.Cut.Step = 0.1 * m
		j.Turn = gen.TurnData{
			Flank: rapid.Bool().Draw(t, "flank"), First: m * rapid.Float64Range(0, 1).Draw(t, "first"),
			Spindle: rapid.SampledFrom([]float64{0, 0.001, 40, 1e6}).Draw(t, "spindle"),
		}
		p := gen.NewPlan(j, base.Machine, "test")
		if p.Findings.Failed() {
			return
		}
		w, h := NewWorm(&p, l), NewHob(&p, l)
		for what, c := range map[string]any{"worm": w.Cutting, "hob": h.Cutting, "gashes": []float64{
			h.Larger, h.GashDepth, h.GashLead, h.Rake, h.Rise, h.Relief, h.Side, h.Taper,
		}} {
			if bad := notFinite(reflect.ValueOf(c), what); bad != "" && bad != what+".Measure.Chord" {
				t.Fatalf("%s is not finite", bad)
			}
		}
		if w.Findings.Failed() {
			return
		}
		made++
		last := w.Infeed.Passes[len(w.Infeed.Passes)-1]
		if !(w.Pace.Spindle > 0 && w.Pace.RunIn > 0 && w.Blank.Groove > w.Path.Width && last.Set > 0) {
			t.Fatalf("pace %+v, blank %+v, last pass %+v", w.Pace, w.Blank, last)
		}
	})
	if made == 0 {
		t.Error("no job could be turned")
	}
}

// notFinite names the first number in v that is NaN or infinite.
func notFinite(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := notFinite(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if bad := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); bad != "" {
				return bad
			}
		}
	}
	return ""
}
