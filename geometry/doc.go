// Package geometry describes worm gear pairs, the hobs that cut their wheels
// and the tooth space that such a hob leaves, as pure functions on plain
// structs.
//
// # Units
//
// Lengths are millimetres, angles radians. Names ending in Diameter are
// diameters, all other names of round things are radii.
//
// # Frames
//
// The wheel's axis is Z and its centre the origin. The hob's axis stands at
// y = +E, E being the present centre distance, along +X when the swivel δ is
// 0; δ turns it about Y by the right-hand rule, +X toward −Z. A point of the
// hob at radius r, axial place u and angle φ from the direction that faces
// the wheel (−Y) toward +Z stands at
//
//	(u, E − r·cos φ, r·sin φ).
//
// h is +1 for right hand and −1 for left hand, p = z0·m0/2 the screw
// parameter of the hob, its lead over 2π. The hob turned by ψ about +X turns
// the wheel by θ = h·ψ·z0/z2 about +Z; a shift s of the hob along its own
// axis adds −2s/(m0·z2), at any swivel. Angles of points in the wheel's frame
// are measured clockwise from +Y, so that an arc on the −X side is negative.
//
// # Symbols
//
// Symbols follow ISO 701: index 0 is the hob, 1 the worm, 2 the wheel; m is
// the axial module, d a diameter, a a centre distance, γ a lead angle, α a
// pressure angle, x the profile shift of the wheel. Terms are those of
// ISO 1122-2.
package geometry
