package read

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
	"dryfit/check/standard"
)

// remembering keeps what a function said of a text: offices type the same words on every
// row. It stops learning at some number of texts, and then still answers.
type remembering[K comparable, V any] struct {
	known map[K]V
	ask   func(K) V
}

func remember[K comparable, V any](ask func(K) V) *remembering[K, V] {
	return &remembering[K, V]{known: map[K]V{}, ask: ask}
}

func (r *remembering[K, V]) of(k K) V {
	if v, ok := r.known[k]; ok {
		return v
	}
	v := r.ask(k)
	if len(r.known) < remembered {
		r.known[k] = v
	}
	return v
}

// lengthAsked is a text and the unit that a bare number in it would have.
type lengthAsked struct {
	text string
	unit length.Unit
}

type lengthFound struct {
	l   length.Length
	err error
}

// wordMemory remembers the readings of words that are asked for on every row.
type wordMemory struct {
	ditto   *remembering[string, bool]
	void    *remembering[string, bool]
	roles   *remembering[string, check.Role]
	hands   *remembering[string, handed]
	edges   *remembering[string, []string]
	lengths *remembering[lengthAsked, lengthFound]
}

func newWordMemory(shop *standard.Table, decimal length.Mark) wordMemory {
	return wordMemory{
		ditto: remember(isDitto),
		void:  remember(voided),
		roles: remember(func(text string) check.Role { return roleOf(text, shop) }),
		hands: remember(handsIn),
		edges: remember(edgeList),
		lengths: remember(func(q lengthAsked) lengthFound {
			l, err := length.Parse(q.text, length.Context{Unit: q.unit, Decimal: decimal})
			return lengthFound{l, err}
		}),
	}
}

// isDitto asks only for texts that could be a ditto mark.
func (m *wordMemory) isDitto(text string) bool {
	return len(text) <= 24 && !strings.ContainsAny(text, "0123456789") && m.ditto.of(text)
}

// voided asks only for texts that could say so: a mark such as A12 does not.
func (m *wordMemory) voided(text string) bool {
	if len(text) > 40 || !strings.Contains(text, " ") && strings.ContainsAny(text, "0123456789") {
		return false
	}
	return m.void.of(text)
}

// hand is the hand that two texts together speak of.
func (m *wordMemory) hand(a, b string) string { return m.hands.of(a).and(m.hands.of(b)).letter() }
