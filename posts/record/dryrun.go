package record

import (
	"fmt"

	"wormwright/gen"
	"wormwright/gen/proof"
)

// DryRun is the JSON form of a proof.
type DryRun struct {
	Verdict   string       `json:"verdict"` // pass or fail
	Findings  []RunFinding `json:"findings"`
	Minutes   float64      `json:"minutes"`
	HobTurns  float64      `json:"hob_turns"`
	WorkTurns float64      `json:"work_turns"`
	Spaces    Spaces       `json:"spaces"`
	Root      float64      `json:"root_radius_mm"`
	Removed   float64      `json:"removed_mm3"`
	Flanks    []Flank      `json:"flanks"`
	Deviation Deviation    `json:"deviation_um"`
	Load      Load         `json:"load"`
}

// RunFinding is a finding at a line of a program, 0 for the whole of it.
type RunFinding struct {
	Severity string `json:"severity"`
	Line     int    `json:"line"`
	Message  string `json:"message"`
	Remedy   string `json:"remedy"`
}

// Spaces counts tooth spaces.
type Spaces struct {
	Count    int `json:"count"`
	Complete int `json:"complete"`
}

// Flank is a width of a tooth space as arcs from the middle of the space in
// the middle plane, −X negative.
type Flank struct {
	Space  int     `json:"space"`
	Plane  float64 `json:"plane_mm"`
	Radius float64 `json:"radius_mm"`
	Left   float64 `json:"left_mm"`
	Right  float64 `json:"right_mm"`
}

// Deviation is the wheel as run against the wheel as meant, and of that
// against the exact flank.
type Deviation struct {
	Max   float64 `json:"max"`
	RMS   float64 `json:"rms"`
	Facet float64 `json:"facet"`
}

// Load is what the heaviest work turn asks of the machine.
type Load struct {
	Chip     float64 `json:"chip_mm3_per_work_turn"`
	Line     int     `json:"line"`
	Specific float64 `json:"specific_force_n_mm2"`
	Torque   float64 `json:"torque_nm"`
	Power    float64 `json:"power_w"`
	Force    float64 `json:"force_n"`
	Bend     float64 `json:"arbor_bend_um"`
	BendFree float64 `json:"arbor_bend_unsupported_um"`
}

// OfRun takes the record of a proof, rounded to what the cut is good for: a
// nanometre, and as much of the rest.
func OfRun(r *proof.Report) DryRun {
	d := DryRun{
		Verdict: verdict(r), Findings: []RunFinding{}, Flanks: []Flank{},
		Minutes: round(r.Minutes, 4), HobTurns: round(r.Hob, 4), WorkTurns: round(r.Work, 4),
		Spaces: Spaces{r.Wheel.Spaces, r.Wheel.Complete}, Root: round(r.Wheel.Root, 6), Removed: round(r.Wheel.Removed, 4),
		Deviation: Deviation{round(r.Wheel.Max*1000, 3), round(r.Wheel.RMS*1000, 3), round(r.Wheel.Facet*1000, 3)},
		Load: Load{round(r.Load.Chip, 3), r.Load.Line, r.Load.Specific, round(r.Load.Torque, 4), round(r.Load.Power, 3), round(r.Load.Force, 2),
			round(r.Load.Bend*1000, 2), round(r.Load.BendFree*1000, 2)},
	}
	for _, f := range r.Findings {
		d.Findings = append(d.Findings, RunFinding{f.Severity.String(), f.Line, f.What, f.Remedy})
	}
	for _, f := range r.Wheel.Flanks {
		d.Flanks = append(d.Flanks, Flank{f.Space, tidy(f.Plane), tidy(f.Radius), round(f.Left, 6), round(f.Right, 6)})
	}
	return d
}

// JSON returns the record as indented JSON.
func (d DryRun) JSON() []byte { return indented(d) }

func verdict(r *proof.Report) string {
	if r.Passed() {
		return "pass"
	}
	return "fail"
}

// RunText prints a proof for a person to read; name is the program's file.
func RunText(name string, p *gen.Plan, r *proof.Report) []byte {
	page := &page{unit: p.Job.Units}
	what := p.BegunWords()
	if what != "" {
		what = ": " + what
	}
	page.heading(fmt.Sprintf("%s, run for %s%s", name, p.Job.Title, what))
	page.row("verdict", verdict(r))
	page.row("time", fmt.Sprintf("%s min, %s hob turns, %s work turns", gen.Fixed(r.Minutes, 1), gen.Fixed(r.Hob, 0), gen.Fixed(r.Work, 1)))
	page.row("tooth spaces", fmt.Sprintf("%d of %d as they were meant", r.Wheel.Complete, r.Wheel.Spaces))
	page.length("deepest radius", r.Wheel.Root)
	page.row("removed from a space", gen.Fixed(r.Wheel.Removed, 2)+" mm³")
	page.row("off from what was meant", fmt.Sprintf("%s µm at most, %s µm in the mean", gen.Fixed(r.Wheel.Max*1000, 1), gen.Fixed(r.Wheel.RMS*1000, 2)))
	if p.Job.Cut.Feed != gen.Gash {
		page.row("facets of the gashes", gen.Fixed(r.Wheel.Facet*1000, 2)+" µm")
		page.row("heaviest work turn", fmt.Sprintf("%s mm³, %s N·m and %s W at %s N/mm²", gen.Fixed(r.Load.Chip, 1),
			gen.Fixed(r.Load.Torque, 2), gen.Fixed(r.Load.Power, 1), gen.Fixed(r.Load.Specific, 0)))
	}
	for _, f := range r.Findings {
		place := name
		if f.Line > 0 {
			place = fmt.Sprintf("%s:%d", name, f.Line)
		}
		page.paragraph(fmt.Sprintf("%s: %s: %s. Remedy: %s.", place, f.Severity, f.What, f.Remedy))
	}
	return page.Bytes()
}
