package mesh

import (
	"encoding/binary"
	"math"
)

// STL writes a solid as binary STL. The format has no units; coordinates are
// mm, as its header says, and single precision.
func (s *Solid) STL() []byte {
	const header, record = 80, 50
	b := make([]byte, header, header+4+record*len(s.Facets))
	copy(b, s.Name+", millimetres")
	b = binary.LittleEndian.AppendUint32(b, uint32(len(s.Facets)))
	for _, f := range s.Facets {
		n := s.normal(f)
		long := math.Sqrt(dot(n, n))
		for _, v := range n {
			b = binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(v/long)))
		}
		for _, i := range f {
			for _, v := range s.Points[i] {
				b = binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(v)))
			}
		}
		b = append(b, 0, 0)
	}
	return b
}
