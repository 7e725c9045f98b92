package graft

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"dryfit/sheet/gate/scan"
	"dryfit/sheet/graft/splice"
)

// Verify compares a workbook with what Graft made of it. Every part of the user's must have
// come over with its compressed bytes; the workbook part, its relationships, the content types
// and the styles must still hold every element they held, in order and with its attributes;
// the calculation chain may have lost entries of our tabs only. Every part that is not the
// user's must be sound XML, and no name may appear twice. The error names the part.
func Verify(before, after []byte) error {
	old, err := openHost(before)
	if err != nil {
		return fmt.Errorf("the workbook before: %w", err)
	}
	now, err := openHost(after)
	if err != nil {
		return fmt.Errorf("the workbook after: %w", err)
	}
	ours := map[string]bool{}
	scopes := map[int]bool{}
	ids := map[int]bool{}
	for _, s := range now.sheets {
		if s.ours {
			scopes[s.index], ids[s.id] = true, true
		}
	}
	for _, s := range old.sheets {
		if s.ours {
			ours[key(s.part)] = true
		}
	}
	behind, err := old.onlyBehind(ours)
	if err != nil {
		return err
	}
	v := verifier{old: old, now: now, behind: behind, scopes: scopes, ids: ids}
	if err := v.raw(); err != nil {
		return err
	}
	if err := v.gained(); err != nil {
		return err
	}
	return v.sound()
}

type verifier struct {
	old, now *host
	behind   map[string]bool // parts of our old tabs
	scopes   map[int]bool    // positions of our tabs
	ids      map[int]bool    // numbers of our tabs
}

// edited are the keys of the parts that may gain.
func (v *verifier) edited() map[string]bool {
	m := map[string]bool{key(contentTypes): true, key(v.old.bookName): true, key(relsName(v.old.bookName)): true}
	for _, what := range []string{"styles", "calcChain"} {
		if r, ok := v.old.relation(what); ok {
			m[key(r.target)] = true
		}
	}
	return m
}

// raw compares the compressed bytes of all parts of the user's.
func (v *verifier) raw() error {
	edited := v.edited()
	var names []string
	for _, f := range v.old.zip.File {
		k := key(f.Name)
		if strings.HasSuffix(f.Name, "/") || v.behind[k] || edited[k] {
			continue
		}
		names = append(names, f.Name)
		g := v.now.parts[k]
		if g == nil {
			return fmt.Errorf("part %s is gone", f.Name)
		}
		if g.Name != f.Name || g.Method != f.Method || g.CRC32 != f.CRC32 || g.UncompressedSize64 != f.UncompressedSize64 {
			return fmt.Errorf("part %s changed", f.Name)
		}
		same, err := sameRaw(f, g)
		if err != nil {
			return fmt.Errorf("part %s: %w", f.Name, err)
		}
		if !same {
			return fmt.Errorf("part %s changed", f.Name)
		}
	}
	var after []string
	for _, f := range v.now.zip.File {
		if slices.Contains(names, f.Name) {
			after = append(after, f.Name)
		}
	}
	if !slices.Equal(names, after) {
		return fmt.Errorf("the parts of the user's stand in another order")
	}
	return nil
}

func sameRaw(f, g *zip.File) (bool, error) {
	a, err := rawBytes(f)
	if err != nil {
		return false, err
	}
	b, err := rawBytes(g)
	return bytes.Equal(a, b), err
}

// rawBytes are the compressed bytes of an entry.
func rawBytes(f *zip.File) ([]byte, error) {
	r, err := f.OpenRaw()
	if err != nil {
		return nil, err
	}
	raw := make([]byte, f.CompressedSize64)
	_, err = io.ReadFull(r, raw)
	return raw, err
}

// gained compares the parts that may grow, element by element.
func (v *verifier) gained() error {
	for k := range v.edited() {
		f := v.old.parts[k]
		if f == nil {
			continue
		}
		before, err := v.old.tree(f.Name)
		if err != nil {
			return err
		}
		if v.now.parts[k] == nil {
			if v.old.chain.tree != nil && k == key(v.old.chain.name) && v.old.chain.without(v.ids).drop {
				continue
			}
			return fmt.Errorf("part %s is gone", f.Name)
		}
		after, err := v.now.tree(f.Name)
		if err != nil {
			return err
		}
		if k == key(v.old.chain.name) {
			err = v.chain(before, after)
		} else {
			err = v.holds(before.Root(), after.Root())
		}
		if err != nil {
			return fmt.Errorf("part %s: %w", f.Name, err)
		}
	}
	return nil
}

func (v *verifier) chain(before, after *splice.Tree) error {
	if change := v.old.chain.without(v.ids); change.text != nil {
		if !bytes.Equal(change.text, after.Text) {
			return fmt.Errorf("more than the entries of our tabs is gone")
		}
	} else if !bytes.Equal(before.Text, after.Text) {
		return fmt.Errorf("changed")
	}
	return nil
}

// holds demands that after has all that before has; only lists may be longer.
func (v *verifier) holds(before, after splice.Elem) error {
	if before.Name() != after.Name() || before.Space() != after.Space() {
		return fmt.Errorf("<%s> became <%s>", before.Name(), after.Name())
	}
	for a := range before.Attrs() {
		now, ok := after.AttrIn(a.Space, a.Name)
		if !ok || now != a.Value && a.Name != "count" {
			return fmt.Errorf("%s of <%s> was %q and is %q", a.Name, before.Name(), a.Value, now)
		}
	}
	rest := slices.Collect(after.Children())
	for c := range before.Children() {
		if v.mayGo(c) {
			continue
		}
		i := slices.IndexFunc(rest, func(n splice.Elem) bool { return v.matches(c, n) })
		if i < 0 {
			return fmt.Errorf("<%s> in <%s> changed or is gone: %.200s", c.Name(), before.Name(), c.Outer())
		}
		rest = rest[i+1:]
	}
	return nil
}

func (v *verifier) matches(before, after splice.Elem) bool {
	if bytes.Equal(before.Outer(), after.Outer()) {
		return true
	}
	switch before.Name() {
	case "sheets", "definedNames", "numFmts", "fonts", "fills", "borders", "cellXfs", "dxfs":
		return v.holds(before, after) == nil
	}
	return false
}

// mayGo reports whether an element is ours to take away.
func (v *verifier) mayGo(e splice.Elem) bool {
	switch e.Name() {
	case "definedName":
		scope, ok := e.Attr("localSheetId")
		return ok && v.scopes[number(scope, -1)]
	case "Override":
		name, _ := e.Attr("PartName")
		k := key(name)
		return v.behind[k] || v.now.parts[k] == nil && v.old.parts[k] != nil
	case "Relationship":
		kind, _ := e.Attr("Type")
		return strings.HasSuffix(kind, "/calcChain") && v.old.chain.tree != nil && v.now.parts[key(v.old.chain.name)] == nil
	}
	return false
}

// sound reads every part that the user's workbook did not have just so, as many at a time as
// there are processors.
func (v *verifier) sound() error {
	var made []*zip.File
	for k, f := range v.now.parts {
		if !strings.HasSuffix(k, ".xml") && !strings.HasSuffix(k, ".rels") && !strings.HasSuffix(k, ".vml") {
			continue
		}
		old := v.old.parts[k]
		if old != nil && !v.behind[k] {
			continue
		}
		if old != nil && old.Method == f.Method && old.CRC32 == f.CRC32 {
			if same, err := sameRaw(old, f); err == nil && same {
				continue // one of ours in which nothing changed
			}
		}
		made = append(made, f)
	}
	// The largest first, so that none is waited for in the end.
	slices.SortFunc(made, func(a, b *zip.File) int {
		return cmp.Or(cmp.Compare(b.UncompressedSize64, a.UncompressedSize64), strings.Compare(a.Name, b.Name))
	})
	faults := make([]error, len(made))
	var next atomic.Int64
	var readers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(made)) {
		readers.Go(func() {
			var s scan.Scanner
			for {
				i := int(next.Add(1)) - 1
				if i >= len(made) {
					return
				}
				faults[i] = soundPart(&s, made[i])
			}
		})
	}
	readers.Wait()
	if err := errors.Join(faults...); err != nil {
		return err
	}
	for _, s := range v.now.sheets {
		if s.ours && v.now.parts[key(s.part)] == nil {
			return fmt.Errorf("tab %q has no part", s.name)
		}
	}
	return nil
}

func soundPart(s *scan.Scanner, f *zip.File) error {
	r, err := f.Open()
	if err == nil {
		err = errors.Join(s.Read(r, quiet{}), r.Close())
	}
	if err != nil {
		return fmt.Errorf("part %s: %w", f.Name, err)
	}
	return nil
}

// quiet is a watcher that only wants to know whether the document is sound.
type quiet struct{}

func (quiet) Open(scan.Tag) error              { return nil }
func (quiet) Text([]byte) error                { return nil }
func (quiet) Close([]byte, int64, int64) error { return nil }
