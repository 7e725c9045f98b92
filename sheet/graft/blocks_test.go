package graft

import (
	"bytes"
	"io"
	"math/rand/v2"
	"testing"
)

// TestBlocks hold what was written, whatever the pieces.
func TestBlocks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		var b blocks
		var want []byte
		for range r.IntN(20) {
			piece := make([]byte, r.IntN(3*largestBlock/2))
			for i := range piece {
				piece[i] = byte(r.Uint32())
			}
			n, err := b.Write(piece)
			must(t, err)
			if n != len(piece) {
				t.Fatalf("%d of %d written", n, len(piece))
			}
			want = append(want, piece...)
		}
		got, err := io.ReadAll(b.reader())
		must(t, err)
		var copied bytes.Buffer
		must(t, b.copyTo(&copied))
		if b.size != len(want) || !bytes.Equal(got, want) || !bytes.Equal(copied.Bytes(), want) || !b.equal(want) {
			t.Fatalf("%d bytes came back as %d", len(want), len(got))
		}
		if b.equal(append(want, 0)) {
			t.Fatal("equal to something longer")
		}
	}
}
