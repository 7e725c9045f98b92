package read

import (
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// source is one workbook opened for reading: its tabs in order, the text and looks they share.
type source struct {
	*pack
	path     string
	tabs     []tabRef
	date1904 bool
	strings  []shared
	looks    []*Look
	names    []definedName
}

type tabRef struct {
	name   string
	part   string
	hidden bool
}

type definedName struct {
	name, text string
	tab        int // index of the tab the name belongs to, -1 for the whole workbook
}

// shared is one text that cells refer to.
type shared struct {
	text   string
	struck bool // every run of it is struck through
}

func openSource(file string, data []byte) (*source, error) {
	p, err := openPack(data)
	if err != nil {
		return nil, err
	}
	s := &source{pack: p, path: file}
	root, err := s.related("")
	if err != nil {
		return nil, fmt.Errorf("not a workbook: %w", err)
	}
	main := root.byKind("officeDocument")
	if main == "" {
		return nil, errors.New("not a workbook: the package names no main part")
	}
	rels, err := s.related(main)
	if err != nil {
		return nil, err
	}
	if err := s.readWorkbook(main, rels); err != nil {
		return nil, fmt.Errorf("%s: %w", main, err)
	}
	if part := rels.byKind("styles"); s.has(part) {
		if err := s.readStyles(part); err != nil {
			return nil, fmt.Errorf("%s: %w", part, err)
		}
	}
	if part := rels.byKind("sharedStrings"); s.has(part) {
		if err := s.readStrings(part); err != nil {
			return nil, fmt.Errorf("%s: %w", part, err)
		}
	}
	return s, nil
}

type relation struct{ id, kind, target string }

type relations []relation

// byKind finds a part by the last word of its relationship, which the strict and the
// transitional form of the standard share.
func (rs relations) byKind(kind string) string {
	for _, r := range rs {
		if r.kind == kind {
			return r.target
		}
	}
	return ""
}

// related reads the relationships of a part; none at all is no error but for the root.
func (s *source) related(part string) (relations, error) {
	dir, base := path.Split(part)
	name := path.Join(dir, "_rels", base+".rels")
	r, err := s.open(name)
	if err != nil {
		if part != "" {
			return nil, nil
		}
		return nil, err
	}
	defer r.Close()
	var rs relations
	err = eachStart(newScanner(r), func(x *xmlScanner) error {
		if string(x.name) != "Relationship" || x.attr("TargetMode") == "External" {
			return nil
		}
		target := strings.ReplaceAll(x.attr("Target"), `\`, "/")
		if !strings.HasPrefix(target, "/") {
			target = path.Join(dir, target)
		}
		rs = append(rs, relation{x.attr("Id"), path.Base(x.attr("Type")), strings.TrimPrefix(path.Clean(target), "/")})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return rs, nil
}

// eachStart calls visit at every start tag to the end of the part.
func eachStart(x *xmlScanner, visit func(*xmlScanner) error) error {
	for {
		k, err := x.next()
		switch {
		case err != nil:
			return err
		case k == endOfPart:
			return nil
		case k == startTag:
			if err := visit(x); err != nil {
				return err
			}
		}
	}
}

func (s *source) readWorkbook(part string, rels relations) error {
	r, err := s.open(part)
	if err != nil {
		return err
	}
	defer r.Close()
	return eachStart(newScanner(r), func(x *xmlScanner) error {
		switch string(x.name) {
		case "workbookPr":
			s.date1904 = isTrue(x.attrBytes("date1904"))
		case "sheet":
			state := x.attr("state")
			ref := tabRef{name: x.attr("name"), hidden: state == "hidden" || state == "veryHidden"}
			id := x.attr("id")
			for _, rel := range rels {
				if rel.id == id && rel.kind == "worksheet" {
					ref.part = rel.target
				}
			}
			s.tabs = append(s.tabs, ref)
		case "definedName":
			d := definedName{name: x.attr("name"), tab: -1}
			if n, err := strconv.Atoi(x.attr("localSheetId")); err == nil {
				d.tab = n
			}
			text, err := x.content()
			d.text = text
			s.names = append(s.names, d)
			return err
		}
		return nil
	})
}

// content collects the text up to the end of the element just opened.
func (s *xmlScanner) content() (string, error) {
	var b strings.Builder
	for depth := 1; depth > 0; {
		k, err := s.next()
		if err != nil {
			return "", err
		}
		switch k {
		case startTag:
			depth++
		case endTag:
			depth--
		case charData:
			b.Write(s.text)
		case endOfPart:
			return "", io.ErrUnexpectedEOF
		}
	}
	return b.String(), nil
}

func (s *source) readStrings(part string) error {
	r, err := s.open(part)
	if err != nil {
		return err
	}
	defer r.Close()
	return eachStart(newScanner(r), func(x *xmlScanner) error {
		if string(x.name) != "si" {
			return nil
		}
		if len(s.strings) >= maxStrings {
			return fmt.Errorf("more than %d shared texts", maxStrings)
		}
		t, err := x.richText()
		s.strings = append(s.strings, t)
		return err
	})
}

// richText reads the runs of an <si> or <is>. Struck runs are left out while other runs
// stand: somebody struck the old size and typed the new one beside it.
func (s *xmlScanner) richText() (shared, error) {
	var all, kept strings.Builder
	var inText, struck, anyStruck bool
	for depth := 1; depth > 0; {
		k, err := s.next()
		if err != nil {
			return shared{}, err
		}
		switch k {
		case endOfPart:
			return shared{}, io.ErrUnexpectedEOF
		case charData:
			if inText {
				all.Write(s.text)
				if !struck {
					kept.Write(s.text)
				}
			}
		case endTag:
			depth--
			inText = false
			if string(s.name) == "r" {
				struck = false
			}
		case startTag:
			depth++
			switch string(s.name) {
			case "t":
				inText = true
			case "strike", "dstrike":
				if v := s.attrBytes("val"); v == nil || isTrue(v) {
					struck, anyStruck = true, true
				}
			case "rPh":
				if err := s.skip(); err != nil {
					return shared{}, err
				}
				depth--
			}
		}
	}
	if text := kept.String(); strings.TrimSpace(text) != "" || !anyStruck {
		return shared{text: unescapeUnits(text)}, nil
	}
	return shared{text: unescapeUnits(all.String()), struck: true}, nil
}

func isTrue(b []byte) bool { return string(b) == "1" || string(b) == "true" || string(b) == "on" }

// unescapeUnits resolves _x000D_, the way the format writes characters XML cannot hold.
func unescapeUnits(t string) string {
	if !strings.Contains(t, "_x") {
		return t
	}
	var b strings.Builder
	for i := 0; i < len(t); i++ {
		if i+7 <= len(t) && t[i] == '_' && t[i+1] == 'x' && t[i+6] == '_' {
			if n, err := strconv.ParseUint(t[i+2:i+6], 16, 16); err == nil {
				b.WriteRune(rune(n))
				i += 6
				continue
			}
		}
		b.WriteByte(t[i])
	}
	return b.String()
}
