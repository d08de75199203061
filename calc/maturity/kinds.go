package maturity

import (
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Kind is a test of compost that the log knows.
type Kind struct {
	Name    string // "bag"
	How     string // what is done, in a few words
	Example string // a result as it may be written
}

// kind is a test with how its numbers are read and what they say. Tests without
// numbers of their own are told by words alone.
type kind struct {
	Kind
	read  func(*reader)
	judge func(heap.Test, measure.Measures) Finding
}

// kinds are the tests, the cheapest first.
var kinds = []kind{
	{Kind{"look", "what is still to be seen of what went in", "passed, dark and crumbly"}, readDays, nil},
	{Kind{"bag", "sealed in a bag for some days", "passed, smells of earth after 4 days"}, readDays, judgeSealed},
	{Kind{"jar", "soggy in a jar for a week", "passed, smells of earth after 7 days"}, readDays, judgeSealed},
	{Kind{"radish", "seed in pots of it", "17 of 20 sprouted, 16 grew on"}, readSeeds, judgePots},
	{Kind{"self-heating", "how much it warms in an insulated flask", "20 to 28 °C in the flask"}, readFlask, judgeFlask},
	{Kind{"germination", "cress or seed on an extract", "18 of 20 sprouted, roots 31 mm; control 19 of 20, roots 34 mm"}, readSeeds, judgeExtract},
	{Kind{"lab", "a laboratory sheet", "C:N 18, NH4-N 60 ppm, NO3-N 200 ppm, respiration 4.2 mg CO2-C/g OM/day, pH 7.4"}, readSheet, judgeSheet},
}

// Kinds are the tests that the log knows, the cheapest first.
func Kinds() []Kind {
	list := make([]Kind, len(kinds))
	for i, k := range kinds {
		list[i] = k.Kind
	}
	return list
}

func kindOf(name string) kind {
	for _, k := range kinds {
		if k.Name == strings.ToLower(name) {
			return k
		}
	}
	return kind{Kind: Kind{Name: name, Example: "passed, smells of earth"}}
}

// ReadTest makes the entry of a test from its result as people write it: a
// verdict in words ("passed, smells of earth"), numbers ("18 of 20 sprouted,
// control 19 of 20") or both. Bare temperatures are on the group's scale. Where
// a published limit settles it, the numbers say whether it passed, else the
// words. Errors are of type *fault.Error and say what would be accepted.
// Unread are the numbers that stay words only.
func ReadTest(name, result string, m measure.Measures) (t heap.Test, unread []string, err error) {
	k := kindOf(name)
	t = heap.Test{Test: name, Result: result}
	if k.read != nil {
		r := newReader(result, m)
		if k.read(r); r.err != nil {
			return heap.Test{}, nil, r.err
		}
		t.Numbers, unread = r.numbers, r.unread()
	}
	passed, said := inWords(result)
	f := judgeNumbers(t, m)
	if !said && f.Outcome == Silent && !f.whole {
		return heap.Test{}, nil, k.wanting(t, result)
	}
	t.Passed = passed && said
	if f.Outcome != Silent {
		t.Passed = f.Outcome == Finished
	}
	return t, unread, nil
}

// wanting says what a result lacks.
func (k kind) wanting(t heap.Test, result string) error {
	_, counted := t.Number(sprouted)
	_, percent := t.Number(sproutedShare)
	switch {
	case result == "":
		return fault.New(fault.Missing, "What did the %s show? Write it like “%s”, or begin with “passed” or “failed”.", fault.Say(k.Name+" test"), k.Example)
	case k.Name == "germination" && (counted || percent):
		return fault.New(fault.Missing, "How many sprouted on plain water, the control? Without it the count says little. Write it like “%s”, or begin with “passed” or “failed”.", k.Example)
	}
	return fault.New(fault.NotUnderstood, "Did the %s pass? Begin the result with “passed” or “failed”, or write it like “%s”.", fault.Say(k.Name+" test"), k.Example)
}
