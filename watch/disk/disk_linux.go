package disk

import (
	"errors"
	"io/fs"

	"golang.org/x/sys/unix"
)

// Exchange gives path the file temp and temp the file path, in one step (renameat2, Linux 3.15).
func (System) Exchange(temp, path string) error {
	err := unix.Renameat2(unix.AT_FDCWD, temp, unix.AT_FDCWD, path, unix.RENAME_EXCHANGE)
	return noExchange(temp, path, err)
}

// RenameNew moves a file and fails with fs.ErrExist when the new name is taken.
func (System) RenameNew(from, to string) error {
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
	if errors.Is(noExchange(from, to, err), ErrNoExchange) {
		return renameNewByLink(from, to)
	}
	return linkError("rename", from, to, err)
}

// OnlineOnly tells a file whose bytes a sync client has not fetched. Linux has no mark for it.
func OnlineOnly(fs.FileInfo) bool { return false }

// Shared names the kind of network or user-space file system that holds path, where file
// events cannot be trusted; empty for a disk of this machine. Numbers: statfs(2), linux/magic.h.
func Shared(path string) string {
	var s unix.Statfs_t
	if unix.Statfs(path, &s) != nil {
		return ""
	}
	switch uint32(s.Type) {
	case unix.NFS_SUPER_MAGIC:
		return "NFS"
	case unix.CIFS_SUPER_MAGIC, unix.SMB_SUPER_MAGIC, unix.SMB2_SUPER_MAGIC:
		return "SMB"
	case unix.FUSE_SUPER_MAGIC:
		return "FUSE"
	case unix.V9FS_MAGIC:
		return "9P"
	case unix.CEPH_SUPER_MAGIC:
		return "Ceph"
	case unix.AFS_SUPER_MAGIC:
		return "AFS"
	}
	return ""
}
