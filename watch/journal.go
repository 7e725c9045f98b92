package watch

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"

	"dryfit/watch/disk"
)

// stateFolder is the hidden folder at a root that holds the lock, journals and backups.
const stateFolder = ".dryfit"

const (
	tempStart    = ".dryfit-"
	tempEnd      = ".tmp"
	journalStart = "write-"
)

// swap is one replacement under way. Its journal is a text file of lines "word value":
//
//	path "Job 7/parts.xlsx"   relative to the root, quoted as in Go
//	want HASH                 of the file that was read
//	ours HASH                 of the new file
//	ready                     the temporary file is whole; from here on it is not scrap
//	put HASH                  a save that came between and is about to be put back
//
// A line counts when it ends. The lines up to ready are made to last before the exchange, each
// put before its own.
type swap struct {
	id      string
	state   string // the state folder
	name    string // relative to the root
	path    string
	temp    string // same folder as path
	journal string
	backups string // folder of the backups of this file
	copy    string // a backup being copied

	want, ours Hash
	ready      bool
	puts       []Hash

	tried bool // this run has tried to put the new file in its place

	log  disk.File // the journal, open for adding
	kept string    // where a save was kept that could not be put back
}

func makeSwap(root, name, id string, want, ours Hash) *swap {
	path := filepath.Join(root, name)
	state := filepath.Join(root, stateFolder)
	return &swap{
		id: id, state: state, name: name, path: path, want: want, ours: ours,
		temp:    filepath.Join(filepath.Dir(path), tempStart+id+tempEnd),
		journal: filepath.Join(state, journalStart+id),
		backups: filepath.Join(state, "backup", name),
		copy:    filepath.Join(state, "backup", name, id+tempEnd),
	}
}

func newID() string {
	var b [6]byte
	rand.Read(b[:])
	return hex.EncodeToString(b[:])
}

func (s *swap) isNew() bool { return s.want == Hash{} }

// last is what we last put under the name, before what should have come out for it.
func (s *swap) last() Hash {
	if n := len(s.puts); n > 0 {
		return s.puts[n-1]
	}
	return s.ours
}

func (s *swap) before() Hash {
	switch n := len(s.puts); n {
	case 0:
		return s.want
	case 1:
		return s.ours
	default:
		return s.puts[n-2]
	}
}

// openJournal begins a journal. It need not last yet: without it the temporary file is scrap.
func (m machine) openJournal(s *swap) error {
	err := m.makeState(s.state)
	if err == nil {
		s.log, err = m.Append(s.journal)
	}
	if errors.Is(err, fs.ErrPermission) {
		return &Refused{s.path, fmt.Errorf("%w: %w", ErrFolder, err)}
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.log, "path %q\nwant %x\nours %x\n", filepath.ToSlash(s.name), s.want, s.ours)
	return err
}

func (m machine) makeState(state string) error {
	if _, err := m.Lstat(state); err == nil {
		return nil
	}
	if err := m.MkdirAll(state); err != nil {
		return err
	}
	return disk.Hide(state)
}

func (m machine) writeReady(s *swap) error {
	if s.isNew() {
		return nil // nothing will be displaced: the temporary file stays scrap to its end
	}
	if err := m.logLine(s, "ready\n"); err != nil {
		return err
	}
	s.ready = true
	return m.SyncDir(s.state)
}

func (m machine) logLine(s *swap, line string) error {
	if s.log == nil {
		log, err := m.Append(s.journal)
		if err != nil {
			return err
		}
		s.log = log
	}
	if _, err := s.log.Write([]byte(line)); err != nil {
		return err
	}
	return s.log.Sync()
}

func (m machine) closeJournal(s *swap) error {
	if s.log != nil {
		s.log.Close()
		s.log = nil
	}
	for _, file := range []string{s.copy, s.journal} { // the journal last
		if err := m.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// readJournal reads the journal of an interrupted replacement; nil when it ends before it says
// what was to be replaced, and so before there was a temporary file.
func (m machine) readJournal(root, file string) (*swap, error) {
	data, err := m.ReadFile(file)
	if err != nil {
		return nil, err
	}
	id := strings.TrimPrefix(filepath.Base(file), journalStart)
	var name string
	var want, ours Hash
	var s *swap
	for line := range strings.Lines(string(data)) {
		word, value, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		if !strings.HasSuffix(line, "\n") {
			break
		}
		switch {
		case word == "path":
			name, err = strconv.Unquote(value)
		case word == "want":
			want, err = parseHash(value)
		case word == "ours":
			ours, err = parseHash(value)
			s = makeSwap(root, filepath.FromSlash(name), id, want, ours)
		case word == "ready" && s != nil:
			s.ready = true
		case word == "put" && s != nil:
			var h Hash
			h, err = parseHash(value)
			s.puts = append(s.puts, h)
		default:
			err = fmt.Errorf("a line that is not known")
		}
		if err != nil {
			return nil, fmt.Errorf("journal %q: read %q: %w", file, line, err)
		}
	}
	if s != nil && !filepath.IsLocal(s.name) {
		return nil, fmt.Errorf("journal %q: the path %q leads out of the root", file, s.name)
	}
	return s, nil
}

func parseHash(text string) (Hash, error) {
	var h Hash
	b, err := hex.DecodeString(text)
	if err == nil && len(b) != len(h) {
		err = fmt.Errorf("%d hex digits, expected %d", len(text), 2*len(h))
	}
	copy(h[:], b)
	return h, err
}
