package feedstock_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/feedstock"
)

// TestEveryLanguageNamesEverything: what a group may meet it can name, and what
// must stay out is refused in any language.
func TestEveryLanguageNamesEverything(t *testing.T) {
	assert.Equal(t, []string{"de", "fr", "es", "nl"}, feedstock.Languages())
	for _, language := range feedstock.Languages() {
		table := feedstock.Default().In(language)
		named := map[string]string{}
		for _, f := range table.All() {
			name := f.In(language)
			assert.Empty(t, named[name], "%s and %s are both %q", named[name], f.ID, name)
			named[name] = f.ID
			m := table.Find(name)
			assert.Equal(t, feedstock.Found, m.Outcome, "%s: %s", language, name)
			assert.Equal(t, f.ID, m.Feedstock.ID, "%s: %s", language, name)
			for _, w := range f.Words(language) {
				assert.Equal(t, strings.TrimSpace(w), w)
				m := table.Find(w)
				found := m.Outcome == feedstock.Found && m.Feedstock.ID == f.ID
				asked := m.Outcome == feedstock.Ambiguous && len(m.Near) > 1
				assert.True(t, found || asked, "%s: %q of %s is %v %s%s", language, w, f.ID, m.Outcome, m.Feedstock.ID, m.Refusal.ID)
			}
		}
		for _, r := range table.Refusals() {
			assert.NotEqual(t, r.Name, r.In(language), "%s has no name for %s", language, r.ID)
			m := table.Find(r.In(language))
			assert.Equal(t, feedstock.Banned, m.Outcome, "%s: %s", language, r.In(language))
			assert.Equal(t, r.ID, m.Refusal.ID)
		}
	}
}

// TestNamesFallBackToEnglish: no language and no material is without a name.
func TestNamesFallBackToEnglish(t *testing.T) {
	grass := stock(t, "grass-clippings")
	assert.Equal(t, "Rasenschnitt", grass.In("de"))
	assert.Equal(t, "grass clippings", grass.In("en-GB"))
	assert.Equal(t, "grass clippings", grass.In(""))
	assert.Contains(t, grass.Words("nl"), "gras")
	assert.Equal(t, "grass clippings", grass.Words("xx")[0])
	own := feedstock.Feedstock{ID: "grass-clippings", Name: "our lawn"}
	assert.Equal(t, "our lawn", own.In("de"), "a group's own name stays")
	assert.Equal(t, "trester", feedstock.Feedstock{ID: "trester", Name: "trester"}.In("fr"))
}

// TestFindInLanguages holds how people say what they bring in four languages,
// asked in each of them.
func TestFindInLanguages(t *testing.T) {
	for language, said := range map[string]map[string]string{
		"de": {
			"grass-clippings": "Rasenschnitt; rasenschnitt; Grasschnitt; Gras; frischer Rasenschnitt; Rasen Schnitt; nasses Gras vom Rasen; RASENSCHNITT",
			"leaves-dry":      "Laub; trockenes Laub; Blätter; Blaetter; Blatter; das trockene Laub; dürres Laub; Herbstblätter; altes Laub",
			"apple":           "Äpfel; Aepfel; apfel; Äpfeln; faule Äpfel; Fallobst",
			"food-scraps":     "Küchenabfälle; Kuechenabfaelle; Kuchenabfalle; Biomüll; rohe Küchenabfälle; Küchenreste ohne Fleisch",
			"coffee-grounds":  "Kaffeesatz; Kaffee; Kaffee-Satz",
			"manure-horse":    "Pferdemist; Pferdeäpfel; Pferdeaepfel; Rossmist",
			"nettle":          "Brennnesseln; Brennessel; Brennesseln",
			"cabbage-residue": "Kohl; Kohlblätter",
			"weeds":           "Unkraut; Unkraut ohne Samen; Beikraut",
			"weeds-seeding":   "Unkraut mit Samen",
			"eggshell":        "Eierschalen; Eierschale",
			"shrub-trimmings": "Strauchschnitt; Zweige; dünne Zweige",
		},
		"fr": {
			"grass-clippings": "tonte de gazon; tontes; herbe coupée; herbe; de l'herbe; d'herbe; d’herbe tondue; herbe coupee; gazon",
			"leaves-dry":      "feuilles mortes; feuilles; feuilles sèches; feuilles seches; des feuilles; feuille morte; feuilles d'automne",
			"food-scraps":     "épluchures; epluchures; déchets de cuisine; dechets de cuisine sans viande; restes de cuisine",
			"fruit-waste":     "fruits; fruits pourris",
			"mixed-paper":     "papier",
			"cardboard":       "carton; cartons; carton brun; carton ondulé",
			"manure-poultry":  "fientes de poules; fumier de poule; fiente de poule",
			"potato-peel":     "pommes de terre; épluchures de pommes de terre; patates",
			"eggshell":        "coquilles d'œufs; coquilles d'oeufs; coquilles",
			"branches":        "branches; branches minces; broyat",
			"bread":           "pain; vieux pain; pain rassis",
			"weeds":           "mauvaises herbes; mauvaise herbe",
			"straw-general":   "paille; botte de paille",
		},
		"es": {
			"grass-clippings": "césped cortado; cesped; hierba; hierba fresca; pasto; recortes de césped",
			"leaves-dry":      "hojas secas; hojas; hojas de otoño; hojas de otono; hojarasca; las hojas secas",
			"food-scraps":     "restos de cocina; restos de cocina sin carne; residuos orgánicos",
			"coffee-grounds":  "posos de café; borra de cafe; café",
			"cardboard":       "cartón; carton; cajas de cartón",
			"manure-horse":    "estiércol de caballo; estiercol de caballo",
			"flour":           "harina; arroz crudo",
			"sawdust":         "serrín; aserrín",
			"weeds":           "malas hierbas; maleza",
			"spent-flowers":   "flores; flor; flores marchitas",
			"lettuce":         "lechugas; lechuga",
		},
		"nl": {
			"grass-clippings": "gras; grasmaaisel; gemaaid gras; vers gras; het gras",
			"leaves-dry":      "bladeren; blad; droge bladeren; dorre bladeren; herfstblad; droog blad",
			"food-scraps":     "keukenafval; gft; gft-afval; keukenafval zonder vlees",
			"branches":        "takken; tak; snoeihout",
			"manure-cow":      "koemest; koeienmest",
			"straw-general":   "stro; droog stro; strobalen",
			"wood-ash":        "as; houtas; as uit de kachel",
			"snap-beans":      "bonen; boon",
			"cabbage-residue": "kool; koolblad",
			"nut-shells":      "pinda's; notendoppen; pindas",
			"nettle":          "brandnetels; brandnetel",
			"spent-flowers":   "bloemen; snijbloemen",
			"flour":           "bloem; meel",
		},
	} {
		for id, list := range said {
			for _, words := range strings.Split(list, "; ") {
				t.Run(language+" "+words, func(t *testing.T) {
					m := feedstock.Default().In(language).Find(words)
					assert.Equal(t, id, m.Feedstock.ID)
					assert.Contains(t, []feedstock.Outcome{feedstock.Found, feedstock.Guessed}, m.Outcome)
				})
			}
		}
	}
}

// TestRefusedInEveryLanguage: meat is meat whoever asks, in whatever garden.
func TestRefusedInEveryLanguage(t *testing.T) {
	refused := map[string]string{
		"meat":          "Fleisch; Fleischreste; Knochen; Rinderknochen; Hühnerknochen; viande; os; restes de viande; carne; huesos; vlees; botten; kippenbotten",
		"dairy":         "Milch; Käse; Kaese; Schafskäse; lait; fromage; leche; queso; melk; kaas; schapenkaas",
		"cat-waste":     "Katzenstreu; Katzenkot; litière de chat; litiere du chat; arena de gato; kattenbakvulling",
		"dog-waste":     "Hundekot; Hundehaufen; crottes de chien; caca de perro; hondenpoep",
		"coal-ash":      "Kohlenasche; Kohle; cendres de charbon; charbon; ceniza de carbón; kolenas; kolen",
		"treated-wood":  "behandeltes Holz; lackiertes Holz; Spanplatten; bois traité; bois peint; madera tratada; behandeld hout; spaanplaat",
		"diseased":      "kranke Pflanzen; plantes malades; plantas enfermas; zieke planten",
		"blight-tubers": "Krautfäule; mildiou; mildiu; phytophthora",
		"cooked-food":   "gekochter Reis; restes de repas; sobras de comida; gekookte rijst; kliekjes",
		"fish":          "Fischgräten; poisson; pescado; visgraten",
		"fats":          "Fett; Öl; Bratfett; graisse; huile de friture; aceite usado; frituurvet",
		"knotweed":      "Staudenknöterich; renouée du Japon; duizendknoop",
	}
	for id, list := range refused {
		for _, words := range strings.Split(list, "; ") {
			var as []string
			for _, language := range append([]string{""}, feedstock.Languages()...) {
				m := feedstock.Default().In(language).Find(words)
				if m.Outcome == feedstock.Banned {
					as = append(as, m.Refusal.ID)
				}
			}
			assert.NotEmpty(t, as, "%q is not refused anywhere", words)
			assert.Contains(t, as, id, "%q", words)
		}
	}
	for language, words := range map[string]string{
		"de": "Küchenabfälle mit Fleisch", "fr": "déchets de cuisine avec de la viande", "es": "restos de cocina con carne", "nl": "keukenafval met vlees",
	} {
		for _, asked := range append([]string{""}, feedstock.Languages()...) {
			m := feedstock.Default().In(asked).Find(words)
			assert.Equal(t, feedstock.Banned, m.Outcome, "%s in %q", words, asked)
			if asked == language {
				assert.Equal(t, "meat", m.Refusal.ID)
			}
		}
	}
	m := feedstock.Default().In("de").Find("Küchenabfälle with meat")
	assert.Equal(t, "meat", m.Refusal.ID, "two languages in one breath")
}

// TestWordsOfTwoLanguages holds the words that one language writes as another
// writes something else, and what they mean where.
func TestWordsOfTwoLanguages(t *testing.T) {
	for _, row := range []struct{ words, in, want string }{
		{"turf", "", "sod"}, {"turf", "nl", "peat"}, {"turf", "de", "sod"},
		{"roses", "fr", "spent-flowers"}, {"roses", "en-GB", "?"},
		{"broccoli", "nl", "cabbage-residue"}, {"broccoli", "", "vegetable-waste"},
		{"humus", "de", "soil"}, {"humus", "es", "worm-castings"}, {"humus", "", "?"},
		{"limon", "es", "orange-peel"}, {"limon", "fr", "soil"}, {"limon", "", "?"},
		{"Pommes", "de", "!cooked-food"}, {"pommes", "fr", "apple"}, {"pommes", "", "!cooked-food"},
		{"lard", "fr", "!meat"}, {"lard", "", "!fats"},
		{"gras", "", "grass-clippings"}, {"gras", "nl", "grass-clippings"}, {"Gras", "de", "grass-clippings"}, {"grasa", "es", "!fats"},
		{"papier", "", "mixed-paper"}, {"papier", "de", "mixed-paper"}, {"papier", "nl", "mixed-paper"},
		{"fruits", "", "fruit-waste"}, {"fruits", "fr", "fruit-waste"},
		{"pain", "", "bread"}, {"pain", "fr", "bread"}, {"paint", "fr", "!chemicals"},
		{"plums", "fr", "fruit-waste"}, {"plumes", "fr", "feathers"}, {"card", "es", "cardboard"},
		{"Kohl", "de", "cabbage-residue"}, {"Kohle", "de", "!coal-ash"}, {"kool", "nl", "cabbage-residue"}, {"kolen", "nl", "!coal-ash"},
		{"haies", "fr", "hedge-clippings"}, {"haies", "", "hay-general"},
		{"mulch", "", "wood-chips"}, {"Mist", "de", "?"}, {"compost", "fr", "compost-finished"},
		{"seto", "es", "hedge-clippings"}, {"setas", "es", "vegetable-waste"}, {"pasto", "es", "grass-clippings"}, {"pasta", "es", "!cooked-food"},
		{"the", "", ""}, {"the", "de", ""}, {"thé", "fr", "tea-leaves"},
	} {
		got := ""
		switch m := feedstock.Default().In(row.in).Find(row.words); m.Outcome {
		case feedstock.Found, feedstock.Guessed:
			got = m.Feedstock.ID
		case feedstock.Banned:
			got = "!" + m.Refusal.ID
		case feedstock.Ambiguous:
			got = "?"
		}
		assert.Equal(t, row.want, got, "%q in %q", row.words, row.in)
	}
}

// TestEnglishIsReadInEveryGarden: who speaks English is understood wherever the
// words do not mean something else, and typing slips are mended.
func TestEnglishIsReadInEveryGarden(t *testing.T) {
	for _, language := range append([]string{""}, feedstock.Languages()...) {
		table := feedstock.Default().In(language)
		missed := 0
		for _, f := range table.All() {
			for _, words := range append([]string{f.ID, f.Name}, f.Aliases...) {
				was := feedstock.Default().Find(words)
				if now := table.Find(words); now.Outcome != was.Outcome || now.Feedstock.ID != was.Feedstock.ID || now.Refusal.ID != was.Refusal.ID {
					missed++
				}
			}
		}
		assert.LessOrEqual(t, missed, 4, "English words that mean something else in %q", language)
		for words, id := range map[string]string{"leavse": "leaves-dry", "gras clipings": "grass-clippings", "grass clippngs": "grass-clippings", "kitchen scarps": "food-scraps", "brown maple leaves from the drive": "leaves-maple"} {
			assert.Equal(t, id, table.Find(words).Feedstock.ID, "%q in %q", words, language)
		}
	}
}

// TestSlipsInLanguages holds what thumbs make of the names.
func TestSlipsInLanguages(t *testing.T) {
	for language, said := range map[string]map[string]string{
		"de": {"Rasenschnit": "grass-clippings", "Kafeesatz": "coffee-grounds", "Pferdmist": "manure-horse", "Kompsot": "compost-finished", "Küchnabfälle": "food-scraps", "Hexkenschnitt": "hedge-clippings", "Rasensch": "grass-clippings"},
		"fr": {"feuiles mortes": "leaves-dry", "eplucures": "food-scraps", "tonte de gason": "grass-clippings", "pailel": "straw-general"},
		"es": {"hojas seacs": "leaves-dry", "restos de cosina": "food-scraps", "estiercol de cabalo": "manure-horse"},
		"nl": {"graasmaaisel": "grass-clippings", "keukenafvla": "food-scraps", "koffiedk": "coffee-grounds", "paardemest": "manure-horse"},
	} {
		for words, id := range said {
			assert.Equal(t, id, feedstock.Default().In(language).Find(words).Feedstock.ID, "%s: %s", language, words)
		}
	}
}

// TestKindsOfAThing: German and Dutch write them as one word.
func TestKindsOfAThing(t *testing.T) {
	m := feedstock.Default().In("de").Find("Walnusslaub")
	assert.Equal(t, feedstock.None, m.Outcome)
	assert.True(t, slices.ContainsFunc(m.Near, func(f feedstock.Feedstock) bool { return f.ID == "leaves-dry" }), "%v", m.Near)
	m = feedstock.Default().In("de").Find("Walnussblätter")
	assert.Len(t, m.Near, 1, "one material is suggested once")
	m = feedstock.Default().In("nl").Find("runderbotten")
	assert.Equal(t, "meat", m.Refusal.ID)
}

func TestCompleteInLanguages(t *testing.T) {
	for _, row := range []struct{ in, typed, want string }{
		{"de", "Rasen", "grass-clippings"}, {"de", "kü", "food-scraps"}, {"de", "ku", "food-scraps"}, {"de", "grass cl", "grass-clippings"},
		{"fr", "tonte", "grass-clippings"}, {"fr", "épl", "food-scraps"}, {"es", "hoj", "leaves-dry"}, {"nl", "blad", "leaves-dry"},
	} {
		got := feedstock.Default().In(row.in).Complete(row.typed, 5)
		assert.True(t, slices.ContainsFunc(got, func(f feedstock.Feedstock) bool { return f.ID == row.want }), "%s: %s: %v", row.in, row.typed, got)
	}
}
