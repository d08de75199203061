package trouble

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// Most findings and the shares that the words stand for. Own choice.
const (
	mostFindings = 3
	mostShare    = 0.5
	someShare    = 0.2
	leastShare   = 1.0 / 12
)

// A fact is named as evidence when it changes the weight of a cause by this
// much (own choice).
const tells = 1.25

// Diagnose ranks what is likely wrong with a heap that shows some symptoms, at
// least one, with evidence in the language of the case's measures. What stands on record weighs; what does not is asked for in Tell.
func Diagnose(c Case, shown ...Symptom) Diagnosis {
	known := map[string]fact{}
	l := inspect(c)
	for _, r := range facts {
		known[r.code] = r.find(l)
	}
	var all []Finding
	var sum float64
	for _, cause := range causes {
		f := weighed(cause, shown, known)
		if f.Share > 0 {
			all, sum = append(all, f), sum+f.Share
		}
	}
	slices.SortStableFunc(all, func(a, b Finding) int { return cmp.Compare(b.Share, a.Share) })
	d := Diagnosis{Symptoms: shown, Doubt: l.doubt(shown, known)}
	for i, f := range all {
		f.Share /= sum
		if i < mostFindings && (f.Share >= leastShare || i == 0) {
			f.Likely = likely(f.Share)
			d.Findings = append(d.Findings, f)
		}
	}
	if len(d.Findings) > 1 {
		d.Tell = c.Measures.Word(apart(d.Findings[0].Cause, d.Findings[1].Cause, known))
	}
	return d
}

// weighed is a cause with the facts that speak for and against it, its Share
// not yet divided by the sum of all. Of several symptoms the one that points at
// it most counts; of facts with one sentence, what they come to together.
func weighed(c Cause, shown []Symptom, known map[string]fact) Finding {
	f := Finding{Cause: c}
	for _, s := range shown {
		f.Share = max(f.Share, c.prior[s.Code])
	}
	said := map[string]float64{}
	var order []string
	for _, r := range facts {
		w, named := c.given[r.code]
		if !named {
			continue
		}
		by := factor(w, known[r.code].is)
		f.Share *= by
		if why := known[r.code].why; why != "" {
			if _, met := said[why]; !met {
				order = append(order, why)
			}
			said[why] += math.Log(by)
		}
	}
	for _, why := range order {
		switch {
		case said[why] >= math.Log(tells):
			f.For = append(f.For, why)
		case said[why] <= -math.Log(tells):
			f.Against = append(f.Against, why)
		}
	}
	return f
}

func factor(w weight, is known) float64 {
	switch is {
	case yes:
		return w.yes
	case no:
		return w.no
	}
	return 1
}

func likely(share float64) Likely {
	switch {
	case share > mostShare:
		return Most
	case share > someShare:
		return Possible
	}
	return Less
}

// apart is what would tell two causes apart: the question whose answer, not
// known yet, moves them furthest from each other.
func apart(a, b Cause, known map[string]fact) string {
	best, ask := math.Log(tells), ""
	for _, r := range facts {
		if known[r.code].is != unknown || r.ask == "" {
			continue
		}
		if by := math.Abs(logOdds(a, r.code) - logOdds(b, r.code)); by > best {
			best, ask = by, r.ask
		}
	}
	return ask
}

// logOdds is how far an answer moves a cause: the log of its two weights' ratio.
func logOdds(c Cause, code string) float64 {
	w, ok := c.given[code]
	if !ok {
		return 0
	}
	return math.Log(w.yes / w.no)
}

func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + strings.TrimSuffix(s[1:], ".")
}

// doubts are facts that a symptom does not agree with, and how to settle it.
var doubts = []struct {
	symptom, fact string
	is            known
	settle        string
}{
	{"cold", "warm", yes, "Read it again in the middle, at 40 cm."},
	{"hot", "too-hot", no, "Read it again in the middle, at 40 cm."},
	{"dry", "wet", yes, "Squeeze a handful from the middle again."},
	{"slimy", "dry", yes, "Squeeze a handful from the middle again: the outside may be wet and the middle dry."},
}

// doubt says what on record a symptom does not agree with.
func (l look) doubt(shown []Symptom, known map[string]fact) string {
	for _, d := range doubts {
		is := func(s Symptom) bool { return s.Code == d.symptom }
		if f := known[d.fact]; slices.ContainsFunc(shown, is) && f.is == d.is {
			return l.Measures.Say("But %s. %s", f.why, l.Measures.Word(d.settle))
		}
	}
	return ""
}
