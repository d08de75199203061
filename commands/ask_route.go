package commands

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

// vocabulary is what a channel has: the names of its heaps, how it measures, and
// the materials known there.
type vocabulary struct {
	Heaps    []string
	Measures measure.Measures
	Table    *feedstock.Table
}

// intent is one thing a sentence can ask for: the command it becomes, how it
// is recognised and how its arguments are taken out.
type intent struct {
	path    string
	writes  bool // changes the record: never for questions, plans and denials
	denials bool // a write that a denial can state: "it does not smell"
	words   bool // keeps words as they are: a doubt in them is part of what is kept
	told    bool // may only answer a sentence that begins with log, record, ...
	heap    bool // has the option heap
	when    bool // has the option when
	cues    []cue
	fill    func(s sentence, k vocabulary) (map[string]string, bool) // nil: no further arguments
	example string
}

// cue is a pattern of words and how much it says, from 1 to 9.
type cue struct {
	score   int
	pattern phrase
}

// Threshold and reading length, own choice: below the score nothing was
// understood; every so many words beyond the first few take a point off a
// write, since a cue in a long story is more likely an accident.
const (
	leastScore   = 4
	plainWords   = 16
	wordsAPoint  = 8
	longestValue = 400
)

// candidate is an intent that a sentence fits.
type candidate struct {
	intent *intent
	score  int
	args   map[string]string
}

// route reads a sentence and returns the command path and arguments it asks
// for; false when no rule is sure enough. It never makes a question into a
// change of the record. At equal scores a question goes before a change, and
// two changes that are equally likely are none.
func route(said string, k vocabulary) (path string, args map[string]string, ok bool) {
	if k.Table == nil {
		k.Table = feedstock.Default()
	}
	s, ok := readSentence(said, k)
	if !ok {
		return "", nil, false
	}
	found := candidates(s, k)
	if len(found) == 0 {
		if path, args, ok = bareList(s.raw, k); ok {
			return path, args, true
		}
		if path, args, ok = orderAtEnd(s, k); ok {
			return path, args, true
		}
		return bareSymptom(s, k)
	}
	best := found[0]
	if all := deedsIn(found, k); len(all) > 1 && all[0].intent == best.intent {
		args, ok = visitOf(all)
		return "log visit", args, ok
	}
	if best.intent.writes && len(found) > 1 && found[1].score == best.score && found[1].intent.path != best.intent.path || leftOut(s, best) {
		return "", nil, false
	}
	return best.intent.path, best.args, true
}

// takenOut tells what left a heap: nothing is to be added to that.
var takenOut = regexp.MustCompile(`(?i)\b(?:took|taken|dug|sieved|removed|carried|emptied|got|harvested)\b.*\b(?:from|out|off)\b`)

// bareList takes a sentence that is nothing but amounts of materials as a
// question about them: whoever types what arrived wants to know what to add.
func bareList(said string, k vocabulary) (path string, args map[string]string, ok bool) {
	items, err := k.Measures.ParseItems(said)
	if err != nil || len(said) > longestValue || takenOut.MatchString(said) {
		return "", nil, false
	}
	for _, item := range items {
		switch k.Table.Find(item.Material).Outcome {
		case feedstock.None, feedstock.Ambiguous:
			return "", nil, false
		}
	}
	return "mix", map[string]string{"what": said}, true
}

// longestSymptom is how many words say what is wrong and nothing else. Own choice.
const longestSymptom = 8

// bareSymptom takes a short sentence that names what is wrong, "it stinks", as
// the question what to do about it.
func bareSymptom(s sentence, k vocabulary) (path string, args map[string]string, ok bool) {
	if s.unfit || s.denied || s.apart || len(s.heaps) > 1 || len(strings.Fields(s.text)) > longestSymptom {
		return "", nil, false
	}
	args, _ = fillTrouble(s, k)
	if len(s.heaps) == 1 {
		args["heap"] = s.heaps[0]
	}
	return "trouble", args, args["what"] != ""
}

// candidates are the fitting intents, best first: by score, then questions,
// then in the order of the table.
func candidates(s sentence, k vocabulary) []candidate {
	var found []candidate
	for i := range intents {
		in := &intents[i]
		if in.writes && !s.mayWrite(in) || in.told && !s.directed {
			continue
		}
		if c, ok := in.fit(s, k); ok {
			found = append(found, c)
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int {
		if a.score != b.score {
			return b.score - a.score
		}
		switch {
		case a.intent.writes == b.intent.writes:
			return 0
		case a.intent.writes:
			return 1
		}
		return -1
	})
	return found
}

func (in *intent) fit(s sentence, k vocabulary) (candidate, bool) {
	c := candidate{intent: in}
	for _, cue := range in.cues {
		if cue.score > c.score && cue.pattern.MatchString(s.text) {
			c.score = cue.score
		}
	}
	if in.writes {
		c.score -= max(0, len(strings.Fields(s.text))-plainWords) / wordsAPoint
	}
	if c.score < leastScore {
		return c, false
	}
	c.args = map[string]string{}
	if in.fill != nil {
		filled, ok := in.fill(s, k)
		if !ok {
			return c, false
		}
		maps.Copy(c.args, filled)
	}
	return c, in.place(&c, s)
}

// place adds heap and when, where the command has them. A change that names
// two heaps where one is meant is not understood; a question about two is
// asked of all.
func (in *intent) place(c *candidate, s sentence) bool {
	if _, done := c.args["heap"]; in.heap && !done {
		switch {
		case len(s.heaps) == 1:
			c.args["heap"] = s.heaps[0]
		case len(s.heaps) > 1 && in.writes:
			return false
		}
	}
	if in.when && s.when != "" {
		c.args["when"] = s.when
	}
	for name, value := range c.args {
		if value == "" {
			delete(c.args, name)
		}
		if len(value) > longestValue {
			return false
		}
	}
	return true
}

// nearest lists up to n examples of the rules that share most words with the
// sentence; the plainest ones when none does.
func nearest(said string, k vocabulary, n int) []string {
	type near struct {
		example string
		shared  int
	}
	var all []near
	words := mend(spellOut(tokens(strings.ToLower(tidy(clip(said, longestSentence))))), k)
	for _, in := range intents {
		shared := 0
		for _, w := range tokens(strings.ToLower(in.example)) {
			if len(w) > 3 && slices.Contains(words, w) {
				shared++
			}
		}
		if shared > 0 {
			all = append(all, near{in.example, shared})
		}
	}
	slices.SortStableFunc(all, func(a, b near) int { return b.shared - a.shared })
	examples := []string{}
	for _, a := range all {
		examples = append(examples, a.example)
	}
	for _, plain := range plainExamples {
		if !slices.Contains(examples, plain) {
			examples = append(examples, plain)
		}
	}
	return examples[:min(n, len(examples))]
}

var plainExamples = []string{"what do I add to 2 buckets of grass?", "58 degrees in North Bay at 40 cm", "what needs doing?"}
