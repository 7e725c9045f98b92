package watch

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"
	"unicode/utf16"

	"dryfit/watch/disk"
)

// staleAfter is the age at which the sign of an open workbook looks left behind by a crash.
const staleAfter = 24 * time.Hour

// OpenBy tells whether a program has the workbook at path open, and says in words who it is:
// `"Ann Example" on desk-2`. The signs are the owner files that spreadsheet programs lay beside
// a workbook and, on Windows, that it cannot be opened alone. An owner file may have outlived
// its program; over a day old the words say that it looks stale, and it counts all the same:
// only a person can tell, and only a person removes it.
func OpenBy(path string) (holder string, open bool) {
	for _, sign := range signs(path) {
		fi, err := os.Lstat(sign.file)
		if err != nil || fi.IsDir() {
			continue
		}
		holder := sign.read(head(sign.file))
		if holder == "" {
			holder = "somebody"
		}
		if age := time.Since(fi.ModTime()); age > staleAfter {
			holder += fmt.Sprintf(" (the sign %q is %d hours old and looks stale; if nobody has the workbook open, delete it)",
				filepath.Base(sign.file), int(age.Hours()))
		}
		return holder, true
	}
	if err := disk.Held(path); errors.Is(err, disk.ErrBusy) {
		return "a program on this computer or on the network", true
	}
	return "", false
}

type sign struct {
	file string
	read func([]byte) string
}

func signs(path string) []sign {
	folder, name := filepath.Split(path)
	list := []sign{
		{folder + "~$" + name, officeHolder},
		{folder + ".~lock." + name + "#", libreOfficeHolder},
	}
	// The first program may write its two letters over the first two of a long name (from
	// memory); not so where a workbook of the shorter name stands there too.
	if len(name) > len("12345678.xlsx") && name[0] < 0x80 && name[1] < 0x80 {
		if _, err := os.Lstat(folder + name[2:]); err != nil {
			list = append(list, sign{folder + "~$" + name[2:], officeHolder})
		}
	}
	return list
}

// head reads what an owner file can hold; an unreadable one says nothing but still counts.
func head(file string) []byte {
	f, err := os.Open(file)
	if err != nil {
		return nil
	}
	defer f.Close()
	b, _ := io.ReadAll(io.LimitReader(f, 4096))
	return b
}

// officeHolder reads the name in a "~$" file: a length, up to 54 letters of the local code page,
// then at byte 55 the length again and the name in UTF-16 (layout from memory, 165 bytes).
func officeHolder(b []byte) string {
	const wide = 55
	if len(b) == 0 {
		return ""
	}
	n := int(b[0])
	if len(b) >= wide+2+2*n && int(b[wide])|int(b[wide+1])<<8 == n {
		units := make([]uint16, n)
		for i := range units {
			units[i] = uint16(b[wide+2+2*i]) | uint16(b[wide+3+2*i])<<8
		}
		return quoted(string(utf16.Decode(units)))
	}
	letters := b[1:min(1+n, len(b))]
	name := make([]rune, len(letters)) // Latin-1: the code page is not known
	for i, c := range letters {
		name[i] = rune(c)
	}
	return quoted(string(name))
}

// libreOfficeHolder reads a ".~lock.NAME#" file: full name, system user, host, time and profile,
// divided by commas and ended by a semicolon, with a backslash before a comma in a field.
func libreOfficeHolder(b []byte) string {
	fields := splitEscaped(strings.Map(printable, string(b)))
	for len(fields) < 4 {
		fields = append(fields, "")
	}
	holder := quoted(fields[0])
	if holder == "" {
		holder = quoted(fields[1])
	}
	if holder == "" && fields[2] != "" {
		holder = "somebody"
	}
	if fields[2] != "" {
		holder += " on " + fields[2]
	}
	if fields[3] != "" {
		holder += " since " + fields[3]
	}
	return holder
}

func splitEscaped(text string) []string {
	var fields []string
	var field strings.Builder
	escaped := false
	for _, r := range text {
		switch {
		case escaped:
			field.WriteRune(r)
			escaped = false
		case r == '\\':
			escaped = true
		case r == ',' || r == ';':
			fields = append(fields, strings.TrimSpace(field.String()))
			field.Reset()
			if r == ';' {
				return fields
			}
		default:
			field.WriteRune(r)
		}
	}
	return append(fields, strings.TrimSpace(field.String()))
}

// printable drops what could upset a terminal or a log.
func printable(r rune) rune {
	if unicode.IsPrint(r) {
		return r
	}
	return -1
}

func quoted(name string) string {
	name = strings.Trim(name, " \x00")
	if name == "" {
		return ""
	}
	return fmt.Sprintf("%q", name)
}
