package commands

import (
	"regexp"
	"strings"
	"sync"
)

// phrase is a pattern of words, compiled when it is first used: a start of the
// program that asks nothing does not pay for the rules.
type phrase struct {
	compiled func() *regexp.Regexp
}

// pieces are what a pattern can name: "{it}" is whatever may stand for a heap,
// "{n}" a number, "{len}" a length, "{cover}" a cover and "{much}" an amount of
// water.
var pieces = strings.NewReplacer(
	"{it}", `(?:#|it|them|this|that|the lot|everything)`,
	"{n}", `-?\d+(?:[.,]\d+)?`,
	"{len}", `(?:\d+(?:[.,]\d+)? ?(?:cm|centimet(?:re|er)s?|mm|m|met(?:re|er)s?|ft|foot|feet|inch(?:es)?|ins?\b|"|')(?: ?\d+ ?(?:in|inch(?:es)?|"))?)`,
	"{cover}", `tarp|tarps|tarpaulin|lid|cover|carpet|sheet|sheeting|plastic|plastic sheet|cardboard|blanket|fleece|sacking|thatch|roof|board|boards`,
	"{much}", `((?:(?:half|a quarter of|three quarters of|about|some|another|a|an|one|two|three|four|five|six|seven|eight|ten|twelve|a couple of|couple of|\d+(?:[.,/-]\d+)?) )+(?:(?:full|big|small|watering) )*(?:l|litres?|liters?|gallons?|gal|buckets?|cans?|jugs?|pints?|quarts?)\b|\d+ ?(?:l|litres?|liters?|gal)\b)`,
)

func pattern(p string) phrase {
	return phrase{sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pieces.Replace(p)) })}
}

func (p phrase) MatchString(s string) bool            { return p.compiled().MatchString(s) }
func (p phrase) FindStringIndex(s string) []int       { return p.compiled().FindStringIndex(s) }
func (p phrase) FindStringSubmatch(s string) []string { return p.compiled().FindStringSubmatch(s) }
func (p phrase) FindStringSubmatchIndex(s string) []int {
	return p.compiled().FindStringSubmatchIndex(s)
}
func (p phrase) ReplaceAllString(s, with string) string {
	return p.compiled().ReplaceAllString(s, with)
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
