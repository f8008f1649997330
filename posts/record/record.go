// Package record writes the numbers of a plan for programs, as JSON, and for
// people, as plain text.
package record

import (
	"bytes"
	"encoding/json"
	"math"

	"wormwright/gen"
)

// Plan is the JSON form of a plan. Names end in the unit of their number.
type Plan struct {
	Title    string    `json:"title"`
	Version  string    `json:"version"`
	Digest   string    `json:"digest"`
	Pair     Pair      `json:"pair"`
	Worm     Worm      `json:"worm"`
	Wheel    Wheel     `json:"wheel"`
	Hob      Hob       `json:"hob"`
	Gash     *Gash     `json:"gash,omitempty"`
	PickUp   *PickUp   `json:"pick_up,omitempty"`
	Setup    Setup     `json:"setup"`
	Schedule []Step    `json:"schedule"`
	Totals   Totals    `json:"totals"`
	Findings []Finding `json:"findings"`
}

// Pair holds the figures of worm and wheel together.
type Pair struct {
	Ratio             float64 `json:"ratio"`
	AxialModule       float64 `json:"axial_module_mm"`
	Pitch             float64 `json:"axial_pitch_mm"`
	Lead              float64 `json:"lead_mm"`
	LeadAngle         float64 `json:"lead_angle_deg"`
	AxialPressure     float64 `json:"axial_pressure_angle_deg"`
	NormalPressure    float64 `json:"normal_pressure_angle_deg"`
	CentreDistance    float64 `json:"centre_distance_mm"`
	ProfileShift      float64 `json:"profile_shift"`
	Clearance         float64 `json:"clearance_mm"`
	Backlash          float64 `json:"backlash_mm"`
	UndercutTeeth     float64 `json:"least_teeth_without_undercut"`
	CommonDivisor     int     `json:"common_divisor"`
	NormalPitchOffset float64 `json:"normal_pitch_difference_um"`
}

// Worm holds the figures that a lathe needs first.
type Worm struct {
	Form      string  `json:"form"`
	Reference float64 `json:"reference_diameter_mm"`
	Tip       float64 `json:"tip_diameter_mm"`
	Root      float64 `json:"root_diameter_mm"`
	Length    float64 `json:"length_mm"`
	Thickness float64 `json:"axial_thickness_mm"`
}

// Wheel holds the figures of the wheel and its blank.
type Wheel struct {
	Blank        string  `json:"blank"`
	Rule         string  `json:"proportions"`
	Reference    float64 `json:"reference_diameter_mm"`
	Throat       float64 `json:"throat_diameter_mm"`
	Outside      float64 `json:"outside_diameter_mm"`
	Root         float64 `json:"root_diameter_mm"`
	ThroatRadius float64 `json:"throat_radius_mm"`
	Face         float64 `json:"face_width_mm"`
	Reached      float64 `json:"face_reached"`
	ToothTip     float64 `json:"tooth_tip_mm"`
}

// Hob holds the figures of the hob as measured.
type Hob struct {
	Form        string  `json:"form"`
	Reference   float64 `json:"reference_diameter_mm"`
	Tip         float64 `json:"tip_diameter_mm"`
	AxialModule float64 `json:"axial_module_mm"`
	LeadAngle   float64 `json:"lead_angle_deg"`
	Contact     float64 `json:"contact_length_mm"`
	Finishing   float64 `json:"finishing_length_mm"`
	RootGap     float64 `json:"root_gap_mm"`
	Facet       float64 `json:"facet_um"`
}

// Setup holds where things go.
type Setup struct {
	Swivel          float64 `json:"swivel_deg"`
	CuttingDistance float64 `json:"cutting_centre_distance_mm"`
	FirstTouch      float64 `json:"first_touch_mm"`
	Touch           string  `json:"touch"`
	RimPlane        float64 `json:"rim_plane_mm"`
	Depth           float64 `json:"depth_mm"`
	Remainder       float64 `json:"remainder_mm"`
	Shift           float64 `json:"blank_shift_mm"`
	CentringMove    float64 `json:"centring_move_mm"`
	Centring        string  `json:"centring"`
	HobTurns        string  `json:"hob_turns"`
	WorkTurns       string  `json:"work_turns"`
	Idler           string  `json:"idler,omitempty"`
	Ratio           string  `json:"hob_to_work"`
	Steps           string  `json:"steps_to_counts,omitempty"`
	Tasks           []Task  `json:"tasks"`
}

// Task is one thing to do at the machine.
type Task struct {
	Title string `json:"title"`
	Text  string `json:"text"`
}

// Step is one row of the schedule. Reading is in the dial's own unit.
type Step struct {
	Step      int     `json:"step"`
	Stage     string  `json:"stage"`
	Infeed    float64 `json:"infeed_mm"`
	Depth     float64 `json:"depth_mm"`
	Travel    float64 `json:"travel_mm"`
	Reading   float64 `json:"reading"`
	Unit      string  `json:"reading_unit"`
	WorkTurns float64 `json:"work_turns"`
	HobTurns  float64 `json:"hob_turns"`
	Seconds   float64 `json:"seconds"`
	Removed   float64 `json:"removed_mm3"`
}

// Totals are the sums over the cycle.
type Totals struct {
	WorkTurns float64 `json:"work_turns"`
	HobTurns  float64 `json:"hob_turns"`
	Minutes   float64 `json:"minutes"`
	Spindle   float64 `json:"spindle_rpm"`
	Cutting   float64 `json:"cutting_speed_m_min"`
	Removed   float64 `json:"removed_mm3"`
}

// Finding is one thing wrong or doubtful.
type Finding struct {
	Severity string `json:"severity"`
	Path     string `json:"path"`
	Message  string `json:"message"`
	Remedy   string `json:"remedy"`
}

// Of takes the record of a plan.
func Of(p *gen.Plan) Plan {
	r := Plan{Title: p.Job.Title, Version: p.Version, Digest: p.Digest, Schedule: []Step{}, Findings: []Finding{}}
	for _, f := range p.Findings {
		r.Findings = append(r.Findings, Finding{f.Severity.String(), f.Path, f.What, f.Remedy})
	}
	if p.Findings.Failed() {
		return r
	}
	pair, hob := p.Pair, p.Hob
	r.Pair = Pair{
		Ratio: pair.Ratio(), AxialModule: tidy(pair.Module), Pitch: tidy(pair.Pitch()), Lead: tidy(pair.Lead()),
		LeadAngle: deg(pair.LeadAngle()), AxialPressure: deg(pair.Pressure), NormalPressure: deg(pair.NormalPressure()),
		CentreDistance: tidy(pair.CentreDistance()), ProfileShift: tidy(pair.Shift), Clearance: tidy(pair.Clearance),
		Backlash: tidy(p.Backlash()), UndercutTeeth: tidy(p.UndercutTeeth()), CommonDivisor: pair.Common(),
		NormalPitchOffset: tidy(p.NormalPitchDifference() * 1000),
	}
	r.Worm = Worm{
		p.Job.Worm.Form.String(), tidy(p.Worm.ReferenceDiameter), tidy(p.Worm.TipDiameter), tidy(p.Worm.RootDiameter),
		tidy(p.Worm.Length), tidy(p.Worm.Thickness),
	}
	blank := "plain"
	if p.Blank.Throated {
		blank = "throated"
	}
	r.Wheel = Wheel{
		blank, p.Job.Wheel.Rule.String(), tidy(p.Wheel.ReferenceDiameter), tidy(p.Wheel.ThroatDiameter), tidy(p.Wheel.OutsideDiameter),
		tidy(p.Wheel.RootDiameter), tidy(p.Wheel.ThroatRadius), tidy(p.Wheel.FaceWidth), tidy(p.Engaged.Reached), tidy(p.Engaged.ToothTip),
	}
	r.Hob = Hob{
		hob.Form.String(), tidy(2 * hob.Reference), tidy(2 * hob.Tip), tidy(hob.Module), deg(hob.LeadAngle()),
		tidy(2 * p.Engaged.Contact), tidy(2 * p.Engaged.Generating), tidy(p.Engaged.RootGap), tidy(p.Facet() * 1000),
	}
	r.Gash, r.PickUp = ofGash(p), ofPickUp(p)
	touch := "middle"
	if p.Engaged.Rims {
		touch = "rims"
	}
	r.Setup = Setup{
		Swivel: deg(p.Setup.Swivel), CuttingDistance: tidy(p.Engaged.Full), FirstTouch: tidy(p.Engaged.Touch), Touch: touch,
		RimPlane: tidy(p.Setup.Rims), Depth: tidy(p.Engaged.Depth()), Remainder: tidy(p.Cycle.Remainder), Shift: tidy(p.Setup.Shift),
		CentringMove: tidy(p.Setup.Move), Centring: p.Job.Setup.Centring.String(),
		HobTurns: p.Setup.HobTurns.String(), WorkTurns: p.Setup.WorkTurns.String(), Idler: p.Setup.Idler,
		Ratio: p.Setup.Turns.String(),
	}
	if p.Setup.Steps.Under > 0 {
		r.Setup.Steps = p.Setup.Steps.String()
	}
	for _, task := range p.Setup.Work {
		r.Setup.Tasks = append(r.Setup.Tasks, Task(task))
	}
	unit := p.Cycle.Moving.Dial.Unit
	for _, s := range p.Cycle.Steps {
		r.Schedule = append(r.Schedule, Step{
			s.Number, s.Stage.String(), tidy(s.Infeed), tidy(s.Depth), tidy(s.Travel), tidy(s.Reading / unit.Millimetres()), unit.String(),
			tidy(s.WorkTurns), tidy(s.HobTurns), tidy(s.Seconds), tidy(s.Removed),
		})
	}
	t := p.Cycle.Totals()
	r.Totals = Totals{tidy(t.WorkTurns), tidy(t.HobTurns), tidy(t.Minutes), tidy(p.Speed.Spindle), tidy(p.Speed.Cutting / 1000), tidy(p.Cycle.Removed)}
	return r
}

// JSON returns the record as indented JSON.
func (r Plan) JSON() []byte { return indented(r) }

// indented encodes a record, which never holds NaN or infinities: the plan
// or the proof would not have been finished.
func indented(record any) []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(record); err != nil {
		panic("record: " + err.Error())
	}
	return out.Bytes()
}

// tidy rounds to nine decimals, beyond which machines differ.
func tidy(x float64) float64 { return round(x, 9) }

// round rounds to so many decimals.
func round(x float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	r := math.Round(x*unit) / unit
	if r == 0 {
		return 0 // never −0
	}
	return r
}

func deg(rad float64) float64 { return tidy(rad * 180 / math.Pi) }
