package proof

import "wormwright/gen"

// Heaviest is what the heaviest work turn of a plan asks of the machine when
// its cycle is run as meant, from a cut in memory.
func Heaviest(p *gen.Plan) (Load, error) {
	v := &prover{plan: p, options: Options{Coarse: true, Strict: true}, meant: p.Cycle.Motion()}
	v.slow = v.meant
	err := v.wheel()
	return v.report.Load, err
}
