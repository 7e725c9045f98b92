package callbacks

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/check"
	"dryfit/sheet/draft"
)

func TestRead(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []Callback
		found      bool
	}{
		{"a row each", "== After\n*Job 88\n*Case | Mark | What happened | Check\nNook | A3, A4 | binds in the slot |\n | | too heavy for two | opening.lift\n", []Callback{
			{Row: check.Cell{Book: "a.xlsx", Tab: "After", Addr: "C3"}, Case: "Nook", Marks: []string{"A3", "A4"}, What: "binds in the slot"},
			{Row: check.Cell{Book: "a.xlsx", Tab: "After", Addr: "C4"}, What: "too heavy for two", Check: "opening.lift"},
		}, true},
		{"other words, other order", "== x\nProblem | Part\nsags | B1 + B2\n", []Callback{
			{Row: check.Cell{Book: "a.xlsx", Tab: "x", Addr: "A2"}, Marks: []string{"B1", "B2"}, What: "sags"},
		}, true},
		{"nothing went wrong", "== x\nMark | What went wrong\n | none\n", nil, true},
		{"no row", "== x\nMark | What went wrong\n", nil, true},
		{"a parts tab", "== x\nMark | Part | Qty | L\nA | Shelf | 1 | 30\n", nil, false},
		{"what happened, to nothing named", "== x\nWhat happened | When\nsag | May\n", nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, err := draft.Workbook(c.text)
			if err != nil {
				t.Fatal(err)
			}
			got, found, err := Read("a.xlsx", data)
			if err != nil || found != c.found {
				t.Fatalf("found %v, %v", found, err)
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestReadNoWorkbook(t *testing.T) {
	if _, _, err := Read("a.xlsx", []byte("text")); err == nil || errors.Unwrap(err) == nil {
		t.Errorf("%v", err)
	}
}
