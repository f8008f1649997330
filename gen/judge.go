package gen

import (
	"math"

	"wormwright/geometry"
)

// judgePair looks at worm and wheel by themselves.
func (p *Plan) judgePair() {
	f, pair, u := &p.Findings, p.Pair, p.Job.Units
	teeth := float64(pair.Teeth)
	if least := geometry.UndercutTeeth(pair); teeth < least {
		const remedy = "raise pair.profile_shift or the pressure angle, or set wheel.allow_undercut: true"
		if p.Job.Wheel.AllowUndercut {
			f.cautionf("pair.teeth", "expect a weak root and less contact",
				"%d teeth at %s are undercut, the least without is %.0f", pair.Teeth, degrees(pair.Pressure), math.Ceil(least))
		} else {
			f.errorf("pair.teeth", remedy, "want %.0f or more for %s without undercut, have %d",
				math.Ceil(least), degrees(pair.Pressure), pair.Teeth)
		}
	} else if practice := geometry.PracticeTeeth(pair.Pressure); pair.Shift == 0 && teeth < practice {
		f.cautionf("pair.teeth", "raise pair.profile_shift a little",
			"practice (AGMA) wants %.0f or more teeth at %s, have %d", math.Ceil(practice), degrees(pair.Pressure), pair.Teeth)
	}
	if usual := geometry.UsualPressure(pair.LeadAngle()); pair.Pressure < usual-1e-9 {
		f.cautionf("pair.pressure_angle", "take a larger pressure angle, or expect the hob to trim the flanks",
			"%s is less than the usual %s for a lead angle of %s",
			degrees(pair.Pressure), degrees(usual), degrees(pair.LeadAngle()))
	}
	if a := p.Job.Pair.CentreDistance; a > 0 && !(math.Abs(pair.Shift) <= 2) {
		middle := a - pair.Shift*pair.Module
		f.errorf("pair.centre_distance", "check module, teeth and the worm's diameter, or give a profile_shift",
			"want from %s to %s, within 2 modules of profile shift, have %s",
			u.Length(middle-2*pair.Module), u.Length(middle+2*pair.Module), u.Length(a))
	}
	if root := pair.WormDiameter/2 - pair.Addendum - pair.Clearance; !(root > 0) {
		f.errorf("worm.reference_diameter", "enlarge the worm", "the thread is deeper than the worm is thick, root radius %s", u.Length(root))
	}
	worm := geometry.NewWorm(pair, 0, p.Job.Wheel.Backlash)
	if width := worm.TipWidth(pair); !(width > 0.1*pair.Module) {
		f.cautionf("pair.pressure_angle", "take a smaller pressure angle or less backlash",
			"the worm's thread is only %s wide at its tip", u.Length(width))
	}
	if j := p.Job.Wheel.Backlash; j == 0 {
		f.cautionf("wheel.backlash", "give 0.03 to 0.05 modules", "no backlash: the pair will bind when it warms up")
	} else if !(j < 0.25*pair.Module) {
		f.errorf("wheel.backlash", "give 0.03 to 0.05 modules", "want less than a quarter of a module, have %s", u.Length(j))
	}
}

// judgeHob looks at hob and worm side by side.
func (p *Plan) judgeHob() {
	f, pair, hob, u := &p.Findings, p.Pair, p.Hob, p.Job.Units
	if hob.Hand != pair.Hand {
		f.errorf("hob.hand", "find a "+pair.Hand.String()+"-hand hob, or make the pair "+hob.Hand.String()+" hand",
			"want the worm's, %s, have %s", pair.Hand, hob.Hand)
	}
	if hob.Starts != pair.Starts {
		f.errorf("hob.starts", "find another hob, or give the worm the hob's starts",
			"want the worm's %d, have %d", pair.Starts, hob.Starts)
	}
	p.judgeModule()
	if over := hob.Reference - pair.WormDiameter/2; over < -1e-9 {
		const what = "the hob is %s smaller than the worm on the reference diameter: the wheel bears at its edges"
		if p.Job.Hob.AllowSmaller {
			f.cautionf("hob.tip_diameter", "relieve the edges of the face, or make the worm smaller", what, u.Length(-2*over))
		} else {
			f.errorf("hob.tip_diameter", "make the worm smaller: worm.reference_diameter of "+u.Length(2*hob.Reference)+
				" or less; or set hob.allow_smaller: true", what, u.Length(-2*over))
		}
	}
	switch room := hob.Addendum - pair.Addendum; {
	case room < 0:
		f.errorf("hob.addendum", "find a hob with an addendum of "+u.Length(pair.Addendum+pair.Clearance),
			"the worm's tip would foul the wheel's root by %s", u.Length(-room))
	case room < 0.1*pair.Module:
		f.cautionf("hob.addendum", "shorten the worm's tip", "only %s of clearance at the worm's tip", u.Length(room))
	}
	if p.Job.Hob.Unrelieved {
		f.cautionf("hob.relieved", "take light cuts, plenty of oil, and sharpen on the face only",
			"an unrelieved hob rubs behind its edges and cuts slowly")
	}
	if p.Job.Hob.Root == 0 && p.Job.Cut.Feed != Fly {
		f.cautionf("hob.root_diameter", "measure the hob's root between its teeth", "not given: whether it clears the blank is not known")
	}
	g := p.Engaged
	switch length := p.Job.Hob.Length; {
	case p.Job.Cut.Feed == Fly: // the travel finishes the flanks, not the length
	case length == 0:
		f.cautionf("hob.length", "measure the toothed length", "not given: want %s or more", u.Length(2*g.Generating))
	case length-hob.Taper < 2*g.Generating:
		f.errorf("hob.length", "find a longer hob, or feed tangentially with a shorter taper",
			"want %s of full thread to finish the flanks, have %s", u.Length(2*g.Generating), u.Length(length-hob.Taper))
	case (p.Job.Cut.Feed == Radial || p.Job.Cut.Feed == Free) && length < 2*g.Contact:
		f.cautionf("hob.length", "keep the steps small",
			"the hob's ends stand in the blank: %s would clear it, have %s", u.Length(2*g.Contact), u.Length(length))
	}
}

// judgeModule compares the pitch of hob and worm, in the axial section and
// in the normal one. The worm takes the hob's lead; a hob larger than the
// worm may instead have its normal module and be swivelled.
func (p *Plan) judgeModule() {
	pair, hob, u := p.Pair, p.Hob, p.Job.Units
	axial := math.Abs(hob.Module-pair.Module) / pair.Module
	normal := math.Abs(hob.Module*math.Cos(hob.LeadAngle())-pair.Module*math.Cos(pair.LeadAngle())) / pair.Module
	off := min(axial, normal)
	path := "hob.module"
	switch {
	case p.Job.Hob.Lead > 0:
		path = "hob.lead"
	case p.Job.Hob.ModuleBasis == Normal:
		path = "hob.normal_module"
	}
	remedy := "find another hob, or set pair.module to " + Fixed(hob.Module, 6) + " mm and turn the worm to the hob's lead"
	switch {
	case off > 1e-3:
		p.Findings.errorf(path, remedy, "want the worm's axial module %s, have %s: each pitch would be off by %.1f µm",
			Fixed(pair.Module, 6)+" mm", Fixed(hob.Module, 6)+" mm", 1000*math.Pi*pair.Module*off)
	case off*math.Pi*pair.Module > 1e-3:
		p.Findings.cautionf(path, remedy, "hob and worm differ by %.1f µm in every pitch of %s",
			1000*math.Pi*pair.Module*off, u.Length(pair.Pitch()))
	}
}

// judgeBlank looks at the blank under the hob.
func (p *Plan) judgeBlank() {
	f, g, u := &p.Findings, p.Engaged, p.Job.Units
	if b := p.Drawn; b.Throated {
		switch throat := p.Job.Wheel.Throat; {
		case !(b.Outside < b.Centre):
			f.errorf("wheel.outside_diameter", "turn a smaller blank",
				"want less than twice the centre distance, %s, have %s", u.Length(2*b.Centre), u.Length(2*b.Outside))
		case throat > 0 && !(throat < 2*b.Outside):
			f.errorf("wheel.throat_diameter", "give a throat below the outside diameter",
				"want less than the outside diameter %s, have %s", u.Length(2*b.Outside), u.Length(throat))
		}
	}
	if !(g.Depth() > 0) {
		path := "wheel.outside_diameter"
		if p.Job.Wheel.OutsideMeasured > 0 {
			path = "wheel.outside_measured"
		}
		f.errorf(path, "turn a larger blank",
			"the blank is smaller than its own root: the hob touches it at %s and would stop at %s",
			u.Length(g.Touch), u.Length(g.Full))
		return
	}
	if p.Job.Hob.Root > 0 {
		switch {
		case g.RootGap < 0:
			f.errorf("hob.root_diameter", "take a narrower or plain blank, or a hob with deeper gullets",
				"the hob's root would rub on the blank, %s too deep", u.Length(-g.RootGap))
		case g.RootGap < 0.05*p.Pair.Module:
			f.cautionf("hob.root_diameter", "watch for rubbing at full depth", "the hob's root clears the blank by only %s", u.Length(g.RootGap))
		}
	}
	used, _ := p.Space.Conjugate(g.Full, 0, p.Hob.Reference+p.Pair.Addendum) // where the worm's tip touches
	if cut := p.Space.Undercut(g.Full, 0); cut > used && !p.Job.Wheel.AllowUndercut {
		f.cautionf("pair.teeth", "raise pair.profile_shift or round the hob's tips, or set wheel.allow_undercut: true",
			"the hob's tips cut into the flank up to a diameter of %s; the worm touches from %s", u.Length(2*cut), u.Length(2*used))
	}
	if g.Reached < 1-1e-9 {
		f.cautionf("wheel.face_width", "narrow the face or chamfer its edges", "the hob reaches only %.0f %% of the face", 100*g.Reached)
	}
	switch {
	case !(g.ToothTip > 0):
		f.cautionf("wheel.outside_diameter", "turn a smaller blank or take a smaller pressure angle",
			"teeth come to a point below the blank's outside")
	case g.ToothTip < 0.2*p.Pair.Module:
		f.cautionf("wheel.outside_diameter", "turn a smaller blank", "teeth are only %s wide at their tips", u.Length(g.ToothTip))
	}
	if drawn, _ := p.Drawn.Touch(p.Hob.Tip); math.Abs(drawn-g.Touch) > 0.1*p.Pair.Module {
		f.cautionf("wheel.outside_measured", "measure again", "the blank differs from its drawing by %s in radius at first touch",
			u.Length(g.Touch-drawn))
	}
}

// judgeDrive refuses what cannot keep hob and work in step.
func (p *Plan) judgeDrive() {
	f, d := &p.Findings, p.Machine.Drive
	switch d.Kind {
	case Uncoupled, Clocked:
		if p.Job.Cut.Feed.Alone() {
			break
		}
		if d.Kind == Uncoupled {
			f.errorf("machine: drive.kind", "couple the work to the hob by a train, an electronic gearbox or a second rotary axis; or gash each tooth (cut.feed: gash) and let the gashed blank run free under the hob (cut.feed: free)",
				"nothing keeps the work in step with the hob")
			break
		}
		f.errorf("machine: drive.kind", "let the control turn the hob as a rotary axis (coordinated), or gear the work to the hob (geared)",
			"a work axis turned by the clock cannot hold its phase under a free spindle")
	case Coordinated:
		if p.Machine.Language.Base != NGC {
			f.errorf("machine: language.base", "set language.base: ngc", "hob and work as two rotary axes want inverse-time feed, have %s", p.Machine.Language.Base)
		}
		if axes := p.Machine.Language.AngleDecimals; p.Job.Cut.Feed.Way() != Radially && p.rounding() > 2e-4 {
			f.cautionf("machine: language.angle_decimals", "give the program one decimal more",
				"rotary words of %d decimals are up to %.2f µm off at the rim", axes, 1000*p.rounding())
		}
		for _, r := range [...]struct {
			path string
			axis Rotary
		}{{"machine: hob.letter", p.Machine.Hob}, {"machine: work.letter", p.Machine.Work}} {
			if r.axis.Letter == "" {
				f.errorf(r.path, "give the axis letter", "a coordinated drive wants a rotary axis here")
			}
		}
	}
	if p.Job.Cut.Feed == Free && d.Kind == Geared || p.Job.Cut.Feed.Alone() && d.Kind == Coordinated {
		f.errorf("cut.feed", "set cut.feed: radial", "this machine keeps the work in step with the hob, have %s", p.Job.Cut.Feed)
	}
	if l := p.Machine.Language; l.Base != NoLanguage && !p.Programmed() {
		f.cautionf("machine: language", "give the slides that feed a letter, or leave the language out",
			"no program is written: a slide that feeds has no axis letter, or is geared to the hob")
	}
	if way := p.Job.Cut.Feed.Way(); way != Radially && d.Kind == Geared && d.Differential == NoDifferential {
		f.errorf("cut.feed", "set cut.feed: radial, or say in the machine file how the drive adds the differential",
			"a plain train or gearbox cannot add the turn that %s feed calls for", way)
	}
}

// judgeWayIn tells of a plunge that takes more from the flanks than the
// finished spaces have.
func (p *Plan) judgeWayIn() {
	const shows = 1e-3 // mm
	if feed := p.Job.Cut.Feed; feed != Radial && feed != Free {
		return
	}
	if trimmed := p.Space.Trimmed(p.Blank, p.Engaged.Full, p.Engaged.Touch); trimmed > shows {
		p.Findings.cautionf("cut.feed", "set cut.feed: tangential or fly, take a larger pressure angle, or narrow the face",
			"on the radial way in the hob trims the flanks by up to %.1f µm toward the faces, at a lead angle of %s and a pressure angle of %s",
			1000*trimmed, degrees(p.Hob.LeadAngle()), degrees(p.Hob.Pressure))
	}
}

// judgeMachine holds the finished cycle against travels, rates and speeds.
func (p *Plan) judgeMachine() {
	f, u := &p.Findings, p.Job.Units
	lo, hi := p.Cycle.Start, p.Cycle.Start
	for _, phase := range p.Cycle.Phases {
		lo.Distance, hi.Distance = min(lo.Distance, phase.To.Distance), max(hi.Distance, phase.To.Distance)
		lo.Tangential, hi.Tangential = min(lo.Tangential, phase.To.Tangential), max(hi.Tangential, phase.To.Tangential)
		lo.Axial, hi.Axial = min(lo.Axial, phase.To.Axial), max(hi.Axial, phase.To.Axial)
	}
	for _, s := range [...]struct {
		path   string
		slide  Slide
		wanted float64
	}{
		{"machine: radial.travel", p.Machine.Radial, hi.Distance - lo.Distance},
		{"machine: tangential.travel", p.Machine.Tangential, hi.Tangential - lo.Tangential},
		{"machine: axial.travel", p.Machine.Axial, hi.Axial - lo.Axial},
	} {
		if s.slide.Travel > 0 && s.wanted > s.slide.Travel {
			f.errorf(s.path, "take a machine with more travel, or a smaller cut.clear",
				"want %s, have %s", u.Length(s.wanted), u.Length(s.slide.Travel))
		}
	}
	if c := p.Job.Cut; c.Feed == Radial || c.Feed == Free {
		if c.Step > 0.5 {
			f.cautionf("cut.step", "start with a small step and listen", "%s at a work turn is more than light machines take (common practice 0.1 to 0.5 mm)", u.Length(c.Step))
		}
		if c.SparkOut == 0 {
			f.cautionf("cut.spark_out", "set cut.spark_out: 1", "no spark-out: the last teeth keep the spring of the machine")
		}
	} else if feed := p.feedTurn(); c.Feed.Way() == Tangentially && feed > 1 {
		f.cautionf("cut.step", "take a smaller feed", "%s at a work turn is more than common practice (0.3 to 1 mm)", u.Length(feed))
	}
	round := p.Pair.RoundTurns()
	if t := p.Job.Cut.Turns; t > 0 && t%round != 0 {
		f.cautionf("cut.turns_per_step", "hold for a whole multiple", "threads of the hob and spaces of the wheel come round in %d work turns, have %d", round, t)
	}
	if r := p.Remainder(); geometry.ArcForInfeed(r, p.Hob.Pressure) > 0.1*p.Job.Wheel.Backlash {
		f.cautionf("cut.step", "take it as it is, or set the slide by a finer dial",
			"the last whole graduation stays %s short of full depth; it is counted into the backlash", u.Length(r))
	}
}

// Remainder is by how much the cut stays short of full depth where that
// shows in the job's unit.
func (p *Plan) Remainder() float64 {
	if p.Job.Units.Number(p.Cycle.Remainder) == p.Job.Units.Number(0) {
		return 0
	}
	return p.Cycle.Remainder
}

func degrees(rad float64) string { return Fixed(rad*180/math.Pi, 3) + "°" }
