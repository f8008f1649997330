package train

import (
	"math"
	"testing"
)

func TestFromFloat(t *testing.T) {
	for _, tt := range []struct {
		x    float64
		want string
	}{
		{2, "2"},
		{1.5875, "127/80"},
		{25.4 / 24, "127/120"}, // diametral pitch 24
		{1.25 / math.Cos(0.1), ""},
		{1.0 / 3, "1/3"},
	} {
		r, err := FromFloat(tt.x)
		if err != nil {
			t.Fatal(err)
		}
		if tt.want != "" && r.String() != tt.want {
			t.Errorf("FromFloat(%v) = %s, want %s", tt.x, r, tt.want)
		}
		if r.Float64() != tt.x && math.Abs(r.Float64()-tt.x) > 1e-15*tt.x {
			t.Errorf("FromFloat(%v) is %v", tt.x, r.Float64())
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), -1, 0} {
		if r, err := FromFloat(x); err == nil {
			t.Errorf("FromFloat(%v) = %s, want an error", x, r)
		}
	}
}
