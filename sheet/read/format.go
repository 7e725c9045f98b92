package read

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Format is what a number format does to a number, as far as a reader of sizes cares.
type Format struct {
	Code     string
	Date     bool
	Text     bool   // the cell was formatted as text
	Prefix   string // literal text before the number, such as "ca. "
	Suffix   string // literal text behind the number, such as " mm" or `"`
	Decimals int    // digits behind the point, -1 for General
	Least    int    // digits before the point that are always shown: 3 of "000"
	Over     int    // of a fraction: the largest denominator, or the fixed one
	FixedBy  bool   // the denominator is Over and nothing else
	Percent  bool
	Commas   bool
}

// parseFormat reads the first section of a format code, the one for positive numbers.
func parseFormat(code string) Format {
	f := Format{Code: code, Decimals: -1}
	if code == "" || strings.EqualFold(code, "General") {
		return f
	}
	if code == "@" {
		f.Text = true
		return f
	}
	var before, after strings.Builder
	digits, point, slash := false, false, -1
	var bottom strings.Builder
	lit := func(s string) {
		if digits {
			after.WriteString(s)
		} else {
			before.WriteString(s)
		}
	}
	rs := []rune(code)
scan:
	for i := 0; i < len(rs); i++ {
		switch r := rs[i]; {
		case r == ';':
			break scan
		case r == '"':
			j := i + 1
			for j < len(rs) && rs[j] != '"' {
				j++
			}
			lit(string(rs[i+1 : j]))
			i = j
		case r == '\\' && i+1 < len(rs):
			i++
			lit(string(rs[i]))
		case r == '_' || r == '*':
			i++ // a space as wide as, or filled with, the next character
		case r == '[':
			j := i
			for j < len(rs) && rs[j] != ']' {
				j++
			}
			if j-i > 1 && strings.ContainsRune("hHmMsS", rs[i+1]) {
				f.Date = true
			}
			i = j
		case r == '#' || r == '0' || r == '?':
			digits = true
			switch {
			case slash >= 0:
				bottom.WriteRune(r)
			case point:
				f.Decimals++
			case r == '0':
				f.Least++
			}
		case r >= '1' && r <= '9' && slash >= 0:
			bottom.WriteRune(r)
		case r == '.' && digits:
			point = true
			f.Decimals = 0
		case r == '/' && digits:
			slash = i
		case r == ',' && digits:
			f.Commas = true
		case r == '%':
			f.Percent = true
			lit("%")
		case strings.ContainsRune("yYmMdDhHsS", r) && !digits:
			f.Date = true
		case (r == 'E' || r == 'e') && digits:
			i++
		default:
			lit(string(r))
		}
	}
	if f.Date {
		return f
	}
	if digits && !point {
		f.Decimals = 0
	}
	if b := bottom.String(); b != "" {
		f.Decimals = -1
		if n, err := strconv.Atoi(strings.Trim(b, "#?")); err == nil && n > 0 {
			f.Over, f.FixedBy = n, true
		} else {
			f.Over = int(math.Pow10(len(b))) - 1
		}
	}
	f.Prefix, f.Suffix = before.String(), strings.TrimRight(after.String(), " ")
	return f
}

// show prints a number as the cell shows it.
func (f *Format) show(x float64, is1904 bool) string {
	if f.Date {
		return showDate(f.Code, x, is1904)
	}
	if f.Percent {
		x *= 100
	}
	switch {
	case f.Over > 0:
		return f.Prefix + showFraction(x, f.Over, f.FixedBy) + f.Suffix
	case f.Decimals >= 0:
		s := strconv.FormatFloat(math.Abs(x), 'f', f.Decimals, 64)
		whole, _, _ := strings.Cut(s, ".")
		s = strings.Repeat("0", max(0, f.Least-len(whole))) + s
		if x < 0 {
			s = "-" + s
		}
		return f.Prefix + s + f.Suffix
	}
	return f.Prefix + general(x) + f.Suffix
}

// general prints a number the way a cell without a format does: 11 figures at most.
func general(x float64) string {
	s := strconv.FormatFloat(x, 'g', 11, 64)
	if strings.ContainsAny(s, "eE") {
		if a := math.Abs(x); a < 1e11 && a > 1e-6 || x == 0 {
			s = strconv.FormatFloat(x, 'f', -1, 64)
		}
	}
	return strings.ToUpper(s)
}

func showFraction(x float64, over int, fixed bool) string {
	sign := ""
	if x < 0 {
		sign, x = "-", -x
	}
	whole := math.Floor(x)
	top, bottom, best := 0, 1, x-whole
	from := 1
	if fixed {
		from = over
	}
	for d := from; d <= min(over, 999); d++ {
		n := math.Round((x - whole) * float64(d))
		if miss := math.Abs(x - whole - n/float64(d)); miss < best-1e-12 {
			top, bottom, best = int(n), d, miss
		}
	}
	if top == bottom {
		whole, top = whole+1, 0
	}
	w := strconv.FormatFloat(whole, 'f', 0, 64)
	switch {
	case top == 0:
		return sign + w
	case whole == 0:
		return sign + strconv.Itoa(top) + "/" + strconv.Itoa(bottom)
	}
	return sign + w + " " + strconv.Itoa(top) + "/" + strconv.Itoa(bottom)
}

// dateOf turns a serial day into a date. The 1900 system counts a 29 February 1900 that
// never was; the 1904 system starts on 1 January 1904.
func dateOf(serial float64, is1904 bool) time.Time {
	days := int(math.Floor(serial))
	frac := time.Duration((serial - math.Floor(serial)) * float64(24*time.Hour)).Round(time.Second)
	base := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	if is1904 {
		base = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	} else if days < 61 {
		base = base.AddDate(0, 0, 1)
	}
	return base.AddDate(0, 0, days).Add(frac)
}

// showDate prints a date after its format code, English month names.
func showDate(code string, serial float64, is1904 bool) string {
	if serial < 0 || serial > 2958465 {
		return strconv.FormatFloat(serial, 'g', -1, 64)
	}
	t := dateOf(serial, is1904)
	var b strings.Builder
	rs := []rune(code)
	for i := 0; i < len(rs) && rs[i] != ';'; {
		r := rs[i]
		j := i
		for j < len(rs) && rs[j] == r {
			j++
		}
		n := j - i
		switch r {
		case 'd', 'D':
			b.WriteString(t.Format([]string{"2", "02", "Mon", "Monday"}[min(n, 4)-1]))
		case 'm', 'M':
			b.WriteString(t.Format([]string{"1", "01", "Jan", "January"}[min(n, 4)-1]))
		case 'y', 'Y':
			b.WriteString(t.Format(map[bool]string{true: "06", false: "2006"}[n <= 2]))
		case 'h', 'H':
			b.WriteString(t.Format("15"))
		case 's', 'S':
			b.WriteString(t.Format("05"))
		case '[':
			for j < len(rs) && rs[j-1] != ']' {
				j++
			}
		case '"', '\\', '@':
			j = i + 1
		default:
			b.WriteString(string(rs[i:j]))
		}
		i = j
	}
	return b.String()
}
