package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/check/infer"
	"dryfit/sheet/gate"
	"dryfit/sheet/graft"
	"dryfit/sheet/read"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// outcome is what came of one job.
type outcome struct {
	place   place
	report  *check.Report // nil when the job could not be read
	written []string
	notes   []string // what was not written, and why
	err     error
}

// book is one workbook of a job: its bytes as read, and how it was understood.
type book struct {
	path string
	data []byte
	read *read.Book
}

// options say what to do with a job.
type options struct {
	checks []*check.Check
	write  bool
	units  string // "in", "mm", or "" for the job's own
}

// work reads one job, checks it and writes the result tabs. A fault of one job never
// reaches another.
func work(ctx context.Context, s shop, p place, o options) (out outcome) {
	out.place = p
	out.notes = p.notes
	defer func() {
		if fault := recover(); fault != nil {
			out.report, out.err = nil, fmt.Errorf("stopped by a fault of ours: %v; please report it with the workbook", fault)
		}
	}()
	books, err := openBooks(s, p, &out)
	if err != nil {
		out.err = err
		return out
	}
	job, err := read.Job(p.name, p.path, readings(books), s.table)
	if err != nil {
		out.err = err
		return out
	}
	infer.Complete(job)
	typed, err := typedIn(books)
	if err != nil {
		out.notes = append(out.notes, err.Error())
	}
	out.report = check.Examine(o.checks, job, typed.Words())
	if o.write {
		out.writeAll(ctx, s, books, typed)
	}
	return out
}

// openBooks reads the workbooks of a job. One that cannot be read fails the job, but only
// after all were looked at, so that each is named.
func openBooks(s shop, p place, out *outcome) ([]book, error) {
	if len(p.books) == 0 {
		return nil, fmt.Errorf("no workbook in it; a job folder holds at least one .xlsx or .xlsm with a part schedule")
	}
	var books []book
	var faults []error
	for _, path := range p.books {
		b, err := openBook(s, path)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", filepath.Base(path), err))
			continue
		}
		books = append(books, b)
	}
	if len(faults) > 0 && !anyParts(books) {
		return nil, errors.Join(faults...)
	}
	for _, f := range faults {
		out.notes = append(out.notes, f.Error())
		out.err = errors.Join(out.err, f)
	}
	if !anyParts(books) {
		return nil, fmt.Errorf("%w; \"dryfit read\" shows how it was understood", read.ErrNoParts)
	}
	return books, nil
}

func openBook(s shop, path string) (book, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return book{}, err
	}
	if err := gate.Check(data); err != nil {
		return book{}, err
	}
	r, err := read.Open(path, data, s.table)
	if err != nil {
		return book{}, err
	}
	return book{path: path, data: data, read: r}, nil
}

func anyParts(books []book) bool {
	for _, b := range books {
		if hasParts(b.read) {
			return true
		}
	}
	return false
}

func hasParts(b *read.Book) bool {
	for _, t := range b.Tabs {
		if t.Kind == "parts" || slices.Contains(t.Also, "parts") {
			return true
		}
	}
	return false
}

func readings(books []book) []*read.Book {
	var out []*read.Book
	for _, b := range books {
		out = append(out, b.read)
	}
	return out
}

// typedIn gathers what people wrote on our tabs in the workbooks of a job.
func typedIn(books []book) (write.Typed, error) {
	all := write.Typed{}
	var faults []error
	for _, b := range books {
		t, err := write.ReadTyped(b.data)
		if err != nil {
			faults = append(faults, err)
		}
		for k, said := range t {
			all[k] = said
		}
	}
	return all, errors.Join(faults...)
}

// writeAll puts the result tabs into every workbook that holds a part schedule; where a
// workbook must be left alone, into a sibling beside it.
func (out *outcome) writeAll(ctx context.Context, s shop, books []book, typed write.Typed) {
	for _, b := range books {
		if !hasParts(b.read) {
			continue
		}
		path, note, err := put(ctx, s, b, out.report, typed)
		if note != "" {
			out.notes = append(out.notes, note)
		}
		if err != nil {
			out.notes = append(out.notes, fmt.Sprintf("%s: results not written: %v", filepath.Base(b.path), err))
			continue
		}
		out.written = append(out.written, path)
	}
}

// put writes the tabs into one workbook and returns the path of the file that holds them.
func put(ctx context.Context, s shop, b book, rep *check.Report, typed write.Typed) (path, note string, err error) {
	tabs, err := write.Tabs(rep, b.path, version, typed)
	if err != nil {
		return "", "", err
	}
	grafted, err := graft.Graft(b.data, tabs)
	var refusal *graft.Refusal
	switch {
	case errors.As(err, &refusal):
		return sibling(ctx, s, b, rep, typed, refusal.Reason)
	case err != nil:
		return "", "", err
	}
	if err := graft.Verify(b.data, grafted); err != nil {
		return "", "", fmt.Errorf("the new workbook did not pass its own test and was dropped: %w", err)
	}
	res, err := watch.Replace(ctx, watch.Change{Root: s.root, Path: b.path, Was: watch.Sum(b.data), New: grafted})
	var refused *watch.Refused
	switch {
	case errors.As(err, &refused):
		return sibling(ctx, s, b, rep, typed, refused.Reason.Error())
	case err != nil && !errors.Is(err, watch.ErrUnfinished):
		return "", "", err
	}
	return b.path, res.Note, nil
}

// sibling writes the results beside a workbook that must be left alone.
func sibling(ctx context.Context, s shop, b book, rep *check.Report, typed write.Typed, why string) (string, string, error) {
	path := watch.Sibling(b.path)
	alone, err := write.Alone(rep, version, typed)
	if err != nil {
		return "", "", err
	}
	var was watch.Hash
	if old, err := os.ReadFile(path); err == nil {
		was = watch.Sum(old)
	}
	if _, err := watch.Replace(ctx, watch.Change{Root: s.root, Path: path, Was: was, New: alone}); err != nil {
		return "", "", err
	}
	return path, fmt.Sprintf("%s: %s; results are in %s", filepath.Base(b.path), why, filepath.Base(path)), nil
}

// chosen are the checks that --only names: an ID, or a room such as "fit".
func chosen(only []string) ([]*check.Check, error) {
	if len(only) == 0 {
		return catalogue.All, nil
	}
	var out []*check.Check
	for _, name := range only {
		n := len(out)
		for _, c := range catalogue.All {
			if c.ID == name || room(c.ID) == name {
				out = append(out, c)
			}
		}
		if len(out) == n {
			return nil, fmt.Errorf("--only %s: no check and no room of checks is called so; \"dryfit explain\" lists them", name)
		}
	}
	return out, nil
}
