package watch

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
)

// Backups of a file: the first original ever and the last three distinct ones, named by number
// and hash. A file that we wrote and nobody changed since is no original; its hash stands in
// the file wrote beside them.
const (
	lastKept  = 3
	wroteName = "wrote"
)

type way bool

const (
	moveAway way = true
	copyOnly way = false
)

// backup puts the file from, a displaced original with the hash sum, into the backups.
func (m machine) backup(s *swap, from string, sum Hash, how way) error {
	if m.wrote(s) == sum {
		return m.spare(from, how)
	}
	if err := m.MkdirAll(s.backups); err != nil {
		return err
	}
	names, err := m.backupNames(s)
	if err != nil {
		return err
	}
	tag := fmt.Sprintf("%x", sum[:8])
	next := 1
	for _, name := range names {
		number, rest, _ := strings.Cut(name, "-")
		if strings.HasPrefix(rest, tag) {
			return m.spare(from, how)
		}
		fmt.Sscanf(number, "%d", &next)
		next++
	}
	to := filepath.Join(s.backups, fmt.Sprintf("%06d-%s%s", next, tag, filepath.Ext(s.path)))
	if err := m.store(s, from, to, sum, how); err != nil {
		return err
	}
	return m.prune(s, append(names, filepath.Base(to)))
}

// spare leaves an original that is in the backups already, or is none.
func (m machine) spare(from string, how way) error {
	if how == copyOnly {
		return nil
	}
	return m.Remove(from)
}

// store moves the file, or copies it where a move is not wanted or leads to another disk.
func (m machine) store(s *swap, from, to string, sum Hash, how way) error {
	if how == moveAway && m.RenameNew(from, to) == nil {
		return m.SyncDir(s.backups)
	}
	if err := m.writeCopy(s, from, to, sum); err != nil {
		return err
	}
	return m.spare(from, how)
}

func (m machine) writeCopy(s *swap, from, to string, sum Hash) error {
	data, err := m.ReadFile(from)
	if err != nil {
		return err
	}
	if Sum(data) != sum {
		return fmt.Errorf("%q: %w", from, ErrChanged)
	}
	_ = m.Remove(s.copy) // of an interrupted run
	f, err := m.Create(s.copy, 0o600)
	if err != nil {
		return err
	}
	_ = f.CopyAttributes(from) // as far as may be; else the copy is for its writer's eyes only
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err := m.Rename(s.copy, to); err != nil {
		return err
	}
	return m.SyncDir(s.backups)
}

// backupNames lists the backups of a file, oldest first.
func (m machine) backupNames(s *swap) ([]string, error) {
	entries, err := m.ReadDir(s.backups)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if strings.Contains(e.Name(), "-") && !strings.HasSuffix(e.Name(), tempEnd) {
			names = append(names, e.Name())
		}
	}
	return names, nil
}

func (m machine) prune(s *swap, names []string) error {
	for len(names) > 1+lastKept {
		if err := m.Remove(filepath.Join(s.backups, names[1])); err != nil {
			return err
		}
		names = append(names[:1], names[2:]...)
	}
	return nil
}

// wrote is the hash that we last put under the name, or the zero Hash.
func (m machine) wrote(s *swap) Hash {
	data, err := m.ReadFile(filepath.Join(s.backups, wroteName))
	if err != nil {
		return Hash{}
	}
	h, err := parseHash(strings.TrimSpace(string(data)))
	if err != nil {
		return Hash{}
	}
	return h
}

// noteWrote writes the hash down as well as it can: losing it costs one more backup. For a file
// that was taken away there is nothing to note, nor a folder to keep if it is empty.
func (m machine) noteWrote(s *swap) {
	if m.MkdirAll(s.backups) != nil {
		return
	}
	name := filepath.Join(s.backups, wroteName)
	_ = m.Remove(name)
	if s.ours == (Hash{}) {
		_ = m.Remove(s.backups)
		return
	}
	f, err := m.Create(name, 0o666)
	if err != nil {
		return
	}
	fmt.Fprintf(f, "%x\n", s.ours)
	f.Close()
}
