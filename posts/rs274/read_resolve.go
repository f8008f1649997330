package rs274

// resolve finds what a line does with its axis words, and holds every word
// and code against the others and against what is in force. It changes
// nothing but b.
func (r *Reader) resolve(b *block) error {
	s := &r.scanner
	zero, _ := b.code(nonModalGroup)
	if b.waits = zero == g4; b.waits {
		if !b.words.has(r.dwell) {
			return s.fault(b.codePlace[nonModalGroup], "G4 wants %c, how long to wait", r.dwell)
		}
		if b.dwell = b.num(r.dwell); b.dwell < 0 {
			return s.fault(b.at(r.dwell), "a dwell below 0")
		}
		b.words &^= letter(r.dwell) // whatever it means elsewhere
	}
	b.axes = b.words & axisLetters
	if err := r.findMotion(b, zero); err != nil {
		return err
	}
	used := lettersOf("FST") | b.axes
	var err error
	switch zero {
	case g10:
		used |= lettersOf("LP")
		err = r.checkG10(b)
	case g53:
		err = r.checkG53(b)
	case g92:
		if b.axes == 0 {
			err = s.fault(b.codePlace[nonModalGroup], "G92 wants an axis word")
		}
	}
	if err != nil {
		return err
	}
	if b.moves {
		switch b.motion {
		case g2, g3:
			used |= lettersOf("IJKR")
		case g33:
			used |= lettersOf("IJK")
		}
	}
	if idle := b.words &^ used; idle != 0 {
		c := b.first(idle)
		return s.fault(b.at(c), "nothing on the line uses %c; %s", c, r.purpose(c))
	}
	return nil
}

// purpose says what a letter is for, when nothing on its line uses it.
func (r *Reader) purpose(c byte) string {
	switch c {
	case 'D':
		return "it belongs to radius compensation"
	case 'H':
		return "it belongs to a tool length offset"
	case 'I', 'J', 'K', 'R':
		return "it belongs to an arc"
	case 'L':
		return "it belongs to G10"
	case 'Q':
		return "it belongs to a drilling cycle"
	case r.dwell:
		return "it belongs to G4"
	}
	return "it belongs to G10"
}

// findMotion tells the motion of the line: the code written on it, or the one
// in force when axis words stand alone. Where the non-modal code zero takes
// the axis words, the motion in force rests for the line (NISTIR 6556, 3.4).
func (r *Reader) findMotion(b *block, zero code) error {
	s := &r.scanner
	takesAxes := zero == g10 || zero == g28 || zero == g30 || zero == g92
	written, isWritten := b.code(motionGroup)
	switch {
	case isWritten && written != g80:
		b.moves, b.motion, b.motionAt = true, written, b.codePlace[motionGroup]
		if takesAxes {
			return s.fault(max(b.motionAt, b.codePlace[nonModalGroup]), "%s and %s on one line, both want the axis words", gName(written), gName(zero))
		}
		if b.axes == 0 {
			return s.fault(b.motionAt, "%s wants an axis word", gName(written))
		}
	case b.axes != 0 && !takesAxes:
		b.moves, b.motion = true, r.state.motion
		b.motionAt = b.at(b.first(b.axes))
		if isWritten {
			return s.fault(b.motionAt, "an axis word on the line of G80")
		}
		if b.motion == g80 {
			return s.fault(b.motionAt, "an axis word, but no motion is in force; want G0, G1, G2 or G3 before it")
		}
	}
	return nil
}

// checkG10 checks the setting of a coordinate system, G10 L2 P1 to P9
// (NISTIR 6556, 3.5.5).
func (r *Reader) checkG10(b *block) error {
	s, at := &r.scanner, b.codePlace[nonModalGroup]
	n, ok := whole(b.num('P'))
	switch l, _ := whole(b.num('L')); {
	case !b.words.has('L'):
		return s.fault(at, "G10 wants L2")
	case l != 2:
		return s.fault(b.at('L'), "want L2 with G10, have L%d", l)
	case !b.words.has('P'):
		return s.fault(at, "G10 wants P, the number of a coordinate system")
	case !ok || n < 1 || n > systemCount:
		return s.fault(b.at('P'), "want a coordinate system from 1 to %d with P, have %v", systemCount, b.num('P'))
	}
	return nil
}

// checkG53 checks a move in machine coordinates (NISTIR 6556, 3.5.12).
func (r *Reader) checkG53(b *block) error {
	s, at := &r.scanner, b.codePlace[nonModalGroup]
	if !b.moves || b.motion != g0 && b.motion != g1 {
		return s.fault(at, "G53 goes with G0 or G1 and an axis word")
	}
	incremental := r.state.incremental
	if c, ok := b.code(distanceGroup); ok {
		incremental = c == g91
	}
	if incremental {
		return s.fault(at, "G53 has no meaning in G91")
	}
	return nil
}
