package commands

import (
	"context"
	"log/slog"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

var noon = time.Date(2026, 6, 14, 12, 0, 0, 0, time.UTC)

// TestEveryCommandNeedsARight: a command that is added without a row fails, and
// so does a row without a command.
func TestEveryCommandNeedsARight(t *testing.T) {
	a := New(nil, nil)
	assert.Equal(t, slices.Sorted(maps.Keys(a.byPath)), slices.Sorted(maps.Keys(needs)))
	for path, n := range needs {
		assert.NotZero(t, n.right, path)
		assert.Equal(t, n.right >= toSettle, n.does != "", "%s: what it does is said when it is refused", path)
		if n.shows != "" {
			assert.Contains(t, optionNames(a.byPath[path]), n.shows, path)
		}
	}
}

func optionNames(c Command) []string {
	names := make([]string, len(c.Options))
	for i, o := range c.Options {
		names[i] = o.Name
	}
	return names
}

// TestPermit holds who may do what, with and without appointed organisers.
func TestPermit(t *testing.T) {
	wren, odalys, tamsy := heap.Person{ID: "1", Name: "Wren"}, heap.Person{ID: "2", Name: "Odalys"}, heap.Person{ID: "3", Name: "Tamsy"}
	appointed := heap.Garden{Organisers: []heap.Person{wren}, ReadOnly: []heap.Person{tamsy}}
	early := heap.Garden{ReadOnly: []heap.Person{tamsy}}
	const reader, ruler = "may ask me anything", "Only an organiser can"
	for _, tc := range []struct {
		name     string
		garden   heap.Garden
		by       heap.Person
		platform bool      // says that the person is an organiser
		says     [5]string // for next, log temp, heap finish, duty kinds turning off, garden organiser; empty: permitted
	}{
		{"a member before anybody is appointed", early, odalys, false, [5]string{"", "", "", "", ruler}},
		{"a member", appointed, odalys, false, [5]string{"", "", ruler, ruler, ruler}},
		{"one who was appointed", appointed, wren, false, [5]string{}},
		{"one the platform names", appointed, odalys, true, [5]string{}},
		{"one the platform names, who was to read only", appointed, tamsy, true, [5]string{}},
		{"read-only", appointed, tamsy, false, [5]string{"", reader, reader, reader, reader}},
		{"read-only before anybody is appointed", early, tamsy, false, [5]string{"", reader, reader, reader, reader}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			d := &desk{garden: tc.garden, call: &Call{By: tc.by, Organiser: tc.platform}}
			for i, path := range []string{"next", "log temp", "heap finish", "duty kinds", "garden organiser"} {
				err := d.permit(path, map[string]string{"kind": "turning off"})
				if tc.says[i] == "" {
					require.NoError(t, err, path)
					continue
				}
				e, ok := fault.As(err)
				require.True(t, ok, path)
				assert.Equal(t, fault.NotAllowed, e.Code)
				assert.Contains(t, e.Message, tc.says[i], path)
				assert.Regexp(t, "please ask (Wren|whoever manages this channel)", e.Message)
			}
			assert.NoError(t, d.permit("duty kinds", nil), "it only shows")
			assert.Equal(t, tc.platform || tc.by == wren, d.permit("no such", nil) == nil, "a command without a row is an organiser's")
		})
	}
}

// settings is a store that has settings and nothing else: whatever reads or
// writes more panics.
type settings struct {
	Store
	garden heap.Garden
}

func (s settings) Garden(context.Context, heap.Place) (heap.Garden, error) { return s.garden, nil }

func (s settings) Materials(context.Context, heap.Place) ([]feedstock.Feedstock, error) {
	return nil, nil
}

// TestReadersWriteNothing: whoever may only read is refused by every command
// that writes, before it looks at anything, be it typed, picked or a button.
func TestReadersWriteNothing(t *testing.T) {
	tamsy := heap.Person{ID: "3", Name: "Tamsy"}
	a := New(settings{garden: heap.Garden{ReadOnly: []heap.Person{tamsy}}}, slog.New(slog.DiscardHandler))
	for path, n := range needs {
		if n.right == toAsk {
			continue
		}
		args := map[string]string{}
		for _, o := range a.byPath[path].Options {
			if args[o.Name] = "1"; o.Kind == Pick {
				args[o.Name] = o.Choices[0].Value
			}
		}
		r := a.Do(t.Context(), Call{Place: heap.Place{Guild: "millrace", Channel: "heaps"}, By: tamsy, Now: noon, Path: path, Args: args})
		require.NotNil(t, r.Err, path)
		assert.Equal(t, fault.NotAllowed, r.Err.Code, path)
		assert.True(t, r.Private, path)
	}
}
