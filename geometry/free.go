package geometry

import "math"

// A PickUp is how a blank that nothing couples to its hob takes up a number of
// teeth as the hob first marks it. The hob's threads push its rim along as a
// screw does a nut, so that it rolls, and the marks stand as many to the turn
// as the pitch goes into the circle that rolls,
//
//	N = 2π·R/t.
//
// Lengths in mm.
type PickUp struct {
	Radius float64 // of the circle that the hob first touches
	Pitch  float64 // of the hob along the wheel's rim, t
}

// NewPickUp returns the pick-up of a blank that thread t, at a swivel δ, first
// touches on the circle radius. Threads follow each other along the rim by
//
//	t = π·m0/(cos δ + h·tan γ·sin δ),  tan γ = z0·m0/(2·ra),
//
// ra being the hob's tip radius, which does the touching: the axial pitch of a
// hob that stands square, whatever its starts, and the pitch square to the
// thread when it is swivelled as for a spur gear, δ = h·γ.
func NewPickUp(t Thread, swivel, radius float64) PickUp {
	sin, cos := math.Sincos(swivel)
	lead := t.Screw() / t.Tip
	return PickUp{Radius: radius, Pitch: math.Pi * t.Module / (cos + t.Hand.Sign()*lead*sin)}
}

// Count is how many teeth the blank takes up at first contact, whole only by
// luck.
func (p PickUp) Count() float64 { return p.count(p.Radius) }

func (p PickUp) count(radius float64) float64 { return 2 * math.Pi * radius / p.Pitch }

// Teeth is the whole number that is nearest to the count. The hob falls into
// its own marks after the first turn where it can, and cuts that many.
func (p PickUp) Teeth() int { return int(math.Round(p.Count())) }

// Miss is by how much the last space misses the first after one turn of the
// blank, as an arc on the circle of first contact: positive where a part of a
// space is left over, negative where the last one falls into the first.
func (p PickUp) Miss() float64 { return (p.Count() - math.Round(p.Count())) * p.Pitch }

// Rolling is the radius of the circle that rolls when the hob has gone in by a
// depth. Its threads then push along the whole height of their flanks, from
// the rim down to the bottom of the spaces, and the middle of that height is
// taken to roll; it is the rim at first contact and near the reference circle
// at full depth. No source; the truth lies between rim and bottom, R − depth.
func (p PickUp) Rolling(depth float64) float64 { return p.Radius - depth/2 }

// CountAt is how many teeth fit on the circle that rolls at a depth. It falls
// as the hob goes in, by depth/t·π, while the marks on the wheel stay as many
// as they were.
func (p PickUp) CountAt(depth float64) float64 { return p.count(p.Rolling(depth)) }

// Ratio is the turns of the blank in one of a hob of so many starts, without
// sign, when it has gone in by a depth and nothing guides it.
func (p PickUp) Ratio(starts int, depth float64) float64 {
	return float64(starts) / p.CountAt(depth)
}

// Radii are those of the circle of first contact between which a blank takes
// up so many teeth: half a tooth to both sides of the one that fits.
func (p PickUp) Radii(teeth int) (low, fit, high float64) {
	at := func(n float64) float64 { return n * p.Pitch / (2 * math.Pi) }
	n := float64(teeth)
	return at(n - 0.5), at(n), at(n + 0.5)
}

// Clear is the centre distance, in mm, at which the hob still stands in the
// gashes of a blank without cutting, wherever it is turned: as near as its own
// space stays within them in every plane. It is that of first touch where the
// gashes are too narrow for its teeth.
func (r Room) Clear(g Gash) float64 {
	touch, _ := r.blank.Touch(r.thread.Tip)
	e, err := Secant(func(e float64) float64 {
		return -r.across(func(z float64) float64 { return -r.spare(g, e, z) })
	}, r.distance, touch, 1e-6)
	if err != nil {
		return touch
	}
	return e
}

// spare is the least room between the space that the hob would cut at the
// centre distance e and the gash, in the plane z; negative where it would cut.
func (r Room) spare(g Gash, e, z float64) float64 {
	low, rim := r.lowest(e, z), r.blank.Radius(z)
	if !(low < rim) {
		return r.far()
	}
	bottom := g.Bottom(z)
	least := low - bottom
	if !(bottom < rim) {
		return least
	}
	swept := r.at(e)
	return min(least, -peak(func(at float64) float64 {
		_, right, ok := swept(z, at)
		edge, in := g.edge(z, at)
		if !ok || !in {
			return -r.far()
		}
		return (right - edge) * at
	}, max(low, bottom), rim))
}
