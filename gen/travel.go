package gen

import "math"

// A travel is a feed along one slide at full depth, in whole work turns that a
// person can wait for. The hob begins clear of the blank on one side, goes in
// to its depth there and then through.
type travel struct {
	*course
	plan    *Plan
	way     Way
	slide   *Slide
	grain   float64 // of the slide, mm
	feed    int     // grains in a work turn
	toward  float64 // +1 or −1, the way the hob moves
	from    float64 // of the start before the wheel's middle, mm, whole grains
	length  int     // of the whole way, in grains
	deepest float64 // depth from first touch, mm
	full    float64 // centre distance at that depth
	steps   []Step
}

// newTravel plans a feed of so much in a work turn, from one distance before
// the wheel's middle to another behind it. The key is the one that gives the
// feed. ok is false where a finding says why it cannot be.
func newTravel(p *Plan, key string, feed, toward, from, to float64) (t travel, ok bool) {
	way := p.Job.Cut.Feed.Way()
	t = travel{plan: p, way: way, slide: p.Machine.Slide(way), toward: toward}
	u := p.Job.Units
	if !t.slide.Present {
		along := map[Way]string{Tangentially: "the hob's axis", Axially: "the work's axis"}[way]
		p.Findings.errorf("machine: "+way.String(), "describe the slide along "+along, "%s feed wants a %s slide, have none", way, way)
		return t, false
	}
	t.grain = t.slide.Grain(p.Machine.Language)
	if t.feed = grains(feed, t.grain); t.feed < 1 {
		p.Findings.errorf(key, "take one graduation or more", "want %s or more, the slide's smallest step, have %s", u.Length(t.grain), u.Length(feed))
		return t, false
	}
	t.from = math.Ceil(from/t.grain-1e-6) * t.grain
	turns := int(math.Ceil((t.from+to)/t.grain/float64(t.feed) - 1e-6))
	t.length = turns * t.feed
	if turns > maxSteps {
		p.Findings.errorf(key, "take a larger feed", "want %d work turns at the most, have %d", maxSteps, turns)
		return t, false
	}
	// The radial setting stays shallow of the depth by less than a
	// graduation of its own slide.
	fine := p.Machine.Radial.Grain(p.Machine.Language)
	t.deepest = float64(grains(p.Engaged.Depth(), fine)) * fine
	t.full = p.Engaged.Touch - t.deepest

	start := t.at(0)
	start.Distance = p.Engaged.Touch + p.Job.Cut.Clear
	t.course = newCourse(p, start)
	t.begin(p.Machine.Radial, t.at(0))
	return t, true
}

// at is the place after so many grains of travel.
func (t *travel) at(n int) Place {
	to := Place{Distance: t.full}
	*to.Along(t.way) = t.toward * (float64(n)*t.grain - t.from)
	return to
}

// row adds a step that ends after so many grains of travel.
func (t *travel) row(stage Stage, n int, turns float64) *Step {
	to := t.at(n)
	t.steps = append(t.steps, Step{
		Number: len(t.steps) + 1, Stage: stage, Depth: t.deepest, Travel: float64(n) * t.grain,
		Reading: t.slide.reading(*to.Along(t.way), 0), WorkTurns: turns, HobTurns: turns * t.plan.Pair.Ratio(),
	})
	return &t.steps[len(t.steps)-1]
}

// through lays the whole way, in rows of whole work turns, few enough to
// follow on a card.
func (t *travel) through(rows int) {
	block := t.feed * max(1, (t.length/t.feed+rows-1)/rows)
	for n := 0; n < t.length; {
		next := min(n+block, t.length)
		turns := float64(next-n) / float64(t.feed)
		s := t.row(Travel, next, turns)
		count := t.forWork(turns)
		s.Seconds = t.seconds(count, t.spindle)
		t.move(Infeed, s.Number, t.at(next), count)
		n = next
	}
}

// cycle lays the way out and makes the cycle. removed is what a space loses,
// mm³.
func (t *travel) cycle(removed float64) Cycle {
	p := t.plan
	t.steps[0].Infeed = t.deepest
	t.end(p.Machine.Radial)
	return Cycle{
		Phases: t.phases, Steps: t.steps, Start: t.start, Lead: t.lead, Helix: p.helix(), Touch: p.Engaged.Touch, Full: t.full,
		Remainder: max(p.Engaged.Depth()-t.deepest, 0), Removed: removed, Moving: t.slide,
	}
}
