package commands

import "strings"

var (
	ashAsked  = pattern(`\b(?:wood )?ash(?:es)?\b`)
	limeAsked = pattern(`\b(?:garden )?lime\b`)
	bedsAsked = pattern(`\b(\d{1,3}|two|three|four|five|six|seven|eight|nine|ten)(?: (?:raised|long|small|big|large|new|veg|vegetable|flower|herb))* beds\b`)
)

// fillSpread takes the area, the depth, the beds, the amount and the crop out of
// a question; without any of them, a heap or compost it is not one about spreading.
func fillSpread(s sentence, k vocabulary) (map[string]string, bool) {
	args := map[string]string{}
	text := s.text
	if said, rest, ok := k.Measures.AreaIn(text); ok {
		args["area"], text = glue(said), rest
	}
	if said, rest, ok := k.Measures.DepthIn(text); ok {
		args["depth"], text = glue(said), rest
	}
	if n := first(text, bedsAsked); n != "" {
		args["beds"] = n
		text = bedsAsked.ReplaceAllString(text, "")
	}
	words := strings.Fields(text)
	for i := range words {
		if end := amountAt(words, i, k); end > 0 {
			args["what"] = strings.Join(words[i:end], " ")
			break
		}
	}
	for _, w := range words {
		if crop, ok := cropWords[w]; ok {
			args["crop"] = crop
		}
	}
	switch {
	case ashAsked.MatchString(text):
		args["what"] = strings.TrimSpace("ash " + args["what"])
	case limeAsked.MatchString(text):
		args["what"] = strings.TrimSpace("lime " + args["what"])
	}
	return args, len(args) > 0 || len(s.heaps) == 1 || strings.Contains(text, "compost")
}
