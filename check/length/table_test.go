package length

import (
	"errors"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// row is a line of testdata/lengths.txt, which says how it is written.
type row struct {
	line    int
	sizes   bool
	text    string
	ctx     Context
	meaning string
}

var escaped = regexp.MustCompile(`\\(u[0-9a-f]{4}|n)`)

func table(t testing.TB) []row {
	t.Helper()
	content, err := os.ReadFile("testdata/lengths.txt")
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	sizes := false
	for i, line := range strings.Split(string(content), "\n") {
		switch {
		case strings.HasPrefix(line, "== "):
			sizes = line == "== sizes"
			continue
		case line == "", strings.HasPrefix(line, "# "), line == "#":
			continue
		}
		part := strings.Split(line, " | ")
		if len(part) != 3 {
			t.Fatalf("lengths.txt:%d: want text | context | meaning", i+1)
		}
		text := escaped.ReplaceAllStringFunc(part[0], func(s string) string {
			out, err := strconv.Unquote(`"` + s + `"`)
			if err != nil {
				t.Fatalf("lengths.txt:%d: %v", i+1, err)
			}
			return out
		})
		rows = append(rows, row{i + 1, sizes, text, contextOf(part[1]), strings.TrimSpace(part[2])})
	}
	return rows
}

var unitNames = map[string]Unit{
	"-": Unsaid, "bare": Unsaid, "in": Inch, "ft": Foot, "mm": Millimetre, "cm": Centimetre, "dm": Decimetre, "m": Metre,
}

func contextOf(text string) Context {
	var ctx Context
	for _, w := range strings.Fields(text) {
		switch w {
		case "comma":
			ctx.Decimal = Comma
		case "point":
			ctx.Decimal = Point
		case "plain":
			ctx.Plain = true
		default:
			ctx.Unit = unitNames[w]
		}
	}
	return ctx
}

// TestTable reads every text of testdata/lengths.txt.
func TestTable(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range table(t) {
		seen[r.text] = true
		t.Run(fmt.Sprintf("line %d %s", r.line, r.text), func(t *testing.T) {
			var got string
			var err error
			if r.sizes {
				var s Size
				if s, err = ParseSize(r.text, r.ctx); err == nil {
					checkSize(t, r, s)
					return
				}
			} else {
				var l Length
				if l, err = Parse(r.text, r.ctx); err == nil {
					checkLength(t, r.meaning, l, l.Count)
					return
				}
			}
			var refused *Error
			if !errors.As(err, &refused) {
				t.Fatalf("error is %T, want *Error", err)
			}
			if got = "! " + refused.Reason.String(); got != r.meaning {
				t.Errorf("%v\n got %s\nwant %s", err, got, r.meaning)
			}
		})
	}
	if len(seen) < 400 {
		t.Errorf("the table holds %d distinct texts, want at least 400", len(seen))
	}
}

// cut takes the named tail off a meaning: "1 in note VIF" gives "1 in" and "VIF".
func cut(meaning, name string) (head, tail string) {
	head, tail, found := strings.Cut(meaning+" ", " "+name+" ")
	if !found {
		return meaning, ""
	}
	return strings.TrimSpace(head), strings.TrimSpace(tail)
}

func checkLength(t *testing.T, want string, got Length, count int) {
	t.Helper()
	if strings.HasPrefix(want, "!") {
		t.Fatalf("read as %s (%s), want %s", show(got), got.Doubt, want)
	}
	body, note := cut(want, "note")
	body, times := cut(body, "count")
	if n, _ := strconv.Atoi(times); n != count {
		t.Errorf("count is %d, want %d", count, n)
	}
	if note != got.Note {
		t.Errorf("note is %q, want %q", got.Note, note)
	}
	readings := strings.Split(body, "?")
	if doubtful := len(readings) > 1; doubtful != (got.Doubt != "") {
		t.Errorf("doubt is %q, want doubt: %t", got.Doubt, doubtful)
	}
	checkRange(t, readings[0], got)
	var others []string
	for _, r := range readings[1:] {
		if r = strings.TrimSpace(r); r != "" {
			others = append(others, r)
		}
	}
	if len(others) != len(got.Other) {
		t.Fatalf("%s has %d other readings %v, want %v (%s)", show(got), len(got.Other), got.Other, others, got.Doubt)
	}
	for i, o := range others {
		checkRange(t, o, got.Other[i])
	}
}

func show(l Length) string {
	return fmt.Sprintf("%g .. %g .. %g %s", l.Low, l.Nominal, l.High, l.Unit)
}

// checkRange compares with "3/4 in" or "6 .. 7 .. 8 mm".
func checkRange(t *testing.T, want string, got Length) {
	t.Helper()
	words := strings.Fields(want)
	if len(words) < 2 {
		t.Fatalf("the meaning %q has no unit", want)
	}
	unit, ok := unitNames[words[len(words)-1]]
	if !ok {
		t.Fatalf("the meaning %q has no unit", want)
	}
	numbers := strings.Split(strings.Join(words[:len(words)-1], " "), "..")
	for len(numbers) < 3 {
		numbers = append(numbers, numbers[0])
	}
	for i, v := range []float64{got.Low, got.Nominal, got.High} {
		if w := byHand(t, numbers[i]); math.Abs(v-w) > 1e-9*math.Max(1, w) || got.Unit != unit {
			t.Errorf("read as %s (%s), want %s", show(got), got.Doubt, want)
			return
		}
	}
}

// byHand works out "90 1/2", apart from the code under test.
func byHand(t *testing.T, text string) float64 {
	t.Helper()
	sum := 0.0
	for _, w := range strings.Fields(text) {
		top, bottom, found := strings.Cut(w, "/")
		v, err := strconv.ParseFloat(top, 64)
		if err != nil {
			t.Fatalf("the table holds %q for a number", text)
		}
		if found {
			den, err := strconv.ParseFloat(bottom, 64)
			if err != nil {
				t.Fatalf("the table holds %q for a number", text)
			}
			v /= den
		}
		sum += v
	}
	return sum
}

func checkSize(t *testing.T, r row, got Size) {
	t.Helper()
	if strings.HasPrefix(r.meaning, "!") {
		t.Fatalf("read as %s, want %s", got, r.meaning)
	}
	body, rest := cut(r.meaning, "rest")
	if kept := got.Rest(r.text); kept != rest {
		t.Errorf("the rest is %q, want %q", kept, rest)
	}
	body, others, doubtful := strings.Cut(body, "??")
	if doubtful != (got.Doubt != "") {
		t.Errorf("doubt of the size is %q, want doubt: %t", got.Doubt, doubtful)
	}
	list := strings.Split(body, " & ")
	if len(list) != 1+len(got.More) {
		t.Fatalf("read as %s and %d more, want %s", got, len(got.More), r.meaning)
	}
	checkAxes(t, list[0], got)
	for i, more := range list[1:] {
		checkAxes(t, more, got.More[i])
	}
	if others = strings.TrimSpace(others); others == "" {
		if len(got.Other) > 0 {
			t.Errorf("has another reading %s, want none", got.Other[0])
		}
		return
	}
	if len(got.Other) != 1 {
		t.Fatalf("has %d other readings, want %s", len(got.Other), others)
	}
	checkAxes(t, others, got.Other[0])
}

func checkAxes(t *testing.T, want string, got Size) {
	t.Helper()
	want, times := cut(strings.TrimSpace(want), "count")
	if n, _ := strconv.Atoi(times); n != got.Count {
		t.Errorf("count is %d, want %d", got.Count, n)
	}
	axes := strings.Split(want, " x ")
	if len(axes) != len(got.Axes) {
		t.Fatalf("read as %s, want %s", got, want)
	}
	for i, axis := range axes {
		axis = strings.TrimSpace(axis)
		var letter byte
		if strings.IndexByte("LWHDT", axis[0]) >= 0 {
			letter, axis = axis[0], axis[2:]
		}
		if got.Axes[i].Letter != letter {
			t.Errorf("axis %d has letter %q, want %q", i+1, got.Axes[i].Letter, letter)
		}
		checkLength(t, axis, got.Axes[i].Length, 0)
	}
}
