package proof

import "wormwright/gen"

// joined puts a motion behind what was done before it, which ends where the
// motion begins, in phase with it.
func joined(before, m gen.Motion) gen.Motion {
	if len(before) == 0 {
		return m
	}
	end := before[len(before)-1]
	list := append(make(gen.Motion, 0, len(before)+len(m)), before...)
	for _, k := range m {
		k.Seconds += end.Seconds
		k.Hob += end.Hob
		k.Work += end.Work - m[0].Work
		list = append(list, k)
	}
	return list
}

// after are moments of a motion when it stands behind another, and before
// them the moment in which it begins.
func after(before gen.Motion, times []float64) []float64 {
	if len(before) == 0 {
		return times
	}
	begin := before[len(before)-1].Seconds
	list := []float64{begin}
	for _, t := range times {
		list = append(list, begin+t)
	}
	return list
}

// taken is what was removed by each of the last n moments since the one before
// them, or since the beginning where there is none.
func taken(removed []float64, n int) []float64 {
	first := len(removed) - n
	if first == 0 {
		return removed
	}
	list := make([]float64, n)
	for i, r := range removed[first:] {
		list[i] = r - removed[first-1]
	}
	return list
}
