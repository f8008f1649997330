package train

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
)

// Options say what trains to look for. The zero Options ask for the best 20
// trains of up to 6 gears that pass the rule of thumb for mounting.
type Options struct {
	Best    int     // how many trains to return, 0 for 20
	Gears   int     // most gears in a train, 2, 4 or 6; 0 for 6
	Gearbox []Ratio // settings of the lathe's own gearbox, one of which is in use; none for 1
	Banjo   Banjo
	All     bool // list trains that do not mount as well
}

// A Result is what a drawer can do.
type Result struct {
	Trains  []Train // the best, in order
	Nearest Train   // Trains[0], or where none listed is as near, the best that does not mount; no gears where the drawer makes no train
	Why     string  // why no listed train is exact, empty where one is
}

// Bounds that keep the longest search to seconds.
const (
	mostGears   = 50 // in a drawer
	mostBest    = 1000
	mostGearbox = 100
	fewestTeeth = 6 // the leaves of a small pinion
	mostTeeth   = 1000
)

// Find returns the best trains of 2, 4 or 6 gears of the drawer, a list of
// tooth counts in which a gear that is there twice stands twice. Trains are
// ranked by the size of their error, then by their teeth in all, then by
// drivers, by driven gears (each from the smallest up) and by the place of the
// gearbox setting in its list. The list is complete: no train is better than
// the last and missing.
//
// An error reports numbers that no drawer or banjo has, or a banjo on which so
// little mounts that a large drawer cannot be searched in seconds. That nothing
// is exact, or mounts, is no error: the result says so.
func Find(drawer []int, want Ratio, o Options) (Result, error) {
	o, err := o.check(drawer, want)
	if err != nil {
		return Result{}, err
	}
	l, err := o.Banjo.limits()
	if err != nil {
		return Result{}, err
	}
	f := finder{newStock(drawer), l, want, o.Gearbox}
	var r Result
	if r.Trains, err = f.best(o.Best, o.Gears, !o.All); err != nil {
		return Result{}, err
	}
	if len(r.Trains) > 0 && r.Trains[0].Exact {
		r.Nearest = r.Trains[0]
		return r, nil
	}
	all, err := f.best(1, o.Gears, false)
	if err != nil {
		return Result{}, err
	}
	if len(all) > 0 {
		r.Nearest = all[0]
	}
	if len(r.Trains) > 0 && want.sameError(r.Trains[0], r.Nearest) {
		r.Nearest = r.Trains[0]
	}
	r.Why = f.why(r, o.Gears)
	return r, nil
}

func (o Options) check(drawer []int, want Ratio) (Options, error) {
	if o.Best == 0 {
		o.Best = 20
	}
	if o.Gears == 0 {
		o.Gears = 6
	}
	if len(o.Gearbox) == 0 {
		o.Gearbox = []Ratio{one()}
	}
	switch {
	case want.q == nil:
		return o, errNoRatio
	case len(drawer) == 0:
		return o, errors.New("drawer: want gears, have none")
	case len(drawer) > mostGears:
		return o, fmt.Errorf("drawer: want %d gears or fewer, have %d", mostGears, len(drawer))
	case o.Best < 1 || o.Best > mostBest:
		return o, fmt.Errorf("number of trains: want 1 to %d, have %d", mostBest, o.Best)
	case o.Gears != 2 && o.Gears != 4 && o.Gears != 6:
		return o, fmt.Errorf("gears of a train: want 2, 4 or 6, have %d", o.Gears)
	case len(o.Gearbox) > mostGearbox:
		return o, fmt.Errorf("gearbox: want %d settings or fewer, have %d", mostGearbox, len(o.Gearbox))
	}
	for _, z := range drawer {
		if z < fewestTeeth || z > mostTeeth {
			return o, fmt.Errorf("drawer: want gears of %d to %d teeth, have %d", fewestTeeth, mostTeeth, z)
		}
	}
	for _, g := range o.Gearbox {
		if g.q == nil {
			return o, fmt.Errorf("gearbox: %w", errNoRatio)
		}
	}
	return o, nil
}

// sameError reports whether two trains are equally far from r.
func (r Ratio) sameError(a, b Train) bool {
	off := func(t Train) *big.Rat {
		d := t.total().Quo(r).value()
		return d.Abs(d.Sub(d, big.NewRat(1, 1)))
	}
	return off(a).Cmp(off(b)) == 0
}

// why says why no listed train is exact.
func (f finder) why(r Result, gears int) string {
	switch {
	case f.stock.gears() < 2:
		return fmt.Sprintf("a train takes 2 gears or more, the drawer has 1, of %d teeth", f.teeth[0])
	case r.Nearest.Exact:
		return "the exact train does not mount: " + r.Nearest.Why
	case len(r.Trains) == 0:
		return "no train mounts, the nearest because " + r.Nearest.Why
	}
	reason := ""
	for _, g := range f.gearbox {
		left := f.want.Quo(g)
		missing := f.leftover(left.q.Num())
		if missing.Cmp(unit) == 0 {
			missing = f.leftover(left.q.Denom())
		}
		switch {
		case left.pi == 0 && missing.Cmp(unit) == 0:
			return fmt.Sprintf("no train of up to %d gears of the drawer is exact", gears)
		case reason != "":
		case left.pi != 0:
			reason = "pi is not a fraction, so no train is exact"
		default:
			reason = fmt.Sprintf("%s needs the factor %s, which no gear of the drawer has", left, missing)
		}
	}
	return reason
}

var unit = big.NewInt(1)

// leftover returns what is left of n without the factors that it shares with
// gears.
func (s stock) leftover(n *big.Int) *big.Int {
	left := new(big.Int).Set(n)
	for _, z := range s.teeth {
		for {
			d := new(big.Int).GCD(nil, nil, left, big.NewInt(int64(z)))
			if d.Cmp(unit) == 0 {
				break
			}
			left.Quo(left, d)
		}
	}
	return left
}

// A finder is a drawer, a ratio and the limits of mounting.
type finder struct {
	stock
	limits
	want    Ratio
	gearbox []Ratio
}

// best returns the k best trains of up to so many gears.
func (f finder) best(k, gears int, mounted bool) ([]Train, error) {
	s := f.search(k, mounted)
	for n := 1; 2*n <= gears; n++ {
		if err := s.pairs(n); err != nil {
			return nil, err
		}
	}
	trains := make([]Train, 0, len(s.kept))
	for _, p := range s.kept {
		trains = append(trains, f.dress(p))
	}
	return trains, nil
}

// dress shows a train in the order in which it has the most room, or, where
// it does not mount, would have.
func (f finder) dress(p pick) Train {
	o, ok := f.roomiest(f.order(p))
	if !ok && p.n == 1 {
		o = f.order(p)
		ok = f.bridges(&o, f.spare(p), f.teeth)
	}
	t := Train{Gearbox: f.gearbox[p.target.setting], Mounts: ok}
	if !ok {
		o, _ = free.roomiest(f.order(p))
		t.Why = f.fault(o)
		if p.n == 1 {
			t.Why += ", and no gear left in the drawer bridges it as an idler"
		}
	}
	t.Drivers = slices.Clone(o.a[:o.n])
	t.Driven = slices.Clone(o.b[:o.n])
	t.Idler = o.idler
	have := t.total()
	t.Ratio = have.Float64()
	t.PPM = f.want.PPM(have)
	exact := have.Quo(f.want)
	t.Exact = exact.pi == 0 && exact.q.Cmp(big.NewRat(1, 1)) == 0
	return t
}
