package maturity

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// The names of the numbers of a test, as they are kept.
const (
	sown          = "sown"
	sprouted      = "sprouted"
	sproutedShare = "sprouted share"
	grown         = "grown"
	root          = "root"
	ofControl     = "control " // before a name: the same of the control
	emergence     = "emergence"
	vigour        = "vigour"
	index         = "germination index"
	rise          = "rise"
	room          = "room"
	class         = "class"
	carbonRatio   = "C:N"
	ammonium      = "NH4-N"
	nitrate       = "NO3-N"
	nitrogenRatio = "NH4:NO3"
	respiration   = "respiration"
	acidity       = "pH"
	organic       = "organic matter"
	moisture      = "moisture"
	salts         = "salts"
	sealedDays    = "days"
)

// quantity is what a number of a test can be. The bounds are own choice, wide
// enough for any compost and narrow enough to keep slips out, but for shares and
// the scale of pH, which can go no further.
type quantity struct {
	unit      string
	low, high float64
	called    string // "a pH"
	example   string
}

var quantities = map[string]quantity{
	sown:          {"1", 1, 1000, "a number of seeds sown", "18 of 20 sprouted"},
	sprouted:      {"1", 0, 1000, "a number of seeds", "18 of 20 sprouted"},
	grown:         {"1", 0, 1000, "a number of seedlings", "17 of 20 sprouted, 16 grew on"},
	sproutedShare: {"%", 0, 100, "a share of seeds", "90 % sprouted, control 95 %"},
	root:          {"mm", 0, 300, "a length of roots", "roots 31 mm"},
	emergence:     {"%", 0, 300, "an emergence in % of the control", "emergence 95 % of control"},
	vigour:        {"%", 0, 300, "a vigour in % of the control", "vigour 90 % of control"},
	index:         {"%", 0, 300, "a germination index", "GI 85"},
	rise:          {"K", -5, 70, "a rise in a flask", "20 to 28 °C in the flask"},
	room:          {"Cel", 0, 40, "the warmth of a room", "room 20 °C"},
	class:         {"1", 1, 5, "a class of the self-heating test", "class IV"},
	carbonRatio:   {"1", 3, 200, "a C:N of compost", "C:N 18"},
	ammonium:      {"mg/kg", 0, 50000, "an ammonium nitrogen", "NH4-N 60 ppm"},
	nitrate:       {"mg/kg", 0, 50000, "a nitrate nitrogen", "NO3-N 200 ppm"},
	nitrogenRatio: {"1", 0, 10000, "a ratio of ammonium to nitrate", "NH4:NO3 0.3"},
	acidity:       {"1", 2, 12, "a pH of compost", "pH 7.4"},
	organic:       {"%", 1, 100, "a share of organic matter", "organic matter 45 %"},
	moisture:      {"%", 0, 95, "a moisture", "moisture 48 %"},
	salts:         {"dS/m", 0, 100, "a conductivity", "salts 4 dS/m"},
	sealedDays:    {"d", 0.5, 60, "a time in a bag or jar", "passed after 7 days"},
}

// reader takes the numbers out of a result. What was read is blotted out of
// text, so that nothing is read twice.
type reader struct {
	say     measure.Measures
	result  string // as typed
	text    string
	numbers []heap.Number
	err     error
}

// formulas are written with low digits, so that these are no numbers.
var formulas = strings.NewReplacer("co2", "co₂", "o2", "o₂", "nh4", "nh₄", "no3", "no₃", "at4", "at₄", "nh3", "nh₃",
	"\u00a0", " ", "\u202f", " ", "–", "-", "−", "-", "⁻¹", "-1", "·", " ", "⋅", " ", "×", "x")

// digits undoes what formulas did to the digits.
var digits = strings.NewReplacer("₂", "2", "₃", "3", "₄", "4")

func newReader(result string, m measure.Measures) *reader {
	return &reader{say: m, result: result, text: formulas.Replace(strings.ToLower(result))}
}

// number is a decimal as people type it: 7.5, 7,5 or 1,250.
const number = `(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?)`

// gap is what stands between the name of a number and the number.
const gap = `(?:[^\d,;(-]|- ){0,20}?`

var (
	numberAlone = regexp.MustCompile(number)
	leadingDays = regexp.MustCompile(`^(?:after |for )?` + number + ` (?:days?|nights?|weeks?)\b[ ,:;-]*`)
	daysSaid    = regexp.MustCompile(number + ` ?(days?|nights?|weeks?)\b`)
)

// take finds a pattern in the text, blots it out and returns its groups; nil
// when it is not there.
func (r *reader) take(p *regexp.Regexp) []string {
	at := p.FindStringSubmatchIndex(r.text)
	if at == nil || r.err != nil {
		return nil
	}
	groups := make([]string, len(at)/2)
	for i := range groups {
		if at[2*i] >= 0 {
			groups[i] = r.text[at[2*i]:at[2*i+1]]
		}
	}
	r.text = r.text[:at[0]] + " ; " + r.text[at[1]:]
	return groups
}

// keep adds a number that was said so; one that cannot be is a fault, and so is
// a second one of the name.
func (r *reader) keep(name string, value float64, said string) {
	q := quantities[strings.TrimPrefix(name, ofControl)]
	r.hold(name, heap.Number{Name: name, Value: value, Unit: q.unit}, said, q)
}

func (r *reader) hold(name string, n heap.Number, said string, q quantity) {
	said = r.typed(said)
	switch {
	case r.err != nil:
	case !(n.Value >= q.low && n.Value <= q.high):
		r.err = fault.New(fault.OutOfRange, "“%s” cannot be %s: that lies between %s and %s%s. Write it like “%s”.", said, q.called, plain(q.low), plain(q.high), sayUnit(q.unit), q.example)
	case r.has(name):
		r.err = fault.New(fault.Ambiguous, "I read %s twice; which one is it? Write it once, like “%s”.", q.called, q.example)
	default:
		r.numbers = append(r.numbers, n)
	}
}

func (r *reader) has(name string) bool {
	return slices.ContainsFunc(r.numbers, func(n heap.Number) bool { return n.Name == name })
}

// typed is a piece of the text as it was typed.
func (r *reader) typed(said string) string {
	said = strings.TrimSpace(digits.Replace(said))
	lower := strings.ToLower(r.result)
	if i := strings.Index(lower, said); i >= 0 && len(lower) == len(r.result) {
		return r.result[i : i+len(said)]
	}
	return said
}

// unread are the numbers left over, with the words around them.
func (r *reader) unread() []string {
	var left []string
	for part := range strings.SplitSeq(r.text, ";") {
		for part := range strings.SplitSeq(part, ", ") {
			if part = strings.Trim(part, " .,:-()"); numberAlone.MatchString(part) {
				left = append(left, r.typed(part))
			}
		}
	}
	return left
}

// decimal is the value of what number matched.
func decimal(said string) float64 {
	if at := strings.IndexByte(said, ','); at >= 0 {
		if grouped := len(said)-at == 4 || strings.Count(said, ",") > 1 || strings.Contains(said, "."); grouped && said[0] != '0' {
			said = strings.ReplaceAll(said, ",", "")
		}
		said = strings.Replace(said, ",", ".", 1)
	}
	v, _ := strconv.ParseFloat(said, 64) // only said: the one error is overflow, and no bound lets that pass
	return v
}

// plain prints a number as it would be typed.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// short prints a number to three figures or to the whole.
func short(v float64) string {
	if v >= 100 {
		return fmt.Sprintf("%.0f", v)
	}
	return strconv.FormatFloat(v, 'g', 3, 64)
}

// unitWords are the units that a person would not read as they are kept.
var unitWords = map[string]string{"1": "", "K": " °C", "Cel": " °C", "d": " days", "mg/kg": " ppm"}

func sayUnit(unit string) string {
	if said, ok := unitWords[unit]; ok {
		return said
	}
	return " " + unit
}

// readDays keeps how long a bag or jar stood.
func readDays(r *reader) {
	g := r.take(daysSaid)
	if g == nil {
		return
	}
	days := decimal(g[1])
	if strings.HasPrefix(g[2], "week") {
		days *= 7
	}
	r.keep(sealedDays, days, g[0])
}
