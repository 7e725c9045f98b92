package watch

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// lines gives a listing as "folder/name" for workbooks and "folder/name: why" for the rest.
func lines(t *testing.T, root string) (books, left []string) {
	t.Helper()
	folders, err := Files(root)
	must(t, err)
	short := func(path string) string {
		name, _ := filepath.Rel(root, path)
		return filepath.ToSlash(name)
	}
	for _, f := range folders {
		for _, b := range f.Books {
			if b.Rival != "" {
				books = append(books, short(b.Path)+" against "+b.Rival)
			} else {
				books = append(books, short(b.Path))
			}
		}
		for _, l := range f.Left {
			left = append(left, short(l.Path)+": "+l.Why)
		}
	}
	return books, left
}

func TestFilesListsWorkbooksAndWhatWasLeftOut(t *testing.T) {
	root := t.TempDir()
	outside := t.TempDir()
	write(t, filepath.Join(outside, "secret.xlsx"), "")
	for _, name := range []string{
		"standards.xlsx", "dryfit roll-up.xlsx", ".dryfit/backup/x.xlsx", ".hidden.xlsx", ".trash/parts.xlsx",
		"Job 1/parts.xlsx", "Job 1/~$parts.xlsx", "Job 1/.~lock.parts.xlsx#", "Job 1/parts.xlsx.tmp", "Job 1/12AB34.TMP",
		"Job 1/parts - dryfit results.xlsx", "Job 1/plan.pdf", "Job 1/A1B2C3D4",
		"Job 2/old.xls", "Job 2/more/PARTS.XLSM", "Job 2/list.ods", "Job 2/fast.xlsb",
		"Job 3/.dryfit-0123456789ab.tmp",
		"Job 4/plan.pdf",
		"Job 5\nline/-parts.xlsx",
	} {
		path := filepath.Join(root, name)
		must(t, os.MkdirAll(filepath.Dir(path), 0o755))
		write(t, path, "")
	}
	must(t, os.Symlink(outside, filepath.Join(root, "Job 6")))
	must(t, os.Symlink(filepath.Join(outside, "secret.xlsx"), filepath.Join(root, "Job 1", "link.xlsx")))
	must(t, os.Symlink(filepath.Join(root, "nothing"), filepath.Join(root, "Job 1", "broken")))

	books, left := lines(t, root)
	wantBooks := []string{"standards.xlsx", "Job 1/parts.xlsx", "Job 2/more/PARTS.XLSM", "Job 5\nline/-parts.xlsx"}
	if !slices.Equal(books, wantBooks) {
		t.Errorf("workbooks %q, want %q", books, wantBooks)
	}
	wantLeft := []string{
		"Job 6: a link to a folder", "Job 1/link.xlsx: a link;",
		"Job 2/fast.xlsb: a binary workbook", "Job 2/list.ods: another workbook format", "Job 2/old.xls: an old workbook format",
		"Job 3/.dryfit-0123456789ab.tmp: left over from an interrupted write",
	}
	if len(left) != len(wantLeft) {
		t.Fatalf("left out %q, want %d", left, len(wantLeft))
	}
	for i, want := range wantLeft {
		if !strings.HasPrefix(left[i], want) {
			t.Errorf("left out %q, want %q", left[i], want)
		}
	}
}

func TestSecondVersionsAreTold(t *testing.T) {
	for _, row := range []struct {
		name   string
		second bool
	}{
		{"parts (Ann's conflicted copy 2026-11-25).xlsx", true},
		{"parts (conflicted copy 2).xlsx", true},
		{"parts [Conflict].xlsx", true},
		{"parts.sync-conflict-20261125-130405-ABCDEFG.xlsx", true},
		{"parts_conflict-20261125-130405.xlsx", true},
		{"parts conflicted copy.xlsx", true},
		{"parts-DESKTOP-4F2K1AB.xlsx", true},
		{"parts - kept by dryfit 0123456789ab.xlsx", true},
		{"parts (1).xlsx", false}, // may as well be a list of its own
		{"parts-KITCHEN.xlsx", false},
		{"conflict parts.xlsx", false},
	} {
		root := t.TempDir()
		write(t, filepath.Join(root, "parts.xlsx"), "")
		write(t, filepath.Join(root, row.name), "")
		books, left := lines(t, root)
		if row.second && (!slices.Equal(books, []string{"parts.xlsx against " + row.name}) || len(left) != 1) {
			t.Errorf("%s: workbooks %q, left out %q; want it told as a second version", row.name, books, left)
		}
		if !row.second && (len(books) != 2 || len(left) != 0) {
			t.Errorf("%s: workbooks %q, left out %q; want two workbooks", row.name, books, left)
		}
		must(t, os.Remove(filepath.Join(root, "parts.xlsx")))
		if books, _ := lines(t, root); len(books) != 1 {
			t.Errorf("%s alone: workbooks %q, want it as the one that was kept", row.name, books)
		}
	}
}

func TestAFolderThatCannotBeReadDoesNotStopTheWalk(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("root may read every folder")
	}
	root, book := shop(t)
	closed := filepath.Join(root, "Job 1")
	must(t, os.Mkdir(closed, 0))
	books, left := lines(t, root)
	if len(books) != 1 || len(left) != 1 || !strings.HasPrefix(left[0], "Job 1: cannot be read") {
		t.Errorf("workbooks %q, left out %q; want %q and the reason for %q", books, left, book, closed)
	}
}

// tenThousand makes a root of job folders with a workbook and a plan each.
func tenThousand(b *testing.B) string {
	root := b.TempDir()
	for i := range 10_000 {
		folder := filepath.Join(root, fmt.Sprintf("Job %05d", i))
		must(b, os.Mkdir(folder, 0o755))
		write(b, filepath.Join(folder, "parts.xlsx"), "parts")
		write(b, filepath.Join(folder, "plan.pdf"), "plan")
	}
	return root
}

// BenchmarkWalkTenThousand holds the list of all workbooks, and what a watch at rest costs every
// minute, against a bare walk of the same folders.
func BenchmarkWalkTenThousand(b *testing.B) {
	root := tenThousand(b)
	b.Run("Files", func(b *testing.B) {
		for b.Loop() {
			folders, err := Files(root)
			if err != nil || len(folders) != 10_000 {
				b.Fatal(len(folders), err)
			}
		}
	})
	b.Run("watch at rest", func(b *testing.B) {
		w := atRest(b, root)
		for b.Loop() {
			must(b, w.walk(nil))
		}
		if len(w.moving) > 0 {
			b.Fatal("a folder moves")
		}
	})
	b.Run("bare walk and stat", func(b *testing.B) {
		for b.Loop() {
			n := 0
			must(b, filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
				if err != nil {
					return err
				}
				_, err = d.Info()
				n++
				return err
			}))
			if n != 30_001 {
				b.Fatal(n)
			}
		}
	})
}

// atRest is a watch that has visited every folder.
func atRest(b *testing.B, root string) *watcher {
	o, err := Options{Root: root, Settle: time.Millisecond}.filled()
	must(b, err)
	visited := 0
	o.Settled = func(_ context.Context, visits []Visit) Outcome {
		visited += len(visits)
		return Outcome{}
	}
	w := newWatcher(o)
	must(b, w.walk(nil))
	for visited < 10_000 {
		w.lookAround(b.Context())
	}
	return w
}

// BenchmarkReplace is one replacement with all its waiting for the disk, against writing and
// syncing a file of the same size.
func BenchmarkReplace(b *testing.B) {
	for _, size := range []int{30_000, 1_000_000} {
		data := page("ours", 0, size, 1)
		b.Run(fmt.Sprintf("%d bytes", size), func(b *testing.B) {
			c := job(b, "old", "")
			for b.Loop() {
				data[len(data)-1]++
				c.New, c.Was = data, Sum([]byte(read(b, c.Path)))
				if done, err := Replace(b.Context(), c); err != nil || !done.Written {
					b.Fatal(done, err)
				}
			}
		})
		b.Run(fmt.Sprintf("%d bytes, write and sync only", size), func(b *testing.B) {
			name := filepath.Join(b.TempDir(), "parts.xlsx")
			for b.Loop() {
				f, err := os.Create(name)
				must(b, err)
				f.Write(data)
				must(b, f.Sync())
				f.Close()
			}
		})
	}
}
