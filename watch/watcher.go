package watch

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"time"
)

const (
	rehashEvery = 24 * time.Hour
	calm        = 250 * time.Millisecond // events of one save come in a bunch
)

// watcher is the loop of Run. All of it belongs to one goroutine.
type watcher struct {
	Options
	known    map[string]look    // folders as they were at their last visit, by path
	again    map[string]bool    // folders to visit at the next walk, changed or not
	moving   map[string]*motion // folders that have not settled
	nextWalk time.Time
	rehashed time.Time // when size and time stamp were last not taken for a proof
	lost     bool      // the last walk could not read the root
	slow     bool      // the last walk took more than a fifth of Every
}

// motion is a folder on its way to rest.
type motion struct {
	look   look // the last one, nil before the first
	since  time.Time
	next   time.Time // when to look again
	force  bool      // visit it though nothing changed
	rehash bool      // do not take size and time stamp for a proof
	told   bool
}

func newWatcher(o Options) *watcher {
	return &watcher{Options: o, known: map[string]look{}, again: map[string]bool{}, moving: map[string]*motion{}, rehashed: time.Now()}
}

func (w *watcher) run(ctx context.Context, h *hints) error {
	if err := w.walk(h); err != nil {
		return err
	}
	for {
		w.lookAround(ctx)
		select {
		case <-ctx.Done():
			return nil
		case <-time.After(time.Until(w.nextStep())):
		case <-h.wake():
			w.takeHints(h)
		}
		if ctx.Err() == nil && !time.Now().Before(w.nextWalk) {
			w.sayLost(w.walk(h))
		}
	}
}

func (w *watcher) nextStep() time.Time {
	next := w.nextWalk
	for _, m := range w.moving {
		if m.next.Before(next) {
			next = m.next
		}
	}
	return next
}

func (w *watcher) sayLost(err error) {
	switch {
	case err != nil && !w.lost:
		w.Say(fmt.Sprintf("%q cannot be read (%v); what is known of it stays", w.Root, err))
	case err == nil && w.lost:
		w.Say(fmt.Sprintf("%q can be read again", w.Root))
	}
	w.lost = err != nil
}

// walk compares every folder with its last visit and sets those in motion that differ.
func (w *watcher) walk(h *hints) error {
	start := time.Now()
	rehash := start.Sub(w.rehashed) >= rehashEvery
	found := map[string]bool{}
	var differ []string
	err := walk(w.Root, func(f Folder) {
		h.add(f.Path, w.Say)
		w.addAlso(&f)
		before, known := w.known[f.Path]
		if len(f.Books)+len(f.Left) == 0 {
			return
		}
		found[f.Path] = true
		if rehash || !known || w.again[f.Path] || !before.sameNames(f) {
			differ = append(differ, f.Path)
		}
	})
	w.setPace(start)
	if err == nil && len(found) == 0 && len(w.known) > 0 && w.rootIsBare() {
		err = errors.New("it is empty, as when a share is not connected")
	}
	if err != nil {
		return err
	}
	for path := range w.known {
		if !found[path] {
			differ = append(differ, path)
		}
	}
	for _, path := range differ {
		m := w.setMoving(path, start)
		m.rehash = m.rehash || rehash
		m.force = m.force || w.again[path]
	}
	if rehash {
		w.rehashed = start
	}
	return nil
}

// setPace lets walks take no more than a fifth of the time.
func (w *watcher) setPace(start time.Time) {
	took := time.Since(start)
	every := max(w.Every, 5*took)
	w.nextWalk = start.Add(every)
	if slow := every > w.Every; slow != w.slow {
		w.slow = slow
		w.Say(fmt.Sprintf("a walk of %q takes %v; it is walked every %v", w.Root, took.Round(time.Second), every.Round(time.Second)))
	}
}

func (w *watcher) addAlso(f *Folder) {
	for _, path := range w.Also {
		if filepath.Dir(path) == f.Path {
			f.addOurs(path)
		}
	}
}

// setMoving begins to watch a folder settle, unless that is under way.
func (w *watcher) setMoving(path string, next time.Time) *motion {
	if w.moving[path] == nil {
		w.moving[path] = &motion{since: time.Now(), next: next}
	}
	return w.moving[path]
}

// takeHints looks soon at the folders with events, and walks soon for one that is not known.
func (w *watcher) takeHints(h *hints) {
	folders, walk := h.take()
	soon := time.Now().Add(calm)
	for _, path := range folders {
		m := w.setMoving(path, soon)
		m.force = m.force || w.again[path]
	}
	if walk && soon.Before(w.nextWalk) {
		w.nextWalk = soon
	}
}

// lookAround looks at the folders whose time has come and visits those that have settled.
func (w *watcher) lookAround(ctx context.Context) {
	var visits []Visit
	for _, path := range slices.Sorted(maps.Keys(w.moving)) {
		m := w.moving[path]
		if time.Now().Before(m.next) {
			continue
		}
		if ctx.Err() != nil {
			return
		}
		f := w.readFolder(path)
		if !w.settles(f, m) {
			continue
		}
		delete(w.moving, path)
		before := w.known[path]
		w.know(path, m.look)
		if m.force || !m.look.sameContent(before) {
			delete(w.again, path)
			visits = append(visits, m.look.visit(f, before))
		}
	}
	if len(visits) > 0 {
		w.heed(w.Settled(ctx, visits))
	}
}

func (w *watcher) readFolder(path string) Folder {
	f, _ := readOrLeave(path)
	w.addAlso(&f)
	return f
}

// settles looks at a folder and tells whether it is as it was at the look before.
func (w *watcher) settles(f Folder, m *motion) bool {
	earlier := w.known[f.Path]
	if m.rehash {
		earlier = nil
	}
	before := m.look
	m.look = lookAt(f, earlier)
	m.next = time.Now().Add(w.Settle)
	if before != nil && maps.Equal(before, m.look) && !(len(m.look) == 0 && w.rootIsBare()) {
		return true
	}
	if time.Since(m.since) >= w.GiveUp && !m.told {
		m.told = true
		w.Restless(f)
	}
	return false
}

// rootIsBare tells that nothing at all is left under the root, as when a share is not connected.
func (w *watcher) rootIsBare() bool {
	entries, err := os.ReadDir(w.Root)
	return err != nil || len(entries) == 0
}

func (w *watcher) know(path string, l look) {
	if len(l) == 0 {
		delete(w.known, path)
		return
	}
	w.known[path] = l
}

// heed remembers what the visitor wrote. Its time stamps are not known, so the next walk hashes
// these files once and finds what it expects.
func (w *watcher) heed(o Outcome) {
	for path, sum := range o.Wrote {
		if IsOurs(path) && !slices.Contains(w.Also, path) {
			continue
		}
		folder := filepath.Dir(path)
		l := maps.Clone(w.known[folder])
		if l == nil {
			l = look{}
		}
		l[path] = mark{sum: sum, why: l[path].why}
		w.known[folder] = l
	}
	for _, path := range o.Again {
		w.again[path] = true
	}
}
