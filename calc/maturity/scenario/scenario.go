// Package scenario reads small stories about heaps, written so that a gardener
// can check them, for the tests of what the record calls for.
//
// A story begins with "## title". Then come lines of four sorts:
//
//	aim: fast                        an attribute: aim, container, size (litres), thermometer
//	9 days ago: temp 58              an entry: add, temp (40 cm deep), edge, skin (5 cm deep),
//	                                 air, feel, smell, turn, water, cover, height, rain, test
//	                                 (days or hours ago, or today)
//	=> turn, soon: it is falling     what is expected; the meaning is the test's own
//	# words                          a remark
//
// The heap starts with its first entry. "add leaves-dry 300 litres 27 kg" names
// a feedstock by its id.
package scenario

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

// Now is the moment at which every story is told.
var Now = time.Date(2026, time.June, 15, 9, 0, 0, 0, time.UTC)

// Story is one heap and what is expected of it.
type Story struct {
	Title    string
	Measures measure.Measures
	State    heap.State
	Expect   []string

	heap    heap.Heap
	entries []heap.Entry
}

// Parse reads the stories of one file.
func Parse(text string) ([]Story, error) {
	var stories []Story
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if title, ok := strings.CutPrefix(line, "## "); ok {
			stories = append(stories, Story{Title: title})
			continue
		}
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if len(stories) == 0 {
			return nil, fmt.Errorf("line %d: %q stands before the first title", i+1, line)
		}
		if err := stories[len(stories)-1].read(line); err != nil {
			return nil, fmt.Errorf("line %d: %q: %w", i+1, line, err)
		}
	}
	for i := range stories {
		s := &stories[i]
		s.State = heap.Read(s.heap, s.entries, Now)
	}
	return stories, nil
}

func (s *Story) read(line string) error {
	if expected, ok := strings.CutPrefix(line, "=> "); ok {
		s.Expect = append(s.Expect, expected)
		return nil
	}
	head, rest, ok := strings.Cut(line, ": ")
	if !ok {
		return fmt.Errorf("no colon followed by a blank")
	}
	if at, ok := when(head); ok {
		return s.entry(at, strings.Fields(rest))
	}
	return s.attribute(head, rest)
}

// when reads "today", "9 days ago" and "2 hours ago".
func when(words string) (time.Time, bool) {
	if words == "today" {
		return Now.Add(-2 * time.Hour), true
	}
	var n int
	var unit string
	if _, err := fmt.Sscanf(words, "%d %s ago", &n, &unit); err != nil {
		return time.Time{}, false
	}
	switch strings.TrimSuffix(unit, "s") {
	case "day":
		return Now.AddDate(0, 0, -n), true
	case "hour":
		return Now.Add(-time.Duration(n) * time.Hour), true
	}
	return time.Time{}, false
}

func (s *Story) attribute(name, value string) error {
	switch name {
	case "aim":
		s.heap.Aim = heap.Aim(value)
	case "container":
		s.heap.Container = heap.Container(value)
	case "size":
		litres, err := strconv.ParseFloat(strings.TrimSuffix(value, " litres"), 64)
		s.heap.SizeL = litres
		return err
	case "thermometer":
		s.Measures.Fahrenheit = value == "Fahrenheit"
	default:
		return fmt.Errorf("no such attribute")
	}
	return nil
}

// forms are the entries of a story by their first word.
var forms = map[string]func(w words) heap.Payload{
	"add": func(w words) heap.Payload {
		return heap.Added{Material: w.word(1), Name: w.word(1), Said: w.word(1), VolumeL: w.number(2), MassKg: w.number(4)}
	},
	"temp":   func(w words) heap.Payload { return heap.Temp{C: w.number(1), DepthCm: 40} },
	"edge":   func(w words) heap.Payload { return heap.Temp{C: w.number(1), Spot: "edge"} },
	"skin":   func(w words) heap.Payload { return heap.Temp{C: w.number(1), DepthCm: 5} },
	"air":    func(w words) heap.Payload { return heap.Temp{C: w.number(1), Spot: "air"} },
	"feel":   func(w words) heap.Payload { return heap.Feel{Squeeze: heap.Squeeze(w.word(1))} },
	"smell":  func(w words) heap.Payload { return heap.Smell{Smell: w.word(1)} },
	"turn":   func(words) heap.Payload { return heap.Turned{} },
	"water":  func(w words) heap.Payload { return heap.Watered{Litres: w.number(1)} },
	"cover":  func(w words) heap.Payload { return heap.Covered{On: w.word(1) != "off", With: w.word(1)} },
	"height": func(w words) heap.Payload { return heap.Height{Cm: w.number(1)} },
	"rain":   func(w words) heap.Payload { return heap.Rain{Mm: w.number(1)} },
	"test": func(w words) heap.Payload {
		return heap.Test{Test: w.word(1), Result: w.word(2), Passed: w.word(2) == "passed"}
	},
}

func (s *Story) entry(at time.Time, fields []string) error {
	w := words{fields: fields, err: new(error)}
	form, ok := forms[w.word(0)]
	if !ok {
		return fmt.Errorf("no such entry")
	}
	payload := form(w)
	if s.heap.Started.IsZero() || at.Before(s.heap.Started) {
		s.heap.Started = at
	}
	s.entries = append(s.entries, heap.Entry{ID: heap.EntryID(len(s.entries) + 1), At: at, Logged: at, Payload: payload})
	return *w.err
}

// words are the words of an entry; the first that is missing or no number is
// kept in err.
type words struct {
	fields []string
	err    *error
}

func (w words) word(i int) string {
	if i < len(w.fields) {
		return w.fields[i]
	}
	*w.err = fmt.Errorf("word %d is missing", i+1)
	return ""
}

func (w words) number(i int) float64 {
	v, err := strconv.ParseFloat(w.word(i), 64)
	if err != nil && *w.err == nil {
		*w.err = err
	}
	return v
}
