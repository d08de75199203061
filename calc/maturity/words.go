package maturity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// verdicts are the words that a result may begin with, and whether the test
// passed by them. The longest that fits decides: "no" is a failure, "no smell" is
// not.
var verdicts = map[string]bool{
	"pass": true, "passed": true, "passes": true, "ok": true, "okay": true, "good": true, "yes": true, "fine": true,
	"earthy": true, "sweet": true, "all sprouted": true, "no smell": true, "no bad smell": true, "no odour": true, "no odor": true,
	"smells earthy": true, "smells of earth": true, "smells sweet": true, "smells fine": true, "smells good": true, "stayed cool": true,
	"smelled earthy": true, "smelled of earth": true, "smelt of earth": true,
	"crumbly": true, "dark and crumbly": true, "nothing to see": true, "cannot tell what went in": true, "can't tell what went in": true,
	"fail": false, "failed": false, "fails": false, "bad": false, "no": false, "none": false, "poor": false, "hot": false,
	"rotten": false, "sour": false, "stinks": false, "stank": false, "smells bad": false, "smells rotten": false, "smells sour": false,
	"smells of ammonia": false, "smells foul": false, "did not pass": false, "smelled bad": false, "smelled sour": false, "smelled of ammonia": false,
	"can still see": false, "can see": false, "still see": false, "can still tell": false, "can tell": false, "slimy": false, "matted": false,
}

// asides are the words that may stand before a verdict.
var asides = []string{"i ", "we ", "you ", "it ", "dark, ", "dark "}

// inWords reads whether a test passed from how its result begins, after a time
// such as "after 7 days,"; ok is false when it does not say. A bare "no" says so
// only when nothing but a pause follows: "no idea" does not.
func inWords(result string) (passed, ok bool) {
	said := strings.ToLower(strings.TrimSpace(result))
	if at := leadingDays.FindStringIndex(said); at != nil {
		said = said[at[1]:]
	}
	for {
		if passed, ok := verdictAt(said); ok {
			return passed, true
		}
		left := said
		for _, aside := range asides {
			left = strings.TrimPrefix(left, aside)
		}
		if left == said {
			return false, false
		}
		said = left
	}
}

func verdictAt(said string) (passed, ok bool) {
	longest := 0
	for words, means := range verdicts {
		rest, found := strings.CutPrefix(said, words)
		next, _ := utf8.DecodeRuneInString(rest)
		if !found || len(words) <= longest || unicode.IsLetter(next) || unicode.IsDigit(next) {
			continue
		}
		if words == "no" && strings.HasPrefix(rest, " ") {
			continue
		}
		passed, longest = means, len(words)
	}
	return passed, longest > 0
}
