package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"dryfit/sheet/graft"
	"dryfit/sheet/write"
	"dryfit/watch"
)

// kept is what is worth remembering of a job beside its report.
type kept struct {
	typed write.Typed           // what people wrote beside its findings, the newest word on each
	read  map[string]watch.Hash // the workbooks as they were read, by path
	wrote map[string]watch.Hash // what stands under a path since we wrote
	busy  bool                  // a workbook was open or was being saved: look again soon
}

// readSaved reads a file, and when it was saved by the clock of its disk.
func readSaved(path string) ([]byte, time.Time, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, time.Time{}, err
	}
	data, err := os.ReadFile(path)
	return data, info.ModTime().UTC(), err
}

// hear gathers what people wrote on our tabs: in the workbooks of a job, in siblings beside
// them, and elsewhere, that is in the roll-up.
func (out *outcome) hear(books []book, elsewhere write.Typed) {
	out.typed, out.read = write.Typed{}, map[string]watch.Hash{}
	for _, b := range books {
		out.read[b.path] = watch.Sum(b.data)
		typed, err := write.ReadTyped(b.data, b.saved)
		out.hearFrom(b.path, typed, err)
		out.hearSibling(watch.Sibling(b.path))
	}
	out.typed.Hear(elsewhere)
}

func (out *outcome) hearSibling(path string) {
	data, saved, err := readSaved(path)
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	var typed write.Typed
	if err == nil {
		out.read[path] = watch.Sum(data)
		typed, err = write.ReadAlone(data, saved)
	}
	out.hearFrom(path, typed, err)
}

func (out *outcome) hearFrom(path string, typed write.Typed, err error) {
	if err != nil {
		out.notes = append(out.notes, fmt.Sprintf("%s: what was typed there could not be read: %v", filepath.Base(path), err))
	}
	out.typed.Hear(typed)
}

// writeAll puts the result tabs into every workbook that holds a part schedule; where a
// workbook must be left alone, into a sibling beside it.
func (out *outcome) writeAll(ctx context.Context, s shop, books []book) {
	out.wrote = map[string]watch.Hash{}
	for _, b := range books {
		if !hasParts(b.read) {
			continue
		}
		if err := out.put(ctx, s, b); err != nil {
			out.busy = out.busy || errors.Is(err, watch.ErrChanged) || errors.Is(err, watch.ErrOpen)
			out.notes = append(out.notes, fmt.Sprintf("%s: results not written: %v", filepath.Base(b.path), err))
		}
	}
}

// put writes the tabs into one workbook. A sibling from a day when that was not possible has
// done its service; what was typed into it has been read.
func (out *outcome) put(ctx context.Context, s shop, b book) error {
	tabs, err := write.Tabs(out.report, b.path, version, out.typed)
	if err != nil {
		return err
	}
	grafted, err := graft.Graft(b.data, tabs)
	var refusal *graft.Refusal
	switch {
	case errors.As(err, &refusal):
		return out.sibling(ctx, s, b, refusal.Reason)
	case err != nil:
		return err
	}
	if err := graft.Verify(b.data, grafted); err != nil {
		return fmt.Errorf("the new workbook did not pass its own test and was dropped: %w", err)
	}
	res, err := watch.Replace(ctx, watch.Change{Root: s.root, Path: b.path, Was: out.read[b.path], New: grafted})
	var refused *watch.Refused
	switch {
	case errors.As(err, &refused):
		out.busy = out.busy || errors.Is(refused.Reason, watch.ErrOpen)
		return out.sibling(ctx, s, b, refused.Reason.Error())
	case err != nil && !errors.Is(err, watch.ErrUnfinished):
		return err
	}
	out.wroteTo(b.path, grafted, res.Note)
	out.retire(s, watch.Sibling(b.path))
	return nil
}

func (out *outcome) retire(s shop, sibling string) {
	sum, stood := out.read[sibling]
	if !stood {
		return
	}
	if err := watch.Retire(s.root, sibling, sum); err != nil {
		out.busy = true
		out.notes = append(out.notes, fmt.Sprintf("%s: no longer needed, but it stays: %v", filepath.Base(sibling), err))
	}
}

// sibling writes the results beside a workbook that must be left alone.
func (out *outcome) sibling(ctx context.Context, s shop, b book, why string) error {
	path := watch.Sibling(b.path)
	alone, err := write.Alone(out.report, version, out.typed)
	if err != nil {
		return err
	}
	if _, err := watch.Replace(ctx, watch.Change{Root: s.root, Path: path, Was: out.read[path], New: alone}); err != nil {
		return err
	}
	out.wroteTo(path, alone, fmt.Sprintf("%s: %s; results are in %s", filepath.Base(b.path), why, filepath.Base(path)))
	return nil
}

func (out *outcome) wroteTo(path string, data []byte, note string) {
	out.written = append(out.written, path)
	out.wrote[path] = watch.Sum(data)
	if note != "" {
		out.notes = append(out.notes, note)
	}
}
