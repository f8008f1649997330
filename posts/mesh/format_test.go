package mesh

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/xml"
	"io"
	"math"
	"slices"
	"testing"
	"time"

	"wormwright/gen/job/jobtest"
)

// model is what a reader finds in the part with the mesh.
type model struct {
	XMLName  xml.Name `xml:"http://schemas.microsoft.com/3dmanufacturing/core/2015/02 model"`
	Unit     string   `xml:"unit,attr"`
	Metadata []struct {
		Name string `xml:"name,attr"`
		Text string `xml:",chardata"`
	} `xml:"metadata"`
	Objects []struct {
		ID       string `xml:"id,attr"`
		Type     string `xml:"type,attr"`
		Vertices []struct {
			X float64 `xml:"x,attr"`
			Y float64 `xml:"y,attr"`
			Z float64 `xml:"z,attr"`
		} `xml:"mesh>vertices>vertex"`
		Triangles []struct {
			A int32 `xml:"v1,attr"`
			B int32 `xml:"v2,attr"`
			C int32 `xml:"v3,attr"`
		} `xml:"mesh>triangles>triangle"`
	} `xml:"resources>object"`
	Items []struct {
		Object    string `xml:"objectid,attr"`
		Transform string `xml:"transform,attr"`
	} `xml:"build>item"`
}

// parts unpacks a package.
func parts(t *testing.T, data []byte) (names []string, content map[string][]byte) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	content = make(map[string][]byte)
	for _, f := range z.File {
		if want := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC); !f.Modified.Equal(want) {
			t.Errorf("%s of %v, want %v", f.Name, f.Modified, want)
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if content[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
		names = append(names, f.Name)
	}
	return names, content
}

// A package has the parts that the core specification asks for, and a reader
// finds in it the solid, closed, in millimetres, with the item to be built
// above 0.
func TestThreeMF(t *testing.T) {
	p := jobtest.Plan(t, "sluice-hoist", nil)
	for what, s := range map[string]Solid{"wheel": mustWheel(t, p, 0.1), "worm": must(WormOf(p, 0.1)), "hob": must(HobOf(p, 0.1))} {
		if s.Name != what {
			t.Errorf("%s has the name %q", what, s.Name)
		}
		names, content := parts(t, s.ThreeMF("<script>alert('x')</script> & \"☸\" \x00"))
		if want := []string{"[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"}; !slices.Equal(names, want) {
			t.Fatalf("parts %q, want %q", names, want)
		}
		for name, data := range content {
			d := xml.NewDecoder(bytes.NewReader(data))
			for {
				if _, err := d.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
			}
		}
		if !bytes.Contains(content["[Content_Types].xml"], []byte(`Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"`)) ||
			!bytes.Contains(content["_rels/.rels"], []byte(`Target="/3D/3dmodel.model"`)) {
			t.Error("the model is not told to be one")
		}
		var m model
		if err := xml.Unmarshal(content["3D/3dmodel.model"], &m); err != nil {
			t.Fatal(err)
		}
		if m.Unit != "millimeter" || len(m.Objects) != 1 || m.Objects[0].Type != "model" || len(m.Items) != 1 || m.Items[0].Object != m.Objects[0].ID {
			t.Fatalf("unit %q, %d objects, items %v", m.Unit, len(m.Objects), m.Items)
		}
		if want := "<script>alert('x')</script> & \"☸\" \uFFFD"; len(m.Metadata) != 1 || m.Metadata[0].Text != want {
			t.Errorf("title %v, want %q", m.Metadata, want)
		}
		read := Solid{Name: what}
		for _, v := range m.Objects[0].Vertices {
			read.Points = append(read.Points, Point{v.X, v.Y, v.Z})
		}
		for _, f := range m.Objects[0].Triangles {
			read.Facets = append(read.Facets, Facet{f.A, f.B, f.C})
		}
		if err := read.Check(); err != nil {
			t.Error(err)
		}
		if !slices.Equal(read.Points, s.Points) || !slices.Equal(read.Facets, s.Facets) {
			t.Errorf("%s: what is read is not what was written", what)
		}
		var row [12]float64
		for i, word := range bytes.Fields([]byte(m.Items[0].Transform)) {
			if err := xml.Unmarshal([]byte("<a>"+string(word)+"</a>"), &row[i]); err != nil {
				t.Fatal(err)
			}
		}
		low, _ := s.Box()
		if want := [12]float64{1, 0, 0, 0, 1, 0, 0, 0, 1, -low[0], -low[1], -low[2]}; row != want {
			t.Errorf("%s: placed by %v, want %v", what, row, want)
		}
	}
}

// A binary STL has 84 bytes and 50 for each facet, whose normals are of unit
// length and square to it, and whose corners are those of the solid in single
// precision.
func TestSTL(t *testing.T) {
	s := must(WormOf(jobtest.Plan(t, "tide-gauge", nil), 0.05))
	data := s.STL()
	if want := 84 + 50*len(s.Facets); len(data) != want {
		t.Fatalf("%d bytes, want %d", len(data), want)
	}
	if bytes.HasPrefix(data, []byte("solid")) {
		t.Error("it begins like a text")
	}
	if n := binary.LittleEndian.Uint32(data[80:]); int(n) != len(s.Facets) {
		t.Fatalf("%d facets told, want %d", n, len(s.Facets))
	}
	number := func(at int) float64 {
		return float64(math.Float32frombits(binary.LittleEndian.Uint32(data[at:])))
	}
	for i, f := range s.Facets {
		at := 84 + 50*i
		n := Point{number(at), number(at + 4), number(at + 8)}
		if long := math.Sqrt(dot(n, n)); math.Abs(long-1) > 1e-6 {
			t.Fatalf("facet %d: normal of length %v", i, long)
		}
		if want := s.normal(f); dot(n, want) < 0.999*math.Sqrt(dot(want, want)) {
			t.Fatalf("facet %d: normal %v, want along %v", i, n, want)
		}
		for j, k := range f {
			for c := range 3 {
				if got, want := number(at+12+12*j+4*c), float64(float32(s.Points[k][c])); got != want {
					t.Fatalf("facet %d, corner %d: %v, want %v", i, j, got, want)
				}
			}
		}
	}
}

// The same plan gives the same bytes.
func TestSameBytes(t *testing.T) {
	sum := func() (list [4][32]byte) {
		p := jobtest.Plan(t, "turret-clock", nil)
		wheel := mustWheel(t, p, Chord)
		list[0] = sha256.Sum256(wheel.ThreeMF(p.Job.Title))
		list[1] = sha256.Sum256(wheel.STL())
		worm, hob := must(WormOf(p, Chord)), must(HobOf(p, Chord))
		list[2] = sha256.Sum256(worm.ThreeMF(p.Job.Title))
		list[3] = sha256.Sum256(hob.ThreeMF(p.Job.Title))
		return list
	}
	first := sum()
	for range 3 {
		if sum() != first {
			t.Fatal("other bytes")
		}
	}
}

// A surface with a fault is found out.
func TestCheckFindsFaults(t *testing.T) {
	good := func() Solid {
		s := Solid{Name: "brick"}
		for i := range 4 {
			s.point(float64(i&1), float64(i>>1&1), 0)
		}
		s.Points[3] = Point{0, 0, 1}
		s.Facets = []Facet{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}}
		return s
	}
	s := good()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	if got, want := s.Volume(), 1.0/6; math.Abs(got-want) > 1e-15 { // a corner of a cube
		t.Errorf("%v mm³, want %v", got, want)
	}
	for what, spoil := range map[string]func(*Solid){
		"a hole":               func(s *Solid) { s.Facets = s.Facets[:3] },
		"a facet turned":       func(s *Solid) { s.Facets[0] = Facet{0, 1, 2} },
		"a facet twice":        func(s *Solid) { s.Facets = append(s.Facets, s.Facets[0]) },
		"a facet and back":     func(s *Solid) { s.Facets = append(s.Facets, Facet{0, 2, 1}, Facet{0, 1, 2}) },
		"all turned":           func(s *Solid) { s.Facets = []Facet{{0, 1, 2}, {0, 3, 1}, {1, 3, 2}, {2, 3, 0}} },
		"no area":              func(s *Solid) { s.Points[3] = s.Points[1] },
		"a point not a number": func(s *Solid) { s.Points[2][1] = math.NaN() },
		"a point far away":     func(s *Solid) { s.Points[2][1] = math.Inf(1) },
	} {
		s := good()
		if spoil(&s); s.Check() == nil {
			t.Errorf("%s is not found", what)
		}
	}
}

func must(s Solid, err error) Solid {
	if err != nil {
		panic(err)
	}
	return s
}
