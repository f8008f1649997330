package train

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
)

const (
	maxText     = 100 // bytes of a ratio's text
	maxExponent = 30  // of ten, either sign
)

// ParseRatio reads a ratio: decimal numbers and pi, joined by * and /, worked
// from the left, such as 1.25, 127/90, pi*2/3 or pi/25.4. Numbers are taken
// exactly as they are written and may have an exponent, as 2.5e-3; π is
// written pi or π and may be left once at most, above or below the line.
func ParseRatio(text string) (Ratio, error) {
	if len(text) > maxText {
		return Ratio{}, fmt.Errorf("ratio: want %d characters or fewer, have %d", maxText, len(text))
	}
	r, err := parse(text)
	if err != nil {
		return Ratio{}, fmt.Errorf("ratio %q: %w", text, err)
	}
	return r, nil
}

func parse(text string) (Ratio, error) {
	q, power := big.NewRat(1, 1), 0
	under := false
	for rest := text; ; {
		end := strings.IndexAny(rest, "*/")
		word := rest
		if end >= 0 {
			word = rest[:end]
		}
		f, k, err := factor(strings.TrimSpace(word))
		if err != nil {
			return Ratio{}, err
		}
		switch {
		case under && f.Sign() == 0:
			return Ratio{}, errors.New("it divides by 0")
		case under:
			q.Quo(q, f)
			power -= k
		default:
			q.Mul(q, f)
			power += k
		}
		if end < 0 {
			return NewRatio(q, power)
		}
		under = rest[end] == '/'
		rest = rest[end+1:]
	}
}

// factor reads a number or π, the latter as 1 and the power 1.
func factor(word string) (q *big.Rat, power int, err error) {
	if strings.EqualFold(word, "pi") || word == "π" {
		return big.NewRat(1, 1), 1, nil
	}
	digits, exponent, hasExponent := strings.Cut(strings.ToLower(word), "e")
	whole, decimals, _ := strings.Cut(digits, ".")
	if whole+decimals == "" || !isDigits(whole+decimals) {
		return nil, 0, fmt.Errorf("want a number or pi, have %q", word)
	}
	q, ok := new(big.Rat).SetString(digits)
	if !ok {
		return nil, 0, fmt.Errorf("want a number or pi, have %q", word)
	}
	if !hasExponent {
		return q, 0, nil
	}
	n, err := tens(exponent)
	if err != nil {
		return nil, 0, fmt.Errorf("%w in %q", err, word)
	}
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n, -n))), nil))
	if n < 0 {
		scale.Inv(scale)
	}
	return q.Mul(q, scale), 0, nil
}

// tens reads the exponent of ten.
func tens(text string) (int, error) {
	sign := 1
	switch {
	case strings.HasPrefix(text, "-"):
		sign, text = -1, text[1:]
	case strings.HasPrefix(text, "+"):
		text = text[1:]
	}
	if text == "" || !isDigits(text) {
		return 0, errors.New("want a whole exponent")
	}
	n := 0
	for _, d := range text {
		n = 10*n + int(d-'0')
		if n > maxExponent {
			return 0, fmt.Errorf("want an exponent from -%d to %d", maxExponent, maxExponent)
		}
	}
	return sign * n, nil
}

func isDigits(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) < 0
}
