package watch

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/watch/disk"
)

// job makes a root with one workbook in a job folder and gives the change that replaces it.
func job(t testing.TB, old, new string) Change {
	t.Helper()
	root := t.TempDir()
	path := filepath.Join(root, "Job 7", "parts.xlsx")
	if err := os.Mkdir(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, path, old)
	return Change{Root: root, Path: path, Was: Sum([]byte(old)), New: []byte(new)}
}

func write(t testing.TB, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// names lists the files under a folder, backups and state included.
func names(t testing.TB, folder string) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			name, _ := filepath.Rel(folder, path)
			list = append(list, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// wantTidy fails when a temporary file or a journal is left.
func wantTidy(t testing.TB, root string) {
	t.Helper()
	for _, name := range names(t, root) {
		base := filepath.Base(name)
		if strings.HasPrefix(base, tempStart) || strings.HasPrefix(base, journalStart) || strings.HasSuffix(base, tempEnd) {
			t.Errorf("%s is left over", name)
		}
	}
}

func wantBackups(t testing.TB, c Change, want ...string) {
	t.Helper()
	var got []string
	for _, name := range names(t, c.Root) {
		if strings.HasPrefix(name, stateFolder+"/backup/") && filepath.Base(name) != wroteName {
			got = append(got, read(t, filepath.Join(c.Root, name)))
		}
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("backups hold %q, want %q", got, want)
	}
}

func TestReplacePutsTheNewFileInAndKeepsTheOldOne(t *testing.T) {
	c := job(t, "old", "new")
	done, err := Replace(t.Context(), c)
	if err != nil || !done.Written {
		t.Fatalf("Replace: %+v, %v", done, err)
	}
	if got := read(t, c.Path); got != "new" {
		t.Errorf("the file holds %q", got)
	}
	wantBackups(t, c, "old")
	wantTidy(t, c.Root)
}

func TestReplaceWithTheSameBytesTouchesNothing(t *testing.T) {
	for _, was := range []string{"same", "stale"} { // stale: another run wrote them already
		c := job(t, "same", "same")
		c.Was = Sum([]byte(was))
		before, _ := os.Stat(c.Path)
		done, err := Replace(t.Context(), c)
		after, _ := os.Stat(c.Path)
		if err != nil || done.Written {
			t.Errorf("%s: Replace: %+v, %v", was, done, err)
		}
		if !os.SameFile(before, after) || !after.ModTime().Equal(before.ModTime()) {
			t.Errorf("%s: the file was touched", was)
		}
		if got := names(t, c.Root); len(got) != 1 {
			t.Errorf("%s: files are left: %q", was, got)
		}
	}
}

func TestReplaceLeavesASaveAlone(t *testing.T) {
	c := job(t, "old", "new")
	write(t, c.Path, "saved by a person")
	if _, err := Replace(t.Context(), c); !errors.Is(err, ErrChanged) {
		t.Errorf("error %v, want ErrChanged", err)
	}
	if got := read(t, c.Path); got != "saved by a person" {
		t.Errorf("the file holds %q", got)
	}
	wantTidy(t, c.Root)
}

func TestReplaceMakesANewFileButNotOverAnother(t *testing.T) {
	c := job(t, "old", "results")
	c.Path, c.Was = Sibling(c.Path), Hash{}
	for _, want := range []error{nil, ErrChanged} {
		_, err := Replace(t.Context(), c)
		if !errors.Is(err, want) {
			t.Errorf("error %v, want %v", err, want)
		}
		if got := read(t, c.Path); got != "results" {
			t.Errorf("the file holds %q", got)
		}
		c.New = []byte("other results")
	}
	wantTidy(t, c.Root)
}

func TestReplaceOfAFileThatIsGoneMakesNone(t *testing.T) {
	c := job(t, "old", "new")
	os.Remove(c.Path)
	if _, err := Replace(t.Context(), c); !errors.Is(err, ErrChanged) {
		t.Errorf("error %v, want ErrChanged", err)
	}
	if _, err := os.Stat(c.Path); err == nil {
		t.Error("the file that somebody removed is back")
	}
}

func TestBackupsKeepTheFirstOriginalAndTheLastThree(t *testing.T) {
	c := job(t, "original 1", "")
	for _, step := range []struct{ person, ours string }{
		{"original 1", "ours 1"},
		{"ours 1", "ours 2"}, // nobody touched what we wrote: no original
		{"original 2", "ours 3"},
		{"original 3", "ours 4"},
		{"original 2", "ours 5"}, // kept already
		{"original 4", "ours 6"},
		{"original 5", "ours 7"},
		{"ours 7", "ours 8"},
	} {
		write(t, c.Path, step.person)
		c.Was, c.New = Sum([]byte(step.person)), []byte(step.ours)
		if _, err := Replace(t.Context(), c); err != nil {
			t.Fatal(err)
		}
	}
	wantBackups(t, c, "original 1", "original 3", "original 4", "original 5")
	wantTidy(t, c.Root)
}

func TestReplaceRefuses(t *testing.T) {
	for _, row := range []struct {
		name string
		make func(t *testing.T, c *Change)
		want error
	}{
		{"hard link", func(t *testing.T, c *Change) { must(t, os.Link(c.Path, c.Path+".2")) }, ErrHardLink},
		{"read-only", func(t *testing.T, c *Change) { must(t, os.Chmod(c.Path, 0o444)) }, ErrReadOnly},
		{"symbolic link", func(t *testing.T, c *Change) {
			must(t, os.Rename(c.Path, c.Path+".2"))
			must(t, os.Symlink(c.Path+".2", c.Path))
		}, ErrLink},
		{"folder that is a link out of the root", func(t *testing.T, c *Change) {
			outside := t.TempDir()
			must(t, os.Rename(c.Path, filepath.Join(outside, "parts.xlsx")))
			must(t, os.Symlink(outside, filepath.Join(c.Root, "link")))
			c.Path = filepath.Join(c.Root, "link", "parts.xlsx")
		}, ErrLink},
		{"folder under the name", func(t *testing.T, c *Change) {
			must(t, os.Remove(c.Path))
			must(t, os.Mkdir(c.Path, 0o755))
		}, ErrSpecial},
		{"open", func(t *testing.T, c *Change) {
			write(t, filepath.Join(filepath.Dir(c.Path), ".~lock.parts.xlsx#"), ",ann,desk-2,25.11.2026 13:00,file:///p;")
		}, ErrOpen},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := job(t, "old", "new")
			row.make(t, &c)
			_, err := Replace(t.Context(), c)
			var refused *Refused
			if !errors.As(err, &refused) || !errors.Is(err, row.want) {
				t.Errorf("error %v, want a Refused for %q", err, row.want)
			}
			if !fileHolds(c.Path, "old") && row.want != ErrSpecial {
				t.Error("the file was changed")
			}
			wantTidy(t, c.Root)
		})
	}
}

func fileHolds(path, text string) bool {
	data, err := os.ReadFile(path)
	return err == nil && bytes.Equal(data, []byte(text))
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestReplaceRefusesAPathOutsideTheRoot(t *testing.T) {
	c := job(t, "old", "new")
	c.Root = t.TempDir()
	if _, err := Replace(t.Context(), c); err == nil {
		t.Error("no error")
	}
	if got := read(t, c.Path); got != "old" {
		t.Errorf("the file holds %q", got)
	}
}

func TestReplaceKeepsTheRights(t *testing.T) {
	c := job(t, "old", "new")
	must(t, os.Chmod(c.Path, 0o640))
	if _, err := Replace(t.Context(), c); err != nil {
		t.Fatal(err)
	}
	fi, _ := os.Stat(c.Path)
	if got := fi.Mode().Perm(); got != 0o640 {
		t.Errorf("rights are %v, want 0640", got)
	}
}

// noExchange is a disk on which files cannot be exchanged, as on many shares.
type noExchange struct{ disk.Calls }

func (noExchange) Exchange(temp, path string) error { return disk.ErrNoExchange }

func TestWithoutExchangeTheFileIsCopiedAndRenamedOver(t *testing.T) {
	c := job(t, "old", "new")
	done, err := machine{noExchange{disk.System{}}}.replace(t.Context(), c)
	if err != nil || !done.Written || done.Note == "" {
		t.Fatalf("replace: %+v, %v; want it written with a note", done, err)
	}
	if got := read(t, c.Path); got != "new" {
		t.Errorf("the file holds %q", got)
	}
	wantBackups(t, c, "old")
	wantTidy(t, c.Root)
}

func TestSiblingNames(t *testing.T) {
	long := strings.Repeat("ä", 124) // 248 bytes
	for _, row := range []struct{ path, want string }{
		{"a/Kitchen.xlsx", "a/Kitchen - dryfit results.xlsx"},
		{"Kitchen.XLSX", "Kitchen - dryfit results.xlsx"},
		{"Kitchen.xlsm", "Kitchen.xlsm - dryfit results.xlsx"},
		{"Kitchen", "Kitchen - dryfit results.xlsx"},
	} {
		if got := Sibling(filepath.FromSlash(row.path)); got != filepath.FromSlash(row.want) {
			t.Errorf("Sibling(%q) = %q, want %q", row.path, got, row.want)
		}
	}
	one, two := Sibling(long+"1.xlsx"), Sibling(long+"2.xlsx")
	if len(one) > 255 || one == two || !IsOurs(one) {
		t.Errorf("long names: %q (%d bytes) and %q", one, len(one), two)
	}
}
