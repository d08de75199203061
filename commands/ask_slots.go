package commands

import (
	"slices"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
)

// glue undoes the loose punctuation of a sentence's text.
func glue(text string) string {
	return strings.Trim(strings.NewReplacer(" ,", ",", " ;", ";", " .", ".", " :", ":", " !", "!", " ?", "?", "#", "it").Replace(text), " .,;:!?-")
}

// timeRule turns words for a time into one that the option "when" reads. What
// stands for "$1" and "$2" comes from the pattern's groups.
type timeRule struct {
	pattern phrase
	when    string
}

// The hours given to parts of a past day are an own choice.
var timeRules = []timeRule{
	{pattern(`\b(?:on )?the day before yesterday\b`), "2 days ago"},
	{pattern(`\bhalf an hour ago\b`), "30 minutes ago"},
	{pattern(`\b(?:about |around )?(\d+|an?|one|two|three|four|five|six|seven|eight|nine|ten|a couple of|a few) (min(?:ute)?|hour|hr|h|day|week)s? ago\b`), "$1 $2 ago"},
	{pattern(`\byesterday (?:at )?(\d{1,2}[:.]\d\d|\d{1,2}(?:[:.]\d\d)? ?[ap]m)\b`), "yesterday $1"},
	{pattern(`\byesterday (?:at )?(?:lunch\w*|noon|midday)\b`), "yesterday 12:00"},
	{pattern(`\byesterday morning\b`), "yesterday 09:00"},
	{pattern(`\byesterday afternoon\b`), "yesterday 15:00"},
	{pattern(`\byesterday (?:evening|night)\b`), "yesterday 19:00"},
	{pattern(`\byesterday\b`), "yesterday"},
	{pattern(`\blast night\b`), "last night"},
	{pattern(`\b(?:earlier )?this (morning)\b`), "this $1"},
	{pattern(`\b(?:earlier )?this (?:afternoon)\b`), "today 15:00"},
	{pattern(`\b(?:on |last )+(monday|tuesday|wednesday|thursday|friday|saturday|sunday)(?: (?:morning|afternoon|evening))?\b`), "$1"},
	{pattern(`\b(?:at |today at |on )(\d{4}-\d\d-\d\d(?: \d\d:\d\d)?)\b`), "$1"},
	{pattern(`\b(?:on )?(\d{4}-\d\d-\d\d)\b`), "$1"},
	{pattern(`\bon (?:the )?(\d{1,2})(?:st|nd|rd|th)? (?:of )?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b`), "$1 $2"},
	{pattern(`\bon (jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]* (\d{1,2})(?:st|nd|rd|th)?\b`), "$2 $1"},
	{pattern(`\b(?:today )?(?:at|around|over) (?:lunch\w*|noon|midday)\b`), "today 12:30"},
	{pattern(`\b(?:today )?at (\d{1,2}[:.]\d\d|\d{1,2}(?:[:.]\d\d)? ?[ap]m)\b`), "$1"},
	{pattern(`\b(?:earlier )?(?:today|this evening|tonight)\b`), ""},
	{pattern(`\b(?:just now|earlier on|a moment ago|a minute ago|right now|just this minute)\b`), ""},
}

var counts = map[string]int{"a": 1, "an": 1, "one": 1, "two": 2, "a couple of": 2, "three": 3, "a few": 3, "four": 4, "five": 5, "six": 6,
	"seven": 7, "eight": 8, "nine": 9, "ten": 10}

// takeWhen takes the first time out of a text and returns it as "when" reads
// it. "Today" and "just now" are taken out and mean nothing more than now.
func takeWhen(text string) (rest, when string) {
	for _, rule := range timeRules {
		m := rule.pattern.FindStringSubmatchIndex(text)
		if m == nil {
			continue
		}
		when = timeSaid(rule, text, m)
		rest = strings.Join(strings.Fields(text[:m[0]]+" "+text[m[1]:]), " ")
		return strings.TrimSpace(strings.TrimLeft(rest, ",;: ")), when
	}
	return text, ""
}

func timeSaid(rule timeRule, text string, m []int) string {
	if !strings.HasSuffix(rule.when, "$2 ago") {
		return string(rule.pattern.compiled().ExpandString(nil, rule.when, text, m))
	}
	n, unit := numberOf(text[m[2]:m[3]]), text[m[4]:m[5]]
	if strings.HasPrefix(unit, "week") {
		n, unit = 7*n, "day"
	}
	unit = map[byte]string{'m': "minute", 'h': "hour", 'd': "day"}[unit[0]]
	if n != 1 {
		unit += "s"
	}
	return strconv.Itoa(n) + " " + unit + " ago"
}

// numberWords are the words a count can begin with.
var numberWords = strings.Fields(`a an one two three four five six seven eight nine ten eleven twelve dozen half quarter couple few several third
	twenty thirty forty fifty some`)

// fillWords may stand between a count and its unit.
var fillWords = strings.Fields(`of a an and the half or to x × more another whole full heaped heaping level big small large little overflowing brimming rounded
	good decent about roughly nearly dozen couple few quarters thirds quarter hundred five ten gallon litre liter kg`)

// amountAt is the index after the unit when words[i:] begin with an amount,
// else 0.
func amountAt(words []string, i int, k vocabulary) int {
	if !isCount(words[i]) {
		return 0
	}
	if unit := strings.TrimLeft(words[i], "0123456789.,½¼¾"); unit != words[i] && isAmountUnit(unit, k) {
		return i + 1
	}
	for j := i + 1; j < len(words) && j < i+8; j++ {
		if isAmountUnit(words[j], k) {
			if j+1 < len(words) && isAmountUnit(words[j+1], k) {
				continue // "40 l bags"
			}
			return j + 1
		}
		if !slices.Contains(fillWords, words[j]) && !isCount(words[j]) {
			return 0
		}
	}
	return 0
}

func isCount(w string) bool {
	w, _, _ = strings.Cut(strings.TrimPrefix(w, "-"), "-") // "-3", "five-gallon"
	return slices.Contains(numberWords, w) || strings.IndexAny(w, "0123456789½¼¾⅓⅔") == 0
}

func isAmountUnit(w string, k vocabulary) bool {
	_, ok := k.Measures.Unit(w)
	return ok
}

// stopWords end a list of amounts.
var stopWords = strings.Fields(`what how which who when where why should can could do does is are was please need needs now but so then would will be been have has had were i we it ok okay enough alright ? ! . ; too today that
	from using if help work works suit suits match together balance offset turned landed put added thrown dumped tipped chucked helps here just arrived came went goes got because yet`)

// places may stand before a heap and end a list there.
var places = strings.Fields("to in on onto into for at with over under by behind near beside")

// items finds the first list of amounts in a text, as ParseItems reads it.
func items(text string, k vocabulary) (string, bool) {
	said, _, ok := nextItems(strings.Fields(text), 0, k)
	return said, ok
}

// allItems joins every list of amounts in a text.
func allItems(text string, k vocabulary) (string, bool) {
	words := strings.Fields(text)
	var lists []string
	for at := 0; at < len(words); {
		said, next, ok := nextItems(words, at, k)
		if !ok {
			break
		}
		lists = append(lists, said)
		at = next
	}
	return strings.Join(lists, " and "), len(lists) > 0
}

// nextItems finds a list of amounts in words[from:] and the index after it.
func nextItems(words []string, from int, k vocabulary) (said string, next int, ok bool) {
	for i := from; i < len(words); i++ {
		end := amountAt(words, i, k)
		if end == 0 {
			continue
		}
		stop := end
		for stop < len(words) && !endsItems(words, stop) {
			stop++
		}
		said := strings.ReplaceAll(glue(strings.Join(words[i:stop], " ")), " whole ", " ")
		for said != "" {
			if found, err := k.Measures.ParseItems(said); err == nil && len(found) > 0 && found[0].Material != "" {
				return said, stop, true
			} else if fault.Is(err, fault.OutOfRange) {
				return said, stop, true // the command says what would be accepted
			}
			cut := strings.LastIndexAny(said, ",;")
			if cut < 0 {
				break
			}
			said = strings.TrimSpace(said[:cut])
		}
	}
	return "", len(words), false
}

func endsItems(words []string, i int) bool {
	w := words[i]
	if slices.Contains(stopWords, w) || w == "#" {
		return true
	}
	if slices.Contains(places, w) {
		return i+1 >= len(words) || slices.Contains([]string{"#", "it", "there", "top", "the", "them", "this", "that"}, words[i+1]) || strings.Contains("?!.,;", words[i+1])
	}
	if i+1 >= len(words) {
		return false
	}
	if w == "a" && i+2 < len(words) && slices.Contains(judged, words[i+2]) {
		return true
	}
	return w == "and" && (slices.Contains(stopWords, words[i+1]) || slices.Contains(deeds, words[i+1]))
}

var (
	// deeds go on after a list with what was done: "and put them on".
	deeds = strings.Fields("turned watered covered mixed put tipped emptied added chucked threw")
	// judged are what a list is asked to be: "a good mix".
	judged = strings.Fields("mix blend balance ratio recipe combination start")
)

// materials lists the words of a text, split at commas, "and" and "or", that
// the table knows; false when one of them is not known.
func materials(text string, k vocabulary) (string, bool) {
	var known []string
	for _, part := range splitNames(glue(text)) {
		part = strings.TrimSpace(part)
		for _, article := range []string{"only ", "just ", "some ", "the ", "our ", "my "} {
			part = strings.TrimPrefix(part, article)
		}
		if part == "" {
			continue
		}
		if !isMaterial(part, k) {
			return "", false
		}
		known = append(known, part)
	}
	return strings.Join(known, ", "), len(known) > 0
}

// isMaterial reports whether the table knows the words, or knows that they
// could be one of a few things.
func isMaterial(words string, k vocabulary) bool {
	switch k.Table.Find(words).Outcome {
	case feedstock.Found, feedstock.Ambiguous:
		return true
	case feedstock.Guessed:
		return len(words) > 4
	}
	return false
}

func isRefused(words string, k vocabulary) bool {
	return k.Table.Find(words).Outcome == feedstock.Banned
}

// numberOf reads a small count in digits or words; 0 when it is neither.
func numberOf(word string) int {
	if n, ok := counts[word]; ok {
		return n
	}
	n, err := strconv.Atoi(word)
	if err != nil {
		return 0
	}
	return n
}
