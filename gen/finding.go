package gen

import "fmt"

// A Severity ranks a finding.
type Severity int

const (
	Caution Severity = iota // it can be cut, but look twice
	Error                   // nothing is written
)

func (s Severity) String() string { return [...]string{"caution", "error"}[s] }

// A Finding is one thing that is wrong or doubtful with a job, a machine or
// a program, and what to do about it.
type Finding struct {
	Severity Severity
	Path     string // key of the job file, or of the machine file behind "machine:"
	Line     int    // line of the program; 0 where Path tells the place
	What     string
	Remedy   string
}

// Findings collects findings as a plan is made.
type Findings []Finding

func (f *Findings) errorf(path, remedy, format string, args ...any) {
	*f = append(*f, Finding{Severity: Error, Path: path, What: fmt.Sprintf(format, args...), Remedy: remedy})
}

func (f *Findings) cautionf(path, remedy, format string, args ...any) {
	*f = append(*f, Finding{Severity: Caution, Path: path, What: fmt.Sprintf(format, args...), Remedy: remedy})
}

// Failed tells whether any finding is an error.
func (f Findings) Failed() bool {
	for _, one := range f {
		if one.Severity == Error {
			return true
		}
	}
	return false
}
