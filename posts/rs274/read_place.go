package rs274

// given returns the values of the line's axis words, mm and degrees; of the
// other axes, those of rest.
func (r *Reader) given(b *block, rest [6]float64) [6]float64 {
	for i := range rest {
		if c := axes[i]; b.axes.has(c) {
			rest[i] = float64(b.num(c) * r.state.size(i))
		}
	}
	return rest
}

// target returns where the line's axis words lead, in program coordinates.
func (r *Reader) target(b *block) [6]float64 {
	st := &r.state
	if !st.incremental {
		return r.given(b, st.pos)
	}
	to := r.given(b, [6]float64{})
	for i := range to {
		to[i] += st.pos[i]
	}
	return to
}

// place does the non-modal codes that are about places: G10, G28, G30 and
// those of G92.
func (r *Reader) place(b *block, c code) error {
	st := &r.state
	switch c {
	case g10:
		n, _ := whole(b.num('P'))
		first := systemOrigin(n)
		origin := r.given(b, st.six(first))
		if err := r.within(b.codePlace[nonModalGroup], origin); err != nil {
			return err
		}
		st.setSix(first, origin)
		if n == st.system {
			st.choose(n)
		}
	case g28:
		return r.home(b, homeG28)
	case g30:
		return r.home(b, homeG30)
	case g92:
		// The point where the machine stands gets the given numbers
		// (NISTIR 6556, 3.5.18).
		m, p, shift := st.machine(), r.given(b, st.pos), st.shift
		for i := range shift {
			if b.axes.has(axes[i]) {
				shift[i] = m[i] - st.origin[i] - p[i]
			}
		}
		st.setSix(savedG92, shift)
		st.offset(st.origin, shift)
	case g92p1:
		st.setSix(savedG92, [6]float64{})
		st.offset(st.origin, [6]float64{})
	case g92p2:
		st.offset(st.origin, [6]float64{})
	case g92p3:
		st.offset(st.origin, st.six(savedG92))
	}
	return r.settled(b.codePlace[nonModalGroup])
}

// settled reports coordinates that have grown beyond what a float64 holds, by
// the code at the place at.
func (r *Reader) settled(at int) error {
	return r.within(at, r.state.pos, r.state.machine())
}

// within reports places, in a program or on the machine, that lie beyond what
// a float64 holds, by the word at the place at.
func (r *Reader) within(at int, places ...[6]float64) error {
	for _, p := range places {
		for i, v := range p {
			if !finite(v) {
				return r.scanner.fault(at, "%c lies too far away", axes[i])
			}
		}
	}
	return nil
}

// home does G28 and G30: a rapid to the point that the line gives, if any,
// then one of all axes to the machine coordinates in the six parameters from
// first on (NISTIR 6556, 3.5.8).
func (r *Reader) home(b *block, first int) error {
	at := b.codePlace[nonModalGroup]
	if b.axes != 0 {
		if _, err := r.run(Rapid, r.target(b), 0, at); err != nil {
			return err
		}
	}
	st := &r.state
	_, err := r.run(Rapid, st.fromMachine(st.six(first)), 0, at)
	return err
}
