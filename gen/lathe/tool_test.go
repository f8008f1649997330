package lathe

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wormwright/geometry"
)

func mustTools(t testing.TB, th geometry.Thread, addendum, room float64) []Tool {
	t.Helper()
	tools, err := NewTools(th, addendum, room)
	if err != nil {
		t.Fatal(err)
	}
	return tools
}

// The 29° worm thread of Brown & Sharpe (Machinery's Handbook, worm thread
// proportions, from memory): for an axial pitch of 1, whole depth 0.6866,
// width of the tool at its end 0.310, width of the thread at the top 0.335.
func TestHandbookWormThread(t *testing.T) {
	m := 1 / math.Pi
	th := geometry.Thread{
		Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: m, Reference: 1.5,
		Tip: 1.5 + 0.3183, Root: 1.5 + 0.3183 - 0.6866, Pressure: 14.5 * degree, Thickness: 0.5,
	}
	tool := mustTools(t, th, m, 0.05)[0]
	near(t, "tip width", tool.TipWidth, 0.310, 6e-4) // printed 0.31, three figures at best
	near(t, "included angle", 2*tool.Edge/degree, 29, 1e-12)
	half, err := th.Profile()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "top", 2*half(th.Tip), 0.335, 6e-4)
}

// ISO 53, basic rack A: clearance 0.25 m at 20° takes a fillet of 0.38 m
// (from memory); 0.25/(1 − sin 20°) = 0.37995.
func TestRackFillet(t *testing.T) {
	th := geometry.Thread{
		Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 1, Reference: 10,
		Tip: 11, Root: 8.75, Pressure: 20 * degree, Thickness: math.Pi / 2,
	}
	near(t, "rounding", mustTools(t, th, 1, 0.25)[0].Rounding, 0.38, 5e-4)
	// Two arcs of 0.47191 fill the tip of 2·0.33044: by hand, 0.66087/2·tan 55°.
	near(t, "rounding by width", mustTools(t, th, 1, 5)[0].Rounding, 0.47191, 5e-5)
}

// By hand: m 3, two starts, d1 44 as in Elements of Metric Gear Technology,
// sec. 9 (γ 7.76517°), root 36.5: p = 3, γf = atan(3/18.25) = 9.33500°,
// γa = atan(3/25) = 6.84277°. Clearance 2° + γf − γa = 4.49223°.
func TestSideRelief(t *testing.T) {
	th := geometry.Thread{
		Form: geometry.ZA, Hand: geometry.Right, Starts: 2, Module: 3, Reference: 22,
		Tip: 25, Root: 18.25, Pressure: 20.170236 * degree, Thickness: 1.5 * math.Pi,
	}
	tools := mustTools(t, th, 3, 0.75)
	flat, tilted := tools[0], tools[1]
	if flat.Setting != Flat || tilted.Setting != Tilted {
		t.Fatalf("tools %v, %v", flat.Setting, tilted.Setting)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"margin", flat.Margin, 4.49223},
		{"leading", flat.Leading, 9.33500 + 4.49223},
		{"trailing", flat.Trailing, 4.49223 - 9.33500},
		{"left at the tip", flat.Left, 2},
		{"tilt", tilted.Tilt, 7.76517},
		{"edge", tilted.Edge, 20},
		{"leading, tilted", tilted.Leading, 9.33500 - 7.76517 + 4.49223},
		{"trailing, tilted", tilted.Trailing, 4.49223 - 9.33500 + 7.76517},
	} {
		near(t, c.what, c.got/degree, c.want, 2e-5)
	}
	// A worm of small lead keeps the usual 3°.
	th.Starts, th.Reference, th.Tip, th.Root = 1, 60, 63, 56.25
	near(t, "usual margin", mustTools(t, th, 3, 0.75)[0].Margin/degree, 3, 1e-12)
}

// A flat tool cuts form ZA and nothing else: its error is what package
// geometry finds between ZA and the form.
func TestFlatToolCutsZA(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t, rapid.SampledFrom([]geometry.Form{geometry.ZA, geometry.ZN, geometry.ZI, geometry.ZK}).Draw(t, "form"))
		flat := th
		flat.Form = geometry.ZA
		want, err := geometry.FormDifference(flat, th, th.Module)
		if err != nil {
			t.Skip(err)
		}
		tools, err := NewTools(th, th.Module, 0.25*th.Module)
		if err != nil {
			t.Fatal(err)
		}
		for _, tool := range tools {
			if tool.Setting == Flat && math.Abs(tool.Error-want) > 1e-9 {
				t.Fatalf("flat tool off by %v, ZA by %v", tool.Error, want)
			}
		}
		first := tools[0].Setting
		switch th.Form {
		case geometry.ZA:
			if first != Flat || tools[0].Error > 1e-12 {
				t.Fatalf("%v first, off by %v", first, tools[0].Error)
			}
		case geometry.ZN:
			if first != Tilted {
				t.Fatalf("%v first", first)
			}
		default:
			if tools[0].Error > tools[1].Error {
				t.Fatalf("the worse tool first: %v, %v", tools[0].Error, tools[1].Error)
			}
		}
	})
}

// A tilted tool cuts form ZN, but for standing in the middle of the space
// instead of at the flank: its face is turned about the axis by the angle
// φ = w·sin γ/r of half the space, which tilts an edge by φ·sin γ. The error
// is that over the addendum, m·φ·sin γ, and a little.
func TestTiltedToolCutsZN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t, geometry.ZN)
		tools, err := NewTools(th, th.Module, 0.25*th.Module)
		if err != nil {
			t.Fatal(err)
		}
		sin := math.Sin(th.LeadAngle())
		w := (math.Pi*th.Module - th.Thickness) / 2
		if bound := 1.5 * th.Module * w / th.Reference * sin * sin; tools[0].Error > bound {
			t.Fatalf("off by %v, want below %v", tools[0].Error, bound)
		}
	})
}

// Two offset tools cut form ZI without error. A point of the edge that stands
// s beside the axis's height line, at the height h = ±rb, cuts at the radius
// √(rb² + s²) and is carried down to the plane of the axis by p·atan(h/s). On
// a forward-turning right-hand thread, seen from the front, the helix climbs
// toward the headstock: with z toward the tailstock, z + p·(angle upward)
// stays the same. The tool above the axis then cuts the flank of the space
// that faces the headstock, whose z grows with the radius: the trailing edge.
func TestOffsetToolsCutZI(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t, geometry.ZI)
		tools, err := NewTools(th, th.Module, 0.25*th.Module)
		if err != nil {
			t.Fatal(err)
		}
		tool := tools[len(tools)-1]
		if tool.Setting != Offset {
			if th.BaseRadius() < th.Root {
				t.Fatal("no offset tools")
			}
			return
		}
		seen++
		half, err := th.Profile()
		if err != nil {
			t.Fatal(err)
		}
		p, h := th.Screw(), tool.Height
		first := math.NaN()
		for i := range 20 {
			r := th.Root + (th.Tip-th.Root)*(0.02+0.049*float64(i))
			s := math.Sqrt(r*r - h*h)
			z := s*math.Tan(tool.Edge) + p*math.Atan2(h, s) // in the plane of the axis
			off := z + half(r)                              // z of the flank that grows with r is −half(r) and a constant
			if i == 0 {
				first = off
			} else if math.Abs(off-first) > 1e-9*th.Module {
				t.Fatalf("the edge leaves the flank by %v at radius %v", off-first, r)
			}
		}
	})
	if seen == 0 {
		t.Error("no thread had offset tools")
	}
}

// The widths fit the space: a flat tool's tip is the space at the root, and a
// tilted one's, carried to the axial section, nearly so.
func TestTipWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		th := drawThread(t, geometry.ZA)
		tools, err := NewTools(th, th.Module, 0.25*th.Module)
		if err != nil {
			t.Fatal(err)
		}
		half, err := th.Profile()
		if err != nil {
			t.Fatal(err)
		}
		space := math.Pi*th.Module - 2*half(th.Root)
		if math.Abs(tools[0].TipWidth-space) > 1e-12*th.Module {
			t.Fatalf("tip %v, space %v", tools[0].TipWidth, space)
		}
		if w := tools[1].TipWidth / math.Cos(tools[1].Tilt); math.Abs(w-space) > 0.02*th.Module {
			t.Fatalf("tilted tip %v in the axial section, space %v", w, space)
		}
	})
}

func TestNoTool(t *testing.T) {
	th := geometry.Thread{
		Form: geometry.ZA, Hand: geometry.Right, Starts: 1, Module: 1, Reference: 10,
		Tip: 11, Root: 7, Pressure: 30 * degree, Thickness: math.Pi / 2,
	}
	if _, err := NewTools(th, 1, 0.25); !errors.Is(err, errClosed) {
		t.Errorf("error %v, want %v", err, errClosed)
	}
	th.Form, th.Disk = geometry.ZK, 0
	if _, err := NewTools(th, 1, 0.25); !errors.Is(err, geometry.ErrDisk) {
		t.Errorf("error %v, want %v", err, geometry.ErrDisk)
	}
}
