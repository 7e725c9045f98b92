package standards

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"dryfit/check/standard"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// older makes a workbook as an older version would have left it, with the shop's typing in
// it: rows and tabs are missing, one built-in value was another.
func older(t *testing.T) []byte {
	return workbook(t, standard.BuiltIn(), Draft{Words: []standard.Word{{Kind: "material", Text: "GRN", Means: "MDF"}}}, func(f *excelize.File) {
		for _, k := range []standard.Key{{Group: "fit", Item: "loose", Property: "clearance"}, {Group: "fit", Item: "press", Property: "clearance"}, {Group: "cutting", Item: "saw", Property: "kerf"}} {
			tab, cell := place(t, f, k.Group, k.Item, k.Property, "kind")
			_, row, _ := excelize.CellNameToCoordinates(cell)
			if err := f.RemoveRow(tab, row); err != nil {
				t.Fatal(err)
			}
		}
		for _, tab := range []string{"doors", jobsTab} {
			if err := f.DeleteSheet(tab); err != nil {
				t.Fatal(err)
			}
		}
		set := func(group, item, property, id string, v any) {
			tab, cell := place(t, f, group, item, property, id)
			typeIn(t, f, tab, cell, v)
		}
		set("limit", "shelf sag", "span over", "low", 120.)
		set("limit", "shelf sag", "span over", "value", 120.)
		set("limit", "shelf sag", "span over", "high", 120.)
		set("limit", "shelf sag", "span over", "stamp", numberStamp("1", 120, 120, 120)+wordStamp("", "", ""))
		set("limit", "shelf sag", "span over", "our value", 180)
		set("limit", "shelf sag", "span over", "note", "the owner's word")
		set("limit", "shelf", "load at most", "source", "an older book")
		set("limit", "shelf", "load at most", "stamp", numberStamp("lb", 200, 200, 200)+wordStamp("an older book", "read", ""))
		set("limit", "long part", "share that binds", "value", 0.2)    // typed over
		set("limit", "single joint", "share that binds", "value", 0.2) // typed over an older value
		set("limit", "single joint", "share that binds", "stamp", numberStamp("1", .03, .03, .03)+wordStamp("", "", ""))
		set("fit", "snug", "clearance", "our value", "1/128")
		rows, _ := f.GetRows("fits")
		below := len(rows) + 3
		for i, v := range []any{"fit", "grid", "clearance", "in", nil, nil, nil, nil, .03} {
			typeIn(t, f, "fits", address(i+1, below), v)
		}
		if _, err := f.NewSheet("my own"); err != nil {
			t.Fatal(err)
		}
		typeIn(t, f, "my own", "C3", "keep me")
	})
}

func cells(t *testing.T, data []byte) map[string]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, tab := range f.GetSheetList() {
		rows, err := f.GetRows(tab, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c, v := range row {
				if v != "" {
					all[tab+"!"+address(c+1, r+1)] = v
				}
			}
		}
	}
	return all
}

func TestUpdateAddsAndTouchesNothingTyped(t *testing.T) {
	old := older(t)
	data, done, err := Update("shop.xlsx", old)
	if err != nil {
		t.Fatal(err)
	}
	f, _ := excelize.OpenReader(bytes.NewReader(data))
	refreshed := map[string]bool{}
	for _, id := range []string{"low", "value", "high", "stamp"} {
		tab, cell := place(t, f, "limit", "shelf sag", "span over", id)
		refreshed[tab+"!"+cell] = true
	}
	for _, id := range []string{"source", "stamp"} {
		tab, cell := place(t, f, "limit", "shelf", "load at most", id)
		refreshed[tab+"!"+cell] = true
	}
	now := cells(t, data)
	for at, before := range cells(t, old) {
		switch after := now[at]; {
		case refreshed[at] && after == before:
			t.Errorf("%s is still %q", at, before)
		case !refreshed[at] && after != before:
			t.Errorf("%s was %q and is %q", at, before, after)
		}
	}
	var all update
	all.book, all.present, all.tabs, all.other = &book{f: f}, map[standard.Key]bool{}, map[string]*grown{}, map[string]bool{}
	if err := all.survey(); err != nil || len(all.present) != len(standard.BuiltIn().Entries()) {
		t.Errorf("%d built-in values have a row, %v", len(all.present), err)
	}
	if v, _ := f.GetCellValue("my own", "C3"); v != "keep me" {
		t.Error("the shop's own tab is gone")
	}
	said := strings.Join(done, "\n")
	for _, want := range []string{"shelf sag, span over is now 144 1", "a newer source for shelf, load at most", "fits: 2 new rows", "cutting: 1 new rows", "doors: new tab", "jobs: new tab"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not told in:\n%s", want, said)
		}
	}
	if len(done) != 6 {
		t.Errorf("told: %s", said)
	}
	s := mustRead(t, data)
	got := s.Over(standard.BuiltIn())
	for key, want := range map[standard.Key]float64{
		{Group: "limit", Item: "shelf sag", Property: "span over"}: 180,
		{Group: "fit", Item: "snug", Property: "clearance"}:        1. / 128,
		{Group: "fit", Item: "grid", Property: "clearance"}:        .03,
		{Group: "fit", Item: "loose", Property: "clearance"}:       .0625,
	} {
		if e, _ := got.Find(key.Group, key.Item, key.Property); e.Nominal != want {
			t.Errorf("%v is %g, want %g", key, e.Nominal, want)
		}
	}
	if len(s.Problems) != 2 || !strings.Contains(s.Problems[0].Want, "typed over") || !strings.Contains(s.Problems[1].Want, "typed over") {
		t.Errorf("problems %v", s.Problems)
	}
	again, done, err := Update("shop.xlsx", data)
	if err != nil || len(done) > 0 || !bytes.Equal(again, data) {
		t.Errorf("a second update did %v, %v", done, err)
	}
}

func TestUpdateOfAFreshWorkbookDoesNothing(t *testing.T) {
	data := workbook(t, standard.BuiltIn(), Draft{}, nil)
	again, done, err := Update("shop.xlsx", data)
	if err != nil || done != nil || !bytes.Equal(again, data) {
		t.Errorf("did %v, %v", done, err)
	}
}

func TestUpdateRefusesOtherWorkbooks(t *testing.T) {
	f := excelize.NewFile()
	typeIn(t, f, "Sheet1", "A1", "Mark")
	data := saved(t, f)
	again, _, err := Update("parts.xlsx", data)
	if !errors.Is(err, ErrNoStandards) || !cmp.Equal(again, data) {
		t.Errorf("got %v", err)
	}
	if _, _, err := Update("x.xlsx", []byte("no")); err == nil || !strings.Contains(err.Error(), "not a workbook") {
		t.Errorf("got %v", err)
	}
}
