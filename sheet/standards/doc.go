// Package standards is the shop-standards workbook: it writes one with every built-in value
// and room for the shop's own, reads back what the shop typed, and adds what a newer version
// brings without touching it. A standards tab in any other workbook is read by its header
// words in the same way.
//
// It knows cells and no rule: what a value means, and whether it makes sense beside the
// built-in one, is asked of check/standard.
package standards
