package gen

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
)

// digest names a job, a machine and a version of this program, and what of
// the wheel was cut before, in ten hex digits, so that a card and a program of
// different jobs cannot be mixed up unseen.
func digest(job Job, machine Machine, version string, begun Begun) string {
	h := sha256.New()
	// None of the structs holds anything that does not encode, but for NaN and
	// infinities, which then share a digest that no program carries.
	e := json.NewEncoder(h)
	err := e.Encode(struct {
		Job     Job
		Machine Machine
		Version string
	}{job, machine, version})
	if err == nil && begun != (Begun{}) {
		err = e.Encode(begun)
	}
	if err != nil {
		return "0000000000"
	}
	return hex.EncodeToString(h.Sum(nil))[:10]
}
