package standard

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Table is a set of entries and the shop's own words. A Table never changes; With and
// Speaking return new ones.
type Table struct {
	entries []Entry
	at      map[Key]int
	items   map[string]string      // item by group and folded item
	sold    map[string][]Thickness // thicknesses sold, by item

	words  []Word
	spoken map[string]Word // by kind and folded text
}

//go:embed values.csv
var valuesCSV string

// BuiltIn returns the values that hold where neither shop nor job says otherwise.
var BuiltIn = sync.OnceValue(func() *Table {
	entries, err := parseValues(valuesCSV)
	if err != nil {
		panic(err) // our own file
	}
	return (&Table{}).With(entries)
})

// parseValues reads lines of group, item, property, low, nominal, high, unit, source,
// known, note under one header line.
func parseValues(text string) ([]Entry, error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("values: %w", err)
	}
	var entries []Entry
	for i, f := range lines[1:] {
		e := Entry{
			Group: f[0], Item: f[1], Property: f[2],
			Unit: f[6], Source: f[7], Known: f[8], Note: f[9], From: "built in",
		}
		for j, to := range []*float64{&e.Low, &e.Nominal, &e.High} {
			if *to, err = strconv.ParseFloat(f[3+j], 64); err != nil {
				return nil, fmt.Errorf("values, line %d (%s): %w", i+2, e.Name(), err)
			}
		}
		entries = append(entries, e)
	}
	return entries, nil
}

// With returns a copy in which over replaces or adds entries, by group, item and property.
// A replaced entry keeps its place; a new one follows the last of its group.
func (t *Table) With(over []Entry) *Table {
	n := &Table{entries: slices.Clone(t.entries), words: t.words, spoken: t.spoken}
	n.index()
	for _, e := range over {
		if i, ok := n.at[e.Key()]; ok {
			n.entries[i] = e
			continue
		}
		n.at[e.Key()] = len(n.entries)
		n.entries = append(n.entries, e)
	}
	first := map[string]int{}
	for i, e := range n.entries {
		if _, seen := first[e.Group]; !seen {
			first[e.Group] = i
		}
	}
	slices.SortStableFunc(n.entries, func(a, b Entry) int { return first[a.Group] - first[b.Group] })
	n.index()
	return n
}

func (t *Table) index() {
	t.at = make(map[Key]int, len(t.entries))
	t.items = map[string]string{}
	t.sold = map[string][]Thickness{}
	for i, e := range t.entries {
		t.at[e.Key()] = i
		t.items[e.Group+" "+fold(e.Item)] = e.Item
		if e.Group != "thickness" {
			continue
		}
		if named, ok := value(strings.TrimRight(e.Property, " inmx")); ok {
			t.sold[e.Item] = append(t.sold[e.Item], Thickness{e.Property, named, e})
		}
	}
}

// item finds an item of a group as typed; case, blanks and full stops do not matter.
func (t *Table) item(group, typed string) (string, bool) {
	item, ok := t.items[group+" "+fold(typed)]
	return item, ok
}

// Find returns the entry with these three words, and false if there is none.
func (t *Table) Find(group, item, property string) (Entry, bool) {
	i, ok := t.at[Key{group, item, property}]
	if !ok {
		return Entry{}, false
	}
	return t.entries[i], true
}

// Entries returns all entries, group by group, in the order of the built-in list.
func (t *Table) Entries() []Entry { return slices.Clone(t.entries) }
