//go:build linux || darwin

package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"golang.org/x/sys/unix"
)

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// pair makes a file to copy attributes from and opens a new one beside it.
func pair(t *testing.T) (from string, to string, f File) {
	t.Helper()
	folder := t.TempDir()
	from, to = filepath.Join(folder, "from"), filepath.Join(folder, "to")
	must(t, os.WriteFile(from, []byte("old"), 0o644))
	f, err := System{}.Create(to, 0o600)
	must(t, err)
	t.Cleanup(func() { f.Close() })
	return from, to, f
}

func TestCopyAttributesCarriesRightsAndAttributes(t *testing.T) {
	from, to, f := pair(t)
	must(t, os.Chmod(from, 0o4751))
	if err := unix.Setxattr(from, "user.color", []byte("walnut"), 0); err != nil {
		t.Skipf("no extended attributes here: %v", err)
	}
	must(t, unix.Setxattr(to, "user.inherited", []byte("x"), 0))
	must(t, f.CopyAttributes(from))
	var want, got unix.Stat_t
	must(t, unix.Stat(from, &want))
	must(t, unix.Stat(to, &got))
	if got.Mode != want.Mode {
		t.Errorf("rights %o, want %o", got.Mode, want.Mode)
	}
	value, err := xattr(func(b []byte) (int, error) { return unix.Getxattr(to, "user.color", b) })
	if err != nil || string(value) != "walnut" {
		t.Errorf("attribute %q, %v", value, err)
	}
	names, err := xattrNames(func(b []byte) (int, error) { return unix.Listxattr(to, b) })
	if err != nil || slices.Contains(names, "user.inherited") {
		t.Errorf("attributes %q, %v; want none that the first file lacks", names, err)
	}
}

func TestCopyAttributesCarriesTheOwner(t *testing.T) {
	from, to, f := pair(t)
	if err := os.Chown(from, 12345, 23456); err != nil {
		t.Skipf("only root may give a file away: %v", err)
	}
	must(t, f.CopyAttributes(from))
	var got unix.Stat_t
	must(t, unix.Stat(to, &got))
	if got.Uid != 12345 || got.Gid != 23456 {
		t.Errorf("owner %d:%d, want 12345:23456", got.Uid, got.Gid)
	}
}

func TestExchangeSwapsTwoFiles(t *testing.T) {
	from, to, _ := pair(t)
	err := System{}.Exchange(to, from)
	if errors.Is(err, ErrNoExchange) {
		t.Skip("this file system cannot exchange files")
	}
	must(t, err)
	one, _ := os.ReadFile(from)
	two, _ := os.ReadFile(to)
	if string(one) != "" || string(two) != "old" {
		t.Errorf("after the exchange %q and %q", one, two)
	}
	if err := (System{}).Exchange(to, from+" none"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("with a name that is not there: %v", err)
	}
}

func TestRenameNewSparesWhatIsThere(t *testing.T) {
	for name, rename := range map[string]func(from, to string) error{
		"by the system": System{}.RenameNew, "by a link": renameNewByLink,
	} {
		from, to, _ := pair(t)
		if err := rename(from, to); !errors.Is(err, fs.ErrExist) {
			t.Errorf("%s: over a file: %v, want that it exists", name, err)
		}
		must(t, rename(from, to+" new"))
		data, err := os.ReadFile(to + " new")
		if err != nil || string(data) != "old" {
			t.Errorf("%s: moved %q, %v", name, data, err)
		}
		if _, err := os.Lstat(from); err == nil {
			t.Errorf("%s: the old name is still there", name)
		}
	}
}

func TestLstat(t *testing.T) {
	from, to, _ := pair(t)
	must(t, os.Link(from, from+" 2"))
	must(t, os.Chmod(to, 0o444))
	must(t, os.Symlink(from, to+" link"))
	one, err := System{}.Lstat(from)
	if err != nil || one.Links != 2 || one.ReadOnly {
		t.Errorf("a file with two names: %d, read-only %v, %v", one.Links, one.ReadOnly, err)
	}
	two, err := System{}.Lstat(to)
	if err != nil || two.Links != 1 || !two.ReadOnly {
		t.Errorf("a read-only file: %d, read-only %v, %v", two.Links, two.ReadOnly, err)
	}
	link, err := System{}.Lstat(to + " link")
	if err != nil || link.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("a link: %v, %v", link.Mode(), err)
	}
}

func TestSharedIsEmptyForADiskOfThisMachine(t *testing.T) {
	if kind := Shared(t.TempDir()); kind != "" {
		t.Errorf("the temporary folder is on %q", kind)
	}
}
