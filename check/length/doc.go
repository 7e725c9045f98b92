// Package length reads and prints the lengths a shop types: 95-1/2, 7'-6 1/2", 1 7/8 ply,
// 19 mm, 1,7 cm, 24"L x 18"W x 3/4".
//
// It knows how lengths are typed, in inches and feet, in metric, and in the words of eight
// languages. It knows no spreadsheet, no part and no rule; whether a length is sensible for
// a shelf is for others to say.
//
// Nothing is guessed in silence. A text is read in one way, or it is refused with an [Error]
// that says why, or it is read with a Doubt and every other reading beside the likeliest.
// A bare number has the unit of its [Context]; where the context says none either, the unit
// stays [Unsaid] and [Length.In] raises the doubt.
package length
