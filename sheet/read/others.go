package read

import "dryfit/check"

// addOthers hands over what the tab holds besides parts, in the unit of the job.
func (t *Tab) addOthers(j *check.Job) {
	t.sidesIn(j.Unit)
	j.Joints = append(j.Joints, t.Joints...)
	j.Openings = append(j.Openings, t.Openings...)
	j.Loads = append(j.Loads, t.Loads...)
	j.Runs = append(j.Runs, t.Runs...)
	if t.Carry != nil {
		j.Carry = joinCarry(j.Carry, t.Carry)
	}
	for _, c := range t.Totals {
		j.Totals = append(j.Totals, check.Total{From: c.From, Case: c.Case, Pieces: c.Pieces, Sheets: c.Sheets, Rows: c.Rows})
	}
	for p := range t.Superseded() {
		old := *p
		old.In(j.Unit)
		j.Old = append(j.Old, &old)
	}
}

// joinCarry puts the stops of two tabs into one way, in the order of the tabs.
func joinCarry(a, b *check.Carry) *check.Carry {
	if a == nil {
		return b
	}
	c := *a
	c.Stops = append(append([]check.Stop{}, a.Stops...), b.Stops...)
	c.Whole = append(append([]string{}, a.Whole...), b.Whole...)
	if !c.Crew.Known {
		c.Crew = b.Crew
	}
	if c.Note.Text == "" {
		c.Note = b.Note
	}
	return &c
}
