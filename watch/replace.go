package watch

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"dryfit/watch/disk"
)

// Hash is the SHA-256 of a file's bytes.
type Hash [sha256.Size]byte

// Sum hashes the bytes of a file.
func Sum(data []byte) Hash { return sha256.Sum256(data) }

// Change is a file to be put in place of another, whole or not at all.
type Change struct {
	Root string // the folder whose hidden state folder takes journal and backups; Path lies in it
	Path string
	Was  Hash   // of the bytes from which New was made; the zero Hash when there was no file
	New  []byte // the whole new file
}

// Result is what came of a Change.
type Result struct {
	Written bool   // false with no error: the file already holds these bytes and was not touched
	Note    string // what the reader of a report should know, or empty
}

var (
	// ErrChanged: somebody saved, removed or made the file since its bytes were read. Theirs
	// stands. Read again once it has settled.
	ErrChanged = errors.New("changed since it was read")
	// ErrUnfinished: a whole file stands in its place, the new one if Written, but what was
	// displaced could not be put away. Recover does it at the next start.
	ErrUnfinished = errors.New("replaced, but not tidied up")
)

// Replace puts c.New in place of the file at c.Path, whole or not at all: at every moment, also
// after a kill, the name stands for the old file or the new one. A save by somebody else is
// never lost; where one falls into the same instant, theirs stands and the error is ErrChanged.
// A *Refused asks for a sibling workbook; any other error leaves the old file as it was, except
// ErrUnfinished, where Written tells.
//
// The caller holds Lock(c.Root). Several files may be replaced side by side.
func Replace(ctx context.Context, c Change) (Result, error) {
	return machine{disk.System{}}.replace(ctx, c)
}

// Retire takes away a file of ours that is no longer wanted, such as a sibling workbook whose
// results went into the workbook at last. What somebody saved into it meanwhile is not taken:
// ErrChanged. A *Refused when it is open. The caller holds Lock(root).
func Retire(root, path string, was Hash) error {
	return machine{disk.System{}}.retire(root, path, was)
}

// machine does the steps of a replacement.
type machine struct{ disk.Calls }

func (m machine) replace(ctx context.Context, c Change) (Result, error) {
	s, err := newSwap(c)
	if err != nil {
		return Result{}, err
	}
	now, err := m.look(s)
	switch {
	case err != nil:
		return Result{}, err
	case now == s.ours:
		return Result{}, nil
	case now != s.want:
		return Result{}, s.changed()
	}
	if err := m.prepare(ctx, s, c.New); err != nil {
		if _, undo := m.finish(s); undo != nil {
			err = fmt.Errorf("%w; and %w: %w", err, ErrUnfinished, undo)
		}
		return Result{}, s.explain(err)
	}
	return m.place(ctx, s)
}

// retire is a replacement by nothing.
func (m machine) retire(root, path string, was Hash) error {
	s, err := newSwap(Change{Root: root, Path: path, Was: was})
	if err != nil {
		return err
	}
	s.ours = Hash{}
	if err := m.lookAgain(s); err != nil {
		return err
	}
	err = m.openJournal(s)
	if err == nil {
		err = m.writeReady(s)
	}
	if err == nil {
		err = m.RenameNew(s.path, s.temp)
	}
	end, unfinished := m.finish(s)
	switch {
	case unfinished != nil:
		return fmt.Errorf("%q: %w: %w", s.path, ErrUnfinished, errors.Join(err, unfinished))
	case end == placed:
		return nil
	case err != nil:
		return s.explain(err)
	}
	return s.changed()
}

// newSwap finds where the change takes place and refuses a name that leads out of the root.
func newSwap(c Change) (*swap, error) {
	root, err := filepath.Abs(c.Root)
	if err != nil {
		return nil, err
	}
	path, err := filepath.Abs(c.Path)
	if err != nil {
		return nil, err
	}
	name, err := filepath.Rel(root, path)
	if err != nil || !filepath.IsLocal(name) || name == "." {
		return nil, fmt.Errorf("%q is not in the folder %q", c.Path, c.Root)
	}
	inside, err := os.OpenRoot(root)
	if err != nil {
		return nil, err
	}
	defer inside.Close()
	if _, err := inside.Stat(filepath.Dir(name)); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		return nil, &Refused{path, fmt.Errorf("%w: %w", ErrLink, err)}
	}
	return makeSwap(root, name, newID(), c.Was, Sum(c.New)), nil
}

// look refuses what must be left alone and gives the hash of what stands under the name, the
// zero Hash for nothing.
func (m machine) look(s *swap) (Hash, error) {
	st, err := m.Lstat(s.path)
	if errors.Is(err, fs.ErrNotExist) {
		return Hash{}, nil
	}
	if err != nil {
		return Hash{}, s.explain(err)
	}
	if reason := refusal(st); reason != nil {
		return Hash{}, &Refused{s.path, reason}
	}
	if by, open := OpenBy(s.path); open {
		return Hash{}, &Refused{s.path, fmt.Errorf("%w: %s", ErrOpen, by)}
	}
	now, err := m.hash(s.path)
	return now, s.explain(err)
}

// prepare does everything up to the exchange. After an error the file is as it was, and the
// temporary file and the journal are still there.
func (m machine) prepare(ctx context.Context, s *swap, data []byte) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := m.openJournal(s); err != nil {
		return err
	}
	if err := m.writeTemp(s, data); err != nil {
		return err
	}
	if err := m.lookAgain(s); err != nil { // writing took time
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	return m.writeReady(s)
}

func (m machine) lookAgain(s *swap) error {
	now, err := m.look(s)
	if err == nil && now != s.want {
		return s.changed()
	}
	return err
}

func (s *swap) changed() error { return fmt.Errorf("%q: %w", s.path, ErrChanged) }

func (m machine) writeTemp(s *swap, data []byte) error {
	perm := fs.FileMode(0o600) // until it has the rights of the file it will replace
	if s.isNew() {
		perm = 0o666
	}
	f, err := m.Create(s.temp, perm)
	if errors.Is(err, fs.ErrPermission) {
		return &Refused{s.path, fmt.Errorf("%w: %w", ErrFolder, err)}
	}
	if err != nil {
		return err
	}
	if err := errors.Join(m.fill(f, s, data), f.Close()); err != nil {
		return err
	}
	back, err := m.hash(s.temp)
	if err == nil && back != s.ours {
		err = fmt.Errorf("%q: other bytes were read back than written", s.temp)
	}
	return err
}

func (m machine) fill(f disk.File, s *swap, data []byte) error {
	if !s.isNew() {
		if err := f.CopyAttributes(s.path); err != nil {
			return err
		}
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Sync()
}

// place exchanges the files and sees the replacement to its end.
func (m machine) place(ctx context.Context, s *swap) (Result, error) {
	var note string
	var failed error
	s.tried = true
	switch {
	case s.isNew():
		failed = m.RenameNew(s.temp, s.path)
		if errors.Is(failed, fs.ErrExist) {
			failed = s.changed()
		}
	default:
		failed = m.exchange(ctx, s)
		if errors.Is(failed, disk.ErrNoExchange) {
			failed = m.overwrite(s)
			note = "this disk cannot exchange two files; a save in the same instant could have been lost; the file as it was read is in " + s.backups
		}
	}
	end, err := m.finish(s)
	switch {
	case err != nil:
		now, _ := m.hash(s.path)
		return Result{Written: now == s.ours}, fmt.Errorf("%q: %w: %w", s.path, ErrUnfinished, errors.Join(failed, err))
	case end == placed:
		return Result{Written: true, Note: note}, nil
	case failed != nil:
		return Result{}, s.explain(failed)
	case s.kept != "":
		return Result{}, fmt.Errorf("%q: %w; two people's saves met, the earlier one is kept as %q", s.path, ErrChanged, s.kept)
	}
	return Result{}, s.changed()
}

// exchange tries five times in ten seconds while another program holds the file.
func (m machine) exchange(ctx context.Context, s *swap) error {
	for try := 1; ; try++ {
		err := m.Exchange(s.temp, s.path)
		if try == 5 || !errors.Is(err, disk.ErrBusy) {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(2500 * time.Millisecond):
		}
	}
}

// overwrite is for file systems without an exchange: a copy of the original into the backups,
// one more look, and a rename over it. A save between the look and the rename is lost.
func (m machine) overwrite(s *swap) error {
	if err := m.backup(s, s.path, s.want, copyOnly); err != nil {
		return err
	}
	if err := m.lookAgain(s); err != nil {
		return err
	}
	return m.Rename(s.temp, s.path)
}

func (m machine) hash(name string) (Hash, error) {
	data, err := m.ReadFile(name)
	if err != nil {
		return Hash{}, err
	}
	return Sum(data), nil
}
