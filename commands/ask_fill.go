package commands

import (
	"slices"
	"strings"

	"heapside/calc/measure"
	"heapside/calc/trouble"
)

var (
	fromStock = pattern(`\b(?:from|with|using|out of|use|only)(?: only| just)* (?:what(?:ever)?|the stuff|things|stuff|anything) (?:is |that )?(?:we|i|you|there)? ?(?:(?:already |still )?(?:have got|have|got|is here|is around|is there|is left|keep)|in stock|on hand|in (?:the |our )?(?:shed|store|barn))(?: in stock| here| in the shed| on hand| already| left)*|\bfrom (?:our |the )?(?:stock|store|stores|shed|supplies)\b|\bfrom stock\b`)
	fromThese = pattern(`\b(?:from|using|only with|with only|with just|out of|only from|only use|use only|i only have|we only have|only got) ([^?.!;]+)`)
	howMuchOf = pattern(`(?:^|[:;,.] )(?:how (?:much|many)|what (?:amount|quantity) of) (?:more )?((?:[a-z'-]+ ){0,2}?[a-z'-]+)(?: (?:do|does|should|would|can|could|must|for|to go|goes|go|is|are|i|we)\b| ?\?| ?$)`)
	countedIn = pattern(` with (\d|half|an?\b|one\b|two\b|three\b|four\b|five\b|six\b)`)
	ratioSaid = pattern(`(?:\b(?:to|and) (?:get|reach|hit) )?(?:\ban? )?\b(?:c ?[:/] ?n(?: of| ratio of| at)?|ratio of|aim(?:ing)? (?:for|at)|target(?:ing)?|at|to|around|about) (\d{2}(?:-\d{2})?)(?::1| to 1| to one)\b|(?:\b(?:to|and) (?:get|reach|hit) )?(?:\ban? )?\bc ?[:/] ?n (?:ratio )?(?:of |at |to )?(\d{2}(?:-\d{2})?)\b`)
	wetSaid   = pattern(`\b(\d{2}(?:-\d{2})?) ?(?:%|percent|per cent) (?:moisture|water|wet|damp)\b|\bmoisture (?:of |at |to )?(\d{2}(?:-\d{2})?)`)
)

// fillMix takes the amounts that arrived, where the additions may come from and
// the aim. Without an amount, a material alone will do: the command then asks
// how much there is.
func fillMix(s sentence, k vocabulary) (map[string]string, bool) {
	args := map[string]string{}
	text := s.text
	if fromStock.MatchString(text) {
		args["from"] = "stock"
		text = fromStock.ReplaceAllString(text, " ?")
	}
	for _, aim := range []struct {
		option string
		said   phrase
	}{{"cn", ratioSaid}, {"moisture", wetSaid}} {
		if said := first(text, aim.said); said != "" {
			args[aim.option] = said
			text = aim.said.ReplaceAllString(text, " ?")
		}
	}
	if m := howMuchOf.FindStringSubmatch(text); m != nil && args["from"] == "" {
		if from, ok := materials(m[1], k); ok {
			args["from"] = from
		}
	}
	if m := fromThese.FindStringSubmatchIndex(text); m != nil && args["from"] == "" {
		if from, ok := materials(text[m[2]:m[3]], k); ok {
			args["from"] = from
			text = text[:m[0]] + " ?" + text[m[1]:]
		}
	}
	what, ok := allItems(countedIn.ReplaceAllString(text, " and $1"), k)
	if !ok {
		what, ok = topicOf(text, k)
	}
	args["what"] = what
	return args, ok
}

var (
	beforeTopic = strings.Fields("with to for about of balance compost blend mix up much many")
	articles    = pattern(`^(?:(?:all|too|much|so|this|these|those|the|our|some|my) )*`)
)

// topicOf is the material that a question without amounts is about: what the
// last word that can lead to one leads to.
func topicOf(text string, k vocabulary) (string, bool) {
	words := strings.Fields(text)
	for i := len(words) - 2; i >= 0; i-- {
		if !slices.Contains(beforeTopic, words[i]) {
			continue
		}
		said, _, _ := strings.Cut(strings.Join(words[i+1:], " "), " ?")
		if what, ok := materials(dropWords(articles.ReplaceAllString(said, "")), k); ok {
			return what, true
		}
	}
	return "", false
}

var tailWords = pattern(` (?:what|how|should|do|can|is|are|in|on|at|from|and what|to the|to it|now|today|please|right|then|go|goes)\b.*$`)

func dropWords(text string) string { return tailWords.ReplaceAllString(text, "") }

var airSaid = pattern(`(?:\b(?:air|outside|outdoors|ambient)\b(?: temperature| temp)?(?: is| at| of| now| being| about)* ({n})|({n}) ?(?:°|degrees?|deg)?(?: ?[cf]\b)? (?:outside|outdoors|out|in the air|ambient|air))`)

// pests are words for what a heap may be hot enough against.
const pests = `(?:weeds?|seeds?|\w+weeds?|docks?|blight|club ?root|germs?|pathogens?|diseases?|eggs?|worms?|wilts?|virus|salmonella|nightshade|purslane|foxtail)`

var hotEnough = pattern(`\b(?:hot|warm) enough\b`)

// pestSaid is what it is to be hot enough against.
var pestSaid = []phrase{
	pattern(`\b(?:hot|warm) enough (?:for|against|(?:to|and) (?:kill|killed|cook|get rid of|deal with|finish off|destroy))(?: off)?(?: the| any| all| our| those| some| of)* ([a-z][^#?]*?)(?: (?:in|on|from|at) #.*)?[ ?.!]*$`),
	pattern(`\b(?:kill|kills|killed|destroy|destroys|destroyed|finish off|finished off|get rid of|got rid of)(?: off)?(?: the| any| all| our| those| some| of)* ([a-z][^#?]*?)(?: (?:in|on|from|at) #.*)?[ ?.!]*$`),
	pattern(`^\w+(?: the| any| all| our| those| some| of)* ([a-z][^#?]*?)(?: (?:in|on|from|at) #)? (?:survive|survived|alive|dead|killed|live on|live through|lived|die|died)\b`),
}

func fillReady(s sentence, _ vocabulary) (map[string]string, bool) {
	against := first(s.text, pestSaid...)
	if against == "" && hotEnough.MatchString(s.text) {
		against = heatRules
	}
	return map[string]string{"air": first(s.text, airSaid), "against": against}, true
}

// unheated are the ways to say that a heap stays cold.
var unheated = pattern(`\b(?:not|never|no longer|hardly|barely|refuses|fails|failing|unable|struggling|hard|trouble)\b[^.,;?]*?\b(?:heat|heats|heating|hot|warm|warms|warming|going)\b|\blost (?:all |most of |nearly all )*(?:its|the|of its) heat\b|\b(?:sits|sitting) there\b|\bdoing nothing\b`)

// fillTrouble takes what was noticed, in the words that trouble understands.
func fillTrouble(s sentence, _ vocabulary) (map[string]string, bool) {
	if s.apart && !s.question {
		return nil, false // tells of another heap, and asks nothing
	}
	var names []string
	text := unheated.ReplaceAllString(strings.ReplaceAll(s.text, "getting", "get"), "not hot")
	for _, shown := range trouble.Find(text) {
		names = append(names, shown.Name)
	}
	return map[string]string{"what": strings.Join(names, " and ")}, true
}

var (
	daysSaid = pattern(`\b(?:last|past|previous) (\d+|two|three|four|five|six|seven|ten) (day|week|month)s?\b`)
	spanSaid = []wording{
		{"1", pattern(`\btoday\b`)}, {"2", pattern(`\byesterday\b`)}, {"3", pattern(`\bover the weekend\b`)},
		{"7", pattern(`\b(?:this|last|past) week\b|\bthe weekend\b`)}, {"14", pattern(`\b(?:last|past) fortnight\b`)},
		{"31", pattern(`\b(?:this|last|past) month\b`)}, {"365", pattern(`\b(?:this|last|past) (?:year|season)\b`)},
	}
	csvSaid = pattern(`\b(?:csv|spreadsheet|download|export)\b`)
)

// changedKinds are the kinds of history by what somebody asks the changes of.
var (
	changedSaid  = pattern(`\b(?:changed?|changes|altered|adjusted|appointed|switched|reset)\b`)
	changedKinds = []wording{
		{"reminders", pattern(`\b(?:reminders?|reminded|rota|quiet hours|turns)\b`)},
		{"settings", pattern(`\b(?:settings?|bucket|barrow|sack|units?|time ?zone|zone|language|organisers?|organizers?|thermometer)\b`)},
		{"stock", pattern(`\bstocks?\b`)},
		{"changes", pattern(`\bchanges\b|\bchanged (?:what|something|anything|things)\b`)},
	}
)

func fillHistory(s sentence, _ vocabulary) (map[string]string, bool) {
	args := map[string]string{"days": daysIn(s)}
	if changedSaid.MatchString(s.text) && len(s.heaps) == 0 {
		args["kind"] = meant(s.text, changedKinds)
	}
	if csvSaid.MatchString(s.text) {
		args["csv"] = "yes"
	}
	return args, true
}

// daysIn is how many days back a question looks, or empty.
func daysIn(s sentence) string {
	if m := daysSaid.FindStringSubmatch(s.text); m != nil {
		days := map[string]int{"day": 1, "week": 7, "month": 31}[m[2]]
		return measure.Say(float64(days * numberOf(m[1])))
	}
	return meant(strings.ToLower(s.raw), spanSaid)
}

var entrySaid = pattern(`\b(?:entry|number|no|undo|#)(?: number| no| entry)? ?(\d{1,9}(?:-\d{1,9})?)\b`)

func fillUndo(s sentence, _ vocabulary) (map[string]string, bool) {
	return map[string]string{"entry": first(s.text, entrySaid)}, true
}

var (
	nameSaid   = pattern(`(?i)\b(?:called|named|call it|name it)[: ]+"?([^",.;!?]+)`)
	nameEnds   = pattern(`(?i) (?:in|on|with|for|as|by|from|today|yesterday|this morning|please|thanks|thx|ok|now|would you|will you)\b.*$`)
	containers = []wording{
		{"pallet bay", pattern(`\bpallets?\b`)}, {"tumbler", pattern(`\btumbler\b`)},
		{"plastic bin", pattern(`\bplastic\b`)}, {"open heap", pattern(`\bopen (?:heap|pile|#)`)},
	}
	aims = []wording{
		{"hygienic", pattern(`\bhygienic\b`)}, {"fast", pattern(`\b(?:fast|quick|hot)\b`)}, {"steady", pattern(`\b(?:steady|slow|cold)\b`)},
	}
)

// fillHeapStart keeps the name as it was written.
func fillHeapStart(s sentence, _ vocabulary) (map[string]string, bool) {
	m := nameSaid.FindStringSubmatch(s.raw)
	if m == nil {
		return nil, false
	}
	name := strings.TrimSpace(nameEnds.ReplaceAllString(m[1], ""))
	before, _, _ := strings.Cut(strings.ToLower(s.raw), "call")
	before += strings.TrimPrefix(strings.ToLower(s.raw), strings.ToLower(m[0]))
	rest := strings.Replace(before, strings.ToLower(name), "", 1)
	return map[string]string{"name": name, "container": meant(rest, containers), "aim": meant(rest, aims)}, name != ""
}

var yieldSaid = pattern(`(?:\b(?:got|gave|yield\w*|made|of|with|was|and|came to)|[,:;-])(?: us| about| around)* ((?:\d+(?:[.,]\d+)?|half a|a|one|two|three|four|five|six|seven|eight|nine|ten|twelve|a dozen|twenty) (?:\w+ ?){1,2})`)

func fillHeapFinish(s sentence, k vocabulary) (map[string]string, bool) {
	if len(s.heaps) != 1 {
		return nil, false
	}
	args := map[string]string{}
	if said := strings.TrimSuffix(first(s.text, yieldSaid), " of"); said != "" {
		for _, words := range []string{said, said[:max(0, strings.LastIndex(said, " "))]} {
			if _, err := k.Measures.ParseAmount(words); err == nil {
				args["yield"] = words
				break
			}
		}
	}
	return args, true
}

// fillWhole hands the sentence on as it is.
func fillWhole(option string) func(sentence, vocabulary) (map[string]string, bool) {
	return func(s sentence, _ vocabulary) (map[string]string, bool) {
		return map[string]string{option: glue(s.text)}, true
	}
}

var (
	ours         = pattern(`^(?:our|my|the|this|that) `)
	weighedFirst = pattern(`^i weighed (?:it )?(?:,|:)? ?`)
	weighedSo    = pattern(`^(?:i |we )?(?:have |just )*(?:weighed (?:it )?[,:]? ?|put |(?:the )?weight of )(?:our |the )?(.*?)(?: on the scales?)?(?: (?:,|:|-|and|it|that|is|was|came to|comes to|at|about|around|weigh(?:s|ed)|makes))+ ({n} ?[a-z]+)`)
)

func fillWeigh(s sentence, _ vocabulary) (map[string]string, bool) {
	if m := weighedSo.FindStringSubmatch(s.text); m != nil {
		return map[string]string{"what": m[1] + " weighs " + m[2]}, true
	}
	what := ours.ReplaceAllString(weighedFirst.ReplaceAllString(s.text, ""), "a ")
	return map[string]string{"what": glue(what)}, true
}

var (
	fahrenheit = pattern(`\bfahrenheit\b|\bdegrees f\b`)
	celsius    = pattern(`\bcelsius\b|\bdegrees c\b`)
	systems    = []wording{{"us", pattern(`\b(?:us|american)\b`)}, {"imperial", pattern(`\b(?:imperial|british)\b`)}, {"metric", pattern(`\bmetric\b`)}}
)

// fillUnits keeps the group's system where only the thermometer was named.
func fillUnits(s sentence, k vocabulary) (map[string]string, bool) {
	args := map[string]string{"system": meant(s.text, systems)}
	switch {
	case fahrenheit.MatchString(s.text):
		args["thermometer"] = "F"
	case celsius.MatchString(s.text):
		args["thermometer"] = "C"
	}
	if args["system"] == "" {
		args["system"] = string(k.Measures.System)
	}
	if args["system"] == "" {
		args["system"] = string(measure.Metric)
	}
	return args, true
}

var (
	allGone  = pattern(`^(?:the |our |all |all the |all our )?([a-z -]+?) (?:is|are) (?:now )?(?:all )?(?:gone|used up|finished)\b`)
	goneSaid = pattern(`(?:\b(?:out of|run out of|no more|(?:used(?: up)?|finished(?: off| up)?|that (?:was|is)) (?:all|the last|the rest)(?: of)?|used up|not have any|not got any|not any|have no|no))\b (?:the |our |any |more |of )*([^.,;!?]+)`)
	elseGone = pattern(` (?:to|in|on|for|of|at|by|that|which|we|i) `)
	goneTail = pattern(` (?:now|left|any ?more|any longer|remaining|again|at all|at the moment|in stock|in (?:the |our )?(?:shed|store|barn))$`)
)

func fillStock(s sentence, k vocabulary) (map[string]string, bool) {
	if strings.Contains(s.text, "#") {
		return nil, false // what a heap has is not in stock
	}
	if gone := first(s.text, goneSaid, allGone); gone != "" {
		for goneTail.MatchString(gone) {
			gone = goneTail.ReplaceAllString(gone, "")
		}
		words, ok := materials(gone, k)
		if !ok || strings.Contains(words, ",") || elseGone.MatchString(words) {
			return nil, false
		}
		return map[string]string{"what": "none of " + words}, true
	}
	what, ok := items(s.text, k)
	return map[string]string{"what": stored.ReplaceAllString(what, "")}, ok && !s.denied
}

// stored is where a list of amounts lies, when it was taken along.
var stored = pattern(` (?:left|spare|put by|stored|on hand|to hand|as (?:our )?stock|in (?:the |our )?(?:stock|shed|store|barn))(?: .*)?$`)
