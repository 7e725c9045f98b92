package graft

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"testing"

	"dryfit/sheet/graft/splice"
)

// TestOddLists takes elements and attributes away, doubles and exchanges them in the parts that
// are edited. Graft must refuse, or write so that nothing of the user's changed and a second
// run changes nothing. DRYFIT_ODD sets another number of rounds than 300.
func TestOddLists(t *testing.T) {
	rounds := 300
	if s := os.Getenv("DRYFIT_ODD"); s != "" {
		rounds = number(s, rounds)
	}
	tabs := sampleTabs(t)
	bases := [][]byte{officeBook(t), handmade(t, shape{base: "xl/", x: "x:"}), handmade(t, chained(`<c r="A1" i="1"/><c r="A2"/>`)),
		grafted(t, officeBook(t), tabs), grafted(t, handmade(t, chained(`<c r="A1" i="1"/><c r="A2"/>`)), tabs)}
	written := 0
	for i := range rounds {
		r := rand.New(rand.NewPCG(uint64(i), 1))
		host := repack(t, bases[i%len(bases)], map[string]func(string) string{oddPart(r): func(s string) string { return disturb(t, r, s) }})
		out, err := Graft(host, tabs)
		var no *Refusal
		if errors.As(err, &no) {
			continue
		}
		written++
		if err == nil {
			err = Verify(host, out)
		}
		if err == nil {
			var again []byte
			if again, err = Graft(out, tabs); err == nil && !bytes.Equal(again, out) {
				err = errors.New("a second run gives other bytes")
			}
		}
		if err != nil {
			t.Errorf("round %d: %v", i, err)
		}
	}
	if written < rounds/2 {
		t.Errorf("only %d of %d written", written, rounds)
	}
}

func oddPart(r *rand.Rand) string {
	parts := []string{bookPart, bookRels, contentTypes, "xl/styles.xml"}
	return parts[r.IntN(len(parts))]
}

// disturb makes one to three changes to a document.
func disturb(t *testing.T, r *rand.Rand, text string) string {
	if text == "" {
		return text
	}
	for range 1 + r.IntN(3) {
		tree, err := splice.Parse([]byte(text))
		must(t, err)
		all := elements(tree.Root(), nil)
		e, other := all[r.IntN(len(all))], all[r.IntN(len(all))]
		d := tree.Edit()
		switch r.IntN(4) {
		case 0:
			d.Remove(e)
		case 1:
			d.After(e, string(e.Outer()))
		case 2:
			for a := range e.Attrs() {
				d.SetAttr(e, a.Name, []string{"", "-1", "99999999999", "x", "1"}[r.IntN(5)])
				break
			}
		case 3:
			d.Append(e, string(other.Outer()))
		}
		if changed := d.Apply(); sound(changed) {
			text = string(changed)
		}
	}
	return text
}

func sound(text []byte) bool {
	_, err := splice.Parse(text)
	return err == nil
}

func elements(e splice.Elem, list []splice.Elem) []splice.Elem {
	list = append(list, e)
	for c := range e.Children() {
		list = elements(c, list)
	}
	return list
}
