package watch

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/user"
	"path/filepath"
	"sync"
	"time"

	"dryfit/watch/disk"

	"github.com/gofrs/flock"
)

const (
	lockName   = "lock"
	holderName = "lock-holder"
	lockTries  = 5
	lockPause  = 50 * time.Millisecond

	leaseBeat = time.Minute
	leaseDead = 10 * time.Minute
)

// Holder is the run that holds a root.
type Holder struct {
	PID   int       `json:"pid"`
	Host  string    `json:"host"`
	User  string    `json:"user"`
	Since time.Time `json:"since"`
}

// HeldError says that another run holds the root, or a folder above it.
type HeldError struct {
	Root   string
	Holder Holder // zero when it could not be read
}

func (e *HeldError) Error() string {
	if e.Holder.PID == 0 {
		return fmt.Sprintf("another dryfit is at work on %q", e.Root)
	}
	return fmt.Sprintf("another dryfit is at work on %q: process %d of %s on %s, since %s",
		e.Root, e.Holder.PID, e.Holder.User, e.Holder.Host, e.Holder.Since.Format("2 Jan 2006 15:04"))
}

// Home finds the folder whose state folder a run on path uses: the nearest one, from path
// upward, that has a state folder; without one path itself if it is a folder, else its folder.
func Home(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	if !isFolder(path) {
		path = filepath.Dir(path)
	}
	for at := path; ; at = filepath.Dir(at) {
		if isFolder(filepath.Join(at, stateFolder)) {
			return at, nil
		}
		if at == filepath.Dir(at) {
			return path, nil
		}
	}
}

// Lock makes this run the only one that writes under root; a *HeldError says who else does. The
// lock goes with the process, so one that was killed never stands in the way. release gives it
// back and removes the state folder if nothing else is in it.
//
// Some network shares grant a lock to each computer by itself. There the holder also gives a
// sign of life every minute, and a run on another computer counts as ended after ten minutes
// without one; after a crash the other computers wait that long.
func Lock(root string) (release func(), err error) {
	return lock(root, disk.Shared(root) != "")
}

func lock(root string, shared bool) (release func(), err error) {
	root, err = filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	if err := aboveIsFree(root); err != nil {
		return nil, err
	}
	state := filepath.Join(root, stateFolder)
	for range lockTries {
		lock, err := tryLock(state)
		if err != nil {
			return nil, fmt.Errorf("lock %q: %w", root, err)
		}
		if lock != nil && shared && leaseLives(state) {
			lock.Close()
			break
		}
		if lock != nil {
			return hold(lock, state, shared), nil
		}
		time.Sleep(lockPause) // the other may only be looking, or just leaving
	}
	return nil, &HeldError{root, readHolder(state)}
}

// tryLock gives nil when somebody else has the lock or removed its file meanwhile.
func tryLock(state string) (*flock.Flock, error) {
	if err := (machine{disk.System{}}).makeState(state); err != nil {
		return nil, err
	}
	lock := flock.New(filepath.Join(state, lockName), flock.SetPermissions(0o666))
	ok, err := lock.TryLock()
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil // the state folder went with the last run
	}
	if err != nil || !ok {
		return nil, err
	}
	if !isNamed(lock) {
		return nil, lock.Close()
	}
	return lock, nil
}

// isNamed tells whether the file that is locked still bears its name: the last holder may have
// removed it between our opening and our locking.
func isNamed(lock *flock.Flock) bool {
	held, err := lock.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(lock.Path())
	return err == nil && os.SameFile(held, named)
}

// hold says who holds the root, and on a share says so every minute.
func hold(lock *flock.Flock, state string, shared bool) (release func()) {
	me := thisRun()
	me.write(state)
	stop := make(chan struct{})
	var beating sync.WaitGroup
	if shared {
		beating.Go(func() {
			for {
				select {
				case <-stop:
					return
				case <-time.After(leaseBeat):
					me.write(state)
				}
			}
		})
	}
	return sync.OnceFunc(func() {
		close(stop)
		beating.Wait()
		unlock(lock, state)
	})
}

// leaseLives tells whether a run on another computer gave a sign of life lately. Its time stamp
// is compared with that of a file made now: both come from the clock of the share.
func leaseLives(state string) bool {
	h := readHolder(state)
	if h.PID == 0 || h.Host == thisRun().Host {
		return false
	}
	sign, err := os.Stat(filepath.Join(state, holderName))
	if err != nil {
		return false
	}
	now, err := shareTime(state)
	return err == nil && now.Sub(sign.ModTime()) < leaseDead
}

func shareTime(state string) (time.Time, error) {
	f, err := os.CreateTemp(state, "clock-")
	if err != nil {
		return time.Time{}, err
	}
	defer os.Remove(f.Name())
	_, err = f.WriteString("now")
	if err := errors.Join(err, f.Close()); err != nil {
		return time.Time{}, err
	}
	fi, err := os.Stat(f.Name())
	if err != nil {
		return time.Time{}, err
	}
	return fi.ModTime(), nil
}

// unlock removes the file while the lock still stands, so that nobody can hold one that is about
// to go. Windows refuses that, and later refuses to remove a file that another run holds.
func unlock(lock *flock.Flock, state string) {
	os.Remove(filepath.Join(state, holderName))
	if os.Remove(lock.Path()) == nil {
		lock.Close()
	} else {
		lock.Close()
		os.Remove(lock.Path())
	}
	os.Remove(state) // does nothing unless it is empty
}

// aboveIsFree looks whether a run holds a folder above root.
func aboveIsFree(root string) error {
	for at := filepath.Dir(root); ; at = filepath.Dir(at) {
		if isHeld(at) {
			return &HeldError{at, readHolder(filepath.Join(at, stateFolder))}
		}
		if at == filepath.Dir(at) {
			return nil
		}
	}
}

// isHeld looks whether a run holds root, and makes no file for it.
func isHeld(root string) bool {
	name := filepath.Join(root, stateFolder, lockName)
	if _, err := os.Lstat(name); err != nil {
		return false
	}
	lock := flock.New(name, flock.SetFlag(os.O_RDONLY))
	ctx, cancel := context.WithTimeout(context.Background(), lockTries*lockPause)
	defer cancel()
	ok, err := lock.TryRLockContext(ctx, lockPause)
	if ok {
		lock.Close()
	}
	return errors.Is(err, context.DeadlineExceeded)
}

func thisRun() Holder {
	h := Holder{PID: os.Getpid(), Since: time.Now().Truncate(time.Second)}
	h.Host, _ = os.Hostname()
	if u, err := user.Current(); err == nil {
		h.User = u.Username
	}
	return h
}

// write is no part of the lock: without it the next run cannot say who holds the root.
func (h Holder) write(state string) {
	if data, err := json.Marshal(h); err == nil {
		_ = os.WriteFile(filepath.Join(state, holderName), data, 0o666)
	}
}

func readHolder(state string) Holder {
	var h Holder
	if data, err := os.ReadFile(filepath.Join(state, holderName)); err == nil {
		_ = json.Unmarshal(data, &h)
	}
	return h
}
