package read

// The fields of a parts table.
const (
	fMark    Field = "mark"
	fRowNo   Field = "row number"
	fName    Field = "description"
	fRole    Field = "role"
	fCase    Field = "case"
	fRoom    Field = "room"
	fQty     Field = "quantity"
	fQtyPer  Field = "quantity per case"
	fCases   Field = "cases"
	fQtyAll  Field = "quantity in all"
	fLength  Field = "length"
	fWidth   Field = "width"
	fThick   Field = "thickness"
	fHeight  Field = "height"
	fDepth   Field = "depth"
	fInches  Field = "inches beside the feet"
	fSize    Field = "size"
	fMatl    Field = "material"
	fLayers  Field = "layers"
	fEdges   Field = "edges"
	fEdge    Field = "edge" // one edge of several columns
	fStrip   Field = "strip thickness"
	fFinish  Field = "finish"
	fGrain   Field = "grain"
	fX       Field = "from left"
	fY       Field = "from floor"
	fNote    Field = "note"
	fHand    Field = "hand"
	fUnit    Field = "unit of the row"
	fUnused  Field = "not used" // prices, weights, dates: known, and no business of a check
	fUnknown Field = ""
)

// partWords holds the header words of parts tables in English, German, French, Spanish,
// Italian, Polish, Dutch and Swedish, with some Chinese. A word under several fields is settled by the
// values below it; the first field is the likelier. Words stand without accents, dots and
// plurals: fold and lexicon.exact see to those.
var partWords = []fieldWords{
	{fQty, `qty|quantity|quan|qnty|qt|qtty|pcs|pc|pieces|no off|no of|no of pcs|no of pieces|number of pieces|nr|count|
		reqd|required|no reqd|qty reqd|pcs reqd|quantity required|qty required|ea|each|how many|set|sets|number|number off|off|units|nos|number of copies|how much|
		#|no|n|x|times|make|pcs needed|qty needed|piece count|parts count|qty pcs|qty ea|order qty|cut qty|
		menge|anzahl|stuckzahl|stk|stck|stuck|st|anz|stuckz|anzahl teile|stuck gesamt|
		quantite|qte|nombre|n pieces|no pieces|combien|nb|nbre|nb pieces|nb de pieces|nombre de pieces|nombre pieces|qtes|
		cantidad|cant|cuantos|cuantas|cdad|unidades|uds|ud|piezas|no piezas|n piezas|num piezas|numero de piezas|canti|qtd|quantidade|
		quantita|q ta|qta|pezzi|pz|n pezzi|numero pezzi|nr pezzi|num pezzi|
		ilosc|szt|sztuk|sztuki|liczba|ilosc sztuk|ilosc szt|liczba sztuk|
		aantal|aant|stuks|aantal stuks|hoeveelheid|
		antal|mangd|antal st|数量|件数`},
	{fQtyPer, `qty per case|qty case|qty per unit|qty unit|qty each|pcs per case|pcs case|per case|per unit|each case|qty per|pcs per unit|qty cab|qty per cabinet|qty per cab|qty per assembly|qty assy|per assembly|per set|qty set|pcs set|
		stuck je schrank|anzahl je schrank|je schrank|je korpus|je element|stuck je element|anzahl je element|stk je|anz je|menge je|pro schrank|stuck pro schrank|anzahl pro schrank|anzahl pro element|
		qte par meuble|par meuble|qte par caisson|par caisson|qte caisson|qte unitaire|
		cant por mueble|por mueble|por modulo|cant por modulo|cantidad por modulo|cantidad por mueble|
		pz per mobile|per mobile|per modulo|pezzi per mobile|q ta per modulo|quantita per mobile|
		szt na szafke|na szafke|ilosc na szafke|na mebel|aantal per kast|per kast|antal per skap|per skap`},
	{fCases, `cases|units|no of cases|number of cases|case qty|cabs|no of cabs|no of units|number of units|sets|no of sets|assemblies|no assy|no of assemblies|how many cases|x cases|repeat|repeats|multiplier|mult|groups|
		anzahl schranke|schranke|anzahl korpusse|korpusse|elemente|anzahl elemente|nb meubles|meubles|nb caissons|caissons|nombre de meubles|nombre de caissons|no muebles|muebles|modulos|no de modulos|numero de modulos|
		n mobili|mobili|moduli|numero moduli|liczba szafek|szafki|aantal kasten|kasten|antal skap|skap antal`},
	{fQtyAll, `total qty|qty total|total pcs|total pieces|total quantity|total count|tot qty|qty tot|total no|ttl|ttl qty|total|tot|totals|total reqd|
		gesamt|gesamtmenge|gesamtanzahl|gesamtstuckzahl|summe|anzahl gesamt|stuck gesamt|
		total pieces|qte totale|quantite totale|cantidad total|cant total|total piezas|quantita totale|q ta totale|totale|totale pezzi|pezzi totali|
		ilosc razem|razem|razem szt|lacznie|suma|ilosc calkowita|totaal|totaal aantal|totalt|totalt antal|antal totalt`},
	{fMark, `pnl no|lbl|mrk|unit id|letter|key|zeichen|kennz|kennb|buchstabe|stk nr|etikett|lettre|letra|lettera|n pezzo|identyf|litera|merkteken|stuk nr|beteckning|bokstav|p no|ident|ident no|littera|lit|mark|mk|part no|part nr|part number|part num|part #|part id|p n|pn|item no|item nr|item number|item #|item id|ref|ref no|reference|tag|id|pc mark|piece mark|pc mk|pc no|piece no|piece number|label|symbol|designator|
		component no|component id|panel no|panel id|detail no|marking|mark no|pt no|prt no|board no|member|
		teil nr|teilnr|teilenr|teilenummer|teile nr|bauteilnr|bauteil nr|positionsnr|positionsnummer|kennung|kennzeichen|kurzel|bez nr|
		repere|rep|reper|marque|no piece|n piece|no rep|marca|referencia|cod|codigo|clave|etiqueta|identificacion|codice|rif|riferimento|sigla|etichetta|
		oznaczenie|ozn|symbol|nr elementu|nr czesci|numer|kod|nr formatki|merk|kenmerk|stuknr|onderdeelnr|onderdeelnummer|stuknummer|
		marke|markning|littera|detaljnr|delnr|del nr|artikelnr|artikelnummer|artnr|nr art|编号`},
	{fMark, `no|nr|n|#|num|item|pos|position|poz|pozycja|posicion|posizione|posnr|pos nr|part|piece|code|element|component|teil|nummer|numero|part code|pce|panel|elem`},
	{fRowNo, `row|line|row no|line no|line #|row #|ln|sl no|s no|sr no|serial|serial no|seq|seq no|lfd nr|lfdnr|lfd|lfn|zeile|zeilen nr|laufende nr|ligne|no ligne|n ligne|fila|linea|riga|lp|l p|wiersz|regel|regelnr|rad|radnr|rad nr|orden|n ord|ord|item|no|nr|#|n|pos|position|poz|pozycja|posicion|posizione|posnr|pos nr|序号`},
	{fName, `what is it|description of part|description|desc|descr|descrip|descript|name|part name|component|part description|item description|piece|part|item|designation|element|what|title|component name|panel name|panel|member|detail|part desc|item name|object|piece name|description of part|element name|parts|pieces|items|elements|components|what it is|
		bezeichnung|benennung|beschreibung|bauteil|teil|teilename|teilebezeichnung|bez|name|bauteilbezeichnung|gegenstand|teile|bauteile|produkt|
		denomination|piece|pieces|libelle|nom|nom de la piece|designation des pieces|elements|composant|
		descripcion|denominacion|nombre|pieza|elemento|nombre de pieza|concepto|componente|partida|descricao|
		descrizione|denominazione|pezzo|particolare|nome|componente|voce|
		nazwa|opis|czesc|detal|nazwa elementu|nazwa czesci|formatka|
		omschrijving|benaming|naam|onderdeel|beschrijving|
		benamning|beskrivning|namn|detalj|komponent|del|delar|部件|名称`},
	{fRole, `role|type|part type|function|kind|use|purpose|class|component type|typ|art|funktion|teilart|fonction|genre|funcion|tipo|uso|funzione|rodzaj|funkcja|functie|soort|roll|sort`},
	{fCase, `case|cab|cabinet|cabinet no|cab no|case no|unit|unit no|section|sect|sec|bay|elev|elevation|assembly|assy|group|module|cab #|case #|carcass|carcase|box|parent|furniture|product|belongs to|case id|cabinet id|where used|run|frame|niche|
		korpus|schrank|mobel|element|baugruppe|mobelteil|schrank nr|korpus nr|modul|mobelstuck|gruppe|
		meuble|caisson|ensemble|sous ensemble|module|element|mueble|modulo|caja|armario|conjunto|grupo|
		mobile|armadio|gruppo|insieme|szafka|szafa|mebel|modul|zespol|korpus|skrzynia|
		kast|meubel|kastnr|groep|module|element|skap|stomme|mobel|enhet|grupp|柜`},
	{fRoom, `room|rm|location|loc|area|space|zone|floor|level|room no|where|place|room name|
		raum|zimmer|ort|einbauort|local|salle|lieu|emplacement|piece|habitacion|sala|ambiente|estancia|lugar|ubicacion|zona|
		stanza|locale|vano|luogo|pomieszczenie|pokoj|miejsce|ruimte|kamer|plaats|locatie|rum|plats`},
	{fLength, `how long|length|len|long|lg|lgth|lngth|l|ln|lth|long side|length overall|lengte|
		lange|lge|laenge|longueur|longr|largo|longitud|lon|lunghezza|lungh|lung|lun|dlugosc|dl|lengte|lgt|langd|lgd|长|长度|comprimento`},
	{fWidth, `broad|how wide|how broad|width|wd|wdth|wid|w|wide|breadth|b|short side|front to back|f to b|
		breite|br|largeur|larg|la|lar|ancho|anchura|an|larghezza|largh|szerokosc|szer|sz|breedte|bredd|宽|宽度|largura|l a`},
	{fThick, `how thick|thickness|thick|thk|th|t|thkness|thkn|thck|gauge|gage|ga|thickn|finished thickness|
		dicke|starke|staerke|st|materialstarke|plattenstarke|plattendicke|d|s|
		epaisseur|ep|epais|epr|e|espesor|grosor|grueso|esp|spessore|spess|sp|grubosc|grub|gr|g|dikte|tjocklek|tjockl|tj|tjock|厚|厚度|espessura`},
	{fHeight, `height|ht|hgt|h|high|tall|hoehe|hohe|hauteur|haut|alto|altura|al|altezza|alt|wysokosc|wys|hoogte|hgte|hojd|高|高度`},
	{fDepth, `depth|dp|p|dpth|d|deep|dep|tiefe|t|profondeur|prof|fondo|profundidad|profondita|glebokosc|gleb|gl|diepte|dpte|djup|深|深度`},
	{fSize, `size|sizes|dimension|dimensions|dims|dim|measure|measures|measurement|measurements|l x w|l x w x t|w x d x t|w x h|w x d|h x w|lxw|lxwxt|t x w x l|txwxl|wxd|wxdxt|lxwxh|wxhxd|wxh|hxw|l x w x th|overall size|size overall|part size|piece size|panel size|size lxw|format|spec|
		masse|mass|abmessung|abmessungen|grosse|masse l x b x d|lxbxd|l x b x d|l x b|lxb|cotes|cote|taille|dimensions l x l x e|mesures|medida|medidas|dimensiones|tamano|formato|
		misure|misura|dimensione|dimensioni|wymiar|wymiary|rozmiar|rozmiary|maat|maten|afmeting|afmetingen|matt|storlek|dimensioner|规格|尺寸|qty size|qty and size`},
	{fMatl, `virke|plattenwerkst|werkst|what of|made out of|of what|which material|what material|material|materials|matl|mtl|mat|mater|stock|board|sheet|core|species|wood|substrate|material code|matl code|mat code|mtrl|sheet good|sheet goods|panel material|board type|material type|material name|made of|made from|stock material|wood species|lumber|timber|panel type|ply|stock size|raw material|
		werkstoff|holzart|platte|plattenmaterial|holz|plattentyp|materiau|matiere|panneau|essence|bois|support|tablero|madera|materia|materiale|pannello|legno|essenza|
		plyta|gatunek|drewno|tworzywo|surowiec|materiaal|plaat|plaatmateriaal|houtsoort|hout|plaatsoort|skiva|traslag|tra|板材|材料|材质|material design type comments`},
	{fLayers, `layers|lyrs|lyr|plies|no of plies|build up|buildup|lamination|laminations|lam|layup|lay up|make up|makeup|no of layers|layer build|glue up|
		lagen|schichten|aufbau|schichtaufbau|couches|plis|nb couches|capas|strati|warstwy|lagen|opbouw|skikt|lager|uppbyggnad`},
	{fEdges, `lipped|edged|taped|kantenmat|kantenmaterial|which edges|edges|edge|eb|edge band|edgeband|edge banding|edgebanding|banding|band|bands|tape|edge tape|lip|lipping|nosing|edging|edge treatment|edged|edge finish|banded edges|taped|strip|strips|edge strip|fin edges|exposed edges|edge s|edge code|e|
		kante|kanten|kantenband|umleimer|anleimer|bekantung|kantung|kantenbearbeitung|kantencode|chant|chants|placage de chant|alaise|alaises|plaquage|canto|cantos|canteado|tapacanto|tapacantos|
		bordo|bordi|bordatura|bordato|bordare|obrzeze|obrzeza|okleina|oklejanie|krawedzie|krawedz|kant|kanten|kantafwerking|randen|afplakken|kantband|kanter|kantlist|kantning|封边`},
	{fStrip, `edge thickness|band thickness|strip thickness|tape thickness|edge thk|band thk|strip thk|eb thk|banding thickness|kantenstarke|kantendicke|epaisseur chant|espesor canto|spessore bordo|grubosc obrzeza|kantdikte|kanttjocklek`},
	{fFinish, `finish|fin|finishing|finishes|paint|coating|surface|coat|finish code|surface finish|color|colour|ptd|painted|stain|topcoat|
		oberflache|lack|lackierung|beschichtung|anstrich|farbe|finish|finition|peinture|vernis|revetement|couleur|acabado|pintura|barniz|color|recubrimiento|
		finitura|verniciatura|laccatura|colore|vernice|wykonczenie|lakier|malowanie|kolor|powierzchnia|afwerking|lak|verf|kleur|ytbehandling|yta|malning|farg|kulor|表面`},
	{fGrain, `grain|gr|grain dir|grain direction|gr dir|grn|grain orient|direction of grain|direction|
		maserung|faser|faserrichtung|furnierrichtung|faserverlauf|laufrichtung|fil|sens du fil|sens|fil du bois|veta|direccion de veta|sentido veta|veta direccion|
		venatura|vena|verso vena|direzione vena|uslojenie|sloje|kierunek slojow|kierunek|nerf|nerfrichting|adring|fiberriktning|纹理`},
	{fX, `x|from left|x from left|left|pos x|x pos|offset x|x in`},
	{fY, `y|from floor|y from floor|height aff|aff|pos y|y pos|z|bottom at|from bottom|offset y|elev aff`},
	{fNote, `note|notes|remark|remarks|rmk|rmks|rem|comment|comments|comment s|comments description|info|notes remarks|special|instructions|special instructions|memo|misc|detail|details|observations|shop notes|machining|
		bemerkung|bemerkungen|anmerkung|anmerkungen|hinweis|hinweise|notiz|notizen|kommentar|bem|anm|remarque|remarques|observation|observations|commentaire|commentaires|rmq|obs|
		observaciones|observacion|nota|notas|comentario|comentarios|notes|osservazione|osservazioni|annotazione|annotazioni|commento|
		uwagi|uwaga|notatki|komentarz|opmerking|opmerkingen|notitie|notities|opm|anmarkning|anmarkningar|notering|kommentar|ovrigt|备注`},
	{fHand, `hand|l r|lh rh|handing|handed|side l r|anschlag|seite|main|mano|lato|strona|zijde|sida`},
	{fUnit, `unit|uom|u m|um|units|unit of measure|unit of length|einheit|unite|unidad|unita|um|jednostka|jm|j m|eenheid|enhet|measure unit|in mm`},
	{fUnused, `flache m2|flache m|m ²|sf|ext|price|cost|unit price|unit cost|amount|total price|total cost|ext|extended|rate|mat cost|labor|labour|labor hrs|hours|hrs|supplier|vendor|source|link|url|order no|po|ordered|received|recieved|date|due|status|done|cut by|checked|check|ok|weight|wt|kg|lbs|area|sq ft|sqft|sf|m2|bf|bd ft|board feet|board foot|volume|rev|revision|dwg|drawing|drawing no|page|sheet no|detail no|cnc|program|barcode|image|photo|picture|file|bin|cart|pallet|made|cut|nested|time|min|operation|op|machine|lot|batch|priority|category|manufacturer|mfr|mfg|lead time|stock qty|on hand|inches|perimeter|
		preis|kosten|gewicht|flache|lieferant|datum|zeichnung|zeichnungsnr|blatt|gesamtpreis|einzelpreis|prix|prix unitaire|cout|poids|surface m2|fournisseur|date|plan|montant|
		precio|coste|peso|superficie|proveedor|fecha|plano|importe|prezzo|costo|fornitore|data|disegno|importo|cena|koszt|waga|powierzchnia m2|dostawca|rysunek|wartosc|
		prijs|kosten|gewicht|oppervlakte|leverancier|tekening|bedrag|pris|kostnad|vikt|leverantor|ritning|belopp|单价|金额|价格|总价`},
}

// partLexicon finds the field of a parts header.
var partLexicon = newLexicon(partWords)
