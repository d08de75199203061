package discord_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
)

// The markdown meant here: discord-api-docs c98d64bc, reference.mdx (mention
// and time formats); emphasis, headings, lists and masked links from memory.
func TestEscape(t *testing.T) {
	for _, tc := range []struct{ name, in, want string }{
		{"plain words and numbers", "C:N 29, moisture 58 %, 12:30", "C:N 29, moisture 58 %, 12:30"},
		{"everyone", "@everyone", `\@everyone`},
		{"person", "<@500000000000000001>", `\<\@500000000000000001\>`},
		{"time", "<t:1700000000:R>", `\<t\:1700000000:R\>`},
		{"emphasis", "**very** _wet_ ~~dry~~", `\*\*very\*\* \_wet\_ \~\~dry\~\~`},
		{"spoiler", "||heap||", `\|\|heap\|\|`},
		{"code", "`x` ```y```", "\\`x\\` \\`\\`\\`y\\`\\`\\`"},
		{"masked link", "[here](https://example.invalid)", `\[here\]\(https\://example.invalid\)`},
		{"bare link", "https://example.invalid", `https\://example.invalid`},
		{"emoji code", "nice :tada: heap", `nice \:tada: heap`},
		{"heading", "# big\n## less\n-# small", "\\# big\n\\## less\n\\-# small"},
		{"number sign inside", "bay #2", "bay #2"},
		{"quote", "> said\n>>> all", "\\> said\n\\>\\>\\> all"},
		{"list", "- a\n  - b\n+ c\n* d", "\\- a\n  \\- b\n\\+ c\n\\* d"},
		{"minus inside", "25-35, -3 C", "25-35, -3 C"},
		{"numbered", "1. a\n 22. b\n3.5 kg", "1\\. a\n 22\\. b\n3\\.5 kg"},
		{"escape that would unescape", `\@everyone`, `\\\@everyone`},
		{"right-to-left override", "a\u202eb\u2066c\u200fd", "abcd"},
		{"zero width", "@\u200beveryone", `\@everyone`},
		{"control", "a\x00b\x1b[31mc\td\r\ne", "ab\\[31mc d \ne"},
		{"not UTF-8", "a\xffb", "ab"},
		{"emoji and accents stay", "Kräuter 🌱", "Kräuter 🌱"},
	} {
		t.Run(tc.name, func(t *testing.T) { assert.Equal(t, tc.want, discord.Escape(tc.in)) })
	}
}

func FuzzEscape(f *testing.F) {
	for _, s := range []string{
		"", "2 buckets of grass", "@everyone", "<@!5>", "[x](http://y)", "**b**", "\\", "\\\\@here", "# h", "1. x", ":a:b:",
		"\u202e\u2066", "a\xff", "> q", "```", "||s||", "\u2028# x", "  - x",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) { literal(t, discord.Escape(in)) })
}

// literal requires that text shows itself: valid, visible and without any
// active markup.
func literal(t *testing.T, text string) {
	t.Helper()
	require.True(t, utf8.ValidString(text))
	for _, line := range strings.Split(text, "\n") {
		rest := strings.TrimLeft(line, " ")
		require.False(t, strings.HasPrefix(rest, "#") || strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, "+"), "%q", line)
		digits := strings.TrimLeftFunc(rest, unicode.IsDigit)
		require.False(t, digits != rest && strings.HasPrefix(digits, "."), "%q", line)
	}
	escaped := false
	for i, r := range text {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
			require.Fail(t, "invisible", "%U in %q", r, text)
		}
		if escaped {
			if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsSpace(r) {
				require.Fail(t, "a lone backslash", "%q", text)
			}
			escaped = false
			continue
		}
		escaped = r == '\\'
		if strings.ContainsRune("`*_~|<>[]()@", r) || strings.HasPrefix(text[i:], "://") {
			require.Fail(t, "active markup", "%q in %q", r, text)
		}
	}
	require.False(t, escaped, "half an escape in %q", text)
	require.NotRegexp(t, emojiCode, anyEscape.ReplaceAllString(text, " "))
}

var (
	anyEscape = regexp.MustCompile(`\\.`)
	emojiCode = regexp.MustCompile(`:[A-Za-z0-9_+-]+:`)
)
