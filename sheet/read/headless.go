package read

// headless makes a table of a tab in which no header was found: the columns are known by
// their values alone. It wants more evidence than a header does: names that say what parts
// do, beside sizes that say they are sizes.
func (f *partsFound) headless() *table {
	first, last, wide := 0, 0, 0
	left, right := 0, 0
	for i := range f.g.Rows {
		r := &f.g.Rows[i]
		if len(r.Cells) < 2 {
			continue
		}
		if first == 0 {
			first = r.N
		}
		last = r.N
		wide++
		for j := range r.Cells {
			c := int(r.Cells[j].Col)
			if left == 0 || c < left {
				left = c
			}
			right = max(right, c)
		}
	}
	if wide < 3 {
		return f.lines()
	}
	if right-left > 12 {
		return nil
	}
	t := &table{g: f.g, top: first - 1, bottom: first - 1, last: last, left: left, right: right, headless: true}
	for c := left; c <= right; c++ {
		t.cols = append(t.cols, &column{col: c, index: c - left, blank: true})
	}
	t.sample()
	if !t.inferAll(f.names) {
		return nil
	}
	return t
}

// inferAll gives the columns of a table without a header their fields; false where they do
// not make a part schedule.
func (t *table) inferAll(names *nameReader) bool {
	var name *column
	var lengths []*column
	for _, c := range t.cols {
		p := &c.prof
		switch {
		case p.n == 0:
		case name == nil && p.share(p.worded) > .7 && 2*p.roles >= p.n:
			name, c.field = c, fName
		case p.share(p.sizes) > .6 && p.sizes >= 2 && t.find(fSize) == nil:
			c.field = fSize
		case p.share(p.counts) > .9 && p.strong == 0 && p.median <= 24 && t.find(fQty) == nil && !p.sequence:
			c.field = fQty
		case p.share(p.lengths) > .8 && p.strong+p.numbers > 0:
			lengths = append(lengths, c)
		case p.share(p.codes) > .8 && p.lettered > 0 && p.distinct == p.n && t.find(fMark) == nil:
			c.field = fMark
		case p.lettered > 0:
			c.field = fNote
		}
	}
	if name == nil {
		return false
	}
	if t.find(fSize) == nil && len(lengths) >= 3 {
		return t.inferSizes(lengths[:3])
	}
	t.nameSized = t.sizesIn(name, names)
	return t.find(fSize) != nil || t.nameSized
}

// inferSizes takes the smallest of three columns for the thickness, the longer of the others
// for the length.
func (t *table) inferSizes(cs []*column) bool {
	small := cs[0]
	for _, c := range cs[1:] {
		if c.prof.median < small.prof.median {
			small = c
		}
	}
	small.field = fThick
	var plan []*column
	strong := 0
	for _, c := range cs {
		strong += c.prof.strong
		if c != small {
			plan = append(plan, c)
		}
	}
	if plan[0].prof.median < plan[1].prof.median {
		plan[0], plan[1] = plan[1], plan[0]
	}
	plan[0].field, plan[1].field = fLength, fWidth
	return t.find(fQty) != nil && small.prof.median < .5*plan[1].prof.median && (strong > 0 || small.prof.median >= 3)
}
