// Package read turns the workbooks an office keeps into a job: it finds the tables in each
// tab, says which column is what, and hands every row over as a part, with the cell behind
// each value. It knows layouts, words and number formats. It knows no rule of the trade
// beyond what a word means, and it never writes.
//
// Nothing that stands in a table is lost in silence: a cell is used by some field, or it is
// named as unread with its text and a reason.
package read
