package main

import (
	"slices"
	"strings"
	"unicode"

	"dryfit/check/catalogue"
)

// troubles are the words in which people tell what went wrong, and the checks that ought to
// have told of it before. A phrase is found at the beginning of a word: "sag" in "sagged".
var troubles = []struct{ checks, phrases string }{
	{"fit.joint fit.all-at-once", "bind|bound|tight|too thick|jammed|stuck|would not go in slot|did not go in slot|slot too narrow|loose|rattl|wobbl|slot too wide|had to sand|sanded the slot|planed the slot"},
	{"fit.lap", "proud|flush|stood out|depths|slot too deep|slot too shallow|gap at the lap|gap in the lap"},
	{"fit.pitch", "line up|lined up|out of line|slots off|slot off|spacing|wrong place|misplaced"},
	{"fit.movement", "swell|swollen|swelled|shrank|shrunk|shrink|cupped|cupping|warped|warping|opened up"},
	{"fit.corner", "corner radius|round corner of the slot|seat in the corner"},
	{"structure.sag structure.bending", "sag|bowed|hangs|hung down|bent|deflect|droop"},
	{"structure.bending structure.shear structure.bearing structure.upright structure.path structure.cleat", "broke|collapse|split|cracked|fell|gave way|pulled out|crushed"},
	{"structure.anchor", "tip|toppl|fell over|not anchored"},
	{"structure.floor", "floor sank|floor gave|floor sag"},
	{"opening.width opening.height opening.depth opening.square opening.liner", "too wide|too tall|too high|too deep|too big|too long for the|did not fit|would not fit|does not fit|cut down|cut it down|too narrow for|too short for|gap at the wall|gap at the head|scribe"},
	{"opening.square", "out of square|out of plumb|crooked|diagonal|leans"},
	{"opening.stand opening.slide opening.enter", "stand up|stood up|stand it up|tilt|under the ceiling|hit the ceiling|would not turn in|get it into"},
	{"opening.carry", "stair|hall|lift|elevator|would not go through|through the door|doorway|the truck|the van|not get it in|could not carry"},
	{"opening.lift", "too heavy|heavy|hurt|third man|more people|more hands"},
	{"opening.obstruct", "outlet|switch|vent|register|thermostat|pipe|in the way"},
	{"opening.later", "floor went in|floor came later|after the floor|plaster came|tile came|finish floor"},
	{"schedule.units", "wrong unit|inches for|millimet"},
	{"schedule.read schedule.units schedule.odd-one schedule.size-kind schedule.revision", "wrong size|cut wrong|too short|too long|mistyped|misread|old drawing|old revision|wrong revision"},
	{"schedule.marks schedule.totals schedule.joints", "missing|too few|too many|one short|wrong count|miscount|twice|not made|no slot|forgot"},
	{"schedule.layers", "layer|laminat|too thin|build up"},
	{"schedule.material", "wrong material|wrong wood|wrong sheet|wrong finish"},
	{"schedule.stock", "ran out|sheet too small|no stock"},
}

// accused are the checks that ought to have told of something: those that are named, by their
// ID or their room, else those its words speak of.
func accused(named, what string) []string {
	if named != "" {
		var out []string
		for _, c := range catalogue.All {
			if c.ID == named || room(c.ID) == named {
				out = append(out, c.ID)
			}
		}
		return out
	}
	words := " " + strings.Join(strings.FieldsFunc(strings.ToLower(what), func(r rune) bool { return !unicode.IsLetter(r) }), " ")
	var out []string
	for _, t := range troubles {
		if !tells(words, t.phrases) {
			continue
		}
		for _, id := range strings.Fields(t.checks) {
			if !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

func tells(words, phrases string) bool {
	for p := range strings.SplitSeq(phrases, "|") {
		if strings.Contains(words, " "+p) {
			return true
		}
	}
	return false
}
