package read

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Limits of one XML part; a part beyond them was not made by a spreadsheet program.
const (
	maxDepth = 64
	maxToken = 16 << 20 // bytes of one tag or one run of text
)

type tokenKind uint8

const (
	startTag tokenKind = iota
	endTag
	charData
	endOfPart
)

type attr struct{ name, value []byte }

// xmlScanner pulls tags and text out of one part, to its very end: a part that is cut off or
// whose tags do not match is an error. The standard decoder takes most of the time of reading
// a workbook, this one a tenth of it. Slices it hands out live until the next call.
type xmlScanner struct {
	r        io.Reader
	buf      []byte
	pos, end int
	eof      bool

	names  []byte // open tags, one after the other
	starts []int  // where each begins in names
	closes bool   // the last start tag was self-closing: its end comes next
	root   bool   // the root element was seen

	name  []byte // local name of the tag
	attrs []attr
	text  []byte
}

func newScanner(r io.Reader) *xmlScanner {
	return &xmlScanner{r: r, buf: make([]byte, 64<<10)}
}

// fill reads more behind what is left in the buffer, growing it if it is full.
func (s *xmlScanner) fill() error {
	if s.eof {
		return io.ErrUnexpectedEOF
	}
	if s.pos > 0 {
		copy(s.buf, s.buf[s.pos:s.end])
		s.end -= s.pos
		s.pos = 0
	}
	if s.end == len(s.buf) {
		if len(s.buf) >= maxToken {
			return fmt.Errorf("one tag or text is longer than %d bytes", maxToken)
		}
		s.buf = append(s.buf, make([]byte, len(s.buf))...)
	}
	n, err := s.r.Read(s.buf[s.end:])
	s.end += n
	if err == io.EOF {
		s.eof = true
		if n == 0 {
			return io.ErrUnexpectedEOF
		}
		return nil
	}
	return err
}

// index finds sep at or after from bytes beyond the position, reading on as needed. The
// result counts from the position.
func (s *xmlScanner) index(sep string, from int) (int, error) {
	for {
		if i := bytes.Index(s.buf[s.pos+from:s.end], []byte(sep)); i >= 0 {
			return from + i, nil
		}
		if keep := s.end - s.pos - len(sep) + 1; keep > from {
			from = keep
		}
		if err := s.fill(); err != nil {
			return 0, err
		}
	}
}

// need makes sure n bytes stand in the buffer, or as many as the part has left.
func (s *xmlScanner) need(n int) error {
	for s.end-s.pos < n {
		if err := s.fill(); err != nil {
			if s.eof && errors.Is(err, io.ErrUnexpectedEOF) {
				return nil
			}
			return err
		}
	}
	return nil
}

func (s *xmlScanner) next() (tokenKind, error) {
	if s.closes {
		s.closes = false
		s.pop()
		return endTag, nil
	}
	for {
		if err := s.need(1); err != nil {
			return 0, err
		}
		if s.pos == s.end {
			if len(s.starts) > 0 || !s.root {
				return 0, io.ErrUnexpectedEOF
			}
			return endOfPart, nil
		}
		if s.buf[s.pos] != '<' {
			return charData, s.readText()
		}
		if err := s.need(9); err != nil {
			return 0, err
		}
		head := s.buf[s.pos:s.end]
		switch {
		case bytes.HasPrefix(head, []byte("<?")):
			if err := s.skipPast("?>"); err != nil {
				return 0, err
			}
		case bytes.HasPrefix(head, []byte("<!--")):
			if err := s.skipPast("-->"); err != nil {
				return 0, err
			}
		case bytes.HasPrefix(head, []byte("<![CDATA[")):
			n, err := s.index("]]>", 9)
			if err != nil {
				return 0, err
			}
			s.text = s.buf[s.pos+9 : s.pos+n]
			s.pos += n + 3
			return charData, nil
		case bytes.HasPrefix(head, []byte("<!")):
			return 0, errors.New("declares a document type, which no workbook needs")
		case bytes.HasPrefix(head, []byte("</")):
			return endTag, s.readEnd()
		default:
			return startTag, s.readStart()
		}
	}
}

func (s *xmlScanner) skipPast(sep string) error {
	n, err := s.index(sep, 2)
	if err != nil {
		return err
	}
	s.pos += n + len(sep)
	return nil
}

func (s *xmlScanner) readText() error {
	n := 0
	for {
		if i := bytes.IndexByte(s.buf[s.pos+n:s.end], '<'); i >= 0 {
			n += i
			break
		}
		n = s.end - s.pos
		if s.eof {
			break
		}
		if err := s.fill(); err != nil && !s.eof {
			return err
		}
	}
	raw := s.buf[s.pos : s.pos+n]
	s.pos += n
	if len(s.starts) == 0 && len(bytes.TrimSpace(bytes.TrimPrefix(raw, []byte("\xef\xbb\xbf")))) > 0 {
		return fmt.Errorf("text %.20q outside every element", raw)
	}
	var err error
	s.text, err = unescape(raw)
	return err
}

func (s *xmlScanner) readEnd() error {
	n, err := s.index(">", 2)
	if err != nil {
		return err
	}
	full := bytes.TrimRight(s.buf[s.pos+2:s.pos+n], " \t\r\n")
	if len(s.starts) == 0 {
		return fmt.Errorf("closes <%s>, which was never opened", full)
	}
	if open := s.names[s.starts[len(s.starts)-1]:]; !bytes.Equal(open, full) {
		return fmt.Errorf("closes <%s> while <%s> is open", full, open)
	}
	s.name = local(full)
	s.pos += n + 1
	s.pop()
	return nil
}

func (s *xmlScanner) pop() {
	last := len(s.starts) - 1
	s.names = s.names[:s.starts[last]]
	s.starts = s.starts[:last]
}

func (s *xmlScanner) readStart() error {
	n, err := s.tagEnd()
	if err != nil {
		return err
	}
	tag := s.buf[s.pos+1 : s.pos+n]
	s.pos += n + 1
	s.closes = len(tag) > 0 && tag[len(tag)-1] == '/'
	if s.closes {
		tag = tag[:len(tag)-1]
	}
	i := bytes.IndexAny(tag, " \t\r\n")
	full, rest := tag, []byte(nil)
	if i >= 0 {
		full, rest = tag[:i], tag[i:]
	}
	if len(full) == 0 {
		return errors.New("a tag without a name")
	}
	if len(s.starts) >= maxDepth {
		return fmt.Errorf("elements nested deeper than %d", maxDepth)
	}
	if len(s.starts) == 0 && s.root {
		return fmt.Errorf("a second root element <%s>", full)
	}
	s.root = true
	s.starts = append(s.starts, len(s.names))
	s.names = append(s.names, full...)
	s.name = local(full)
	return s.readAttrs(rest)
}

// tagEnd finds the > that ends the tag at the position, passing over quoted values.
func (s *xmlScanner) tagEnd() (int, error) {
	n, quote := 1, byte(0)
	for {
		for ; s.pos+n < s.end; n++ {
			switch c := s.buf[s.pos+n]; {
			case quote != 0:
				if c == quote {
					quote = 0
				}
			case c == '"' || c == '\'':
				quote = c
			case c == '>':
				return n, nil
			}
		}
		if err := s.fill(); err != nil {
			return 0, err
		}
	}
}

func (s *xmlScanner) readAttrs(rest []byte) error {
	s.attrs = s.attrs[:0]
	for {
		rest = bytes.TrimLeft(rest, " \t\r\n")
		if len(rest) == 0 {
			return nil
		}
		eq := bytes.IndexByte(rest, '=')
		if eq < 0 {
			return fmt.Errorf("attribute %.20q without a value", rest)
		}
		name := bytes.TrimRight(rest[:eq], " \t\r\n")
		rest = bytes.TrimLeft(rest[eq+1:], " \t\r\n")
		if len(rest) == 0 || rest[0] != '"' && rest[0] != '\'' {
			return fmt.Errorf("attribute %.20q without quotes", name)
		}
		end := bytes.IndexByte(rest[1:], rest[0])
		if end < 0 {
			return fmt.Errorf("attribute %.20q without an end", name)
		}
		value, err := unescape(rest[1 : 1+end])
		if err != nil {
			return err
		}
		s.attrs = append(s.attrs, attr{local(name), value})
		rest = rest[end+2:]
	}
}

// attr returns the value of an attribute by its local name.
func (s *xmlScanner) attr(name string) string { return string(s.attrBytes(name)) }

func (s *xmlScanner) attrBytes(name string) []byte {
	for _, a := range s.attrs {
		if string(a.name) == name {
			return a.value
		}
	}
	return nil
}

// skip passes over the rest of the element that was just opened.
func (s *xmlScanner) skip() error {
	for depth := 1; depth > 0; {
		k, err := s.next()
		if err != nil {
			return err
		}
		switch k {
		case startTag:
			depth++
		case endTag:
			depth--
		case endOfPart:
			return io.ErrUnexpectedEOF
		}
	}
	return nil
}

func local(name []byte) []byte {
	if i := bytes.IndexByte(name, ':'); i >= 0 {
		return name[i+1:]
	}
	return name
}

var entities = map[string]string{"lt": "<", "gt": ">", "amp": "&", "quot": `"`, "apos": "'"}

// unescape resolves the five entities and numbered characters; it copies only when it must.
func unescape(b []byte) ([]byte, error) {
	i := bytes.IndexByte(b, '&')
	if i < 0 {
		return b, nil
	}
	out := append(make([]byte, 0, len(b)), b[:i]...)
	for i < len(b) {
		if b[i] != '&' {
			out = append(out, b[i])
			i++
			continue
		}
		semi := bytes.IndexByte(b[i:], ';')
		if semi < 0 {
			return nil, errors.New("a bare & in text")
		}
		name := string(b[i+1 : i+semi])
		if r, ok := entities[name]; ok {
			out = append(out, r...)
		} else if r, ok := numbered(name); ok {
			out = utf8.AppendRune(out, r)
		} else {
			return nil, fmt.Errorf("unknown entity &%s;", name)
		}
		i += semi + 1
	}
	return out, nil
}

func numbered(name string) (rune, bool) {
	digits, base := strings.TrimPrefix(name, "#"), 10
	if digits == name {
		return 0, false
	}
	if hex := strings.TrimPrefix(strings.ToLower(digits), "x"); hex != strings.ToLower(digits) {
		digits, base = hex, 16
	}
	n, err := strconv.ParseUint(digits, base, 32)
	return rune(n), err == nil && n <= utf8.MaxRune
}
