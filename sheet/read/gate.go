package read

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Limits of a package. Beyond them a file was made to exhaust the reader, not to list parts.
const (
	maxFile     = 64 << 20  // bytes of the file
	maxEntries  = 5_000     // files in the package
	maxRatio    = 200       // unpacked to packed, once more than ratioFrom bytes came out
	ratioFrom   = 10 << 20  // bytes
	maxUnpacked = 512 << 20 // bytes of one part
	maxStrings  = 500_000   // shared strings
	maxRow      = 100_000   // rows of a tab that are read
	maxCol      = 500       // columns of a tab that are read
)

// pack is an opened package: its parts by lower-case name.
type pack struct {
	parts map[string]*zip.File
}

// openPack looks at the outside of a file before anything in it is believed.
func openPack(data []byte) (*pack, error) {
	switch {
	case len(data) == 0:
		return nil, errors.New("the file is empty")
	case len(data) > maxFile:
		return nil, fmt.Errorf("the file has %d MiB; dryfit reads up to %d MiB", len(data)>>20, maxFile>>20)
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return nil, errors.New("the file is encrypted or in the old .xls form; save it as .xlsx without a password")
	case !bytes.HasPrefix(data, []byte("PK")):
		return nil, errors.New("not a workbook: the file is no .xlsx package")
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("not a workbook, or cut off: %w", err)
	}
	if len(z.File) > maxEntries {
		return nil, fmt.Errorf("the package holds %d files; a workbook has no more than %d", len(z.File), maxEntries)
	}
	p := &pack{parts: make(map[string]*zip.File, len(z.File))}
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		name := strings.ToLower(strings.ReplaceAll(f.Name, `\`, "/"))
		if p.parts[name] != nil {
			return nil, fmt.Errorf("the package holds %q twice; which one counts cannot be known", f.Name)
		}
		p.parts[name] = f
	}
	return p, nil
}

// has reports whether a part is there: some programs name a part and leave it out.
func (p *pack) has(name string) bool { return p.parts[strings.ToLower(name)] != nil }

// open gives the bytes of a part, counted as they come out.
func (p *pack) open(name string) (io.ReadCloser, error) {
	f := p.parts[strings.ToLower(strings.TrimPrefix(name, "/"))]
	if f == nil {
		return nil, fmt.Errorf("the part %s is missing", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	c := &counted{r: r, name: f.Name, packed: int64(f.CompressedSize64)}
	return struct {
		io.Reader
		io.Closer
	}{decoded(c), r}, nil
}

// counted refuses a part that unpacks into far more than any office ever typed.
type counted struct {
	r            io.Reader
	name         string
	packed, read int64
}

func (c *counted) Read(b []byte) (int, error) {
	n, err := c.r.Read(b)
	c.read += int64(n)
	if c.read > maxUnpacked || c.read > ratioFrom && c.read > maxRatio*max(c.packed, 1) {
		return n, fmt.Errorf("%s unpacks from %d bytes to more than %d MiB", c.name, c.packed, c.read>>20)
	}
	return n, err
}
