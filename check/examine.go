package check

import (
	"fmt"
	"sort"
	"strings"
)

// Examine asks every check of every row of a job that it applies to, and folds what they say.
// words are the lead's words by the key of a finding.
func Examine(list []*Check, j *Job, words map[string]Acceptance) *Report {
	defer j.Keep()()
	var results []*Result
	for _, c := range list {
		if j.Stage > c.Until || j.Stage == Shipped {
			continue
		}
		results = append(results, ask(c, j)...)
	}
	rep := &Report{Job: j, Results: results}
	for _, r := range results {
		if r.Verdict == Clear {
			rep.Clear = append(rep.Clear, r)
		}
	}
	rep.Coverage = coverage(results)
	rep.Findings = Fold(results)
	rep.count(words)
	return rep
}

// ask judges the rows of one check. A fault of ours in one check must not silence the
// others: it becomes NOT CHECKED.
func ask(c *Check, j *Job) (out []*Result) {
	defer func() {
		if p := recover(); p != nil {
			out = append(out, &Result{Check: c, Job: j, Verdict: NotChecked, Row: Row{Name: j.Name},
				Broken: fmt.Errorf("%s stopped: %v; please report it with the workbook", c.ID, p)})
		}
	}()
	for _, row := range c.Rows(j) {
		out = append(out, c.Judge(j, row))
	}
	return out
}

// coverage is one verdict for each mark and check, the most urgent of its rows.
func coverage(results []*Result) []Covered {
	type key struct{ mark, id string }
	at := make(map[key]int, len(results))
	out := make([]Covered, 0, len(results))
	for _, r := range results {
		marks := r.Row.Marks
		if len(marks) == 0 {
			marks = []string{r.Row.Name}
		}
		for _, m := range marks {
			k := key{m, r.Check.ID}
			i, seen := at[k]
			if !seen {
				i = len(out)
				at[k] = i
				c := Covered{Mark: m, ID: r.Check.ID, Verdict: r.Verdict}
				if len(r.Row.Cells) > 0 {
					c.Row = r.Row.Cells[0]
				}
				out = append(out, c)
			}
			out[i].Verdict = max(out[i].Verdict, r.Verdict)
			if r.Verdict == NotChecked && out[i].Why == "" {
				out[i].Why = r.want()
			}
		}
	}
	return out
}

// count adds up the coverage, sets the lead's words and the verdict of the job.
func (rep *Report) count(words map[string]Acceptance) {
	for _, c := range rep.Coverage {
		switch c.Verdict {
		case Hold:
			rep.Counts.Hold++
		case Verify:
			rep.Counts.Verify++
		case NotChecked:
			rep.Counts.NotChecked++
		default:
			rep.Counts.Clear++
		}
	}
	given := rep.reasons(words)
	for _, f := range rep.Findings {
		if w, ok := words[f.Key]; ok {
			f.Shared = !w.Ask && f.grave() && given[plain(w.Why)] > 1
			f.take(w)
		}
		if f.Accepted() {
			rep.Counts.Accepted++
			continue
		}
		rep.Verdict = max(rep.Verdict, f.Verdict)
	}
	sort.SliceStable(rep.Findings, func(a, b int) bool { return rep.Findings[a].before(rep.Findings[b]) })
}

// reasons counts how many findings each reason was given for.
func (rep *Report) reasons(words map[string]Acceptance) map[string]int {
	given := map[string]int{}
	for _, f := range rep.Findings {
		if w := words[f.Key]; !w.Ask {
			given[plain(w.Why)]++
		}
	}
	return given
}

func plain(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// grave reports whether the finding wants a reason of its own to be accepted.
func (f *Finding) grave() bool {
	for _, r := range f.Results {
		if r.Check.Grave {
			return true
		}
	}
	return false
}

// take sets the lead's word on a finding, unless it has lapsed: the verdict rose or the
// margin became worse than the one accepted. Initials without a reason do not count, nor does a
// reason that a grave finding shares with another.
func (f *Finding) take(w Acceptance) {
	if w.By == "" || w.Why == "" || f.Shared {
		return
	}
	if w.Fresh {
		w.Worst, w.Margin, w.Fresh = f.Verdict, f.Margin, false
	}
	if !w.Ask && (f.Verdict > w.Worst || f.Margin < w.Margin-dust) {
		return
	}
	f.Accept = &w
}

// Accepted reports whether the finding leaves the counts that decide the job.
func (f *Finding) Accepted() bool { return f.Accept != nil && !f.Accept.Ask }

// before orders findings: the urgent first, accepted ones last.
func (f *Finding) before(g *Finding) bool {
	if f.Accepted() != g.Accepted() {
		return g.Accepted()
	}
	if f.Verdict != g.Verdict {
		return f.Verdict > g.Verdict
	}
	return f.Key < g.Key
}
