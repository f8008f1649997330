// Package train finds gear trains from the gears in a drawer and fractions
// for electronic gearboxes.
//
// # Sense of a ratio
//
// A ratio is what the last shaft turns for one turn of the first,
//
//	product of the drivers / product of the driven
//
// which on a lathe is the lead to cut over the lead of the leadscrew. The
// first driver sits on the spindle or the stud that turns with it, the last
// driven gear on the leadscrew; between them each stud carries a driven gear
// and the next driver, keyed together.
//
// # What counts as one train
//
// Trains with the same drivers and the same driven gears, in whatever order,
// are one train: it is shown in an order in which it mounts, if there is one.
// A tooth count may stand among the drivers and among the driven gears only if
// the drawer holds it twice. Such a pair cancels in the ratio but is kept: it
// can reach where the shorter train does not, and stands behind it for its
// size.
//
// # Mounting
//
// Gears in mesh stand m·(za + zb)/2 apart; a gear on a stud must clear the
// shafts beside it, by the rule of thumb or by the bushing given, and the
// studs must go between the first shaft and the last. A simple train that does
// not do so gets an idler from the drawer. See [Banjo].
//
// # Exactness
//
// A [Ratio] is a fraction times a power of π, never a float. Trains are sought
// with floats, but two trains whose errors are too close for those are told
// apart with whole numbers, so the order is the true one.
//
// Lengths are mm, errors parts in a million, unless a name says otherwise.
package train
