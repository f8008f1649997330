package gen

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
)

// digest names a job, a machine and a version of this program in ten hex
// digits, so that a card and a program of different jobs cannot be mixed up
// unseen.
func digest(job Job, machine Machine, version string) string {
	h := sha256.New()
	// Neither struct holds anything that does not encode, but for NaN and
	// infinities, which then share a digest that no program carries.
	if err := json.NewEncoder(h).Encode(struct {
		Job     Job
		Machine Machine
		Version string
	}{job, machine, version}); err != nil {
		return "0000000000"
	}
	return hex.EncodeToString(h.Sum(nil))[:10]
}
