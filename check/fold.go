package check

import (
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"
)

// Fold turns results into findings: one cause, one line. It is the only place that does.
//
//   - HOLD folds rows of one check and case that are mended at the same cell, or whose
//     inputs are the same numbers.
//     A check may name what its rows hang on instead, such as one door.
//   - VERIFY folds the rows of one check by the input that decides, and the rows of all checks
//     that rest on one thing nobody measured.
//   - NOT CHECKED folds by the missing tab, else by what is missing, over all checks.
//   - What another check says of a cell that a root check already speaks of is folded
//     under it, unless it is more urgent. So is what it says of a sum that fails by what
//     that cell adds to it.
//   - A VERIFY is folded under the HOLD of the same check on the same marks.
//   - What a check says of marks that the check it stands under speaks of as loudly is folded
//     under it.
func Fold(results []*Result) []*Finding {
	held := heldMarks(results)
	groups := map[string][]*Result{}
	var order []string
	for _, r := range results {
		if r.Verdict == Clear {
			continue
		}
		k := r.cause()
		if r.Verdict == Verify && held.all(r) {
			k += "|held"
		}
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], r)
	}
	var out []*Finding
	for _, k := range order {
		out = append(out, finding(groups[k]))
	}
	return unique(underNamed(underHolds(underRoots(out))))
}

// marked is a set of checks and marks.
type marked map[string]bool

// heldMarks are the marks that each check holds.
func heldMarks(results []*Result) marked {
	set := marked{}
	for _, r := range results {
		for _, m := range r.Row.Marks {
			if r.Verdict == Hold {
				set[r.Check.ID+"|"+m] = true
			}
		}
	}
	return set
}

// all reports whether the check of a result holds each of its marks.
func (set marked) all(r *Result) bool {
	for _, m := range r.Row.Marks {
		if !set[r.Check.ID+"|"+m] {
			return false
		}
	}
	return len(r.Row.Marks) > 0
}

// cause is what makes two results one line.
func (r *Result) cause() string {
	head := fmt.Sprintf("%d|%s|", r.Verdict, r.Check.ID)
	switch r.Verdict {
	case NotChecked:
		if tab := r.missingTab(); tab != "" {
			return "tab|" + tab
		}
		if r.Broken != nil {
			return head + r.Broken.Error()
		}
		what := r.Row.In[r.Decides].Ask.What
		if what == "" || r.Check.Root {
			return head + r.Decides + "|" + what
		}
		return "ask|" + what
	case Verify:
		if r.Row.Rests != "" {
			return "rests|" + r.Row.Rests
		}
		if r.Row.Folds != "" {
			return head + r.Row.Folds
		}
		return head + r.Decides + "|" + r.Row.In[r.Decides].origin()
	}
	if r.Row.Holds != "" {
		return head + r.Row.Holds
	}
	return head + r.Row.Case + "|" + r.Row.Cause + "|" + r.fingerprint()
}

// fingerprint is the inputs as numbers: rows that fail alike are one finding.
func (r *Result) fingerprint() string {
	var b strings.Builder
	for _, in := range r.Check.Inputs {
		v := r.Row.In[in.Symbol]
		fmt.Fprintf(&b, "%.9g/%.9g/%.9g ", v.Low, v.Nominal, v.High)
	}
	return b.String()
}

func (r *Result) missingTab() string {
	for _, s := range r.Absent {
		if t := r.Row.In[s].Ask.Tab; t != "" {
			return t
		}
	}
	return ""
}

// want says what a result that is NOT CHECKED is waiting for.
func (r *Result) want() string {
	if r.Broken != nil {
		return r.Broken.Error()
	}
	for _, s := range r.Absent {
		a := r.Row.In[s].Ask
		switch {
		case a.Tab != "":
			return "no " + a.Tab + " tab"
		case a.What != "" && a.Cell != (Cell{}):
			return a.What + " in " + a.Cell.String()
		case a.What != "":
			return a.What
		}
	}
	return strings.Join(r.Absent, ", ") + " missing"
}

// finding makes one finding of results that share a cause. The one that names it speaks, else
// the worst, and only that one is solved backwards.
func finding(rs []*Result) *Finding {
	sort.SliceStable(rs, func(a, b int) bool {
		if rs[a].Row.Speaks != rs[b].Row.Speaks {
			return rs[a].Row.Speaks
		}
		return rs[a].Worst < rs[b].Worst
	})
	r := rs[0]
	r.Solve()
	f := &Finding{ID: r.Check.ID, Verdict: r.Verdict, Case: r.Row.Case, Results: rs,
		Steps: r.Lines(), Source: sources(r.Check.Source), Margin: r.Margin()}
	for _, each := range rs {
		if each.Row.Case != f.Case {
			f.Case = ""
		}
		f.Marks = addAll(f.Marks, each.Row.Marks)
		f.addCells(each.Row.Cells)
	}
	f.Key = strings.Join([]string{f.ID, f.Case, least(f.Marks), r.keyCause()}, "|")
	r.speak(f)
	return f
}

// Single is one result as a finding of its own, whatever its verdict.
func Single(r *Result) *Finding { return finding([]*Result{r}) }

// keyCause names the cause without any cell address or number, so that it is the same
// tomorrow.
func (r *Result) keyCause() string {
	if tab := r.missingTab(); tab != "" {
		return "no " + tab
	}
	if r.Row.Cause != "" {
		return r.Row.Cause
	}
	return r.Decides
}

// addCells keeps the first cell of each row as the finding's own, up to a handful, and the
// rest as also.
func (f *Finding) addCells(cells []Cell) {
	for i, c := range cells {
		switch {
		case contains(f.Cells, c) || contains(f.Also, c):
		case i == 0 && len(f.Cells) < mostCells:
			f.Cells = append(f.Cells, c)
		default:
			f.Also = append(f.Also, c)
		}
	}
}

// mostCells is how many cells a finding names before the rest are folded under it.
const mostCells = 12

// underRoots folds what follows from a cell that a root check already speaks of.
func underRoots(fs []*Finding) []*Finding {
	roots := map[Cell]*Finding{}
	for _, f := range fs {
		if f.Results[0].Check.Root {
			for _, c := range f.Cells {
				roots[c] = f
			}
		}
	}
	var out []*Finding
	for _, f := range fs {
		if root := f.rootAmong(roots); root != nil && f.Verdict <= root.Verdict {
			root.swallow(f)
			continue
		}
		out = append(out, f)
	}
	return out
}

// underHolds folds a VERIFY whose marks the same check already holds.
func underHolds(fs []*Finding) []*Finding {
	holds := map[string]*Finding{}
	for _, f := range fs {
		if f.Verdict == Hold {
			for _, m := range f.Marks {
				holds[f.ID+"|"+m] = f
			}
		}
	}
	var out []*Finding
	for _, f := range fs {
		over := holds[f.ID+"|"+first(f.Marks)]
		for _, m := range f.Marks {
			if holds[f.ID+"|"+m] == nil {
				over = nil
			}
		}
		if f.Verdict == Verify && over != nil {
			over.swallow(f)
			continue
		}
		out = append(out, f)
	}
	return out
}

// underNamed folds a finding under those of the check that its own check names, where they
// speak of all its marks and are as urgent.
func underNamed(fs []*Finding) []*Finding {
	over := map[string]*Finding{}
	for _, f := range fs {
		for _, m := range f.Marks {
			k := f.ID + "|" + m
			if over[k] == nil || over[k].Verdict < f.Verdict {
				over[k] = f
			}
		}
	}
	var out []*Finding
	for _, f := range fs {
		if by := f.coveredBy(over); by != nil {
			by.swallow(f)
			continue
		}
		out = append(out, f)
	}
	return out
}

func (f *Finding) coveredBy(over map[string]*Finding) *Finding {
	under := f.Results[0].Check.Under
	if own := f.Results[0].Row.Under; own != "" {
		under = own
	}
	if under == "" || len(f.Marks) == 0 {
		return nil
	}
	for _, m := range f.Marks {
		if by := over[under+"|"+m]; by == nil || by.Verdict < f.Verdict {
			return nil
		}
	}
	return over[under+"|"+f.Marks[0]]
}

// rootAmong is the root finding that explains every result of f, if there is one.
func (f *Finding) rootAmong(roots map[Cell]*Finding) *Finding {
	if f.Results[0].Check.Root || f.Results[0].missingTab() != "" {
		return nil
	}
	var root *Finding
	for _, r := range f.Results {
		found := r.restsOn(roots)
		if found == nil {
			return nil
		}
		root = found
	}
	return root
}

// restsOn is a root finding that speaks of a cell behind an input, or without whose cells a
// sum would be in order.
func (r *Result) restsOn(roots map[Cell]*Finding) *Finding {
	for _, in := range r.Check.Inputs {
		v := r.Row.In[in.Symbol]
		for _, c := range []Cell{v.From, v.Ask.Cell} {
			if f := roots[c]; f != nil && c != (Cell{}) {
				return f
			}
		}
	}
	return r.addsUpTo(roots)
}

// addsUpTo is the most urgent of the root findings that speak of terms of a sum, if it is those
// terms that the row fails by.
func (r *Result) addsUpTo(roots map[Cell]*Finding) *Finding {
	row := r.Row
	var root *Finding
	for _, t := range r.Row.Terms {
		f := t.under(roots)
		if f == nil {
			continue
		}
		if root == nil {
			row.In = maps.Clone(r.Row.In)
		}
		if root == nil || f.Verdict > root.Verdict {
			root = f
		}
		row.In[t.Symbol] = row.In[t.Symbol].less(t.Share)
	}
	if root == nil || !r.eased(r.Check.Judge(r.Job, row)) {
		return nil
	}
	return root
}

// eased reports whether the row with some terms left out is CLEAR, or passes at its nominals
// where it failed with them: what a guess may still do to it is asked when the terms are right.
func (r *Result) eased(without *Result) bool {
	switch without.Verdict {
	case Clear:
		return true
	case NotChecked:
		return false
	}
	return r.Margin() < -dust && without.Margin() >= -dust
}

func (t Term) under(roots map[Cell]*Finding) *Finding {
	for _, c := range t.From {
		if f := roots[c]; f != nil && c != (Cell{}) {
			return f
		}
	}
	return nil
}

func (f *Finding) swallow(g *Finding) {
	f.Marks = addAll(f.Marks, g.Marks)
	for _, c := range append(append([]Cell{}, g.Cells...), g.Also...) {
		if !contains(f.Cells, c) && !contains(f.Also, c) {
			f.Also = append(f.Also, c)
		}
	}
}

// unique makes the keys of findings differ where two causes share check, case and mark.
func unique(fs []*Finding) []*Finding {
	seen := map[string]int{}
	for _, f := range fs {
		seen[f.Key]++
		if n := seen[f.Key]; n > 1 {
			f.Key = fmt.Sprintf("%s (%d)", f.Key, n)
		}
	}
	return fs
}

func sources(list []Source) string {
	var out []string
	for _, s := range list {
		out = append(out, s.String())
	}
	return strings.Join(out, "; ")
}

func addAll(to, from []string) []string {
	for _, s := range from {
		if s != "" && !contains(to, s) {
			to = append(to, s)
		}
	}
	return to
}

func contains[T comparable](list []T, x T) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// least is the mark that comes first in the alphabet: which row is the worst may change from
// day to day.
func least(marks []string) string {
	if len(marks) == 0 {
		return ""
	}
	return slices.Min(marks)
}

func first(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}
