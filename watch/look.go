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

func markOf(b Book) mark { return mark{size: b.Size, modified: b.Modified.UnixNano(), why: b.Rival} }

// lookAt hashes the workbooks of a folder, but for those that have the size and time stamp of
// an earlier look.
func lookAt(f Folder, earlier look) look {
	l := make(look, len(f.Books)+len(f.Left))
	for _, left := range f.Left {
		l[left.Path] = mark{why: left.Why}
	}
	for _, b := range f.Books {
		m := markOf(b)
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
	if len(l) != len(f.Books)+len(f.Left) {
		return false
	}
	for _, b := range f.Books {
		m, there := l[b.Path]
		m.sum = Hash{}
		if !there || m != markOf(b) {
			return false
		}
	}
	for _, left := range f.Left {
		if m, there := l[left.Path]; !there || m != (mark{why: left.Why}) {
			return false
		}
	}
	return true
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
