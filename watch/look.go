package watch

import (
	"maps"
	"os"
	"slices"
)

// look is what a folder held at one moment, by path.
type look map[string]mark

// mark is one name of a look. Time stamps are compared for being equal, never for order: they
// come from other clocks.
type mark struct {
	size     int64
	modified int64  // ns since 1970
	sum      Hash   // zero: left out, or held so that it cannot be read
	why      string // it is left out, or which second version stands beside it
}

// marksOf gives the names of a folder without their hashes.
func marksOf(f Folder) look {
	l := make(look, len(f.Books)+len(f.Left))
	for _, b := range f.Books {
		l[b.Path] = mark{size: b.Size, modified: b.Modified.UnixNano(), why: b.Rival}
	}
	for _, left := range f.Left {
		l[left.Path] = mark{why: left.Why}
	}
	return l
}

// lookAt hashes the workbooks of a folder, but for those that have the size and time stamp of
// an earlier look.
func lookAt(f Folder, earlier look) look {
	l := marksOf(f)
	for _, b := range f.Books {
		m := l[b.Path]
		if e := earlier[b.Path]; e.sum != (Hash{}) && e.size == m.size && e.modified == m.modified {
			m.sum = e.sum
		} else if data, err := os.ReadFile(b.Path); err == nil {
			m.sum = Sum(data)
		}
		l[b.Path] = m
	}
	return l
}

// sameNames tells whether names, sizes and time stamps are those of the folder.
func (l look) sameNames(f Folder) bool {
	return maps.EqualFunc(l, marksOf(f), func(a, b mark) bool {
		a.sum = Hash{}
		return a == b
	})
}

// sameContent tells whether both hold the same bytes under the same names.
func (l look) sameContent(other look) bool {
	return maps.EqualFunc(l, other, func(a, b mark) bool { return a.sum == b.sum && a.why == b.why })
}

// visit makes the visit of a folder that has settled; before is the look of the last one.
func (l look) visit(f Folder, before look) Visit {
	v := Visit{Folder: f, Hashes: map[string]Hash{}}
	for path, m := range l {
		if m.sum != (Hash{}) {
			v.Hashes[path] = m.sum
		}
	}
	if _, unreadable := l[f.Path]; unreadable {
		return v
	}
	for _, path := range slices.Sorted(maps.Keys(before)) {
		if _, there := l[path]; !there && before[path].sum != (Hash{}) {
			v.Gone = append(v.Gone, path)
		}
	}
	return v
}
