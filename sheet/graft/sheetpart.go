package graft

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
)

// sheetWriter rewrites one of our sheet parts: numbers of formats become those of the host,
// shared strings become inline ones, no tab is selected that was not.
//
// It reads what excelize writes: double quotes around values and no ">" in them.
type sheetWriter struct {
	g        *grafting
	selected bool
	src, out []byte
	at       int // src is copied up to here
}

func (w *sheetWriter) rewrite(src []byte) ([]byte, error) {
	src = sortColumns(src)
	w.src, w.out = src, make([]byte, 0, len(src)+len(src)/16+512)
	for i := 0; ; {
		lt := bytes.IndexByte(src[i:], '<')
		if lt < 0 || i+lt+1 == len(src) {
			break
		}
		lt += i
		i = lt + 1
		switch src[i] {
		case 'c', 'r', 's', 'p', 'd': // what else there is, mostly <v>, <t> and end tags, stays
		default:
			continue
		}
		n := bytes.IndexByte(src[lt:], '>')
		if n < 0 {
			return nil, fmt.Errorf("sheet part: a tag has no end")
		}
		i = lt + n + 1
		if err := w.tag(lt, i); err != nil {
			return nil, err
		}
	}
	return append(w.out, src[w.at:]...), nil
}

// tag edits the start tag src[from:to] where it is one that holds numbers of the workbook.
func (w *sheetWriter) tag(from, to int) error {
	tag := w.src[from:to]
	switch name := tagName(tag); string(name) {
	case "c":
		if err := w.mapAttr(tag, from, ` s="`, w.g.styles.format); err != nil {
			return err
		}
		return w.inline(tag, from, to)
	case "row":
		return w.mapAttr(tag, from, ` s="`, w.g.styles.format)
	case "col":
		return w.mapAttr(tag, from, ` style="`, w.g.styles.format)
	case "cfRule", "colorFilter", "sortCondition":
		return w.mapAttr(tag, from, ` dxfId="`, w.g.styles.conditional)
	case "sheetView":
		w.view(tag, from)
	case "pane":
		w.pane(tag, to)
	case "dimension":
		w.dimension(tag, from, to)
	}
	return nil
}

// sortColumns puts the <col> elements in the order of the columns; the library writes those
// with a format before those with a width, and a spreadsheet program may call that damage.
func sortColumns(src []byte) []byte {
	from := bytes.Index(src, []byte("<cols>"))
	if from < 0 {
		return src
	}
	from += len("<cols>")
	n := bytes.Index(src[from:], []byte("</cols>"))
	if n < 0 {
		return src
	}
	cols := bytes.SplitAfter(src[from:from+n], []byte("<col "))
	if len(cols) < 3 {
		return src
	}
	cols = cols[1:] // what stands before the first
	first := func(col []byte) int {
		i, j, ok := value(append([]byte(" "), col...), ` min="`)
		if !ok {
			return 0
		}
		return number(string(col[i-1:j-1]), 0)
	}
	for i := range cols {
		cols[i] = bytes.TrimSuffix(cols[i], []byte("<col "))
	}
	order := func(a, b []byte) int { return cmp.Compare(first(a), first(b)) }
	if slices.IsSortedFunc(cols, order) {
		return src
	}
	slices.SortStableFunc(cols, order)
	out := append(make([]byte, 0, len(src)), src[:from]...)
	for _, col := range cols {
		out = append(append(out, "<col "...), col...)
	}
	return append(out, src[from+n:]...)
}

func tagName(tag []byte) []byte {
	for i := 1; i < len(tag); i++ {
		if c := tag[i]; c == ' ' || c == '>' || c == '/' && i > 1 {
			return tag[1:i]
		}
	}
	return nil
}

// value finds an attribute by its blank, name and opening quote, and returns where its value
// stands in the tag.
func value(tag []byte, opening string) (from, to int, ok bool) {
	i := bytes.Index(tag, []byte(opening))
	if i < 0 {
		return 0, 0, false
	}
	from = i + len(opening)
	n := bytes.IndexByte(tag[from:], '"')
	return from, from + n, n >= 0
}

// replace puts text in the place of src[from:to].
func (w *sheetWriter) replace(from, to int, text string) {
	w.out = append(w.out, w.src[w.at:from]...)
	w.out = append(w.out, text...)
	w.at = to
}

func (w *sheetWriter) mapAttr(tag []byte, at int, opening string, of func(int) (int, error)) error {
	from, to, ok := value(tag, opening)
	if !ok {
		return nil
	}
	old, err := strconv.Atoi(string(tag[from:to]))
	if err != nil {
		return fmt.Errorf("sheet part: %q is no number of a format", tag[from:to])
	}
	id, err := of(old)
	if err != nil {
		return err
	}
	if id != old {
		w.replace(at+from, at+to, strconv.Itoa(id))
	}
	return nil
}

// inline turns a cell that points at a shared string into one that holds it.
func (w *sheetWriter) inline(tag []byte, from, to int) error {
	if len(w.g.tabs.strings) == 0 {
		return nil
	}
	i, j, ok := value(tag, ` t="`)
	if !ok || string(tag[i:j]) != "s" {
		return nil
	}
	index, rest, ok := bytes.Cut(w.src[to:], []byte("</v>"))
	index, isValue := bytes.CutPrefix(index, []byte("<v>"))
	n, err := strconv.Atoi(string(index))
	if !ok || !isValue || err != nil || n < 0 || n >= len(w.g.tabs.strings) {
		return fmt.Errorf("sheet part: a cell points at shared string %.20q of %d", index, len(w.g.tabs.strings))
	}
	w.replace(from+i, from+j, "inlineStr")
	w.replace(to, len(w.src)-len(rest), "<is>"+w.g.tabs.strings[n]+"</is>")
	return nil
}

// view takes the selection of the tab away, unless the user left the workbook on it: two
// selected tabs are edited together.
func (w *sheetWriter) view(tag []byte, at int) {
	put := ""
	if w.selected {
		put = ` tabSelected="1"`
	}
	const opening = ` tabSelected="`
	if from, to, ok := value(tag, opening); ok {
		w.replace(at+from-len(opening), at+to+1, put)
	} else if put != "" {
		w.replace(at+len("<sheetView"), at+len("<sheetView"), put)
	}
}

// dimension takes the element away: the StreamWriter always says A1, and some readers believe it.
func (w *sheetWriter) dimension(tag []byte, from, to int) {
	if !bytes.HasSuffix(tag, []byte("/>")) {
		to += len("</dimension>")
	}
	w.replace(from, to, "")
}

// pane adds the selection that spreadsheet programs write into each frozen pane.
func (w *sheetWriter) pane(tag []byte, to int) {
	after := to
	if !bytes.HasSuffix(tag, []byte("/>")) {
		after = to + len("</pane>")
	}
	if after > len(w.src) || bytes.HasPrefix(w.src[after:], []byte("<selection")) {
		return
	}
	active := "topLeft"
	if from, to, ok := value(tag, ` activePane="`); ok {
		active = string(tag[from:to])
	}
	cell := "A1"
	if from, to, ok := value(tag, ` topLeftCell="`); ok {
		cell = string(tag[from:to])
	}
	w.replace(after, after, `<selection pane="`+active+`" activeCell="`+cell+`" sqref="`+cell+`"/>`)
}
