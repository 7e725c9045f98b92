package graft

import (
	"archive/zip"
	"bytes"
	"io"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode/utf16"

	"golang.org/x/text/encoding/htmlindex"

	"dryfit/sheet/graft/splice"
)

// maxPart is how large a part that must be read may be, unpacked: 256 MiB. The gate refuses
// long before; this only keeps a direct caller from harm.
const maxPart = 256 << 20

// host is the workbook that belongs to somebody else.
type host struct {
	zip      *zip.Reader
	parts    map[string]*zip.File // by key
	bookName string
	book     *splice.Tree
	relsTree *splice.Tree
	rels     []relation // of the workbook part
	rootRels []relation
	content  *contentList
	sheets   []sheet
	chain    chain
	strict   bool
}

// sheet is one tab of the host.
type sheet struct {
	name, relID, part string
	id, index         int
	ours              bool
}

func openHost(data []byte) (*host, error) {
	zr, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, refuse("it is no whole workbook package (%v)", err)
	}
	h := &host{zip: zr, parts: map[string]*zip.File{}}
	for _, f := range zr.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		k := key(f.Name)
		if h.parts[k] != nil {
			return nil, refuse("two entries of the package are called %q", f.Name)
		}
		h.parts[k] = f
	}
	content, err := h.tree(contentTypes)
	if err != nil {
		return nil, err
	}
	h.content = readContent(content)
	if err := h.findBook(); err != nil {
		return nil, err
	}
	if err := h.readSheets(); err != nil {
		return nil, err
	}
	return h, h.readChain()
}

// tree reads and parses a part; its text is UTF-8 whatever the part was.
func (h *host) tree(name string) (*splice.Tree, error) {
	text, err := h.read(name)
	if err != nil {
		return nil, err
	}
	if text, err = toUTF8(text); err != nil {
		return nil, refuse("its part %s cannot be read (%v)", name, err)
	}
	t, err := splice.Parse(text)
	if err != nil {
		return nil, refuse("its part %s is not sound XML (%v)", name, err)
	}
	return t, nil
}

func (h *host) read(name string) ([]byte, error) {
	f := h.parts[key(name)]
	if f == nil {
		return nil, refuse("its part %s is missing", name)
	}
	return unpack(f)
}

func unpack(f *zip.File) ([]byte, error) {
	if f.UncompressedSize64 > maxPart {
		return nil, refuse("its part %s unpacks to %d bytes", f.Name, f.UncompressedSize64)
	}
	r, err := f.Open()
	if err != nil {
		return nil, refuse("its part %s cannot be unpacked (%v)", f.Name, err)
	}
	defer r.Close()
	out := make([]byte, f.UncompressedSize64)
	if _, err := io.ReadFull(r, out); err != nil {
		return nil, refuse("its part %s cannot be unpacked (%v)", f.Name, err)
	}
	if n, err := r.Read(make([]byte, 1)); n > 0 || err != io.EOF {
		return nil, refuse("its part %s does not have the size or checksum it says", f.Name)
	}
	return out, nil
}

var declared = regexp.MustCompile(`^(?:\xef\xbb\xbf)?<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z0-9._:-]+)["']`)

// toUTF8 re-encodes a part that is not UTF-8 and says so in its declaration.
func toUTF8(text []byte) ([]byte, error) {
	order := 0 // index of the high byte in a UTF-16 unit
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")):
		text, order = text[2:], 1
	case bytes.HasPrefix(text, []byte("\xfe\xff")):
		text = text[2:]
	case bytes.HasPrefix(text, []byte("<\x00")):
		order = 1
	case bytes.HasPrefix(text, []byte("\x00<")):
	default:
		return fromLabel(text)
	}
	units := make([]uint16, len(text)/2)
	for i := range units {
		units[i] = uint16(text[2*i+order])<<8 | uint16(text[2*i+1-order])
	}
	return relabel([]byte(string(utf16.Decode(units)))), nil
}

func fromLabel(text []byte) ([]byte, error) {
	m := declared.FindSubmatch(text)
	if m == nil {
		return text, nil
	}
	switch label := strings.ToLower(string(m[1])); label {
	case "utf-8", "utf8", "us-ascii", "utf-16": // UTF-16 without its mark is UTF-8 mislabelled
		return text, nil
	default:
		e, err := htmlindex.Get(label)
		if err != nil {
			return nil, err
		}
		out, err := e.NewDecoder().Bytes(text)
		if err != nil {
			return nil, err
		}
		return relabel(out), nil
	}
}

func relabel(text []byte) []byte {
	m := declared.FindSubmatchIndex(text)
	if m == nil {
		return text
	}
	out := append([]byte{}, text[:m[2]]...)
	out = append(out, "UTF-8"...)
	return append(out, text[m[3]:]...)
}

// findBook reads the workbook part, found by relationship and, failing that, by its type.
func (h *host) findBook() error {
	if h.parts[key("_rels/.rels")] != nil {
		t, err := h.tree("_rels/.rels")
		if err != nil {
			return err
		}
		h.rootRels = readRels(t, "")
	}
	for _, r := range h.rootRels {
		if r.short() == "officeDocument" && h.parts[key(r.target)] != nil {
			h.bookName = r.target
			break
		}
	}
	if h.bookName == "" {
		return refuse("it has no workbook part")
	}
	kind := h.content.of(h.bookName)
	if strings.Contains(kind, "binary") {
		return refuse("it is a binary workbook; save it as .xlsx")
	}
	var err error
	if h.book, err = h.tree(h.bookName); err != nil {
		return err
	}
	root := h.book.Root()
	switch {
	case root.Name() == "workbook" && root.Space() == strictMain:
		h.strict = true
	case root.Name() != "workbook" || root.Space() != nsMain:
		return refuse("its part %s holds %q, not a workbook", h.bookName, root.Name())
	}
	if h.relsTree, err = h.tree(relsName(h.bookName)); err != nil {
		return err
	}
	h.rels = readRels(h.relsTree, h.bookName)
	return nil
}

// base is the folder of the workbook part.
func (h *host) base() string {
	if dir := path.Dir(h.bookName); dir != "." {
		return dir
	}
	return ""
}

func (h *host) relation(short string) (relation, bool) {
	for _, r := range h.rels {
		if r.short() == short && !r.external {
			return r, true
		}
	}
	return relation{}, false
}

func (h *host) relIDs() map[string]bool {
	ids := map[string]bool{}
	for _, r := range h.rels {
		ids[strings.ToLower(r.id)] = true
	}
	return ids
}

func (h *host) nsRels() string {
	if h.strict {
		return strictRels
	}
	return nsRels
}

func (h *host) readSheets() error {
	root := h.book.Root()
	if !root.Child("sheets").Ok() {
		return refuse("its workbook part lists no tabs")
	}
	for e := range root.Child("sheets").Named("sheet") {
		s := sheet{index: len(h.sheets)}
		s.name, _ = e.Attr("name")
		id, _ := e.Attr("sheetId")
		s.id = number(id, 0)
		for _, space := range []string{h.nsRels(), nsRels, strictRels} {
			if s.relID == "" {
				s.relID, _ = e.AttrIn(space, "id")
			}
		}
		for _, r := range h.rels {
			if r.id == s.relID && !r.external {
				s.part = r.target
			}
		}
		h.sheets = append(h.sheets, s)
	}
	for d := range root.Child("definedNames").Named("definedName") {
		if name, _ := d.Attr("name"); name != Mark {
			continue
		}
		scope, _ := d.Attr("localSheetId")
		if i := number(scope, -1); i >= 0 && i < len(h.sheets) && unquote(d.Value()) == h.sheets[i].name {
			h.sheets[i].ours = h.parts[key(h.sheets[i].part)] != nil
		}
	}
	return nil
}

// unquote reads a formula that is one text constant.
func unquote(formula string) string {
	s := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(formula), "="))
	if len(s) < 2 || s[0] != '"' || s[len(s)-1] != '"' {
		return ""
	}
	return strings.ReplaceAll(s[1:len(s)-1], `""`, `"`)
}

func quote(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// mayWrite refuses the workbooks whose owner, or whose signature, wants no change.
func (h *host) mayWrite() error {
	for _, r := range h.rootRels {
		if strings.Contains(r.kind, "/digital-signature/") {
			return refuse("it is digitally signed, and any change would break the signature")
		}
	}
	for _, r := range h.rels {
		if r.short() == "revisionHeaders" {
			return refuse("it is a shared workbook with a revision log; stop sharing it")
		}
	}
	root := h.book.Root()
	if p := root.Child("workbookProtection"); p.Ok() {
		if v, _ := p.Attr("lockStructure"); truth(v) {
			return refuse("the structure of the workbook is locked, so no tab can be added")
		}
		if v, _ := p.Attr("lockRevision"); truth(v) {
			return refuse("the workbook is locked for tracked changes")
		}
	}
	if p := root.Child("fileSharing"); p.Ok() {
		_, short := p.Attr("reservationPassword")
		_, long := p.Attr("hashValue")
		if short || long {
			return refuse("it asks for a password before it may be changed")
		}
	}
	return nil
}

var tabSelected = regexp.MustCompile(`\stabSelected\s*=\s*["'](?:1|true)["']`)

// isSelected reports whether the user left the workbook with this tab of ours selected.
func (h *host) isSelected(s *sheet) bool {
	text, err := h.read(s.part)
	if err != nil {
		return false
	}
	if text, err = toUTF8(text); err != nil {
		return false
	}
	head, _, _ := bytes.Cut(text, []byte("sheetData"))
	return tabSelected.Match(head)
}

// onlyBehind returns the keys of the given parts and of all that can be reached through them
// and not in another way.
func (h *host) onlyBehind(tabs map[string]bool) (map[string]bool, error) {
	kept, behind := map[string]bool{}, map[string]bool{}
	if len(tabs) == 0 {
		return behind, nil
	}
	for _, r := range append(slices.Clone(h.rootRels), h.rels...) {
		if r.external || key(r.target) == key(h.bookName) {
			continue
		}
		if err := h.reach(r.target, kept, tabs); err != nil {
			return nil, err
		}
	}
	for k := range tabs {
		if err := h.reach(h.parts[k].Name, behind, nil); err != nil {
			return nil, err
		}
	}
	for k := range kept {
		delete(behind, k)
	}
	return behind, nil
}

// reach adds the part, its relationships and all they lead to, but nothing in stop.
func (h *host) reach(part string, seen, stop map[string]bool) error {
	k := key(part)
	if h.parts[k] == nil {
		if plain, err := url.PathUnescape(k); err == nil {
			k = plain
		}
	}
	if seen[k] || stop[k] || k == key(h.bookName) || h.parts[k] == nil {
		return nil
	}
	seen[k] = true
	rels := relsName(k)
	if h.parts[rels] == nil {
		return nil
	}
	seen[rels] = true
	t, err := h.tree(rels)
	if err != nil {
		return err
	}
	for _, r := range readRels(t, k) {
		if r.external {
			continue
		}
		if err := h.reach(r.target, seen, stop); err != nil {
			return err
		}
	}
	return nil
}
