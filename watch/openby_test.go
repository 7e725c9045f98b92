package watch

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf16"
)

// officeFile lays a "~$" file out as officeHolder says.
func officeFile(narrow, wide string) string {
	b := make([]byte, 165)
	b[0] = byte(len(narrow))
	copy(b[1:55], narrow+strings.Repeat(" ", 54))
	units := utf16.Encode([]rune(wide))
	b[55] = byte(len(units))
	for i, u := range units {
		b[57+2*i], b[58+2*i] = byte(u), byte(u>>8)
	}
	return string(b)
}

func TestOpenBy(t *testing.T) {
	for _, row := range []struct {
		name, file, text, book string
		want                   string // "" for not open
	}{
		{"nothing beside it", "other.txt", "", "parts.xlsx", ""},
		{"owner file of another workbook", "~$other.xlsx", "\x03Ann", "parts.xlsx", ""},
		{"narrow name", "~$parts.xlsx", "\x03Ann", "parts.xlsx", `"Ann"`},
		{"both names", "~$parts.xlsx", officeFile("Zo\xeb", "Zoë"), "parts.xlsx", `"Zoë"`},
		{"name outside the code page", "~$parts.xlsx", officeFile("????", "Łucj"), "parts.xlsx", `"Łucj"`},
		{"empty owner file", "~$parts.xlsx", "", "parts.xlsx", "somebody"},
		{"length past the end", "~$parts.xlsx", "\xffAnn", "parts.xlsx", `"Ann"`},
		{"long name without its first letters", "~$rts schedule.xlsx", "\x03Ann", "parts schedule.xlsx", `"Ann"`},
		{"full name", ".~lock.parts.xlsx#", "Ann Example,ann,desk-2,25.11.2026 13:04,file:///home/ann/p;", "parts.xlsx",
			`"Ann Example" on desk-2 since 25.11.2026 13:04`},
		{"system user", ".~lock.parts.xlsx#", ",ann,desk-2,25.11.2026 13:04,file:///home/ann/p;", "parts.xlsx",
			`"ann" on desk-2 since 25.11.2026 13:04`},
		{"comma in the name", ".~lock.parts.xlsx#", `Example\, Ann,ann,desk-2,25.11.2026 13:04,f;`, "parts.xlsx",
			`"Example, Ann" on desk-2 since 25.11.2026 13:04`},
		{"line break in the name", "~$parts.xlsx", "\x05A\nn\x1bn", "parts.xlsx", `"A\nn\x1bn"`},
		{"empty lock file", ".~lock.parts.xlsx#", "", "parts.xlsx", "somebody"},
		{"only the host", ".~lock.parts.xlsx#", ",,desk-2,,;", "parts.xlsx", "somebody on desk-2"},
	} {
		folder := t.TempDir()
		write(t, filepath.Join(folder, row.file), row.text)
		holder, open := OpenBy(filepath.Join(folder, row.book))
		if holder != row.want || open != (row.want != "") {
			t.Errorf("%s: %q, %v; want %q", row.name, holder, open, row.want)
		}
	}
}

func TestASignOverADayOldLooksStaleAndCounts(t *testing.T) {
	folder := t.TempDir()
	sign := filepath.Join(folder, "~$parts.xlsx")
	write(t, sign, "\x03Ann")
	for _, row := range []struct {
		age   time.Duration
		stale bool
	}{{23 * time.Hour, false}, {25 * time.Hour, true}} {
		then := time.Now().Add(-row.age)
		must(t, os.Chtimes(sign, then, then))
		holder, open := OpenBy(filepath.Join(folder, "parts.xlsx"))
		if !open || strings.Contains(holder, "stale") != row.stale {
			t.Errorf("%v old: %q, %v", row.age, holder, open)
		}
	}
	if _, err := os.Stat(sign); err != nil {
		t.Error("the sign was deleted")
	}
}

func TestTheShorterNameOfAnotherWorkbookIsNoSign(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "rts schedule.xlsx"), "another workbook")
	write(t, filepath.Join(folder, "~$rts schedule.xlsx"), "\x03Ann")
	if holder, open := OpenBy(filepath.Join(folder, "parts schedule.xlsx")); open {
		t.Errorf("open by %q", holder)
	}
}

func FuzzOwnerFiles(f *testing.F) {
	f.Add([]byte(officeFile("Ann", "Ann")))
	f.Add([]byte(`a\,b,c,d,e;`))
	f.Fuzz(func(t *testing.T, b []byte) {
		for _, words := range []string{officeHolder(b), libreOfficeHolder(b)} {
			if strings.ContainsFunc(words, unicode.IsControl) {
				t.Errorf("a control character in %q", words)
			}
		}
	})
}
