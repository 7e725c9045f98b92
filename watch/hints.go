package watch

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/fsnotify/fsnotify"
)

// hints gathers file events into a set of folders to look at. Events may be lost, doubled or
// late; nothing rests on them but the moment of a look.
type hints struct {
	watcher *fsnotify.Watcher
	ring    chan struct{} // holds one: something was gathered
	done    chan struct{}

	mu      sync.Mutex
	folders map[string]bool
	walk    bool
	full    bool // the system takes no more watches
	watched map[string]bool
}

func newHints() (*hints, error) {
	fs, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	h := &hints{
		watcher: fs, ring: make(chan struct{}, 1), done: make(chan struct{}),
		folders: map[string]bool{}, watched: map[string]bool{},
	}
	go h.gather()
	return h, nil
}

func (h *hints) close() {
	if h != nil {
		h.watcher.Close()
		<-h.done
	}
}

// wake rings when there is something to take; never for nil.
func (h *hints) wake() <-chan struct{} {
	if h == nil {
		return nil
	}
	return h.ring
}

// add watches a folder. When the system takes no more it says so once; walks see the rest.
func (h *hints) add(folder string, say func(string)) {
	if h == nil || h.full || h.isWatched(folder) {
		return
	}
	err := h.watcher.Add(folder)
	switch {
	case err == nil:
		h.setWatched(folder, true)
	case errors.Is(err, os.ErrNotExist):
	default:
		h.full = true
		say(fmt.Sprintf("no file events from %q on (%v); walks see what changes there", folder, err))
	}
}

func (h *hints) isWatched(folder string) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.watched[folder]
}

func (h *hints) setWatched(folder string, on bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if on {
		h.watched[folder] = true
	} else {
		delete(h.watched, folder)
	}
}

// take gives the folders with events since the last time, and whether a walk is called for.
func (h *hints) take() (folders []string, walk bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	folders, walk = slices.Collect(maps.Keys(h.folders)), h.walk
	clear(h.folders)
	h.walk = false
	return folders, walk
}

func (h *hints) gather() {
	defer close(h.done)
	for {
		select {
		case e, ok := <-h.watcher.Events:
			if !ok {
				return
			}
			h.note(e)
		case _, ok := <-h.watcher.Errors: // mostly an overflow: events are lost
			if !ok {
				return
			}
			h.put("", true)
		}
	}
}

// note looks at the folder of the event, and walks when folders come or go.
func (h *hints) note(e fsnotify.Event) {
	name := filepath.Base(e.Name)
	if strings.HasPrefix(name, tempStart) || name == stateFolder || e.Op == fsnotify.Chmod {
		return
	}
	walk := false
	switch {
	case e.Has(fsnotify.Create):
		fi, err := os.Lstat(e.Name)
		walk = err == nil && fi.IsDir()
	case e.Has(fsnotify.Remove), e.Has(fsnotify.Rename):
		walk = h.isWatched(e.Name)
		h.setWatched(e.Name, false)
	}
	h.put(filepath.Dir(e.Name), walk)
}

func (h *hints) put(folder string, walk bool) {
	h.mu.Lock()
	if folder != "" {
		h.folders[folder] = true
	}
	h.walk = h.walk || walk
	h.mu.Unlock()
	select {
	case h.ring <- struct{}{}:
	default: // it rings already
	}
}
