// Package watch takes care of the files of a root of job folders: it says which of them are
// workbooks to be looked at, when a folder has settled, who has a workbook open, and it puts a
// new file in place of an old one whole or not at all. It knows what stands in no workbook, and
// no rule of the trade.
package watch
