package rs274

import (
	"fmt"

	"wormwright/gen"
)

// A group is a modal group: of each, a line may hold one code (NISTIR 6556,
// table 4).
type group uint8

const (
	unknownGroup  group = iota
	nonModalGroup       // G4, G10, G92 and others: not modal, but exclusive all the same
	motionGroup         // G0, G1, G2 ...
	planeGroup          // G17, G18, G19
	distanceGroup       // G90, G91
	feedModeGroup       // G93, G94, G95
	unitGroup           // G20, G21, G70, G71
	radiusGroup         // G40
	lengthGroup         // G49
	returnGroup         // G98, G99
	systemGroup         // G54 ... G59.3
	pathGroup           // G61, G61.1, G64
	stopGroup           // M0, M1, M2, M30, M60
	toolGroup           // M6
	spindleGroup        // M3, M4, M5
	coolantGroup        // M7, M8, M9
	overrideGroup       // M48, M49
	groupCount
)

func (g group) String() string {
	return [groupCount]string{"unknown", "non-modal", "motion", "plane", "distance", "feed mode",
		"unit", "radius compensation", "tool length", "cycle return", "coordinate system", "path",
		"stopping", "tool change", "spindle", "coolant", "override"}[g]
}

// A code is the number of a G word times ten, or the number of an M word.
type code int

// The codes that the reader asks for by name.
const (
	g0, g1, g2, g3, g33, g80 code = 0, 10, 20, 30, 330, 800
	g4, g10, g28, g30, g53   code = 40, 100, 280, 300, 530
	g92, g92p1, g92p2, g92p3 code = 920, 921, 922, 923
	g17, g18, g19            code = 170, 180, 190
	g20, g21, g70, g71       code = 200, 210, 700, 710
	g54, g59, g59p3          code = 540, 590, 593
	g90, g91                 code = 900, 910
	g93, g94, g95            code = 930, 940, 950
	m2, m3, m4, m5, m6, m30  code = 2, 3, 4, 5, 6, 30
)

// gGroup returns the modal group of a G code in either base language.
func gGroup(c code) group {
	switch c {
	case g0, g1, g2, g3, g33, g80:
		return motionGroup
	case g4, g10, g28, g30, g53, g92, g92p1, g92p2, g92p3:
		return nonModalGroup
	case g17, g18, g19:
		return planeGroup
	case g90, g91:
		return distanceGroup
	case g93, g94, g95:
		return feedModeGroup
	case g20, g21, g70, g71:
		return unitGroup
	case 400:
		return radiusGroup
	case 490:
		return lengthGroup
	case 980, 990:
		return returnGroup
	case g54, 550, 560, 570, 580, g59, 591, 592, g59p3:
		return systemGroup
	case 610, 611, 640:
		return pathGroup
	}
	return unknownGroup
}

// mGroup returns the modal group of an M code.
func mGroup(c code) group {
	switch c {
	case 0, 1, m2, m30, 60:
		return stopGroup
	case m6:
		return toolGroup
	case m3, m4, m5:
		return spindleGroup
	case 7, 8, 9:
		return coolantGroup
	case 48, 49:
		return overrideGroup
	}
	return unknownGroup
}

// unused returns what a G code is for that the language has and cutting gears
// has no use for, or "".
func unused(c code) string {
	switch c {
	case 382:
		return "probing"
	case 410, 420:
		return "radius compensation"
	case 430:
		return "a tool length offset"
	case 810, 820, 830, 840, 850, 860, 870, 880, 890:
		return "a drilling or boring cycle"
	}
	return ""
}

// foreign reports whether a G code belongs to the other base language only.
// ISO 6983-1 has a G53 too, but it cancels the zero shift for good.
func foreign(c code, base gen.Base) bool {
	switch c {
	case g33, g70, g71, g95:
		return base != gen.ISO
	case g53:
		return base == gen.ISO
	}
	return false
}

// gName returns a G code as a program writes it.
func gName(c code) string {
	if c%10 == 0 {
		return fmt.Sprintf("G%d", c/10)
	}
	return fmt.Sprintf("G%d.%d", c/10, c%10)
}

// languageName returns the name of a base language as its standard has it.
func languageName(base gen.Base) string {
	if base == gen.ISO {
		return "ISO 6983-1"
	}
	return "RS274/NGC"
}
