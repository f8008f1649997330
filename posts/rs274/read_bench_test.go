package rs274

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"testing"
)

// hoistProgram returns a program that turns the worm wheel of a mill's sluice
// hoist under its hob: so many lines of G1 with both rotary words and the
// infeed, inverse time.
func hoistProgram(lines int) []byte {
	var b bytes.Buffer
	b.WriteString("G21 G90 G93 G17 G40 G49 G80\nG0 X0 A0 C0\n")
	for i := 1; i <= lines; i++ {
		fmt.Fprintf(&b, "G1 A%.3f C%.5f F12.5\n", float64(i)*90, float64(i)*2.25)
	}
	b.WriteString("M30\n")
	return b.Bytes()
}

// readSizes are the lines of the programs that are read.
var readSizes = []int{25_000, 50_000, 100_000, 200_000}

func BenchmarkRead(b *testing.B) {
	for _, n := range readSizes {
		b.Run(fmt.Sprintf("lines=%d", n), func(b *testing.B) {
			program := hoistProgram(n)
			b.SetBytes(int64(len(program)))
			b.ReportAllocs()
			for b.Loop() {
				r := NewReader(bytes.NewReader(program), Options{})
				for {
					_, err := r.Next()
					if err == io.EOF {
						break
					}
					if err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}

func BenchmarkTrace(b *testing.B) {
	for _, n := range readSizes {
		b.Run(fmt.Sprintf("lines=%d", n), func(b *testing.B) {
			program := hoistProgram(n)
			b.ReportAllocs()
			for b.Loop() {
				if err := Trace(io.Discard, NewReader(bytes.NewReader(program), Options{})); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The memory of a Reader does not grow with its program.
func TestReaderAllocatesOnlyAtTheStart(t *testing.T) {
	allocated := func(lines int) uint64 {
		program := hoistProgram(lines)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r := NewReader(bytes.NewReader(program), Options{})
		for {
			_, err := r.Next()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	short, long := allocated(100), allocated(50_000)
	// 64 KiB of text, 43 KiB of parameters and the events of one line.
	if short > 256<<10 || long > short+16<<10 {
		t.Errorf("allocated %d bytes for 100 lines and %d for 50000, want at most 256 KiB for both", short, long)
	}
}
