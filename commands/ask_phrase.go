package commands

import (
	"regexp"
	"strings"
	"sync"
)

// phrase is a pattern of words, compiled when it is first used: a start of the
// program that asks nothing does not pay for the rules.
type phrase struct {
	compiled func() compiledPhrase
}

// pieces are what a pattern can name: "{it}" is whatever may stand for a heap,
// "{n}" a number, "{len}" a length, "{cover}" a cover and "{much}" an amount of
// water; "{us}" is whom we may remind, "{last}" an entry to take back after
// "{oops}", and "{away}" what keeps somebody off.
var pieces = strings.NewReplacer(
	"{us}", `(?:us|me|everyone|everybody|the group|the team|all of us|folks|people|you all)`,
	"{rota}", `(?:rota|roster|duty roster|duty list|list of turns|turns)`,
	"{away}", `(?:away|(?:on|in) (?:my |our |the )?(?:holidays?|vacation|hols|leave|annual leave|honeymoon|sick leave|a trip)|off (?:from|until|till|next|all|sick|work)|travelling|traveling|abroad|unavailable|`+
		`out of (?:town|the country|action|office)|gone (?:fishing|from|until|till|for|next)|in hospital|ill|sick|not (?:here|around|there|in town|in|available|free|about|home|coming|able to (?:come|make it|help|be there)))`,
	"{last}", `(?:(?:that |the |my |this )?(?:very )?(?:last|latest|previous|most recent)(?: (?:one|entry|thing|log|bit|message|line|reading|note|record|post))?|(?:that|this) (?:one|entry|log|reading|record)|my (?:entry|log|record)|what i (?:just )?(?:said|wrote|logged|typed|put|entered|sent|noted))`,
	"{oops}", `(?:(?:oops|whoops|oopsie|sorry|no|nope|nah|wait|argh|ugh|damn|darn|hang on|hold on|actually|blast|drat|silly me|my bad|dear me|doh|bother|typo|mistake|my mistake)(?: [,.!-])* )*`,
	"{care}", `(?:turn(?:s|ing|ed)?|water(?:ing|ed)?|(?:un)?cover(?:ing|ed)?|spin(?:ning)?|spun|stir(?:ring|red)?|mix(?:ing|ed)?|aerat(?:e|ing|ed)|fork(?:ing|ed)?|flip(?:ping|ped)?|feed(?:ing)?|fed|wet(?:ting)?|drink|soak(?:ing|ed)?|squeez(?:e|ing|ed)|hos(?:e|ing|ed))`,
	"{pest}", `\b(?:fl(?:y|ies)|maggots?|rats?|mouse|mice|ants?|moulds?|molds?|mouldy|moldy|mushrooms?|toadstools?|wasps?|gnats?|midges?|slugs?|larvae|vermin|rodents?|cockroach(?:es)?)`,
	"{harm}", `(?:bad|harm\w*|danger\w*|unhealthy|healthy|safe|risk\w*|toxic|poison\w*|a problem|problems|worry|worried|hurt|hazard\w*|ill|sick)\b`,
	"{it}", `(?:#|it|them|this|that|the lot|everything)`,
	"{amount}", `(?:(?:\d[\d.,/½¼¾]*|half an?|an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|a dozen|a couple of|a few|several) (?:[a-z-]+ ){0,2}?(?:buckets?|pails?|barrows?|barrowloads?|wheelbarrows?|sacks?|bags?|l|litres?|liters?|gallons?|cadd(?:y|ies)|tubs?|bales?|trugs?|crates?|box(?:es)?|loads?|trailers?|kg|kilos?|lbs?|pounds?)\b)`,
	"{n}", `-?\d+(?:[.,]\d+)?`,
	"{len}", `(?:\d+(?:[.,]\d+)? ?(?:cm|centimet(?:re|er)s?|mm|m|met(?:re|er)s?|ft|foot|feet|inch(?:es)?|ins?\b|"|')(?: ?\d+ ?(?:in|inch(?:es)?|"))?)`,
	"{cover}", `tarp|tarps|tarpaulin|lid|cover|carpet|sheet|sheeting|plastic|plastic sheet|cardboard|blanket|fleece|sacking|thatch|roof|board|boards`,
	"{much}", `((?:(?:half|a quarter of|three quarters of|about|some|another|a|an|one|two|three|four|five|six|seven|eight|ten|twelve|a couple of|couple of|\d+(?:[.,/-]\d+)?) )+(?:(?:full|big|small|watering) )*(?:l|litres?|liters?|gallons?|gal|buckets?|cans?|jugs?|pints?|quarts?)\b|\d+ ?(?:l|litres?|liters?|gal)\b)`,
)

func pattern(p string) phrase {
	return phrase{sync.OnceValue(func() compiledPhrase {
		whole := pieces.Replace(p)
		return compiledPhrase{regexp.MustCompile(whole), needsOf(whole)}
	})}
}

// compiledPhrase is a pattern, and what a text must have to match it.
type compiledPhrase struct {
	*regexp.Regexp
	needs []string
}

func (c compiledPhrase) mayMatch(s string) bool { return len(c.needs) == 0 || hasAny(s, c.needs) }

func (p phrase) MatchString(s string) bool {
	c := p.compiled()
	return c.mayMatch(s) && c.MatchString(s)
}

func (p phrase) FindStringIndex(s string) []int {
	if c := p.compiled(); c.mayMatch(s) {
		return c.FindStringIndex(s)
	}
	return nil
}

func (p phrase) FindStringSubmatch(s string) []string {
	if c := p.compiled(); c.mayMatch(s) {
		return c.FindStringSubmatch(s)
	}
	return nil
}

func (p phrase) FindStringSubmatchIndex(s string) []int {
	if c := p.compiled(); c.mayMatch(s) {
		return c.FindStringSubmatchIndex(s)
	}
	return nil
}

func (p phrase) ReplaceAllString(s, with string) string {
	if c := p.compiled(); c.mayMatch(s) {
		return c.ReplaceAllString(s, with)
	}
	return s
}

// first is the first group of the first pattern that matches, trimmed.
func first(text string, patterns ...phrase) string {
	for _, p := range patterns {
		if m := p.FindStringSubmatch(text); m != nil {
			for _, group := range m[1:] {
				if group != "" {
					return strings.Trim(group, " .,;:!?-")
				}
			}
		}
	}
	return ""
}
