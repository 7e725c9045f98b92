package watch

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"dryfit/watch/disk"
)

// Recover ends the replacements that a kill or a power cut left half done under a root: it puts
// back what a person had saved, removes our scrap, and moves displaced originals to the backups.
// It gives a line for each save that it had to keep beside the workbook. The caller holds
// Lock(root). One that cannot be ended does not stop the others; it stays for the next start.
func Recover(ctx context.Context, root string) (notes []string, err error) {
	return machine{disk.System{}}.recover(ctx, root)
}

func (m machine) recover(ctx context.Context, root string) (notes []string, err error) {
	root, err = filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	state := filepath.Join(root, stateFolder)
	entries, err := m.ReadDir(state)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), journalStart) {
			continue
		}
		if ctx.Err() != nil {
			return notes, errors.Join(err, ctx.Err())
		}
		note, failed := m.resume(root, filepath.Join(state, e.Name()))
		if note != "" {
			notes = append(notes, note)
		}
		err = errors.Join(err, failed)
	}
	return notes, err
}

func (m machine) resume(root, journal string) (note string, err error) {
	s, err := m.readJournal(root, journal)
	if err != nil {
		return "", err
	}
	if s == nil {
		return "", m.Remove(journal)
	}
	if _, err := m.finish(s); err != nil {
		return "", fmt.Errorf("end the interrupted write of %q: %w", s.path, err)
	}
	if s.kept != "" {
		note = fmt.Sprintf("%q: two versions; the one a person saved while a write was interrupted is %q; keep one", s.path, s.kept)
	}
	return note, nil
}
