package rs274

// lastParameter is the largest number of a parameter that a program may use
// (NISTIR 6556, 3.2.1).
const lastParameter = 5399

// Reserved parameters (NISTIR 6556, table 2). All but one are the first of six
// in a row, for X Y Z A B C.
const (
	probeTrip     = 5061 // where the probe tripped last: always 0 here
	homeG28       = 5161
	homeG30       = 5181
	savedG92      = 5211 // for G92.3
	systemInForce = 5220 // one alone, 1 to 9
	firstSystem   = 5221 // origin of the first coordinate system
	systemStep    = 20   // from one system to the next
	systemCount   = 9
)

// systemOrigin returns the number of the first of the parameters that hold the
// origin of the coordinate system n, from 1.
func systemOrigin(n int) int { return firstSystem + (n-1)*systemStep }

// isLength reports whether the parameter n is reserved for an X, Y or Z.
func isLength(n int) bool {
	if n >= firstSystem {
		n -= firstSystem
		return n < systemCount*systemStep && n%systemStep < 3
	}
	for _, first := range [...]int{probeTrip, homeG28, homeG30, savedG92} {
		if n >= first && n < first+3 {
			return true
		}
	}
	return false
}

// parameter returns the value of the parameter n in the unit in force.
func (st *state) parameter(n int) float64 {
	if isLength(n) {
		return st.parameters[n] / st.unit.Millimetres()
	}
	return st.parameters[n]
}

// stored returns what the parameter n must hold to have the value v in the
// unit in force.
func (st *state) stored(n int, v float64) float64 {
	if isLength(n) {
		return v * st.unit.Millimetres()
	}
	return v
}

// six returns six reserved parameters in a row, mm and degrees.
func (st *state) six(first int) [6]float64 {
	return [6]float64(st.parameters[first : first+6])
}

// setSix sets six reserved parameters in a row, mm and degrees.
func (st *state) setSix(first int, v [6]float64) {
	copy(st.parameters[first:], v[:])
}
