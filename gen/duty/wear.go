package duty

import (
	"math"

	"wormwright/geometry"
)

// A Casting is the way in which a bronze rim was cast.
type Casting int

const (
	Sand Casting = iota
	Chill
	Centrifugal
)

func (c Casting) String() string {
	return [...]string{"sand-cast", "chill-cast", "centrifugally cast"}[c]
}

// MaterialFactor is C_s of the AGMA rule for a centre distance a and a mean
// wheel diameter D_m in mm; in inches as C and D:
//
//	270 + 10.37·C³        C ≤ 3, any casting
//	1190 − 477·log10 D    sand-cast, above D = 2.5
//	1412 − 456·log10 D    chill-cast, above D = 8
//	1251 − 180·log10 D    centrifugally cast, above D = 25
//	1000                  below these
//
// (Shigley ch. 15, eq. 15-32 to 15-35, from memory.) The first line ends at
// 550 where the others begin at 1000; with 720 in place of 270 they would
// meet. The book's lower value is taken.
func MaterialFactor(c Casting, centres, mean float64) float64 {
	if in := centres / 25.4; small(centres) {
		return 270 + 10.37*in*in*in
	}
	line := [...]struct{ from, base, slope float64 }{{2.5, 1190, 477}, {8, 1412, 456}, {25, 1251, 180}}[c]
	if d := mean / 25.4; d > line.from {
		return line.base - line.slope*math.Log10(d)
	}
	return 1000
}

// small tells whether a centre distance is up to 3 in, where [MaterialFactor]
// has a line of its own. The last digits of a sum of diameters do not decide.
func small(centres float64) bool { return centres <= 3*25.4*(1+1e-9) }

// RatioFactor is C_m of the AGMA rule for a ratio i:
//
//	0.02·√(−i² + 40·i − 76) + 0.46       above 3, up to 20
//	0.0107·√(−i² + 56·i + 5145)          up to 76
//	1.1483 − 0.00658·i                   above
//
// (Shigley ch. 15, eq. 15-36, from memory). It is a fit to a table of
// ANSI/AGMA 6034 that ends at 100, and is used no further; below a ratio of 6
// that table, from memory too, is lower, by 5 % at 4. ok is false outside.
func RatioFactor(i float64) (cm float64, ok bool) {
	switch {
	case !(i > 3 && i <= 100):
		return 0, false
	case i <= 20:
		return 0.02*math.Sqrt(-i*i+40*i-76) + 0.46, true
	case i <= 76:
		return 0.0107 * math.Sqrt(-i*i+56*i+5145), true
	default:
		return 1.1483 - 0.00658*i, true
	}
}

// VelocityFactor is C_v of the AGMA rule for a sliding speed in m/s; in
// ft/min as V:
//
//	0.659·exp(−0.0011·V)    below 700
//	13.31·V^−0.571          below 3000
//	65.52·V^−0.774          up to 6000
//
// (Shigley ch. 15, eq. 15-37, and the scope of ANSI/AGMA 6034, from memory).
// The lines do not quite meet: it rises by 3.5 % at 700 and falls by 3 % at
// 3000. ok is false above.
func VelocityFactor(sliding float64) (cv float64, ok bool) {
	switch v := sliding / footPerMinute; {
	case !(v >= 0 && v <= 6000):
		return 0, false
	case v < 700:
		return 0.659 * math.Exp(-0.0011*v), true
	case v < 3000:
		return 13.31 * math.Pow(v, -0.571), true
	default:
		return 65.52 * math.Pow(v, -0.774), true
	}
}

// WearLoad is the tangential load in N that a bronze wheel may carry against
// a hardened and ground steel worm at a sliding speed in m/s,
//
//	F_t2 = C_s·D_m^0.8·F_e·C_m·C_v/75.948
//
// (Shigley ch. 15, eq. 15-28; the divisor turns lb and in into N and mm:
// ANSI/AGMA 6034; both from memory). ok is false where a factor has no value.
func WearLoad(p geometry.Pair, face float64, c Casting, sliding float64) (load float64, ok bool) {
	cm, ok1 := RatioFactor(p.Ratio())
	cv, ok2 := VelocityFactor(sliding)
	mean := MeanDiameter(p)
	cs := MaterialFactor(c, p.CentreDistance(), mean)
	if !ok1 || !ok2 || !(cs > 0) {
		return 0, false
	}
	return cs * math.Pow(mean, 0.8) * EffectiveFace(p, face) * cm * cv / 75.948, true
}

// wear is the AGMA rating of a bronze wheel, one for each way of casting it;
// alone and without a figure where the rule does not reach.
func wear(p geometry.Pair, face float64, material string, sliding Figure, speed float64) []Rating {
	const rule = "wear and pitting of the wheel's teeth"
	none := func(why string) []Rating {
		f := Figure{Limit: why}
		return []Rating{{Rule: rule, Tangential: f, Torque: f}}
	}
	_, ratio := RatioFactor(p.Ratio())
	switch {
	case material != "bronze":
		return none("no published rule is used for the wear of " + material)
	case !sliding.Known():
		return none(sliding.Limit)
	case !ratio:
		return none("the rule holds for ratios above 3 and up to 100 (from memory)")
	case speed > 3600 || sliding.Low > 6000*footPerMinute:
		return none("the rule holds up to 3600 turns/min of the worm and 6000 ft/min (30 m/s) of sliding (from memory)")
	}
	limit := "hardened and ground steel worm, well lubricated, even load, 25,000 h; a softer or rougher worm carries less"
	castings := []Casting{Sand, Chill, Centrifugal}
	if small(p.CentreDistance()) {
		castings = castings[:1]
		limit += "; up to 3 in of centres the line as printed, which ends at about half of what the rule gives just above: cautious"
	}
	var all []Rating
	for _, c := range castings {
		load, ok := WearLoad(p, face, c, sliding.Low)
		if !ok {
			return none("the wheel is larger than the rule reaches")
		}
		r := Rating{
			Rule: rule, Casting: c.String(),
			Tangential: single(load, shigley, limit),
			Torque:     single(load*MeanDiameter(p)/2000, shigley, limit),
		}
		if small(p.CentreDistance()) {
			r.Casting = "any casting"
		}
		all = append(all, r)
	}
	return all
}
