package phrase

import (
	"strings"

	"dryfit/check"
	"dryfit/check/length"
)

// Way is what a line about the way to the place says.
type Way struct {
	Stops []check.Stop
	Crew  check.Value
	Note  string   // how the case goes up
	Whole []string // marks or cases that travel in one piece
}

var stopKinds = terms(map[string]string{
	"vehicle": `samochod, samochod dostawczy, samochodem, truck, van, box truck, trailer, lorry, vehicle, cargo van, pickup, lkw, transporter, lieferwagen, kastenwagen, anhanger, wagen, camion, camionnette,
		fourgon, remorque, furgoneta, camioneta, remolque, furgone, autocarro, rimorchio, furgon, ciezarowka, bus, busje, bestelwagen, bestelbus, vrachtwagen, aanhanger, lastbil, skapbil, slap`,
	"door": `portal, porch door, door, dr, doorway, doors, gate, entry, entrance, opening, tur, hauseingang, eingang, porte, portail, entree, puerta, porton, entrada, porta, portone, ingresso, drzwi,
		brama, wejscie, deur, voordeur, ingang, dorr, port, entre`,
	"hall": `hall, hallway, corridor, passage, passageway, aisle, lobby, vestibule, flur, gang, korridor, diele, couloir, vestibule, pasillo, corredor, zaguan, corridoio, korytarz,
		przedpokoj, korytarza, overloop, hal, tambur`,
	"corner": `corner, turn, bend, landing, ecke, winkel, podest, kurve, coin, angle, palier, virage, tournant, esquina, giro, rellano, descansillo, angolo, svolta, pianerottolo,
		rog, zakret, podest, hoek, bocht, bordes, horn, svang, vilplan`,
	"stair": `stair, stairs, staircase, stairway, steps, stairwell, treppe, treppenhaus, stiege, escalier, escalera, escaleras, scala, scale, schody, klatka, klatka schodowa, trap,
		trappenhuis, trappa, trapphus`,
	"lift": `lift, elevator, elev, lift car, elevator car, freight elevator, aufzug, fahrstuhl, lastenaufzug, ascenseur, monte-charge, ascensor, montacargas, ascensore, montacarichi, winda,
		dzwig, goederenlift, hiss`,
})

// stopEnds are the ends of compound words that name a stop: Zimmertür, voordeur, ytterdörr.
var stopEnds = map[string]string{
	"tur": "door", "tuer": "door", "deur": "door", "dorr": "door", "treppe": "stair", "trappa": "stair", "flur": "hall", "gang": "hall", "aufzug": "lift", "lift": "lift", "ecke": "corner",
}

var (
	turnWords = set(`turn, turns, winder, winders, u-turn, quarter turn, 90, gewendelt, viertelgewendelt, halbgewendelt, wendel, wendelung, tournant, quart tournant, giro, vuelta,
		svolta, curva, zakret, bocht, kwartslag, draai, svang`)
	headWords = set(`head, headroom, hr, clear height, h, ht, high, height, kopfhohe, durchgangshohe, hohe, hoch, hauteur, haut, echappee, altura, alto, altezza, wysokosc, wys, hoogte, hoog, hojd, hog, takhojd`)
	wideWords = set(`w, wd, wide, width, clear, breit, breite, b, largeur, larg, large, ancho, larghezza, largo, szer, szerokosc, breed, breedte, bred, bredd`)
	longWords = set(`box, l, lg, long, length, deep, d, depth, bed, inside, lang, lange, tief, tiefe, ladeflache, long, longueur, profondeur, largo, longitud, fondo, lunghezza, lungo,
		profondita, dl, dlugosc, gleb, lang, lengte, diep, lang, langd, djup`)
	crewWords = set(`guys, blokes, lads, hands, helpers, of us, us, crew, size, of, in, all, we are, men, man, people, persons, installers, fitters, team, mann, monteure, leute, mannschaft, equipe, personnes, poseurs, equipo, personas, instaladores, squadra,
		persone, ekipa, osob, osoby, ploeg, monteurs, personen, man, montorer, personer, lag`)
	wholeWords = terms(map[string]string{"whole": `whole, in one piece, one piece, assembled, in 1 piece, as one, built up, am stuck, komplett, zusammengebaut, in einem stuck, entier, entiere,
		monte, montee, d'un seul tenant, entero, entera, montado, montada, de una pieza, intero, intera, montato, montata, in un pezzo, w calosci, zmontowany, zmontowana,
		heel, in een stuk, gemonteerd, hel, i ett stycke, monterad`})
	risesWords = set(`lying, stood, stand, standing, tilt, tilted, upright, raised, opening, place, situ, in-situ, site, flat, knocked, kd, liegend, stehend, aufgestellt, aufrichten, vorort,
		couche, debout, redresse, place, tumbado, levantado, sitio, sdraiato, alzato, lezaco, postawiona, miejscu, liggend, rechtop, plaatse, liggande, rest, plats`)
)

// Carry reads a line of stops, "Truck 10' box | Front dr 35 1/2 x 79 1/2 | Hall 38 | Stair 36,
// turn, head 80", or one cell of it, the crew, and how a case goes up. What is none of these
// comes back in rest.
func Carry(text string, unit length.Unit) (w Way, rest []string) {
	for _, part := range stopParts(text) {
		if !w.part(part, unit) {
			rest = append(rest, part)
		}
	}
	return w, rest
}

// stopParts parts a line at bars, semicolons, arrows and line breaks, and at a comma behind
// which another stop begins.
func stopParts(text string) []string {
	for _, arrow := range []string{"->", "→", "=>", ">", ";", "\n"} {
		text = strings.ReplaceAll(text, arrow, "|")
	}
	var parts []string
	for _, part := range strings.Split(text, "|") {
		first := true
		for _, piece := range strings.Split(part, ", ") {
			begins := false
			if pieces := Cut(piece); len(pieces) > 1 {
				kind, at := StopKind(pieces)
				begins = kind != "" && at >= 0 && len(lengths(pieces)) > 0
			}
			if !first && !begins {
				parts[len(parts)-1] += ", " + piece
				continue
			}
			parts = append(parts, piece)
			first = false
		}
	}
	kept := parts[:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			kept = append(kept, p)
		}
	}
	return kept
}

func (w *Way) part(text string, unit length.Unit) bool {
	pieces := Cut(text)
	if n, ok := crew(pieces); ok {
		w.Crew = check.Exact(n)
		return true
	}
	if kind, _ := StopKind(pieces); kind != "" && len(lengths(pieces)) > 0 {
		if s, ok := ParseStop(text, unit); ok {
			w.Stops = append(w.Stops, s)
			return true
		}
		return false
	}
	if w.whole(text, pieces) {
		return true
	}
	for _, p := range pieces {
		if risesWords[p.Word] {
			w.Note = strings.TrimLeft(w.Note+"; "+text, "; ")
			return true
		}
	}
	return false
}

// spelled are the small numbers of a crew in words.
var spelled = map[string]float64{"two": 2, "three": 3, "four": 4, "zwei": 2, "drei": 3, "vier": 4, "deux": 2, "trois": 3, "quatre": 4, "dos": 2, "tres": 3, "cuatro": 4,
	"due": 2, "tre": 3, "quattro": 4, "dwie": 2, "dwoch": 2, "trzy": 3, "trzech": 3, "cztery": 4, "twee": 2, "drie": 3, "tva": 2, "fyra": 4}

// crew reads "Crew: 2", "2 men", "Mannschaft 3".
func crew(pieces []Piece) (float64, bool) {
	numbers := lengths(pieces)
	said := false
	if len(pieces) == 2 && spelled[pieces[0].Word] > 0 && crewWords[pieces[1].Word] && len(pieces[1].Word) > 2 {
		return spelled[pieces[0].Word], true
	}
	for _, p := range pieces {
		if p.Kind == Word && !crewWords[p.Word] {
			return 0, false
		}
		said = said || p.Kind == Word
	}
	if len(numbers) != 1 || !said {
		return 0, false
	}
	n, err := number(numbers[0].Text)
	return n, err == nil && n >= 1 && n == float64(int(n)) && n < 50
}

// whole reads "A goes whole", "whole: A, W", "Case B in one piece".
func (w *Way) whole(text string, pieces []Piece) bool {
	_, at := wholeWords.find(pieces)
	if at < 0 || len(lengths(pieces)) > 0 {
		return false
	}
	var names []string
	switch {
	case at > 0 && len(pieces[at-1].Text) > 0 && !risesAfter(pieces, at):
		names = list(text[:pieces[at].From])
	case at == 0:
		if _, after, found := strings.Cut(text, ":"); found {
			names = list(after)
		}
	}
	w.Whole = append(w.Whole, names...)
	return len(names) > 0
}

// risesAfter keeps "assembled lying, stood up" a note on how a case goes up.
func risesAfter(pieces []Piece, at int) bool {
	for _, p := range pieces[at:] {
		if risesWords[p.Word] {
			return true
		}
	}
	return false
}

// list parts names at commas, plus signs and "and", without the verb behind the last.
func list(text string) []string {
	var names []string
	for _, s := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",+&/", r) }) {
		var kept []string
		end := func() {
			if len(kept) > 0 {
				names = append(names, strings.Join(kept, " "))
			}
			kept = nil
		}
		for _, word := range strings.Fields(s) {
			switch Fold(word) {
			case "and", "und", "et", "y", "e", "i", "en", "och":
				end()
			case "goes", "go", "travels", "travel", "is", "are", "comes", "carried", "moves", "in", "wird", "geht", "va", "jedzie", "gaat", "gar":
			default:
				kept = append(kept, strings.Trim(word, ":.()"))
			}
		}
		end()
	}
	return names
}

// StopKind finds the word that names a stop: the last before the first number, so that a
// "hall door 30 x 78" is a door and a "stair 36, turn" a stair. at is -1 where there is none.
func StopKind(pieces []Piece) (kind string, at int) {
	at = -1
	for i, p := range pieces {
		if p.Kind == Length && kind != "" {
			return kind, at
		}
		means, n := stopKinds.at(pieces, i)
		if n == 0 && p.Kind == Word {
			for end, m := range stopEnds {
				if strings.HasSuffix(p.Word, end) && len(p.Word) > len(end)+2 {
					means, n = m, 1
				}
			}
		}
		if n > 0 {
			kind, at = means, i
		}
	}
	return kind, at
}

// ParseStop reads one stop. Sizes with a word are what it says; bare ones are width and
// height of a door, width of a hall or stair, length (then width and height) of a vehicle,
// width, depth and height of a lift, the halls before and behind a corner.
func ParseStop(text string, unit length.Unit) (check.Stop, bool) {
	pieces := Cut(text)
	kind, _ := StopKind(pieces)
	if kind == "" {
		return check.Stop{}, false
	}
	s := check.Stop{Kind: kind, Name: check.Text{Text: stopName(text, pieces)}}
	var bare []check.Value
	ok := true
	for i, p := range pieces {
		if p.Kind != Length {
			s.Turn = s.Turn || turnWords[p.Word] && (kind == "stair" || kind == "hall")
			continue
		}
		if p.Text == "90" && (at(pieces, i+1).Is("°") || strings.HasPrefix(at(pieces, i+1).Word, "deg")) {
			s.Turn = true
			continue
		}
		v := measured(pieces, i, unit)
		if !v.Known {
			ok = false
			continue
		}
		before, after := Piece{}, at(pieces, i+1)
		if i > 0 {
			before = pieces[i-1]
		}
		if after.Word == "in" || after.Word == "m" {
			after = at(pieces, i+2)
		}
		if to := sizeOf(&s, before); to != nil && !to.Known {
			*to = v
		} else if to := sizeOf(&s, after); to != nil && !to.Known {
			*to = v
		} else {
			bare = append(bare, v)
		}
	}
	return s, place(&s, bare, unit) && ok
}

// stopName is the text before the first number and the word of its size: "Front dr".
func stopName(text string, pieces []Piece) string {
	for i, p := range pieces {
		if p.Kind != Length {
			continue
		}
		if i > 1 && sizeOf(&check.Stop{}, pieces[i-1]) != nil {
			p = pieces[i-1]
		}
		text = text[:p.From]
		break
	}
	return strings.Trim(text, " :=,-(\n")
}

// sizeOf is the size that a word beside a number names, nil for no such word.
func sizeOf(s *check.Stop, p Piece) *check.Value {
	switch {
	case p.Kind != Word:
	case headWords[p.Word]:
		return &s.Height
	case wideWords[p.Word]:
		return &s.Width
	case longWords[p.Word]:
		return &s.Length
	}
	return nil
}

// place gives the bare sizes of a stop their places, in the order people type them for its
// kind. It returns false when there are more than the kind has.
func place(s *check.Stop, bare []check.Value, unit length.Unit) bool {
	order := map[string][]*check.Value{
		"vehicle": {&s.Length, &s.Width, &s.Height},
		"door":    {&s.Width, &s.Height},
		"hall":    {&s.Width, &s.Height, &s.Length},
		"stair":   {&s.Width, &s.Height},
		"corner":  {&s.Width, &s.Length, &s.Height},
		"lift":    {&s.Width, &s.Length, &s.Height},
	}[s.Kind]
	for _, to := range order {
		if len(bare) > 0 && !to.Known {
			*to, bare = bare[0], bare[1:]
		}
	}
	if s.Kind == "door" && s.Width.Known && s.Height.Known && s.Width.Nominal > s.Height.Nominal {
		s.Width, s.Height = s.Height, s.Width // a doorway is taller than wide
	}
	stands := length.Convert(leastCar, length.Inch, unit)
	if s.Kind == "lift" && s.Height.Known && s.Height.Nominal < stands && s.Length.Nominal >= stands {
		s.Length, s.Height = s.Height, s.Length // typed width, height, depth
	}
	return len(bare) == 0
}

// leastCar is the least height in inches of a lift that people stand in. common practice
const leastCar = 72
