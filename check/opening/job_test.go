package opening

import (
	"fmt"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// piece is a row of a schedule in a test: mark, role, quantity, sizes, note.
type piece struct {
	mark    string
	role    check.Role
	qty     float64
	l, w, t float64
	note    string
}

// job makes a painted MDF case called Nook of some pieces.
func job(pieces ...piece) *check.Job {
	j := &check.Job{Name: "t", Unit: length.Inch, Shop: standard.BuiltIn()}
	for i, p := range pieces {
		at := func(col string, x float64) check.Value {
			if x == 0 {
				return check.Value{}
			}
			return check.Exact(x).At(cell("Parts", fmt.Sprint(col, i+2)))
		}
		j.Parts = append(j.Parts, &check.Part{Row: cell("Parts", fmt.Sprint("A", i+2)), Mark: check.Text{Text: p.mark}, Role: p.role,
			Case: check.Text{Text: "Nook"}, Qty: check.Exact(p.qty), Unit: length.Inch, Material: check.Text{Text: "MDF"},
			Length: at("D", p.l), Width: at("E", p.w), Thickness: at("F", p.t), Finish: check.Text{Text: "paint"}, Note: check.Text{Text: p.note}})
	}
	return j
}

// in puts a measured opening into a job.
func in(place *check.Opening, j *check.Job) *check.Job {
	j.Openings = []*check.Opening{place}
	return j
}

func lean(of string, off, over float64) check.Lean {
	l := check.Lean{Of: of, Offset: check.Exact(off)}
	if over > 0 {
		l.Over = check.Exact(over)
	}
	return l
}

// metric is the job with every length in millimetres.
func metric(j *check.Job) *check.Job {
	m := *j
	m.Unit = length.Millimetre
	m.Parts, m.Openings, m.Runs, m.Joints = nil, nil, nil, nil
	for _, p := range j.Parts {
		c := *p
		c.In(length.Millimetre)
		m.Parts = append(m.Parts, &c)
	}
	mm := func(v *check.Value) {
		if v.Known {
			*v = v.Scale(25.4)
		}
	}
	scaled := func(rs []check.Reading) []check.Reading {
		out := append([]check.Reading{}, rs...)
		for i := range out {
			mm(&out[i].Value)
			mm(&out[i].Place)
		}
		return out
	}
	for _, o := range j.Openings {
		c := *o
		c.Widths, c.Heights, c.Depths, c.Diagonals = scaled(o.Widths), scaled(o.Heights), scaled(o.Depths), scaled(o.Diagonals)
		c.Leans = append([]check.Lean{}, o.Leans...)
		for i := range c.Leans {
			mm(&c.Leans[i].Offset)
			mm(&c.Leans[i].Over)
		}
		c.ToCome = append([]check.ToCome{}, o.ToCome...)
		for i := range c.ToCome {
			mm(&c.ToCome[i].Thickness)
		}
		c.Obstacles = append([]check.Obstacle{}, o.Obstacles...)
		for i := range c.Obstacles {
			for _, v := range []*check.Value{&c.Obstacles[i].X, &c.Obstacles[i].Y, &c.Obstacles[i].Width, &c.Obstacles[i].Height} {
				mm(v)
			}
		}
		for _, v := range []*check.Value{&c.Ceiling, &c.Base, &c.Crown, &c.Within} {
			mm(v)
		}
		m.Openings = append(m.Openings, &c)
	}
	for _, jt := range j.Joints {
		c := *jt
		mm(&c.Width)
		mm(&c.DepthIn)
		m.Joints = append(m.Joints, &c)
	}
	if j.Carry != nil {
		c := *j.Carry
		c.Stops = append([]check.Stop{}, j.Carry.Stops...)
		for i := range c.Stops {
			mm(&c.Stops[i].Width)
			mm(&c.Stops[i].Height)
			mm(&c.Stops[i].Length)
		}
		m.Carry = &c
	}
	return &m
}

// trial is one row of a table: a job, and what a check must make of it.
type trial struct {
	name, hand string // hand: the sum by hand, or the source
	job        *check.Job
	want       check.Verdict
}

// asleep is the want of a row that does not apply at all.
const asleep = check.Verdict(-1)

// run holds a check to its table, in inches and in millimetres.
func run(t *testing.T, c *check.Check, table []trial) {
	t.Helper()
	if err := check.Validate([]*check.Check{c}); err != nil {
		t.Fatal(err)
	}
	for _, row := range table {
		t.Run(row.name, func(t *testing.T) {
			for _, j := range []*check.Job{row.job, metric(row.job)} {
				rep := check.Examine([]*check.Check{c}, j, nil)
				got := rep.Verdict
				if len(rep.Coverage) == 0 {
					got = asleep
				}
				if got != row.want {
					t.Errorf("in %v: %d, want %d (%s)", j.Unit, got, row.want, row.hand)
				}
				for _, f := range rep.Findings {
					sound(t, f)
				}
				if got != row.want {
					for _, f := range rep.Findings {
						t.Logf("%s -> %s; %+v", f.Text, f.Fix, f.Results[0].Values)
					}
				}
			}
		})
	}
}

// sound holds what every finding must keep to: it is short, and an offered change clears.
func sound(t *testing.T, f *check.Finding) {
	t.Helper()
	if n := len(words(f.Text)); n > 20 {
		t.Errorf("%d words: %s", n, f.Text)
	}
	if f.Verdict == check.NotChecked {
		return
	}
	if f.Fix == "" {
		t.Errorf("no way out of: %s", f.Text)
	}
	r := f.Results[0]
	if r.Fix != nil && r.Fix.Measure == "" {
		put := r.Row
		put.In = map[string]check.Value{}
		for s, v := range r.Row.In {
			put.In[s] = v
		}
		v := put.In[r.Fix.Symbol]
		to := check.Between(r.Fix.To+v.Low-v.Nominal, r.Fix.To, r.Fix.To+v.High-v.Nominal)
		if v.Guessed {
			to = check.Exact(r.Fix.To)
		}
		put.In[r.Fix.Symbol] = to
		if got := r.Check.Judge(r.Job, put).Verdict; got != check.Clear {
			t.Errorf("the offer %q leaves it %v", f.Fix, got)
		}
	}
	if tn := r.Turns; tn != nil && tn.Alone {
		put := r.Row
		put.In = map[string]check.Value{}
		for s, v := range r.Row.In {
			put.In[s] = v
		}
		v := put.In[tn.Symbol]
		put.In[tn.Symbol] = check.Exact(tn.At)
		if !v.Unmeasured() {
			put.In[tn.Symbol] = check.Between(tn.At+v.Low-v.Nominal, tn.At, tn.At+v.High-v.Nominal)
		}
		if got := r.Check.Judge(r.Job, put).Verdict; got != check.Clear {
			t.Errorf("holds if %s is %v: put back it is %v", tn.Input, tn.At, got)
		}
	}
}

func words(text string) []string {
	var out []string
	word := ""
	for _, r := range text + " " {
		if r == ' ' {
			if word != "" {
				out = append(out, word)
			}
			word = ""
			continue
		}
		word += string(r)
	}
	return out
}
