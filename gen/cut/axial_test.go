package cut

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"

	"wormwright/gen"
	"wormwright/geometry"
)

// twisted turns the work on by twist for every mm of axial feed.
func twisted(m gen.Motion, twist float64) gen.Motion {
	list := append(gen.Motion(nil), m...)
	for i := range list {
		list[i].Work += twist * list[i].Axial / (2 * math.Pi)
	}
	return list
}

// across feeds the hob of a setup through the whole face, so much in a work
// turn. It begins as near to it as it ends past it: what it took on the way in
// is taken again.
func across(s Setup, e, feed, twist float64) gen.Motion {
	past := 2 + 1.5*math.Abs(feed)
	from, to := -s.Blank.Face/2-past, s.Blank.Face/2+past
	if feed < 0 {
		from, to = -from, -to
	}
	turns := math.Abs((to-from)/feed) * float64(s.Teeth) / float64(s.Hob.Starts)
	return twisted(inMesh(s, at(e, 0, from), leg{turns, at(e, 0, to)}), twist)
}

// axialSetup is the check case with a narrow plain face and very many gashes.
func axialSetup() Setup {
	s := checkSetup()
	s.Hob.Gashes = 16
	s.Blank = geometry.Blank{Face: 6, Outside: 42}
	s.Planes = []float64{-3, 0.7, 3}
	s.Radii = floats.Span(make([]float64, 12), 38.4, 41.8)
	return s
}

// An axial feed leaves the cylindrical space, for either hand, way, swivel and
// several starts, to within the marks of the feed and the facets of the
// gashes, and nowhere deeper.
func TestAxialFeedLeavesCylindricalSpace(t *testing.T) {
	for _, tt := range []struct {
		starts int
		hand   geometry.Hand
		form   geometry.Form
		feed   float64
		swivel float64
	}{
		{1, geometry.Right, geometry.ZA, 1, 0.02},
		{1, geometry.Left, geometry.ZI, -1, 0},
		{3, geometry.Right, geometry.ZN, -1, 0},
		{2, geometry.Left, geometry.ZA, 1, -0.03},
	} {
		s := axialSetup()
		s.Hob.Starts, s.Hob.Hand, s.Hob.Form, s.Swivel = tt.starts, tt.hand, tt.form, tt.swivel
		twist := geometry.Twist(s.Hob.Thread, s.Teeth, s.Swivel)
		exact, err := geometry.NewCylindrical(s.Hob.Thread, s.Teeth, s.Swivel, 60)
		if err != nil {
			t.Fatal(err)
		}
		s.Twist = twist
		w := mustRun(t, s, across(s, 60, tt.feed, twist))
		marks := geometry.FeedMark(s.Hob.Thread, tt.feed) + geometry.FacetHeight(geometry.Pair{Teeth: s.Teeth}, s.Hob)
		least, most := math.Inf(1), math.Inf(-1)
		for i, z := range s.Planes {
			for m, r := range s.Radii {
				wantLeft, wantRight, ok := exact.Swept(z, r)
				if !ok {
					t.Fatalf("%+v: z %v, radius %v: nothing cut", tt, z, r)
				}
				for _, k := range []int{0, 1, 17} {
					left, right, _ := w.Swept(k, i, m)
					for _, d := range []float64{(left - wantLeft) * r, (wantRight - right) * r} {
						least, most = min(least, d), max(most, d)
					}
				}
			}
		}
		if least < -3e-5 || most > 2*marks { // arcs, and higher toward the tip
			t.Errorf("%+v: %.3f to %.3f µm proud, marks and facets of %.3f", tt, least*1e3, most*1e3, marks*1e3)
		}
	}
}

// On a wide face the tooth spaces run round by more than a pitch from one end
// to the other, and each stays itself.
func TestAxialFeedAcrossWideFace(t *testing.T) {
	s := axialSetup()
	s.Hob.Starts, s.Hob.Gashes = 4, 9
	s.Blank.Face = 60
	s.Planes, s.Radii = []float64{-30, -8, 11, 30}, []float64{39, 40, 41}
	s.Twist = geometry.Twist(s.Hob.Thread, s.Teeth, 0)
	if turn := s.Twist * s.Blank.Face; math.Abs(turn) < 1.5*2*math.Pi/40 {
		t.Fatalf("the spaces turn by %v", turn)
	}
	exact, err := geometry.NewCylindrical(s.Hob.Thread, s.Teeth, 0, 60)
	if err != nil {
		t.Fatal(err)
	}
	from, to := at(60, 0, -46), at(60, 0, 34) // from clear of the face, which is entered as it comes
	w := mustRun(t, s, twisted(inMesh(s, from, leg{80 / 0.8 * 10, to}), s.Twist))
	marks := geometry.FeedMark(s.Hob.Thread, 0.8) + geometry.FacetHeight(geometry.Pair{Teeth: s.Teeth}, s.Hob)
	for i, z := range s.Planes {
		for m, r := range s.Radii {
			wantLeft, wantRight, _ := exact.Swept(z, r)
			for k := range s.Teeth {
				left, right, _ := w.Swept(k, i, m)
				for _, d := range []float64{(left - wantLeft) * r, (wantRight - right) * r} {
					if !(d > -3e-5 && d < 2*marks) {
						t.Fatalf("z %v, radius %v, space %d: %.3f µm proud, marks and facets of %.3f", z, r, k, d*1e3, marks*1e3)
					}
				}
			}
		}
	}
}

// Without the differential, and with it the wrong way round, the tooth is
// destroyed.
func TestAxialDifferentialSign(t *testing.T) {
	s := axialSetup()
	s.Hob.Starts, s.Hob.Gashes = 3, 16
	twist := geometry.Twist(s.Hob.Thread, s.Teeth, 0)
	area := func(twist float64) float64 {
		return mustRun(t, s, across(s, 60, 0.5, twist)).Area(5, 2)
	}
	right := area(twist)
	for _, wrong := range []float64{0, -twist} {
		if have := area(wrong); !(have > 1.1*right) {
			t.Errorf("twist %v: %.3f mm² of a space lost, with the right one, %v, %.3f", wrong, have, twist, right)
		}
	}
	// The teeth follow the hob's lead: by hand, tan γ0 = z0·m/(2·r0) = 3·2/40,
	// and clockwise is −X for a right hand beyond the middle.
	if want := -0.15 / 40; math.Abs(twist-want) > 1e-12 {
		t.Errorf("twist %v rad/mm, want %v", twist, want)
	}
}

// The marks of an axial feed are as high as geometry.FeedMark has them, one
// start and several; where the lead angle is small that is the published
// (f/cos β)²·sin α/(4·d0), which leaves out that the thread runs slanting.
func TestFeedMarks(t *testing.T) {
	for _, tt := range []struct {
		starts int
		feed   float64
	}{{1, 2}, {2, 3}, {4, 3}} {
		s := axialSetup()
		s.Hob.Starts, s.Hob.Gashes, s.Hob.Form = tt.starts, 31, geometry.ZI
		s.Radii = floats.Span(make([]float64, 5), 39.98, 40.02)
		s.Planes = floats.Span(make([]float64, 13), -tt.feed/2, tt.feed/2)
		twist := geometry.Twist(s.Hob.Thread, s.Teeth, 0)
		exact, err := geometry.NewCylindrical(s.Hob.Thread, s.Teeth, 0, 60)
		if err != nil {
			t.Fatal(err)
		}
		s.Twist = twist
		w := mustRun(t, s, across(s, 60, tt.feed, twist))
		// From the arc at the reference circle to the normal of the flank.
		normal := math.Cos(s.Hob.NormalPressure()) * math.Cos(s.Hob.LeadAngle())
		var high float64
		low := math.Inf(1)
		for i, z := range s.Planes {
			const radius = 2
			_, want, _ := exact.Swept(z, s.Radii[radius])
			_, right := arcs(t, w, 3, i, radius)
			d := (want*s.Radii[radius] - right) * normal
			high, low = max(high, d), min(low, d)
		}
		want := geometry.FeedMark(s.Hob.Thread, tt.feed)
		got := high - low
		if math.Abs(got-want) > 0.05*want {
			t.Errorf("%+v: marks of %.3f µm, want %.3f", tt, got*1e3, want*1e3)
		}
		lead := s.Hob.LeadAngle()
		published := math.Pow(tt.feed/math.Cos(lead), 2) * math.Sin(s.Hob.NormalPressure()) / 160
		if lead < 6*degree && math.Abs(got-published) > 0.05*published {
			t.Errorf("%+v: marks of %.3f µm, published %.3f", tt, got*1e3, published*1e3)
		}
	}
	// f 2, d0 80, 20°: 0.004275 mm, by hand for teeth square to the face
	spur := geometry.Thread{Form: geometry.ZI, Starts: 1, Module: 1e-9, Reference: 40, Pressure: 20 * math.Pi / 180}
	if got := geometry.FeedMark(spur, 2); math.Abs(got-0.004275) > 5e-7 {
		t.Errorf("mark %.6f mm, want 0.004275", got)
	}
}

// What is passed over because a cover tells that it cuts nothing cuts nothing:
// a hob that creeps along its axis by less than anything, so that every image
// is drawn, leaves the same wheel to the last digits, and takes as much away
// in the same time.
func TestClimbPassesOverNothing(t *testing.T) {
	s := axialSetup()
	s.Hob.Starts, s.Hob.Gashes, s.Hob.Rounding = 2, 7, 0.4
	s.Hob.Length, s.Hob.Taper, s.Hob.Drop, s.TaperAt = 36, 10, 1.5, 1
	s.Twist = geometry.Twist(s.Hob.Thread, s.Teeth, 0)
	for _, feed := range []float64{0.3, -1.1} {
		m := across(s, 60, feed, s.Twist)
		end := m[len(m)-1].Seconds
		s.Times = floats.Span(make([]float64, 12), 0, end)
		crept := append(gen.Motion(nil), m...)
		for i := range crept {
			crept[i].Tangential = 1e-11 * crept[i].Seconds / end
		}
		fast, slow := mustRun(t, s, m), mustRun(t, s, crept)
		for k := range s.Teeth {
			for i := range s.Planes {
				if d := fast.Bottom(k, i) - slow.Bottom(k, i); math.Abs(d) > 1e-9 {
					t.Fatalf("space %d, plane %d: bottoms differ by %g mm", k, i, d)
				}
				for j := range s.Radii {
					al, ar, aok := fast.Swept(k, i, j)
					bl, br, bok := slow.Swept(k, i, j)
					if aok != bok || math.Abs(al-bl) > 1e-9 || math.Abs(ar-br) > 1e-9 {
						t.Fatalf("space %d, plane %d, radius %d: %v %v %v, drawn %v %v %v", k, i, j, al, ar, aok, bl, br, bok)
					}
				}
			}
		}
		for i := range fast.Removed {
			if d := fast.Removed[i] - slow.Removed[i]; math.Abs(d) > 1e-6 {
				t.Errorf("by moment %d %.9f mm³ are removed, drawn %.9f", i, fast.Removed[i], slow.Removed[i])
			}
		}
	}
}
