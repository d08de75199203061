package feedstock

import "strings"

// grammar is what it takes to read the names of materials in one language. Its
// words are lower case and without accents, as split leaves them.
type grammar struct {
	denials    map[string]bool // the next word names what is not there
	lacking    string          // the word before it names what is not there: "meat free"
	inside     string          // what follows is what the material comes in
	noise      map[string]bool // says nothing about which material it is
	qualifiers map[string]bool // folded; tell kinds of one material apart and name none by themselves
	spellings  map[string]string
	singular   func(string) string
	elisions   *strings.Replacer // parts what an apostrophe joins; nil where nothing is
	compounds  bool              // writes "beef bones" as one word
}

// read is text as index words, without noise and without what it denies
// ("scraps without meat").
func (g *grammar) read(text string) []word {
	if g.elisions != nil {
		text = g.elisions.Replace(head(text))
	}
	var words []word
	raws := split(text)
	for i := 0; i < len(raws) && len(words) < maxWords; i++ {
		raw := raws[i]
		if g.denials[raw] {
			for i+1 < len(raws) && g.noise[raws[i+1]] {
				i++
			}
			i++ // the next word is what is not there
			continue
		}
		if i+1 < len(raws) && raws[i+1] == g.lacking {
			i++
			continue
		}
		if raw == g.inside && len(words) > 0 {
			break // what it comes in: "leaves in plastic sacks"
		}
		if g.noise[raw] {
			continue
		}
		words = append(words, word{raw, g.fold(raw)})
	}
	return words
}

// fold is the singular of a word in the spelling of the index.
func (g *grammar) fold(raw string) string {
	if f, ok := g.spellings[raw]; ok {
		return f
	}
	one := g.singular(raw)
	if f, ok := g.spellings[one]; ok {
		return f
	}
	return one
}

func (g *grammar) weightOf(word string) float64 {
	if g.qualifiers[word] {
		return qualifierWeight
	}
	return 1
}

func (g *grammar) weigh(words []string) float64 {
	sum := 0.0
	for _, w := range words {
		sum += g.weightOf(w)
	}
	return sum
}

// singular takes an English plural ending off a word.
func singular(w string) string {
	if len(w) < 4 {
		return w
	}
	if stem, ok := strings.CutSuffix(w, "ies"); ok && len(stem) > 1 {
		return stem + "y"
	}
	for _, ending := range []string{"ches", "shes", "sses", "xes", "toes"} {
		if strings.HasSuffix(w, ending) {
			return strings.TrimSuffix(w, "es")
		}
	}
	for _, ending := range []string{"ss", "us", "is"} {
		if strings.HasSuffix(w, ending) {
			return w
		}
	}
	return strings.TrimSuffix(w, "s")
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// english reads the names of the table itself.
var english = &grammar{
	singular: singular,
	lacking:  "free",
	inside:   "in",
	denials:  set("no non not never without minus"),
	noise: set(`a an the some any our my your their his her this that these those of from in on at to with and
		or for by bit bits lot lots load loads few more much many nice good great plain big small little
		x free water please thanks about around roughly approx maybe just`),
	qualifiers: set(`dry wet damp moist fresh brown green shredded chopped torn crumpled crushed chipped loose raw
		rotted well half mixed clean long short cut spent used young soft woody dead garden home organic household
		composted compacted trodden bagged matted old untreated unpainted unsprayed uncooked uncoated unbleached
		overgrown crisp crispy fallen spring summer winter autumn bedding`),

	// Words of one meaning in one spelling: British and American, plain and formal.
	spellings: map[string]string{
		"leaves": "leaf", "loaves": "loaf", "halves": "half", "feces": "faeces",
		"mould": "mold", "mouldy": "moldy", "gray": "grey", "colour": "color", "coloured": "colored",
		"fibre":    "fiber",
		"zucchini": "courgette", "eggplant": "aubergine", "maize": "corn", "sweetcorn": "corn",
		"rutabaga": "swede", "arugula": "rocket", "cilantro": "coriander", "capsicum": "pepper", "beet": "beetroot",
		"scallion": "onion", "spud": "potato", "tattie": "potato",
		"veg": "vegetable", "veggie": "vegetable", "veges": "vegetable", "vegie": "vegetable",
		"lawn": "grass", "fall": "autumn", "dried": "dry", "rotten": "rotted", "decayed": "rotted",
		"decomposed": "rotted", "aged": "rotted", "matured": "rotted",
		"mowing": "clipping", "cutting": "clipping", "mown": "clipping",
		"trimming": "pruning", "lopping": "pruning",
		"peeling": "peel", "paring": "peel", "skin": "peel",
		"leftover": "scrap", "waste": "scrap", "refuse": "scrap", "remain": "scrap",
		"poo": "manure", "poop": "manure", "muck": "manure", "dung": "manure", "dropping": "manure",
		"shit": "manure", "pooh": "manure", "excrement": "manure",
		"chicken": "hen", "cattle": "cow", "bullock": "cow", "pony": "horse", "donkey": "horse",
		"bunny": "rabbit", "swine": "pig", "hog": "pig",
		"grind": "ground", "teabag": "tea", "bracken": "fern", "chipping": "chip",
		"woodchip": "chip", "woodchipping": "chip", "nappy": "diaper", "trash": "rubbish",
		"canine": "dog", "puppy": "dog", "feline": "cat", "kitty": "cat", "kitten": "cat",
	},
}
