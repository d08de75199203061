package feedstock

import "strings"

// tongues are the languages besides English. How their words are read is common
// knowledge, from memory.
var tongues = []struct {
	language string
	grammar  func() *grammar
}{
	{"de", german}, {"fr", french}, {"es", spanish}, {"nl", dutch},
}

// folding folds the qualifiers of a grammar as its words are folded.
func (g *grammar) folding() *grammar {
	written := g.qualifiers
	g.qualifiers = make(map[string]bool, len(written))
	for w := range written {
		g.qualifiers[g.fold(w)] = true
	}
	return g
}

// trimmed is a word without the first of some endings that leaves least letters.
func trimmed(w string, least int, endings ...string) string {
	for _, ending := range endings {
		if stem, ok := strings.CutSuffix(w, ending); ok && len(stem) >= least {
			return stem
		}
	}
	return w
}

// plainUmlauts writes ä, ö and ü without their dots where they were typed as
// two letters: split leaves none of the others.
var plainUmlauts = strings.NewReplacer("ae", "a", "oe", "o", "ue", "u")

func german() *grammar {
	g := &grammar{
		singular: func(w string) string {
			return trimmed(plainUmlauts.Replace(w), 4, "ern", "en", "em", "er", "es", "e", "n", "s")
		},
		compounds: true, lacking: "frei", inside: "in",
		denials: set("ohne kein keine keinen keiner keinerlei nicht"),
		noise: set(`der die das dem den des ein eine einen einem einer eines von vom aus im am an auf zum zur mit und oder fur
			unser unsere unserem unseren mein meine etwas bisschen viel viele paar einige ganz sehr schon schone gut gute
			gross grosse grosser klein kleine kleiner circa ca etwa ungefahr noch auch bitte`),
		qualifiers: set(`trocken nass feucht frisch braun grun gehackselt zerkleinert zerrissen gerissen roh verrottet halb
			gemischt sauber lang kurz geschnitten gebraucht jung alt welk verwelkt weich holzig tot garten haus bio kompostiert lose
			gepresst unbehandelt ungespritzt unbedruckt gemaht durr dick dunn fein grob geschreddert angewelkt
			getrocknet gesiebt reif faul rein ganz zerdruckt zerknullt heurig vorjahrig`),
		spellings: map[string]string{"kohle": "kohle", "kohlen": "kohle", "tee": "tee", "mist": "mist", "oel": "ol", "krauter": "krauter"},
	}
	return g.folding()
}

func french() *grammar {
	g := &grammar{
		singular: func(w string) string { return trimmed(trimmed(w, 3, "s", "x"), 4, "e") },
		elisions: strings.NewReplacer("d'", " ", "d’", " ", "D'", " ", "D’", " ", "l'", " ", "l’", " ", "L'", " ", "L’", " "),
		inside:   "dans",
		denials:  set("sans ni pas non aucun aucune"),
		noise: set(`de du des le la les un une au aux a et ou avec pour mon ma mes notre nos ce cette ces un peu plein beaucoup
			bien tout toute tous gros grosse grand grande petit petite environ quelques sur en vrac`),
		qualifiers: set(`sec seche humide mouille mouillee detrempe frais fraiche brun brune vert verte broye broyee hache hachee
			dechire froisse ecrase ecrasee cru crue decompose decomposee demi melange melangee propre long longue court coupe coupee
			use usee jeune vieux vieille tendre ligneux mort morte bio composte tasse fin fine fins mince epais epaisse
			naturel tombe tombee ramasse tondu tondue entier pourri pourrie fane fanee vivace jardin`),
		spellings: map[string]string{"seches": "sec", "seche": "sec", "fraiches": "frais", "fraiche": "frais", "vieille": "vieux", "vieilles": "vieux", "vieil": "vieux"},
	}
	return g.folding()
}

func spanish() *grammar {
	adjectives := set(`sec humed mojad fresc marron verd triturad picad trocead rot crud podrid descompuest medi mezclad
		limpi larg cort cortad usad joven viej tiern lenos muert organic compostad caid madur natural fin grues enter
		molid suelt nuev marchit`)
	g := &grammar{
		singular: func(w string) string {
			one := trimmed(trimmed(w, 3, "s"), 3, "e")
			if stem := trimmed(one, 3, "a", "o"); adjectives[stem] {
				return stem
			}
			return one
		},
		inside:  "en",
		denials: set("sin no ni ningun ninguna"),
		noise: set(`de del la el lo los las un una unos unas y e o u con para mi mis nuestro nuestra nuestros nuestras su sus al a
			por mas menos muy poco mucho mucha bastante algo unos cuantos buen buena gran grande grandes pequeno pequena`),
		qualifiers: adjectives,
		spellings:  map[string]string{"hierbas": "hierbas"},
	}
	return g.folding()
}

// shortVowels writes the long vowels of Dutch as their plurals have them:
// "boon" and "bonen".
var shortVowels = strings.NewReplacer("aa", "a", "ee", "e", "oo", "o", "uu", "u")

func dutch() *grammar {
	g := &grammar{
		singular: func(w string) string {
			stem := trimmed(w, 3, "en", "s", "e")
			if n := len(stem); stem != w && n > 3 && stem[n-1] == stem[n-2] {
				stem = stem[:n-1] // "takken", "natte"
			}
			stem = shortVowels.Replace(stem)
			if n := len(stem); stem[n-1] == 'v' {
				stem = stem[:n-1] + "f" // "druiven"
			} else if stem[n-1] == 'z' {
				stem = stem[:n-1] + "s"
			}
			return stem
		},
		compounds: true, lacking: "vrij", inside: "in",
		denials: set("zonder geen niet"),
		noise: set(`de het een van der den en met of voor onze ons mijn uit op te wat veel weinig beetje paar die dat aan bij naar
			grote groot kleine klein mooi mooie goed goede ongeveer circa ca nog ook`),
		qualifiers: set(`droog nat vochtig vers bruin groen versnipperd gehakseld gescheurd verfrommeld geplet rauw verteerd half
			gemengd schoon lang kort gesneden gebruikt jong oud zacht houtig dood tuin biologisch gecomposteerd dor gevallen
			afgevallen fijn grof onbehandeld onbespoten gemaaid rot verwelkt los`),
		spellings: map[string]string{"bladeren": "blad", "bladen": "blad", "kolen": "kolen", "kool": "kool", "as": "as",
			"bloemen": "bloemen"},
	}
	return g.folding()
}
