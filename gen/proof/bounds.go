package proof

import (
	"math"

	"wormwright/gen"
)

// bounds holds the motion against travels, rates and depth, at the slow and
// the fast end of the spindle's tolerance.
func (v *prover) bounds(blocks []gen.Block) {
	p := v.plan
	m := p.Machine
	told := map[string]bool{}
	once := func(what string, severity gen.Severity, line int, remedy, format string, args ...any) {
		if !told[what] {
			told[what] = true
			v.find(severity, line, remedy, format, args...)
		}
	}
	fast := v.slow
	if m.Drive.Kind != gen.Coordinated {
		fast = gen.Follow(p, blocks, 1+m.Spindle.Tolerance)
	}
	slides := [...]struct {
		name  string
		slide gen.Slide
		of    func(gen.Place) float64
	}{
		{"radial", m.Radial, func(at gen.Place) float64 { return at.Distance }},
		{"tangential", m.Tangential, func(at gen.Place) float64 { return at.Tangential }},
		{"axial", m.Axial, func(at gen.Place) float64 { return at.Axial }},
	}
	var low, high [3]float64
	for i := range slides {
		low[i] = slides[i].of(v.slow[0].Place)
		high[i] = low[i]
	}
	for i := 1; i < len(v.slow); i++ {
		from, to := v.slow[i-1], v.slow[i]
		for j, s := range slides {
			low[j], high[j] = min(low[j], s.of(to.Place)), max(high[j], s.of(to.Place))
			if s.slide.Travel > 0 && high[j]-low[j] > s.slide.Travel {
				once(s.name, gen.Error, to.Line, "shorten the way", "the %s slide would travel %s, it has %s", s.name, v.length(high[j]-low[j]), v.length(s.slide.Travel))
			}
			const rest = 1e-9 // mm, less is what is left of rounding
			way := math.Abs(s.of(to.Place) - s.of(from.Place))
			rate := way / (to.Seconds - from.Seconds) * 60
			if s.slide.Feed > 0 && !to.Rapid && way > rest && rate > s.slide.Feed*(1+1e-6) {
				once(s.name+" feed", gen.Error, to.Line, "lower the feed", "the %s slide would go at %s/min, it can %s/min", s.name, v.length(rate), v.length(s.slide.Feed))
			}
		}
		for _, r := range [...]struct {
			name  string
			axis  gen.Rotary
			turns float64
		}{
			{"hob", m.Hob, (fast[i].Hob - fast[i-1].Hob) / (fast[i].Seconds - fast[i-1].Seconds) * 60},
			{"work", m.Work, (fast[i].Work - fast[i-1].Work) / (fast[i].Seconds - fast[i-1].Seconds) * 60},
		} {
			if r.axis.Rate > 0 && math.Abs(r.turns) > r.axis.Rate*(1+1e-3) {
				once(r.name+" rate", gen.Error, to.Line, "lower the speed", "the %s would turn at %s turns/min, it can %s",
					r.name, gen.Fixed(math.Abs(r.turns), 2), gen.Fixed(r.axis.Rate, 2))
			}
		}
		if over := p.Cycle.Full - to.Distance; over > v.resolution() && v.cuts(stretch{from, to}) {
			once("depth", gen.Error, to.Line, "stop at the plan's depth", "goes %s deeper than full depth", v.length(over))
		}
	}
	for _, b := range blocks {
		s := math.Abs(b.Speed)
		if s > 0 && (m.Spindle.Fastest > 0 && s > m.Spindle.Fastest || s < m.Spindle.Slowest) {
			once("spindle", gen.Error, b.Line, "give a speed that the spindle has", "spindle speed %s turns/min, it has %s to %s",
				gen.Fixed(s, 1), gen.Fixed(m.Spindle.Slowest, 1), gen.Fixed(m.Spindle.Fastest, 1))
		}
	}
}
