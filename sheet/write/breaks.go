package write

import (
	"cmp"
	"strconv"
	"strings"

	"dryfit/sheet/write/part"
)

// Margins of the printed pages, inches.
const (
	marginSide = 0.45
	marginEnd  = 0.6
)

// papers are the sizes that offices print on, Letter and A4, inches.
var papers = [][2]float64{{8.5, 11}, {8.27, 11.69}}

// pageRoom is how many points of rows a printed page holds, on the paper that holds less, when
// the tab is shrunk to its width. A twentieth is kept: printers and programs differ.
func (p *Page) pageRoom() float64 {
	const inch, kept = 72, 0.95
	width := 0.0
	for c := range p.Widths {
		if c < p.printed() {
			width += p.column(c + 1)
		}
	}
	least := 0.0
	for i, paper := range papers {
		across, down := paper[0], paper[1]
		if p.Wide {
			across, down = down, across
		}
		scale := min(1, (across-2*marginSide)*inch/width)
		room := (down - 2*marginEnd) * inch / scale * kept
		if i == 0 || room < least {
			least = room
		}
	}
	return least
}

// printed is the last column of the print area; all columns where it is not set.
func (p *Page) printed() int {
	_, to, ok := strings.Cut(p.Area, ":")
	if !ok {
		return len(p.Widths)
	}
	n := 0
	for _, r := range strings.TrimRight(to, "0123456789") {
		n = 26*n + int(r-'A') + 1
	}
	return n
}

// lastPrinted is the last row of the print area; the last of all where it is not set.
func (p *Page) lastPrinted() int {
	_, to, _ := strings.Cut(p.Area, ":")
	if n, err := strconv.Atoi(strings.TrimLeft(to, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")); err == nil {
		return n
	}
	return len(p.Rows)
}

// repeated is how high the rows are that are printed on every page, points.
func (p *Page) repeated() float64 {
	from, to, ok := strings.Cut(p.Repeated, ":")
	first, err := strconv.Atoi(from)
	last, err2 := strconv.Atoi(to)
	if !ok || err != nil || err2 != nil {
		return 0
	}
	return p.high(first, last)
}

// high is how high some rows are together as printed, points.
func (p *Page) high(from, to int) float64 {
	sum := 0.0
	for row := from; row <= to; row++ {
		if p.fold(row) != part.Folded {
			sum += cmp.Or(p.Heights[row], 15)
		}
	}
	return sum
}

// breakBetween begins a new printed page before a block that would be torn apart; starts are the
// rows in which the blocks begin, in rising order. A block longer than a page begins on one of
// its own, and so does what follows it: where it ends nobody can tell.
func (p *Page) breakBetween(starts []int) {
	room, again := p.pageRoom(), p.repeated()
	if len(starts) == 0 {
		return
	}
	used := p.high(1, starts[0]-1)
	for i, start := range starts {
		end := p.lastPrinted()
		if i+1 < len(starts) {
			end = starts[i+1] - 1
		}
		high := p.high(start, end)
		if used+high > room && used > again {
			p.Breaks = append(p.Breaks, start)
			used = again
		}
		used += high
	}
}
