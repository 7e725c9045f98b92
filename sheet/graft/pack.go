package graft

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
)

// level is the deflate level of what we write. On the tabs of a job of 300 rows (1.9 MB) level 1
// takes two thirds of the time of level 4, a third of that of level 6, and leaves 14 and 22
// percent more bytes; see BenchmarkLevels.
const level = flate.BestSpeed

// dosEpoch is 1 January 1980 as a date of a zip entry: our parts carry no time, so that the
// same tabs give the same bytes.
const dosEpoch = 1<<5 | 1

// entry is one entry to write. With keep it is the old one, raw.
type entry struct {
	old     *zip.File
	name    string
	keep    bool
	size    int
	crc     uint32
	deflate blocks
}

// packer deflates new contents while others are still being made.
type packer struct {
	wg     sync.WaitGroup
	room   chan struct{}
	failed atomic.Pointer[error]
}

func newPacker() *packer { return &packer{room: make(chan struct{}, runtime.GOMAXPROCS(0))} }

// pack deflates a part whose whole text is there; old is the entry it replaces, or nil. The
// entry is whole after wait.
func (p *packer) pack(name string, old *zip.File, text []byte) *entry {
	w := p.open(name, old)
	w.send(text)
	w.close()
	return w.entry
}

// open begins a part whose text comes piece by piece, so that no more of it than a few pieces
// is held. It must be closed before the next one is opened.
func (p *packer) open(name string, old *zip.File) *packing {
	w := &packing{entry: &entry{old: old, name: name}, pieces: make(chan []byte, 4)}
	if old != nil {
		w.entry.name = old.Name
	}
	p.room <- struct{}{}
	p.wg.Go(func() {
		defer func() { <-p.room }()
		if err := w.entry.pack(w.pieces); err != nil {
			p.failed.Store(&err)
		}
	})
	return w
}

// packing is a part while its text is being made.
type packing struct {
	entry  *entry
	pieces chan []byte
}

// Write implements io.Writer.
func (w *packing) Write(text []byte) (int, error) {
	w.send(bytes.Clone(text))
	return len(text), nil
}

// send hands over a piece that nobody will write to any more.
func (w *packing) send(text []byte) { w.pieces <- text }

func (w *packing) close() { close(w.pieces) }

func (p *packer) wait() error {
	p.wg.Wait()
	if err := p.failed.Load(); err != nil {
		return *err
	}
	return nil
}

// idle are deflaters that nobody uses. They are large, so that a pool that lets them go at each
// collection would make new ones at each job.
var idle = make(chan *flate.Writer, runtime.GOMAXPROCS(0))

func deflater(out io.Writer) *flate.Writer {
	select {
	case w := <-idle:
		w.Reset(out)
		return w
	default:
		w, err := flate.NewWriter(out, level)
		if err != nil {
			panic(err) // only a level that is none
		}
		return w
	}
}

func putAside(w *flate.Writer) {
	w.Reset(io.Discard) // lets go of what it wrote to
	select {
	case idle <- w:
	default:
	}
}

// pack keeps the old entry raw where its content would not change. It takes every piece, also
// after an error, so that nobody waits for it.
func (e *entry) pack(pieces <-chan []byte) error {
	w := deflater(&e.deflate)
	defer putAside(w)
	var err error
	for text := range pieces {
		e.crc = crc32.Update(e.crc, crc32.IEEETable, text)
		e.size += len(text)
		if err == nil {
			_, err = w.Write(text)
		}
	}
	if err == nil {
		err = w.Close()
	}
	e.keep = err == nil && e.old != nil && e.isIn(e.old)
	return err
}

// isIn reports whether a file of the package unpacks to the text of the entry.
func (e *entry) isIn(f *zip.File) bool {
	if f.UncompressedSize64 != uint64(e.size) || f.CRC32 != e.crc {
		return false
	}
	if raw, err := rawBytes(f); f.Method == zip.Deflate && err == nil && e.deflate.equal(raw) {
		return true
	}
	old, err := unpack(f)
	if err != nil {
		return false
	}
	text, err := io.ReadAll(flate.NewReader(e.deflate.reader()))
	return err == nil && bytes.Equal(old, text)
}

// list puts the entries in order: every old one in its place, changed ones too, and new parts
// behind them. fresh are the new parts in the order in which they were made; dropped ones are
// left out, except where a new part has their name.
func (h *host) list(changed map[string]*entry, fresh []*entry, dropped map[string]bool) []*entry {
	isNew := map[string]*entry{}
	for _, e := range fresh {
		isNew[key(e.name)] = e
	}
	var list []*entry
	for _, f := range h.zip.File {
		k := key(f.Name)
		switch {
		case strings.HasSuffix(f.Name, "/"):
			list = append(list, &entry{old: f, keep: true})
		case changed[k] != nil:
			list = append(list, changed[k])
		case isNew[k] != nil:
			list = append(list, isNew[k])
			delete(isNew, k)
		case !dropped[k]:
			list = append(list, &entry{old: f, keep: true})
		}
	}
	for _, e := range fresh {
		if isNew[key(e.name)] != nil {
			list = append(list, e)
		}
	}
	return list
}

// assemble writes the package.
func (h *host) assemble(list []*entry) ([]byte, error) {
	size := 0
	for _, e := range list {
		size += e.deflate.size + 256
		if e.keep {
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
	if e.keep {
		return copyRaw(zw, e.old)
	}
	fh := &zip.FileHeader{Name: e.name, Method: zip.Deflate, CRC32: e.crc,
		CompressedSize64: uint64(e.deflate.size), UncompressedSize64: uint64(e.size),
		CreatorVersion: 20, ReaderVersion: 20}
	//lint:ignore SA1019 CreateRaw writes this field and does not look at Modified
	fh.ModifiedDate = dosEpoch
	if e.old != nil {
		fh.NonUTF8, fh.Flags = e.old.NonUTF8, e.old.Flags&0x800
	}
	w, err := zw.CreateRaw(fh)
	if err != nil {
		return err
	}
	return e.deflate.copyTo(w)
}

func copyRaw(zw *zip.Writer, f *zip.File) error {
	fh := f.FileHeader
	if strings.HasSuffix(f.Name, "/") { // a folder with content cannot be written
		fh.Method, fh.Flags, fh.CRC32 = zip.Store, fh.Flags&0x800, 0
		fh.CompressedSize64, fh.UncompressedSize64 = 0, 0
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
