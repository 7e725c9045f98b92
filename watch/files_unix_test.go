//go:build linux || darwin

package watch

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestAPipeIsLeftOut(t *testing.T) {
	root, book := shop(t)
	must(t, syscall.Mkfifo(filepath.Join(filepath.Dir(book), "pipe.xlsx"), 0o644))
	books, left := lines(t, root)
	if len(books) != 1 || len(left) != 1 || !strings.HasPrefix(left[0], "Job 7/pipe.xlsx: not an ordinary file") {
		t.Errorf("workbooks %q, left out %q", books, left)
	}
}
