package train

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// arranged is a train as brute force sees it: sorted gears, setting, error
// over the ratio, and whether any order of it mounts.
type arranged struct {
	drivers, driven []int
	setting         int
	off             *big.Rat
	mounts          bool
}

func (a arranged) String() string {
	return fmt.Sprintf("%v/%v by setting %d, mounts %v", a.drivers, a.driven, a.setting, a.mounts)
}

// brute tries every arrangement of 2, 4 and 6 gears of the drawer, each gear a
// thing of its own, with every setting.
func brute(drawer []int, want Ratio, o Options) []arranged {
	found := map[string]*arranged{}
	settings := o.Gearbox
	if len(settings) == 0 {
		settings = []Ratio{one()}
	}
	used := make([]bool, len(drawer))
	var row []int // driver, driven, driver, driven, ...
	visit := func() {
		var drivers, driven, rest []int
		for i, z := range row {
			if i%2 == 0 {
				drivers = append(drivers, z)
			} else {
				driven = append(driven, z)
			}
		}
		for i, z := range drawer {
			if !used[i] {
				rest = append(rest, z)
			}
		}
		stands := standsInMM(drivers, driven, rest, o.Banjo)
		a := arranged{drivers: slices.Sorted(slices.Values(drivers)), driven: slices.Sorted(slices.Values(driven))}
		for i, g := range settings {
			key := fmt.Sprint(a.drivers, a.driven, g)
			if found[key] == nil {
				with := a
				with.setting = i
				with.off = big.NewRat(1, 1)
				for j := range drivers {
					with.off.Mul(with.off, big.NewRat(int64(drivers[j]), int64(driven[j])))
				}
				with.off.Mul(with.off, g.value())
				with.off.Quo(with.off, want.value())
				with.off.Abs(with.off.Sub(with.off, big.NewRat(1, 1)))
				found[key] = &with
			}
			found[key].mounts = found[key].mounts || stands
		}
	}
	var place func()
	place = func() {
		if len(row) > 0 && len(row)%2 == 0 {
			visit()
		}
		if len(row) == o.Gears {
			return
		}
		for i, z := range drawer {
			if used[i] {
				continue
			}
			used[i] = true
			row = append(row, z)
			place()
			row = row[:len(row)-1]
			used[i] = false
		}
	}
	place()
	var all []arranged
	for _, a := range found {
		all = append(all, *a)
	}
	slices.SortFunc(all, func(a, b arranged) int {
		return cmp.Or(
			a.off.Cmp(b.off),
			cmp.Compare(sum(a.drivers)+sum(a.driven), sum(b.drivers)+sum(b.driven)),
			slices.Compare(a.drivers, b.drivers),
			slices.Compare(a.driven, b.driven),
			cmp.Compare(a.setting, b.setting))
	})
	return all
}

// standsInMM tries a train in the order given, in lengths.
func standsInMM(drivers, driven, rest []int, b Banjo) bool {
	const tol = 1e-6
	m := b.Module
	if m == 0 {
		m = 1
	}
	bushing := b.Bushing
	if bushing == 0 {
		bushing = m * (15 - 2) / 2
	}
	longest := b.MaxSpan
	if longest == 0 {
		longest = math.Inf(1)
	}
	mesh := func(x, y int) bool {
		return x+y >= b.MinSum && (b.MaxSum == 0 || x+y <= b.MaxSum)
	}
	tip := func(z int) float64 { return m * float64(z+2) / 2 }
	var d []float64
	var reach float64
	for i := range drivers {
		d = append(d, m*float64(drivers[i]+driven[i])/2)
		reach += d[i]
	}
	n := len(d)
	if n == 1 {
		if mesh(drivers[0], driven[0]) && reach >= b.MinSpan-tol && reach <= longest+tol {
			return true
		}
		for _, z := range rest {
			reach := d[0] + m*float64(z)
			s := min(reach, longest)
			if mesh(drivers[0], z) && mesh(z, driven[0]) && s >= b.MinSpan-tol && s >= tip(drivers[0])+tip(driven[0])+m/2-tol {
				return true
			}
		}
		return false
	}
	for i := range d {
		if !mesh(drivers[i], driven[i]) {
			return false
		}
		if i > 0 && (tip(drivers[i])+bushing > d[i-1]+tol || tip(driven[i-1])+bushing > d[i]+tol) {
			return false
		}
	}
	s := min(reach, longest)
	if s < b.MinSpan-tol || tip(drivers[0])+bushing > s+tol || tip(driven[n-1])+bushing > s+tol {
		return false
	}
	if n == 2 {
		return s >= math.Abs(d[0]-d[1])-tol
	}
	p := max(tip(drivers[0]), tip(driven[1]), tip(drivers[2])) + bushing
	q := max(tip(driven[0]), tip(drivers[1]), tip(driven[2])) + bushing
	// What opens says is held to a sweep by TestOpens.
	return opens(d[0], d[1], d[2], s, p, q)
}

func drawBanjo(t *rapid.T) Banjo {
	var b Banjo
	if rapid.Bool().Draw(t, "sums") {
		b.MinSum = rapid.IntRange(0, 90).Draw(t, "least sum")
		b.MaxSum = b.MinSum + rapid.IntRange(5, 120).Draw(t, "more")
	}
	if rapid.Bool().Draw(t, "lengths") {
		b.Module = 2 // so that a tooth is a millimetre
		b.Bushing = float64(rapid.IntRange(0, 40).Draw(t, "bushing"))
		b.MinSpan = float64(rapid.IntRange(0, 220).Draw(t, "least span"))
		if rapid.Bool().Draw(t, "bounded") {
			b.MaxSpan = max(1, b.MinSpan+float64(rapid.IntRange(0, 60).Draw(t, "longer")))
		}
	}
	return b
}

// The search finds what trying every arrangement finds, in the same order:
// with gears that are there twice, with ties, settings and limits.
func TestFindIsComplete(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Few tooth counts, with common factors, make pairs and ties.
		teeth := rapid.SampledFrom([]int{20, 24, 30, 35, 36, 40, 45, 50, 60, 60, 63, 80, 97, 127})
		o := Options{
			Best:  rapid.IntRange(1, 40).Draw(t, "best"),
			Gears: rapid.SampledFrom([]int{2, 4, 6}).Draw(t, "gears"),
			All:   rapid.Bool().Draw(t, "all"),
			Banjo: drawBanjo(t),
		}
		most := 9
		if o.Gears == 6 {
			most = 7
		}
		drawer := rapid.SliceOfN(teeth, 1, most).Draw(t, "drawer")
		ratio := func(name string) Ratio {
			q := big.NewRat(1, 1)
			for range rapid.IntRange(0, 2).Draw(t, name+" pairs") {
				q.Mul(q, big.NewRat(int64(teeth.Draw(t, name)), int64(teeth.Draw(t, name))))
			}
			r, err := NewRatio(q, rapid.IntRange(-1, 1).Draw(t, name+" pi")*rapid.IntRange(0, 1).Draw(t, name+" has pi"))
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		for range rapid.IntRange(0, 3).Draw(t, "settings") {
			o.Gearbox = append(o.Gearbox, ratio("setting"))
		}
		checkAgainstBrute(t, drawer, ratio("want"), o)
	})
}

func checkAgainstBrute(t rapid.TB, drawer []int, want Ratio, o Options) {
	t.Helper()
	got, err := Find(drawer, want, o)
	if err != nil {
		t.Fatal(err)
	}
	all := brute(drawer, want, o)
	var listed []arranged
	for _, a := range all {
		if (a.mounts || o.All) && len(listed) < o.Best {
			listed = append(listed, a)
		}
	}
	if len(got.Trains) != len(listed) {
		t.Fatalf("%d trains, want %d: %v", len(got.Trains), len(listed), listed)
	}
	for i, g := range got.Trains {
		checkTrain(t, g, listed[i], drawer, want, o)
	}
	switch {
	case len(all) == 0:
		if len(got.Nearest.Drivers) > 0 || got.Why == "" {
			t.Fatalf("no train is possible, have %+v", got)
		}
		return
	case len(listed) > 0 && listed[0].off.Cmp(all[0].off) == 0:
		checkTrain(t, got.Nearest, listed[0], drawer, want, o)
	default:
		checkTrain(t, got.Nearest, all[0], drawer, want, o)
	}
	if exact := len(got.Trains) > 0 && got.Trains[0].Exact; exact != (got.Why == "") {
		t.Fatalf("why %q with trains %+v", got.Why, got.Trains)
	}
}

// checkTrain holds a train to that of brute force, and the order in which it
// is shown to the limits.
func checkTrain(t rapid.TB, got Train, want arranged, drawer []int, ratio Ratio, o Options) {
	t.Helper()
	setting := one()
	if len(o.Gearbox) > 0 {
		setting = o.Gearbox[want.setting]
	}
	if !slices.Equal(slices.Sorted(slices.Values(got.Drivers)), want.drivers) ||
		!slices.Equal(slices.Sorted(slices.Values(got.Driven)), want.driven) ||
		got.Gearbox.String() != setting.String() ||
		got.Mounts != want.mounts || got.Mounts != (got.Why == "") {
		t.Fatalf("have %+v, want %v", got, want)
	}
	off, _ := want.off.Float64()
	if math.Abs(math.Abs(got.PPM)-1e6*off) > 1e-9*off || got.Exact != (off == 0) && ratio.pi == 0 {
		t.Fatalf("have %v ppm, exact %v, want %v ppm", got.PPM, got.Exact, 1e6*off)
	}
	rest := slices.Clone(drawer)
	for _, z := range slices.Concat(got.Drivers, got.Driven) {
		i := slices.Index(rest, z)
		if i < 0 {
			t.Fatalf("%+v is not in the drawer %v", got, drawer)
		}
		rest = slices.Delete(rest, i, i+1)
	}
	if got.Idler > 0 {
		if !slices.Contains(rest, got.Idler) || len(got.Drivers) != 1 {
			t.Fatalf("%+v: no such idler in the drawer %v", got, drawer)
		}
	}
	idler := []int{got.Idler}
	if got.Idler == 0 {
		idler = nil
	}
	if got.Mounts && !standsInMM(got.Drivers, got.Driven, idler, o.Banjo) {
		t.Fatalf("%+v does not stand in the order shown", got)
	}
}

// A drawer of 10 gears with many equal trains, and ratios out of its reach.
func TestFindIsCompleteFourGears(t *testing.T) {
	drawer := []int{20, 24, 30, 36, 40, 40, 50, 60, 80, 127}
	for _, want := range []string{"1", "1/2", "127/90", "pi*2/3", "pi/25.4", "63/80", "1e-9", "1e9"} {
		for _, best := range []int{1, 4, 100} {
			checkAgainstBrute(t, drawer, must(t, want), Options{Best: best, Gears: 4})
		}
	}
}

// All trains of 24 gears by going through all pairs of triples, in whole
// numbers and without any stop: 2.7 million trains, 97 million arrangements.
func TestFindIsCompleteSixGears(t *testing.T) {
	drawer := drawerOf(24)
	const over, under = 355, 113
	type triple struct {
		product int64
		set     uint64
		teeth   []int
	}
	var triples []triple
	for i := range drawer {
		for j := range i {
			for k := range j {
				teeth := []int{drawer[k], drawer[j], drawer[i]}
				slices.Sort(teeth)
				triples = append(triples, triple{product(teeth), 1<<i | 1<<j | 1<<k, teeth})
			}
		}
	}
	type train struct {
		off             *big.Rat
		teeth           int
		drivers, driven []int
	}
	// The errors of the nearest are worked out, those under 50 ppm.
	var near []train
	arrangements := 0
	for _, a := range triples {
		for _, b := range triples {
			if a.set&b.set != 0 {
				continue
			}
			arrangements += 36
			x, y := a.product*under, b.product*over
			if d := max(x-y, y-x); d*20_000 < y {
				off := big.NewRat(d, y)
				near = append(near, train{off, sum(a.teeth) + sum(b.teeth), a.teeth, b.teeth})
			}
		}
	}
	if arrangements != 24*23*22*21*20*19 {
		t.Errorf("%d arrangements, want all", arrangements)
	}
	slices.SortFunc(near, func(a, b train) int {
		return cmp.Or(a.off.Cmp(b.off), cmp.Compare(a.teeth, b.teeth),
			slices.Compare(a.drivers, b.drivers), slices.Compare(a.driven, b.driven))
	})
	f := finder{newStock(drawer), free, must(t, "355/113"), []Ratio{one()}}
	search := f.search(20, false)
	if err := search.pairs(3); err != nil || len(near) < 20 || len(search.kept) != 20 {
		t.Fatalf("%d trains, %v; %d by force", len(search.kept), err, len(near))
	}
	for i, p := range search.kept {
		o := f.order(p)
		if !slices.Equal(o.a[:], near[i].drivers) || !slices.Equal(o.b[:], near[i].driven) {
			t.Errorf("train %d is %v/%v, want %v/%v", i, o.a, o.b, near[i].drivers, near[i].driven)
		}
	}
}
