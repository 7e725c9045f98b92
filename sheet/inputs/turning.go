package inputs

import (
	"fmt"
	"math"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// turnKey is a size of a case that nobody measured.
type turnKey struct{ casing, size string }

// turnings are the readings at which the verdicts of the job turn, for each size of the site
// that is all a check lacks, in words for the form.
func (s *survey) turnings() map[turnKey]string {
	clear, goes := map[turnKey]float64{}, map[turnKey]float64{}
	for _, r := range s.results {
		symbol, size := s.lacking(r)
		if size == "" {
			continue
		}
		least, ok := s.turn(r, symbol, func(v check.Verdict) bool { return v == check.Clear })
		if !ok {
			continue
		}
		hard, _ := s.turn(r, symbol, func(v check.Verdict) bool { return v != check.Hold })
		k := turnKey{r.Row.Case, size}
		clear[k], goes[k] = max(clear[k], least), max(goes[k], hard)
	}
	out := map[turnKey]string{}
	for k, least := range clear {
		out[k] = "call before you leave if under " + s.figure(least, math.Ceil)
		if hard := s.figure(goes[k], math.Ceil); goes[k] > 0 && hard != s.figure(least, math.Ceil) {
			out[k] += fmt.Sprintf("; under %s it stays out", hard)
		}
	}
	return out
}

// lacking is the one size of the site that a result lacks.
func (s *survey) lacking(r *check.Result) (symbol, size string) {
	if len(r.Absent) != 1 || r.Row.In[r.Absent[0]].Ask.Tab != "site" {
		return "", ""
	}
	for _, in := range r.Check.Inputs {
		if in.Symbol == r.Absent[0] && in.Unit == check.Length {
			return in.Symbol, sizeNamed(in.Name)
		}
	}
	return "", ""
}

// turn finds the least reading with which a verdict is good, the closeness of a tape counted
// in; false where no reading up to four times the other sizes is.
func (s *survey) turn(r *check.Result, symbol string, good func(check.Verdict) bool) (float64, bool) {
	off := s.closeness()
	passes := func(x float64) bool {
		in := map[string]check.Value{}
		for k, v := range r.Row.In {
			in[k] = v
		}
		in[symbol] = check.Between(x-off, x, x+off)
		row := r.Row
		row.In = in
		return good(r.Check.Judge(s.Job, row).Verdict)
	}
	high := 0.0
	for _, in := range r.Check.Inputs {
		if v := r.Row.In[in.Symbol]; in.Unit == check.Length && v.Known {
			high += math.Abs(v.High)
		}
	}
	low, high := 0.0, 4*high
	if !passes(high) || passes(low) {
		return 0, false
	}
	for range 60 {
		if mid := (low + high) / 2; passes(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, true
}

// closeness is how far a named measurer with a tape may be off.
func (s *survey) closeness() float64 {
	return s.Standard("site", "tape", "reading", check.Length).Nominal
}

// figure prints a reading to what a tape shows, 1/16 in or 1 mm.
func (s *survey) figure(x float64, round func(float64) float64) string {
	step := 1.0 / 16
	if s.metric() {
		step = 1
	}
	return length.Figure(round(x/step-1e-6)*step, s.Unit)
}

// sizeNamed is the kind of size that the name of an input speaks of, "" for none.
func sizeNamed(name string) string {
	for _, size := range []string{"ceiling", "diagonal", "width", "height", "depth"} {
		if strings.Contains(name, size) {
			return size
		}
	}
	return ""
}
