package measure

import (
	"fmt"
	"strings"
	"unicode"

	"heapside/calc/fault"
)

// maxText is how many characters one message may have.
const maxText = 5000

// folds are characters that people's keyboards put in place of plain ones.
var folds = map[rune]string{
	'‘': "'", '’': "'", '′': "'", '“': `"`, '”': `"`, '″': `"`,
	'‐': "-", '‑': "-", '‒': "-", '–': "-", '—': "-", '−': "-",
	'⁄': "/", '∕': "/", '×': " x ", '✕': " x ", '✖': " x ", 'º': "°", '℃': "°C", '℉': "°F", 'ℓ': "l", '≈': "~",
	'•': "*", '·': "*", '，': ",", '；': ";", '\u2028': "\n", '\u2029': "\n", '\r': "\n", '\n': "\n", '\v': "\n", '\f': "\n",
}

// digitZeros are the zeros of the decimal digits that phones in other
// languages type; they read as 0 to 9.
var digitZeros = []rune{'٠', '۰', '०', '০', '０'}

// clean drops what cannot be part of an amount or a name (control, bidi and
// other invisible characters, emoji), folds look-alikes and collapses spaces.
// Lines stay apart.
func clean(text string) string {
	var b strings.Builder
	space, line := false, true
	write := func(s string) {
		for _, r := range s {
			switch {
			case r == '\n':
				b.WriteByte('\n')
				space, line = false, true
			case r == ' ':
				space = true
			default:
				if space && !line {
					b.WriteByte(' ')
				}
				b.WriteRune(r)
				space, line = false, false
			}
		}
	}
	for _, r := range text {
		if s, ok := folds[r]; ok {
			write(s)
		} else if unicode.IsSpace(r) {
			write(" ")
		} else if !invisible(r) {
			write(string(foldDigit(r)))
		}
	}
	return b.String()
}

func foldDigit(r rune) rune {
	for _, zero := range digitZeros {
		if r >= zero && r <= zero+9 {
			return '0' + r - zero
		}
	}
	return r
}

func invisible(r rune) bool {
	if r == '°' || r == '^' || r == '`' {
		return false
	}
	return unicode.In(r, unicode.C, unicode.So, unicode.Sk, unicode.Me, unicode.Variation_Selector)
}

// oneLine is clean for texts that hold a single value, or why it cannot be read.
func oneLine(text string) (string, error) {
	if len([]rune(text)) > maxText {
		return "", tooLong()
	}
	return strings.TrimSpace(strings.ReplaceAll(clean(text), "\n", " ")), nil
}

func tooLong() error {
	return fault.New(fault.TooLong, "That is more text than can be read at once; keep it under %s characters and send the rest after.", Say(maxText))
}

// quote shows what was typed, shortened to what a phone shows in a line;
// “That” when nothing that can be shown was.
func quote(text string) fmt.Stringer {
	const keep = 40
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return fault.Say("That")
	}
	if runes := []rune(text); len(runes) > keep {
		text = strings.TrimSpace(string(runes[:keep-1])) + "…"
	}
	return fault.Quoted(text)
}
