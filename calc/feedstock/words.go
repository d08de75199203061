package feedstock

import (
	"slices"
	"strings"
	"unicode"
)

// Bounds on what is looked at, so that any text is answered at once (own
// choice): nobody names a material in more.
const (
	maxRunes = 200
	maxWords = 12
)

// word is one word as typed and as the index knows it: singular, in one
// spelling.
type word struct{ raw, folded string }

// split cuts text into words: lower case, without accents, marks of writing
// direction, pictures and punctuation. An apostrophe joins, anything else parts.
func split(text string) []string {
	var b strings.Builder
	for _, r := range plain.Replace(strings.ToLower(head(text))) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case r == '\'' || r == '’' || unicode.In(r, unicode.Mn, unicode.Cf):
		default:
			b.WriteByte(' ')
		}
	}
	return strings.Fields(b.String())
}

// plain writes the accented letters of the languages round a garden without
// their accents. Accents that stand as marks of their own are dropped in split.
var plain = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ý", "y", "ÿ", "y", "ß", "ss", "æ", "ae", "œ", "oe",
	"\ufb01", "fi", "\ufb02", "fl",
)

// head is at most the first maxRunes characters of text.
func head(text string) string {
	n := 0
	for i := range text {
		if n++; n > maxRunes {
			return text[:i]
		}
	}
	return text
}

// read is text as index words, without noise and without what it denies
// ("scraps without meat").
func read(text string) []word {
	var words []word
	raws := split(text)
	for i := 0; i < len(raws) && len(words) < maxWords; i++ {
		raw := raws[i]
		if denials[raw] {
			i++ // the next word is what is not there
			continue
		}
		if i+1 < len(raws) && raws[i+1] == "free" {
			i++
			continue
		}
		if raw == "in" && len(words) > 0 {
			break // what it comes in: "leaves in plastic sacks"
		}
		if noise[raw] {
			continue
		}
		words = append(words, word{raw, fold(raw)})
	}
	return words
}

// fold is the singular of a word in the spelling of the index.
func fold(raw string) string {
	if f, ok := spellings[raw]; ok {
		return f
	}
	one := singular(raw)
	if f, ok := spellings[one]; ok {
		return f
	}
	return one
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

// sortedKey is the same for the same words in any order.
func sortedKey(words []string) string {
	sorted := slices.Clone(words)
	slices.Sort(sorted)
	return strings.Join(slices.Compact(sorted), " ")
}

func folded(words []word) []string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = w.folded
	}
	return list
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

var (
	denials = set("no non not never without minus")

	// noise says nothing about which material it is.
	noise = set(`a an the some any our my your their his her this that these those of from in on at to with and
		or for by bit bits lot lots load loads few more much many nice good great plain big small little
		x free water please thanks about around roughly approx maybe just`)

	// qualifiers tell kinds of one material apart and name none by themselves.
	qualifiers = set(`dry wet damp moist fresh brown green shredded chopped torn crumpled crushed chipped loose raw
		rotted well half mixed clean long short cut spent used young soft woody dead garden home organic household
		composted compacted trodden bagged matted old untreated unpainted unsprayed uncooked uncoated unbleached
		overgrown crisp crispy fallen spring summer winter autumn bedding`)

	// spellings brings words of one meaning to one spelling: British and
	// American, plain and formal.
	spellings = map[string]string{
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
	}
)
