package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"dryfit/check"
	"dryfit/check/catalogue"
	"dryfit/sheet/gate"
	"dryfit/sheet/read"
)

// outcome is what came of one job.
type outcome struct {
	place   place
	report  *check.Report // nil when the job could not be read
	written []string
	notes   []string // what was not written, and why
	err     error
	kept
}

// book is one workbook of a job: its bytes as read, and how it was understood.
type book struct {
	path  string
	data  []byte
	saved time.Time // as its folder says
	read  *read.Book
}

// options say what to do with a job.
type options struct {
	checks []*check.Check
	write  bool
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
	books, job, err := understand(s, p, &out)
	if err != nil {
		out.err = err
		return out
	}
	if stage, said := s.stage(p); said {
		job.Stage = stage
	}
	out.hear(books, p.said)
	out.report = check.Examine(o.checks, job, out.typed.Words())
	if o.write {
		out.writeAll(ctx, s, books)
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
	data, saved, err := readSaved(path)
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
	return book{path: path, data: data, saved: saved, read: r}, nil
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
