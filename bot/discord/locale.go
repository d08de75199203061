package discord

import (
	"github.com/bwmarrin/discordgo"

	"heapside/commands/speech"
)

// locales are the platform's names of languages, by ours. Source:
// discord-api-docs c98d64bc, reference.mdx, "Locales".
var locales = map[string][]discordgo.Locale{
	"en-GB": {discordgo.EnglishGB},
	"en-US": {discordgo.EnglishUS},
	"de":    {discordgo.German},
	"fr":    {discordgo.French},
	"es":    {discordgo.SpanishES, discordgo.SpanishLATAM},
	"nl":    {discordgo.Dutch},
}

// localised is a text in every language of the platform that is spoken here.
// Both kinds of English are always there: a client that misses its own may pick
// the other.
func localised(text string) map[discordgo.Locale]string {
	out := map[discordgo.Locale]string{discordgo.EnglishUS: text}
	for code, said := range speech.Translations(text) {
		for _, locale := range locales[code] {
			out[locale] = said
		}
	}
	return out
}

// longest is the length of a text in the language that it is longest in.
func longest(text string, in map[discordgo.Locale]string) int {
	n := units(text)
	for _, said := range in {
		n = max(n, units(said))
	}
	return n
}
