package duty

import "math"

// footPerMinute is 1 ft/min in m/s.
const footPerMinute = 0.3048 / 60

// AGMAFriction is the coefficient of friction of a steel worm on a bronze
// wheel at a sliding speed in m/s, V being that speed in ft/min:
//
//	μ = 0.15                                  at rest
//	μ = 0.124·exp(−0.074·V^0.645)             up to 10 ft/min
//	μ = 0.103·exp(−0.110·V^0.450) + 0.012     above
//
// (Shigley ch. 15, eq. 15-38, from memory). The three do not quite meet: it
// falls by 0.026 as motion begins and by 0.002 at 10 ft/min.
func AGMAFriction(sliding float64) float64 {
	v := sliding / footPerMinute
	switch {
	case v == 0:
		return 0.15
	case v <= 10:
		return 0.124 * math.Exp(-0.074*math.Pow(v, 0.645))
	default:
		return 0.103*math.Exp(-0.110*math.Pow(v, 0.450)) + leastFriction
	}
}

// leastFriction is what the AGMA rule falls to at great speed. No rule used
// here gives less at any speed.
const leastFriction = 0.012

// handbookRows are coefficients of friction of hard steel on phosphor bronze
// (Mechanical Engineer's Data Handbook, p. 100).
var handbookRows = [...]struct{ sliding, friction float64 }{
	{0.5, 0.06}, {1, 0.05}, {2, 0.035}, {5, 0.023}, {10, 0.017}, {20, 0.014},
}

// HandbookFriction is the coefficient of friction of hard steel on phosphor
// bronze at a sliding speed in m/s, from the table of the Mechanical
// Engineer's Data Handbook, p. 100. Between two rows it is a straight line
// over the logarithm of the speed. The table runs from 0.5 to 20 m/s; ok is
// false outside.
func HandbookFriction(sliding float64) (friction float64, ok bool) {
	if sliding == handbookRows[0].sliding {
		return handbookRows[0].friction, true
	}
	for i := 1; i < len(handbookRows); i++ {
		if a, b := handbookRows[i-1], handbookRows[i]; sliding > a.sliding && sliding <= b.sliding {
			t := math.Log(sliding/a.sliding) / math.Log(b.sliding/a.sliding)
			return a.friction + (b.friction-a.friction)*t, true
		}
	}
	return 0, false
}

// A stuff is what a wheel is made of, running with a steel worm. Only the
// friction of bronze is published in the rules used here; all else is common
// practice with no source, stresses from memory and on the low side.
type stuff struct {
	rest    [2]float64 // coefficient of friction at rest, from and to
	worse   float64    // running friction is up to so many times that of bronze
	bending float64    // stress that a tooth may carry, MPa
	fast    float64    // sliding speed above which the material is out of place, m/s; 0 none
}

var stuffs = map[string]stuff{
	"bronze":    {rest: [2]float64{0.10, 0.15}, worse: 1, bending: 55},
	"cast iron": {rest: [2]float64{0.10, 0.20}, worse: 1.5, bending: 35, fast: 2},
	"brass":     {rest: [2]float64{0.10, 0.20}, worse: 1.5, bending: 40, fast: 2},
	"aluminium": {rest: [2]float64{0.10, 0.25}, worse: 2, bending: 40, fast: 1},
	"steel":     {rest: [2]float64{0.10, 0.20}, worse: 2, bending: 100, fast: 1},
	"acetal":    {rest: [2]float64{0.05, 0.35}, bending: 15, fast: 1},
}

const (
	onBronze = "holds for a hard, smooth steel worm on bronze, well lubricated; a worm as turned, a dry or a dirty mesh has more"
	asBase   = "printed for steel on bronze; here only the base of an assumption, since no published rule is used for "
)

// published returns the coefficients of friction by the two published rules.
func published(sliding Figure, material string) (agma, table Figure) {
	limit := onBronze
	if material != "bronze" {
		limit = asBase + material
	}
	switch {
	case !sliding.Known():
		return Figure{Limit: sliding.Limit}, Figure{Limit: sliding.Limit}
	case material == "acetal":
		const limit = "printed for steel on bronze; says nothing of acetal"
		return Figure{Limit: limit}, Figure{Limit: limit}
	}
	agma = single(AGMAFriction(sliding.Low), shigley, limit)
	table = Figure{Limit: "the table runs from 0.5 to 20 m/s of sliding speed"}
	if mu, ok := HandbookFriction(sliding.Low); ok {
		table = single(mu, handbook+", straight lines over the logarithm of speed between its rows", limit)
	}
	return agma, table
}

// standing is the friction that a start from rest has to overcome.
func standing(material string) Figure {
	s := stuffs[material]
	f := between(s.rest[0], s.rest[1], practice, "assumed: no published rule is used for "+material+" at rest")
	if material == "bronze" {
		f.Source = "upper end: " + shigley + ", at rest; lower end: " + practice
		f.Limit = onBronze
	}
	return f
}

// running is the friction at the stated speed: from the lower to the higher
// of the published rules for bronze, widened upward for other metals.
func running(sliding, agma, table Figure, material string) Figure {
	s := stuffs[material]
	switch {
	case !sliding.Known():
		return Figure{Limit: sliding.Limit}
	case material == "acetal":
		return between(s.rest[0], s.rest[1], practice,
			"assumed at any speed, from greased to dry: no published rule is used for acetal")
	}
	low, high := agma.Low, agma.High
	source := shigley
	if table.Known() {
		low, high = min(low, table.Low), max(high, table.High)
		source = "from the lower to the higher of " + shigley + " and " + handbook
	}
	if material == "bronze" {
		return between(low, high, source, onBronze)
	}
	return between(low, high*s.worse, practice,
		"assumed, from that of bronze upward: no published rule is used for "+material)
}
