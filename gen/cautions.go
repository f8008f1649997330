package gen

// Cautions are printed on everything that a person takes to the machine.
// They remind; local codes and qualified people decide.
var Cautions = []string{
	"Rotating hob and open gears take hold of sleeves, hair, rags and gloves: guards on, none of these near.",
	"Eye protection. Emergency stop within reach. Never reach in while anything turns.",
	"Run the air proof first, clear of the blank; then cut.",
	"Couple hob and work before touch. Never start, stop or reverse in the cut.",
	"A worm drive is not a brake and must not hold a load that can hurt.",
	"Local codes and qualified people decide; this sheet does not replace them.",
}
