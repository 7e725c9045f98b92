package graft

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"strings"
	"sync"
)

// level is the deflate level of what we write; see BenchmarkLevels.
const level = 4

// dosEpoch is 1 January 1980 as a date of a zip entry: our parts carry no time, so that the
// same tabs give the same bytes.
const dosEpoch = 1<<5 | 1

// entry is one entry to write: an old one raw, or new content.
type entry struct {
	old     *zip.File // copied raw when text is nil
	name    string
	text    []byte
	crc     uint32
	deflate []byte
}

// write puts the package together: every old entry in its place, changed ones too, and new
// parts behind them. order lists the new parts; dropped ones are left out, except where a new
// part has their name.
func (h *host) write(changed map[string][]byte, order []string, fresh map[string][]byte, dropped map[string]bool) ([]byte, error) {
	isNew := map[string]string{}
	for _, name := range order {
		isNew[key(name)] = name
	}
	var list []*entry
	for _, f := range h.zip.File {
		k := key(f.Name)
		text, edited := changed[k]
		name, reused := isNew[k]
		switch {
		case strings.HasSuffix(f.Name, "/"):
			list = append(list, &entry{old: f})
		case edited:
			list = append(list, replacing(f, text))
		case reused:
			list = append(list, replacing(f, fresh[name]))
			delete(isNew, k)
		case !dropped[k]:
			list = append(list, &entry{old: f})
		}
	}
	for _, name := range order {
		if _, ok := isNew[key(name)]; ok {
			list = append(list, &entry{name: name, text: fresh[name]})
		}
	}
	if err := compress(list); err != nil {
		return nil, err
	}
	return h.assemble(list)
}

// replacing keeps the old entry raw where its content would not change.
func replacing(f *zip.File, text []byte) *entry {
	e := &entry{old: f, name: f.Name, text: text}
	if f.UncompressedSize64 == uint64(len(text)) && f.CRC32 == crc32.ChecksumIEEE(text) {
		if old, err := unpack(f); err == nil && bytes.Equal(old, text) {
			e.text = nil
		}
	}
	return e
}

// compress deflates the new contents, two at a time.
func compress(list []*entry) error {
	work := make(chan *entry)
	errs := make(chan error, 2)
	var wg sync.WaitGroup
	for range 2 {
		wg.Go(func() {
			var buf bytes.Buffer
			w, err := flate.NewWriter(&buf, level)
			for e := range work {
				buf.Reset()
				w.Reset(&buf)
				if _, werr := w.Write(e.text); werr != nil {
					err = werr
				}
				if cerr := w.Close(); cerr != nil {
					err = cerr
				}
				e.deflate, e.crc = bytes.Clone(buf.Bytes()), crc32.ChecksumIEEE(e.text)
			}
			errs <- err
		})
	}
	for _, e := range list {
		if e.text != nil {
			work <- e
		}
	}
	close(work)
	wg.Wait()
	if err := <-errs; err != nil {
		return err
	}
	return <-errs
}

func (h *host) assemble(list []*entry) ([]byte, error) {
	size := 0
	for _, e := range list {
		size += len(e.deflate) + 256
		if e.text == nil {
			size += int(e.old.CompressedSize64)
		}
	}
	out := bytes.NewBuffer(make([]byte, 0, size))
	zw := zip.NewWriter(out)
	if err := zw.SetComment(h.zip.Comment); err != nil {
		return nil, err
	}
	for _, e := range list {
		if err := e.writeTo(zw); err != nil {
			return nil, err
		}
	}
	if err := zw.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func (e *entry) writeTo(zw *zip.Writer) error {
	if e.text == nil {
		return copyRaw(zw, e.old)
	}
	fh := &zip.FileHeader{Name: e.name, Method: zip.Deflate, CRC32: e.crc, ModifiedDate: dosEpoch,
		CompressedSize64: uint64(len(e.deflate)), UncompressedSize64: uint64(len(e.text)),
		CreatorVersion: 20, ReaderVersion: 20}
	if e.old != nil {
		fh.NonUTF8, fh.Flags = e.old.NonUTF8, e.old.Flags&0x800
	}
	w, err := zw.CreateRaw(fh)
	if err != nil {
		return err
	}
	_, err = w.Write(e.deflate)
	return err
}

func copyRaw(zw *zip.Writer, f *zip.File) error {
	fh := f.FileHeader
	if strings.HasSuffix(f.Name, "/") { // a folder with content cannot be written
		fh.Method, fh.Flags, fh.CRC32 = zip.Store, fh.Flags&0x800, 0
		fh.CompressedSize64, fh.UncompressedSize64 = 0, 0
		fh.CompressedSize, fh.UncompressedSize = 0, 0 //nolint:staticcheck // read by CreateRaw
	}
	w, err := zw.CreateRaw(&fh)
	if err != nil {
		return err
	}
	r, err := f.OpenRaw()
	if err != nil {
		return err
	}
	_, err = io.Copy(w, r)
	return err
}
