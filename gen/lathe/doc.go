// Package lathe works out how the thread of a plan's worm, or of its hob, is
// cut on a lathe: blank, tool, passes, starts, speed and measurement, as pure
// functions of plain structs.
//
// Lengths are mm, angles radians, speeds mm/min and turns/min. Depths are
// radial, counted from the outside of the blank.
//
// # Where things stand
//
// The work turns forward, its near side downward on a lathe with the tool in
// front: clockwise seen from the headstock. A right-hand thread is then cut
// toward the headstock, a left-hand one away from it. The places of the tool
// are counted along its travel from where the full thread begins, and are
// those of the middle of its tip.
package lathe

// Cautions are printed on everything that a person takes to the lathe. They
// remind; local codes and qualified people decide.
var Cautions = []string{
	"Rotating work, chuck and change gears take hold of sleeves, hair, rags and gloves: guards on, none of these near.",
	"Chuck key out before the spindle starts. Eye protection. Emergency stop within reach.",
	"Support long work by the tailstock. Nothing may stand out of the headstock end.",
	"First a pass that only scratches the blank: measure its lead against a rule over several threads, then cut.",
	"Chips of a deep thread are sharp and strong: a hook with the spindle at rest, never fingers. No file, cloth or hand on a turning thread.",
	"Local codes and qualified people decide; this card does not replace them.",
}
