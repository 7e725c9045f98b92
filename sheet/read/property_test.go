package read

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

// Pieces that offices type, and some that nobody should: random tabs are made of them.
var (
	someHeads = []string{"Mark", "MK", "Part No.", "Item", "No.", "Description", "Part", "Piece", "Qty", "Pcs", "Anzahl", "Qté", "Length", "L", "Width", "W", "D", "T",
		"Thickness", "Size", "Size (L x W x T)", "Material", "Mat'l", "Edges", "EB", "FIN", "Finish", "Notes", "Case", "Room", "Cut L", "Cut W", "Fin L", "Fin W", "Grain",
		"Länge", "Breite", "Dicke", "Price", "Qunatity", "Finished size [mm]", "Total", "Qty/Case", "Cases", "Front", "x", "Weight"}
	someCells = []string{"A1", "A2", "B-3", "101", "Side", "Shelf", "Back", "Adj. shelf", "-- core", "2", "4", "2 ea.", "4+1", "pr", "95-1/2", "12", "3/4", "1 7/8", ".75",
		"19", "2380", "18,5", "7'-6 1/2\"", "34 1/2 x 11 1/4 x 3/4", "600x400", "2 / 84x14", "MDF", "birch ply", "3 lyr MDF", "F,L", "all", "-", "do", "\"", "same as A1",
		"TBD", "~ 30", "6-8mm", "clear", "P1", "CASE A", "DEN", "TOTAL", "Total 12", "VOID", "Note: ease edges", "x", "?", "n/a", "=1/0", "=2+2", "¼", "1⁄2", "￼", "۱۲", "\u00a0", "1e999", "((", "0", "-5", "1/0"}
)

// someTables are header rows of whole schedules; their columns are filled with what belongs
// there, but for one cell in five.
var someTables = [][]string{
	{"Mark", "Part", "Qty", "Length", "Width", "Thickness", "Material", "Edges", "Notes"},
	{"No.", "Piece", "Size (W x D x T)"},
	{"Item", "Part No.", "Case", "Qty/Case", "Cases", "Cut L", "Cut W", "Fin L", "Fin W", "T"},
	{"Part", "How many", "Note"},
	{"Element", "Pcs", "Finished size [mm]", "", "", "Board"},
	{"Part", "Case 1", "Case 2", "Case 3"},
	{"Pos.", "Bezeichnung", "Anzahl", "Länge", "Breite", "Dicke", "", "Werkstoff"},
}

var belongs = map[string][]string{
	"Mark": {"A1", "A2", "B-3", "101"}, "Part No.": {"A1", "102", "X9"}, "Part": {"Side", "Shelf 34 x 11 1/4 x 3/4", "-- core", "Back"},
	"Piece": {"Sides", "Shelves (3 ply lam)", "Uprights ditto"}, "Qty": {"2", "4+1", "pr"}, "No.": {"2", "2 ea."}, "Qty/Case": {"2", "1"}, "Cases": {"1", "3"},
	"How many": {"2", "6"}, "Pcs": {"2", "1"}, "Anzahl": {"2", "3"}, "Size (W x D x T)": {"34 x 11 x 3/4", "7'-8\" x 12\" x 3/4\"", "600x400"},
	"Length": {"95-1/2", "30", "do"}, "Width": {"12", "11 1/4"}, "Thickness": {"3/4", ".75", "19"}, "T": {"3/4", "1 7/8"}, "Cut L": {"30"}, "Cut W": {"11"}, "Fin L": {"30 1/4"}, "Fin W": {"12"},
	"Finished size [mm]": {"2380", "862"}, "": {"600", "19"}, "Case 1": {"2 / 84x14", "30"}, "Case 2": {"2 / 84x14", "-"}, "Case 3": {"28 1/2x13 3/4"},
	"Länge": {"2380"}, "Breite": {"600"}, "Dicke": {"19"}, "Bezeichnung": {"Seite", "Fachboden"}, "Werkstoff": {"MDF", "dto."}, "Pos.": {"1", "2", "3"}, "Element": {"Schrank A"},
	"Material": {"MDF", "3 lyr MDF", "\""}, "Board": {"MDF 19"}, "Edges": {"F", "all"}, "Case": {"A"}, "Item": {"1", "2"}, "Notes": {"see A1", "VIF"}, "Note": {"band front"},
}

// TestNoRowIsLost makes random tabs and demands that every row that holds anything was read
// or named, and that every part stands in a row that exists.
func TestNoRowIsLost(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		data, filled := randomBook(rt)
		b, err := Open("random.xlsx", data, nil)
		if err != nil {
			rt.Fatalf("%v", err)
		}
		tab := b.Tabs[0]
		if tab.Kind == "ignored" {
			if tab.Why == "" {
				rt.Fatalf("ignored without a reason")
			}
			return
		}
		for n := range filled {
			if tab.grid.Row(n) != nil && tab.roles[n].word == "" {
				rt.Fatalf("row %d is lost in silence", n)
			}
		}
		for p := range tab.Parts() {
			row, _, ok := parseRef([]byte(p.Row.Addr))
			if !ok || !filled[row] {
				rt.Fatalf("a part was read in %q, where nothing stands", p.Row.Addr)
			}
			for _, s := range p.Sizes() {
				if v := s.Value; v.Known && !(v.Low <= v.Nominal && v.Nominal <= v.High) {
					rt.Fatalf("%s: %s is %v to %v with %v between", p.Row.Addr, s.Field, v.Low, v.High, v.Nominal)
				}
			}
		}
		cellsAreUsed(rt, tab)
		var out bytes.Buffer
		Print(&out, []*Book{b})
		if err := JSON(&out, []*Book{b}); err != nil {
			rt.Fatalf("%v", err)
		}
	})
}

// cellsAreUsed demands that every filled cell of a row that became a part stands in a column
// that a field reads, or is named.
func cellsAreUsed(rt *rapid.T, tab *Tab) {
	named := map[string]bool{}
	for _, u := range tab.Unread {
		named[u.Cell.Addr] = true
	}
	for _, u := range tab.Aside {
		named[u.Cell.Addr] = true
	}
	for _, r := range tab.grid.Rows {
		if w := tab.roles[r.N].word; w != "part" && w != "layer" {
			continue
		}
		for i := range r.Cells {
			c := &r.Cells[i]
			used := named[c.Addr()]
			for _, t := range tab.tables {
				if r.N < t.top || r.N > t.last {
					continue
				}
				for _, col := range t.cols {
					used = used || col.col == int(c.Col) && (col.field != fUnknown || named[Address(t.top, col.col)])
				}
				used = used || t.matrix != nil
			}
			if !used {
				rt.Fatalf("%s (%q) is lost in silence", c.Addr(), c.Text())
			}
		}
	}
}

func randomBook(rt *rapid.T) (data []byte, filled map[int]bool) {
	f := excelize.NewFile()
	defer f.Close()
	rows := rapid.IntRange(1, 14).Draw(rt, "rows")
	cols := rapid.IntRange(1, 9).Draw(rt, "cols")
	left := rapid.IntRange(0, 2).Draw(rt, "left")
	filled = map[int]bool{}
	var heads []string
	if rapid.IntRange(0, 9).Draw(rt, "table") > 0 {
		heads = rapid.SampledFrom(someTables).Draw(rt, "heads")
		cols = len(heads) + rapid.IntRange(0, 2).Draw(rt, "more")
	}
	top := rapid.IntRange(1, 4).Draw(rt, "top")
	for r := 1; r <= rows; r++ {
		kind := rapid.SampledFrom([]string{"head", "cells", "cells", "cells", "cells", "cells", "cells", "lone", "blank"}).Draw(rt, "kind")
		if heads != nil && (r < top && kind == "cells" || kind == "head") {
			kind = "lone"
		}
		for c := 1; c <= cols; c++ {
			text := ""
			switch {
			case heads != nil && r == top && c <= len(heads):
				text = heads[c-1]
			case heads != nil && r == top:
			case heads != nil && kind == "cells" && c <= len(heads) && rapid.IntRange(0, 4).Draw(rt, "odd") > 0:
				text = rapid.SampledFrom(belongs[heads[c-1]]).Draw(rt, "fitting")
			case kind == "head":
				text = rapid.SampledFrom(someHeads).Draw(rt, "head")
			case kind == "cells" && rapid.IntRange(0, 4).Draw(rt, "fill") > 0, kind == "lone" && c == 1:
				text = rapid.SampledFrom(someCells).Draw(rt, "cell")
			}
			if Tidy(text) == "" {
				continue
			}
			addr := Address(r, c+left)
			filled[r] = true
			switch {
			case strings.HasPrefix(text, "="):
				f.SetCellFormula("Sheet1", addr, text[1:])
			default:
				if x, ok := small([]byte(text)); ok && rapid.Bool().Draw(rt, "number") {
					f.SetCellValue("Sheet1", addr, x)
				} else {
					f.SetCellStr("Sheet1", addr, text)
				}
			}
		}
	}
	if rapid.Bool().Draw(rt, "merge") {
		f.MergeCell("Sheet1", Address(2, 1+left), Address(2+rapid.IntRange(1, 3).Draw(rt, "down"), 1+left))
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		rt.Fatal(fmt.Sprint(err))
	}
	return out.Bytes(), filled
}
