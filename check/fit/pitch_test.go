package fit

import (
	"strings"
	"testing"

	"dryfit/check"
	"dryfit/check/length"
)

// ladder is two uprights of one case, each with a row of slots for the same shelf.
func ladder(first, second []float64) *check.Job {
	j := lap(length.Inch, 1.5, 1.53, "none", "MDF")
	other := *j.Parts[1]
	other.Mark.Text = "U2"
	j.Parts = append(j.Parts, &other)
	row := func(addr string, into string, at []float64) *check.Joint {
		jt := *j.Joints[0]
		jt.Row.Addr, jt.Into.Text, jt.Mark.Text, jt.From = "A"+addr, into, "J"+addr, "bottom"
		jt.At = nil
		for _, x := range at {
			jt.At = append(jt.At, check.Exact(x).At(check.Cell{Book: "b", Tab: "Joints", Addr: "K" + addr}))
		}
		return &jt
	}
	j.Joints = []*check.Joint{row("2", "U1", first), row("3", "U2", second)}
	return j
}

// worst is the result of a check on a job with the least margin.
func worst(t tester, c *check.Check, j *check.Job) *check.Result {
	t.Helper()
	var out *check.Result
	for _, row := range c.Rows(j) {
		r := c.Judge(j, row)
		if r.Broken != nil {
			t.Fatal(r.Broken)
		}
		if out == nil || r.Verdict > out.Verdict || r.Verdict == out.Verdict && r.Worst < out.Worst {
			out = r
		}
	}
	if out == nil {
		t.Fatalf("%s asks nothing", c.ID)
	}
	out.Solve()
	short(t, out)
	return out
}

func TestPitch(t *testing.T) {
	same := []float64{12, 26, 40}
	centres := ladder(same, same)
	for _, jt := range centres.Joints {
		jt.Centres = true
	}
	top := ladder(same, []float64{60 - 12 - 1.53, 60 - 26 - 1.53, 60 - 40 - 1.53})
	top.Joints[1].From = "top"
	longer := ladder(same, []float64{13, 27, 41})
	longer.Parts[2].Length = check.Exact(61)
	longerOff := ladder(same, []float64{13, 27.25, 41})
	longerOff.Parts[2].Length = check.Exact(61)
	bays := ladder(same, same)
	for _, jt := range bays.Joints {
		jt.Bays = []check.Value{check.Exact(12), check.Exact(12.5), check.Exact(12.5), check.Exact(18)}
	}
	balance := ladder(same, same)
	for _, jt := range balance.Joints {
		jt.Bays = []check.Value{check.Exact(12), check.Exact(12.5), check.Exact(12.5), {}}
	}
	cases := []struct {
		name, hand string
		job        *check.Job
		want       check.Verdict
		says       string
	}{
		{"same heights", "", ladder(same, same), check.Clear, ""},
		{"half an inch off its mate", "26.5 - 26", ladder(same, []float64{12, 26.5, 40}), check.Hold, "1/2 in off those of U1"},
		{"a 3/64 off its mate", "over 1/32, under the 1/16 that might pass", ladder(same, []float64{12, 26 + 3./64, 40}), check.Verify, "off those of"},
		{"measured from the top", "60 - 12 - 1.53 and so on", top, check.Clear, ""},
		{"another length, same spacing", "all an inch higher", longer, check.Clear, ""},
		{"another length, other spacing", "27.25 - 26 - 1 = 1/4", longerOff, check.Hold, "1/4 in off"},
		{"off the end", "59 + 1.53 > 60", ladder([]float64{12, 26, 59}, []float64{12, 26, 59}), check.Hold, "last slot ends at 60 17/32 in, the part at 60 in"},
		{"begins off the end", "centre at .5, half a slot .765", func() *check.Job {
			j := ladder([]float64{.5, 26, 40}, []float64{.5, 26, 40})
			j.Joints[0].Centres, j.Joints[1].Centres = true, true
			return j
		}(), check.Hold, "first slot begins 17/64 in off the end"},
		{"a dado at the end is a rabbet", "centre at .75, half a slot .765", func() *check.Job {
			j := ladder([]float64{.75, 26}, []float64{.75, 26})
			for _, jt := range j.Joints {
				jt.Kind, jt.Centres = check.Dado, true
			}
			return j
		}(), check.Clear, ""},
		{"one over another", "27 - 26 < 1.53", ladder([]float64{26, 27}, []float64{26, 27}), check.Hold, "only 1 in apart"},
		{"centre lines", "12 - .765 and so on", centres, check.Clear, ""},
		{"bays that do not add up", "12+12.5+12.5+18+3*1.53 = 59.59", bays, check.Hold, "add up to 59 19/32 in, the part is 60 in"},
		{"the last bay takes the balance", "", balance, check.Clear, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := worst(t, Pitch, c.job)
			if r.Verdict != c.want || c.says != "" && !strings.Contains(Pitch.Says(r), c.says) {
				t.Errorf("%v %q, want %v %q (%s)", r.Verdict, Pitch.Says(r), c.want, c.says, c.hand)
			}
		})
	}
}

func TestPitchDoesNotApply(t *testing.T) {
	if n := len(Pitch.Rows(lap(length.Inch, 1.5, 1.53, "none", "MDF"))); n != 0 {
		t.Errorf("%d rows without positions, want none", n)
	}
	short := ladder([]float64{12, 26}, []float64{12})
	if r := Pitch.Judge(short, Pitch.Rows(short)[0]); r.Verdict != check.Clear {
		t.Errorf("%v against a part with another number of slots, want CLEAR", r.Verdict)
	}
}

// Both rows of a pair that disagrees are one finding: the cause is one.
func TestMatesThatDisagreeAreOneLine(t *testing.T) {
	j := ladder([]float64{12, 26, 40}, []float64{12, 26.5, 40})
	fs := check.Examine([]*check.Check{Pitch}, j, nil).Findings
	if len(fs) != 1 {
		t.Errorf("%d findings, want 1: %+v", len(fs), fs)
	}
}
