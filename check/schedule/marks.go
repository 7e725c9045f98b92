package schedule

import (
	"fmt"
	"math"
	"regexp"
	"sort"
	"strings"

	"dryfit/check"
)

// Marks asks whether a mark means one part, and whether every mark that a joint or a run
// names is a part.
var Marks = &check.Check{
	ID:      "schedule.marks",
	Asks:    "Does every mark mean one part, and is every mark that is named a part?",
	Costs:   "two different parts with one label; the wrong one goes to the bench",
	Applies: "every mark in the part schedule, in a joint schedule and in a run",
	Inputs: []check.Input{
		{Symbol: "n", Name: "rows with this mark and other sizes, or names without a part", Unit: check.Count},
		{Symbol: "e", Name: "rows that could be the same mark", Unit: check.Count},
	},
	Steps: []check.Step{
		{Symbol: "m", Name: "no second meaning", Formula: "0-n-e", Unit: check.Count},
	},
	NoMend: "give each part its own mark, typed the same everywhere",
	Source: []check.Source{{Title: "one mark, one part", How: "common practice"}},
	Limits: "Marks that start again in each case are taken as meant.",
	Until:  check.Released,
	Root:   true,
	Value:  "n",
	Fails:  "K3 is 34 1/2 long in one row and 36 in another",
	Mended: "K3 and K4",
	Rows:   markRows,
	Says:   func(r *check.Result) string { return r.Row.Words["says"] },
	Way:    func(r *check.Result) string { return r.Row.Words["way"] },
}

func markRows(j *check.Job) []check.Row {
	groups, order := byMark(j)
	var out []check.Row
	for _, k := range order {
		out = append(out, markRow(groups[k]))
	}
	out = append(out, likeRows(groups, order)...)
	return append(out, strangers(j)...)
}

// byMark groups the parts that share a mark. Where marks start again in each case, the case
// belongs to the mark.
func byMark(j *check.Job) (map[string][]*check.Part, []string) {
	perCase := restarts(j)
	again := secondVersions(j)
	groups := map[string][]*check.Part{}
	var order []string
	for _, p := range j.Pieces() {
		if p.Mark.Text == "" {
			continue
		}
		k := p.Row.Book + "|" + p.Mark.Text
		if again[[2]string{p.Row.Book, p.Row.Tab}] {
			k += "|" + p.Row.Tab // told by schedule.revision
		}
		if perCase {
			k += "|" + p.Case.Text + "|" + p.Room.Text
		}
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], p)
	}
	return groups, order
}

// restarts reports whether most repeated marks repeat in another case: the office counts
// afresh in each.
func restarts(j *check.Job) bool {
	cases := map[string]map[string]int{}
	for _, p := range j.Pieces() {
		if p.Mark.Text == "" {
			continue
		}
		if cases[p.Mark.Text] == nil {
			cases[p.Mark.Text] = map[string]int{}
		}
		cases[p.Mark.Text][p.Case.Text+"|"+p.Room.Text]++
	}
	across, within := 0, 0
	for _, in := range cases {
		if len(in) > 1 {
			across++
		}
		for _, n := range in {
			if n > 1 {
				within++
			}
		}
	}
	return across > 1 && across > within
}

func markRow(ps []*check.Part) check.Row {
	first := ps[0]
	r := row(first, "", first.Mark.From)
	r.In["n"], r.In["e"] = check.Exact(0), check.Exact(0)
	if len(ps) == 1 {
		return r
	}
	others := 0
	for _, p := range ps[1:] {
		r.Cells = append(r.Cells, p.Mark.From)
		if !sameSizes(first, p) {
			others++
		}
	}
	if others > 0 {
		r.Cause = "other sizes"
		r.In["n"] = check.Exact(float64(others))
		r.Words["says"] = fmt.Sprintf("stands in %d rows with different sizes", len(ps))
		return r
	}
	r.Cause, r.Most = "repeated", check.Verify
	r.In["e"] = check.Exact(float64(len(ps) - 1))
	r.Words["says"] = fmt.Sprintf("stands in %d rows with equal sizes; meant twice?", len(ps))
	r.Words["way"] = "count all pieces in one row, or give each its own mark"
	return r
}

func sameSizes(p, q *check.Part) bool {
	a, b := p.Sizes(), q.Sizes()
	for i := range a {
		if a[i].Value.Known != b[i].Value.Known || math.Abs(a[i].Value.Nominal-b[i].Value.Nominal) > 1e-6 {
			return false
		}
	}
	return true
}

// likeRows finds marks that the eye takes for one another: A1 and Al, B0 and BO, K 3 and k3.
func likeRows(groups map[string][]*check.Part, order []string) []check.Row {
	like := map[string][]*check.Part{}
	for _, k := range order {
		p := groups[k][0]
		s := p.Row.Book + "|" + skeleton(p.Mark.Text)
		if !named(like[s], p.Mark.Text) {
			like[s] = append(like[s], p)
		}
	}
	var out []check.Row
	var keys []string
	for s, ps := range like {
		if len(ps) > 1 {
			keys = append(keys, s)
		}
	}
	sort.Strings(keys)
	for _, s := range keys {
		ps := like[s]
		r := row(ps[0], "alike", ps[0].Mark.From, ps[1].Mark.From)
		r.Most = check.Verify
		r.Marks = append(r.Marks, ps[1].Name())
		r.In["n"], r.In["e"] = check.Exact(0), check.Exact(float64(len(ps)-1))
		r.Words["says"] = fmt.Sprintf("also typed %s; one part or two?", ps[1].Mark.Text)
		r.Words["way"] = "type it alike for one part; for two, choose marks that cannot be mixed up"
		out = append(out, r)
	}
	return out
}

func named(ps []*check.Part, mark string) bool {
	for _, p := range ps {
		if p.Mark.Text == mark {
			return true
		}
	}
	return false
}

var (
	digitLike = strings.NewReplacer("O", "0", "I", "1", "L", "1")
	gaps      = regexp.MustCompile(`[\s\x{00A0}]+`)
)

// skeleton is what is left of a mark when case, spaces and the letters that look like digits
// are taken away. A letter counts as a digit only beside one, so that "SL" and "SI" differ.
func skeleton(mark string) string {
	s := gaps.ReplaceAllString(strings.ToUpper(mark), "")
	var b strings.Builder
	for i := range s {
		c := s[i : i+1]
		if i > 0 && digit(s[i-1]) || i+1 < len(s) && digit(s[i+1]) {
			c = digitLike.Replace(c)
		}
		b.WriteString(c)
	}
	return b.String()
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// strangers are the marks that joints and runs name and no part bears.
func strangers(j *check.Job) []check.Row {
	var out []check.Row
	if !anyMark(j) {
		return nil
	}
	ask := func(name check.Text, by string) {
		if name.Text == "" || j.Part(name.Text) != nil || len(j.Called(name.Text)) > 0 || check.OfTheHouse(name.Text) {
			return
		}
		r := check.Row{Marks: []string{name.Text}, Name: name.Text, Cause: "no such part",
			Cells: []check.Cell{name.From}, Words: map[string]string{"says": by + " names it, but no part bears this mark",
				"way": "type the mark of the part meant, or add the part to the schedule"},
			In: map[string]check.Value{"n": check.Exact(1), "e": check.Exact(0)}}
		out = append(out, r)
	}
	for _, jt := range j.Joints {
		if !jt.Inferred {
			ask(jt.Into, "a joint")
			ask(jt.Enters, "a joint")
		}
	}
	for _, run := range j.Runs {
		for _, it := range run.Items {
			if it.Mark != "" && !run.Inferred {
				ask(check.Text{Text: it.Mark, From: run.Row}, "a run")
			}
		}
	}
	return append(out, loadStrangers(j)...)
}

// loadStrangers are the names under which a load is typed and that no case, part or opening
// bears: what it was to lie on is checked as if nobody had said anything.
func loadStrangers(j *check.Job) []check.Row {
	var out []check.Row
	for _, l := range j.Loads {
		name := l.On
		if l.Inferred || name.Text == "" || j.Part(name.Text) != nil || len(j.Called(name.Text)) > 0 || placeNamed(j, name.Text) {
			continue
		}
		out = append(out, check.Row{Marks: []string{name.Text}, Name: name.Text, Cause: "no such place", Most: check.Verify,
			Cells: []check.Cell{name.From}, Words: map[string]string{"says": "a load names it, but no case and no part does",
				"way": "type the case or the mark that the load stands on"},
			In: map[string]check.Value{"n": check.Exact(1), "e": check.Exact(0)}})
	}
	return out
}

func placeNamed(j *check.Job, name string) bool {
	for _, c := range j.Cases() {
		if c.Is(name) || check.SameName(c.Label(), name) {
			return true
		}
	}
	for _, o := range j.Openings {
		if check.SameName(o.Name.Text, name) {
			return true
		}
	}
	return false
}

func anyMark(j *check.Job) bool {
	for _, p := range j.Parts {
		if p.Mark.Text != "" {
			return true
		}
	}
	return false
}
