package formula

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

type tokenKind int

const (
	tokenEnd tokenKind = iota
	tokenNumber
	tokenName
	tokenText
	tokenSign // an operator, a parenthesis or a comma
)

type token struct {
	kind   tokenKind
	text   string // as it stands in the formula; without its quotes for a text
	number float64
	at     int // byte offset
}

func (t token) String() string {
	if t.kind == tokenEnd {
		return "the end"
	}
	return strconv.Quote(t.text)
}

// next reads the token that starts at or after p.pos.
func (p *parser) next() error {
	for p.pos < len(p.text) && strings.IndexByte(" \t\r\n", p.text[p.pos]) >= 0 {
		p.pos++
	}
	p.tok = token{at: p.pos}
	if p.pos == len(p.text) {
		return nil
	}
	switch c := p.text[p.pos]; {
	case isDigit(c) || c == '.':
		return p.readNumber()
	case isLetter(c):
		p.take(tokenName, p.span(p.pos, isWordByte))
	case c == '"':
		return p.readText()
	case strings.IndexByte("+-*/^(),=<>", c) >= 0:
		length := 1
		if two := p.text[p.pos:min(p.pos+2, len(p.text))]; two == "<=" || two == ">=" || two == "<>" {
			length = 2
		}
		p.take(tokenSign, p.pos+length)
	default:
		r, _ := utf8.DecodeRuneInString(p.text[p.pos:])
		return p.fault(p.pos, fmt.Sprintf("%q", r), "a number, a symbol, an operator or a parenthesis")
	}
	return nil
}

func (p *parser) take(kind tokenKind, end int) {
	p.tok.kind, p.tok.text = kind, p.text[p.pos:end]
	p.pos = end
}

// span is the offset of the first byte at or after from that is not in the class.
func (p *parser) span(from int, class func(byte) bool) int {
	for from < len(p.text) && class(p.text[from]) {
		from++
	}
	return from
}

func (p *parser) readNumber() error {
	end := p.span(p.pos, isDigit)
	if end < len(p.text) && p.text[end] == '.' {
		end = p.span(end+1, isDigit)
	}
	if end < len(p.text) && (p.text[end] == 'e' || p.text[end] == 'E') {
		power := end + 1
		if power < len(p.text) && (p.text[power] == '+' || p.text[power] == '-') {
			power++
		}
		end = p.span(power, isDigit)
	}
	end = p.span(end, isWordByte) // 2f and 3.1.4 are read whole and refused whole
	p.take(tokenNumber, end)
	number, err := strconv.ParseFloat(p.tok.text, 64)
	if err != nil || strings.Contains(p.tok.text, "_") || strings.ContainsAny(p.tok.text, "xXpP") {
		return p.fault(p.tok.at, strconv.Quote(p.tok.text), "a number such as 12, 0.75 or 1.5e-3")
	}
	p.tok.number = number
	return nil
}

// readText reads "HOLD"; a quote inside is written twice.
func (p *parser) readText() error {
	var b strings.Builder
	for i := p.pos + 1; i < len(p.text); i++ {
		if p.text[i] != '"' {
			b.WriteByte(p.text[i])
			continue
		}
		if i+1 < len(p.text) && p.text[i+1] == '"' {
			b.WriteByte('"')
			i++
			continue
		}
		p.tok.kind, p.tok.text, p.pos = tokenText, b.String(), i+1
		if !utf8.ValidString(p.tok.text) {
			return p.fault(p.tok.at, strconv.Quote(p.tok.text), "text in UTF-8")
		}
		return nil
	}
	return p.fault(p.tok.at, "a text without its closing quote", `"`)
}

func isDigit(c byte) bool    { return '0' <= c && c <= '9' }
func isLetter(c byte) bool   { return c == '_' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
func isWordByte(c byte) bool { return isDigit(c) || isLetter(c) || c == '.' }
