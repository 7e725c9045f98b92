// Package gate is what a workbook passes before anything opens it. A spreadsheet library
// reads on where a part is cut off, takes the last of two entries of one name and spends
// gigabytes on a file of a few kilobytes; the gate reads every part to its end once, in
// little memory, and refuses what a library would get wrong.
//
// It knows packages and XML; it must not know what a schedule looks like.
package gate

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"dryfit/sheet/gate/scan"
)

// Fault is a workbook that must not be opened: the part at fault ("" for the file), why, and
// what a person can do about it. Reason and Remedy are clauses without a full stop.
type Fault struct{ Part, Reason, Remedy string }

func (f *Fault) Error() string {
	where := ""
	if f.Part != "" {
		where = "part " + f.Part + ": "
	}
	return where + f.Reason + "; " + f.Remedy
}

// What a person can do.
const (
	saveAgain   = "open it in the spreadsheet program and save it again"
	saveAsXlsx  = "open it and save it as .xlsx"
	noPassword  = "open it and save it as .xlsx without a password"
	copyAgain   = "copy the file again, or open it and save it again"
	doNotOpen   = "do not open it; ask where the file came from"
	splitIt     = "keep the schedule in a smaller workbook"
	chooseOther = "choose the workbook that holds the schedule"
)

// Check reads the whole file and returns nil, or a *Fault that says in a person's words what
// is wrong and what to do. It allocates a few hundred kilobytes, whatever the file says.
func Check(data []byte) error {
	if err := sniff(data); err != nil {
		return err
	}
	zr, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return &Fault{"", "not a whole workbook: the end of the package is missing or damaged", copyAgain}
	}
	if err := entries(zr, int64(len(data))); err != nil {
		return err
	}
	p := &pass{left: MaxUnpacked, size: int64(len(data))}
	for _, f := range zr.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		if err := p.part(f); err != nil {
			return err
		}
	}
	return p.whole(zr)
}

// sniff looks at the first bytes.
func sniff(data []byte) error {
	head := bytes.ToLower(bytes.TrimLeft(data[:min(len(data), 1024)], "\xef\xbb\xbf \t\r\n"))
	switch {
	case len(data) == 0:
		return &Fault{"", "not a workbook: the file is empty", copyAgain}
	case len(data) > MaxFile:
		return &Fault{"", fmt.Sprintf("%d MiB, more than the %d MiB that are read", len(data)>>20, MaxFile>>20), splitIt}
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")):
		return &Fault{"", "protected with a password, or an old .xls under a new name", noPassword}
	case bytes.HasPrefix(head, []byte("<")) && bytes.Contains(head, []byte("<html")),
		bytes.HasPrefix(head, []byte("<!doctype html")):
		return &Fault{"", "not a workbook but a web page", saveAsXlsx}
	case bytes.HasPrefix(head, []byte("<")):
		return &Fault{"", "not a workbook but a text file with tags", saveAsXlsx}
	case !bytes.HasPrefix(data, []byte("PK")):
		return &Fault{"", "not a workbook: the file does not begin like one", chooseOther}
	}
	return nil
}

// entries checks the table of contents of the package.
func entries(zr *zip.Reader, size int64) error {
	if len(zr.File) > MaxEntries {
		return &Fault{"", fmt.Sprintf("%d entries in the package, more than %d", len(zr.File), MaxEntries), doNotOpen}
	}
	seen := make(map[string]string, len(zr.File))
	packed := int64(0)
	for _, f := range zr.File {
		name := plain(f.Name)
		if reason := badName(name); reason != "" {
			return &Fault{printable(f.Name), reason, doNotOpen}
		}
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		if first, ok := seen[name]; ok {
			return &Fault{printable(f.Name), fmt.Sprintf("the package holds it twice, first as %q", first), saveAgain}
		}
		seen[name] = f.Name
		if f.Flags&1 != 0 {
			return &Fault{printable(f.Name), "protected with a password", noPassword}
		}
		if f.Method != zip.Store && f.Method != zip.Deflate {
			return &Fault{printable(f.Name), fmt.Sprintf("packed by method %d, which no spreadsheet program uses", f.Method), saveAgain}
		}
		if f.CompressedSize64 > uint64(size) {
			return &Fault{printable(f.Name), "said to be larger than the whole file", copyAgain}
		}
		packed += int64(f.CompressedSize64)
	}
	if packed > size {
		return &Fault{"", "entries of the package lie over each other", doNotOpen}
	}
	return nil
}

// plain is the name by which two entries are the same: without regard to case, the kind of
// slash or a leading one.
func plain(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func badName(name string) string {
	for _, r := range name {
		if r < 0x20 || r == 0x7f {
			return "the name of the entry holds a control character"
		}
	}
	for step := range strings.SplitSeq(name, "/") {
		if step == ".." || step == "." {
			return "the name of the entry leads out of the package"
		}
	}
	if name == "" || len(name) > 1 && name[1] == ':' {
		return "the name of the entry is no name of a part"
	}
	return ""
}

func printable(name string) string {
	q := fmt.Sprintf("%q", name)
	if len(q) > 120 {
		q = q[:120] + `..."`
	}
	if q == `"`+name+`"` {
		return name
	}
	return q
}

// pass is one reading of all parts.
type pass struct {
	left, size int64 // bytes that may still be unpacked; bytes of the file
	unpacked   int64
	strings    int // shared strings there are
	farString  farString
	span       int64
	sheets     int
	book       bool
	skip       [32 << 10]byte
	scan       scan.Scanner
}

// farString is the cell that points at the highest shared string.
type farString struct {
	index       int
	part        string
	row, column int
}

// part reads one entry to its end.
func (p *pass) part(f *zip.File) error {
	body, err := f.Open()
	if err != nil {
		return &Fault{printable(f.Name), "cannot be unpacked", copyAgain}
	}
	defer body.Close()
	m := &meter{r: body, p: p, packed: max(int64(f.CompressedSize64), 1)}
	if !isXML(f.Name) {
		for err == nil {
			_, err = m.Read(p.skip[:])
		}
		return faultOf(f, err)
	}
	c := content{p: p, part: f.Name}
	err = p.scan.Read(m, &c)
	p.strings = max(p.strings, c.strings)
	return faultOf(f, err)
}

func isXML(name string) bool {
	ext := strings.ToLower(path.Ext(name))
	return ext == ".xml" || ext == ".rels"
}

// faultOf puts the part to an error met while reading it.
func faultOf(f *zip.File, err error) error {
	var fault *Fault
	var broken *scan.Error
	switch {
	case err == nil || err == io.EOF:
		return nil
	case errors.As(err, &fault):
		if fault.Part == "" {
			fault.Part = printable(f.Name)
		}
		return fault
	case errors.As(err, &broken) && broken.Hostile:
		return &Fault{printable(f.Name), broken.Error(), doNotOpen}
	case errors.As(err, &broken):
		return &Fault{printable(f.Name), broken.Error(), saveAgain}
	case errors.Is(err, zip.ErrChecksum), errors.Is(err, zip.ErrFormat), errors.Is(err, io.ErrUnexpectedEOF):
		return &Fault{printable(f.Name), "its bytes are not those that were packed (size or checksum)", copyAgain}
	}
	return &Fault{printable(f.Name), "cannot be unpacked (" + err.Error() + ")", copyAgain}
}

// meter counts what really unpacks; it does not believe the sizes in the package.
type meter struct {
	r              io.Reader
	p              *pass
	packed, before int64
}

func (m *meter) Read(b []byte) (int, error) {
	n, err := m.r.Read(b)
	m.before += int64(n)
	m.p.unpacked += int64(n)
	switch {
	case m.p.unpacked > MaxUnpacked:
		return n, &Fault{"", fmt.Sprintf("the file unpacks to more than %d MiB", MaxUnpacked>>20), splitIt}
	case m.before > RatioFrom && m.before/m.packed > MaxRatio,
		m.p.unpacked > RatioFrom && m.p.unpacked/m.p.size > MaxRatio:
		return n, &Fault{"", fmt.Sprintf("unpacks to more than %d times its size", MaxRatio), doNotOpen}
	}
	return n, err
}

// whole checks what can only be said of all parts together.
func (p *pass) whole(zr *zip.Reader) error {
	switch {
	case p.book && p.sheets > 0:
	case has(zr, "xl/workbook.bin"):
		return &Fault{"", "a binary workbook", saveAsXlsx}
	case has(zr, "mimetype"):
		return &Fault{"", "a workbook of another kind than .xlsx", saveAsXlsx}
	case !p.book:
		return &Fault{"", "not a workbook: the package holds no workbook part", chooseOther}
	default:
		return &Fault{"", "the workbook holds no tab with cells", chooseOther}
	}
	if far := p.farString; far.part != "" && far.index >= p.strings {
		return &Fault{printable(far.part), fmt.Sprintf("cell %s points at text %d, and there are %d",
			cellName(far.row, far.column), far.index, p.strings), saveAgain}
	}
	return nil
}

func has(zr *zip.Reader, name string) bool {
	for _, f := range zr.File {
		if plain(f.Name) == name {
			return true
		}
	}
	return false
}
