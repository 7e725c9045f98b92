package part

import (
	"strconv"
	"strings"
)

// Limits of a tab (ECMA-376 Part 1 gives none; these are those of the file format in use).
const (
	MostRows    = 1 << 20
	MostColumns = 1 << 14
	MostHeight  = 409 // points, of a row
)

// AppendColumn appends the letters of a column, the first of which is 1.
func AppendColumn(b []byte, n int) []byte {
	at := len(b)
	for ; n > 0; n = (n - 1) / 26 {
		b = append(b, byte('A'+(n-1)%26))
	}
	for i, j := at, len(b)-1; i < j; i, j = i+1, j-1 {
		b[i], b[j] = b[j], b[i]
	}
	return b
}

// Cell is an address such as E14; column and row count from 1.
func Cell(column, row int) string {
	var room [16]byte
	return string(strconv.AppendInt(AppendColumn(room[:0], column), int64(row), 10))
}

// ParseCell reads an address such as E14 or $E$14; ok is false for anything else.
func ParseCell(s string) (column, row int, ok bool) {
	s = strings.ReplaceAll(s, "$", "")
	i := 0
	for ; i < len(s) && s[i] >= 'A' && s[i] <= 'Z'; i++ {
		column = column*26 + int(s[i]-'A') + 1
		if column > MostColumns {
			return 0, 0, false
		}
	}
	row, err := strconv.Atoi(s[i:])
	if i == 0 || err != nil || row < 1 || row > MostRows || s[i] == '+' {
		return 0, 0, false
	}
	return column, row, true
}
