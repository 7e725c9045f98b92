package watch

import (
	"fmt"
	"path/filepath"
	"strings"
)

// RollUp is the name of the roll-up workbook at a root.
const RollUp = "dryfit roll-up.xlsx"

// IsOurs tells the name of a workbook that dryfit itself makes and never reads as a job's.
func IsOurs(name string) bool {
	name = filepath.Base(name)
	return strings.EqualFold(name, RollUp) || strings.HasSuffix(name, siblingEnd)
}

// Sibling names the workbook that takes the results when the one at path must be left alone.
func Sibling(path string) string {
	if ext := filepath.Ext(path); !strings.EqualFold(ext, ".xlsx") {
		return beside(path+ext, siblingEnd) // "a.xlsm" and "a.xlsx" must not share one
	}
	return beside(path, siblingEnd)
}

const siblingEnd = " - dryfit results.xlsx"

// beside gives path another end in place of its extension, in at most 255 bytes of name, the
// limit of the file systems we know.
func beside(path, end string) string {
	const longest = 255
	folder, name := filepath.Split(path)
	name = strings.TrimSuffix(name, filepath.Ext(name))
	if len(name)+len(end) > longest {
		sum := Sum([]byte(name))
		cut := longest - len(end) - len("~01234567")
		name = fmt.Sprintf("%s~%x", strings.ToValidUTF8(name[:cut], ""), sum[:4])
	}
	return folder + name + end
}
