package steady

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"
)

// The function against that of the standard library, and its bits, which no compiler or processor may change.
func TestExp(t *testing.T) {
	hash := fnv.New64a()
	for x := -720.0; x < 720; x += 0.0137 {
		got := Exp(x)
		if want := math.Exp(x); math.Abs(got-want) > 4.4e-16*want {
			t.Fatalf("e to the power of %g is %g, want %g", x, got, want)
		}
		if math.Abs(x) < expLimit {
			binary.Write(hash, binary.LittleEndian, got)
		}
	}
	if got := hash.Sum64(); got != 0x9e47e762d814310d {
		t.Errorf("other bits than elsewhere: %#x", got)
	}
	for x, want := range map[float64]float64{0: 1, math.Inf(1): math.Inf(1), math.Inf(-1): 0, 710: math.Inf(1), -1e308: 0} {
		if got := Exp(x); got != want {
			t.Errorf("e to the power of %g is %g", x, got)
		}
	}
	if !math.IsNaN(Exp(math.NaN())) {
		t.Error("a power of no number is one")
	}
}

func BenchmarkExp(b *testing.B) {
	for _, f := range []struct {
		name string
		exp  func(float64) float64
	}{{"steady", Exp}, {"math", math.Exp}} {
		b.Run(f.name, func(b *testing.B) {
			for b.Loop() {
				for i := range 100 {
					f.exp(-0.3 * float64(i))
				}
			}
		})
	}
}
