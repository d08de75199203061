// Package scenario reads small stories about heaps, written so that a gardener
// can check them, for the tests of what the record calls for.
//
// A story begins with "## title". Then come lines of four sorts:
//
//	aim: fast                        an attribute: aim, container, size (litres), thermometer;
//	                                 place (degrees north), date (of the story, before any entry)
//	9 days ago: temp 58              an entry: add, temp (40 cm deep), unsaid (a temperature of no
//	                                 said depth), edge, skin (5 cm deep), air, feel, smell, turn,
//	                                 water, cover, height, rain, emptied, test with its name and
//	                                 result (days or hours ago, or today)
//	in 2 days: rain 12               weather to come: rain (mm), night (Celsius)
//	4 days ago: rained 22            weather that was, as a service told it
//	weather: 24                      the mean of all days, in Celsius
//	model: dry 0.7 30 litres         what the heap model finds; or airless 0.8
//	stock: leaves-dry 120 litres     what is on hand
//	=> turn, soon: it is falling     what is expected; the meaning is the test's own
//	# words                          a remark
//
// The heap starts with its first entry. "add leaves-dry 300 litres 27 kg" names
// a feedstock by its id. A story without a line about the weather knows of none;
// where one speaks of a day, the others are dry and mild.
package scenario

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

// Now is the moment at which a story is told that has no date of its own.
var Now = time.Date(2026, time.June, 15, 9, 0, 0, 0, time.UTC)

// Story is one heap and what is expected of it.
type Story struct {
	Title    string
	Measures measure.Measures
	State    heap.State
	Expect   []string
	Now      time.Time
	Located  bool
	Lat      float64
	Days     []Day  // nil when no weather is told
	Model    *Model // nil without one
	Stock    []heap.Stock

	heap    heap.Heap
	entries []heap.Entry
}

// Parse reads the stories of one file.
func Parse(text string) ([]Story, error) {
	var stories []Story
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if title, ok := strings.CutPrefix(line, "## "); ok {
			stories = append(stories, Story{Title: title, Now: Now})
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
		s.State = heap.Read(s.heap, s.entries, s.Now)
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
	fields := strings.Fields(rest)
	if days, ok := ahead(head); ok {
		return s.sky(days, fields)
	}
	at, ok := s.when(head)
	if ok && fields[0] == "rained" {
		return s.sky(int(at.Sub(s.Now)/(24*time.Hour)), append([]string{"rain"}, fields[1:]...))
	}
	if ok {
		return s.entry(at, fields)
	}
	return s.attribute(head, rest)
}

// when reads "today", "9 days ago" and "2 hours ago".
func (s *Story) when(words string) (time.Time, bool) {
	if words == "today" {
		return s.Now.Add(-2 * time.Hour), true
	}
	var n int
	var unit string
	if _, err := fmt.Sscanf(words, "%d %s ago", &n, &unit); err != nil {
		return time.Time{}, false
	}
	switch strings.TrimSuffix(unit, "s") {
	case "day":
		return s.Now.AddDate(0, 0, -n), true
	case "hour":
		return s.Now.Add(-time.Duration(n) * time.Hour), true
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
	case "place":
		lat, err := strconv.ParseFloat(value, 64)
		s.Located, s.Lat = true, lat
		return err
	case "date":
		date, err := time.Parse(time.DateOnly, value)
		s.Now = date.Add(9 * time.Hour)
		return err
	case "weather":
		return s.warm(value)
	case "model":
		return s.modelled(value)
	case "stock":
		return s.onHand(value)
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
	"unsaid": func(w words) heap.Payload { return heap.Temp{C: w.number(1)} },
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
		t, _, err := maturity.ReadTest(w.word(1), strings.Join(w.fields[min(2, len(w.fields)):], " "), measure.Measures{})
		if *w.err == nil {
			*w.err = err
		}
		return t
	},
	"emptied": func(words) heap.Payload { return heap.Moved{Share: 1} },
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
