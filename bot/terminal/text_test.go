package terminal

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

func TestClean(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain text stays", "North Bay: 58 °C — “hot” 🌱", "North Bay: 58 °C — “hot” 🌱"},
		{"escape sequence loses its escape", "a\x1b[31mred\x07", "a[31mred"},
		{"line ends and tabs are blanks", "two\nlines\tand a tab", "two lines and a tab"},
		{"carriage return goes", "over\rwrite", "overwrite"},
		{"marks that reorder go", "abc\u202Edcba\u2066x\u200F", "abcdcbax"},
		{"C1 control goes", "a\u009b31m", "a31m"},
		{"invalid bytes are marked", "a\xffb", "a\uFFFDb"},
		{"a joined emoji stays whole", "👩‍🌾", "👩‍🌾"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, Clean(tt.in))
		})
	}
}

func TestWrap(t *testing.T) {
	tests := []struct {
		name, in, indent string
		width            int
		want             []string
	}{
		{"fits", "short line", "", 20, []string{"short line"}},
		{"aligned columns that fit stay", "grass   2 l", "  ", 20, []string{"  grass   2 l"}},
		{"breaks at blanks and hangs", "one two three four", "", 9, []string{"one two", "  three", "  four"}},
		{"keeps the text's own indent", "    deep in one line", "", 12, []string{"    deep in", "      one", "      line"}},
		{"cuts a word longer than a line", "abcdefghij", "", 6, []string{"abcdef", "  ghij"}},
		{"wide runes count two columns", "堆肥堆肥堆肥", "", 8, []string{"堆肥堆肥", "  堆肥"}},
		{"curly quotes count one column", "“aaaa” “bbbb”", "", 13, []string{"“aaaa” “bbbb”"}},
		{"nothing is one empty line", "", "  ", 20, []string{""}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, wrap(tt.in, tt.indent, tt.width))
		})
	}
}

func FuzzWrap(f *testing.F) {
	for _, s := range []string{"Add about 3 buckets of dry leaves", strings.Repeat("x", 200), strings.Repeat(" ", 90) + "deep",
		"堆肥" + strings.Repeat("堆", 60), "a\u0301\u0301", "\x1b[2J", "👩‍🌾👩‍🌾👩‍🌾"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		text := Clean(s)
		lines := wrap(text, "  ", Width)
		var kept strings.Builder
		for _, l := range lines {
			assert.LessOrEqual(t, columns.StringWidth(l), Width, "%q", l)
			assert.True(t, utf8.ValidString(l))
			kept.WriteString(l)
		}
		assert.Equal(t, strings.Join(strings.FieldsFunc(text, unicode.IsSpace), ""),
			strings.Join(strings.FieldsFunc(kept.String(), unicode.IsSpace), ""), "every letter is kept")
	})
}
