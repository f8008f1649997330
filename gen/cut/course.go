package cut

import (
	"fmt"
	"math"

	"wormwright/gen"
)

// A stand is where hob and work stand at one moment.
type stand struct {
	seconds float64
	turn    float64 // of the hob
	work    float64 // angle θ of the work
	e, s, a float64 // centre distance, tangential and axial shift, mm
}

// between returns the stand that lies on the straight way from one to
// another where the hob has reached a turn.
func between(from, to *stand, turn float64) stand {
	f := (turn - from.turn) / (to.turn - from.turn)
	return stand{
		seconds: from.seconds + f*(to.seconds-from.seconds),
		turn:    turn,
		work:    from.work + f*(to.work-from.work),
		e:       from.e + f*(to.e-from.e),
		s:       from.s + f*(to.s-from.s),
		a:       from.a + f*(to.a-from.a),
	}
}

// A course is a stretch of a motion in which the hob turns one way.
//
// Between two knots everything is linear in the hob's turns. Knots at the
// same turn are moves under a standing hob: an edge that is just crossing a
// plane jumps there from one place to the next.
type course struct {
	sense float64 // +1 the hob's turns grow, -1 they fall
	knots []stand
}

// courses splits a motion where the hob's sense of turning changes. Moves
// under a hob that stands before it first turns, or after it last turned, cut
// nothing and are left out.
func courses(m gen.Motion) ([]course, error) {
	var list []course
	for i, k := range m {
		at := stand{k.Seconds, k.Hob, 2 * math.Pi * k.Work, k.Distance, k.Tangential, k.Axial}
		for _, v := range [...]float64{at.seconds, at.turn, at.work, at.e, at.s, at.a} {
			if !(math.Abs(v) <= math.MaxFloat64) {
				return nil, fmt.Errorf("motion: knot %d holds %g, want a number", i, v)
			}
		}
		if i == 0 {
			list = append(list, course{knots: []stand{at}})
			continue
		}
		c := &list[len(list)-1]
		last := c.knots[len(c.knots)-1]
		if !(at.seconds >= last.seconds) {
			return nil, fmt.Errorf("motion: knot %d at %g s, want no earlier than the one before, %g s", i, at.seconds, last.seconds)
		}
		switch way := at.turn - last.turn; {
		case way == 0 && c.sense == 0:
			c.knots[0] = at
		case c.sense == 0:
			c.sense = math.Copysign(1, way)
			c.knots = append(c.knots, at)
		case way*c.sense >= 0:
			c.knots = append(c.knots, at)
		default:
			list = append(list, course{sense: -c.sense, knots: []stand{last, at}})
		}
	}
	var turning []course
	for _, c := range list {
		if c.sense == 0 {
			continue
		}
		for n := len(c.knots); c.knots[n-1].turn == c.knots[n-2].turn; n = len(c.knots) {
			c.knots = c.knots[:n-1]
		}
		turning = append(turning, c)
	}
	return turning, nil
}

// span returns the index of the knot at which the straight stretch begins
// that holds the given turn: its beginning belongs to it, its end to the next.
// It is -1 before the course and len(knots)-1 from its end on. The search
// starts at a guess.
func (c *course) span(turn float64, guess int) int {
	i := min(max(guess, -1), len(c.knots)-1)
	for i >= 0 && c.knots[i].turn*c.sense > turn*c.sense {
		i--
	}
	for i+1 < len(c.knots) && c.knots[i+1].turn*c.sense <= turn*c.sense {
		i++
	}
	return i
}

// at returns the stand at a turn; i is its span, and outside the course the
// nearest stretch goes on.
func (c *course) at(turn float64, i int) stand {
	i = c.inside(i)
	return between(&c.knots[i], &c.knots[i+1], turn)
}

// inside is the nearest span to i that is one of the course's own.
func (c *course) inside(i int) int { return min(max(i, 0), len(c.knots)-2) }

// A line is the motion in one span as a gash sees it that stands on the line
// of centres at a certain turn: a point that crosses at the angle φ does so
// where hob and work stand at at − rate·φ.
type line struct {
	span     int
	from, to float64 // turns of the hob, times the sense: from ≤ turn < to
	at       stand
	rate     stand // per radian
}

// holds tells whether a turn, times the sense, is within the span.
func (l *line) holds(turn float64) bool { return l.from <= turn && turn < l.to }

// line returns that of span i, which goes on as the nearest stretch does where
// i is not one of the course's own.
func (c *course) line(i int, turn float64) line {
	l := line{span: i, from: math.Inf(-1), to: math.Inf(1), at: c.at(turn, i)}
	if i >= 0 {
		l.from = c.knots[i].turn * c.sense
	}
	if i+1 < len(c.knots) {
		l.to = c.knots[i+1].turn * c.sense
	}
	i = c.inside(i)
	p, q := &c.knots[i], &c.knots[i+1]
	k := 1 / (2 * math.Pi * (q.turn - p.turn))
	l.rate = stand{
		work: (q.work - p.work) * k,
		e:    (q.e - p.e) * k,
		s:    (q.s - p.s) * k,
		a:    (q.a - p.a) * k,
	}
	return l
}
