package proof_test

import (
	"testing"

	"pgregory.net/rapid"

	"wormwright/gen"
	"wormwright/gen/job/jobtest"
	"wormwright/geometry"
	"wormwright/posts/rs274"
)

// Every job that can be planned writes a program that proves itself, whatever
// the drive, the feed, the hands, the signs and the units.
func TestRandomJobsPass(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := jobtest.Plan(t, "sluice-hoist", func(j *gen.Job, m *gen.Machine) {
			j.Pair.Starts = rapid.IntRange(1, 3).Draw(rt, "starts")
			j.Hob.Starts = j.Pair.Starts
			j.Pair.Teeth = rapid.IntRange(24, 48).Draw(rt, "teeth")
			if rapid.Bool().Draw(rt, "left") {
				j.Pair.Hand, j.Hob.Hand = geometry.Left, geometry.Left
			}
			j.Hob.Anticlockwise = rapid.Bool().Draw(rt, "anticlockwise")
			j.Worm.Diameter = 40 - rapid.Float64Range(0, 1).Draw(rt, "smaller")
			j.Setup.Swivel = rapid.Bool().Draw(rt, "swivel")
			j.Wheel.Throated = rapid.Bool().Draw(rt, "throated")
			j.Wheel.Face = rapid.Float64Range(8, 16).Draw(rt, "face")
			j.Hob.Gashes = rapid.IntRange(6, 12).Draw(rt, "gashes")
			j.Hob.Length = 90
			j.Cut.Step = rapid.Float64Range(0.3, 0.8).Draw(rt, "step")
			sign := func(label string) float64 { return rapid.SampledFrom([]float64{1, -1}).Draw(rt, label) }
			m.Radial.Sign = sign("radial")
			m.Radial.Feed, m.Radial.Dial = 0, gen.Dial{}
			m.Tangential = gen.Slide{Present: true, Letter: "Y", Sign: sign("tangential")}
			m.Spindle.Reversed = rapid.Bool().Draw(rt, "reversed")
			m.Spindle.Tolerance = rapid.Float64Range(0, 0.1).Draw(rt, "tolerance")
			m.Drive.Differential = gen.Follows
			if rapid.Bool().Draw(rt, "coordinated") {
				m.Drive.Kind = gen.Coordinated
				m.Hob.Letter, m.Hob.Sign = "A", sign("hob")
				m.Work.Letter, m.Work.Sign = "B", sign("work")
				m.Language.LargestRotary = rapid.SampledFrom([]float64{0, 9999.999}).Draw(rt, "largest rotary")
			} else if rapid.Bool().Draw(rt, "iso") {
				m.Language.Base, m.Language.FeedPerTurn = gen.ISO, rapid.Bool().Draw(rt, "feed per turn")
				m.Language.DwellUnit = rapid.SampledFrom([]gen.DwellUnit{gen.Seconds, gen.Milliseconds, gen.Revolutions}).Draw(rt, "dwell unit")
			}
			if rapid.Bool().Draw(rt, "inches") {
				m.Language.Units, m.Language.LengthDecimals = gen.Inch, 4
			}
			m.Axial = gen.Slide{Present: true, Letter: "X", Sign: sign("axial")}
			switch j.Cut.Feed = rapid.SampledFrom([]gen.Feed{gen.Radial, gen.Tangential, gen.Fly, gen.Across}).Draw(rt, "feed"); j.Cut.Feed {
			case gen.Radial:
				j.Cut.Continuous = rapid.Bool().Draw(rt, "continuous")
			case gen.Fly:
				j.Cut.Tools, j.Hob.Gashes, j.Hob.Length = 1, 1, 0
				if rapid.Bool().Draw(rt, "tools") || m.Drive.Kind != gen.Coordinated {
					j.Cut.Tools = j.Pair.Starts
				}
			case gen.Across:
				j.Wheel.Throated = false
			}
		})
		r := prove(t, p, string(rs274.Wheel(p)), coarse)
		for _, f := range r.Findings {
			rt.Errorf("line %d: %v: %s", f.Line, f.Severity, f.What)
		}
		if r.Wheel.Complete != r.Wheel.Spaces {
			rt.Errorf("%d of %d spaces complete", r.Wheel.Complete, r.Wheel.Spaces)
		}
	})
}
