package rs274

import (
	"math"

	"wormwright/gen"
)

// value reads what may follow a letter: a number, a parameter, an expression
// or a function (NISTIR 6556, 3.3.2).
func (s *scanner) value() (float64, error) {
	switch c := s.peek(); {
	case '0' <= c && c <= '9', c == '.', c == '+', c == '-':
		return s.number()
	case s.base == gen.ISO:
		// Its tables have no sign for parameters or expressions.
	case c == '#':
		at := s.i
		s.i++
		n, err := s.parameterNumber(at)
		if err != nil {
			return 0, err
		}
		return s.state.parameter(n), nil
	case c == '[':
		return s.bracketed()
	case 'A' <= c && c <= 'Z':
		return s.function()
	}
	if c := s.peek(); c == s.opens {
		return 0, s.fault(s.i, "a comment may not stand inside a word or a setting")
	}
	return 0, s.fault(s.i, "want a number, have %s", s.have(s.i))
}

// parameterNumber reads the number behind a # that stands at the place at.
// It binds tighter than any operator (NISTIR 6556, 3.3.2.2).
func (s *scanner) parameterNumber(at int) (int, error) {
	if s.base == gen.ISO {
		return 0, s.fault(at, "%s has no parameters", languageName(s.base))
	}
	v, err := s.value()
	if err != nil {
		return 0, err
	}
	n, ok := whole(v)
	if !ok || n < 1 || n > lastParameter {
		return 0, s.fault(at, "want a parameter number from 1 to %d, have %v", lastParameter, v)
	}
	return n, nil
}

// bracketed reads an expression in its brackets.
func (s *scanner) bracketed() (float64, error) {
	at := s.i
	s.i++
	v, err := s.expression(1)
	if err != nil {
		return 0, err
	}
	switch {
	case s.i == len(s.text):
		return 0, s.fault(at, "the [ is not closed on its line")
	case s.peek() != ']':
		return 0, s.fault(s.i, "want an operator or ], have %s", s.have(s.i))
	}
	s.i++
	return v, nil
}

// An operator is a binary operation.
type operator struct {
	sign  string
	rank  int
	apply func(x, y float64) float64
	check func(x, y float64) string // what is wrong with the operands, or ""
}

// operators go from left to right within one rank, those of a higher rank
// first (NISTIR 6556, 3.3.2.3). A sign that another begins with stands behind
// it.
var operators = []operator{
	{"**", 3, math.Pow, powerCheck},
	{"*", 2, func(x, y float64) float64 { return x * y }, nil},
	{"/", 2, func(x, y float64) float64 { return x / y }, quotientCheck},
	{"MOD", 2, modulo, quotientCheck},
	{"+", 1, func(x, y float64) float64 { return x + y }, nil},
	{"-", 1, func(x, y float64) float64 { return x - y }, nil},
	{"AND", 1, func(x, y float64) float64 { return truth(x != 0 && y != 0) }, nil},
	{"XOR", 1, func(x, y float64) float64 { return truth((x != 0) != (y != 0)) }, nil},
	{"OR", 1, func(x, y float64) float64 { return truth(x != 0 || y != 0) }, nil},
}

// operator passes over the operator that comes next, if one of the given rank
// or a higher one does.
func (s *scanner) operator(rank int) (op operator, ok bool) {
	for _, op := range operators {
		if op.rank >= rank && s.skip(op.sign) {
			return op, true
		}
	}
	return operator{}, false
}

// expression reads operands and the operators between them, of the given rank
// and higher.
func (s *scanner) expression(rank int) (float64, error) {
	x, err := s.value()
	if err != nil {
		return 0, err
	}
	for {
		at := s.i
		op, ok := s.operator(rank)
		if !ok {
			return x, nil
		}
		y, err := s.expression(op.rank + 1)
		if err != nil {
			return 0, err
		}
		if op.check != nil {
			if msg := op.check(x, y); msg != "" {
				return 0, s.fault(at, "%s", msg)
			}
		}
		if x = op.apply(x, y); !finite(x) {
			return 0, s.fault(at, "the result is too large")
		}
	}
}

// functions are the unary operations, each with its argument in brackets;
// angles are degrees (NISTIR 6556, 3.3.2.4). ATAN stands apart: it has two.
var functions = []struct {
	name  string
	apply func(float64) float64
	check func(float64) string // what is wrong with the argument, or ""
}{
	{"ABS", math.Abs, nil},
	{"ACOS", func(x float64) float64 { return math.Acos(x) / degree }, unitCheck},
	{"ASIN", func(x float64) float64 { return math.Asin(x) / degree }, unitCheck},
	{"COS", func(x float64) float64 { return math.Cos(x * degree) }, nil},
	{"EXP", math.Exp, nil},
	{"FIX", math.Floor, nil},
	{"FUP", math.Ceil, nil},
	{"LN", math.Log, func(x float64) string {
		if x <= 0 {
			return "LN of a number not above 0"
		}
		return ""
	}},
	{"ROUND", math.Round, nil}, // halves away from zero
	{"SIN", func(x float64) float64 { return math.Sin(x * degree) }, nil},
	{"SQRT", math.Sqrt, func(x float64) string {
		if x < 0 {
			return "SQRT of a number below 0"
		}
		return ""
	}},
	{"TAN", func(x float64) float64 { return math.Tan(x * degree) }, nil},
}

const degree = math.Pi / 180 // radians

// function reads a function and its argument.
func (s *scanner) function() (float64, error) {
	at := s.i
	if s.skip("ATAN") {
		y, err := s.argument()
		if err != nil {
			return 0, err
		}
		if !s.skip("/") {
			return 0, s.fault(s.i, "want / and the second argument of ATAN, have %s", s.have(s.i))
		}
		x, err := s.argument()
		if err != nil {
			return 0, err
		}
		return math.Atan2(y, x) / degree, nil
	}
	for _, f := range functions {
		if !s.skip(f.name) {
			continue
		}
		x, err := s.argument()
		if err != nil {
			return 0, err
		}
		if f.check != nil {
			if msg := f.check(x); msg != "" {
				return 0, s.fault(at, "%s", msg)
			}
		}
		v := f.apply(x)
		if !finite(v) {
			return 0, s.fault(at, "the result is too large")
		}
		return v, nil
	}
	return 0, s.fault(at, "want a number, have %s", s.have(at))
}

// argument reads the bracketed argument of a function.
func (s *scanner) argument() (float64, error) {
	if s.peek() != '[' {
		return 0, s.fault(s.i, "want [ and the argument of a function, have %s", s.have(s.i))
	}
	return s.bracketed()
}

func finite(x float64) bool { return x-x == 0 }

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// modulo is never negative: -10 MOD 3 is 2.
func modulo(x, y float64) float64 {
	m := math.Mod(x, y)
	if m < 0 {
		m += math.Abs(y)
	}
	return m
}

func quotientCheck(_, y float64) string {
	if y == 0 {
		return "division by 0"
	}
	return ""
}

func powerCheck(x, y float64) string {
	switch {
	case x < 0 && y != math.Trunc(y):
		return "a power of a number below 0 with an exponent that is not whole"
	case x == 0 && y < 0:
		return "division by 0"
	}
	return ""
}

func unitCheck(x float64) string {
	if x < -1 || x > 1 {
		return "the sine or cosine of an angle lies from -1 to 1"
	}
	return ""
}
