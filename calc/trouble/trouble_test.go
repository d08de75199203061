package trouble

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
	"heapside/calc/process"
)

func stories(t testing.TB) []scenario.Story {
	t.Helper()
	text, err := os.ReadFile("testdata/stories.txt")
	require.NoError(t, err)
	all, err := scenario.Parse(string(text))
	require.NoError(t, err)
	return all
}

func caseOf(s scenario.Story) Case {
	return Case{State: s.State, Measures: s.Measures, Table: feedstock.Default()}
}

func symptom(t testing.TB, code string) Symptom {
	t.Helper()
	i := slices.IndexFunc(symptoms, func(s Symptom) bool { return s.Code == code })
	require.GreaterOrEqual(t, i, 0, "no symptom %s", code)
	return symptoms[i]
}

func TestStories(t *testing.T) {
	first := map[string]bool{}
	for _, story := range stories(t) {
		t.Run(story.Title, func(t *testing.T) {
			require.NotEmpty(t, story.Expect)
			for _, line := range story.Expect {
				code, rest, _ := strings.Cut(line, ": ")
				want, words, _ := strings.Cut(rest, ": ")
				d := Diagnose(caseOf(story), symptom(t, code))
				require.NotEmpty(t, d.Findings)
				f := d.Findings[0]
				first[f.Code] = true
				assert.Equal(t, want, f.Code+", "+string(f.Likely), "%s: %+v", code, brief(d))
				assert.Contains(t, strings.Join(f.For, "; "), words)
			}
		})
	}
	for _, c := range causes {
		if c.Code != "frost" { // it has a test of its own
			assert.True(t, first[c.Code], "no story ends in %s", c.Code)
		}
	}
}

func brief(d Diagnosis) []string {
	var out []string
	for _, f := range d.Findings {
		out = append(out, f.Code+" "+string(f.Likely)+" for: "+strings.Join(f.For, "; ")+" against: "+strings.Join(f.Against, "; "))
	}
	return out
}

func TestDoubt(t *testing.T) {
	for _, story := range stories(t) {
		switch story.Title {
		case "Wet and slimy, but it crumbles":
			assert.Equal(t, "But a handful crumbled when squeezed 1 day ago. Squeeze a handful from the middle again: the outside may be wet and the middle dry.",
				Diagnose(caseOf(story), symptom(t, "slimy")).Doubt)
		case "Steaming at 55 is what it should do":
			assert.Contains(t, Diagnose(caseOf(story), symptom(t, "cold")).Doubt, "55")
			assert.Empty(t, Diagnose(caseOf(story), symptom(t, "steaming")).Doubt)
		}
	}
}

func TestFrost(t *testing.T) {
	cold := -4.0
	c := Case{Table: feedstock.Default(), AirC: &cold}
	d := Diagnose(c, symptom(t, "cold"))
	assert.Equal(t, "frost", d.Findings[0].Code, brief(d))
	mild := 15.0
	c.AirC = &mild
	assert.NotEqual(t, "frost", Diagnose(c, symptom(t, "cold")).Findings[0].Code)
}

func TestTheModelSpeaksWhereNobodySqueezed(t *testing.T) {
	c := Case{Table: feedstock.Default(), Condition: &process.Condition{Dry: 0.9, Moisture: process.Band{Low: 0.3, Mid: 0.4, High: 0.5}}}
	d := Diagnose(c, symptom(t, "cold"))
	assert.Equal(t, "dry", d.Findings[0].Code, brief(d))
	assert.Contains(t, strings.Join(d.Findings[0].For, "; "), "9 in 10")
	c.Condition = &process.Condition{Dry: 0.01, Airless: 0.8, Moisture: process.Band{Low: 0.6, Mid: 0.7, High: 0.75}}
	assert.Equal(t, "wet", Diagnose(c, symptom(t, "rotten")).Findings[0].Code)
}

func TestAnUnreadHeapIsAskedAbout(t *testing.T) {
	d := Diagnose(Case{Table: feedstock.Default()}, symptom(t, "slimy"))
	assert.Contains(t, d.Tell, "Squeeze a handful", brief(d))
	d = Diagnose(Case{Table: feedstock.Default()}, symptom(t, "steaming"))
	assert.Equal(t, "Take the temperature in the middle.", d.Tell)
}

// TestDiagnosesAreSound: whatever is on record, shares are shares, causes come
// once in order, and every symptom has something to say.
func TestDiagnosesAreSound(t *testing.T) {
	all := append(stories(t), scenario.Story{})
	for _, story := range all {
		for _, s := range symptoms {
			d := Diagnose(caseOf(story), s)
			require.NotEmpty(t, d.Findings, "%s: %s", story.Title, s.Code)
			assert.LessOrEqual(t, len(d.Findings), mostFindings)
			sum, last, seen := 0.0, math.Inf(1), map[string]bool{}
			for _, f := range d.Findings {
				assert.False(t, seen[f.Code])
				assert.LessOrEqual(t, f.Share, last)
				assert.True(t, f.Share > 0 && f.Share <= 1)
				sum, last, seen[f.Code] = sum+f.Share, f.Share, true
			}
			assert.LessOrEqual(t, sum, 1+1e-9)
		}
	}
}

func TestTheTableIsWhole(t *testing.T) {
	codes, named := map[string]bool{}, map[string]bool{}
	for _, r := range facts {
		assert.False(t, codes[r.code], "two facts are called %s", r.code)
		codes[r.code] = true
	}
	known := map[string]bool{}
	for _, s := range symptoms {
		known[s.Code] = true
	}
	for _, c := range causes {
		assert.False(t, named[c.Code], "two causes are called %s", c.Code)
		named[c.Code] = true
		assert.NotEmpty(t, c.Source, c.Code)
		assert.NotEmpty(t, c.Remedy, c.Code)
		for code, w := range c.given {
			assert.True(t, codes[code], "%s weighs an unknown fact %s", c.Code, code)
			assert.True(t, w.yes > 0 && w.no > 0, "%s rules out by %s: nothing is certain", c.Code, code)
		}
		for code, p := range c.prior {
			assert.True(t, known[code], "%s names an unknown symptom %s", c.Code, code)
			assert.Positive(t, p)
		}
		for _, text := range append(slices.Clone(c.Remedy), c.Caution, c.Name) {
			assert.NotContains(t, strings.ToLower(text), "safe")
		}
	}
}

func TestFind(t *testing.T) {
	for text, want := range map[string]string{
		"ammonia":                              "ammonia",
		"it smells like a stable":              "ammonia",
		"North Bay stinks of rotten eggs":      "rotten",
		"it's not heating":                     "cold",
		"the heap isn’t getting warm":          "",
		"does not get hot":                     "cold",
		"stone cold":                           "cold",
		"way too hot and smoking":              "hot",
		"bone dry":                             "dry",
		"slimy and wet":                        "slimy",
		"there are flies all over":             "flies",
		"maggots!":                             "flies",
		"I saw a rat":                          "rats",
		"mice":                                 "rats",
		"ants nest":                            "ants",
		"white mould on top":                   "mould",
		"grey mold":                            "mould",
		"toadstools":                           "mushrooms",
		"weeds are sprouting":                  "weeds",
		"it shrunk and stopped":                "stuck",
		"steam coming off":                     "steaming",
		"cold and dry":                         "cold dry",
		"it is not dry but slimy":              "slimy",
		"it is smelly":                         "rotten",
		"smells like my aunt":                  "",
		"rotton":                               "rotten",
		"amonia":                               "ammonia",
		"wonderful":                            "",
		"":                                     "",
		"the party was great, plants are fine": "",
	} {
		var got []string
		for _, s := range Find(text) {
			got = append(got, s.Code)
		}
		assert.Equal(t, want, strings.Join(got, " "), text)
	}
}

func TestNamesAndCodesMeanThemselves(t *testing.T) {
	for _, s := range symptoms {
		for _, text := range []string{s.Code, s.Name, "It " + s.Name + "!"} {
			found := Find(text)
			if assert.Len(t, found, 1, text) {
				assert.Equal(t, s.Code, found[0].Code, text)
			}
		}
	}
}

func FuzzFind(f *testing.F) {
	for _, seed := range []string{"it smells of ammonia", "isn’t heating", "cold, dry & slimy\x00", "ölig", "not not not hot", strings.Repeat("wet ", 500)} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		seen := map[string]bool{}
		for _, s := range Find(text) {
			if seen[s.Code] {
				t.Fatalf("%s twice", s.Code)
			}
			seen[s.Code] = true
		}
	})
}

func BenchmarkDiagnose(b *testing.B) {
	story := stories(b)[0]
	entries := story.State.Entries
	for len(entries) < 2000 {
		e := entries[len(entries)-1]
		e.ID, e.At = heap.EntryID(len(entries)+1), e.At.Add(1)
		entries = append(entries, e)
	}
	c := caseOf(story)
	c.State = heap.Read(story.State.Heap, entries, scenario.Now)
	s := symptom(b, "rotten")
	b.ReportAllocs()
	for b.Loop() {
		Diagnose(c, s)
	}
}
