package read

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfit/check"
)

// tabOf makes a workbook of one tab from lines in the notation of fixtures, and reads it.
func tabOf(t *testing.T, lines string) *Tab {
	t.Helper()
	fx := parseFixture(t, "== tab Sheet1\n"+strings.Trim(lines, "\n"))
	b, err := Open("job.xlsx", fx.data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return b.Tabs[0]
}

// num prints a value: a range as low..high, a guess with a ?, a missing one as a dash.
func num(v check.Value) string {
	s := trimmed(v.Nominal)
	switch {
	case !v.Known:
		return "-"
	case v.High-v.Low > 1e-9:
		s = trimmed(v.Low) + ".." + trimmed(v.High)
	}
	if v.Guessed {
		s += "?"
	}
	return s
}

func trimmed(x float64) string { return fmt.Sprint(math.Round(x*1e6) / 1e6) }

func nums(values []check.Value) string {
	var out []string
	for _, v := range values {
		out = append(out, num(v))
	}
	return strings.Join(out, " ")
}

// sayJoint prints what is known of a joint, field by field.
func sayJoint(j *check.Joint) string {
	parts := []string{j.Mark.Text, j.Enters.Text + ">" + j.Into.Text, string(j.Kind)}
	for _, v := range []struct {
		name  string
		value check.Value
	}{{"n", j.Count}, {"w", j.Width}, {"in", j.DepthIn}, {"of", j.DepthOf}, {"side", j.Side}, {"front", j.Front}} {
		if v.value.Known {
			parts = append(parts, v.name+" "+num(v.value))
		}
	}
	if len(j.At) > 0 || len(j.Bays) > 0 {
		how := "edge"
		switch {
		case j.Bays != nil:
			how = "bays"
		case j.Centres:
			how = "c/l"
		case j.Far:
			how = "far"
		}
		parts = append(parts, strings.TrimSpace(how+" "+j.From)+": "+nums(append(j.At, j.Bays...)))
	}
	if j.Fit.Text != "" {
		parts = append(parts, "fit "+j.Fit.Text)
	}
	if j.Screws != nil {
		parts = append(parts, fmt.Sprintf("screws %s %s %s", num(j.Screws.Count), j.Screws.Gauge, num(j.Screws.Length)))
	}
	return strings.Join(parts, "; ")
}

// sayReadings prints readings as at=value.
func sayReadings(name string, rs []check.Reading) string {
	if len(rs) == 0 {
		return ""
	}
	var out []string
	for _, r := range rs {
		s := r.At + "=" + num(r.Value)
		if r.Place.Known {
			s = r.At + "@" + num(r.Place) + "=" + num(r.Value)
		}
		if r.Word.Text != "" {
			s += "(" + r.Word.Text + ")"
		}
		out = append(out, s)
	}
	return "; " + name + " " + strings.Join(out, " ")
}

// sayOpening prints all that was read of an opening.
func sayOpening(o *check.Opening) string {
	s := o.Name.Text
	s += sayReadings("W", o.Widths) + sayReadings("H", o.Heights) + sayReadings("D", o.Depths) + sayReadings("X", o.Diagonals)
	for _, l := range o.Leans {
		s += "; " + l.Of + " " + num(l.Offset)
		if l.Over.Known {
			s += "/" + num(l.Over)
		}
	}
	for _, v := range []struct {
		name  string
		value check.Value
	}{{"ceiling", o.Ceiling}, {"base", o.Base}, {"x", o.BaseThick}, {"crown", o.Crown}, {"within", o.Within}} {
		if v.value.Known {
			s += "; " + v.name + " " + num(v.value)
		}
	}
	for _, c := range o.ToCome {
		s += "; to come " + c.On + " " + num(c.Thickness)
	}
	for _, on := range o.Settled {
		s += "; done " + on
	}
	for _, b := range o.Obstacles {
		s += fmt.Sprintf("; %s %s,%s", b.Kind, num(b.X), num(b.Y))
		if b.FromRight {
			s += " from right"
		}
		if b.Width.Known {
			s += " " + num(b.Width) + "x" + num(b.Height)
		}
		if b.On != "" {
			s += " on " + b.On
		}
	}
	if o.By.Text != "" || o.When.Text != "" {
		s += "; by " + o.By.Text + " " + o.When.Text
	}
	if o.Poor {
		s += "; poor"
	}
	return s
}

// unreadOf prints the cells named as not read, with their text.
func unreadOf(t *Tab) string {
	var out []string
	for _, u := range t.Unread {
		out = append(out, u.Cell.Addr+" "+u.Text)
	}
	return strings.Join(out, " | ")
}
