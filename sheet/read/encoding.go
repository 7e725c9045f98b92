package read

import (
	"bufio"
	"io"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// decoded turns a part in UTF-16, which some programs write, into UTF-8.
func decoded(r io.Reader) io.Reader {
	b := bufio.NewReaderSize(r, 32<<10)
	head, _ := b.Peek(2)
	if len(head) == 2 && (head[0] == 0xfe && head[1] == 0xff || head[0] == 0xff && head[1] == 0xfe) {
		return transform.NewReader(b, unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder())
	}
	return b
}
