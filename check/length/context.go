package length

// Context is what is known about a cell besides its text.
type Context struct {
	// Unit is that of a bare number: from the header, the title block, the number format
	// or the neighbours. Unsaid where nobody says.
	Unit Unit
	// Decimal is how the workbook marks decimals, where that is known.
	Decimal Mark
	// Plain switches off the readings of the lumber yard: with it a bare 2x4 is two by
	// four and 5/4 is one and a quarter, without doubt.
	Plain bool
	// What names the thing wanted, for messages: "a thickness". Empty: "a length".
	What string
}

// Mark is the sign before the decimals.
type Mark int

// Either means that nobody knows which decimal mark the workbook uses.
const (
	Either Mark = iota
	Point
	Comma
)
