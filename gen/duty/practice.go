package duty

import (
	"fmt"

	"wormwright/geometry"
)

// classes are ranges of sliding speed, with the oil that is usual for metal
// wheels in them. Common practice, no source; grades of ISO 3448.
var classes = [...]struct {
	below     float64 // m/s; 0 no end
	name, oil string
}{
	{slow, "hand motion", "grease for slow hand motion, or oil brushed on"},
	{0.5, "slow", "compounded gear oil about ISO VG 680, or a soft grease where there is no bath"},
	{2.5, "moderate", "compounded gear oil about ISO VG 460, worm or wheel dipping into it"},
	{10, "fast", "gear oil about ISO VG 320, worm or wheel dipping into it; watch how warm it gets"},
	{0, "very fast", "gear oil about ISO VG 220, sprayed into the mesh and cooled: ask a gear engineer"},
}

// slow is the sliding speed below which wear hardly counts, m/s. Common
// practice, no source.
const slow = 0.05

// practiceAt names the class of a sliding speed and a lubricant for it.
func practiceAt(sliding Figure, material string) (class, lubricant Note) {
	if material == "acetal" {
		lubricant = Note{"dry, or a light grease that suits acetal", practice}
	}
	if !sliding.Known() {
		return class, lubricant
	}
	row := classes[0]
	for i := 0; row.below != 0 && !(sliding.Low < row.below); {
		i++
		row = classes[i]
	}
	class = Note{row.name, practice}
	if material != "acetal" {
		lubricant = Note{row.oil, practice}
	}
	if material == "bronze" || material == "brass" {
		lubricant.Text += "; no sulphur additive (EP) with " + material
	}
	return class, lubricant
}

// basis is the life for which the AGMA rule is made, h (ANSI/AGMA 6034,
// from memory).
const basis = 25000

// A Life is how long a pair runs, all told.
type Life struct {
	Hours     Figure // h
	WormTurns Figure
	Meetings  Figure // of each wheel tooth with a thread of the worm: turns of the wheel
	Share     Figure // of the 25,000 h for which the AGMA rule is made
}

func life(p geometry.Pair, s Service) Life {
	why := Figure{Limit: "neither running hours nor turns are stated"}
	l := Life{why, why, why, why}
	if s.Hours == 0 && s.Turns == 0 {
		return l
	}
	hours, turns, known := s.Hours, s.Turns, s.Speed > 0
	switch {
	case known && turns == 0:
		turns = 60 * hours * s.Speed
	case known:
		hours = turns / (60 * s.Speed)
	}
	const limit = "at the stated speed"
	unknown := Figure{Limit: noSpeed}
	l.Hours, l.Share, l.WormTurns, l.Meetings = unknown, unknown, unknown, unknown
	if hours > 0 {
		l.Hours = single(hours, mechanics, limit)
		l.Share = single(hours/basis, scope, "shorter use is not turned into a higher load: no rule for it is used")
	}
	if turns > 0 {
		l.WormTurns = single(turns, mechanics, limit)
		l.Meetings = single(turns/p.Ratio(), mechanics, limit)
	}
	return l
}

// notes are the remarks that no single figure carries.
func notes(a Advice, material string) []Note {
	all := []Note{{
		"Never a brake: oil, wear, warmth and shaking lower the friction. Where running back could hurt, fit a brake or a stop of its own; local codes and qualified people decide.",
		"Mott, Machine Elements, 4th ed., sec. 8-10: never rely on it",
	}}
	add := func(source, format string, args ...any) {
		all = append(all, Note{fmt.Sprintf(format, args...), source})
	}
	if material != "bronze" {
		add(practice, "No published rule for friction or wear is used for %s: the ranges are assumed, and a trial under load decides.", material)
	}
	if material == "steel" {
		add(practice, "Steel on steel scuffs: only slow and well oiled, with one of the two hardened.")
	}
	if a.Sliding.Known() && a.Sliding.Low < slow {
		add(practice, "At this sliding speed wear hardly counts: the static load on the teeth and the torque to start decide.")
	}
	if fast := stuffs[material].fast; fast > 0 && a.Sliding.Low > fast {
		add(practice, "Sliding is faster than the %g m/s that %s usually stands: think of bronze.", fast, material)
	}
	if a.Life.Share.Known() && a.Life.Share.Low > 1 {
		add(scope, "The running time is above the 25,000 h for which the wear rule is made: expect to replace the wheel.")
	}
	return all
}
