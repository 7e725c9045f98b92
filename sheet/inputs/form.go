package inputs

import (
	"fmt"
	"strings"

	"dryfit/check"
)

const formName = "measure form"

// form is the page to print and write on: boxes in walking order, the turning value beside each
// that decides. The reader passes it over; what was written on it is typed into the tabs.
type form struct {
	tells    []string
	sections []section
}

// section is one table of the form.
type section struct {
	heads  [formColumns]string
	rows   []formRow
	breaks bool // on a page of its own
}

// formRow is a label, up to three boxes, and what is told beside them. With one box it takes
// the room of all three.
type formRow struct {
	label string
	boxes []part
	tells cell
}

const formColumns = 5

var formWidths = [formColumns]float64{24, 11, 11, 11, 46}

// form is what there is to measure: on the way in, in each room, and in the shop. nil where
// there is nothing.
func (s *survey) form() *form {
	f := &form{tells: []string{"Write in the boxes, then type what you wrote on the tabs carry and site: what is typed on this one is not read.",
		"Sizes in " + s.either("inches", "millimetres") + ", as the tape shows them. On the wrong side of a turning value, call the shop before you leave."}}
	if s.uncarried() {
		f.sections = append(f.sections, s.wayIn())
	}
	f.sections = append(f.sections, s.rooms()...)
	if bench := s.bench(); len(bench.rows) > 0 {
		f.sections = append(f.sections, bench)
	}
	if len(f.sections) == 0 {
		return nil
	}
	return f
}

func (s *survey) wayIn() section {
	big := s.biggest()
	sec := section{heads: [formColumns]string{"The way in", "clear width", "clear height", "length", "turning value"}}
	if big.name != "" {
		sec.heads[4] = fmt.Sprintf("turning value for %s, %s, on edge", big.name, big.size)
	}
	sec.rows = append(sec.rows, formRow{label: "Crew", boxes: []part{wanted, off, off}, tells: cell{"people who carry", told}})
	for _, st := range stops {
		sec.rows = append(sec.rows, formRow{label: st.name, boxes: []part{st.wide, st.high, st.long}, tells: cell{s.callAt(st.kind, big), call}})
	}
	return sec
}

func (s *survey) rooms() []section {
	turns := s.turnings()
	var out []section
	for _, c := range s.unmeasured() {
		sec := section{breaks: s.uncarried() || len(out) > 0,
			heads: [formColumns]string{openingName(c), "reading", "", "", "turning value, or how to write it"}}
		sec.rows = append(sec.rows, formRow{"Measured by", []part{wanted}, cell{"", told}}, formRow{"Date", []part{maybe}, cell{"", told}})
		for _, p := range points {
			tells := cell{s.either(p.inch, p.mm), told}
			if t, ok := turns[turnKey{c.Name, p.size}]; ok {
				tells = cell{t, call}
			}
			sec.rows = append(sec.rows, formRow{p.text, []part{p.part}, tells})
		}
		out = append(out, sec)
	}
	return out
}

// bench lists what can be settled in the shop: the values a VERIFY rests on, and the cells of
// the schedule that are empty.
func (s *survey) bench() section {
	sec := section{breaks: true, heads: [formColumns]string{"In the shop", "measured", "", "", "what settles it, and the cell it goes into"}}
	for _, f := range s.rep.Findings {
		if f.Accepted() || len(f.Cells) == 0 || f.Verdict != check.NotChecked && !restsOnAReading(f) {
			continue
		}
		sec.rows = append(sec.rows, formRow{f.Text, []part{wanted}, cell{fmt.Sprintf("%s  [%s]", f.Fix, goesInto(f)), told}})
	}
	return sec
}

// restsOnAReading reports whether a tape or a caliper settles a VERIFY: an engineer, a fixing or
// a thicker board fill no box.
func restsOnAReading(f *check.Finding) bool {
	if f.Verdict != check.Verify || len(f.Results) == 0 {
		return false
	}
	r := f.Results[0]
	if r.Turns != nil && r.Turns.Alone {
		return true
	}
	how := howMeasured(r)
	return strings.HasPrefix(how, "measure ") || strings.HasPrefix(how, "caliper ")
}

// howMeasured is how the input that decides a result would be measured; empty where nobody can.
func howMeasured(r *check.Result) string {
	for _, in := range r.Check.Inputs {
		if in.Symbol == r.Decides {
			return in.Measure
		}
	}
	return ""
}

// goesInto is the cell in which a reading is typed: that of the input that decides, that of the
// thickness (t in every check of a fit) for a caliper; else the cell that the finding speaks of.
func goesInto(f *check.Finding) check.Cell {
	if len(f.Results) == 0 {
		return f.Cells[0]
	}
	r := f.Results[0]
	if c := r.Row.In[r.Decides].From; c != (check.Cell{}) {
		return c
	}
	if c := r.Row.In["t"].From; c != (check.Cell{}) && strings.HasPrefix(howMeasured(r), "caliper ") {
		return c
	}
	return f.Cells[0]
}

// form writes the form as a tab of its own.
func (b *book) form(f *form) {
	_, err := b.f.NewSheet(formName)
	b.try(err)
	b.put(formName, "A1", "Measure form: "+b.job, b.look.title)
	b.try(b.f.SetRowHeight(formName, 1, 24))
	n := 1
	for _, t := range f.tells {
		n++
		b.put(formName, at(1, n), t, b.look.tells)
	}
	for i, w := range formWidths {
		b.try(b.f.SetColWidth(formName, letter(i+1), letter(i+1), w))
	}
	for i, sec := range f.sections {
		n += 2
		if i > 0 && sec.breaks {
			b.try(b.f.InsertPageBreak(formName, at(1, n)))
		}
		n = b.section(sec, n)
	}
	b.page(&tab{name: formName, columns: make([]column, formColumns)}, 0, n)
	b.passOver(formName)
}

// section writes a table from row n on and returns its last row.
func (b *book) section(sec section, n int) int {
	lines := 1
	for i, h := range sec.heads {
		b.put(formName, at(i+1, n), h, b.look.head)
		lines = max(lines, wraps(h, formWidths[i]-1))
	}
	if sec.heads[2] == "" {
		b.try(b.f.MergeCell(formName, at(2, n), at(4, n)))
	}
	b.try(b.f.SetRowHeight(formName, n, rowHeight(lines)))
	for _, r := range sec.rows {
		n++
		b.formRow(r, n)
	}
	return n
}

func (b *book) formRow(r formRow, n int) {
	b.put(formName, at(1, n), r.label, b.look.parts[told])
	for i := range 3 {
		p := r.boxes[min(i, len(r.boxes)-1)]
		b.put(formName, at(2+i, n), "", b.look.parts[p])
	}
	if len(r.boxes) == 1 {
		b.try(b.f.MergeCell(formName, at(2, n), at(4, n)))
	}
	b.put(formName, at(formColumns, n), r.tells.text, b.look.parts[r.tells.part])
	lines := max(wraps(r.label, formWidths[0]), wraps(r.tells.text, formWidths[4]))
	b.try(b.f.SetRowHeight(formName, n, max(formBox, rowHeight(lines))))
}

// formBox is the height of a box of the form in points, to write in by hand.
const formBox = 25
