package watch

import (
	"errors"
	"fmt"
	"io/fs"

	"dryfit/watch/disk"
)

// Reasons of a Refused.
var (
	ErrOpen     = errors.New("the workbook is open")
	ErrReadOnly = errors.New("the file is read-only")
	ErrLink     = errors.New("the name is a link or leads out of the root")
	ErrHardLink = errors.New("the file has a second name, which would keep the old bytes")
	ErrSpecial  = errors.New("the name is not that of an ordinary file")
	ErrFolder   = errors.New("no file can be made in the folder")
)

// Refused says why a file was left alone though nothing is wrong with the new bytes. The caller
// puts them into Sibling(path). Reason is one of the errors above or disk.ErrAttributes, wrapped
// with what is known.
type Refused struct {
	Path   string
	Reason error
}

func (r *Refused) Error() string { return fmt.Sprintf("%q is left alone: %v", r.Path, r.Reason) }

// Unwrap gives the reason.
func (r *Refused) Unwrap() error { return r.Reason }

// refusal tells why a file must not be replaced, by what its name stands for.
func refusal(st disk.Status) error {
	switch {
	case st.Mode()&fs.ModeSymlink != 0:
		return ErrLink
	case !st.Mode().IsRegular():
		return ErrSpecial
	case st.Links > 1:
		return fmt.Errorf("%w (%d names)", ErrHardLink, st.Links)
	case st.ReadOnly:
		return ErrReadOnly
	}
	return nil
}

// explain turns errors that mean "leave it alone" into a Refused.
func (s *swap) explain(err error) error {
	var refused *Refused
	switch {
	case err == nil || errors.As(err, &refused) || errors.Is(err, ErrChanged):
		return err
	case errors.Is(err, fs.ErrNotExist): // it was there a moment ago
		return fmt.Errorf("%w: %w", s.changed(), err)
	case errors.Is(err, disk.ErrBusy):
		return &Refused{s.path, fmt.Errorf("%w: %w", ErrOpen, err)}
	case errors.Is(err, disk.ErrAttributes):
		return &Refused{s.path, err}
	case errors.Is(err, fs.ErrPermission):
		return &Refused{s.path, fmt.Errorf("%w: %w", ErrReadOnly, err)}
	}
	return fmt.Errorf("replace %q: %w", s.path, err)
}
