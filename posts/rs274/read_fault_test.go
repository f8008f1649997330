package rs274

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"wormwright/gen"
)

func TestFaults(t *testing.T) {
	for _, tt := range []struct {
		clause    string // of NISTIR 6556, unless it says otherwise
		program   string
		line, col int
		phrase    string
	}{
		// The file.
		{"3.1", "", 1, 1, "is empty"},
		{"3.1", "\n  \n", 2, 3, "is empty"},
		{"3.1", "G21\nG90\n", 2, 4, "want M2 or M30"},
		{"3.1", "G21\nG90", 2, 4, "want M2 or M30"},
		{"3.1", "(é)\n", 1, 4, "want M2 or M30"},
		{"3.1", "%\nG21\n", 2, 4, "% must close"},
		{"3.1", "%", 1, 2, "% must close"},
		{"3.1", "% sluice\nM2\n%\n", 1, 3, "beside %"},
		{"3.1", "G21\n%\nM2\n", 2, 1, "% may stand only"},
		{"3.1", "%\nG21\n% G0\n", 3, 1, "% may stand only"},
		{"3.1", "(hoist)\n%\n", 2, 1, "% may stand only"},

		// Characters and letters.
		{"3.3", "\ufeffG21\n", 1, 1, `want a word, have '\ufeff'`},
		{"3.3", "G21\f\n", 1, 4, `want a word, have '\f'`},
		{"3.3", "G21 \x00\n", 1, 5, `want a word, have '\x00'`},
		{"3.3", "G0 X1\x00\n", 1, 6, `want a word, have '\x00'`},
		{"3.3", "G21 é\n", 1, 5, "want a word, have 'é'"},
		{"3.3", "(é) \xff\n", 1, 5, "have the byte 0xff"},
		{"3.3", "G0 E1\n", 1, 4, "no word begins with E"},
		{"3.3", "O12\n", 1, 1, "no word begins with O"},
		{"3.3", "G0 U1\n", 1, 4, "no word begins with U"},
		{"3.3", "G0 v1\n", 1, 4, "no word begins with V"},
		{"3.3", "G0 W1\n", 1, 4, "no word begins with W"},
		{"3.3", "G0 X1e3\n", 1, 6, "no word begins with E"},
		{"3.3", "G0 X1,5\n", 1, 6, "want a word, have ','"},
		{"3.3", "G0 ; lift\n", 1, 4, "no comments that begin with ;"},
		{"3.3", "1 G0\n", 1, 1, "want a word, have '1'"},

		// Order within the line, and line numbers.
		{"3.3", "N10 / G0 X1\n", 1, 5, "/ of block delete"},
		{"3.3", "// G0 X1\n", 1, 2, "/ of block delete"},
		{"3.3", "G0 N10 X1\n", 1, 4, "N may stand only"},
		{"3.3.1", "N10 N20\n", 1, 5, "N may stand only"},
		{"3.3.1", "N100000\n", 1, 1, "at most five digits"},
		{"3.3.1", "N000009\n", 1, 1, "at most five digits"},
		{"3.3.1", "N-1\n", 1, 2, "want digits after N, have '-'"},
		{"3.3.1", "N\n", 1, 2, "want digits after N, have the end of the line"},
		{"3.3.1", "N1.5\n", 1, 3, "want a word, have '.'"},
		{"3.3.1", "/ N\n", 1, 4, "want digits after N"},
		{"3.3.1", "N#1\n", 1, 2, "want digits after N"},

		// Numbers.
		{"3.3.2.1", "G0 X\n", 1, 5, "want a number, have the end of the line"},
		{"3.3.2.1", "G0 X Y1\n", 1, 6, "want a number, have 'Y'"},
		{"3.3.2.1", "G0 X.\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X-\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X+.\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X--1\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X-[1]\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X-#1\n", 1, 5, "number with digits"},
		{"3.3.2.1", "G0 X1.2.3\n", 1, 8, "want a word, have '.'"},
		{"3.3.2.1", "G0 X.1.2\n", 1, 7, "want a word, have '.'"},
		{"3.3.2.1", "G0 X1 2 . 3 . 4\n", 1, 13, "want a word, have '.'"},

		// Comments.
		{"3.3.5", "G0 (lift (the) hob)\n", 1, 10, "comment inside a comment"},
		{"3.3.5", "G0 (lift\n", 1, 4, "not closed"},
		{"3.3.5", "G0 X1)\n", 1, 6, "closes no comment"},
		{"3.3.5", "G0 X(east)1\n", 1, 5, "inside a word"},
		{"3.3.5", "#1(east)=5\n", 1, 3, "want = "},
		{"3.3.5", "#1=(east)5\n", 1, 4, "inside a word or a setting"},
		{"3.3.5", "(a\x01b)\n", 1, 3, `characters that print, have '\x01'`},
		{"3.3.5", "(é\xffb)\n", 1, 3, "characters that print, have the byte 0xff"},

		// Parameters.
		{"3.2.1", "#0=1\n", 1, 1, "from 1 to 5399, have 0"},
		{"3.2.1", "G0 X#5400\n", 1, 5, "from 1 to 5399, have 5400"},
		{"3.2.1", "G0 X#-1\n", 1, 5, "from 1 to 5399"},
		{"3.3.2.2", "G0 X#1.5\n", 1, 5, "have 1.5"},
		{"3.3.2.2", "G0 X##1\n", 1, 5, "have 0"},
		{"3.3.2.2", "G0 X#9999999999\n", 1, 5, "from 1 to 5399"},
		{"3.3.2.2", "#\n", 1, 2, "want a number"},
		{"3.3.2.2", "#[1\n", 1, 2, "[ is not closed"},
		{"3.3.3", "#1 5\n", 1, 5, "want = after the number"},
		{"3.3.3", "#1\n", 1, 3, "want = after the number"},
		{"3.3.3", "#1=\n", 1, 4, "want a number"},

		// Expressions.
		{"3.3.2.3", "G0 X[1\n", 1, 5, "[ is not closed"},
		{"3.3.2.3", "G0 X[1+\n", 1, 8, "want a number, have the end"},
		{"3.3.2.3", "G0 X[]\n", 1, 6, "want a number, have ']'"},
		{"3.3.2.3", "G0 X[1]]\n", 1, 8, "want a word, have ']'"},
		{"3.3.2.3", "G0 X[1 EQ 2]\n", 1, 8, "want an operator or ], have 'E'"},
		{"3.3.2.3", "G0 X[1 2 3\n", 1, 5, "[ is not closed"},
		{"3.3.2.3", "G0 X1+1\n", 1, 6, "want a word, have '+'"},
		{"3.3.2.3", "G0 X[1 / 0]\n", 1, 8, "division by 0"},
		{"3.3.2.3", "G0 X[1 MOD 0]\n", 1, 8, "division by 0"},
		{"3.3.2.3", "G0 X[0 ** -1]\n", 1, 8, "division by 0"},
		{"3.3.2.3", "G0 X[-2 ** 0.5]\n", 1, 9, "exponent that is not whole"},
		{"3.3.2.3", "G0 X[10 ** 400]\n", 1, 9, "too large"},
		{"3.3.2.3", "G0 X[1 (one) + 2]\n", 1, 8, "want an operator or ], have '('"},
		{"3.3.2.3", "G0 X[(one) 1]\n", 1, 6, "a comment may not stand inside"},
		{"3.3.2.4", "G0 XSQRT[-1]\n", 1, 5, "SQRT of a number below 0"},
		{"3.3.2.4", "G0 XLN[0]\n", 1, 5, "LN of a number not above 0"},
		{"3.3.2.4", "G0 XLN[-1]\n", 1, 5, "LN of a number not above 0"},
		{"3.3.2.4", "G0 XACOS[1.01]\n", 1, 5, "from -1 to 1"},
		{"3.3.2.4", "G0 XASIN[-2]\n", 1, 5, "from -1 to 1"},
		{"3.3.2.4", "G0 XEXP[1000]\n", 1, 5, "too large"},
		{"3.3.2.4", "G0 XSIN30\n", 1, 8, "want [ and the argument"},
		{"3.3.2.4", "G0 XATAN[1]\n", 1, 12, "second argument of ATAN"},
		{"3.3.2.4", "G0 XATAN[1]/2\n", 1, 13, "want [ and the argument"},
		{"3.3.2.4", "G0 XATAN\n", 1, 9, "want [ and the argument"},
		{"3.3.2.4", "G0 XATAN[1]/[2\n", 1, 13, "[ is not closed"},
		{"3.3.2.4", "G0 XSQRTABS[9]\n", 1, 9, "want [ and the argument"},
		{"3.3.2.4", "G0 XFOO[1]\n", 1, 5, "want a number, have 'F'"},

		// Values of words.
		{"3.5", "G-1\n", 1, 1, "no G code has the number -1"},
		{"3.5", "G100\n", 1, 1, "no G code has the number 100"},
		{"3.5", "G0.05 X1\n", 1, 1, "no G code has the number 0.05"},
		{"3.5", "G5 X1\n", 1, 1, "G5 is not read in RS274/NGC"},
		{"3.5", "G59.4\n", 1, 1, "G59.4 is not read in RS274/NGC"},
		{"3.6", "M-1\n", 1, 1, "no M code has the number -1"},
		{"3.6", "M100\n", 1, 1, "no M code has the number 100"},
		{"3.6", "M1.5\n", 1, 1, "no M code has the number 1.5"},
		{"3.6", "M10\n", 1, 1, "M10 is not read in RS274/NGC"},
		{"3.7.1", "G94 F-1\n", 1, 5, "F below 0"},
		{"3.7.2", "S-1\n", 1, 1, "S below 0"},
		{"3.7.3", "T-1\n", 1, 1, "want a whole number from 0 with T, have -1"},
		{"3.7.3", "T1.5\n", 1, 1, "want a whole number from 0 with T, have 1.5"},

		// One word of a letter, one code of a group, four M words.
		{"3.3", "G0 X1 Y2 X1\n", 1, 10, "a second X word"},
		{"table 4", "G0 X1 G0\n", 1, 7, "G0 and G0 on one line, both of the motion group"},
		{"table 4", "G1 G2 X1\n", 1, 4, "both of the motion group"},
		{"table 4", "G1 G80 X1\n", 1, 4, "both of the motion group"},
		{"table 4", "G17 G19\n", 1, 5, "both of the plane group"},
		{"table 4", "G90 G91\n", 1, 5, "both of the distance group"},
		{"table 4", "G93 G94\n", 1, 5, "both of the feed mode group"},
		{"table 4", "G20 G21\n", 1, 5, "both of the unit group"},
		{"table 4", "G40 G40\n", 1, 5, "both of the radius compensation group"},
		{"table 4", "G49 G49\n", 1, 5, "both of the tool length group"},
		{"table 4", "G98 G99\n", 1, 5, "both of the cycle return group"},
		{"table 4", "G54 G59.3\n", 1, 5, "G54 and G59.3 on one line, both of the coordinate system group"},
		{"table 4", "G61 G64\n", 1, 5, "both of the path group"},
		{"table 4", "G4 P1 G53 G0 X1\n", 1, 7, "G4 and G53 on one line, both of the non-modal group"},
		{"table 4", "G92.1 G10 L2 P1\n", 1, 7, "G92.1 and G10 on one line"},
		{"table 4", "M0 M1\n", 1, 4, "M0 and M1 on one line, both of the stopping group"},
		{"table 4", "M6 M6\n", 1, 4, "both of the tool change group"},
		{"table 4", "M3 M5\n", 1, 4, "both of the spindle group"},
		{"table 4", "M7 M8\n", 1, 4, "both of the coolant group"},
		{"table 4", "M48 M49\n", 1, 5, "both of the override group"},
		{"3.3", "M1 M3 M6 M8 M48\n", 1, 13, "more than 4 M words"},

		// Codes that cutting gears has no use for.
		{"3.5.9", "G38.2 X1 F10\n", 1, 1, "G38.2 is probing"},
		{"3.5.10", "G41 D1\n", 1, 1, "G41 is radius compensation"},
		{"3.5.10", "G42\n", 1, 1, "G42 is radius compensation"},
		{"3.5.11", "G43 H1\n", 1, 1, "G43 is a tool length offset"},
		{"3.5.16", "G81 X1 Z-1 R1\n", 1, 1, "G81 is a drilling or boring cycle"},
		{"3.5.16", "G98 G89 X1 Z-1 R1 P1\n", 1, 5, "G89 is a drilling or boring cycle"},

		// Words that nothing uses.
		{"3.5", "G0 X1 P1\n", 1, 7, "nothing on the line uses P; it belongs to G4"},
		{"3.5", "G0 X1 Q1\n", 1, 7, "nothing on the line uses Q; it belongs to a drilling cycle"},
		{"3.5", "G0 X1 R1\n", 1, 7, "nothing on the line uses R; it belongs to an arc"},
		{"3.5", "G0 X1 J1 I1\n", 1, 7, "nothing on the line uses J; it belongs to an arc"},
		{"3.5", "K1\n", 1, 1, "nothing on the line uses K; it belongs to an arc"},
		{"3.5", "G4 P1 L2\n", 1, 7, "nothing on the line uses L; it belongs to G10"},
		{"3.5", "H1\n", 1, 1, "nothing on the line uses H; it belongs to a tool length offset"},
		{"3.5", "D1\n", 1, 1, "nothing on the line uses D; it belongs to radius compensation"},
		{"3.5", "G92 X1 I2\n", 1, 8, "nothing on the line uses I"},

		// Who gets the axis words.
		{"3.5.1", "G0\n", 1, 1, "G0 wants an axis word"},
		{"3.5.2", "F10 G1\n", 1, 5, "G1 wants an axis word"},
		{"3.5.3", "G2 I1\n", 1, 1, "G2 wants an axis word"},
		{"3.4", "X1\n", 1, 1, "no motion is in force"},
		{"3.4", "G90 Y2 X1\n", 1, 5, "no motion is in force"},
		{"3.5.15", "G0 X1\nG80\nX2\n", 3, 1, "no motion is in force"},
		{"3.5.15", "G80 X1\n", 1, 5, "an axis word on the line of G80"},
		{"3.4", "G1 G92 X1 F1\n", 1, 4, "G1 and G92 on one line, both want the axis words"},
		{"3.4", "G28 G0 X1\n", 1, 5, "G0 and G28 on one line"},
		{"3.4", "G30 G2\n", 1, 5, "G2 and G30 on one line"},
		{"3.4", "G10 L2 P1 X1 G1\n", 1, 14, "G1 and G10 on one line"},

		// Dwell, coordinates.
		{"3.5.4", "G4\n", 1, 1, "G4 wants P"},
		{"3.5.4", "G4 X1\n", 1, 1, "G4 wants P"},
		{"3.5.4", "G4 P-1\n", 1, 4, "a dwell below 0"},
		{"3.5.5", "G10 P1 X1\n", 1, 1, "G10 wants L2"},
		{"3.5.5", "G10 L3 P1 X1\n", 1, 5, "have L3"},
		{"3.5.5", "G10 L2.5 P1 X1\n", 1, 5, "want a whole number from 0 with L"},
		{"3.5.5", "G10 L2 X1\n", 1, 1, "G10 wants P"},
		{"3.5.5", "G10 L2 P0 X1\n", 1, 8, "from 1 to 9 with P, have 0"},
		{"3.5.5", "G10 L2 P10 X1\n", 1, 8, "from 1 to 9 with P, have 10"},
		{"3.5.5", "G10 L2 P1.5 X1\n", 1, 8, "from 1 to 9 with P, have 1.5"},
		{"3.5.12", "G0 X1\nG53\n", 2, 1, "G53 goes with G0 or G1"},
		{"3.5.12", "G53 G2 X1 I1 F10\n", 1, 1, "G53 goes with G0 or G1"},
		{"3.5.12", "G91\nG53 G0 X1\n", 2, 1, "no meaning in G91"},
		{"3.5.12", "G91 G53 G0 X1\n", 1, 5, "no meaning in G91"},
		{"3.5.18", "G92\n", 1, 1, "G92 wants an axis word"},

		// Feed.
		{"3.5.2", "G1 X1\n", 1, 1, "G1 wants F, and none above 0 has been given since G94"},
		{"3.5.2", "G1 X1 F0\n", 1, 1, "G1 wants F"},
		{"3.5.3", "X1 R5 G2\n", 1, 7, "G2 wants F"},
		{"3.5.19", "F10 G93\nG1 X1\n", 2, 1, "G1 wants F above 0 on its line in G93"},
		{"3.5.19", "G93 G1 X1 F5\nX2\n", 2, 1, "G1 wants F above 0 on its line in G93"},
		{"3.5.19", "G93 G1 X1 F0\n", 1, 5, "G1 wants F above 0 on its line in G93"},
		{"3.5.19", "G93 F5\nG3 X1 R5\n", 2, 1, "G3 wants F above 0 on its line in G93"},
		{"3.5.19", "G94 G1 X1 F9\nG93 X2 F5\nG94 X3\n", 3, 5, "none above 0 has been given since G94"},

		// Arcs.
		{"3.5.3.2", "G2 X10 I4 F10\n", 1, 8, "begins 4 mm from its centre and ends 6 mm from it, want the same within 0.002 mm"},
		{"3.5.3.2", "G20 G2 X10 I4 F10\n", 1, 12, "begins 4 in from its centre and ends 6 in from it, want the same within 0.0002 in"},
		{"3.5.3.2", "G2 X10 I4.9985 F10\n", 1, 8, "within 0.002 mm"},
		{"3.5.3.2", "G17 G2 X10 I5 K1 F10\n", 1, 15, "K has no meaning for an arc in the XY plane"},
		{"3.5.3.2", "G18 G2 X10 I5 J1 F10\n", 1, 15, "J has no meaning for an arc in the ZX plane"},
		{"3.5.3.2", "G19 G2 Y10 J5 I1 F10\n", 1, 15, "I has no meaning for an arc in the YZ plane"},
		{"3.5.3.2", "G2 X10 F10\n", 1, 1, "an arc in the XY plane wants I, J or R"},
		{"3.5.3.2", "G18 G2 X10 F10\n", 1, 5, "an arc in the ZX plane wants K, I or R"},
		{"3.5.3.2", "G2 Z10 I5 F10\n", 1, 1, "an arc in the XY plane wants X or Y"},
		{"3.5.3.2", "G2 X0 I0 F10\n", 1, 7, "about the point where it begins"},
		{"3.5.3", "G2 X10 R5 I5 F10\n", 1, 11, "wants R or the offsets of its centre, have both"},
		{"3.5.3.1", "G2 X0 R5 F10\n", 1, 7, "must not end where it begins"},
		{"3.5.3.1", "G2 Z5 R5 F10\n", 1, 1, "wants X or Y"},
		{"3.5.3.1", "G2 X10 R-4 F10\n", 1, 8, "radius too small, want 5 mm or more"},
		{"3.5.3.1", "G2 X10 R0 F10\n", 1, 8, "radius too small"},

		// Numbers that grow beyond all bounds.
		{"own", "G91 G0 X[10**308]\nX[10**308]\n", 2, 1, "X lies too far away"},
		{"own", "G0 X[0 - 1.5*10**308]\nG92 X[1.5*10**308]\n", 2, 1, "X lies too far away"},
		{"own", "#1=1.5 #5241=[0 - 1.5*10**308]\nG0 X[#1*10**308]\nG90 G55\n", 3, 5, "X lies too far away"},
		{"own", "#1=1.5 #5221=[0 - 1.5*10**308]\nG0 X[#1*10**308]\nM2\n", 3, 1, "X lies too far away"},
		{"own", "G20\nG10 L2 P2 Y[10**308]\n", 2, 1, "Y lies too far away"},
		{"own", "G20\n#5221=[10**308]\n", 2, 1, "number too large"},
		{"own", "G91 G0 X[10**308]\nG28 X[10**308]\n", 2, 1, "X lies too far away"},
		{"own", "G1 X[10**300] F[10**-300]\n", 1, 1, "takes too long"},
		{"own", "G93 G1 X1 F[10**-307 / 10]\n", 1, 5, "takes too long"},
		{"own", "G93 G2 X1 R[10**200] F1\n", 1, 5, "the centre is too far away"},
		{"own", "#1=1.5\nG0 X[#1*10**308]\n#2=[0-#1]\nX[#2*10**308]\nG92 X0\nX[#2*10**308]\n", 6, 1, "X lies too far away"},

		// Other languages' codes.
		{"ISO 6983-1", "G33 Z1 K1\n", 1, 1, "G33 is not read in RS274/NGC"},
		{"ISO 6983-1", "G70\n", 1, 1, "G70 is not read in RS274/NGC"},
		{"ISO 6983-1", "G71\n", 1, 1, "G71 is not read in RS274/NGC"},
		{"ISO 6983-1", "G95 F1\n", 1, 1, "G95 is not read in RS274/NGC"},
	} {
		checkFault(t, tt.clause, tt.program, Options{}, Fault{tt.line, tt.col, tt.phrase})
	}
}

func checkFault(t *testing.T, clause, program string, opt Options, want Fault) {
	t.Helper()
	_, err := readAll(program, opt)
	var f Fault
	if !errors.As(err, &f) {
		t.Errorf("%s: %q: error %v, want a fault at %d:%d: … %s …", clause, program, err, want.Line, want.Col, want.Msg)
		return
	}
	if f.Line != want.Line || f.Col != want.Col || !strings.Contains(f.Msg, want.Msg) {
		t.Errorf("%s: %q: %v, want %d:%d: … %s …", clause, program, f, want.Line, want.Col, want.Msg)
	}
}

func TestFaultsOfADialect(t *testing.T) {
	iso := gen.Language{Base: gen.ISO}
	wide := gen.Language{Base: gen.ISO, LineLength: 400}
	turns := gen.Language{Base: gen.ISO, DwellWord: "X", DwellUnit: gen.Revolutions}
	semicolon := gen.Language{Comments: gen.Semicolon}
	bare := gen.Language{Comments: gen.NoComments}
	marks := gen.Language{Marks: true}
	for _, tt := range []struct {
		clause    string
		language  gen.Language
		program   string
		line, col int
		phrase    string
	}{
		{"3.3.2.1", wide, "G0 X" + strings.Repeat("9", 310) + "\n", 1, 5, "number too large"},
		{"3.3", gen.Language{LineLength: 40}, strings.Repeat("\U00010000", 40), 1, 1, "want a word"},
		{"3.1", marks, "G21\nM2\n", 1, 1, "a line of % must open the program"},
		{"3.1", marks, "%\nM2\n\n", 3, 1, "a line of % must close the program"},
		{"3.1", marks, "%\nM2\n (end)\n%\n", 3, 2, "only a line of % may follow"},
		{"3.1", gen.Language{Marks: true, LineLength: 20}, "%\nM2\n" + strings.Repeat(" ", 21) + "\n", 3, 21, "line too long"},
		{"ISO 6983-1", semicolon, "G21 (hoist)\n", 1, 5, "no comments that begin with ("},
		{"ISO 6983-1", semicolon, "G21 ; a\x01\n", 1, 8, "characters that print"},
		{"ISO 6983-1", semicolon, "G0 X ; east\n", 1, 6, "inside a word"},
		{"ISO 6983-1", bare, "G21 (hoist)\n", 1, 5, "no comments that begin with ("},
		{"ISO 6983-1", bare, "G21 ; hoist\n", 1, 5, "no comments that begin with ;"},
		{"ISO 6983-1", bare, "G21 )\n", 1, 5, "want a word, have ')'"},
		{"ISO 6983-1", iso, "#1=5\n", 1, 1, "ISO 6983-1 has no parameters"},
		{"ISO 6983-1", iso, "G0 X#1\n", 1, 5, "want a number, have '#'"},
		{"ISO 6983-1", iso, "G0 X[1]\n", 1, 5, "want a number, have '['"},
		{"ISO 6983-1", iso, "G0 XABS[1]\n", 1, 5, "want a number, have 'A'"},
		{"ISO 6983-1", iso, "G53\n", 1, 1, "G53 is not read in ISO 6983-1"},
		{"ISO 6983-1", iso, "G96 S100\n", 1, 1, "G96 is not read in ISO 6983-1"},
		{"ISO 6983-1", iso, "G71 G70\n", 1, 5, "both of the unit group"},
		{"ISO 6983-1", iso, "G94 G95\n", 1, 5, "both of the feed mode group"},
		{"ISO 6983-1", iso, "G33 G1 Z1\n", 1, 5, "both of the motion group"},
		{"ISO 6983-1", iso, "G95 G1 X1 F1\n", 1, 5, "G95 waits for the spindle"},
		{"ISO 6983-1", iso, "G95 G1 X1 F1 S100\n", 1, 5, "G95 waits for the spindle"},
		{"ISO 6983-1", iso, "M3 S0 G95 G1 X1 F1\n", 1, 11, "G95 waits for the spindle"},
		{"ISO 6983-1", iso, "G94 F100\nG95 M3 S100 G1 X1\n", 2, 13, "none above 0 has been given since G95"},
		{"ISO 6983-1", iso, "M3 S100\nG33\n", 2, 1, "G33 wants an axis word"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1\n", 2, 1, "G33 wants one lead"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1 X1 K1 I1\n", 2, 1, "G33 wants one lead"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1 K0\n", 2, 8, "want a lead above 0 and within reason with K, have 0"},
		{"ISO 6983-1", wide, "M3 S100 G70\nG33 Z1 K1" + strings.Repeat("0", 308) + "\n", 2, 8, "within reason"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1 I1\n", 2, 8, "I is the lead along X, which does not move"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1 C90 K1\n", 2, 8, "G33 does not take C"},
		{"ISO 6983-1", iso, "G33 Z1 K1\n", 1, 1, "G33 waits for the spindle"},
		{"ISO 6983-1", iso, "M3 S100\nG33 Z1 K1\nZ2\n", 3, 1, "G33 wants one lead"},
		{"ISO 6983-1", turns, "G4 X3\n", 1, 1, "G4 waits for the spindle"},
		{"ISO 6983-1", turns, "M3 S100\nG4 P3\n", 2, 1, "G4 wants X"},
		{"ISO 6983-1", turns, "G0 X1 P3\n", 1, 7, "nothing on the line uses P; it belongs to G10"},
		{"ISO 6983-1", gen.Language{DwellWord: "U"}, "U3\n", 1, 1, "nothing on the line uses U; it belongs to G4"},
	} {
		checkFault(t, tt.clause, tt.program, Options{Language: tt.language}, Fault{tt.line, tt.col, tt.phrase})
	}
}

// NISTIR 6556, 3.3: one word of each letter, G and M apart.
func TestEveryLetterOnce(t *testing.T) {
	for _, c := range "ABCDFHIJKLPQRSTXYZ" {
		program := fmt.Sprintf("%c1 %c1\n", c, c)
		checkFault(t, "3.3", program, Options{}, Fault{1, 4, fmt.Sprintf("a second %c word", c)})
	}
}

// NISTIR 6556, tables 4 to 6: these codes and no others.
func TestEveryCode(t *testing.T) {
	known := "0 1 2 3 4 10 17 18 19 20 21 28 30 40 49 53 54 55 56 57 58 59 59.1 59.2 59.3 61 61.1 64" +
		" 80 90 91 92 92.1 92.2 92.3 93 94 98 99"
	useless := "38.2 41 42 43 81 82 83 84 85 86 87 88 89"
	for tenth := range 1000 {
		name := gName(code(tenth))
		phrase := " is not read in RS274/NGC"
		for _, n := range strings.Fields(known) {
			if name == "G"+n {
				phrase = ""
			}
		}
		for _, n := range strings.Fields(useless) {
			if name == "G"+n {
				phrase = "which cutting gears has no use for"
			}
		}
		_, err := readAll(name+"\nM2\n", Options{})
		if phrase != "" && (err == nil || !strings.Contains(err.Error(), phrase)) {
			t.Errorf("%s: %v, want … %s …", name, err, phrase)
		}
		if phrase == "" && err != nil && strings.Contains(err.Error(), "read in") {
			t.Errorf("%s: %v, want a known code", name, err)
		}
	}
	for m := range 100 {
		known := strings.Contains(" 0 1 2 3 4 5 6 7 8 9 30 48 49 60 ", fmt.Sprintf(" %d ", m))
		if _, err := readAll(fmt.Sprintf("M%d\nM2\n", m), Options{}); (err == nil) != known {
			t.Errorf("M%d: %v, want it known: %v", m, err, known)
		}
	}
}
