package gate

import (
	"bytes"
	"fmt"
	"strconv"

	"dryfit/sheet/gate/scan"
)

// content watches the elements of one part for what a spreadsheet must not exceed. What kind
// of part it is, its root element says.
type content struct {
	p    *pass
	part string
	kind kind

	row, column int  // of the cell, 1 for the first
	widest      int  // column in this row
	inCell      bool // inside a cell,
	shared      bool // which holds the number of a shared string,
	inValue     bool // inside its value
	value       []byte
	strings     int
}

type kind int

const (
	other kind = iota
	sheetPart
	stringsPart
)

// Open implements scan.Watcher.
func (c *content) Open(t scan.Tag) error {
	name := scan.Local(t.Name)
	if t.Depth == 1 {
		switch string(name) {
		case "worksheet", "dialogsheet":
			c.kind = sheetPart
			c.p.sheets++
		case "chartsheet":
			c.p.sheets++
		case "sst":
			c.kind = stringsPart
		case "workbook":
			c.p.book = true
		}
		return nil
	}
	switch c.kind {
	case sheetPart:
		return c.inSheet(name, t.Attrs)
	case stringsPart:
		if t.Depth == 2 && string(name) == "si" {
			if c.strings++; c.strings > MaxStrings {
				return &Fault{"", fmt.Sprintf("more than %d shared texts", MaxStrings), splitIt}
			}
		}
	}
	return nil
}

func (c *content) inSheet(name []byte, attrs []scan.Attr) error {
	switch string(name) {
	case "row":
		return c.startRow(attrs)
	case "c":
		return c.startCell(attrs)
	case "v":
		c.inValue = c.inCell
		return c.valued()
	case "f", "is":
		return c.valued()
	}
	return nil
}

func (c *content) startRow(attrs []scan.Attr) error {
	c.endRow()
	before := c.row
	c.row++
	for _, a := range attrs {
		if string(a.Name) != "r" {
			continue
		}
		n, err := strconv.Atoi(string(a.Value))
		if err != nil || n < 1 || n > lastRow {
			return &Fault{"", fmt.Sprintf("a row numbered %.20q; a tab has rows 1 to %d", a.Value, lastRow), saveAgain}
		}
		c.row = n
	}
	if c.row > before {
		c.p.span += 2 * int64(c.row-before)
	}
	c.column = 0
	return c.spanned()
}

func (c *content) endRow() {
	c.p.span += int64(c.widest)
	c.widest = 0
}

func (c *content) spanned() error {
	if c.p.span > MaxSpan {
		return &Fault{"", fmt.Sprintf("cells are formatted or filled over an area of more than %d million cells", MaxSpan/1_000_000),
			"delete the empty rows and columns behind the table and save it again"}
	}
	return nil
}

func (c *content) startCell(attrs []scan.Attr) error {
	c.column++
	c.inCell, c.shared, c.inValue = true, false, false
	for _, a := range attrs {
		switch string(a.Name) {
		case "t":
			c.shared = string(a.Value) == "s"
		case "r":
			col, row, ok := cellRef(a.Value)
			if !ok {
				return &Fault{"", fmt.Sprintf("a cell called %.20q; cells are called A1 to XFD1048576", a.Value), saveAgain}
			}
			if row != c.row { // some programs leave the number of the row away
				c.row = max(c.row, row)
			}
			c.column = col
		}
	}
	c.widest = max(c.widest, c.column)
	return c.spanned()
}

// valued is called for a cell that holds something.
func (c *content) valued() error {
	if !c.inCell {
		return nil
	}
	if c.row > MaxRows {
		return &Fault{"", fmt.Sprintf("a value in row %d; tabs are read down to row %d", c.row, MaxRows), splitIt}
	}
	if c.column > MaxColumns {
		return &Fault{"", fmt.Sprintf("a value in column %d; tabs are read up to column %d", c.column, MaxColumns), splitIt}
	}
	return nil
}

// Text implements scan.Watcher.
func (c *content) Text(s []byte) error {
	if c.inValue && c.shared && len(c.value) < 32 {
		c.value = append(c.value, s...)
	}
	return nil
}

// Close implements scan.Watcher.
func (c *content) Close(name []byte, _, _ int64) error {
	if c.kind != sheetPart {
		return nil
	}
	switch string(scan.Local(name)) {
	case "v":
		if c.inValue && c.shared {
			return c.point()
		}
		c.inValue = false
	case "c":
		c.inCell = false
	case "row", "sheetData":
		c.endRow()
	}
	return nil
}

// point notes the shared string a cell points at.
func (c *content) point() error {
	c.inValue = false
	value := bytes.TrimSpace(c.value)
	c.value = c.value[:0]
	if len(value) == 0 {
		return nil
	}
	n, err := strconv.Atoi(string(value))
	if err != nil || n < 0 {
		return &Fault{"", fmt.Sprintf("cell %s points at text %.20q", cellName(c.row, c.column), value), saveAgain}
	}
	if far := &c.p.farString; far.part == "" || n > far.index {
		*far = farString{n, c.part, c.row, c.column}
	}
	return nil
}

func cellName(row, column int) string {
	name := ""
	for n := column; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name + strconv.Itoa(row)
}

// cellRef reads a reference such as AB12.
func cellRef(b []byte) (col, row int, ok bool) {
	i := 0
	for i < len(b) && i < 4 {
		letter := b[i] &^ 0x20
		if letter < 'A' || letter > 'Z' {
			break
		}
		col = col*26 + int(letter-'A'+1)
		i++
	}
	if i == 0 || col > lastColumn || i == len(b) || len(b)-i > 7 {
		return 0, 0, false
	}
	for _, d := range b[i:] {
		if d < '0' || d > '9' {
			return 0, 0, false
		}
		row = row*10 + int(d-'0')
	}
	return col, row, row >= 1 && row <= lastRow
}
