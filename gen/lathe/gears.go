package lathe

import (
	"errors"
	"math/big"

	"wormwright/gen"
	"wormwright/gen/train"
)

// ErrNoGears reports a lathe file without change gears.
var ErrNoGears = errors.New("the lathe file lists no change gears")

// Gears finds the change gears for a thread: its lead over that of the
// leadscrew, with the lathe's own gearbox. The best are first.
func (c Cutting) Gears(l gen.Lathe, best int) (train.Result, error) {
	if len(l.Gears) == 0 {
		return train.Result{}, ErrNoGears
	}
	lead, err := LeadRatio(c.Thread.Starts, c.Thread.Module)
	if err != nil {
		return train.Result{}, err
	}
	screw, err := Screw(l.Screw)
	if err != nil {
		return train.Result{}, err
	}
	o := train.Options{Best: best}
	for _, f := range l.Gearbox {
		r, err := train.NewRatio(big.NewRat(int64(f.Over), int64(f.Under)), 0)
		if err != nil {
			return train.Result{}, err
		}
		o.Gearbox = append(o.Gearbox, r)
	}
	return train.Find(l.Gears, lead.Quo(screw), o)
}

// LeadRatio is the lead of a thread in mm, z·π·m, exactly.
func LeadRatio(starts int, module float64) (train.Ratio, error) {
	m, err := train.FromFloat(module)
	if err != nil {
		return train.Ratio{}, err
	}
	turn, err := train.NewRatio(big.NewRat(int64(starts), 1), 1)
	if err != nil {
		return train.Ratio{}, err
	}
	return m.Mul(turn), nil
}

// Screw is the lead of a leadscrew in mm, exactly.
func Screw(s gen.Screw) (train.Ratio, error) {
	if s.PerInch > 0 {
		n, err := train.FromFloat(s.PerInch)
		if err != nil {
			return train.Ratio{}, err
		}
		inch, err := train.NewRatio(big.NewRat(127, 5), 0)
		return inch.Quo(n), err
	}
	return train.FromFloat(s.Lead)
}
