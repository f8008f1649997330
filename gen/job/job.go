package job

import (
	"io"
	"math"

	"wormwright/gen"
	"wormwright/geometry"
)

// A File is a job file as read.
type File struct {
	Job     gen.Job
	Machine string           // path of the machine file, as written
	Lathe   string           // path of the lathe file, as written; empty where none is named
	Places  map[string]Place // of every key, by its path
}

var hands = map[string]geometry.Hand{"right": geometry.Right, "left": geometry.Left}

// forms maps the names of ISO 10828.
var forms = map[string]geometry.Form{"ZA": geometry.ZA, "ZN": geometry.ZN, "ZI": geometry.ZI, "ZK": geometry.ZK}

// bases are the sections in which a pressure angle may be given.
var bases = map[string]gen.Basis{"axial": gen.Axial, "normal": gen.Normal}

// Read reads a job file, with the settings in place of what it says. Its
// error is [Faults].
func Read(name string, in io.Reader, settings ...Setting) (File, error) {
	r, top := open(name, in, settings...)
	if err := r.finish(); err != nil {
		return File{}, err
	}
	var j gen.Job
	j.Units = r.units(top)
	j.Title = top.text("title", required)
	machine := top.text("machine", required)
	lathe := top.text("lathe", 0)
	j.Pair = readPair(top.section("pair", required))
	j.Worm = readWorm(top.section("worm", required))
	j.Wheel = readWheel(top.section("wheel", required))
	hob := top.section("hob", required)
	j.Setup = readSetup(top.section("setup", 0))
	j.Gash = readGash(top.section("gash", 0))
	j.Cut = readCut(top.section("cut", required), j)
	j.Hob = readHob(hob, j.Pair, j.Worm, j.Cut.Feed)
	j.Turn = readTurn(top.section("turn", 0))
	top.done()
	if err := r.finish(); err != nil {
		return File{}, err
	}
	return File{Job: j, Machine: machine, Lathe: lathe, Places: r.places}, nil
}

func readPair(s *section) gen.PairData {
	var d gen.PairData
	switch key := s.one(required, "module", "normal_module", "diametral_pitch", "axial_pitch"); key {
	case "diametral_pitch":
		d.Module = perInch(s.number(key, s.r.plain, positive))
	case "axial_pitch":
		d.Module = s.length(key, positive) / math.Pi
	case "normal_module":
		d.Module, d.ModuleBasis = s.length(key, positive), gen.Normal
	case "module":
		d.Module = s.length(key, positive)
	}
	d.Starts = s.integer("starts", 1, 20, 1, 0)
	d.Teeth = s.integer("teeth", 6, 2000, 0, required)
	d.Hand = choose(s, "hand", geometry.Right, hands)
	d.Pressure = s.pressure("pressure_angle", required)
	d.PressureBasis = choose(s, "pressure_angle_basis", gen.ByForm, bases)
	s.one(0, "profile_shift", "centre_distance")
	d.Shift = s.number("profile_shift", s.r.plain, 0)
	d.CentreDistance = s.length("centre_distance", positive)
	d.Clearance = s.length("clearance", positive)
	if d.Shift < -2 || d.Shift > 2 {
		s.fault("profile_shift", "want from -2 to 2 modules")
	}
	s.done()
	return d
}

// pressure reads a pressure angle, from 5° to 45°.
func (s *section) pressure(key string, need rule) float64 {
	a := s.angle(key, need)
	if _, given := s.nodes[key]; given && !(a >= 5*degree && a <= 45*degree) {
		s.fault(key, "want from 5° to 45°")
		return 0
	}
	return a
}

func readWorm(s *section) gen.WormData {
	d := gen.WormData{Form: choose(s, "form", geometry.ZA, forms)}
	if n, ok := s.nodes["reference_diameter"]; ok && n.Value == "same as hob" {
		s.know("reference_diameter")
		d.SameAsHob = true
	} else {
		d.Diameter = s.length("reference_diameter", required|positive)
	}
	d.Length = s.length("length", positive)
	d.Disk = s.disk(d.Form)
	s.done()
	return d
}

// disk reads the diameter of the disk that makes form ZK.
func (s *section) disk(form geometry.Form) float64 {
	if form == geometry.ZK {
		return s.length("disk_diameter", required|positive)
	}
	return s.length("disk_diameter", positive)
}

func readWheel(s *section) gen.WheelData {
	d := gen.WheelData{
		Throated: choose(s, "blank", true, map[string]bool{"throated": true, "plain": false}),
		Rule: choose(s, "proportions", geometry.MetricRule, map[string]geometry.Proportion{
			geometry.MetricRule.String(): geometry.MetricRule,
			geometry.PitchRule.String():  geometry.PitchRule,
		}),
		Outside:         s.length("outside_diameter", positive),
		Throat:          s.length("throat_diameter", positive),
		OutsideMeasured: s.length("outside_measured", positive),
		ThroatMeasured:  s.length("throat_measured", positive),
		Face:            s.length("face_width", positive),
		Hub:             s.length("hub_projection", unsigned),
		ThroatOffset:    s.length("throat_offset", 0),
		Backlash:        s.length("backlash", unsigned),
		FromInfeed:      choose(s, "backlash_from", false, map[string]bool{"worm": false, "infeed": true}),
		AllowUndercut:   s.flag("allow_undercut"),
	}
	words := map[string]string{}
	for _, m := range gen.Materials() {
		words[m] = m
	}
	d.Material = choose(s, "material", "bronze", words)
	s.done()
	return d
}

func readHob(s *section, pair gen.PairData, worm gen.WormData, feed gen.Feed) gen.HobData {
	d := gen.HobData{
		Form:      choose(s, "form", worm.Form, forms),
		Tip:       s.length("tip_diameter", required|positive),
		Addendum:  s.length("addendum", required|positive),
		Root:      s.length("root_diameter", positive),
		Reference: s.length("reference_diameter", positive),
		Hand:      choose(s, "hand", pair.Hand, hands),
		Length:    s.length("length", positive),
		Rounding:  s.length("tip_rounding", unsigned),
	}
	if feed == gen.Fly { // the keys then describe the tool
		d.Starts, d.Gashes = s.integer("starts", 1, 20, pair.Starts, 0), s.integer("gashes", 1, 1, 1, 0)
	} else {
		d.Starts, d.Gashes = s.integer("starts", 1, 20, 1, 0), s.integer("gashes", 1, 1000, 0, required)
	}
	switch key := s.one(0, "module", "normal_module", "diametral_pitch", "normal_diametral_pitch", "lead"); key {
	case "lead":
		d.Lead = s.length(key, positive)
	case "diametral_pitch":
		d.Module = perInch(s.number(key, s.r.plain, positive))
	case "normal_diametral_pitch":
		d.Module, d.ModuleBasis = perInch(s.number(key, s.r.plain, positive)), gen.Normal
	case "normal_module":
		d.Module, d.ModuleBasis = s.length(key, positive), gen.Normal
	case "module":
		d.Module = s.length(key, positive)
	}
	d.Pressure = s.pressure("pressure_angle", 0)
	d.PressureBasis = choose(s, "pressure_angle_basis", gen.ByForm, bases)
	d.Disk = s.disk(d.Form)
	d.Unrelieved = choose(s, "relieved", false, map[string]bool{"true": false, "false": true})
	d.AllowSmaller = s.flag("allow_smaller")
	d.Anticlockwise = choose(s, "turns", false, senses)
	taper := s.section("taper", 0)
	d.Taper = taper.length("length", required|positive)
	d.TaperDrop = taper.length("drop", required|positive)
	d.TaperPlus = choose(taper, "end", true, ends)
	taper.done()
	if d.Length > 0 && d.Taper >= d.Length {
		taper.fault("length", "want less than the hob's length")
	}
	if d.Root > 0 && d.Root >= d.Tip {
		s.fault("root_diameter", "want less than the tip diameter")
	}
	s.done()
	return d
}

var (
	senses = map[string]bool{"clockwise": false, "anticlockwise": true}
	ends   = map[string]bool{"plus": true, "minus": false}
)

func readSetup(s *section) gen.SetupData {
	d := gen.SetupData{
		Centring: choose(s, "centring", gen.Flush, map[string]gen.Centring{
			"flush": gen.Flush, "beside": gen.Beside, "halved": gen.Halved,
		}),
		Minus:  !choose(s, "side", true, ends),
		Swivel: s.flag("swivel"),
	}
	s.done()
	return d
}

func readCut(s *section, j gen.Job) gen.CutData {
	d := gen.CutData{
		Feed: choose(s, "feed", gen.Radial, map[string]gen.Feed{
			gen.Radial.String(): gen.Radial, gen.Tangential.String(): gen.Tangential,
			gen.Fly.String(): gen.Fly, gen.Across.String(): gen.Across,
			gen.Gash.String(): gen.Gash, gen.Free.String(): gen.Free,
		}),
		Falling:     choose(s, "rule", false, map[string]bool{"constant": false, "falling": true}),
		Continuous:  choose(s, "infeed", false, map[string]bool{"held": false, "continuous": true}),
		Turns:       s.integer("turns_per_step", 1, 1000, 0, 0),
		SparkOut:    s.integer("spark_out", 0, 100, 1, 0),
		Clear:       s.length("clear", positive),
		Margin:      s.length("margin", positive),
		TowardMinus: !choose(s, "toward", true, ends),
	}
	if d.Feed == gen.Fly {
		s.one(required, "facet", "step")
		d.Step, d.Facet = s.length("step", positive), s.length("facet", positive)
		d.Tools = s.integer("tools", 1, 20, 1, 0)
	} else {
		d.Step = s.length("step", required|positive)
	}
	if d.Feed == gen.Free {
		d.Ungashed = !choose(s, "gashed", true, map[string]bool{"true": true, "false": false})
		d.AllowFree = s.flag("allow_free")
	}
	need := positive
	if d.Falling {
		need |= required
	}
	d.LastStep = s.length("last_step", need)
	s.one(0, "speed", "spindle")
	d.Speed = s.number("speed", s.r.speed, positive)
	d.Spindle = s.number("spindle", s.r.plain, positive)
	finish := s.section("finish", 0)
	d.FinishSteps = finish.integer("steps", 1, 100, 0, required)
	d.FinishStep = finish.length("step", required|positive)
	finish.done()
	creep := s.section("creep", 0)
	d.CreepSteps = creep.integer("steps", 1, 1000, 0, required)
	d.CreepStep = creep.length("step", required|positive)
	creep.done()
	if d.Clear == 0 {
		d.Clear = 5 // mm, room to look in
		if j.Units == gen.Inch {
			d.Clear = 0.2 * inch
		}
	}
	if d.Margin == 0 {
		d.Margin = j.Pair.Module
	}
	s.done()
	return d
}

const degree = math.Pi / 180

// perInch is the module of a diametral pitch, 0 where that could not be read.
func perInch(pitch float64) float64 {
	if pitch == 0 {
		return 0
	}
	return inch / pitch
}

// fault tells what is wrong with a key that was read.
func (s *section) fault(key, want string) {
	n, ok := s.nodes[key]
	if !ok {
		return
	}
	s.r.add(n.Line, n.Column, s.sub(key), "%s, have %s", want, show(n))
}
