package inputs

import (
	"slices"
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/sheet/read/phrase"
)

const runsName = "runs"

var directions = []string{"width", "height", "depth"}

// runsTab shows the chains that were inferred from the roles of the parts; nil where the
// office typed its own.
func (s *survey) runsTab() *tab {
	if len(s.Runs) > 0 {
		return nil
	}
	rows := s.runRows()
	if len(rows) == 0 {
		return nil
	}
	return &tab{name: runsName, title: "Runs", rows: rows, spare: 8,
		tells: []string{"Which parts stand side by side, and what they must go into. A side counts its thickness in a width, a shelf its length.",
			"Slanting print is what dryfit takes from the roles of the parts. Write yes beside it, or type over it."},
		columns: append([]column{
			{head: "case", key: true, width: 20, spare: maybe, note: "The case whose parts these are."},
			{head: "direction", key: true, width: 10, spare: maybe, list: directions, note: "The way the parts are added up."},
			{head: "parts in order", width: 30, spare: maybe, note: "Marks joined by +, such as A1 + A2 + A1. 2 x A4 for repeats; a plain length such as 1/4 for a reveal."},
			{head: "fits", width: 20, spare: maybe, note: "What the run must go into: an opening, a liner, the ceiling."},
			{head: "clearance (" + s.unit() + ")", width: 11, spare: maybe, note: "Wanted over the whole run. Empty: as the standards say."},
		}, confirming...)}
}

func (s *survey) runRows() []row {
	var rows []row
	seen := map[string]bool{}
	for _, r := range s.results {
		direction := r.Row.Cause
		if r.Row.Words["chain"] == "" || !slices.Contains(directions, direction) {
			continue
		}
		chain, ok := s.chain(r)
		key := r.Row.Case + "|" + direction
		if !ok || seen[key] {
			continue
		}
		seen[key] = true
		name := strings.TrimSpace(r.Row.Case)
		cells := []cell{{name, told}, {direction, told}, {chain, found}, {name, maybe}, {"", maybe}}
		rows = append(rows, row{key: key, cells: confirmable(cells, "roles of the parts")})
	}
	return rows
}

// chain writes the parts of a run down so that the reader reads the same parts again; false
// where it would not, or for a run of one part.
func (s *survey) chain(r *check.Result) (string, bool) {
	var names []string
	for _, m := range r.Row.Marks {
		name := s.writable(m, r.Row.Case)
		if name == "" {
			return "", false
		}
		names = append(names, name)
	}
	text := strings.Join(names, " + ")
	run, rest, ok := phrase.ParseRun(text, length.Inch)
	if !ok || len(rest) > 0 || len(run.Items) != len(names) {
		return "", false
	}
	for i, item := range run.Items {
		if item.Mark != names[i] || item.Plain.Known || item.Count.Nominal != 1 {
			return "", false
		}
	}
	return text, true
}

// writable is the mark of a part, or its description where only one part bears it.
func (s *survey) writable(name, casing string) string {
	for _, p := range s.Pieces() {
		if p.Name() != name || p.Case.Text != casing {
			continue
		}
		if p.Mark.Text != "" {
			return p.Mark.Text
		}
		if len(s.Called(p.Description.Text)) == 1 {
			return p.Description.Text
		}
	}
	return ""
}
