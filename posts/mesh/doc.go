// Package mesh makes closed surfaces of triangles of a wheel as it is cut, of
// its worm and of its hob, and writes them as 3MF and as binary STL, so that a
// pair can be printed in plastic and turned by hand before metal is cut.
//
// Lengths are mm. The wheel stands in the frames of package geometry: its axis
// is Z, its middle plane z = 0, space 0 about the direction +Y, angles counted
// clockwise from there. Worm and hob have their axis along Z too, the middle
// of the thread at the origin, a thread on the +X side at z = 0; the side that
// faces the wheel when tooth 0 stands on the line of centres is +X, so that a
// point (x, y, z) of them is mounted at (z, E − x, −y).
//
// Surfaces stay within a chord error of the true ones: half of it is spent
// between planes or columns, the rest along outlines. They are true to that
// at the places that are followed and between them; facets that a hob with
// very few gashes leaves are taken as they are at those places.
package mesh

// Chord is the usual chord error, mm.
const Chord = 0.01

// least is the smallest chord error, mm: coordinates are written in a
// hundredth of it.
const least = 0.001

// hair is the length below which neighbouring points are taken as one.
func hair(chord float64) float64 { return chord / 10 }
