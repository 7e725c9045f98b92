// Package phrase reads the short lines that offices type beside a part schedule: "18,
// 36-3/4, bal.", "1/4 out at top", "3 screws #8 x 2 in", "side + shelf + side = niche",
// "Rm dr 29 1/2 x 78".
//
// It knows words in eight languages, and what a line of them says. It knows no workbook
// and no table: a line comes in as a text, and what it says goes out without a cell. What
// a line says beyond that is handed back, for somebody to name as unread.
package phrase
