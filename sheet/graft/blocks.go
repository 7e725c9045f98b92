package graft

import (
	"bytes"
	"io"
)

// blocks are bytes that somebody writes piece by piece. Unlike a bytes.Buffer they are never
// copied to a larger place, so that a large part takes no more room than it has bytes.
type blocks struct {
	list [][]byte // all but the last are full
	size int
}

const (
	firstBlock   = 2 << 10
	largestBlock = 64 << 10
)

// Write implements io.Writer.
func (b *blocks) Write(text []byte) (int, error) {
	for rest := text; len(rest) > 0; {
		last := b.room()
		n := copy((*last)[len(*last):cap(*last)], rest)
		*last = (*last)[:len(*last)+n]
		rest = rest[n:]
	}
	b.size += len(text)
	return len(text), nil
}

// room is the last block, one that is not full.
func (b *blocks) room() *[]byte {
	n := len(b.list)
	if n == 0 || len(b.list[n-1]) == cap(b.list[n-1]) {
		size := firstBlock
		if n > 0 {
			size = min(2*cap(b.list[n-1]), largestBlock)
		}
		b.list = append(b.list, make([]byte, 0, size))
		n++
	}
	return &b.list[n-1]
}

// copyTo writes them all.
func (b *blocks) copyTo(w io.Writer) error {
	for _, block := range b.list {
		if _, err := w.Write(block); err != nil {
			return err
		}
	}
	return nil
}

func (b *blocks) reader() io.Reader {
	var readers []io.Reader
	for _, block := range b.list {
		readers = append(readers, bytes.NewReader(block))
	}
	return io.MultiReader(readers...)
}

func (b *blocks) equal(text []byte) bool {
	if b.size != len(text) {
		return false
	}
	for _, block := range b.list {
		if !bytes.Equal(block, text[:len(block)]) {
			return false
		}
		text = text[len(block):]
	}
	return true
}
