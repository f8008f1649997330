package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"

	"golang.org/x/perf/benchfmt"
	"golang.org/x/perf/benchunit"
	"gonum.org/v1/gonum/stat"
)

// A result is one benchmark: its name without the size, and what it took.
type result struct {
	name, key     string
	size          float64 // NaN where the name holds none
	seconds, peak float64 // for one run; peak are the bytes it allocated
}

// results are in the order in which they ran.
type results struct {
	processor string
	all       []result
}

// read gathers results in the format of go test.
func read(in io.Reader) (results, error) {
	var list results
	r := benchfmt.NewReader(in, "go test")
	for r.Scan() {
		b, ok := r.Result().(*benchfmt.Result)
		if !ok {
			continue // lines that tell of a package
		}
		list.processor = b.GetConfig("cpu")
		one := named(b.GetConfig("pkg"), b.Name)
		one.seconds, _ = b.Value("sec/op")
		one.peak, _ = b.Value("B/op")
		list.all = append(list.all, one)
	}
	return list, r.Err()
}

// named takes the size out of the name of a benchmark.
func named(pkg string, name benchfmt.Name) result {
	base, parts := name.Parts()
	_, folder, _ := strings.Cut(pkg, "/")
	one := result{name: folder + " " + string(base), size: math.NaN()}
	for _, part := range parts {
		key, value, _ := strings.Cut(strings.TrimPrefix(string(part), "/"), "=")
		size, err := strconv.ParseFloat(value, 64)
		switch {
		case part[0] != '/': // the number of processors
		case err == nil:
			one.key, one.size = key, size
		default:
			one.name += string(part)
		}
	}
	return one
}

// print lays the table, under each group of sizes the power of the size that
// fits it.
func (l results) print(out io.Writer) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "benchmark\tsize\ttime\tmemory\t")
	for i := 0; i < len(l.all); {
		group := l.group(i)
		for _, r := range group {
			size := ""
			if r.key != "" {
				size = fmt.Sprintf("%s %g", r.key, r.size)
			}
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t\n", r.name, size,
				benchunit.Scale(r.seconds, benchunit.Decimal)+"s", benchunit.Scale(r.peak, benchunit.Binary)+"B")
		}
		if time, memory, ok := powers(group); ok {
			fmt.Fprintf(w, "grows with\t%s\t^%.2f\t^%.2f\t\n", group[0].key, time, memory)
		}
		i += len(group)
	}
	return w.Flush()
}

// group is the run of results from the i-th on that differ only in size.
func (l results) group(i int) []result {
	first := l.all[i]
	n := i + 1
	for n < len(l.all) && first.key != "" && l.all[n].name == first.name && l.all[n].key == first.key {
		n++
	}
	return l.all[i:n]
}

// powers fits time and memory of a group by a power of its size, by least
// squares of the logarithms; ok is false for fewer than three sizes.
func powers(group []result) (time, memory float64, ok bool) {
	if len(group) < 3 {
		return 0, 0, false
	}
	var size, seconds, peak []float64
	for _, r := range group {
		size = append(size, math.Log(r.size))
		seconds = append(seconds, math.Log(r.seconds))
		peak = append(peak, math.Log(max(r.peak, 1)))
	}
	_, time = stat.LinearRegression(size, seconds, nil, false)
	_, memory = stat.LinearRegression(size, peak, nil, false)
	return time, memory, true
}
