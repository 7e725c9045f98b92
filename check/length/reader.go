package length

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// reader walks over the tokens of one text.
type reader struct {
	text   string
	ctx    Context
	tokens []token
	at     int
	free   bool // the text may hold words that are no length: a name, a note
	err    *Error
}

// most is the number of bytes beyond which a cell is prose.
const most = 2000

func newReader(text string, ctx Context, free bool) *reader {
	p := &reader{text: text, ctx: ctx, free: free}
	if len(text) > most {
		p.fail(TooLong, "%d characters are no length", utf8.RuneCountInString(text))
		return p
	}
	p.tokens = scan(text)
	return p
}

// nothing is the token beyond either end.
var nothing = token{kind: other, spaced: true}

func (p *reader) ahead(n int) token {
	if i := p.at + n; i >= 0 && i < len(p.tokens) {
		return p.tokens[i]
	}
	return nothing
}

func (p *reader) kind() kind { return p.ahead(0).kind }
func (p *reader) done() bool { return p.at >= len(p.tokens) }

func (p *reader) take() token {
	t := p.ahead(0)
	p.at++
	return t
}

// accept takes the next token if it is of the kind.
func (p *reader) accept(k kind) bool {
	if p.done() || p.kind() != k {
		return false
	}
	p.at++
	return true
}

// acceptWord takes the next token if it is a word of the set.
func (p *reader) acceptWord(set map[string]bool) (string, bool) {
	t := p.ahead(0)
	if p.done() || t.kind != word || !set[t.text] {
		return "", false
	}
	p.at++
	return t.text, true
}

// typed is the text between two tokens.
func (p *reader) typed(from, to int) string {
	if from >= to || to > len(p.tokens) {
		return ""
	}
	return strings.TrimSpace(p.text[p.tokens[from].from:p.tokens[to-1].to])
}

func (p *reader) failed() bool { return p.err != nil }

// fail keeps the first reason for which the text is refused.
func (p *reader) fail(reason Reason, format string, args ...any) {
	if p.err == nil {
		p.err = &Error{Text: p.text, Reason: reason, Why: fmt.Sprintf(format, args...), Want: want(p.ctx)}
	}
}

func set(words string) map[string]bool {
	found := map[string]bool{}
	for _, w := range strings.Fields(words) {
		found[w] = true
	}
	return found
}
