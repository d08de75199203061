package commands

import (
	"regexp/syntax"
	"slices"
	"strings"
)

// Most alternatives that are worth a look before a pattern is run, and the
// fewest letters that tell anything. Own choice, by measurement.
const (
	mostNeeds    = 60
	leastLetters = 2
)

// needsOf are stretches of letters of which a text that matches must have at
// least one; none when nothing is certain. Looking for them is much quicker
// than running the pattern, and most patterns fit hardly any sentence.
func needsOf(p string) []string {
	re, err := syntax.Parse(p, syntax.Perl)
	if err != nil {
		return nil
	}
	needs := neededBy(re.Simplify())
	if len(needs) > mostNeeds {
		return nil
	}
	return needs
}

func neededBy(re *syntax.Regexp) []string {
	switch re.Op {
	case syntax.OpLiteral:
		if re.Flags&syntax.FoldCase == 0 && len(re.Rune) >= leastLetters {
			return []string{string(re.Rune)}
		}
	case syntax.OpCapture, syntax.OpPlus:
		return neededBy(re.Sub[0])
	case syntax.OpConcat:
		var best []string
		for _, sub := range re.Sub {
			if needs := neededBy(sub); sharper(needs, best) {
				best = needs
			}
		}
		return best
	case syntax.OpAlternate:
		var all []string
		for _, sub := range re.Sub {
			needs := neededBy(sub)
			if needs == nil {
				return nil
			}
			all = append(all, needs...)
		}
		return all
	}
	return nil
}

// sharper reports whether a rules out more texts than b: its shortest stretch
// is longer, or there are fewer of them.
func sharper(a, b []string) bool {
	switch {
	case len(a) == 0 || len(a) > mostNeeds:
		return false
	case len(b) == 0:
		return true
	}
	if x, y := shortest(a), shortest(b); x != y && (x < 3 || y < 3) {
		return x > y
	}
	return len(a) < len(b)
}

func shortest(words []string) int {
	return len(slices.MinFunc(words, func(a, b string) int { return len(a) - len(b) }))
}

func hasAny(text string, needs []string) bool {
	return slices.ContainsFunc(needs, func(n string) bool { return strings.Contains(text, n) })
}
