package feedstock

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"heapside/calc/fault"
)

// check refuses numbers that no material has.
func (l Lab) check(name string) error {
	for _, c := range []struct {
		what, unit string
		value      float64
		within     bounds
	}{
		{"C:N", "", l.CN, bounds{1, cnBounds.High}},
		{"nitrogen", " % of dry mass", l.Nitrogen, bounds{0.02, 30}},
		{"carbon", " % of dry mass", l.Carbon, carbonBounds},
		{"ash", " % of dry mass", l.Ash, bounds{0.1, 98}},
		{"organic matter", " % of dry mass", l.Organic, bounds{2, 99.9}},
		{"moisture", " % of wet mass", l.Moisture, bounds{1, moistureBounds.High}},
		{"density", " kg/m3", l.Density, densityBounds},
		{"weight of a litre", " kg", l.KgPerLitre, bounds{densityBounds.Low / 1000, densityBounds.High / 1000}},
	} {
		if c.value != 0 && !c.within.holds(c.value) {
			return fault.New(fault.OutOfRange, "The %s of “%s” cannot be %g%s; give a number from %g to %g.",
				c.what, name, c.value, c.unit, c.within.Low, c.within.High)
		}
	}
	if l.CN == 0 && l.Nitrogen == 0 {
		return fault.New(fault.Missing, "To define “%s”, give its C:N or its nitrogen in %% of dry mass.", name)
	}
	return l.checkOrganic(name)
}

// checkOrganic refuses an ash and an organic matter that do not make 100 %, and
// more carbon than the organic matter can hold.
func (l Lab) checkOrganic(name string) error {
	if l.Ash > 0 && l.Organic > 0 && (l.Ash+l.Organic < 95 || l.Ash+l.Organic > 105) {
		return fault.New(fault.OutOfRange, "Ash %g %% and organic matter %g %% of “%s” should add up to 100; give one of them.",
			l.Ash, l.Organic, name)
	}
	organic := l.Organic
	if organic == 0 && l.Ash > 0 {
		organic = 100 - l.Ash
	}
	if organic > 0 && l.Carbon > organic {
		return fault.New(fault.OutOfRange, "Carbon %g %% of “%s” is more than its organic matter, %g %%; check the two.",
			l.Carbon, name, organic)
	}
	return nil
}

// checkName takes a name of letters, digits, blanks, hyphens and apostrophes.
func checkName(name string) (string, error) {
	if utf8.RuneCountInString(name) > maxNameRunes {
		return "", fault.New(fault.TooLong, "The name “%s…” is too long; use at most %d letters.", string([]rune(name)[:maxNameRunes]), maxNameRunes)
	}
	clean := strings.ToLower(strings.Join(strings.Fields(name), " "))
	for _, r := range clean {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" -'’", r) {
			return "", fault.New(fault.NotUnderstood, "“%s” cannot be a material's name; use letters, digits, blanks and hyphens.", name)
		}
	}
	if !strings.ContainsFunc(clean, unicode.IsLetter) || len(english.read(clean)) == 0 {
		return "", fault.New(fault.Missing, "“%s” is no name for a material; use a word or two, like “brewery sludge”.", name)
	}
	return clean, nil
}

// idOf joins the words of a name by hyphens.
func idOf(name string) string { return strings.Join(split(name), "-") }
