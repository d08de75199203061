package maturity

import (
	"regexp"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

var (
	emergenceSaid = regexp.MustCompile(`\bemergence` + gap + number + ` ?%?(?: of (?:the )?control)?|` + number + ` ?% (?:of|against) (?:the )?control\b`)
	vigourSaid    = regexp.MustCompile(`\bvigou?r` + gap + number + ` ?%?(?: of (?:the )?control)?`)
	indexSaid     = regexp.MustCompile(`\b(?:gi|germination index|index)\b` + gap + number + ` ?%?`)

	partsSplit = regexp.MustCompile(`[;()]|[.,](?:\s|$)|\b(?:against|versus|vs|compared (?:to|with)|and|while|but)\b`)
	ofWater    = regexp.MustCompile(`\bcontrols?\b|\bwater\b|\bpotting (?:soil|mix)\b|\bplain soil\b|\bblank\b`)
	ofCompost  = regexp.MustCompile(`\bcompost\b|\bextract\b|\bsample\b`)

	outOf     = regexp.MustCompile(`\b(\d+) ?(?:of|out of|/) ?(?:the )?(\d+)\b`)
	allOf     = regexp.MustCompile(`\ball (?:of )?(?:the )?(\d+)\b`)
	sownSaid  = regexp.MustCompile(`\b(?:sowed|sown|planted) (\d+)\b|\b(\d+) (?:\w+ )?(?:were )?(?:sowed|sown|planted)\b`)
	grewSaid  = regexp.MustCompile(`\b(\d+|none) (?:\w+ )?(?:grew|grown|growing|thrived|survived|lived)\b`)
	cameUp    = regexp.MustCompile(`\b(\d+|none) (?:\w+ )?(?:sprouted|came up|come up|germinated|emerged|up)\b`)
	grewOn    = regexp.MustCompile(`\b(?:grew|grown|growing|thrived|survived)\b`)
	shareSaid = regexp.MustCompile(number + ` ?%`)
	rootSaid  = regexp.MustCompile(number + ` ?(mm|cm|inch(?:es)?)\b`)
	rootBare  = regexp.MustCompile(`\broots?\b` + gap + number)
)

// readSeeds reads what sprouted and grew, how long the roots are, and the same
// of the control: what is named so, and what follows that until the compost is
// named again.
func readSeeds(r *reader) {
	for _, f := range []struct {
		name string
		said *regexp.Regexp
	}{{emergence, emergenceSaid}, {vigour, vigourSaid}, {index, indexSaid}} {
		if g := r.take(f.said); g != nil {
			r.keep(f.name, decimal(firstOf(g[1:]...)), g[0])
		}
	}
	s := seeds{reader: r, assumed: map[string]bool{}}
	s.parts()
	s.check("")
	s.check(ofControl)
	s.compare()
}

func firstOf(words ...string) string {
	for _, w := range words {
		if w != "" {
			return w
		}
	}
	return ""
}

// part is a piece of a result. Named says that it names whom it speaks of.
type part struct {
	text, whose string
	named       bool
}

// seeds reads a result part by part. Whose is whom the last part spoke of,
// assumed are the numbers of parts that did not name the control they were taken
// for.
type seeds struct {
	*reader
	whose   string
	assumed map[string]bool
}

func (s *seeds) parts() {
	text, from := s.text, 0
	for _, at := range append(partsSplit.FindAllStringIndex(text, -1), []int{len(text), len(text)}) {
		p := part{text: text[from:at[0]], whose: s.whose}
		switch {
		case ofWater.MatchString(p.text):
			p.whose, p.named = ofControl, true
		case ofCompost.MatchString(p.text):
			p.whose, p.named = "", true
		}
		s.part(&p)
		s.whose = p.whose
		if text[at[0]:at[1]] == ")" {
			s.whose = "" // what stood in brackets is over
		}
		from = at[1]
	}
}

// part keeps the numbers of one part; the text is blotted out as it is read.
func (s *seeds) part(p *part) {
	find := func(at *regexp.Regexp) []string {
		g := at.FindStringSubmatch(p.text)
		if g != nil {
			p.text = strings.Replace(p.text, g[0], " ", 1)
			s.text = strings.Replace(s.text, g[0], ";", 1)
		}
		return g
	}
	if g := find(rootSaid); g != nil {
		s.set(p, root, decimal(g[1])*map[byte]float64{'m': 1, 'c': 10, 'i': 25.4}[g[2][0]], g[0])
	} else if g := find(rootBare); g != nil && s.err == nil {
		s.err = fault.New(fault.NotUnderstood, "Is “%s” in mm or cm? Write it like “roots 31 mm”.", s.typed(g[0]))
	}
	grew := grewOn.MatchString(p.text)
	up := sprouted
	if grew && !cameUp.MatchString(p.text) && s.has(p.whose+sprouted) {
		up = grown
	}
	switch {
	case s.count(p, find(outOf), up):
	case s.count(p, find(allOf), up):
	}
	for _, f := range []struct {
		name string
		said *regexp.Regexp
	}{{sown, sownSaid}, {grown, grewSaid}, {sprouted, cameUp}} {
		if g := find(f.said); g != nil {
			s.set(p, f.name, decimal(strings.Replace(firstOf(g[1:]...), "none", "0", 1)), g[0])
		}
	}
	if g := find(shareSaid); g != nil {
		s.set(p, sproutedShare, decimal(g[1]), g[0])
	}
	if n, ok := s.value(p.whose + sprouted); grew && ok && !s.has(p.whose+grown) {
		s.set(p, grown, n, p.text) // "15 of 20 sprouted and grew on"
	}
}

// count keeps "18 of 20" or "all 20"; false when that was not said.
func (s *seeds) count(p *part, g []string, up string) bool {
	if g == nil {
		return false
	}
	s.set(p, up, decimal(g[1]), g[0])
	of := decimal(g[len(g)-1])
	if n, ok := s.value(p.whose + sown); !ok {
		s.set(p, sown, of, g[0])
	} else if n != of && s.err == nil {
		s.err = fault.New(fault.Ambiguous, "Were %s sown or %s? Write it like “18 of 20 sprouted, 16 grew on”.", plain(n), plain(of))
	}
	return true
}

// set keeps a number of the compost or the control. What was only taken to be of
// the control goes to the compost when the control has that number already, or
// gets its own later: "control 19 of 20, roots 31 mm, control roots 34 mm".
func (s *seeds) set(p *part, name string, value float64, said string) {
	if s.err != nil {
		return
	}
	if p.whose == ofControl && !p.named && s.has(ofControl+name) && !s.has(name) {
		p.whose = ""
	}
	whole := p.whose + name
	if p.named && s.assumed[whole] && !s.has(name) {
		i := slices.IndexFunc(s.numbers, func(n heap.Number) bool { return n.Name == whole })
		s.numbers[i].Name = name
	}
	s.assumed[whole] = p.whose == ofControl && !p.named
	s.keep(whole, value, said)
}

func (r *reader) value(name string) (float64, bool) {
	for _, n := range r.numbers {
		if n.Name == name {
			return n.Value, true
		}
	}
	return 0, false
}

// check refuses counts that cannot be, of the compost or of the control.
func (s *seeds) check(whose string) {
	of, hasSown := s.value(whose + sown)
	up, hasUp := s.value(whose + sprouted)
	on, hasOn := s.value(whose + grown)
	switch {
	case s.err != nil:
	case hasSown && hasUp && up > of:
		s.err = fault.New(fault.OutOfRange, "%s of %s cannot have sprouted: at most all %s. Write it like “18 of 20 sprouted”.", plain(up), plain(of), plain(of))
	case hasUp && hasOn && on > up:
		s.err = fault.New(fault.OutOfRange, "%s cannot have grown on of %s that sprouted: at most all of them. Write it like “17 of 20 sprouted, 16 grew on”.", plain(on), plain(up))
	case hasSown && hasOn && on > of:
		s.err = fault.New(fault.OutOfRange, "%s of %s cannot have grown on: at most all %s. Write it like “17 of 20 sprouted, 16 grew on”.", plain(on), plain(of), plain(of))
	case (hasUp || hasOn) && !hasSown:
		s.uncounted(whose)
	}
}

// uncounted is what to do about a count of nobody knows how many seeds: where
// words tell how the test ended, the count stays in them.
func (s *seeds) uncounted(whose string) {
	if _, said := inWords(s.result); !said {
		s.err = fault.New(fault.Missing, "Of how many seeds? Write it like “18 of 20 sprouted”.")
	}
	s.numbers = slices.DeleteFunc(s.numbers, func(n heap.Number) bool { return n.Name == whose+sprouted || n.Name == whose+grown })
}

// compare refuses what cannot be compared with its control.
func (s *seeds) compare() {
	t := heap.Test{Numbers: s.numbers}
	compost, control := sowOf(t, "", measure.Measures{}), sowOf(t, ofControl, measure.Measures{}) // only the numbers
	gi := GerminationIndex(compost.share, control.share, compost.root, control.root)
	switch {
	case s.err != nil:
	case control.share == 0 || control.root == 0:
		s.err = fault.New(fault.OutOfRange, "In the control nothing sprouted, so the test says nothing of the compost. Do it again with seed that sprouts on plain water, and write both like “18 of 20 sprouted, control 19 of 20”.")
	case gi > quantities[index].high:
		s.err = fault.New(fault.OutOfRange, "A germination index of %.0f cannot be: up to %s is believed. Are the roots of both in the same unit? Write it like “roots 31 mm, control roots 34 mm”.", gi, plain(quantities[index].high))
	}
}
