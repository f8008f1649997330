package gen

import "slices"

// Cautions are printed on everything that a person takes to the machine.
// They remind; local codes and qualified people decide.
var Cautions = []string{
	"Rotating hob and open gears take hold of sleeves, hair, rags and gloves: guards on, none of these near.",
	"Eye protection. Emergency stop within reach. Never reach in while anything turns; chips by brush, with the hob at rest.",
	"Hold blank and arbor so that no cut can shift them. Keep cutting fluid off skin and floor.",
	"Run the air proof first, clear of the blank; then cut.",
	"Couple hob and work before touch. Never start, stop or reverse in the cut.",
	"A worm drive is not a brake and must not hold a load that can hurt; lifting gear is a matter for competent persons.",
	"Local codes and qualified people decide; this sheet does not replace them.",
}

// materialCautions are what a wheel's material adds. Common practice; the
// safety data sheet of what is really cut goes before them.
var materialCautions = map[string]string{
	"acetal":    "Acetal that gets hot gives off a gas that stings, and burns with a flame hard to see: sharp edges, fresh air, no sparks near its chips.",
	"aluminium": "Fine chips and dust of aluminium, and more so of magnesium alloys, can burn: sweep often, no sparks, dry sand or a class D extinguisher near, never water.",
	"brass":     "Brass may hold lead: do not blow its dust about, and wash before eating.",
	"bronze":    "Bronze may hold lead: do not blow its dust about, and wash before eating.",
	"cast iron": "Cast iron goes to dust: keep it from lungs and slides, draw it off, do not blow.",
	"steel":     "Steel chips are hot, long and sharp: a hook or a brush, never fingers.",
}

// Cautions are those of every cut and that of the wheel's material, before
// the last, which defers to others.
func (p *Plan) Cautions() []string {
	own, ok := materialCautions[p.Job.Wheel.Material]
	if !ok {
		return Cautions
	}
	return slices.Insert(slices.Clone(Cautions), len(Cautions)-1, own)
}
