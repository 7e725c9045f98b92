package watch

import (
	"errors"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gofrs/flock"
)

func TestLockSaysWhoHoldsTheRoot(t *testing.T) {
	root := t.TempDir()
	job := filepath.Join(root, "Job 7")
	must(t, os.Mkdir(job, 0o755))
	release, err := Lock(root)
	must(t, err)
	for _, folder := range []string{root, job} {
		var held *HeldError
		if _, err := Lock(folder); !errors.As(err, &held) {
			t.Fatalf("second Lock(%q): %v, want a HeldError", folder, err)
		}
		if held.Root != root || held.Holder.PID != os.Getpid() || time.Since(held.Holder.Since) > time.Minute {
			t.Errorf("held: %+v", held)
		}
	}
	release()
	if got, _ := os.ReadDir(root); len(got) != 1 {
		t.Errorf("after the release the root holds %v", got)
	}
	release, err = Lock(job)
	must(t, err)
	release()
}

func TestOfManyLocksAtOnceOneIsGiven(t *testing.T) {
	root := t.TempDir()
	for range 3 {
		var all sync.WaitGroup
		releases := make(chan func(), 8)
		for range cap(releases) {
			all.Go(func() {
				if release, err := Lock(root); err == nil {
					releases <- release
				}
			})
		}
		all.Wait()
		close(releases)
		if len(releases) != 1 {
			t.Fatalf("%d runs hold the root", len(releases))
		}
		(<-releases)()
	}
}

func TestALockThatComesAndGoesIsNeverHeldTwice(t *testing.T) {
	root := t.TempDir()
	var holders, most, given int
	var mu sync.Mutex
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for range 50 {
				release, err := Lock(root)
				if err != nil {
					continue
				}
				mu.Lock()
				holders++
				given++
				most = max(most, holders)
				mu.Unlock()
				time.Sleep(time.Millisecond)
				mu.Lock()
				holders--
				mu.Unlock()
				release()
			}
		})
	}
	all.Wait()
	if most != 1 || given == 0 {
		t.Errorf("held %d times, by %d at once", given, most)
	}
}

func TestALockOnARemovedFileIsNone(t *testing.T) {
	l := flock.New(filepath.Join(t.TempDir(), lockName))
	if ok, err := l.TryLock(); !ok || err != nil {
		t.Fatal(ok, err)
	}
	defer l.Close()
	if !isNamed(l) {
		t.Error("the locked file bears its name")
	}
	if err := os.Remove(l.Path()); err != nil {
		t.Skipf("a locked file cannot be removed here: %v", err)
	}
	if isNamed(l) {
		t.Error("the locked file was removed")
	}
	write(t, l.Path(), "")
	if isNamed(l) {
		t.Error("another file bears the name")
	}
}

func TestOnAShareARunElsewhereCountsUntilItIsSilentForTenMinutes(t *testing.T) {
	root := t.TempDir()
	state := filepath.Join(root, stateFolder)
	must(t, os.Mkdir(state, 0o755))
	elsewhere := Holder{PID: 1, Host: "desk-2", User: "ann", Since: time.Now()}
	for _, row := range []struct {
		silent time.Duration
		shared bool
		held   bool
	}{{time.Minute, true, true}, {9 * time.Minute, true, true}, {11 * time.Minute, true, false}, {time.Minute, false, false}} {
		elsewhere.write(state)
		then := time.Now().Add(-row.silent)
		must(t, os.Chtimes(filepath.Join(state, holderName), then, then))
		release, err := lock(root, row.shared)
		var held *HeldError
		if errors.As(err, &held) != row.held || row.held && held.Holder.Host != "desk-2" {
			t.Errorf("%+v: %v", row, err)
		}
		if err == nil {
			release()
			must(t, os.Mkdir(state, 0o755))
		}
	}
}

func TestOnAShareTheHolderGivesSignsOfLife(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		root := t.TempDir()
		release, err := lock(root, true)
		must(t, err)
		sign := filepath.Join(root, stateFolder, holderName)
		must(t, os.Remove(sign))
		pass(leaseBeat + time.Second)
		if _, err := os.Stat(sign); err != nil {
			t.Error("no sign of life after a minute")
		}
		release()
		if _, err := os.Stat(filepath.Join(root, stateFolder)); err == nil {
			t.Error("the state folder is left")
		}
	})
}

func TestHomeIsTheNearestFolderWithState(t *testing.T) {
	root, book := shop(t)
	for _, row := range []struct{ name, want string }{{"none", filepath.Dir(book)}, {"at the root", root}} {
		if row.want == root {
			must(t, os.Mkdir(filepath.Join(root, stateFolder), 0o755))
		}
		for _, path := range []string{book, filepath.Dir(book)} {
			if got, err := Home(path); err != nil || got != row.want {
				t.Errorf("state %s: Home(%q) = %q, %v; want %q", row.name, path, got, err, row.want)
			}
		}
	}
}
