package maturity_test

import (
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

// written is a result of testdata/results.txt with what is expected of it.
type written struct {
	test, result string
	say          measure.Measures
	expect       []string
	refused      string
}

func results(t testing.TB) []written {
	t.Helper()
	text, err := os.ReadFile("testdata/results.txt")
	require.NoError(t, err)
	var all []written
	for line := range strings.Lines(string(text)) {
		mark, rest, _ := strings.Cut(strings.TrimRight(line, "\n"), " ")
		switch mark {
		case ">":
			test, result, ok := strings.Cut(rest, ":")
			require.True(t, ok, line)
			test, fahrenheit := strings.CutSuffix(test, " °F")
			all = append(all, written{test: test, result: strings.TrimSpace(result), say: measure.Measures{Fahrenheit: fahrenheit}})
		case "=":
			all[len(all)-1].expect = append(all[len(all)-1].expect, rest)
		case "!":
			all[len(all)-1].refused = rest
		}
	}
	require.NotEmpty(t, all)
	return all
}

func TestResults(t *testing.T) {
	for _, w := range results(t) {
		t.Run(w.test+": "+w.result, func(t *testing.T) {
			require.NotEqual(t, len(w.expect) == 0, w.refused == "", "a result is read or refused")
			test, unread, err := maturity.ReadTest(w.test, w.result, w.say)
			if w.refused != "" {
				f, ok := fault.As(err)
				require.True(t, ok, "%v", err)
				assert.Contains(t, f.Message, w.refused)
				assert.Zero(t, test, "nothing is half read")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, w.result, test.Result)
			found := maturity.Judge(stored(t, test), w.say)
			assert.Equal(t, found.Outcome == maturity.Finished, test.Passed)
			for _, line := range w.expect {
				expectResult(t, test, found, unread, line)
			}
		})
	}
}

// stored is a test as it comes back from the record.
func stored(t *testing.T, test heap.Test) heap.Test {
	t.Helper()
	text, err := heap.Encode(test)
	require.NoError(t, err)
	back, err := heap.Decode(heap.KindTest, text)
	require.NoError(t, err)
	return back.(heap.Test)
}

func expectResult(t *testing.T, test heap.Test, found maturity.Finding, unread []string, line string) {
	t.Helper()
	what, words, _ := strings.Cut(line, " ")
	switch what {
	case "finished", "fresh", "against", "silent":
		assert.Equal(t, what, string(found.Outcome))
	case "plants":
		assert.True(t, found.Plants)
	case "seedlings":
		assert.True(t, found.Plants && found.Seedlings)
	case "stable":
		assert.True(t, found.Stable)
	case "unfit":
		assert.Contains(t, found.Unfit, words)
	case "says":
		assert.Contains(t, strings.Join(found.Lines, "\n"), words)
	case "unread":
		assert.Equal(t, []string{words}, unread)
	default:
		at := strings.LastIndexByte(line, ' ')
		want, err := strconv.ParseFloat(line[at+1:], 64)
		require.NoError(t, err, line)
		assert.InDelta(t, want, number(t, test, found, line[:at]), 0.0005, line)
	}
}

// number is one that was computed or, if none was, read.
func number(t *testing.T, test heap.Test, found maturity.Finding, name string) float64 {
	t.Helper()
	for _, n := range append(found.Values, test.Numbers...) {
		if n.Name == name {
			return n.Value
		}
	}
	t.Errorf("no number %q among %v and %v", name, found.Values, test.Numbers)
	return 0
}

// TestVerdictInWords holds what a result without numbers says.
func TestVerdictInWords(t *testing.T) {
	for result, passed := range map[string]bool{
		"passed": true, "passed, sweet": true, "Failed: stinks": false, "no": false, "no, it stank": false, "no smell": true,
		"no smell, crumbly": true, "no bad smell at all": true, "smells earthy": true, "smells sour": false,
		"none sprouted": false, "all sprouted": true, "okay": true,
	} {
		got, _, err := maturity.ReadTest("bag", result, measure.Measures{})
		require.NoError(t, err, result)
		assert.Equal(t, passed, got.Passed, result)
	}
	for _, result := range []string{"North Bay", "no idea", "not sure", "passable", "nothing yet", "smells", "hotter than before", ""} {
		_, _, err := maturity.ReadTest("bag", result, measure.Measures{})
		assert.Error(t, err, result)
	}
}

// TestOldRowsReadAsBefore holds that a test from before numbers were kept says
// what was decided when it was logged.
func TestOldRowsReadAsBefore(t *testing.T) {
	for _, row := range []struct {
		text string
		want maturity.Outcome
	}{
		{`{"test":"radish","result":"passed, 3 of 20","passed":true}`, maturity.Finished},
		{`{"test":"jar","result":"earthy","passed":true}`, maturity.Finished},
		{`{"test":"self-heating","result":"no, it stayed at 30","passed":true}`, maturity.Finished},
		{`{"test":"lab","result":"failed","passed":false}`, maturity.Against},
	} {
		p, err := heap.Decode(heap.KindTest, []byte(row.text))
		require.NoError(t, err)
		assert.Equal(t, row.want, maturity.Judge(p.(heap.Test), measure.Measures{}).Outcome, row.text)
	}
}

func FuzzReadTest(f *testing.F) {
	for _, w := range results(f) {
		f.Add(w.test, w.result)
	}
	f.Add("germination", "٣ of ٤, control")
	f.Add("lab", "c:n 1e309, ph ½, co2 co2 co2 4")
	f.Fuzz(func(t *testing.T, name, result string) {
		for _, m := range []measure.Measures{{}, {Fahrenheit: true}} {
			test, _, err := maturity.ReadTest(name, result, m)
			if err != nil {
				if fl, ok := fault.As(err); !ok || fl.Message == "" {
					t.Fatalf("%v is not for people", err)
				}
				continue
			}
			if _, err := heap.Encode(test); err != nil {
				t.Fatalf("%q cannot be kept: %v", result, err)
			}
			found := maturity.Judge(test, m)
			said := strings.Join(found.Lines, " ") + found.Short + found.Unfit
			if strings.Contains(said, "NaN") || strings.Contains(said, "Inf") || strings.Contains(said, "%!") {
				t.Fatalf("%q says %q", result, said)
			}
			if _, err := json.Marshal(found.Values); err != nil {
				t.Fatalf("%q: %v", result, err)
			}
		}
	})
}
