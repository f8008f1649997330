package gen

import "fmt"

// begunTasks is what must stand again before a begun wheel is cut further:
// where the spaces are along the line of centres, and about the work's axis.
func (p *Plan) begunTasks(s Setup) []Task {
	return []Task{
		p.begunTask(),
		{"Hob", p.hobTask()},
		{"Swivel", p.swivelTask(s)},
		{"Drive", p.driveTask(s)},
		{"Preload", preloadTask},
		{"Centre", p.centringTask(s)},
		{"Zero", p.zeroTask(s)},
		{"Phase", p.phaseTask()},
		{"Depth", p.begunDepthTask(s)},
	}
}

func (p *Plan) begunTask() Task {
	u := p.Job.Units
	const always = " Zero and Phase come before anything turns, every time."
	if n := p.Begun.Step; n > 0 {
		return Task{"Rest", fmt.Sprintf("Steps up to %d are done, and the spaces are cut %s deep. Where hob, work, swivel, drive and the slide across the face have not been moved since, the tasks from Hob to Centre are only looked over; what was moved or loosened is done anew.",
			n-1, u.Length(p.Begun.Depth)) + always}
	}
	return Task{"Trim", fmt.Sprintf("The wheel is cut %s deep and is to come to %s. If it was off the machine, mount it so that rim and face run true within %s all round, and do the tasks from Hob to Centre as for a blank; if not, look them over.",
		u.Length(p.Begun.Depth), u.Length(p.Begun.To), u.Length(u.About(0.02, 0.001))) + always}
}

// zeroTask finds first touch again on a tooth: its tip is what is left of the
// blank.
func (p *Plan) zeroTask(s Setup) string {
	zero := p.Machine.Radial.Name()
	swing := "swing the hob to and fro by its arbor"
	if p.Machine.Drive.Kind == Coordinated {
		swing = "jog the hob to and fro"
	}
	kept := ""
	if p.Begun.Step == 0 {
		kept = " A kept zero is the better one: the trim counts on from the readings by which the wheel was cut."
	}
	return fmt.Sprintf("If %s has kept its zero, check it; if not, find it again on a tooth that still stands, not a filed one. Hob and work at rest and uncoupled: turn the work until the top of a tooth, not a space, faces the teeth of the hob, %s and close the centres slowly until a tip of the hob just marks the top: %s, at a centre distance of %s. That is first touch, where it was; set %s to zero there. No tooth of the hob may stand over a space that is cut: it would touch too late, and the wheel come out too deep.%s",
		zero, swing, p.touched(s), p.Job.Units.Length(p.Cycle.Touch), zero, kept)
}

// phaseTask finds the phase again. A space that was plunged is alike on both
// sides of the line of centres in the middle of the face, so that a tooth on
// that line belongs half way between its flanks.
func (p *Plan) phaseTask() string {
	u, slide := p.Job.Units, p.Machine.Radial
	depth, slow := p.known()
	grain := slide.Grain(p.Machine.Language)
	at := float64(depth-slow) * grain
	couple := "set the work half way, the slack of the drive taken up against the brake, and couple there"
	if p.Machine.Drive.Kind == Coordinated {
		couple = fmt.Sprintf("set the work half way, the drive's slack taken up against the brake, and set both rotary axes, %s and %s, to zero there", p.Machine.Hob.Letter, p.Machine.Work.Letter)
	}
	return fmt.Sprintf("If hob and work stayed coupled and neither has lost its place, this is only a check. Everything at rest, the spindle locked out, hob and work uncoupled: turn the marked tooth of the hob to the line of centres and the work until a space that is cut faces it, and close the centres to a reading of %s, %s less deep than the space. Rock the work by hand both ways until the tooth touches a flank, note both on a dial at the rim, %s. Withdraw radially to the start, turning nothing, and only then let hob and work turn together. On the way in, up to the first step, nothing may be cut: if it cuts, withdraw at once: the phase is wrong.",
		p.signed(slide, slide.Sign*-at), u.Length(p.Begun.Depth-at), couple)
}

func (p *Plan) begunDepthTask(s Setup) string {
	if p.Begun.Step > 0 {
		return p.depthTask(s)
	}
	u, slide := p.Job.Units, p.Machine.Radial
	text := fmt.Sprintf("The trim ends %s from first touch, at a centre distance of %s: the last reading of %s is %s.",
		u.Length(p.Cycle.Touch-p.Cycle.Full), u.Length(p.Cycle.Full), slide.Name(), p.signed(slide, slide.reading(p.Cycle.Full, p.Cycle.Touch)))
	if r := p.Remainder(); r > 0 {
		text += fmt.Sprintf(" That is the last whole graduation, %s short of what was asked for.", u.Length(r))
	}
	return text + p.sameSide(slide)
}
