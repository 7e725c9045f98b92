package formula

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	_ "dryfit/check/steady"
)

// line is one line of testdata/formulas.txt.
type line struct {
	at      int
	formula string
	symbols map[string]float64
	want    string // a number, TRUE, FALSE, a quoted text or error
	differs map[string]string
}

const engineTolerance = 1e-12 // spreadsheets hand a value over as 15 digits of text

func readLines(t *testing.T) []line {
	t.Helper()
	raw, err := os.ReadFile("testdata/formulas.txt")
	if err != nil {
		t.Fatal(err)
	}
	var lines []line
	for i, text := range strings.Split(string(raw), "\n") {
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		left, right, ok := strings.Cut(text, " -> ")
		if !ok {
			t.Fatalf("line %d: read %q, expected formula -> value", i+1, text)
		}
		l := line{at: i + 1, formula: left, symbols: map[string]float64{}, differs: map[string]string{}}
		if before, list, ok := strings.Cut(strings.TrimSuffix(left, "]"), " ["); ok {
			l.formula = before
			for _, pair := range strings.Fields(list) {
				name, number, _ := strings.Cut(pair, "=")
				if l.symbols[name], err = strconv.ParseFloat(number, 64); err != nil {
					t.Fatalf("line %d: %v", i+1, err)
				}
			}
		}
		parts := strings.Split(right, " ; ")
		l.want = parts[0]
		for _, note := range parts[1:] {
			engine, other, ok := strings.Cut(note, " says ")
			if !ok {
				t.Fatalf("line %d: read %q, expected ENGINE says VALUE", i+1, note)
			}
			l.differs[engine] = other
		}
		lines = append(lines, l)
	}
	if len(lines) < 100 {
		t.Fatalf("only %d lines", len(lines))
	}
	return lines
}

// bound is a formula over some names.
func bound(t interface{ Fatal(...any) }, f *Formula, names []string) *Program {
	p, err := f.Bind(names)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// over binds a formula to its own symbols and works it out over their values.
func over(t interface{ Fatal(...any) }, f *Formula, value func(name string) float64) (Value, error) {
	at := make([]float64, len(f.symbols))
	for i, name := range f.symbols {
		at[i] = value(name)
	}
	return bound(t, f, f.symbols).Value(at)
}

// among gives the values that a table has, and NaN for the others.
func among(values map[string]float64) func(string) float64 {
	return func(name string) float64 {
		if x, ok := values[name]; ok {
			return x
		}
		return math.NaN()
	}
}

// agree compares what an engine said with the value in the file.
func agree(want, got string, tolerance float64) bool {
	w, errW := strconv.ParseFloat(want, 64)
	g, errG := strconv.ParseFloat(got, 64)
	if errW != nil || errG != nil {
		return want == got
	}
	return w == g || math.Abs(w-g) <= tolerance*math.Abs(w)
}

func said(v Value, err error) string {
	switch {
	case err != nil:
		return "error"
	case v.Kind == Text:
		return `"` + strings.ReplaceAll(v.Text, `"`, `""`) + `"`
	case v.Kind == Truth:
		return strings.ToUpper(strconv.FormatBool(v.Number == 1))
	}
	return strconv.FormatFloat(v.Number, 'g', -1, 64)
}

func TestFormulaYieldsValueOfFile(t *testing.T) {
	for _, l := range readLines(t) {
		f, err := Parse(l.formula)
		if err != nil {
			t.Errorf("line %d: %v", l.at, err)
			continue
		}
		if got := said(over(t, f, among(l.symbols))); !agree(l.want, got, 1e-15) {
			t.Errorf("line %d: %s = %s, want %s", l.at, l.formula, got, l.want)
		}
	}
}

// sheetWith lays the lines out as a working tab would: symbols on another tab, formula beside.
func sheetWith(t *testing.T, lines []line) (f *excelize.File, cells []string) {
	t.Helper()
	const inputs = "Bay 'A' parts"
	f = excelize.NewFile()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(f.SetSheetName("Sheet1", "working"))
	_, err := f.NewSheet(inputs)
	must(err)
	for i, l := range lines {
		parsed, err := Parse(l.formula)
		must(err)
		address := map[string]string{}
		for column, name := range parsed.Symbols() {
			cell, err := excelize.CoordinatesToCellName(column+1, i+1)
			must(err)
			must(f.SetCellFloat(inputs, cell, l.symbols[name], -1, 64))
			address[name] = "'" + strings.ReplaceAll(inputs, "'", "''") + "'!" + cell
		}
		cell := "B" + strconv.Itoa(i+1)
		must(f.SetCellFormula("working", cell, parsed.Print(func(name string) string { return address[name] })))
		cells = append(cells, cell)
	}
	return f, cells
}

func asWritten(cell string, err error) string {
	_, notNumber := strconv.ParseFloat(cell, 64)
	switch {
	case err != nil || strings.HasPrefix(cell, "#"):
		return "error"
	case cell == "TRUE" || cell == "FALSE" || notNumber == nil:
		return cell
	}
	return `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
}

func compareEngine(t *testing.T, engine string, l line, got string) {
	t.Helper()
	want, differs := l.differs[engine]
	if !differs {
		want = l.want
	} else if agree(l.want, want, engineTolerance) {
		t.Errorf("line %d: the note on %s is no difference", l.at, engine)
	}
	if !agree(want, got, engineTolerance) {
		t.Errorf("line %d: %s: %s says %s, want %s", l.at, l.formula, engine, got, want)
	}
}

func TestWorkbookLibraryYieldsValueOfFile(t *testing.T) {
	lines := readLines(t)
	f, cells := sheetWith(t, lines)
	defer f.Close()
	for i, l := range lines {
		got := asWritten(f.CalcCellValue("working", cells[i], excelize.Options{RawCellValue: true}))
		compareEngine(t, "excelize", l, got)
	}
}

func TestPrintLeavesOutWhatIsNotNeeded(t *testing.T) {
	for text, want := range map[string]string{
		" ( a + b ) * c ":     "(A9+B9)*C9",
		"((a*b))+c":           "A9*B9+C9",
		"a+(b+c)":             "A9+(B9+C9)", // sums of floats do not regroup
		"(a+b)+c":             "A9+B9+C9",
		"a-(b-c)":             "A9-(B9-C9)",
		"a/(b*c)":             "A9/(B9*C9)",
		"(a^b)^c":             "A9^B9^C9",
		"a^(b^c)":             "A9^(B9^C9)",
		"(-a)^2":              "(-A9)^2",
		"a^-b":                "A9^(-B9)",
		"(a^-b)^c":            "A9^(-B9)^C9",
		"-(a^2)":              "-(A9^2)",
		"-(a*b)":              "-(A9*B9)",
		"(-a)*b":              "-A9*B9",
		"(a<b)":               "A9<B9",
		"IF((a)<(b),(a),(b))": "IF(A9<B9,A9,B9)",
		"1.50*a":              "1.5*A9",
		"12e-9":               "1.2E-08",
		"1000000000000000000": "1E+18",
		`IF(a<b,"x""y","")`:   `IF(A9<B9,"x""y","")`,
	} {
		f, err := Parse(text)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := f.Print(func(name string) string { return strings.ToUpper(name) + "9" }); got != want {
			t.Errorf("%s printed %s, want %s", text, got, want)
		}
	}
}

func TestPrintTakesQuotedTab(t *testing.T) {
	f, err := Parse("t+2*f")
	if err != nil {
		t.Fatal(err)
	}
	got := f.Print(func(name string) string { return map[string]string{"t": "'Parts'!E14", "f": "$B$4"}[name] })
	if want := "'Parts'!E14+2*$B$4"; got != want {
		t.Errorf("printed %s, want %s", got, want)
	}
}

func TestSymbolsStandInOrderOfFirstUse(t *testing.T) {
	f, err := Parse("MIN(c-a,b-c)+C")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"c", "a", "b", "C"}, f.Symbols()); diff != "" {
		t.Error(diff)
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"":              `column 1: read the end`,
		"=a+b":          `without a leading equals sign`,
		"a+*b":          `column 3: read "*"; expected a number`,
		"a+":            `column 3: read the end`,
		"(a+b":          `column 5: read the end; expected ")"`,
		"a b":           `column 3: read "b"; expected an operator`,
		"a)":            `column 2: read ")"`,
		"2f":            `column 1: read "2f"; expected a number`,
		"1e-":           `read "1e-"`,
		"0x10":          `read "0x10"`,
		"1.2.3":         `read "1.2.3"`,
		".":             `read "."`,
		"1e999":         `read "1e999"`,
		"-2^2":          `expected 0-2^... or (-2)^...`,
		"a*-b^2":        `ambiguous`,
		"2^-2^2":        `ambiguous`,
		"-SQRT(a)^2":    `ambiguous`,
		"+a":            `read "+"`,
		"a%":            `read '%'`,
		"a×b":           `read '×'`,
		"a;b":           `read ';'`,
		"a.b":           `read "a.b"`,
		"a<b<c":         `a comparison beside "<"`,
		"(a<b)*2":       `a comparison beside "*"`,
		`a+"x"`:         `a text beside "+"`,
		`-"x"`:          `a text behind "-"`,
		`"x"="x"`:       `a text beside "="`,
		`"x`:            `without its closing quote`,
		"\"\xff\"":      `expected text in UTF-8`,
		`IF(a<b,1,"x")`: `argument 3 of IF is a text; expected a number`,
		"IF(a,1,2)":     `argument 1 of IF is a number; expected a comparison`,
		"IF(a<b,1)":     `column 1: IF has 2 arguments; expected 3 to 3`,
		"MIN()":         `MIN has 0 arguments; expected 1 to 255`,
		"MIN(" + strings.Repeat("a,", 255) + "a)":     `MIN has 256 arguments`,
		"AND(" + strings.Repeat("a<b,", 255) + "a<b)": `AND has 256 arguments`,
		"b*NOT(a<b,a<b)":                 `column 3: NOT has 2 arguments; expected 1 to 1`,
		"MIN(a<b)":                       `argument 1 of MIN is a comparison`,
		"AND(a)":                         `argument 1 of AND is a number`,
		"MIN(a,)":                        `column 7: read ")"`,
		"MIN(,a)":                        `column 5: read ","`,
		"MIN(a b)":                       `read "b"; expected ","`,
		"MIN+1":                          `expected "(" behind MIN`,
		"PI":                             `expected "(" behind PI`,
		"min(a,b)":                       `read "min("; expected one of ABS AND IF MAX MIN NOT OR PI ROUND ROUNDDOWN ROUNDUP SQRT`,
		"COS(a)":                         `read "COS("`,
		"True":                           `read "True"`,
		strings.Repeat("ABS(", 70):       `functions nested deeper than 60`,
		strings.Repeat("a+", 5000) + "a": `10001 characters`,
	} {
		_, err := Parse(text)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.40q: error %v, want %q in it", text, err, want)
		}
	}
}

func TestEvalSaysWhatIsWrong(t *testing.T) {
	names, at := []string{"a", "z", "i", "n", "h"}, []float64{1, 0, math.Inf(1), math.NaN(), 1e300}
	for text, want := range map[string]string{
		"a/(a-a)":         "a/(a-a) with 1 and 0: divided by zero",
		"z^-a":            "divided by zero",
		"z^z":             "zero to the power zero",
		"(-a)^.5":         "broken power of a negative number",
		"SQRT(z-a)":       "SQRT(z-a): square root of -1",
		"h*h":             "result too large",
		"h+IF(a<z,1,1/z)": "1/z with 1 and 0",
		"a+n":             "no value for n",
		"a+i":             "i is +Inf",
		"ROUND(a,16)":     "16 places; expected a whole number from -15 to 15",
		"ROUND(a,a/2)":    "0.5 places",
		"MAX(a,n)":        "no value for n",
		"AND(a<z,a/z<1)":  "divided by zero",
		`IF(a<z,"x","y")`: "yields a text, expected a number",
	} {
		f, err := Parse(text)
		if err != nil {
			t.Error(err)
			continue
		}
		_, err = bound(t, f, names).Eval(at)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q in it", text, err, want)
		}
	}
}

func TestBindNamesTheSymbolWithoutAPlace(t *testing.T) {
	f, err := Parse("a+MIN(q,r)")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Bind([]string{"a"}); err == nil || !strings.Contains(err.Error(), "no place for q") {
		t.Errorf("error %v, want no place for q", err)
	}
}

func TestNumbersAlikeToFifteenDigitsAreOne(t *testing.T) {
	for text, want := range map[string]float64{
		".3-.1-.2": 0, "IF(.1+.2=.3,1,0)": 1, "IF(.1+.2>.3,1,0)": 0, "IF(.3-.1-.2<0,1,0)": 0,
		"IF(1+1e-13>1,1,0)": 1, "1+1e-13-1": 9.9920072216264089e-14,
	} {
		f, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := bound(t, f, nil).Eval(nil); err != nil || got != want {
			t.Errorf("%s = %v, %v; want %v", text, got, err, want)
		}
	}
}

func identity(name string) string { return name }

// drawText makes a formula of numbers from symbols a to d.
func drawText(t *rapid.T, depth int) string {
	sub := func() string { return drawText(t, depth-1) }
	one := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
	compared := func() string { return sub() + one("compare", "<", "<=", "=", "<>", ">", ">=") + sub() }
	kind := rapid.IntRange(0, 11).Draw(t, "kind")
	if depth == 0 {
		kind %= 2
	}
	switch kind {
	case 0:
		return one("symbol", "a", "b", "c", "d")
	case 1:
		return one("number", "1", "2", "0.5", "3e2", "1.25e-7")
	case 2:
		return "-(" + sub() + ")"
	case 3:
		return one("many", "MIN", "MAX") + "(" + sub() + "," + sub() + "," + sub() + ")"
	case 4:
		return "IF(" + compared() + "," + sub() + "," + sub() + ")"
	case 5:
		return "IF(" + one("join", "AND", "OR") + "(" + compared() + ",NOT(" + compared() + "))," + sub() + "," + sub() + ")"
	case 6:
		return one("rounding", "ROUND", "ROUNDUP", "ROUNDDOWN") + "(" + sub() + ",2)"
	case 7:
		return one("single", "SQRT", "ABS") + "(" + sub() + ")"
	case 8:
		return "(" + sub() + ")^" + one("power", "2", "-1", "(-2)", "3", "(1/2)")
	}
	return "(" + sub() + ")" + one("op", "+", "-", "*", "/") + "(" + sub() + ")"
}

func TestPrintedFormulaIsTheSameFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := drawText(t, 4)
		values := map[string]float64{}
		for _, name := range []string{"a", "b", "c", "d"} {
			values[name] = rapid.Float64Range(-20, 20).Draw(t, name)
		}
		first, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		second, err := Parse(first.Print(identity))
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		x, errX := over(t, first, among(values))
		y, errY := over(t, second, among(values))
		if x != y || (errX == nil) != (errY == nil) {
			t.Fatalf("%s = %v, %v; printed %s = %v, %v", text, x, errX, second, y, errY)
		}
		if again := second.Print(identity); again != second.String() {
			t.Fatalf("%s printed %s the second time", second, again)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"t+2*f", "MIN(c-a,b-c)", `IF(m<0,"HOLD","CLEAR")`, "(-a)^2^-3", "1e5", "--a", "a<>b",
		"ROUND(a*16,0)/16", "PI()", `"a""b"`, "NOT(AND(a<b,OR(c>=d,a=b)))", "-(a^b)^c", "\t(\n1 )", "5.+.5"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		first, err := Parse(text)
		if err != nil {
			return
		}
		printed := first.Print(identity)
		if len(printed) > maxLength {
			return // long numbers are spelled out
		}
		second, err := Parse(printed)
		if err != nil {
			t.Fatalf("%q was read, printed %q is not: %v", text, printed, err)
		}
		if diff := cmp.Diff(first.Symbols(), second.Symbols()); diff != "" {
			t.Fatal(diff)
		}
		look := func(name string) float64 { return float64(len(name)) - 1.5 }
		x, errX := over(t, first, look)
		y, errY := over(t, second, look)
		if x != y || (errX == nil) != (errY == nil) {
			t.Fatalf("%q = %v, %v; printed %q = %v, %v", text, x, errX, printed, y, errY)
		}
		if errX == nil && (math.IsNaN(x.Number) || math.IsInf(x.Number, 0)) {
			t.Fatalf("%q = %v without an error", text, x.Number)
		}
	})
}

func BenchmarkEval(b *testing.B) {
	f, err := Parse("1+384/5/L^4*(x*(L-x)/2)*(MIN(x,L-x)/2)*s*(b/bn-1)")
	if err != nil {
		b.Fatal(err)
	}
	p := bound(b, f, []string{"L", "x", "s", "b", "bn"})
	at := []float64{40, 20, 2.3125, 11.25, 5.625}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Eval(at); err != nil {
			b.Fatal(err)
		}
	}
}
