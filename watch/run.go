// Package watch takes care of the files of a root of job folders: it says which of them are
// workbooks to be looked at, when a folder has settled, who has a workbook open, and it puts a
// new file in place of an old one whole or not at all. It knows what stands in no workbook, and
// no rule of the trade.
package watch

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"dryfit/watch/disk"
)

// Options are what Run watches and whom it calls. It calls one function at a time.
type Options struct {
	Root string
	// Also are files that IsOurs leaves out, but in which people type, such as the roll-up.
	Also []string
	// Settled is given the folders that came to rest with other workbooks in them than at their
	// last visit; at the start all that have any. They come together, in the order of their
	// paths, so that the caller can work on several at once.
	Settled func(ctx context.Context, visits []Visit) Outcome
	// Restless is told once of a folder that did not come to rest in GiveUp. It is looked at
	// further. May be nil.
	Restless func(Folder)
	// Say takes a line about the watching itself: events or walks only, a slow walk. May be nil.
	Say func(line string)
	// Poll forgoes file events also where they could be trusted.
	Poll bool

	Every  time.Duration // from walk to walk; 0: 60 s
	Settle time.Duration // between two equal looks; 0: 5 s
	GiveUp time.Duration // 0: 30 min
}

// Visit is a folder that has settled.
type Visit struct {
	Folder
	Hashes map[string]Hash // of the Books, by path; none for one that could not be read
	Gone   []string        // paths of workbooks that were there at the last visit
}

// Outcome is what came of visits.
type Outcome struct {
	Wrote map[string]Hash // what the visitor put under which absolute path; it wakes nobody
	Again []string        // folders to visit at the next walk, changed or not: a workbook was open
}

// Run watches the folders of a root until ctx ends, and then returns nil; visits under way are
// seen to their end first. The walk every 60 s is the truth; file events, where they can be
// trusted, only bring the next look forward. The error is for a root that cannot be read at the
// start. The caller holds Lock(Root) and has called Recover.
func Run(ctx context.Context, o Options) error {
	o, err := o.filled()
	if err != nil {
		return err
	}
	h := o.startHints()
	defer h.close()
	return newWatcher(o).run(ctx, h)
}

func (o Options) filled() (Options, error) {
	root, err := filepath.Abs(o.Root)
	if err != nil {
		return o, err
	}
	o.Root = root
	also := make([]string, len(o.Also))
	for i, path := range o.Also {
		if also[i], err = filepath.Abs(path); err != nil {
			return o, err
		}
	}
	o.Also = also
	if o.Restless == nil {
		o.Restless = func(Folder) {}
	}
	if o.Say == nil {
		o.Say = func(string) {}
	}
	if o.Every == 0 {
		o.Every = time.Minute
	}
	if o.Settle == 0 {
		o.Settle = 5 * time.Second
	}
	if o.GiveUp == 0 {
		o.GiveUp = 30 * time.Minute
	}
	return o, nil
}

// startHints gives nil where events are not used; a nil *hints hints at nothing.
func (o Options) startHints() *hints {
	if o.Poll {
		o.Say(fmt.Sprintf("no file events, as asked; %q is walked every %v", o.Root, o.Every))
		return nil
	}
	if kind := disk.Shared(o.Root); kind != "" {
		o.Say(fmt.Sprintf("%q is on %s, where file events cannot be trusted; it is walked every %v", o.Root, kind, o.Every))
		return nil
	}
	h, err := newHints()
	if err != nil {
		o.Say(fmt.Sprintf("no file events (%v); %q is walked every %v", err, o.Root, o.Every))
		return nil
	}
	o.Say(fmt.Sprintf("file events start a look; %q is walked every %v all the same", o.Root, o.Every))
	return h
}
