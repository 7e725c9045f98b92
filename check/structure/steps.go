package structure

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Step is one step of a load on its way down, from what brings it to what takes it. Forces are
// in lb, or N in a metric job, and those on one piece of From.
type Step struct {
	Case string // name of the case, empty if it has none

	// From and To are marks of parts as the schedule names them. A way begins with what stands
	// on a part ("books", "a person") and ends with "floor", the house ("the wall"), "nothing",
	// or "what holds its end" where nobody said.
	From, To string
	By       string // what carries: "cross lap", "dado", "screws or pins", "its own strength", "stands on it"

	Force    float64 // the most that comes there, any bay loaded or not, as the check counts it; 0 if not known
	Likely   float64 // what comes there with everything loaded: these add up on the way down
	Capacity float64 // the force at which the governing state turns; 0 if not known, or if it carries nothing
	Use      float64 // Force over Capacity: 0 if not known, over 1 where it fails
	Governs  string  // bending, shear, bearing, screws, pins, neck, column, floor; empty if the use is not known

	Check   string        // ID of the check whose equations gave capacity and use; empty if not known
	Verdict check.Verdict // of that check: HOLD only where Use is over 1
	Carries bool          // false: glue, friction, or something that stands on nothing
	Why     string        // why it carries nothing, why the use is not known, or what the step does beside
	Cell    check.Cell    // where the step would be mended
	At      []float64     // places on From, from its left end, in the job's unit; empty if it has no place
}

// Known reports whether the use of the step could be worked out.
func (s Step) Known() bool { return s.Capacity > 0 }

// String writes a step as a line of a list.
func (s Step) String() string {
	arrow := " > "
	if !s.Carries {
		arrow = " | "
	}
	return strings.TrimSpace(fmt.Sprintf("%s%s%s (%s)", s.From, arrow, s.To, s.By))
}

// Paths are the ways of all loads of a job to the floor or the wall, case by case: for each
// loaded part what stands on it, the part itself, and each of its supports; then the uprights,
// sides and cleats below; then the floor. A case of which nobody gave a joint or a height has
// none. Steps that are alike but for their place are one step with several places.
func Paths(j *check.Job) []Step {
	w := walkOf(j)
	for _, c := range j.Cases() {
		if w.tells(c) {
			w.walk(c)
		}
	}
	return w.steps
}

// take sets what governs a step, or says why nobody knows.
func (s *Step) take(all []limit) {
	most, known := governing(all)
	if !known {
		for _, l := range all {
			if s.Why == "" {
				s.Why = l.why
			}
		}
		if s.Why == "" && len(all) > 0 {
			s.Why = "nothing comes on it that anybody could weigh"
		}
		return
	}
	if most.load > 0 {
		s.Force = most.load
	}
	s.Use, s.Governs, s.Check, s.Verdict = most.use, most.name, most.check.ID, most.verdict
	s.Capacity = s.Force / most.use
}
