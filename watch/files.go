package watch

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"dryfit/watch/disk"
)

// Folder is a folder with workbooks in it, or with something that looks like one.
type Folder struct {
	Path  string // absolute
	Books []Book // by name
	Left  []Left // by name
}

// Book is a file that can be read as a workbook by its name; what it holds is not looked at.
type Book struct {
	Path     string // absolute
	Size     int64  // bytes
	Modified time.Time
	Rival    string // a second version of it beside it: read neither as the last word, write neither
}

// Left is a name that was left out although a person could expect it to be read.
type Left struct {
	Path string
	Why  string // one clause: what it is and what to do
}

// Files walks root and gives every folder, root itself included, that holds workbooks, in the
// order of their paths. Links are not followed and names with a leading dot are not entered. A
// folder that cannot be read is given with the reason and does not stop the walk; the error is
// for root itself.
func Files(root string) ([]Folder, error) {
	root, err := filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	var folders []Folder
	err = walk(root, func(f Folder) {
		if len(f.Books)+len(f.Left) > 0 {
			folders = append(folders, f)
		}
	})
	slices.SortFunc(folders, func(a, b Folder) int { return cmp.Compare(a.Path, b.Path) })
	return folders, err
}

// FolderAt gives the workbooks of one folder, without those in the folders below it.
func FolderAt(path string) (Folder, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return Folder{}, err
	}
	f, _, err := readFolder(path)
	return f, err
}

// walkers is how many folders are read at once: a share answers slowly, but many at a time.
const walkers = 8

// walk visits root and every folder below it, also those without workbooks, in no order. Folders
// are read side by side; visit is called for one at a time.
func walk(root string, visit func(Folder)) error {
	top, below, err := readFolder(root)
	if err != nil {
		return err
	}
	visit(top)
	batches := make(chan []string)
	read := make(chan reading)
	defer close(batches)
	for range walkers {
		go func() {
			for paths := range batches {
				read <- readAll(paths)
			}
		}()
	}
	for busy := 0; busy > 0 || len(below) > 0; {
		next := below[:min(len(below), 1+len(below)/walkers, mostInBatch)]
		give := batches
		if len(next) == 0 {
			give = nil
		}
		select {
		case give <- next:
			below = below[len(next):]
			busy++
		case r := <-read:
			busy--
			for _, f := range r.folders {
				visit(f)
			}
			below = append(below, r.below...)
		}
	}
	return nil
}

// mostInBatch is how many folders one reader takes, so that handing them over costs little.
const mostInBatch = 32

// reading is what one reader found.
type reading struct {
	folders []Folder
	below   []string
}

func readAll(paths []string) reading {
	var r reading
	for _, path := range paths {
		f, below := readOrLeave(path)
		r.folders = append(r.folders, f)
		r.below = append(r.below, below...)
	}
	return r
}

// readOrLeave gives an empty folder for one that is gone, and the reason for one that cannot be
// read.
func readOrLeave(path string) (Folder, []string) {
	f, below, err := readFolder(path)
	if err != nil {
		f.Path = path
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		f.Left = []Left{{path, fmt.Sprintf("cannot be read (%v)", err)}}
	}
	return f, below
}

// readFolder gives the workbooks of one folder and the folders in it.
func readFolder(path string) (Folder, []string, error) {
	entries, err := os.ReadDir(path)
	if err != nil {
		return Folder{}, nil, err
	}
	f := Folder{Path: path}
	var below []string
	for _, e := range entries {
		name := e.Name()
		switch {
		case e.IsDir():
			if !strings.HasPrefix(name, ".") {
				below = append(below, filepath.Join(path, name))
			}
		case !IsOurs(name):
			f.add(e)
		}
	}
	f.markRivals()
	return f, below, nil
}

// add sorts one name into Books or Left, or passes over it.
func (f *Folder) add(e fs.DirEntry) {
	name := e.Name()
	path := filepath.Join(f.Path, name)
	left := func(why string) { f.Left = append(f.Left, Left{path, why}) }
	if strings.HasPrefix(name, tempStart) && strings.HasSuffix(name, tempEnd) {
		left("left over from an interrupted write; a check of this folder alone ends it; if it stays, look into it and delete it")
		return
	}
	if isPassing(name) {
		return
	}
	ext := strings.ToLower(filepath.Ext(name))
	advice, known := workbookEndings[ext]
	switch {
	case !known:
		if e.Type()&fs.ModeSymlink != 0 && isFolder(path) {
			left("a link to a folder; links are not followed: put the folder itself here")
		}
	case e.Type()&fs.ModeSymlink != 0:
		left("a link; links are not followed: put the workbook itself here")
	case !e.Type().IsRegular():
		left("not an ordinary file")
	case advice != "":
		left(advice)
	default:
		fi, err := e.Info()
		if err != nil {
			return // it went, or is being saved: the next walk sees
		}
		if disk.OnlineOnly(fi) {
			left("kept online only, and reading would download it; make it available on this computer")
			return
		}
		f.Books = append(f.Books, Book{Path: path, Size: fi.Size(), Modified: fi.ModTime()})
	}
}

func isFolder(path string) bool {
	fi, err := os.Stat(path)
	return err == nil && fi.IsDir()
}

// addOurs adds a file that add passes over because we make it.
func (f *Folder) addOurs(path string) {
	if fi, err := os.Lstat(path); err == nil && fi.Mode().IsRegular() {
		f.Books = append(f.Books, Book{Path: path, Size: fi.Size(), Modified: fi.ModTime()})
	}
}

// workbookEndings: endings a person may expect to be read, with what to do instead.
var workbookEndings = map[string]string{
	".xlsx": "",
	".xlsm": "",
	".xls":  "an old workbook format; save as .xlsx",
	".xlsb": "a binary workbook; save as .xlsx",
	".ods":  "another workbook format; save as .xlsx",
}

// isPassing tells names that come and go while programs save: owner files, temporary files,
// hidden files.
func isPassing(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~$") ||
		strings.EqualFold(filepath.Ext(name), ".tmp")
}

// conflictMarks are what programs that keep folders in step put into the name of the second
// version when two people changed one file (common practice).
var conflictMarks = []*regexp.Regexp{
	regexp.MustCompile(`(?i)\s*[(\[][^()\[\]]*\bconflict(ed|s|ing)?\b[^()\[\]]*[)\]]`), // NAME (Ann's conflicted copy 2026-11-02)
	regexp.MustCompile(`(?i)[._-]sync-conflict-\d{8}-\d{6}(-\w+)?`),                    // NAME.sync-conflict-20261102-101500-ABCDEFG
	regexp.MustCompile(`(?i)[ ._-]+conflict(ed)?([ ._-]+copy)?([ ._-]*\d[\d ._-]*)?$`), // NAME_conflict-20261102-101500
	regexp.MustCompile(`-(DESKTOP|LAPTOP|WIN)-[0-9A-Z]{7,11}$`),                        // NAME-DESKTOP-4F2K1AB: a computer's name
	regexp.MustCompile(regexp.QuoteMeta(keptMiddle) + `[0-9a-f]{12}$`),
}

// original gives the name without the mark of a second version, and whether it bore one.
func original(name string) (string, bool) {
	ext := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	for _, mark := range conflictMarks {
		if at := mark.FindStringIndex(stem); at != nil && at[0] > 0 {
			return stem[:at[0]] + stem[at[1]:] + ext, true
		}
	}
	return name, false
}

// markRivals takes second versions out of Books and marks the first ones. A second version whose
// first is gone is the one that somebody kept.
func (f *Folder) markRivals() {
	if len(f.Books) < 2 {
		return
	}
	names := map[string]bool{}
	for _, b := range f.Books {
		names[filepath.Base(b.Path)] = true
	}
	rivals := map[string]string{} // first version to second
	f.Books = slices.DeleteFunc(f.Books, func(b Book) bool {
		name := filepath.Base(b.Path)
		first, second := original(name)
		if !second || !names[first] {
			return false
		}
		rivals[first] = name
		f.Left = append(f.Left, Left{b.Path, fmt.Sprintf("a second version of %q; keep one", first)})
		return true
	})
	for i := range f.Books {
		f.Books[i].Rival = rivals[filepath.Base(f.Books[i].Path)]
	}
	slices.SortFunc(f.Left, func(a, b Left) int { return cmp.Compare(a.Path, b.Path) })
}
