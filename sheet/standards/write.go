package standards

import (
	"bytes"
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"
	"time"

	"dryfit/check/standard"

	"github.com/xuri/excelize/v2"
)

// Draft is what a workbook holds beside the values: the lists of a shop.
type Draft struct {
	Shop     string // name of the shop, for the pages' heads; may be empty
	Finishes []Code
	Words    []standard.Word
	Jobs     []Job
	Readings []Readings
}

// Code is a line of the finish list.
type Code struct {
	Code, Words        string
	Low, Nominal, High float64 // dry film on one face in mil; all 0: from the words
	Cheeks             string  // "coated", "masked" or ""
	Faces              string  // "both", "one", "none" or ""
	Note               string
}

// Job is a line of the jobs list.
type Job struct {
	Folder    string
	Active    bool
	Stage     string    // a word of check.Stage, or ""
	Cut, Ship time.Time // zero: not said
	Note      string
	From      string // "shop standards, jobs!A5"
}

// Readings is a column of the calibration tab: a value and what was measured of it.
type Readings struct {
	Group, Item, Property string
	Unit                  string
	Step                  float64 // to which it was read, in Unit
	Values                []float64
}

// headerRow is the row of the header words on every tab; a title and a sentence stand above.
const headerRow = 4

// Write makes a shop-standards workbook. Every built-in value has a row; where t differs
// from the built-in value, or has one of its own, that stands in the columns of ours.
func Write(t *standard.Table, shop Draft) ([]byte, error) {
	b, err := newBook(shop.Shop)
	if err != nil {
		return nil, fmt.Errorf("standards workbook: %w", err)
	}
	b.start()
	for _, v := range valueTabs {
		b.values(v, rowsOf(v, t, shop.Finishes))
	}
	b.list(finishTable, finishCells(shop.Finishes))
	b.list(wordTable, wordCells(shop.Words))
	b.list(jobTable, jobCells(shop.Jobs))
	b.calibration(shop.Readings)
	return b.bytes()
}

// row is one line of a value tab.
type row struct {
	built standard.Entry // zero for a value of the shop alone
	ours  standard.Entry // zero where the shop says nothing
}

func rowsOf(v valueTab, t *standard.Table, codes []Code) []row {
	var rows []row
	base := standard.BuiltIn()
	for _, e := range t.Entries() {
		if !slices.Contains(v.groups, e.Group) {
			continue
		}
		built, known := base.Find(e.Group, e.Item, e.Property)
		switch {
		case !known && isCode(codes, e):
		case !known:
			rows = append(rows, row{ours: e})
		case e == built:
			rows = append(rows, row{built: built})
		default:
			rows = append(rows, row{built: built, ours: e})
		}
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return slices.Index(v.groups, a.group()) - slices.Index(v.groups, b.group())
	})
	return rows
}

func (r row) group() string { return cmp.Or(r.built.Group, r.ours.Group) }

// isCode reports whether the entry comes from a line of the finish list.
func isCode(codes []Code, e standard.Entry) bool {
	return e.Group == "finish" && slices.ContainsFunc(codes, func(c Code) bool { return c.Code == e.Item })
}

// cells gives the line in the order of valueColumns.
func (r row) cells() []any {
	cells := make([]any, len(valueColumns))
	e := r.built
	if e.Item == "" {
		e = r.ours
	}
	for i, c := range valueColumns {
		switch c.id {
		case "kind":
			cells[i] = e.Group
		case "item":
			cells[i] = e.Item
		case "what":
			cells[i] = e.Property
		case "unit":
			cells[i] = e.Unit
		}
	}
	put := func(id string, v any) { cells[at(valueColumns, id)] = v }
	if b := r.built; b.Item != "" {
		put("low", b.Low)
		put("value", b.Nominal)
		put("high", b.High)
		put("source", b.Source)
		put("known", b.Known)
		put("note", b.Note)
		put("stamp", stamp(b))
	}
	if o := r.ours; o.Item != "" {
		put("our value", o.Nominal)
		if o.Low != o.Nominal || o.High != o.Nominal {
			put("our low", o.Low)
			put("our high", o.High)
		}
		if o.Unit != e.Unit {
			put("our unit", o.Unit)
		}
		put("why", o.Source)
		put("how", standard.KnownShop)
		if o.Known == standard.KnownMeasured {
			put("how", o.Known)
		}
		if r.built.Item == "" {
			put("note", o.Note)
		}
	}
	return cells
}

// at is the place of a column.
func at(columns []column, id string) int {
	return slices.IndexFunc(columns, func(c column) bool { return c.id == id })
}

// stamp is two short sums over the built-in cells of a row, one over unit and numbers and
// one over the words, so that a cell typed over is seen.
func stamp(e standard.Entry) string {
	return numberStamp(e.Unit, e.Low, e.Nominal, e.High) + wordStamp(e.Source, e.Known, e.Note)
}

const stampPart = 9 // letters of either half

func numberStamp(unit string, values ...float64) string {
	h := fnv.New32a()
	h.Write([]byte(unit))
	for _, v := range values {
		h.Write([]byte("|" + strconv.FormatFloat(v, 'g', -1, 64)))
	}
	return fmt.Sprintf("n%08x", h.Sum32())
}

func wordStamp(words ...string) string {
	h := fnv.New32a()
	h.Write([]byte(strings.Join(words, "|")))
	return fmt.Sprintf("w%08x", h.Sum32())
}

func finishCells(codes []Code) [][]any {
	var rows [][]any
	for _, c := range codes {
		low, nominal, high, unit := any(c.Low), any(c.Nominal), any(c.High), any("mil")
		if c.Low == 0 && c.Nominal == 0 && c.High == 0 {
			low, nominal, high, unit = nil, nil, nil, nil
		}
		rows = append(rows, []any{c.Code, c.Words, low, nominal, high, unit, text(c.Cheeks), text(c.Faces), text(c.Note)})
	}
	return rows
}

func wordCells(words []standard.Word) [][]any {
	var rows [][]any
	for _, w := range words {
		rows = append(rows, []any{w.Kind, w.Text, w.Means})
	}
	return rows
}

func jobCells(jobs []Job) [][]any {
	var rows [][]any
	for _, j := range jobs {
		active := "no"
		if j.Active {
			active = "yes"
		}
		rows = append(rows, []any{j.Folder, active, text(j.Stage), day(j.Cut), day(j.Ship), text(j.Note)})
	}
	return rows
}

// text is a cell that stays empty for no text.
func text(s string) any {
	if s == "" {
		return nil
	}
	return s
}

func day(t time.Time) any {
	if t.IsZero() {
		return nil
	}
	return t
}

// bytes ends the workbook.
func (b *book) bytes() ([]byte, error) {
	if b.err != nil {
		return nil, fmt.Errorf("standards workbook: %w", b.err)
	}
	var out bytes.Buffer
	if err := b.f.Write(&out, excelize.Options{}); err != nil {
		return nil, fmt.Errorf("standards workbook: %w", err)
	}
	return out.Bytes(), b.f.Close()
}
