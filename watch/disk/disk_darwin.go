package disk

import (
	"errors"
	"io/fs"
	"syscall"

	"golang.org/x/sys/unix"
)

// Exchange gives path the file temp and temp the file path, in one step (renamex_np).
func (System) Exchange(temp, path string) error {
	return noExchange(temp, path, unix.RenamexNp(temp, path, unix.RENAME_SWAP))
}

// RenameNew moves a file and fails with fs.ErrExist when the new name is taken.
func (System) RenameNew(from, to string) error {
	err := unix.RenamexNp(from, to, unix.RENAME_EXCL)
	if errors.Is(noExchange(from, to, err), ErrNoExchange) {
		return renameNewByLink(from, to)
	}
	return linkError("rename", from, to, err)
}

// OnlineOnly tells a file whose bytes a sync client has not fetched: the flag SF_DATALESS of
// chflags(2) (value from memory).
func OnlineOnly(fi fs.FileInfo) bool {
	const dataless = 0x40000000
	st, ok := fi.Sys().(*syscall.Stat_t)
	return ok && st.Flags&dataless != 0
}

// Shared names the kind of network file system that holds path, where file events cannot be
// trusted; empty for a disk of this machine.
func Shared(path string) string {
	var s unix.Statfs_t
	if unix.Statfs(path, &s) != nil || s.Flags&unix.MNT_LOCAL != 0 {
		return ""
	}
	return unix.ByteSliceToString(s.Fstypename[:])
}
