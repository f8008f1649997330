package sheet

import "math"

// A point of a drawing.
type point struct{ x, y float64 }

// A field is a quantity on a net of points, by column and row.
type field struct {
	at    [][]point
	value [][]float64
}

// below returns the closed outlines of all that lies below a level. Along
// the rim of the net they follow it.
//
// Each cell of the net is taken as two triangles, on which the quantity is
// linear, so that an outline enters and leaves every triangle once and never
// branches. Outside the net the quantity is infinite.
func (f field) below(level float64) [][]point {
	columns := len(f.at)
	if columns < 2 {
		return nil
	}
	rows := len(f.at[0])
	// A node is a column and a row; one of the ring around the net stands
	// where its neighbour on the rim does.
	type node struct{ i, j int }
	value := func(n node) float64 {
		if n.i < 0 || n.j < 0 || n.i >= columns || n.j >= rows {
			return math.Inf(1)
		}
		return f.value[n.i][n.j]
	}
	place := func(n node) point { return f.at[min(max(n.i, 0), columns-1)][min(max(n.j, 0), rows-1)] }
	type edge struct{ in, out node } // in lies below the level
	crossing := func(e edge) point {
		a, b := place(e.in), place(e.out)
		va, vb := value(e.in), value(e.out)
		if math.IsInf(vb, 1) {
			return a
		}
		share := (level - va) / (vb - va)
		return point{a.x + share*(b.x-a.x), a.y + share*(b.y-a.y)}
	}
	next := map[edge]edge{}
	var order []edge // a map has none
	triangle := func(corners [3]node) {
		var from, to edge
		for k, n := range corners {
			a, b := value(n) < level, value(corners[(k+1)%3]) < level
			switch {
			case a && !b:
				from = edge{n, corners[(k+1)%3]}
			case b && !a:
				to = edge{corners[(k+1)%3], n}
			}
		}
		if from != to {
			next[from] = to
			order = append(order, from)
		}
	}
	for i := -1; i < columns; i++ {
		for j := -1; j < rows; j++ {
			a, b, c, d := node{i, j}, node{i + 1, j}, node{i + 1, j + 1}, node{i, j + 1}
			triangle([3]node{a, b, c})
			triangle([3]node{a, c, d})
		}
	}
	var outlines [][]point
	for _, begin := range order {
		var outline []point
		for e := begin; ; {
			to, ok := next[e]
			if !ok {
				break
			}
			delete(next, e)
			if p := crossing(e); len(outline) == 0 || p != outline[len(outline)-1] {
				outline = append(outline, p)
			}
			e = to
		}
		if len(outline) > 2 {
			outlines = append(outlines, outline)
		}
	}
	return outlines
}
