package train

import (
	"cmp"
	"slices"
)

// A stock is a drawer by tooth count.
type stock struct {
	teeth  []int  // each count once, from the smallest up
	copies []int  // how many gears have it
	lone   uint64 // bit i: there is one gear of teeth[i]
}

func newStock(drawer []int) stock {
	var s stock
	for _, z := range slices.Sorted(slices.Values(drawer)) {
		if n := len(s.teeth); n > 0 && s.teeth[n-1] == z {
			s.copies[n-1]++
			continue
		}
		s.teeth = append(s.teeth, z)
		s.copies = append(s.copies, 1)
	}
	for i, n := range s.copies {
		if n == 1 {
			s.lone |= 1 << i
		}
	}
	return s
}

func (s stock) gears() int { return sum(s.copies) }

// A side is the drivers or the driven gears of a train, in no order.
type side struct {
	product int64
	sum     int
	set     uint64   // bit i: teeth[i] is among them
	gears   [3]uint8 // places in teeth, from the smallest up
}

// sides returns every choice of n gears, by product. With 40 gears, all
// different, 9880 choices of three stand for 59280 orders.
func (s stock) sides(n int) []side {
	var all []side
	var choose func(from, i int, c side)
	choose = func(from, i int, c side) {
		if i == n {
			all = append(all, c)
			return
		}
		for g := from; g < len(s.teeth); g++ {
			used := 0
			for j := range i {
				if int(c.gears[j]) == g {
					used++
				}
			}
			if used == s.copies[g] {
				continue
			}
			with := c
			with.product *= int64(s.teeth[g])
			with.sum += s.teeth[g]
			with.set |= 1 << g
			with.gears[i] = uint8(g)
			choose(g, i+1, with)
		}
	}
	choose(0, 0, side{product: 1})
	slices.SortFunc(all, func(a, b side) int {
		return cmp.Or(cmp.Compare(a.product, b.product), slices.Compare(a.gears[:n], b.gears[:n]))
	})
	return all
}

// both reports whether the drawer holds the gears of two sides of n at once.
func (s stock) both(n int, a, b *side) bool {
	common := a.set & b.set
	if common == 0 {
		return true
	}
	if common&s.lone != 0 {
		return false
	}
	for _, g := range a.gears[:n] {
		used := 0
		for i := range n {
			if a.gears[i] == g {
				used++
			}
			if b.gears[i] == g {
				used++
			}
		}
		if used > s.copies[g] {
			return false
		}
	}
	return true
}
