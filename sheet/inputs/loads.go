package inputs

import (
	"dryfit/check"
	"dryfit/sheet/read/phrase"
)

const loadsName = "loads"

// loadsTab asks what stands on each case that has shelves or a seat; nil where somebody said.
func (s *survey) loadsTab() *tab {
	var rows []row
	for _, c := range s.Cases() {
		if len(c.Role(check.Shelf, check.Adjustable, check.Seat)) == 0 {
			continue
		}
		l := s.loadOf(c)
		if l != nil && !l.Inferred {
			continue
		}
		kind, reason := cell{"", wanted}, "nobody said; a general load is taken"
		if l != nil {
			kind, reason = cell{l.Kind.Text, found}, "the words of the case"
		}
		name := cell{named(c), told}
		rows = append(rows, row{key: name.text, cells: confirmable([]cell{name, kind, {"", maybe}, {"", maybe}}, reason)})
	}
	if len(rows) == 0 {
		return nil
	}
	return &tab{name: loadsName, title: "Loads", rows: rows, spare: 8,
		tells: []string{"What will stand on the shelves: a word, or a load with its unit. A part of its own goes below, by its mark.",
			"Slanting print is what dryfit takes from the words of the schedule. Write yes beside it, or type over it."},
		columns: append([]column{
			{head: "case", key: true, width: 24, spare: maybe, note: "A case as the schedule calls it, or the mark of a part. Empty: the whole job."},
			{head: "kind of load", width: 14, spare: maybe, list: s.loadKinds(), note: "What stands there. The standards say what it weighs."},
			{head: "load", width: 14, spare: maybe, note: "If you know it: " + s.either("25 lb/ft of shelf, 20 lb/ft2, 60 lb", "38 kg/m of shelf, 60 kg/m2, 30 kg") + ", or 2 persons. It rules over the word."},
			{head: "note", width: 18, spare: maybe, note: "For people."},
		}, confirming...)}
}

// loadOf is the load that speaks of a case, nil if none does.
func (s *survey) loadOf(c check.Case) *check.Load {
	for _, l := range s.Loads {
		if c.Is(l.On.Text) || l.On.Text == "" {
			return l
		}
	}
	return nil
}

// loadKinds are the kinds of load of the standards whose word the reader knows.
func (s *survey) loadKinds() []string {
	var out []string
	seen := map[string]bool{}
	for _, e := range s.Shop.Entries() {
		if e.Group != "load" || seen[e.Item] {
			continue
		}
		seen[e.Item] = true
		if said, rest := phrase.Loads(e.Item, ""); len(said) == 1 && len(rest) == 0 && said[0].Kind == e.Item {
			out = append(out, e.Item)
		}
	}
	return out
}
