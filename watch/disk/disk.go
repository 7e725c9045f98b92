// Package disk is what a safe replacement of a file asks of the operating system, one method
// a call that can fail, and what each system answers in its own way: exchanging two files,
// carrying owner, rights and attributes over, telling a network share. It knows no order of
// steps; that is the work of package watch.
package disk

import (
	"errors"
	"io/fs"
	"os"
)

// Errors that the caller treats apart from others.
var (
	ErrNoExchange = errors.New("the file system cannot exchange two files")
	ErrBusy       = errors.New("another program holds the file")
	ErrAttributes = errors.New("owner, rights or attributes cannot be carried over")
)

// Calls are the calls of a replacement. System does them; tests make them fail.
type Calls interface {
	// Lstat tells about a name without following a link.
	Lstat(name string) (Status, error)
	// ReadFile reads a file whole; ErrBusy when its holder forbids reading.
	ReadFile(name string) ([]byte, error)
	// ReadDir lists a folder by name.
	ReadDir(name string) ([]fs.DirEntry, error)
	// Create makes a file with the rights perm less the umask; it fails when the name exists.
	Create(name string, perm fs.FileMode) (File, error)
	// Append opens a file to add to its end, and makes it when it does not exist.
	Append(name string) (File, error)
	// MkdirAll makes a folder and those above it.
	MkdirAll(name string) error
	// Exchange gives path the file temp and temp the file path. Where it returns an error
	// either nothing happened or Mend is owed. ErrNoExchange and ErrBusy: nothing happened.
	Exchange(temp, path string) error
	// Mend ends an Exchange that a crash cut in two; it does nothing where there is none.
	Mend(temp, path string) error
	// Rename moves a file over whatever bears the new name.
	Rename(from, to string) error
	// RenameNew moves a file and fails with fs.ErrExist when the new name is taken.
	RenameNew(from, to string) error
	// Remove deletes a file or an empty folder.
	Remove(name string) error
	// SyncDir makes the names in a folder last through a power cut.
	SyncDir(name string) error
}

// File is a file being written.
type File interface {
	Write(p []byte) (int, error)
	// CopyAttributes carries owner, rights, access list and extended attributes over from
	// another file; ErrAttributes when one of them cannot be.
	CopyAttributes(from string) error
	Sync() error
	Close() error
}

// Status is what a name stands for.
type Status struct {
	fs.FileInfo
	Links    uint64 // names of the file; more than one: a hard link would keep the old bytes
	ReadOnly bool   // somebody does not want it written, or we may not
}

// System makes the calls for real.
type System struct{}

// ReadDir lists a folder by name.
func (System) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// ReadFile reads a file whole; ErrBusy when its holder forbids reading.
func (System) ReadFile(name string) ([]byte, error) {
	data, err := os.ReadFile(name)
	return data, busy(err)
}

// Create makes a file with the rights perm less the umask; it fails when the name exists.
func (System) Create(name string, perm fs.FileMode) (File, error) {
	return open(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
}

// Append opens a file to add to its end, and makes it when it does not exist.
func (System) Append(name string) (File, error) {
	return open(name, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o666)
}

func open(name string, flag int, perm fs.FileMode) (File, error) {
	f, err := os.OpenFile(name, flag, perm)
	if err != nil {
		return nil, err
	}
	return file{f}, nil
}

type file struct{ *os.File }

// MkdirAll makes a folder and those above it.
func (System) MkdirAll(name string) error { return os.MkdirAll(name, 0o777) }

// Rename moves a file over whatever bears the new name.
func (System) Rename(from, to string) error { return busy(os.Rename(from, to)) }

// Remove deletes a file or an empty folder.
func (System) Remove(name string) error { return os.Remove(name) }
