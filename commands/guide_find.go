package commands

import (
	"slices"
	"strings"

	"heapside/calc/feedstock"
)

// fillGuide finds the page, refusal or material that a question is about.
func fillGuide(s sentence, k vocabulary) (map[string]string, bool) {
	if p, ok := pageAsked(s.text); ok {
		return map[string]string{"topic": p.topic}, true
	}
	if _, amounts := items(s.text, k); amounts {
		return nil, false // amounts are for mix
	}
	for _, p := range aboutMaterial {
		said := strings.TrimSpace(dropWords(" " + first(s.text, p)))
		if said == "" {
			continue
		}
		if isRefused(said, k) || isMaterial(said, k) {
			return map[string]string{"topic": said}, true
		}
	}
	p, ok := pageIn(s.text)
	if !ok && helpAsked.MatchString(s.text) {
		return map[string]string{}, true
	}
	return map[string]string{"topic": p.topic}, ok
}

var (
	aboutMaterial = []phrase{
		pattern(`\b(?:compost|put|add|throw|chuck|use|bring|include|tip|feed|pop|stick|burn)(?:t?ing)? (?:in |some |the |my |our |any |a |an |old |this |these )*([a-z][a-z' -]*?)(?: (?:to|into|in|on|onto|for|with|here|too|at) .*| out| #.*)?(?: ?[?.!,].*)?$`),
		pattern(`^(?:can|could|does|do|is|are|may|should) (?:some |the |my |our |any |a |an |old )*([a-z][a-z' -]*?) (?:go|be|ok|okay|alright|all right|a green|green|a brown|a problem|allowed|permitted|fine|welcome|compost|compostable|good|bad|harmful|dangerous|poisonous|safe|suitable|acceptable|useful|belong)\b`),
		pattern(`^(?:what|how) about (?:some |the |my |our |any |a |an |old )*([a-z][a-z' -]*?)(?: (?:in|on|into|onto|with) .*)?(?: ?[?.!,].*)?$`),
		pattern(`\bwhat (?:is|are) (?:wrong with|so bad about|the problem with|the matter with) (?:some |the |my |our |any |a |an )*([a-z][a-z' -]*)`),
		pattern(`\bwhy (?:not|no|can we not|can i not|can we not have|do we not take|is|are) (?:compost |put |add |use )?([a-z][a-z' -]*?)(?: (?:out|kept|banned|not|refused|in|on|bad).*)?(?: ?[?.!,].*)?$`),
	}
	helpAsked = pattern(`^(?:help|guide|manual|instructions|what can you do|what do you do|how does this work|how do you work|commands)\b`)
)

// topicKey folds what people vary when they name a topic.
func topicKey(said string) string {
	words := tokens(strings.ToLower(tidy(said)))
	words = slices.DeleteFunc(words, func(w string) bool { return strings.Contains(".,;!?", w) })
	key := strings.Join(words, " ")
	for _, start := range []string{"about ", "on ", "to ", "the ", "what is ", "what are ", "why not ", "why no ", "a ", "an "} {
		key = strings.TrimPrefix(key, start)
	}
	return key
}

// pageAsked is the page that answers a plain question.
func pageAsked(text string) (page, bool) {
	for i, p := range pages {
		if p.asks != "" && pageAsks[i].MatchString(text) {
			return p, true
		}
	}
	return page{}, false
}

var pageAsks = func() []phrase {
	out := make([]phrase, len(pages))
	for i, p := range pages {
		out[i] = pattern(p.asks)
	}
	return out
}()

// pageFor is the page with this topic or alias.
func pageFor(key string) (page, bool) {
	for _, p := range pages {
		if key == p.topic || slices.Contains(p.aliases, key) {
			return p, true
		}
	}
	return page{}, false
}

// pageIn is the page whose topic or alias is the longest stretch of words in
// the text; of equal ones the first.
func pageIn(text string) (page, bool) {
	best, longest := page{}, 0
	padded := " " + text + " "
	for _, p := range pages {
		for _, alias := range append([]string{p.topic}, p.aliases...) {
			if len(alias) > longest && strings.Contains(padded, " "+alias+" ") {
				best, longest = p, len(alias)
			}
		}
	}
	return best, longest > 0
}

// closestTopics lists n topics by how little typing would turn the word, or
// one of a page's aliases, into them.
func closestTopics(key string, n int) []string {
	type near struct {
		topic string
		away  int
	}
	var all []near
	key = clip(key, maxQuote)
	for _, p := range pages {
		away := feedstock.Distance(key, p.topic)
		for _, alias := range p.aliases {
			away = min(away, feedstock.Distance(key, alias))
		}
		all = append(all, near{p.topic, away})
	}
	slices.SortStableFunc(all, func(a, b near) int { return a.away - b.away })
	var out []string
	for _, a := range all[:min(n, len(all))] {
		out = append(out, a.topic)
	}
	return out
}
