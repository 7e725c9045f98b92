package standards

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"dryfit/check/standard"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"
)

// workbook writes a standards workbook and lets edit type into it.
func workbook(t *testing.T, table *standard.Table, shop Draft, edit func(f *excelize.File)) []byte {
	t.Helper()
	data, err := Write(table, shop)
	if err != nil {
		t.Fatal(err)
	}
	if edit == nil {
		return data
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	edit(f)
	return saved(t, f)
}

func saved(t *testing.T, f *excelize.File) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func typeIn(t *testing.T, f *excelize.File, tab, cell string, v any) {
	t.Helper()
	if err := f.SetCellValue(tab, cell, v); err != nil {
		t.Fatal(err)
	}
}

// place finds a cell of a value tab by the three words of its row and the column's id.
func place(t *testing.T, f *excelize.File, group, item, property, id string) (tab, cell string) {
	t.Helper()
	for _, v := range valueTabs {
		if !slices.Contains(v.groups, group) {
			continue
		}
		rows, err := f.GetRows(v.name)
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range rows {
			if len(r) > 2 && r[0] == group && r[1] == item && r[2] == property {
				return v.name, address(at(valueColumns, id)+1, i+1)
			}
		}
	}
	t.Fatalf("no row for %s, %s, %s", group, item, property)
	return "", ""
}

func mustRead(t *testing.T, data []byte) Standards {
	t.Helper()
	s, err := Read("shop.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// fresh is a workbook as written, cell by cell, for tests that type many things in turn.
var fresh = sync.OnceValue(func() map[string][][]string {
	tabs := map[string][][]string{}
	data, err := Write(standard.BuiltIn(), Draft{})
	if err != nil {
		panic(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		panic(err)
	}
	for _, tab := range f.GetSheetList() {
		if tabs[tab], err = f.GetRows(tab, excelize.Options{RawCellValue: true}); err != nil {
			panic(err)
		}
	}
	return tabs
})

// typed reads a fresh tab with some cells typed into it.
func typed(t *testing.T, tab string, cells map[string]any) Standards {
	t.Helper()
	var rows [][]string
	for _, r := range fresh()[tab] {
		rows = append(rows, append(slices.Clone(r), make([]string, len(valueColumns))...))
	}
	for range 3 {
		rows = append(rows, make([]string, 2*len(valueColumns)))
	}
	for cell, v := range cells {
		col, row, err := excelize.CellNameToCoordinates(cell)
		if err != nil {
			t.Fatal(err)
		}
		rows[row-1][col-1] = fmt.Sprint(v)
	}
	s, ok := ReadRows("shop", "shop.xlsx", tab, rows)
	if !ok {
		t.Fatalf("tab %s is not known any more", tab)
	}
	return s
}

// rowOf finds the row of a value in a fresh workbook.
func rowOf(t *testing.T, group, item, property string) (tab string, row int) {
	t.Helper()
	for _, v := range valueTabs {
		for i, r := range fresh()[v.name] {
			if len(r) > 2 && r[0] == group && r[1] == item && r[2] == property {
				return v.name, i + 1
			}
		}
	}
	t.Fatalf("no row for %s, %s, %s", group, item, property)
	return "", 0
}

func TestAFreshWorkbookSaysNothingOfItsOwn(t *testing.T) {
	s := mustRead(t, workbook(t, standard.BuiltIn(), Draft{}, nil))
	if len(s.Entries)+len(s.Words)+len(s.Jobs)+len(s.Notes)+len(s.Problems) > 0 {
		t.Errorf("read %+v", s)
	}
	kinds := map[string]int{}
	for _, tab := range s.Tabs {
		kinds[tab.Kind]++
	}
	want := map[string]int{"values": len(valueTabs), finishTab: 1, wordsTab: 1, jobsTab: 1, measureTab: 1}
	if d := cmp.Diff(want, kinds); d != "" {
		t.Error(d)
	}
}

// Every built-in value has a row where the shop can type, and what it types there is what
// is read: over the whole table.
func TestWriteReadEqual(t *testing.T) {
	var over []standard.Entry
	for i, e := range standard.BuiltIn().Entries() {
		e.Low, e.Nominal, e.High = e.Low*1.01, e.Nominal*1.01, e.High*1.01
		e.Source, e.Known = fmt.Sprintf("reading %d", i), standard.KnownShop
		if i%3 == 0 {
			e.Known = standard.KnownMeasured
		}
		over = append(over, e)
	}
	own := []standard.Entry{
		{Group: "material", Item: "okume from the yard", Property: "density", Low: 27, Nominal: 28, High: 29, Unit: "lb/ft3", Source: "our scale", Known: standard.KnownMeasured, Note: "four offcuts"},
		{Group: "thickness", Item: "MDF", Property: "11/16 in", Low: .68, Nominal: .6875, High: .69, Unit: "in", Source: "our board", Known: standard.KnownShop},
		{Group: "fit", Item: "grid", Property: "clearance", Low: .5, Nominal: .75, High: 1, Unit: "mm", Source: "house", Known: standard.KnownShop},
	}
	draft := Draft{
		Shop:     "Sample & Daughters",
		Finishes: []Code{{Code: "H1", Words: "primer 1 + top 2, slots not masked", Low: 3, Nominal: 4, High: 5, Cheeks: "masked", Faces: "one", Note: "gun 3"}, {Code: "N", Words: "none"}},
		Words:    []standard.Word{{Kind: "material", Text: "GRN", Means: "3/4 MDF"}, {Kind: "header", Text: "Stk", Means: "quantity"}, {Kind: "folder", Text: "old", Means: "not active"}},
		Jobs:     []Job{{Folder: "stair landing", Stage: "shipped", Cut: time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), Note: "done"}, {Folder: "attic", Active: true, Ship: time.Date(2027, 1, 31, 0, 0, 0, 0, time.UTC)}},
	}
	table := standard.BuiltIn().With(over).With(own)
	s := mustRead(t, workbook(t, table, draft, nil))
	if len(s.Problems) > 0 {
		t.Fatalf("%d problems, the first: %v", len(s.Problems), s.Problems[0])
	}
	got := s.Over(standard.BuiltIn())
	for _, want := range append(over, own...) {
		e, ok := got.Find(want.Group, want.Item, want.Property)
		if !ok || e.From == "built in" || !strings.HasPrefix(e.From, "shop standards, ") {
			t.Errorf("%v: %v, from %q", want.Key(), ok, e.From)
			continue
		}
		e.From = want.From
		if d := cmp.Diff(want, e, cmpopts.EquateApprox(1e-13, 0)); d != "" { // a spreadsheet keeps 15 digits
			t.Errorf("%v: %s", want.Key(), d)
		}
	}
	if want := len(over) + len(own) + 3; len(s.Entries) != want { // H1: film, cheeks, faces
		t.Errorf("%d entries, want %d", len(s.Entries), want)
	}
	f, ok, _ := got.Finish("h1")
	if !ok || f.Film.Nominal != 4 || f.Cheeks.Nominal != 0 || f.Faces.Nominal != 1 || f.Kind != "paint" {
		t.Errorf("H1 is %+v", f)
	}
	wantWords := append([]standard.Word{{Kind: "finish", Text: "H1", Means: draft.Finishes[0].Words}, {Kind: "finish", Text: "N", Means: "none"}}, draft.Words...)
	for i := range s.Words {
		s.Words[i].From = ""
	}
	if d := cmp.Diff(wantWords, s.Words); d != "" {
		t.Error(d)
	}
	for i := range s.Jobs {
		if s.Jobs[i].From != fmt.Sprintf("shop standards, jobs!A%d", 5+i) {
			t.Errorf("job from %s", s.Jobs[i].From)
		}
		s.Jobs[i].From = ""
	}
	if d := cmp.Diff(draft.Jobs, s.Jobs); d != "" {
		t.Error(d)
	}
}

func TestAnotherUnitIsWrittenAndReadBack(t *testing.T) {
	mm := standard.Entry{Group: "opening", Item: "case", Property: "clearance per side", Low: 2, Nominal: 3, High: 5, Unit: "mm", Source: "house", Known: standard.KnownShop}
	s := mustRead(t, workbook(t, standard.BuiltIn().With([]standard.Entry{mm}), Draft{}, nil))
	if len(s.Entries) != 1 || len(s.Problems) > 0 {
		t.Fatalf("%+v %v", s.Entries, s.Problems)
	}
	back, err := s.Entries[0].In("mm")
	if off := math.Abs(back.Low-2) + math.Abs(back.Nominal-3) + math.Abs(back.High-5); err != nil || off > 1e-12 {
		t.Errorf("got %+v, %v", back, err)
	}
}

// What the working says of a value names the very cell that holds it.
func TestFromNamesTheCell(t *testing.T) {
	data := workbook(t, standard.BuiltIn(), Draft{}, func(f *excelize.File) {
		tab, cell := place(t, f, "crew", "per head", "level", "our value")
		typeIn(t, f, tab, cell, 45)
	})
	s := mustRead(t, data)
	if len(s.Entries) != 1 {
		t.Fatalf("read %+v", s.Entries)
	}
	e := s.Entries[0]
	f, _ := excelize.OpenReader(bytes.NewReader(data))
	tab, cell, _ := strings.Cut(strings.TrimPrefix(e.From, "shop standards, "), "!")
	if v, err := f.GetCellValue(tab, cell); err != nil || v != "45" {
		t.Errorf("%s holds %q, %v", e.From, v, err)
	}
	if e.Low != 45 || e.High != 45 || e.Unit != "lb" || e.Guessed() {
		t.Errorf("a lone value is exact: %+v", e)
	}
}

func cellIn(row int, id string) string { return address(at(valueColumns, id)+1, row) }

// inRow turns columns into cells of a row.
func inRow(row int, columns map[string]any) map[string]any {
	cells := map[string]any{}
	for id, v := range columns {
		cells[cellIn(row, id)] = v
	}
	return cells
}

func TestHowAValueMayBeTyped(t *testing.T) {
	for _, c := range []struct {
		name              string
		typed             map[string]any // by column
		low, nominal, top float64
	}{
		{"a fraction", map[string]any{"our value": "3/16"}, .1875, .1875, .1875},
		{"another unit in the cell", map[string]any{"our value": "5 mm"}, 5 / 25.4, 5 / 25.4, 5 / 25.4},
		{"another unit beside it", map[string]any{"our value": 5, "our unit": "mm"}, 5 / 25.4, 5 / 25.4, 5 / 25.4},
		{"a range", map[string]any{"our low": .1, "our value": .15, "our high": .2}, .1, .15, .2},
		{"two ends", map[string]any{"our low": .1, "our high": .2}, .1, .15, .2},
		{"one end", map[string]any{"our value": .15, "our high": .2}, .15, .15, .2},
	} {
		tab, row := rowOf(t, "opening", "case", "clearance per side")
		s := typed(t, tab, inRow(row, c.typed))
		if len(s.Entries) != 1 || len(s.Problems) > 0 {
			t.Errorf("%s: %+v %v", c.name, s.Entries, s.Problems)
			continue
		}
		e := s.Entries[0]
		off := math.Abs(e.Low-c.low) + math.Abs(e.Nominal-c.nominal) + math.Abs(e.High-c.top)
		if off > 1e-12 || e.Unit != "in" {
			t.Errorf("%s: %+v", c.name, e)
		}
	}
}

func TestCellsThatMakeNoSenseAreNamed(t *testing.T) {
	type row struct{ group, item, property string }
	cut, film, share := row{"cutting", "saw", "kerf"}, row{"finish", "paint", "film"}, row{"finish", "paint", "cheek share"}
	for _, c := range []struct {
		name  string
		row   row
		typed map[string]any
		at    string
		want  string
	}{
		{"not a number", cut, map[string]any{"our value": "3/4ish"}, "our value", "a number or a length wanted"},
		{"below zero", cut, map[string]any{"our value": -0.125}, "our value", "not below zero"},
		{"millimetres in inches", cut, map[string]any{"our value": 3.2}, "our value", `with the unit "mm"`},
		{"inches in mils", film, map[string]any{"our value": 0.004}, "our value", `with the unit "in"`},
		{"percent as a share", share, map[string]any{"our value": 60}, "our value", `with the unit "%"`},
		{"a fraction made a date", cut, map[string]any{"our value": 46085}, "our value", "made a date"},
		{"a unit of something else", film, map[string]any{"our value": 4, "our unit": "psi"}, "our unit", "a unit of length wanted, such as mil"},
		{"no unit at all", film, map[string]any{"our value": 4, "our unit": "coats"}, "our unit", "a unit wanted, one of"},
		{"a unit of something else in the cell", film, map[string]any{"our value": "4 psi"}, "our value", "a value in mil wanted"},
		{"low over value", film, map[string]any{"our low": 5, "our value": 4}, "our low", "rising order"},
		{"value over high", film, map[string]any{"our value": 4, "our high": 3}, "our high", "rising order"},
		{"only low", film, map[string]any{"our low": 4}, "our value", "a value wanted beside low or high"},
		{"the high alone is far", film, map[string]any{"our value": 4, "our high": 400}, "our high", "far outside the built-in 2.5 to 6 mil"},
		{"a step of nothing", row{"cutting", "inch", "step"}, map[string]any{"our value": 0}, "our value", "above zero"},
		{"typed over the built-in", film, map[string]any{"value": 4.5}, "value", "your own goes in I"},
		{"a word over the built-in", film, map[string]any{"low": "thin"}, "low", "your own goes in I"},
		{"an unknown kind", film, map[string]any{"kind": "finnish", "our value": 4}, "kind", "a kind wanted, one of: material"},
		{"the item wiped", film, map[string]any{"item": "", "our value": 4}, "item", "the name of a value wanted"},
		{"the property wiped", film, map[string]any{"what": "", "our value": 4}, "what", "the name of a value wanted"},
	} {
		tab, at := rowOf(t, c.row.group, c.row.item, c.row.property)
		s := typed(t, tab, inRow(at, c.typed))
		want := cellIn(at, c.at)
		if len(s.Problems) != 1 || s.Problems[0].Tab != tab || s.Problems[0].Cell != want || !strings.Contains(s.Problems[0].Want, c.want) {
			t.Errorf("%s: got %v, want %s!%s: %s", c.name, s.Problems, tab, want, c.want)
			continue
		}
		if len(s.Entries) > 0 {
			t.Errorf("%s: the cell is used all the same: %+v", c.name, s.Entries)
		}
		if text := s.Problems[0].Error(); !strings.HasPrefix(text, "shop.xlsx, tab "+tab+", "+want+": read ") {
			t.Errorf("%s: %s", c.name, text)
		}
	}
}

// Over the whole table: a number a thousand times too big, and a unit of another kind, are
// each named by their cell.
func TestSlipsAreNamedInEveryRow(t *testing.T) {
	type slip struct{ tab, cell string }
	for name, put := range map[string]func(e standard.Entry) (id string, typed map[string]any){
		"number": func(e standard.Entry) (string, map[string]any) {
			return "our value", map[string]any{"our value": 1000 * math.Max(math.Abs(e.High), math.Abs(e.Low))}
		},
		"unit": func(e standard.Entry) (string, map[string]any) {
			other := "psi"
			if m, _ := standard.Measures(e.Unit); m == "pressure" {
				other = "in"
			}
			return "our unit", map[string]any{"our value": e.Nominal, "our unit": other}
		},
	} {
		var want, got []slip
		used := 0
		for _, v := range valueTabs {
			cells := map[string]any{}
			for i, r := range rowsOf(v, standard.BuiltIn(), nil) {
				if r.built.High == 0 && r.built.Low == 0 { // nothing but zero is built in: no scale
					continue
				}
				id, columns := put(r.built)
				maps.Copy(cells, inRow(headerRow+1+i, columns))
				want = append(want, slip{v.name, cellIn(headerRow+1+i, id)})
			}
			s := typed(t, v.name, cells)
			used += len(s.Entries)
			for _, p := range s.Problems {
				got = append(got, slip{p.Tab, p.Cell})
			}
		}
		if d := cmp.Diff(want, got, cmp.AllowUnexported(slip{})); d != "" || len(want) < 1000 || used > 0 {
			t.Errorf("%s: %d named of %d, %d used: %.2000s", name, len(got), len(want), used, d)
		}
	}
}

// A job's own tab: plain columns, anywhere on a tab, beside tabs of other kinds.
func TestAJobsOwnStandards(t *testing.T) {
	f := excelize.NewFile()
	rows := [][]any{
		{"For this job only"},
		{},
		{nil, "Item", "What", "Value", "Unit", "Why ours"},
		{nil, "Crew", "people", 3, nil, "two helpers from the attic job"},
		{nil, "paint", "film", "5", "mil"},
		{},
		{nil, "no such thing", "film", 1, "mil"},
		{nil, "shelf sag", "span over", 200},
	}
	for i, r := range rows {
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &r); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.NewSheet("Parts"); err != nil {
		t.Fatal(err)
	}
	typeIn(t, f, "Parts", "A1", "Mark")
	s, err := ReadJob("hall/parts.xlsx", saved(t, f))
	if err != nil {
		t.Fatal(err)
	}
	shop := standard.BuiltIn().With([]standard.Entry{{Group: "crew", Item: "crew", Property: "people", Low: 4, Nominal: 4, High: 4, Unit: "1", Source: "x", Known: standard.KnownShop}})
	job := s.Over(shop)
	for _, c := range []struct {
		group, item, property string
		want                  float64
		from                  string
	}{
		{"crew", "crew", "people", 3, "job standards, Sheet1!D4"},
		{"finish", "paint", "film", 5, "job standards, Sheet1!D5"},
		{"limit", "shelf sag", "span over", 200, "job standards, Sheet1!D8"},
	} {
		if e, _ := job.Find(c.group, c.item, c.property); e.Nominal != c.want || e.From != c.from {
			t.Errorf("%s is %g from %q, want %g from %q", e.Name(), e.Nominal, e.From, c.want, c.from)
		}
	}
	if len(s.Problems) != 1 || s.Problems[0].Cell != "B7" || !strings.Contains(s.Problems[0].Want, "a kind wanted for no such thing, film") {
		t.Errorf("problems %v", s.Problems)
	}
	if want := []Tab{{"Sheet1", "values", "B3", 3}}; !slices.Equal(s.Tabs, want) {
		t.Errorf("tabs %+v", s.Tabs)
	}
	raw, err := f.GetRows("Sheet1", excelize.Options{RawCellValue: true})
	again, ok := ReadRows("job", "hall/parts.xlsx", "Sheet1", raw)
	if err != nil || !ok || !cmp.Equal(again.Entries, s.Entries) {
		t.Errorf("read by rows: %v %+v", ok, again.Entries)
	}
}

func TestWorkbooksThatHoldNoStandards(t *testing.T) {
	f := excelize.NewFile()
	typeIn(t, f, "Sheet1", "A1", "Mark")
	typeIn(t, f, "Sheet1", "B1", "Item")
	if _, err := Read("parts.xlsx", saved(t, f)); !errors.Is(err, ErrNoStandards) || !strings.HasPrefix(err.Error(), "parts.xlsx: ") {
		t.Errorf("got %v", err)
	}
	if _, err := Read("parts.xlsx", []byte("mark,qty")); err == nil || !strings.Contains(err.Error(), "parts.xlsx: not a workbook") {
		t.Errorf("got %v", err)
	}
}

func TestListCellsThatMakeNoSenseAreNamed(t *testing.T) {
	for _, c := range []struct {
		tab   string
		cells map[string]any
		at    string
		want  string
	}{
		{wordsTab, map[string]any{"A5": "colour", "B5": "x", "C5": "y"}, "A5", "a kind of word wanted"},
		{wordsTab, map[string]any{"A5": "header", "C5": "quantity"}, "B5", "the word wanted"},
		{wordsTab, map[string]any{"A5": "role", "B5": "stnd"}, "C5", `what "stnd" stands for wanted`},
		{wordsTab, map[string]any{"A5": "material", "B5": "GRN", "C5": "particelboard"}, "C5", "perhaps particleboard"},
		{wordsTab, map[string]any{"A5": "finish", "B5": "K", "C5": "lacquerd"}, "C5", "perhaps clear"},
		{wordsTab, map[string]any{"A5": "folder", "B5": "done", "C5": "gone"}, "C5", "not active or a stage wanted"},
		{finishTab, map[string]any{"B5": "paint"}, "A5", "the code wanted"},
		{finishTab, map[string]any{"A5": "P9"}, "B5", "the coats in words wanted, or the film"},
		{finishTab, map[string]any{"A5": "P9", "B5": "chrome plate"}, "B5", "a finish wanted that is known"},
		{finishTab, map[string]any{"A5": "P9", "B5": "paint", "D5": 0.004}, "", ""},
		{finishTab, map[string]any{"A5": "P9", "B5": "paint", "D5": 400}, "D5", "far outside"},
		{finishTab, map[string]any{"A5": "P9", "B5": "paint", "G5": "sometimes"}, "G5", "coated, masked"},
		{jobsTab, map[string]any{"B5": "yes"}, "A5", "the name of the job's folder wanted"},
		{jobsTab, map[string]any{"A5": "attic", "B5": "perhaps"}, "B5", "yes or no wanted"},
		{jobsTab, map[string]any{"A5": "attic", "C5": "nearly"}, "C5", "a stage wanted: quoted"},
		{jobsTab, map[string]any{"A5": "attic", "D5": "soon"}, "D5", "a date wanted"},
		{jobsTab, map[string]any{"A5": "attic", "D5": "3/4/2026"}, "D5", "a date wanted"},
		{jobsTab, map[string]any{"A5": "attic", "D5": "2026-04-03"}, "", ""},
	} {
		s := typed(t, c.tab, c.cells)
		if c.at == "" {
			if len(s.Problems) > 0 {
				t.Errorf("%v: %v", c.cells, s.Problems)
			}
			continue
		}
		if len(s.Problems) != 1 || s.Problems[0].Tab != c.tab || s.Problems[0].Cell != c.at || !strings.Contains(s.Problems[0].Want, c.want) {
			t.Errorf("%v: got %v, want %s: %s", c.cells, s.Problems, c.at, c.want)
		}
	}
}

func TestWhichJobsAreActive(t *testing.T) {
	s := mustRead(t, workbook(t, standard.BuiltIn(), Draft{
		Words: []standard.Word{{Kind: "folder", Text: "OLD", Means: "not active"}, {Kind: "folder", Text: "sent", Means: "shipped"}},
		Jobs:  []Job{{Folder: "Attic", Active: false, Stage: "finished"}, {Folder: "old mill", Active: true}},
	}, nil))
	for folder, want := range map[string]Job{
		"attic":           {Folder: "Attic", Active: false, Stage: "finished"},
		"old mill":        {Folder: "old mill", Active: true},
		"stairs_old":      {Folder: "stairs_old", Active: false},
		"Golden room":     {Folder: "Golden room", Active: true},
		"porch (sent)":    {Folder: "porch (sent)", Active: true, Stage: "shipped"},
		"anything at all": {Folder: "anything at all", Active: true},
	} {
		got := s.Job(folder)
		got.From = ""
		if got != want {
			t.Errorf("%s is %+v, want %+v", folder, got, want)
		}
	}
}

func TestNothingIsProtectedAndValuesHoldNoFormula(t *testing.T) {
	data := workbook(t, standard.BuiltIn(), Draft{}, nil)
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for _, tab := range f.GetSheetList() {
		part, _ := f.Pkg.Load("xl/worksheets/sheet" + fmt.Sprint(slices.Index(f.GetSheetList(), tab)+1) + ".xml")
		text := string(part.([]byte))
		if strings.Contains(text, "<sheetProtection") {
			t.Errorf("%s is protected", tab)
		}
		if tab != measureTab && strings.Contains(text, "<f>") {
			t.Errorf("%s holds a formula", tab)
		}
		if !strings.Contains(text, `fitToPage="true"`) || !strings.Contains(text, `orientation="landscape"`) {
			t.Errorf("%s does not print one page wide", tab)
		}
	}
}
