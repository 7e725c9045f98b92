package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"unsafe"

	"golang.org/x/sys/windows"
)

var replaceFile = windows.NewLazySystemDLL("kernel32.dll").NewProc("ReplaceFileW")

// Lstat tells about a name without following a link.
func (System) Lstat(name string) (Status, error) {
	fi, err := os.Lstat(name)
	if err != nil {
		return Status{}, err
	}
	s := Status{FileInfo: fi, Links: 1}
	if !fi.Mode().IsRegular() {
		return s, nil
	}
	s.ReadOnly = fi.Mode().Perm()&0o200 == 0 // the read-only attribute
	h, err := openHandle(name, windows.FILE_READ_ATTRIBUTES, shareAll)
	if err != nil {
		return s, busy(err)
	}
	defer windows.CloseHandle(h)
	var info windows.ByHandleFileInformation
	if err := windows.GetFileInformationByHandle(h, &info); err != nil {
		return s, &os.PathError{Op: "stat", Path: name, Err: err}
	}
	s.Links = uint64(info.NumberOfLinks)
	return s, nil
}

const shareAll = windows.FILE_SHARE_READ | windows.FILE_SHARE_WRITE | windows.FILE_SHARE_DELETE

func openHandle(name string, access, share uint32) (windows.Handle, error) {
	p, err := wide(name)
	if err != nil {
		return 0, err
	}
	h, err := windows.CreateFile(p, access, share, nil, windows.OPEN_EXISTING, windows.FILE_ATTRIBUTE_NORMAL, 0)
	if err != nil {
		return 0, &os.PathError{Op: "open", Path: name, Err: err}
	}
	return h, nil
}

// wide gives the call's form of a name; past 240 letters with the prefix that lifts the limit
// of 260, which package os adds for its own calls only.
func wide(name string) (*uint16, error) {
	if len(name) > 240 && filepath.IsAbs(name) && !strings.HasPrefix(name, `\\?\`) {
		if rest, share := strings.CutPrefix(filepath.Clean(name), `\\`); share {
			name = `\\?\UNC\` + rest
		} else {
			name = `\\?\` + rest
		}
	}
	return windows.UTF16PtrFromString(name)
}

// kept is where ReplaceFileW leaves the old file for a moment.
func kept(temp string) string { return temp + ".old" }

// Exchange gives path the file temp and temp the file path, by ReplaceFileW with a backup
// name and a rename. ReplaceFileW carries owner, rights and attributes over. It is always
// called with a backup name: without one its error 1176 leaves nothing under path.
func (s System) Exchange(temp, path string) error {
	var names [3]*uint16
	for i, name := range []string{path, temp, kept(temp)} {
		p, err := wide(name)
		if err != nil {
			return err
		}
		names[i] = p
	}
	// No flag: an access list that cannot be merged is an error.
	ok, _, err := replaceFile.Call(uintptr(unsafe.Pointer(names[0])), uintptr(unsafe.Pointer(names[1])),
		uintptr(unsafe.Pointer(names[2])), 0, 0, 0)
	if ok == 0 {
		err = linkError("replace", temp, path, err)
		if mend := s.Mend(temp, path); mend != nil {
			return fmt.Errorf("%w, and then %w", err, mend)
		}
		return busy(err)
	}
	return s.RenameNew(kept(temp), temp)
}

// Mend ends an Exchange that a crash or error 1177 cut in two: with nothing under path the
// old file goes back there, else it takes the place of temp.
func (s System) Mend(temp, path string) error {
	if _, err := os.Lstat(kept(temp)); err != nil {
		return nil
	}
	err := s.RenameNew(kept(temp), path)
	if errors.Is(err, fs.ErrExist) {
		err = s.RenameNew(kept(temp), temp)
	}
	return err
}

// RenameNew moves a file and fails with fs.ErrExist when the new name is taken.
func (System) RenameNew(from, to string) error {
	f, err := wide(from)
	if err != nil {
		return err
	}
	t, err := wide(to)
	if err != nil {
		return err
	}
	return busy(linkError("rename", from, to, windows.MoveFileEx(f, t, windows.MOVEFILE_WRITE_THROUGH)))
}

// SyncDir has nothing to do: Windows keeps the names of a folder in its own journal.
func (System) SyncDir(name string) error { return nil }

// CopyAttributes has nothing to do: ReplaceFileW carries them over.
func (f file) CopyAttributes(from string) error { return nil }

// Hide marks a name as hidden.
func Hide(name string) error {
	p, err := wide(name)
	if err != nil {
		return err
	}
	return windows.SetFileAttributes(p, windows.FILE_ATTRIBUTE_HIDDEN)
}

// Held tries to open a file for itself alone; ErrBusy when another program has it open.
func Held(name string) error {
	h, err := openHandle(name, windows.GENERIC_READ, 0)
	if err != nil {
		return busy(err)
	}
	return windows.CloseHandle(h)
}

// busy marks a sharing or lock violation.
func busy(err error) error {
	if errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_LOCK_VIOLATION) {
		return fmt.Errorf("%w: %w", ErrBusy, err)
	}
	return err
}

func linkError(op, from, to string, err error) error {
	if err == nil {
		return nil
	}
	return &os.LinkError{Op: op, Old: from, New: to, Err: err}
}

// OnlineOnly tells a file whose bytes a sync client would download on reading: the attributes
// RECALL_ON_DATA_ACCESS and OFFLINE.
func OnlineOnly(fi fs.FileInfo) bool {
	const marks = windows.FILE_ATTRIBUTE_RECALL_ON_DATA_ACCESS | windows.FILE_ATTRIBUTE_OFFLINE
	d, ok := fi.Sys().(*syscall.Win32FileAttributeData)
	return ok && d.FileAttributes&marks != 0
}

// Shared says "network drive" for a path on one, where file events cannot be trusted; empty
// for a disk of this machine.
func Shared(path string) string {
	volume := filepath.VolumeName(path)
	p, err := windows.UTF16PtrFromString(volume + `\`)
	if err != nil {
		return ""
	}
	if strings.HasPrefix(volume, `\\`) || windows.GetDriveType(p) == windows.DRIVE_REMOTE {
		return "network drive"
	}
	return ""
}
