package commands

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/feedstock"
)

// longestSentence is the most characters a sentence to be understood may have;
// longer text is a story, not a request. Own choice.
const longestSentence = 400

// sentence is what a person wrote, made comparable: text is lower case, one
// blank between words, punctuation on its own, contractions opened, small slips
// in cue words mended, greetings and thanks dropped, times taken out, and every
// mention of a heap written as "#".
type sentence struct {
	raw   string   // one line, as written
	text  string   // as described above
	heaps []string // the named heaps in order, each once
	when  string   // for the option of that name, or empty

	question bool // asks something
	doubtful bool // wishes, plans, supposes or denies
	directed bool // tells us outright to write something down
	denied   bool // says that something is not so
	apart    bool // tells of another garden, or of a habit
	unfit    bool // nothing to write down: a joke, a mention, a query language
}

// readSentence makes a sentence; false when there is nothing to read.
func readSentence(said string, k vocabulary) (sentence, bool) {
	s := sentence{raw: tidy(said)}
	if s.raw == "" || utf8.RuneCountInString(s.raw) > longestSentence {
		return s, false
	}
	lower := strings.ToLower(s.raw)
	s.unfit = unfit.MatchString(lower)
	words := tokens(lower)
	words = strings.Fields(strings.Join(spellOut(words), " "))
	words = mend(words, k)
	words, s.heaps = findHeaps(words, k)
	s.text = trimManners(strings.Join(words, " "))
	s.readPreamble()
	s.text, s.when = takeWhen(s.text)
	s.text = rewritten(s.text, plainer)
	s.readMood()
	return s, strings.Trim(s.text, " .,;:!?") != ""
}

// tidy drops what cannot be seen (control and direction marks, emoji), folds
// typographic quotes and dashes, and makes one line of it.
func tidy(said string) string {
	var b strings.Builder
	for _, r := range said {
		switch {
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case r == '’' || r == '‘' || r == '`':
			b.WriteByte('\'')
		case r == '“' || r == '”' || r == '″':
			b.WriteByte('"')
		case r == '–' || r == '—':
			b.WriteString(" - ")
		case r == '°' || r == 'º':
			b.WriteRune('°')
		case r == utf8.RuneError || unicode.In(r, unicode.Cc, unicode.Cf, unicode.So, unicode.Sk, unicode.Co, unicode.Mn):
		default:
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// tokens splits lower-case text into words and loose punctuation. Marks inside
// a word ("1,5", "18:30", "c:n") stay with it.
func tokens(lower string) []string {
	var out []string
	for _, field := range strings.Fields(lower) {
		field = strings.TrimLeft(field, "([{\"*_~>")
		core := strings.TrimRight(field, ".,;:!?)]}*_~\"'")
		if strings.HasSuffix(field, "\"") && core != "" && unicode.IsDigit(rune(core[len(core)-1])) {
			core += "\"" // inches
		}
		if core != "" {
			out = append(out, core)
		}
		for _, mark := range strings.TrimPrefix(field, core) {
			if strings.ContainsRune(".,;:!?", mark) {
				out = append(out, string(mark))
			}
		}
	}
	return out
}

// contractions and chat spellings, opened. "its" is left alone: it is also a
// possessive.
var contractions = map[string]string{
	"don't": "do not", "dont": "do not", "doesn't": "does not", "doesnt": "does not", "didn't": "did not", "didnt": "did not",
	"isn't": "is not", "isnt": "is not", "wasn't": "was not", "wasnt": "was not", "aren't": "are not", "arent": "are not", "weren't": "were not", "hadn't": "had not", "ain't": "is not", "aint": "is not",
	"can't": "can not", "cant": "can not", "cannot": "can not", "won't": "will not", "wont": "will not",
	"haven't": "have not", "havent": "have not", "hasn't": "has not", "hasnt": "has not",
	"shouldn't": "should not", "shouldnt": "should not", "wouldn't": "would not", "couldn't": "could not", "mustn't": "must not",
	"i've": "i have", "ive": "i have", "we've": "we have", "weve": "we have", "they've": "they have", "you've": "you have",
	"i'm": "i am", "im": "i am", "we're": "we are", "you're": "you are", "they're": "they are",
	"i'd": "i would", "we'd": "we would", "i'll": "i will", "we'll": "we will", "it'll": "it will",
	"it's": "it is", "that's": "that is", "thats": "that is", "there's": "there is", "theres": "there is",
	"what's": "what is", "whats": "what is", "wats": "what is", "wat": "what", "wot": "what", "wots": "what is", "wht": "what", "neds": "needs", "who's": "who is", "whos": "who is",
	"how's": "how is", "hows": "how is", "where's": "where is", "wheres": "where is", "when's": "when is", "whens": "when is",
	"let's": "let us", "lets": "let us", "gonna": "going to", "wanna": "want to", "gotta": "got to",
	"gimme": "give me", "lemme": "let me", "dunno": "do not know", "y'all": "you all", "yall": "you all", "ya": "you", "ur": "your", "yer": "your",
	"owt": "anything", "nowt": "nothing", "summat": "something", "wiv": "with", "wi": "with", "o": "of", "an'": "and",
	"tmrw": "tomorrow", "tomoz": "tomorrow", "2moro": "tomorrow", "tho": "though", "b4": "before", "abt": "about", "w/": "with", "cos": "because",
	"u": "you", "r": "are", "pls": "please", "plz": "please", "thx": "thanks", "cuz": "because",
	"temps": "temp", "temperatures": "temperature", "&": "and", "centigrade": "celsius",
}

// endings are contractions of any word: "north bay's ready", "that'll do".
var endings = []struct{ short, long string }{{"'s", " is"}, {"'ll", " will"}, {"'re", " are"}, {"'ve", " have"}, {"'d", " would"}}

func spellOut(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w
		if whole, ok := contractions[w]; ok {
			out[i] = whole
			continue
		}
		for _, e := range endings {
			if whole, ok := strings.CutSuffix(w, e.short); ok && whole != "" {
				out[i] = whole + e.long
				break
			}
		}
	}
	return out
}

// cueWords are the words of the rules that are worth mending when mistyped.
var cueWords = strings.Fields(`
	turned turning watered watering covered uncovered added moved emptied temperature thermometer reading degrees celsius
	fahrenheit ready finished history compost bucket buckets barrow barrows wheelbarrow sacks litres yesterday morning
	afternoon evening tonight smells smelling squeeze squeezed ammonia rotten earthy height record stock should needs doing
	happened tumbler heaps crumbles drips passed failed germination radish measure measured measures weighs layering curing`)

// mend corrects a slip of one letter in a cue word. Words that are a unit, a
// material or part of a heap's name are what they are.
func mend(words []string, k vocabulary) []string {
	for i, w := range words {
		if len(w) < 5 || isName(w, k) {
			continue
		}
		if fixed, ok := nearestCue(w); ok && !isMaterial(w, k) {
			words[i] = fixed
		}
	}
	return words
}

func nearestCue(w string) (string, bool) {
	found := ""
	for _, cue := range cueWords {
		if cue == w {
			return w, false
		}
		if w[0] == cue[0] && feedstock.Distance(w, cue) <= 1+len(cue)/9 {
			if found != "" {
				return w, false
			}
			found = cue
		}
	}
	return found, found != ""
}

func isName(w string, k vocabulary) bool {
	if _, unit := k.Measures.Unit(w); unit {
		return true
	}
	for _, name := range k.Heaps {
		for _, part := range strings.Fields(strings.ToLower(name)) {
			if part == w {
				return true
			}
		}
	}
	return false
}

var (
	greeting = pattern(`^(?:(?:(?:hi|hello|hey|hiya|howdy|hallo|ey up|ay up|yo|oi|alright|dear|greetings|good day|g'day)(?: there)?|morning|evening|afternoon|good morning|good afternoon|good evening|all|everyone|everybody|folks|team|guys|lads|mate|mates|friends|you all|love|duck|sir|madam|` +
		`please|ok|okay|so|well|um|erm|uh|oh|right|just|and|also|but|then|question|quick question|quick one|heapside|thanks|ta|cheers|sorry|excuse me|` +
		`by the way|btw|fyi|update|news|hm|hmm|ah|now|yes|yep|yeah|for the log|in case anyone wonders|wow|omg|gosh|great|yay|hooray|dear all|dear everyone|heads up|quick update|for your information|for info|listen|look|yay|phew|you know what|basically|actually|anyway|anyhow|real quick|pray)(?: [,.!:;-]+| -)* )+`)
	thanking = pattern(`(?: [,.!;]+| -)* (?:please|thanks|thank you|thank you very much|many thanks|thank you kindly|cheers|ta|folks|guys|lads|all|everyone|everybody|mate|mates|love|pal|btw|by the way|x|xx|then|if possible|if you can|if you could|if you do not mind|if you would|if that is (?:ok|okay|alright|fine)|when you can|sorry|kindly|though|as well|phew|yay|bye|many thanks in advance|thanks in advance)((?: [.!?]+)*)$`)
)

// trimManners drops the greeting before and the thanks after.
func trimManners(text string) string {
	text = greeting.ReplaceAllString(text, "")
	for range 3 {
		text = thanking.ReplaceAllString(text, "$1")
	}
	return strings.TrimSpace(text)
}
