// Package scan reads XML from end to end in one pass and demands that it be well-formed, its
// namespace prefixes declared and its attributes unique (Extensible Markup Language (XML)
// 1.0, Fifth Edition; Namespaces in XML 1.0, Third Edition), and free of a document type.
// encoding/xml lets an undeclared prefix and a repeated attribute pass, and a program that
// does not then reads another document than we did. It knows nothing of workbooks.
package scan

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// Limits on what a document may look like; parts of workbooks stay far below.
const (
	MaxDepth = 64      // elements nested
	MaxTag   = 1 << 20 // bytes of one tag with its attributes, when read through a window
	MaxAttrs = 256     // attributes of one element
)

// window is how much is looked at once; a longer tag makes it grow up to MaxTag.
const window = 64 << 10

// Watcher is told what stands in the document. An error it returns ends the scan. The bytes
// are good until it returns. Offsets count from the first byte of the text as decoded.
type Watcher interface {
	Open(Tag) error
	Text(piece []byte) error // text between tags, perhaps in pieces, references unresolved
	Close(name []byte, start, end int64) error
}

// Tag is a start tag.
type Tag struct {
	Name       []byte // with its prefix
	Attrs      []Attr // namespace declarations too
	Depth      int    // 1 for the root
	Start, End int64  // from "<" to behind ">"
	SelfClosed bool   // Close follows at once, with Start and End both at End
}

// Attr is one attribute, its references unresolved.
type Attr struct {
	Name, Value []byte
	Begin       int64 // offset of the value
}

// Error is a document that is not sound.
type Error struct {
	Byte    int64
	Reason  string
	Hostile bool // not how documents break by accident
}

func (e *Error) Error() string { return fmt.Sprintf("byte %d: %s", e.Byte, e.Reason) }

// Scanner can be used for one document after the other, and then needs no new memory.
type Scanner struct {
	r       io.Reader
	own     []byte // the window, kept for the next document
	buf     []byte
	at, end int
	done    bool // r has no more
	base    int64

	names []byte // names of the open elements, one behind the other
	ends  []int  // where each ends in names
	bound []binding
	attrs []Attr
	see   Watcher
	roots int
}

type binding struct {
	prefix string
	depth  int
}

// longest is how many bytes a reference may take.
const longest = 16

var errMore = errors.New("the window ends inside a tag")

// Read scans what r yields, in constant memory. UTF-16 and the encodings that the document
// declares are decoded. The error is an *Error, or that of r or see.
func (s *Scanner) Read(r io.Reader, see Watcher) error {
	if s.own == nil {
		s.own = make([]byte, window)
	}
	s.reset(see)
	s.r, s.buf = r, s.own
	if err := s.decode(); err != nil {
		return err
	}
	err := s.document()
	s.own = s.buf
	return err
}

// Text scans a document in memory, in UTF-8 with or without a byte order mark.
func (s *Scanner) Text(text []byte, see Watcher) error {
	s.reset(see)
	s.buf, s.end, s.done = text, len(text), true
	if bytes.HasPrefix(text, []byte("\xef\xbb\xbf")) {
		s.at = 3
	}
	return s.document()
}

func (s *Scanner) reset(see Watcher) {
	*s = Scanner{own: s.own, names: s.names[:0], ends: s.ends[:0], bound: s.bound[:0], attrs: s.attrs[:0], see: see}
}

func (s *Scanner) document() error {
	for {
		if err := s.text(); err != nil {
			return err
		}
		if s.at == s.end {
			break
		}
		if err := s.tag(); err != nil {
			return err
		}
	}
	switch {
	case len(s.ends) > 0:
		return s.bad("ends inside <%s>: the part is cut off", s.top())
	case s.roots == 0:
		return s.bad("holds no element")
	}
	return nil
}

func (s *Scanner) bad(format string, args ...any) *Error {
	return &Error{s.base + int64(s.at), fmt.Sprintf(format, args...), false}
}

func (s *Scanner) hostile(format string, args ...any) *Error {
	return &Error{s.base + int64(s.at), fmt.Sprintf(format, args...), true}
}

var label = regexp.MustCompile(`^<\?xml[^>]*?\sencoding\s*=\s*["']([^"'>]*)["']`)

// decode puts a decoder before a part that is not UTF-8.
func (s *Scanner) decode() error {
	if err := s.fill(); err != nil {
		return err
	}
	head := s.buf[:s.end]
	var from encoding.Encoding
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		s.at = 3
		return nil
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("<\x00")):
		from = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	case bytes.HasPrefix(head, []byte("\xfe\xff")), bytes.HasPrefix(head, []byte("\x00<")):
		from = unicode.UTF16(unicode.BigEndian, unicode.UseBOM)
	default:
		m := label.FindSubmatch(head)
		if m == nil {
			return nil
		}
		switch name := string(bytes.ToLower(m[1])); name {
		case "utf-8", "utf8", "us-ascii", "ascii", "utf-16":
			return nil
		default:
			var err error
			if from, err = htmlindex.Get(name); err != nil {
				return s.bad("text in the encoding %.40q", name)
			}
		}
	}
	rest := io.MultiReader(bytes.NewReader(bytes.Clone(head)), s.r)
	if s.done {
		rest = bytes.NewReader(bytes.Clone(head))
	}
	s.r = transform.NewReader(rest, from.NewDecoder())
	s.at, s.end, s.done = 0, 0, false
	return s.fill()
}

// fill moves what is left to the front of the window and reads on.
func (s *Scanner) fill() error {
	copy(s.buf, s.buf[s.at:s.end])
	s.base += int64(s.at)
	s.at, s.end = 0, s.end-s.at
	if s.end == len(s.buf) {
		if len(s.buf) >= MaxTag {
			return s.bad("one tag takes more than %d bytes", MaxTag)
		}
		s.buf = append(s.buf, make([]byte, len(s.buf))...)
	}
	for s.end < len(s.buf) && !s.done {
		n, err := s.r.Read(s.buf[s.end:])
		s.end += n
		if err == io.EOF {
			s.done = true
		} else if err != nil {
			return err
		}
	}
	return nil
}

// text consumes everything before the next tag.
func (s *Scanner) text() error {
	for {
		rest := s.buf[s.at:s.end]
		n := bytes.IndexByte(rest, '<')
		whole := n >= 0 || s.done
		if n < 0 {
			n = len(rest)
		}
		if !whole { // a reference or a letter may go on behind the window
			n = max(0, n-longest)
			for n > 0 && !utf8.RuneStart(rest[n]) {
				n--
			}
			if i := bytes.LastIndexByte(rest[max(0, n-longest):n], '&'); i >= 0 {
				n = max(0, n-longest) + i
			}
		}
		if err := s.chars(rest[:n]); err != nil {
			return err
		}
		s.at += n
		if whole {
			return nil
		}
		if err := s.fill(); err != nil {
			return err
		}
	}
}

func (s *Scanner) chars(b []byte) error {
	if len(b) == 0 {
		return nil
	}
	if len(s.ends) == 0 {
		if len(bytes.TrimLeft(b, " \t\r\n")) > 0 {
			return s.bad("text outside the root element")
		}
		return nil
	}
	if err := s.characters(b, true); err != nil {
		return err
	}
	return s.see.Text(b)
}

// class of each byte: 0 plain, else to be looked at.
var class = func() (t [256]byte) {
	for i := range t {
		if i < 0x20 && i != '\t' && i != '\n' && i != '\r' || i >= 0x80 {
			t[i] = 1
		}
	}
	t['&'], t[']'], t['<'] = 1, 1, 1
	return t
}()

// characters demands legal characters and references.
func (s *Scanner) characters(b []byte, inText bool) error {
	for i := 0; i < len(b); {
		if class[b[i]] == 0 {
			i++
			continue
		}
		switch c := b[i]; {
		case c >= 0x80:
			r, n := utf8.DecodeRune(b[i:])
			if r == utf8.RuneError && n == 1 || r == 0xfffe || r == 0xffff {
				return s.bad("a byte that is no letter in UTF-8 (%#x)", c)
			}
			i += n
		case c == '&':
			n := bytes.IndexByte(b[i:min(len(b), i+longest)], ';')
			if n < 0 {
				return s.bad("an & that begins no reference")
			}
			if _, ok := Reference(b[i+1 : i+n]); !ok {
				return s.bad("the reference %.20s, which is not known", b[i:i+n+1])
			}
			i += n + 1
		case c == ']':
			if inText && bytes.HasPrefix(b[i:], []byte("]]>")) {
				return s.bad("]]> in text")
			}
			i++
		case c == '<':
			return s.bad("< in the value of an attribute")
		default:
			return s.bad("control character %#x", c)
		}
	}
	return nil
}

// Reference resolves the name of a reference, the part between & and ;, to its character.
func Reference(name []byte) (rune, bool) {
	switch string(name) {
	case "lt":
		return '<', true
	case "gt":
		return '>', true
	case "amp":
		return '&', true
	case "quot":
		return '"', true
	case "apos":
		return '\'', true
	}
	digits, ok := bytes.CutPrefix(name, []byte("#"))
	if !ok {
		return 0, false
	}
	base := 10
	if h, hex := bytes.CutPrefix(digits, []byte("x")); hex {
		digits, base = h, 16
	}
	n, err := strconv.ParseUint(string(digits), base, 32)
	legal := err == nil && n <= utf8.MaxRune && utf8.ValidRune(rune(n)) && n != 0xfffe && n != 0xffff &&
		(n >= 0x20 || n == '\t' || n == '\n' || n == '\r')
	return rune(n), legal
}

// tag consumes one piece of markup, reading on where the window ends inside it.
func (s *Scanner) tag() error {
	for {
		err := s.markup(s.buf[s.at:s.end])
		if err != errMore {
			return err
		}
		if s.done {
			return s.bad("ends inside a tag: the part is cut off")
		}
		if err := s.fill(); err != nil {
			return err
		}
	}
}

func (s *Scanner) markup(b []byte) error {
	switch {
	case len(b) < 9 && !s.done:
		return errMore
	case len(b) < 2:
		return errMore
	case b[1] == '/':
		return s.closeTag(b)
	case b[1] == '?':
		return s.over("?>", 2)
	case bytes.HasPrefix(b, []byte("<!--")):
		return s.over("-->", 4)
	case bytes.HasPrefix(b, []byte("<![CDATA[")):
		if len(s.ends) == 0 {
			return s.bad("text outside the root element")
		}
		return s.over("]]>", 9)
	case b[1] == '!':
		return s.hostile("a document type, which no spreadsheet program writes")
	}
	return s.openTag(b)
}

// over skips to the end of a comment, an instruction or a CDATA section, whatever its length.
func (s *Scanner) over(end string, start int) error {
	s.at += start
	for {
		b := s.buf[s.at:s.end]
		if n := bytes.Index(b, []byte(end)); n >= 0 {
			s.at += n + len(end)
			return nil
		}
		if s.done {
			return s.bad("%s is missing: the part is cut off", end)
		}
		s.at += max(0, len(b)-len(end))
		if err := s.fill(); err != nil {
			return err
		}
	}
}

func (s *Scanner) top() []byte {
	from := 0
	if n := len(s.ends); n > 1 {
		from = s.ends[n-2]
	}
	return s.names[from:]
}

func (s *Scanner) closeTag(b []byte) error {
	n := bytes.IndexByte(b, '>')
	if n < 0 {
		return errMore
	}
	if len(s.ends) == 0 {
		return s.bad("an end tag without its start")
	}
	name := b[2:n]
	for len(name) > 0 && isBlank(name[len(name)-1]) {
		name = name[:len(name)-1]
	}
	if !bytes.Equal(name, s.top()) {
		return s.bad("</%.40s> where </%s> was expected", name, s.top())
	}
	from := s.base + int64(s.at)
	if err := s.see.Close(name, from, from+int64(n)+1); err != nil {
		return err
	}
	s.pop()
	s.at += n + 1
	return nil
}

func (s *Scanner) pop() {
	depth := len(s.ends)
	s.names = s.names[:len(s.names)-len(s.top())]
	s.ends = s.ends[:depth-1]
	for len(s.bound) > 0 && s.bound[len(s.bound)-1].depth == depth {
		s.bound = s.bound[:len(s.bound)-1]
	}
}

func (s *Scanner) openTag(b []byte) error {
	i := 1
	for i < len(b) && isName[b[i]] {
		i++
	}
	if i == len(b) {
		return errMore
	}
	name := b[1:i]
	if len(name) == 0 || !isStart(name[0]) {
		return s.bad("a tag without a name")
	}
	size, closed, err := s.attributes(b, i)
	if err != nil {
		return err
	}
	if len(s.ends) == 0 {
		if s.roots++; s.roots > 1 {
			return s.bad("a second root element")
		}
	}
	if len(s.ends) >= MaxDepth {
		return s.hostile("elements nest deeper than %d", MaxDepth)
	}
	s.names = append(s.names, name...)
	s.ends = append(s.ends, len(s.names))
	if err := s.prefixes(name); err != nil {
		return err
	}
	from := s.base + int64(s.at)
	to := from + int64(size)
	if err := s.see.Open(Tag{name, s.attrs, len(s.ends), from, to, closed}); err != nil {
		return err
	}
	if closed {
		if err := s.see.Close(name, to, to); err != nil {
			return err
		}
		s.pop()
	}
	s.at += size
	return nil
}

// attributes reads from b[i:] to the end of the start tag and returns the size of the tag.
func (s *Scanner) attributes(b []byte, i int) (size int, closed bool, err error) {
	s.attrs = s.attrs[:0]
	for {
		blank := i
		for i < len(b) && isBlank(b[i]) {
			i++
		}
		if i+1 >= len(b) && (i >= len(b) || b[i] != '>') {
			return 0, false, errMore
		}
		switch {
		case b[i] == '>':
			return i + 1, false, nil
		case b[i] == '/' && b[i+1] == '>':
			return i + 2, true, nil
		case i == blank || !isStart(b[i]):
			return 0, false, s.bad("a tag that is no tag: %.40q", b[:min(len(b), 40)])
		}
		from := i
		for i < len(b) && isName[b[i]] {
			i++
		}
		name := b[from:i]
		for i < len(b) && isBlank(b[i]) {
			i++
		}
		if i < len(b) && b[i] != '=' {
			return 0, false, s.bad("attribute %.40s without a value", name)
		}
		i++
		for i < len(b) && isBlank(b[i]) {
			i++
		}
		if i >= len(b) {
			return 0, false, errMore
		}
		if b[i] != '"' && b[i] != '\'' {
			return 0, false, s.bad("the value of attribute %.40s has no quotes", name)
		}
		n := bytes.IndexByte(b[i+1:], b[i])
		if n < 0 {
			return 0, false, errMore
		}
		val := b[i+1 : i+1+n]
		if err := s.characters(val, false); err != nil {
			return 0, false, err
		}
		if err := s.attribute(Attr{name, val, s.base + int64(s.at+i) + 1}); err != nil {
			return 0, false, err
		}
		i += n + 2
	}
}

func (s *Scanner) attribute(a Attr) error {
	if len(s.attrs) == MaxAttrs {
		return s.bad("an element with more than %d attributes", MaxAttrs)
	}
	for _, b := range s.attrs {
		if bytes.Equal(b.Name, a.Name) {
			return s.bad("attribute %.40s twice in one element", a.Name)
		}
	}
	s.attrs = append(s.attrs, a)
	return nil
}

// prefixes puts the namespace prefixes declared here in force and looks for undeclared ones.
func (s *Scanner) prefixes(name []byte) error {
	depth := len(s.ends)
	for _, a := range s.attrs {
		if p, ok := bytes.CutPrefix(a.Name, []byte("xmlns:")); ok {
			if len(s.bound) > 16*MaxAttrs {
				return s.bad("too many namespaces")
			}
			s.bound = append(s.bound, binding{string(p), depth})
		}
	}
	if err := s.declared(name); err != nil {
		return err
	}
	for _, a := range s.attrs {
		if err := s.declared(a.Name); err != nil {
			return err
		}
	}
	return nil
}

func (s *Scanner) declared(name []byte) error {
	i := bytes.IndexByte(name, ':')
	if i < 0 {
		return nil
	}
	prefix := name[:i]
	if string(prefix) == "xml" || string(prefix) == "xmlns" {
		return nil
	}
	for j := len(s.bound) - 1; j >= 0; j-- {
		if s.bound[j].prefix == string(prefix) {
			return nil
		}
	}
	return s.bad("the prefix of %.40s is not declared", name)
}

// Local is a name without its prefix.
func Local(name []byte) []byte { return name[bytes.IndexByte(name, ':')+1:] }

var isName = func() (t [256]bool) {
	for i := range t {
		c := byte(i)
		t[i] = c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' ||
			c == '_' || c == ':' || c == '-' || c == '.' || c >= 0x80
	}
	return t
}()

func isStart(c byte) bool { return isName[c] && c != '-' && c != '.' && (c < '0' || c > '9') }

func isBlank(c byte) bool { return c == ' ' || c == '\n' || c == '\r' || c == '\t' }
