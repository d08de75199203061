package commands

import (
	"slices"
	"strings"
)

// The fillers take a command's arguments out of a sentence; false when an
// argument it cannot do without is not there.

var (
	turner  = pattern(`^(\w+) (?:has |just )*(?:turned|gave)\b|\bby (\w+)(?: [.,!]|$)`)
	remark  = pattern(`(?:turned|turn|turning|stir) .*?[,;:.] (.+)`)
	nobodys = strings.Fields("i we have just it someone somebody they the and has was")
)

// fillTurn keeps who turned it, when it was another, and what is added after
// a comma.
func fillTurn(s sentence, _ vocabulary) (map[string]string, bool) {
	note := ""
	if who := first(s.text, turner); who != "" && !slices.Contains(nobodys, who) {
		note = "by " + capital(who)
	}
	if said := glue(first(s.text, remark)); said != "" {
		note = strings.TrimPrefix(note+", "+said, ", ")
	}
	return map[string]string{"note": note}, true
}

var (
	depthSaid = pattern(`(?:\b(?:at |down |to |about |around )*(?:a |the )?(?:depth|depth of|deep)(?: of)? (?:about )?({len})|\bat (?:about |around )?({len})(?: (?:deep|down|in|below|depth))?|\b({len}) (?:deep|down|below|depth|into|under)|, ({len})(?: [.!])*$)`)
	spotSaid  = pattern(`\b(middle|centre|center|core|edge|top|bottom|side|corner|outside|surface|air|ambient|outdoors|outdoor)\b`)
	heatSaid  = pattern(`({n} ?(?:°|degrees?|deg)?(?: ?(?:c|f|celsius|fahrenheit)\b)?)`)
	bigNumber = pattern(`\b((?:twenty|thirty|forty|fifty|sixty|seventy)(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?)(?: (?:degrees?|celsius|c)\b|$)`)
	change    = pattern(`{n} ?(?:°|degrees?|deg)?(?: ?[cf]\b)? (?:colder|warmer|hotter|cooler|more|less|above|below|up|down|higher|lower|difference|than)\b|\b(?:by|dropped|rose|fell|gained|lost|climbed) {n}|{n} ?(?:-|to|or) ?{n}|\bbetween {n} and {n}`)
	notHeat   = pattern(`^ ?(?:kg|kilos?|g|lbs?|l|litres?|liters?|days?|weeks?|months?|years?|hours?|minutes?|mm|cm|m|%|percent|buckets?|barrows?|sacks?|bags?|times?|people|of|cans?|x|pm|am|o'clock|:\d|bales?|inch\w*|ft|feet|foot|in\b ?(?:deep|high|of)|high|tall|volunteers?|steps?|entries|worms?|and|out of|mins?|/)`)
)

// spots are the words for a place in the heap, and how they are kept.
var spots = map[string]string{"centre": "middle", "center": "middle", "core": "middle", "outside": "air", "ambient": "air", "outdoors": "air", "outdoor": "air"}

// fillTemp reads one reading with its depth and spot. A difference ("5 degrees
// colder") and a span are no reading.
func fillTemp(s sentence, _ vocabulary) (map[string]string, bool) {
	text := s.text
	if change.MatchString(text) {
		return nil, false
	}
	args := map[string]string{}
	if m := depthSaid.FindStringSubmatchIndex(text); m != nil {
		args["depth"] = strings.ReplaceAll(first(text[m[0]:m[1]], depthSaid), "\"", " in")
		text = text[:m[0]] + " " + text[m[1]:]
	}
	if spot := first(text, spotSaid); spot != "" {
		args["spot"] = spot
		if plain, ok := spots[spot]; ok {
			args["spot"] = plain
		}
	}
	args["reading"] = readingIn(text)
	return args, args["reading"] != ""
}

// readingIn is the only number of a text that can be a temperature.
func readingIn(text string) string {
	found := ""
	for _, m := range heatSaid.compiled().FindAllStringIndex(text, -1) {
		if m[0] > 0 && text[m[0]-1] != ' ' || notHeat.MatchString(text[m[1]:]) || strings.HasPrefix(text[m[1]:], ":") {
			continue
		}
		if found != "" {
			return ""
		}
		found = strings.TrimSpace(text[m[0]:m[1]])
	}
	if found == "" {
		return digits(first(text, bigNumber))
	}
	return strings.TrimSpace(plainDegrees.ReplaceAllString(found, " $1"))
}

var (
	plainDegrees = pattern(` ?(?:°|degrees?|deg) ?(.*)$`)
	tens         = map[string]int{"twenty": 2, "thirty": 3, "forty": 4, "fifty": 5, "sixty": 6, "seventy": 7}
)

// digits writes "fifty eight" as 58.
func digits(words string) string {
	parts := strings.FieldsFunc(words, func(r rune) bool { return r == ' ' || r == '-' })
	if len(parts) == 0 {
		return ""
	}
	ones := 0
	if len(parts) > 1 {
		ones = counts[parts[1]]
	}
	return string(rune('0'+tens[parts[0]])) + string(rune('0'+ones))
}

// putBy is where material waits: it is on no heap yet.
var putBy = pattern(`\b(?:in|into|to|by|at|behind|near|beside) (?:the |our )?(?:stock|shed|store|barn|gate|fence|corner)\b`)

var (
	besideIt = pattern(`\b(?:next to|beside|near|behind|by|past|outside|in front of|under|opposite|off) #`)
	unsure   = pattern(`\b(?:left|remaining|next|over)$`) // "2 buckets of leaves left in #"
)

var onlyWater = pattern(`\bof (?:rain ?|pond ?|tap ?)?water\b`)

// joined are the ways to put two lists on at once.
var joined = strings.NewReplacer(" in with ", " and ", " along with ", " and ", " together with ", " and ")

func fillAdd(s sentence, k vocabulary) (map[string]string, bool) {
	words := strings.Fields(joined.Replace(s.text))
	what, next, ok := nextItems(words, 0, k)
	if _, _, more := nextItems(words, next, k); more {
		return nil, false // two lists: perhaps not both of them were put on
	}
	if besideIt.MatchString(s.text) || unsure.MatchString(what) {
		return nil, false
	}
	if !ok || onlyWater.MatchString(what) || len(s.heaps) == 0 && putBy.MatchString(s.text) {
		return nil, false
	}
	return map[string]string{"what": what}, true
}

var waterAmounts = []phrase{
	pattern(`{much} of (?:rain ?|pond ?|tap ?)?water\b`),
	pattern(`(?:watered|soaked|hosed|wetted|sprinkled)\b.*\bwith (?:about )?{much}`),
	pattern(`\b(?:gave|given|got|had) {it} (?:about )?{much}`),
	pattern(`\b(?:watered|soaked|hosed|wetted|sprinkled)\b.*[,:] {much}`),
	pattern(`\bwater\w*\b.*\b{much}(?: [.!]|$)`),
	pattern(`^{much}\b.*\bwater`),
}

func fillWater(s sentence, k vocabulary) (map[string]string, bool) {
	if what, ok := allItems(s.text, k); ok && otherThanWater(what) {
		return nil, false // material went on as well
	}
	amount := first(s.text, waterAmounts...)
	amount = strings.TrimPrefix(strings.TrimPrefix(amount, "about "), "another ")
	if strings.HasPrefix(amount, "some ") {
		amount = ""
	}
	return map[string]string{"amount": amount}, true
}

var waterItem = pattern(`^.*\b(?:of )?(?:rain|pond|tap)? ?water$`)

func otherThanWater(what string) bool {
	return slices.ContainsFunc(splitNames(what), func(part string) bool { return !waterItem.MatchString(strings.TrimSpace(part)) })
}

var (
	coverOff  = pattern(`\b(?:{cover}) (?:on # |of # |over # )?(?:has |had |is |was |have )?(?:just )?(?:come|came|fallen|fell|flown|slipped|slid|blown|gone|been) (?:taken |blown |pulled |right )?off\b|\bopened (?:up )?(?:the |its )?(?:{cover})\b|\bleft {it} (?:uncovered\b|open(?: [.,!]|$))|\b(?:{cover}) (?:of # |on # )?(?:is |was )?(?:open|opened|up)(?: [.!]|$)|\b(?:uncovered|took|taken|pulled|lifted|removed|folded|blew|blown)\b|\b(?:{cover}) (?:is |was |has gone |went |goes |came |blew )?off\b|\bcover off\b`)
	coverOn   = pattern(`\b(?:pulled|got) .*\b(?:on|over)\b`)
	coverWith = []phrase{
		pattern(`\bcovered\b.* with (?:a |an |the |some |our |its )?([^.,;!?]+?)(?: now| again| today)*(?: [.,;!?]|$)`),
		pattern(`\b({cover})\b`),
	}
)

func fillCover(s sentence, _ vocabulary) (map[string]string, bool) {
	if coverOff.MatchString(s.text) && !coverOn.MatchString(s.text) {
		return map[string]string{"with": "off"}, true
	}
	return map[string]string{"with": glue(first(s.text, coverWith...))}, true
}

var heightSaid = pattern(`({len})`)

func fillHeight(s sentence, _ vocabulary) (map[string]string, bool) {
	height := strings.ReplaceAll(first(s.text, heightSaid), "\"", " in")
	return map[string]string{"height": height}, height != ""
}

var (
	rainSaid    = pattern(`({n} ?(?:mm|millimet(?:re|er)s?|mils?|inch(?:es)?|in|"))`)
	millimetres = pattern(`millimet(?:re|er)s?|mils?`)
	inches      = pattern(`inch(?:es)?|"`)
)

func fillRain(s sentence, _ vocabulary) (map[string]string, bool) {
	rain := inches.ReplaceAllString(millimetres.ReplaceAllString(first(s.text, rainSaid), "mm"), "in")
	return map[string]string{"rain": rain}, rain != ""
}

// wording is a value and the words that mean it.
type wording struct {
	value   string
	pattern phrase
}

// squeezes are read in this order: the first that fits is meant.
var squeezes = []wording{
	{"crumbles", pattern(`crumbl\w*|f[ae]lls? apart|(?:does|will|did|would|do) not (?:hold|stick|stay|clump)|no ball|too dry to|dust dry|like dust`)},
	{"runs", pattern(`\bruns?\b|\bran out\b|running out|pour(?:s|ed|ing)? out|gush\w*|stream\w*|sopping|soaking`)},
	{"holds", pattern(`no (?:drops?|water|drips?)|(?:does|did) not drip|not a (?:single )?drop|\b(?:holds?|held|sticks|stuck|stays|stayed) (?:together|its shape|shape|in)|\bholds\b|\bclump\w*|\ba (?:firm |nice |good )?ball\b`)},
	{"drips", pattern(`drip(?:s|ped|ping)?\b|(?:four|five|six|seven|[4-9]|many|lots of|loads of) drops`)},
	{"drops", pattern(`\bdrops?\b`)},
}

var smells = []wording{
	{"none", pattern(`\bno (?:smell|odou?r)|not smell|smells? of nothing|odou?rless|not smelly|smell of nothing|nothing`)},
	{"ammonia", pattern(`ammonia|\bpee\b|\bwee\b|urine|stable|hair dye|sharp`)},
	{"sour", pattern(`sour|vinegar\w*|chees\w+|rancid|acid\w*|\bsick\b|vomit|silage`)},
	{"rotten", pattern(`rot(?:ten|ting|s)?\b|bad eggs?|\beggy\b|sulphur\w*|sulfur\w*|putrid|sewage|drains?|rubbish|dead|bins?\b|septic`)},
	{"earthy", pattern(`earth\w*|woodland|wood floor|forest\w*|\bwoods?\b|\bsoil\b|mushroom\w*|sweet`)},
}

// meant is the value of the first wording that fits.
func meant(text string, wordings []wording) string {
	for _, w := range wordings {
		if w.pattern.MatchString(text) {
			return w.value
		}
	}
	return ""
}

func fillFeel(s sentence, _ vocabulary) (map[string]string, bool) {
	squeeze := meant(s.text, squeezes)
	return map[string]string{"squeeze": squeeze}, squeeze != ""
}

// elsewhere is what smells and is no heap.
var elsewhere = pattern(`\b(?:my|his|her|your|i|we|you|he|she|they|shed|hands?|kitchen|house|gloves|clothes|caddy|neighbou?rs?)(?: \w+)? (?:smells?|stinks?|reeks|whiffs|smelt|smelled|stank)\b`)

func fillSmell(s sentence, _ vocabulary) (map[string]string, bool) {
	smell := meant(s.text, smells)
	return map[string]string{"smell": smell}, smell != "" && !elsewhere.MatchString(s.text)
}

var (
	testNames = []wording{
		{"bag", pattern(`\bbag\b`)}, {"jar", pattern(`\bjar\b`)}, {"radish", pattern(`\bradish\w*`)},
		{"self-heating", pattern(`\bself[- ]heating\b`)}, {"germination", pattern(`\bgermination\b|\bcress\b`)}, {"lab", pattern(`\blab\w*`)},
	}
	testFailed  = pattern(`\bfail(?:ed|s|ure)?\b|\bdid not pass\b|\bnot passed\b|\bbad\b|\bstank\b|\bsmelly\b|\bnone sprouted\b|\bnothing (?:sprouted|germinated|came up)\b|\bstinks?\b`)
	testPassed  = pattern(`\bpass(?:ed|es)?\b|\bok(?:ay)?\b|\bgood\b|\bfine\b|\bearthy\b|\ball (?:sprouted|came up|germinated)\b|\bpositive\b|\bclear\b`)
	testFigures = pattern(`(?i)\btests?\b[^:,]*[:,] *(.*\d.*)`)
	testRemarks = pattern(`\b(?:passed|failed|fine|ok|okay|good|bad)\b ?[,;:-] (.+)`)
)

func fillTest(s sentence, _ vocabulary) (map[string]string, bool) {
	result := ""
	switch {
	case testFailed.MatchString(s.text):
		result = "failed"
	case testPassed.MatchString(s.text):
		result = "passed"
	default:
		figures := first(s.raw, testFigures)
		return map[string]string{"test": meant(s.text, testNames), "result": figures}, figures != ""
	}
	if said := glue(first(s.text, testRemarks)); said != "" {
		result += ", " + said
	}
	return map[string]string{"test": meant(s.text, testNames), "result": result}, true
}

var noteSaid = pattern(`(?i)^(?:.*?\b(?:note to self|remember that|notes? (?:to|for) (?:all|everyone|everybody|later|next time|the (?:group|team|log|record))|let it be noted|be it noted|noting|memo|nb|make a note|take a note|a note|notes?|for the (?:record|log|notes)|log|record|write down|jot down|put down|save)\b)(?: please)?(?: that| this| of| about| down| saying)*(?: ?[:,-])?(?: that)? ?(.+)$`)

// noRemark is what follows "note" where nothing is to be kept: "note how slowly
// it cools", "note the rules".
var noRemark = pattern(`^(?:how|what|why|who|when|where|which|if|whether)\b|^(?:the |our |this |these |my )?\S+$`)

// fillNote keeps the words as they were written.
func fillNote(s sentence, _ vocabulary) (map[string]string, bool) {
	m := noteSaid.FindStringSubmatch(s.raw)
	if m == nil {
		return nil, false
	}
	text := strings.Trim(m[1], " .:,;-\"")
	told := strings.TrimSuffix(s.raw[:len(s.raw)-len(m[1])], " ")
	plain := !strings.HasSuffix(told, ":") && !strings.HasSuffix(told, "that") && !s.directed
	return map[string]string{"text": text}, text != "" && !(plain && noRemark.MatchString(strings.ToLower(text)))
}

var shareSaid = pattern(`\b(half|all|everything|a third|two thirds|a quarter|three quarters|most|\d+ ?%)(?: of)?(?: |$)`)

func fillMove(s sentence, _ vocabulary) (map[string]string, bool) {
	if len(s.heaps) != 2 {
		return nil, false
	}
	return map[string]string{"heap": s.heaps[0], "to": s.heaps[1], "share": first(s.text, shareSaid)}, true
}
