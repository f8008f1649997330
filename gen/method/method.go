// Package method sets the ways of cutting one wheel side by side: time,
// facets, bearing, chips, what each needs and what it risks.
package method

import (
	"wormwright/gen"
	"wormwright/gen/fit"
	"wormwright/gen/proof"
)

// A Method is one way of cutting the wheel of a job. Lengths in mm.
type Method struct {
	Feed     gen.Feed
	Own      bool     // it is the job's own way
	Possible bool     // on the job's machine
	Against  []string // what stands against it, with the remedy
	Changed  []string // what was taken where the job does not say it for this way
	Minutes  float64  // from the first turn to the last
	Facet    float64  // height that the facets and marks keep
	Bears    float64  // share of the flank that bears over a mesh, of the worse flank
	Chip     float64  // most that the wheel loses in one work turn, mm³
	Needs    []string
	Risks    []string
}

// Compare plans the wheel of a job in every way, with the job's own numbers
// where it has them and usual ones where it does not. Its error is a cut or a
// bearing that cannot be followed.
func Compare(job gen.Job, machine gen.Machine, version string) ([]Method, error) {
	var list []Method
	for _, feed := range gen.Feeds() {
		m := Method{Feed: feed, Own: feed == job.Cut.Feed, Needs: needs[feed], Risks: risks[feed]}
		tried := job
		if !m.Own {
			tried, m.Changed = as(job, feed)
		}
		p := gen.NewPlan(tried, machine, version)
		for _, f := range p.Findings {
			if f.Severity == gen.Error {
				m.Against = append(m.Against, f.What+". Remedy: "+f.Remedy)
			}
		}
		if m.Possible = !p.Findings.Failed(); m.Possible {
			if err := m.measure(&p); err != nil {
				return nil, err
			}
		}
		list = append(list, m)
	}
	return list, nil
}

// measure takes what the plan of a possible way gives.
func (m *Method) measure(p *gen.Plan) error {
	m.Minutes, m.Facet = p.Cycle.Totals().Minutes, p.Facet()
	if m.Feed == gen.Gash {
		return nil // no tooth is finished
	}
	f, err := fit.Of(p, fit.Quick, fit.Mounting{})
	if err != nil {
		return err
	}
	m.Bears = min(f.Sides[0].All, f.Sides[1].All)
	load, err := proof.Heaviest(p)
	m.Chip = load.Chip
	return err
}

// as is a job cut in another way. What that way asks for and the job does not
// say is taken by common practice and told.
func as(job gen.Job, feed gen.Feed) (gen.Job, []string) {
	old, module := job.Cut, job.Pair.Module
	job.Cut = gen.CutData{Feed: feed, SparkOut: 1, Speed: old.Speed, Spindle: old.Spindle, Clear: old.Clear, Margin: old.Margin}
	u := job.Units
	step := func(share float64) float64 {
		grain := u.About(0.05, 0.002)
		return max(float64(int(share*module/grain))*grain, grain)
	}
	var changed []string
	take := func(what string) { changed = append(changed, what) }
	switch feed {
	case gen.Radial:
		job.Cut.Step = step(0.1)
		take("steps of " + u.Length(job.Cut.Step))
	case gen.Free:
		job.Cut.Step = step(0.05)
		take("steps of " + u.Length(job.Cut.Step))
	case gen.Tangential:
		job.Cut.Step = step(0.2)
		take(u.Length(job.Cut.Step) + " in a work turn")
	case gen.Fly:
		job.Cut.Facet = 0.001
		job.Hob.Gashes, job.Hob.Length, job.Hob.Taper, job.Hob.TaperDrop = 1, 0, 0, 0
		take("a tool with the hob's swing, facets of " + u.Length(job.Cut.Facet))
	case gen.Across:
		job.Cut.Step = step(0.4)
		take(u.Length(job.Cut.Step) + " in a work turn")
		if job.Wheel.Throated {
			job.Wheel.Throated, job.Wheel.Throat, job.Wheel.Outside = false, 0, 0
			job.Wheel.OutsideMeasured, job.Wheel.ThroatMeasured = 0, 0
			take("a plain blank")
		}
	case gen.Gash:
		job.Cut.Step = step(0.1)
	}
	return job, changed
}

// needs is what each way asks for beside the hob and the blank.
var needs = map[gen.Feed][]string{
	gen.Radial:     {"a drive that keeps work and hob in step"},
	gen.Tangential: {"a drive that keeps work and hob in step and adds the differential", "a slide along the hob's axis", "a hob long enough for the travel, best with an entering taper"},
	gen.Fly:        {"a drive that keeps work and tool in step and adds the differential", "a slide along the tool's axis", "one tool ground to the worm's thread, set by a height gauge", "patience"},
	gen.Across:     {"a drive that keeps work and hob in step and adds the turn that the teeth's slope asks for", "a slide along the work's axis", "a plain blank"},
	gen.Gash:       {"a dividing head or a work axis that holds its place", "a gashing cutter", "a hob to finish with"},
	gen.Free:       {"a gashed blank", "a work arbor that turns freely without play"},
}

// risks is what each way may spoil.
var risks = map[gen.Feed][]string{
	gen.Radial:     {"at large lead and small pressure angle the hob trims the flanks on its way in", "the whole width of the tooth is cut at once: chatter on a light machine"},
	gen.Tangential: {"phase and travel belong together: an interrupted cut begins anew"},
	gen.Fly:        {"a slip of phase anywhere spoils every tooth", "the tool's edge wears through the whole wheel"},
	gen.Across:     {"the wheel touches the worm in a point: light loads only"},
	gen.Gash:       {"gashes are not teeth: an uneven division shows after hobbing"},
	gen.Free:       {"a wheel dragged round by its hob alone comes out faulty (Lineham, App. II); positive drive is better", "nothing proves that the work keeps step"},
}
