package watch

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// end is how a replacement ended.
type end int

const (
	unended end = iota
	placed      // the new file went in for the one that was read
	dropped     // it did not: the old file or somebody's save stands
)

// finish brings a replacement to its end from wherever it stands, in the same run or after a
// kill. What tells is the temporary file: after an exchange it holds what came out.
//
//	not ready, or our own bytes    scrap: remove it
//	what we expected to come out   done: to the backups
//	what we were putting back      put it back, if what it belongs over is still there
//	anything else                  a person saved in between: put it back
//
// Where a later save stands under the name already, an unknown one is kept beside it.
func (m machine) finish(s *swap) (end, error) {
	how := unended
	for how == unended {
		var err error
		if how, err = m.step(s); err != nil {
			return how, err
		}
	}
	return how, m.closeJournal(s)
}

// step does one exchange at most, so that each is decided on what really lies there.
func (m machine) step(s *swap) (end, error) {
	if err := m.Mend(s.temp, s.path); err != nil {
		return unended, err
	}
	temp, err := m.hash(s.temp)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return m.withoutTemp(s)
	case err != nil:
		return unended, err
	case !s.ready || temp == s.ours:
		return dropped, m.Remove(s.temp)
	case temp == s.before():
		return m.putAway(s, temp)
	}
	path, err := m.hash(s.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return m.unlessExists(m.RenameNew(s.temp, s.path))
	case err != nil:
		return unended, err
	case path == s.last():
		return unended, m.putBack(s, temp)
	case temp == s.last() && path == s.before():
		return unended, m.Exchange(s.temp, s.path)
	}
	return m.keepBeside(s)
}

// withoutTemp is the end of a new file's way, of a rename, and of a run killed just before it
// removed its journal.
func (m machine) withoutTemp(s *swap) (end, error) {
	path, err := m.hash(s.path)
	switch {
	case err != nil && s.tried && !errors.Is(err, fs.ErrNotExist):
		return unended, err
	case err != nil || path != s.ours:
		return dropped, nil // nothing was displaced, so nothing can be lost
	}
	if err := m.SyncDir(filepath.Dir(s.path)); err != nil {
		return placed, err
	}
	m.noteWrote(s)
	return placed, nil
}

// putBack writes down what it is about to put back, then exchanges. Without room for the line
// it exchanges all the same: only a kill in the next instant could then need it.
func (m machine) putBack(s *swap, save Hash) error {
	_ = m.logLine(s, fmt.Sprintf("put %x\n", save))
	s.puts = append(s.puts, save)
	return m.Exchange(s.temp, s.path)
}

// putAway moves what was displaced to the backups.
func (m machine) putAway(s *swap, out Hash) (end, error) {
	how := placed
	if len(s.puts) > 0 {
		how = dropped
	}
	if err := m.SyncDir(filepath.Dir(s.path)); err != nil {
		return how, err
	}
	if err := m.backup(s, s.temp, out, moveAway); err != nil {
		return how, err
	}
	if how == placed {
		m.noteWrote(s)
	}
	return how, nil
}

func (m machine) unlessExists(err error) (end, error) {
	if errors.Is(err, fs.ErrExist) {
		return unended, nil // somebody saved just now: decide again
	}
	return dropped, err
}

// keepBeside gives a save that cannot be put back a name that a person sees.
func (m machine) keepBeside(s *swap) (end, error) {
	s.kept = beside(s.path, keptMiddle+s.id+filepath.Ext(s.path))
	return dropped, m.RenameNew(s.temp, s.kept)
}

const keptMiddle = " - kept by dryfit "
