package trouble

import (
	"slices"
	"strings"
	"unicode"

	"heapside/calc/feedstock"
)

// Symptom is something a person notices. Log is the typed line that puts it on
// record, without the heap, or empty.
type Symptom struct {
	Code string
	Name string // after "North Bay": "smells of ammonia"
	Log  string

	words []string // stems and phrases that mean it; a blank in one parts words that must follow each other
}

// Symptoms are all symptoms, in the order in which they are offered.
func Symptoms() []Symptom { return slices.Clone(symptoms) }

var symptoms = []Symptom{
	{"ammonia", "smells of ammonia", "log smell ammonia", []string{"ammonia", "stable", "urine", "pee", "wee", "sting", "sharp smell", "smells sharp", "cat litter"}},
	{"rotten", "smells rotten", "log smell rotten", []string{"rotten", "eggs", "sulphur", "sulfur", "rubbish smell", "foul", "stink", "sewage", "sour", "vinegar", "rancid", "smell bad", "bad smell", "smells bad", "smells awful", "smells terrible", "is smelly", "so smelly", "very smelly", "s smelly", "reek", "reeks", "reeking", "pongs", "putrid", "manky", "pong"}},
	{"cold", "does not get warm", "", []string{"cold", "not heat", "not hot", "not warm", "stone cold", "cool", "no heat", "not get hot", "not get warm", "does nothing", "not rotting", "nothing happen", "dead", "will not heat"}},
	{"hot", "is too hot", "", []string{"too hot", "overheat", "very hot", "burning", "boiling", "scalding", "so hot", "smoke", "smoking", "smoulder", "smolder", "on fire"}},
	{"dry", "is dry", "log feel crumbles", []string{"dry", "dusty", "crumbles", "bone dry", "parched"}},
	{"slimy", "is wet and slimy", "log feel drips", []string{"slimy", "slime", "soggy", "wet", "waterlogged", "drips", "dripping", "mushy", "sludge", "swamp", "leak"}},
	{"flies", "has flies", "", []string{"fly", "flies", "maggot", "larva", "gnat", "midge"}},
	{"rats", "has rats or mice", "", []string{"rat", "rats", "mouse", "mice", "vermin", "rodent", "droppings", "gnawed"}},
	{"ants", "has ants", "", []string{"ant", "ants"}},
	{"mould", "has mould", "", []string{"mould", "mold", "white stuff", "white powder", "grey powder", "fungus", "fuzzy", "white threads", "cobweb"}},
	{"mushrooms", "has mushrooms", "", []string{"mushroom", "toadstool", "ink cap"}},
	{"weeds", "has weeds sprouting", "", []string{"weed", "weeds", "seedling", "sprouting", "germinat", "bindweed", "couch grass"}},
	{"stuck", "has shrunk and stopped", "", []string{"stuck", "shrunk", "stopped", "shrinking", "sunk", "no longer", "slow", "stalled", "not doing anything"}},
	{"steaming", "is steaming", "", []string{"steam", "steaming", "vapour", "vapor"}},
}

// most bounds what is read of a description (own choice): nobody says more.
const most = 300

// Find is the symptoms that a description in plain words names, in the order
// of Symptoms; none when it names no known one.
func Find(text string) []Symptom {
	said := spoken(text)
	var found []Symptom
	for _, s := range symptoms {
		if s.Code == strings.TrimSpace(said) || slices.ContainsFunc(s.words, func(w string) bool { return means(said, w) }) {
			found = append(found, s)
		}
	}
	return clearer(found)
}

// better are pairs of symptoms of which the second says the same less clearly.
var better = []struct{ keep, drop string }{{"hot", "cold"}, {"ammonia", "rotten"}, {"cold", "stuck"}}

// clearer drops what another symptom says better.
func clearer(found []Symptom) []Symptom {
	for _, b := range better {
		if slices.ContainsFunc(found, func(s Symptom) bool { return s.Code == b.keep }) {
			found = slices.DeleteFunc(found, func(s Symptom) bool { return s.Code == b.drop })
		}
	}
	return found
}

// spoken is a description in lower case, its words parted by single blanks, a
// denial written as "not", with a blank at both ends.
func spoken(text string) string {
	if r := []rune(text); len(r) > most {
		text = string(r[:most])
	}
	text = strings.NewReplacer("’", "'", "isn't", "not", "doesn't", "not", "won't", "not", "don't", "not", "never", "not", "hasn't", "not").Replace(strings.ToLower(text))
	return " " + strings.Join(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }), " ") + " "
}

// means reports whether a description has a word that begins with w, or a
// slip of it; a phrase must stand in it as it is, but for the last word's end.
func means(said, w string) bool {
	if strings.Contains(said, " "+w) && (len(w) > 4 || strings.Contains(said, " "+w+" ")) {
		return !denied(said, w)
	}
	if strings.Contains(w, " ") || len(w) < 6 {
		return false
	}
	for _, word := range strings.Fields(said) {
		if len(word) >= 6 && feedstock.Distance(word, w) <= 1 {
			return true
		}
	}
	return false
}

// denied reports whether the word before w says that it is not so.
func denied(said, w string) bool {
	before, _, _ := strings.Cut(said, " "+w)
	return strings.HasSuffix(before, " not") || strings.HasSuffix(before, " no") || strings.HasSuffix(before, " not too")
}
