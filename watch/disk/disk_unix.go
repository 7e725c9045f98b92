//go:build linux || darwin

package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"syscall"

	"golang.org/x/sys/unix"
)

// Lstat tells about a name without following a link.
func (System) Lstat(name string) (Status, error) {
	fi, err := os.Lstat(name)
	if err != nil {
		return Status{}, err
	}
	s := Status{FileInfo: fi, Links: uint64(fi.Sys().(*syscall.Stat_t).Nlink)}
	if fi.Mode().IsRegular() { // access follows links, and a folder is asked when it is written
		s.ReadOnly = fi.Mode().Perm()&0o222 == 0 || unix.Access(name, unix.W_OK) != nil
	}
	return s, nil
}

// Mend has nothing to do: the exchange is one call.
func (System) Mend(temp, path string) error { return nil }

// SyncDir makes the names in a folder last through a power cut.
func (System) SyncDir(name string) error {
	d, err := os.Open(name)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, unix.EINVAL) && !errors.Is(err, unix.ENOTSUP) {
		return err // some shares refuse to sync a folder; nothing more can be done there
	}
	return nil
}

// Hide has nothing to do: a leading dot hides a name.
func Hide(name string) error { return nil }

// Held is always nil: only owner files tell who holds a file.
func Held(name string) error { return nil }

func busy(err error) error { return err }

// noExchange turns the answers of a file system or kernel without the call into ErrNoExchange.
func noExchange(temp, path string, err error) error {
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP) {
		return ErrNoExchange
	}
	return linkError("exchange", temp, path, err)
}

// renameNewByLink is for file systems without a rename that spares the new name.
func renameNewByLink(from, to string) error {
	if err := os.Link(from, to); err == nil || errors.Is(err, fs.ErrExist) {
		if err == nil {
			err = os.Remove(from)
		}
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return linkError("rename", from, to, fs.ErrExist)
	}
	return os.Rename(from, to) // neither call: a moment stays in which `to` could appear
}

func linkError(op, from, to string, err error) error {
	if err == nil {
		return nil
	}
	return &os.LinkError{Op: op, Old: from, New: to, Err: err}
}

// CopyAttributes carries owner, rights, access list and extended attributes over. On macOS
// the access list is not among the extended attributes and is not carried over.
func (f file) CopyAttributes(from string) error {
	if err := f.copyAttributes(from); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrAttributes, from, err)
	}
	return nil
}

func (f file) copyAttributes(from string) error {
	var want, have unix.Stat_t
	if err := unix.Lstat(from, &want); err != nil {
		return err
	}
	fd := int(f.Fd())
	if err := unix.Fstat(fd, &have); err != nil {
		return err
	}
	if want.Uid != have.Uid || want.Gid != have.Gid {
		if err := unix.Fchown(fd, int(want.Uid), int(want.Gid)); err != nil {
			return fmt.Errorf("owner: %w", err)
		}
	}
	if err := unix.Fchmod(fd, uint32(want.Mode&0o7777)); err != nil {
		return fmt.Errorf("rights: %w", err)
	}
	return copyXattrs(fd, from)
}

func copyXattrs(fd int, from string) error {
	want, err := xattrNames(func(b []byte) (int, error) { return unix.Llistxattr(from, b) })
	if err != nil {
		return err
	}
	have, err := xattrNames(func(b []byte) (int, error) { return unix.Flistxattr(fd, b) })
	if err != nil {
		return err
	}
	for _, name := range have { // such as a list that the folder hands down to new files
		if !slices.Contains(want, name) {
			if err := unix.Fremovexattr(fd, name); err != nil {
				return fmt.Errorf("attribute %s: %w", name, err)
			}
		}
	}
	for _, name := range want {
		value, err := xattr(func(b []byte) (int, error) { return unix.Lgetxattr(from, name, b) })
		if err != nil {
			return fmt.Errorf("attribute %s: %w", name, err)
		}
		now, err := xattr(func(b []byte) (int, error) { return unix.Fgetxattr(fd, name, b) })
		if err == nil && bytes.Equal(now, value) {
			continue // labels that only the system may set are mostly equal already
		}
		if err := unix.Fsetxattr(fd, name, value, 0); err != nil {
			return fmt.Errorf("attribute %s: %w", name, err)
		}
	}
	return nil
}

func xattrNames(list func([]byte) (int, error)) ([]string, error) {
	b, err := xattr(list)
	if errors.Is(err, unix.ENOTSUP) || len(b) == 0 {
		return nil, nil
	}
	return strings.Split(strings.TrimSuffix(string(b), "\x00"), "\x00"), err
}

// xattr asks for the size, then for the value.
func xattr(read func([]byte) (int, error)) ([]byte, error) {
	n, err := read(nil)
	if err != nil || n == 0 {
		return nil, err
	}
	b := make([]byte, n)
	n, err = read(b)
	if err != nil {
		return nil, err
	}
	return b[:n], nil
}
