package read

import "dryfit/check"

// addOthers hands over what the tab holds besides parts, in the unit of the job.
func (t *Tab) addOthers(j *check.Job) {
	t.sidesIn(j.Unit)
	j.Joints = append(j.Joints, t.Joints...)
	j.Openings = append(j.Openings, t.Openings...)
	j.Loads = append(j.Loads, t.Loads...)
	j.Runs = append(j.Runs, t.Runs...)
	if t.Carry != nil && j.Carry == nil {
		j.Carry = t.Carry
	}
}
