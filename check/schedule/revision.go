package schedule

import (
	"fmt"
	"strings"

	"dryfit/check"
)

// Revision asks whether two versions of one schedule are live: two tabs or books that bear
// the same marks, most of them with the same sizes. Where the sizes of a mark differ, nobody
// knows which to cut; where none differ, the parts would be cut twice. Tabs whose marks only
// start again, each with sizes of its own, are no versions of one another. A tab that was set
// aside as a copy is held against the live one too: a copy may be the newer.
var Revision = &check.Check{
	ID:      "schedule.revision",
	Asks:    "Is the same part live in two versions of the schedule?",
	Costs:   "parts cut from last month's sizes, or cut twice",
	Applies: "every two tabs or books that bear the same marks, most of them with the same sizes",
	Inputs: []check.Input{
		{Symbol: "n", Name: "marks in both", Unit: check.Count},
		{Symbol: "d", Name: "of them, with other sizes", Unit: check.Count},
		{Symbol: "l", Name: "live twice, 1 or 0", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "s", Name: "marks with the same sizes", Formula: "n-d", Unit: check.Count},
		{Symbol: "m", Name: "margin", Formula: "0-d-l*s", Unit: check.Count},
	},
	NoMend: "keep one; put OLD into the name of the other tab, or take the book out of the folder",
	Source: []check.Source{{Title: "one live schedule for a part", How: "common practice"}},
	Limits: "Knows no dates: a site measured after the schedule was typed is not seen. Tabs named old or superseded are set aside and named in the notes.",
	Until:  check.Released,
	Value:  "d",
	Fails:  "tabs Parts and Rev B, 4 marks in both, 1 with another size",
	Mended: "the first tab named Parts OLD",
	Rows:   revisionRows,
	Says:   func(r *check.Result) string { return r.Row.Words["says"] },
}

func revisionRows(j *check.Job) []check.Row {
	live := tabsOf(j)
	var out []check.Row
	for i, a := range live {
		for _, b := range live[:i] {
			if v, ok := compare(b, a); ok {
				out = append(out, v.row(1))
			}
		}
	}
	for _, old := range tabsOf(&check.Job{Parts: j.Old}) {
		for _, a := range live {
			if v, ok := compare(a, old); ok && setAsideAsCopy(j, old) {
				out = append(out, v.row(0))
			}
		}
	}
	return out
}

// versions are two tabs with the same marks.
type versions struct {
	first, second tab
	both, same    int
	other         []*check.Part // of the second, with other sizes
}

// compare counts the marks that two tabs share. They are versions of one schedule where they
// share three marks and more, and most of the shared ones have the same sizes.
func compare(a, b tab) (versions, bool) {
	v := versions{first: a, second: b}
	sizes := map[string]*check.Part{}
	for _, p := range a.parts {
		if p.Mark.Text != "" && p.Of == "" {
			sizes[p.Mark.Text] = p
		}
	}
	for _, p := range b.parts {
		q := sizes[p.Mark.Text]
		if q == nil || p.Of != "" {
			continue
		}
		v.both++
		if sameSizes(p, q) {
			v.same++
		} else {
			v.other = append(v.other, p)
		}
	}
	return v, v.both >= 3 && 2*v.same > v.both
}

// secondVersions are the tabs, by book and name, that are versions of an earlier live one.
func secondVersions(j *check.Job) map[[2]string]bool {
	out := map[[2]string]bool{}
	live := tabsOf(j)
	for i, a := range live {
		for _, b := range live[:i] {
			if _, ok := compare(b, a); ok {
				out[[2]string{a.first.Book, a.first.Tab}] = true
			}
		}
	}
	return out
}

func (v versions) row(twice float64) check.Row {
	r := check.Row{Name: v.second.first.Tab, Cells: []check.Cell{v.second.first}, Cause: "versions " + v.second.first.Tab, Words: map[string]string{}}
	if v.first.first.Book != v.second.first.Book {
		r.Cause = "versions " + v.second.first.Book
	}
	for i, p := range v.other {
		if i == 0 {
			r.Cells = nil
		}
		r.Marks = append(r.Marks, p.Name())
		r.Cells = append(r.Cells, p.Row)
	}
	if twice == 0 || len(v.other) == 0 {
		r.Most = check.Verify
	}
	r.In = map[string]check.Value{"n": check.Exact(float64(v.both)), "d": check.Exact(float64(len(v.other))), "l": check.Exact(twice)}
	where := v.first.first.Tab
	if v.first.first.Book != v.second.first.Book {
		where = base(v.first.first.Book)
	}
	switch {
	case len(v.other) == 0:
		r.Words["says"] = fmt.Sprintf("bears the same %d marks as %s; cut once or twice?", v.both, where)
	case twice == 0:
		r.Words["says"] = fmt.Sprintf("set aside as a copy, but %d sizes differ from %s; which is newer?", len(v.other), where)
	default:
		r.Words["says"] = fmt.Sprintf("%d of %d marks have other sizes than in %s", len(v.other), v.both, where)
	}
	return r
}

// base is the name of a book without its folders.
func base(path string) string { return path[strings.LastIndexAny(path, `/\`)+1:] }

// setAsideAsCopy reports whether a tab was set aside for another reason than that its name
// says old: then it may be the newer one.
func setAsideAsCopy(j *check.Job, t tab) bool {
	for _, b := range j.Books {
		for _, tab := range b.Tabs {
			if b.Path == t.first.Book && tab.Name == t.first.Tab {
				return !strings.Contains(tab.Why, "superseded")
			}
		}
	}
	return false
}
