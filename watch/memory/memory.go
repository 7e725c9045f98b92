// Package memory keeps bytes by key in one file from run to run. Whoever uses it must be able to
// make every value anew: a file that is lost or damaged costs time, never a result. It knows
// keys and bytes, and nothing of what they mean.
//
// The file is a list of records, each with a checksum; new ones are added at the end, and the
// last one of a key counts. A file with a damaged or half written record is forgotten as a
// whole, because what was lost may have replaced what is left. There is nothing to repair and
// no state but the list, so that any bytes at all may be found in the file.
package memory

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// begin stands at the start of the file. Another format gets another number.
const begin = "dryfit memory 1\n"

// Limits of a record. A length above them can only come from damage.
const (
	mostKey   = 4 << 10
	mostValue = 64 << 20
)

// headSize is a checksum of all that follows it, the length of the key and that of the value,
// which is one more than its bytes; 0 says that the key is forgotten.
const headSize = 4 + 4 + 4

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// PeekSize is how many bytes of each value are held, for Peek.
const PeekSize = 96

// Store holds the values of one file. The caller sees to it that no other process has the file
// open. Its methods may be called side by side. A nil Store remembers nothing.
type Store struct {
	path string

	mu    sync.Mutex
	file  *os.File
	end   int64            // where the next record goes
	dead  int64            // bytes of records that no longer count
	at    map[string]place // by key
	fault error            // the first write that failed; nothing is written after it
}

type place struct {
	offset int64
	length uint32 // of the value
	start  string // of the value, as much of it as Peek gives
}

func (p place) size(key string) int64 { return headSize + int64(len(key)) + int64(p.length) }

// Open opens the file at path, or makes it. Damage is no error: forgotten tells that the file
// held something and all of it was given up. The error is for a file that cannot be read or made.
func Open(path string) (s *Store, forgotten bool, err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return nil, false, err
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, false, err
	}
	s = &Store{path: path, file: f, at: map[string]place{}}
	if forgotten, err = s.load(); err != nil {
		f.Close()
		return nil, false, fmt.Errorf("%s: %w", path, err)
	}
	return s, forgotten, nil
}

// load reads the records if they are all whole, and else begins anew.
func (s *Store) load() (forgotten bool, err error) {
	size, err := s.file.Seek(0, io.SeekEnd)
	if err != nil {
		return false, err
	}
	if _, err := s.file.Seek(0, io.SeekStart); err != nil {
		return false, err
	}
	r := bufio.NewReaderSize(s.file, 1<<20)
	head := make([]byte, len(begin))
	if _, err := io.ReadFull(r, head); err == nil && string(head) == begin {
		s.end = int64(len(begin))
		var body []byte
		for s.next(r, &body) {
		}
	}
	if size > 0 && s.end == size {
		return false, nil
	}
	s.at, s.dead, s.end = map[string]place{}, 0, int64(len(begin))
	err = s.file.Truncate(0)
	if err == nil {
		_, err = s.file.WriteAt([]byte(begin), 0)
	}
	return size > 0, err
}

// next reads one record into body; false at the end, and at damage.
func (s *Store) next(r *bufio.Reader, body *[]byte) bool {
	var head [headSize]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return false
	}
	sum, keyLen, valueLen := parts(head[:])
	if keyLen > mostKey || valueLen > mostValue {
		return false
	}
	n := int(keyLen) + max(int(valueLen)-1, 0)
	*body = slices.Grow((*body)[:0], n)[:n]
	if _, err := io.ReadFull(r, *body); err != nil || checksum(head[:], *body) != sum {
		return false
	}
	held := string((*body)[:min(n, int(keyLen)+PeekSize)])
	s.note(held[:keyLen], held[keyLen:], valueLen)
	return true
}

func parts(head []byte) (sum, keyLen, valueLen uint32) {
	return binary.LittleEndian.Uint32(head), binary.LittleEndian.Uint32(head[4:]), binary.LittleEndian.Uint32(head[8:])
}

func checksum(head, body []byte) uint32 {
	return crc32.Update(crc32.Checksum(head[4:], castagnoli), castagnoli, body)
}

// note takes a record at the end of the file into account.
func (s *Store) note(key, start string, valueLen uint32) {
	if old, known := s.at[key]; known {
		s.dead += old.size(key)
	}
	p := place{offset: s.end}
	if valueLen == 0 {
		delete(s.at, key)
		s.dead += p.size(key)
	} else {
		p.length, p.start = valueLen-1, start
		s.at[key] = p
	}
	s.end += p.size(key)
}

// Get gives the value of a key, nil when it is not remembered.
func (s *Store) Get(key string) []byte {
	if s == nil {
		return nil
	}
	s.mu.Lock()
	p, known := s.at[key]
	file := s.file
	s.mu.Unlock()
	if !known {
		return nil
	}
	record := make([]byte, p.size(key))
	if _, err := file.ReadAt(record, p.offset); err != nil {
		return nil
	}
	if sum, _, _ := parts(record); sum != checksum(record[:headSize], record[headSize:]) {
		return nil
	}
	return record[headSize+len(key):]
}

// Peek gives the first bytes of a value, at most PeekSize, without reading the file; empty when
// it is not remembered.
func (s *Store) Peek(key string) string {
	if s == nil {
		return ""
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.at[key].start
}

// Put remembers a value, of at most 64 MiB, under a key of at most 4 KiB. It is there after a
// kill of this process; only Close and Sync see it through a power cut.
func (s *Store) Put(key string, value []byte) error {
	if len(key) > mostKey || len(value) >= mostValue {
		return fmt.Errorf("%d bytes under a key of %d: too long to remember", len(value), len(key))
	}
	return s.add(key, value, uint32(len(value))+1)
}

// Forget drops a key.
func (s *Store) Forget(key string) error { return s.add(key, nil, 0) }

func (s *Store) add(key string, value []byte, valueLen uint32) error {
	if s == nil {
		return nil
	}
	record := make([]byte, headSize, headSize+len(key)+len(value))
	binary.LittleEndian.PutUint32(record[4:], uint32(len(key)))
	binary.LittleEndian.PutUint32(record[8:], valueLen)
	record = append(append(record, key...), value...)
	binary.LittleEndian.PutUint32(record, checksum(record[:headSize], record[headSize:]))

	s.mu.Lock()
	defer s.mu.Unlock()
	if s.fault != nil {
		return s.fault
	}
	if _, err := s.file.WriteAt(record, s.end); err != nil {
		s.fault = err // what stands at the end is not known any more
		return err
	}
	s.note(key, string(value[:min(len(value), PeekSize)]), valueLen)
	return nil
}

// Keys gives the keys that are remembered, in no order.
func (s *Store) Keys() []string {
	if s == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	keys := make([]string, 0, len(s.at))
	for k := range s.at {
		keys = append(keys, k)
	}
	return keys
}

// Sync sees what was put through a power cut.
func (s *Store) Sync() error {
	if s == nil {
		return nil
	}
	return s.file.Sync()
}

// mostDead is how many bytes that no longer count are kept before the file is written anew.
const mostDead = 1 << 20

// Close ends the use of the file. One that is mostly dead records is written anew.
func (s *Store) Close() error {
	if s == nil {
		return nil
	}
	var err error
	if s.fault == nil && s.dead > mostDead && s.dead > s.end/2 {
		err = s.rewrite()
	}
	return errors.Join(err, s.file.Close())
}

// rewrite copies the records that count into a new file and puts it in place of the old one.
func (s *Store) rewrite() error {
	temp := s.path + ".new"
	f, err := os.Create(temp)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(f, 1<<20)
	w.WriteString(begin)
	for key, p := range s.at {
		if _, err = io.Copy(w, io.NewSectionReader(s.file, p.offset, p.size(key))); err != nil {
			break
		}
	}
	err = errors.Join(err, w.Flush(), f.Sync(), f.Close())
	if err == nil {
		s.file.Close() // a file that is open cannot be replaced on every system
		if err = os.Rename(temp, s.path); err == nil {
			s.file, err = os.Open(s.path)
			return err
		}
		s.file, _ = os.Open(s.path)
	}
	return errors.Join(err, os.Remove(temp))
}
