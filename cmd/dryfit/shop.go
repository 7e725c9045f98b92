package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
	"dryfit/sheet/inputs"
	"dryfit/sheet/standards"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// place is one job to be done: a folder with its workbooks, or one workbook alone.
type place struct {
	name  string
	path  string      // of the folder or the workbook
	books []string    // paths of the workbooks
	notes []string    // what was left out, and why
	said  write.Typed // what people wrote about it in the roll-up
	root  bool        // it holds other jobs, and is one itself only if it has a part schedule
}

// shop is the root that some jobs stand in: what the shop goes by, and where state is kept.
type shop struct {
	root  string
	table *standard.Table
	unit  length.Unit         // that was asked for; length.Unsaid for each job's own
	from  string              // path of the standards workbook; empty for built-in values alone
	says  standards.Standards // of the shop; zero for none
	notes []string
}

// find turns a path into jobs: a workbook, a job folder, or a root of job folders.
func find(path string) (shop, []place, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return shop{}, nil, fmt.Errorf("%s: there is no such file or folder", path)
	}
	if err != nil {
		return shop{}, nil, err
	}
	if !info.IsDir() {
		dir := filepath.Dir(path)
		s := open(dir, filepath.Dir(dir))
		return s, []place{{name: jobName(dir), path: path, books: withInputs(path)}}, nil
	}
	folders, err := watch.Files(path)
	if err != nil {
		return shop{}, nil, err
	}
	return arrange(path, folders)
}

// withInputs is a workbook, and the input workbook beside it if there is one.
func withInputs(path string) []string {
	if _, err := os.Stat(inputs.Path(path)); err == nil {
		return []string{path, inputs.Path(path)}
	}
	return []string{path}
}

// arrange makes a job of every folder with workbooks in it. The folder that was named is a
// root when there are others below it.
func arrange(path string, folders []watch.Folder) (shop, []place, error) {
	top, err := filepath.Abs(path)
	if err != nil {
		return shop{}, nil, err
	}
	var out []place
	for _, f := range folders {
		p := place{name: jobName(f.Path), path: f.Path, root: f.Path == top && len(folders) > 1}
		take(&p, f)
		out = append(out, p)
	}
	switch {
	case len(out) == 0:
		return open(path, filepath.Dir(top)), []place{{name: jobName(top), path: path}}, nil
	case len(out) == 1 && out[0].path == top:
		return open(path, filepath.Dir(top)), out, nil
	}
	return open(path, ""), out, nil
}

func take(p *place, f watch.Folder) {
	for _, b := range f.Books {
		if b.Rival != "" {
			p.notes = append(p.notes, fmt.Sprintf("%s: two versions of it (%s); keep one", filepath.Base(b.Path), filepath.Base(b.Rival)))
			continue
		}
		p.books = append(p.books, b.Path)
	}
	for _, l := range f.Left {
		p.notes = append(p.notes, fmt.Sprintf("%s: %s", filepath.Base(l.Path), l.Why))
	}
}

func jobName(dir string) string {
	if abs, err := filepath.Abs(dir); err == nil {
		dir = abs
	}
	return filepath.Base(dir)
}

// open reads the shop's standards from the folder above a single job, else from the root: a
// job may hold standards of its own, which rule over those. State is kept where a run on the
// whole root keeps it.
func open(root, above string) shop {
	s := shop{root: root, table: standard.BuiltIn()}
	for _, dir := range []string{above, root} {
		if dir != "" && s.readStandards(dir) {
			s.root = dir
			return s
		}
	}
	if home, err := watch.Home(root); err == nil {
		s.root = home
	}
	return s
}

// readStandards puts the standards workbook of a folder, if it has one, over the built-in
// values.
func (s *shop) readStandards(dir string) bool {
	path, data, err := standardsIn(dir)
	if err != nil || path == "" {
		return false
	}
	st, err := standards.Read(path, data)
	if err != nil {
		return false
	}
	s.table, s.from, s.says = st.Over(s.table), path, st
	for _, p := range st.Problems {
		s.notes = append(s.notes, p.Error())
	}
	return true
}

// stage is how far a job has come, by the list of jobs or a word in the name of its folder, or
// of one that it lies in.
func (s shop) stage(p place) (check.Stage, bool) {
	for dir := p.path; dir != filepath.Dir(dir) && dir != s.root; dir = filepath.Dir(dir) {
		word := s.says.Job(filepath.Base(dir)).Stage
		for st := check.Quoted; st <= check.Shipped; st++ {
			if word == st.String() {
				return st, true
			}
		}
	}
	return 0, false
}
