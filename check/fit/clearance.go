package fit

import (
	"math"

	"dryfit/check"
	"dryfit/check/length"
)

// clearanceInputs and clearanceSteps are the clearance of a passage after finish, as every
// check that rests on it shows it. What is uncertain for all joints alike (the stack, the
// film) is a range.
var (
	clearanceInputs = []check.Input{
		{Symbol: "s", Name: "slot as cut", Unit: check.Length},
		{Symbol: "t", Name: "part as typed", Unit: check.Length},
		{Symbol: "n", Name: "notched from each side", Unit: check.Length},
		{Symbol: "d", Name: "actual thickness less the typed one", Unit: check.Film, Measure: "caliper the part"},
		{Symbol: "f", Name: "film on one face", Unit: check.Film, Measure: "measure the film on a painted sample"},
		{Symbol: "g", Name: "films on what goes in", Unit: check.Ratio, Measure: "mask the notches"},
		{Symbol: "k", Name: "films on the slot cheeks together", Unit: check.Ratio, Measure: "mask the slot cheeks"},
		{Symbol: "o", Name: "bow in 8 ft", Unit: check.Film},
		{Symbol: "h", Name: "depth that goes in", Unit: check.Length},
		{Symbol: "l", Name: "8 ft", Unit: check.Length},
	}
	clearanceSteps = []check.Step{
		{Symbol: "T", Name: "what goes in, after finish", Formula: "t-2*n+d+g*f", Unit: check.Length},
		{Symbol: "S", Name: "slot after finish", Formula: "s-k*f", Unit: check.Length},
		{Symbol: "y", Name: "bow over the depth that goes in", Formula: "o*(h/l)^2", Unit: check.Film},
		{Symbol: "c", Name: "clearance after finish", Formula: "S-T-y", Unit: check.Film},
	}
	clearanceSource = check.Source{Title: "clearance: geometry of the joint, two faces and two cheeks", How: "common practice"}
)

// inputsAnd and stepsAnd put what a check adds behind the clearance.
func inputsAnd(more ...check.Input) []check.Input {
	return append(append([]check.Input{}, clearanceInputs...), more...)
}

func stepsAnd(more ...check.Step) []check.Step {
	return append(append([]check.Step{}, clearanceSteps...), more...)
}

// clearance binds the inputs of the clearance of a passage.
func (p passage) clearance() map[string]check.Value {
	f, g, k := p.films()
	return map[string]check.Value{
		"s": p.slot, "t": ask(p.part.Thickness, p.part, "thickness"), "n": p.notch, "d": thickness(p.job, p.part),
		"f": f, "g": g, "k": k,
		"o": settled(p.job.Standard("spread", "long part", "bow in 96 in", check.Film)), "h": p.engaged(),
		"l": check.Exact(96 * length.Convert(1, length.Inch, p.job.Unit)),
	}
}

// engaged is how much of the part stands in the slot: the depth of the slot, half the part in
// a lap that gives none, all of the part's width along a dado.
func (p passage) engaged() check.Value {
	switch {
	case laps(p.joint.Kind) && p.joint.DepthIn.Known:
		return because(check.Exact(p.joint.DepthIn.Nominal), "depth of the slot")
	case laps(p.joint.Kind) && p.part.Width.Known:
		return because(check.Exact(p.part.Width.Nominal/2), "half the width of the part")
	case p.part.Width.Known:
		return because(check.Exact(p.part.Width.Nominal), "width of the part, along the slot")
	}
	return check.Exact(0)
}

// laps reports whether two parts run through one another.
func laps(k check.JointKind) bool { return k == check.CrossLap || k == check.NotchedLap }

// nominal is the clearance of a passage with everything at its nominal, and false where it
// cannot be worked out.
func (p passage) nominal() (float64, bool) {
	in := map[string]float64{}
	for s, v := range p.clearance() {
		if !v.Known {
			return 0, false
		}
		in[s] = v.Nominal
	}
	got, err := Joint.Work(merged(in, map[string]float64{"a": 0, "b": 1, "u": 1, "P": 1, "ed": 0, "ef": 0}))
	return got["c"], err == nil && !math.IsNaN(got["c"])
}

func merged(in, more map[string]float64) map[string]float64 {
	for k, x := range more {
		in[k] = x
	}
	return in
}
