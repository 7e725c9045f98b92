package check

// Cell is a place in a workbook. The zero Cell is nowhere: a value that was inferred
// or built in.
type Cell struct {
	Book string `json:"book,omitempty"` // path of the workbook
	Tab  string `json:"tab,omitempty"`
	Addr string `json:"cell,omitempty"` // such as E14
}

// String prints the cell as Tab!E14, without the book.
func (c Cell) String() string {
	if c.Tab == "" {
		return c.Addr
	}
	if c.Addr == "" {
		return c.Tab
	}
	return c.Tab + "!" + c.Addr
}

// Text is what somebody typed, and where.
type Text struct {
	Text string
	From Cell
}

func (t Text) String() string { return t.Text }
