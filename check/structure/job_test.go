package structure

import (
	"fmt"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// inches and metric make a job of some parts; sizes are in the job's unit.
func inches(parts ...*check.Part) *check.Job { return jobOf(length.Inch, parts) }
func metric(parts ...*check.Part) *check.Job { return jobOf(length.Millimetre, parts) }

func jobOf(u length.Unit, parts []*check.Part) *check.Job {
	j := &check.Job{Name: "Test", Unit: u, Stage: check.BeforeCut, Shop: standard.BuiltIn(), Parts: parts}
	for i, p := range parts {
		p.Row, p.Unit = cellAt("A", i), u
		for k, v := range map[string]*check.Value{"L": &p.Length, "W": &p.Width, "T": &p.Thickness} {
			v.From = cellAt(k, i)
		}
		p.Material.From = cellAt("M", i)
	}
	return j
}

func cellAt(column string, i int) check.Cell {
	return check.Cell{Book: "parts.xlsx", Tab: "Parts", Addr: fmt.Sprintf("%s%d", column, i+2)}
}

// part is a row of a schedule: mark, role, one piece, length, width, thickness, material.
func part(mark string, role check.Role, l, w, t float64, material string) *check.Part {
	return &check.Part{Mark: check.Text{Text: mark}, Role: role, Qty: check.Exact(1),
		Length: check.Exact(l), Width: check.Exact(w), Thickness: check.Exact(t), Material: check.Text{Text: material}}
}

func of(p *check.Part, n float64) *check.Part { p.Qty = check.Exact(n); return p }

func at(p *check.Part, x, y float64) *check.Part { p.X, p.Y = check.Exact(x), check.Exact(y); return p }

func in(name string, ps ...*check.Part) []*check.Part {
	for _, p := range ps {
		p.Case = check.Text{Text: name}
	}
	return ps
}

// carrying adds a typed load: per length in lb/in or N/mm, per area in psi or MPa.
func carrying(j *check.Job, on, kind string, per check.LoadPer, amount float64) *check.Job {
	l := &check.Load{On: check.Text{Text: on}, Kind: check.Text{Text: kind}, Per: per, Row: cellAt("P", len(j.Loads))}
	if per != check.ByKind {
		l.Amount = check.Exact(amount)
	}
	j.Loads = append(j.Loads, l)
	return j
}

func joined(j *check.Job, js ...*check.Joint) *check.Job {
	for _, jt := range js {
		jt.Row = check.Cell{Book: "parts.xlsx", Tab: "Joints", Addr: fmt.Sprintf("A%d", len(j.Joints)+2)}
		j.Joints = append(j.Joints, jt)
	}
	return j
}

func joint(mark, into, enters string, kind check.JointKind) *check.Joint {
	return &check.Joint{Mark: check.Text{Text: mark}, Into: check.Text{Text: into}, Enters: check.Text{Text: enters}, Kind: kind}
}

// asked are the results of one check on a job, solved.
func asked(t *testing.T, c *check.Check, j *check.Job) []*check.Result {
	t.Helper()
	var out []*check.Result
	for _, row := range c.Rows(j) {
		r := c.Judge(j, row)
		if r.Broken != nil {
			t.Fatalf("%s of %s: %v", c.ID, row.Name, r.Broken)
		}
		r.Solve()
		out = append(out, r)
	}
	return out
}

// one is the result of a check on one mark, with a cause where there are several.
func one(t *testing.T, c *check.Check, j *check.Job, mark, cause string) *check.Result {
	t.Helper()
	for _, r := range asked(t, c, j) {
		if len(r.Row.Marks) > 0 && r.Row.Marks[0] == mark && (cause == "" || r.Row.Cause == cause) {
			return r
		}
	}
	t.Fatalf("%s asks nothing of %s", c.ID, mark)
	return nil
}

// room is every check of this package, as the catalogue lists them.
var room = []*check.Check{Sag, Bending, Shear, Bearing, Upright, Path, Cleat, Anchor, Floor}

// reported is what all checks of the room say of a job.
func reported(j *check.Job) *check.Report { return check.Examine(room, j, nil) }

func texts(rep *check.Report) []string {
	var out []string
	for _, f := range rep.Findings {
		out = append(out, fmt.Sprintf("%v %s %s | %s", f.Verdict, f.ID, f.Text, f.Fix))
	}
	return out
}

func TestEveryPageIsWhole(t *testing.T) {
	if err := check.Validate(room); err != nil {
		t.Error(err)
	}
}
