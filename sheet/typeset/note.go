package typeset

import "math"

// NoteWidth is the width of the box of a note, in dots at 96 an inch.
const NoteWidth = 320

// NoteFace is the type of a note.
var NoteFace = Face{Size: 9}

// NoteHeight is how many dots the box of a note must be high to show its text whole, with two
// lines to spare.
func NoteHeight(text string) uint {
	const margin = 12 // points, at two sides together
	high := NoteFace.Height(text, NoteWidth*dot-margin) + 2*NoteFace.LineHeight() + margin
	return uint(math.Ceil(high / dot))
}
