package commands_test

import (
	"context"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/commands"
)

// FuzzVisit: whatever is written into the fields of a visit, all of it is on
// record as one thing that can be undone, or nothing is and a sentence says so.
func FuzzVisit(f *testing.F) {
	f.Add("58 at 40 cm", "drops", "yes, steaming", "2 cans", "smells of earth")
	f.Add("136F", "three drops came out", "no", "-", "")
	f.Add("580", "wet", "no idea", "3000 l", "\u202enote\nof two lines")
	f.Add("", "", "", "", "")
	f.Add("-", "holds: a ball", "ja", "a lot of water", "heap:\"Old Bay\"")
	db := record(f)
	a := assistantOver(db)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(f, a.Line(context.Background(), call, "heap start North Bay").Err)
	newest := func(t *testing.T) heap.Entry {
		entries, err := db.Latest(context.Background(), millrace, 1)
		require.NoError(t, err)
		return entries[0]
	}
	f.Fuzz(func(t *testing.T, temp, squeeze, turned, water, note string) {
		before := newest(t)
		r := a.Fill(context.Background(), call, `log visit heap:"North Bay"`,
			map[string]string{"temp": temp, "squeeze": squeeze, "turned": turned, "water": water, "note": note})
		require.NotEmpty(t, r.Headline)
		require.True(t, utf8.ValidString(r.Headline))
		if r.Err != nil || r.Form != nil {
			require.Equal(t, before.ID, newest(t).ID, "nothing is stored")
			return
		}
		require.Greater(t, newest(t).ID, before.ID)
		require.Equal(t, before.ID+1, newest(t).Leader, "stored in one go")
		require.Nil(t, a.Line(context.Background(), call, "undo").Err)
		require.NotNil(t, a.Line(context.Background(), call, "undo").Err, "one undo takes back all of it")
	})
}

// TestFormsFit: every form keeps the limits of the platform: 45 characters for
// the title and each label, 100 for an example, at most five fields
// (discord-api-docs, components/reference.mdx), and 97 bytes for the line.
func TestFormsFit(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	for _, name := range []string{"Bay", "The long bay behind the greenhouse by the water butt there", "Höhe über dem großen Bäche-Beet"} {
		require.Nil(t, a.Line(context.Background(), call, "heap start "+name).Err)
		r := a.Line(context.Background(), call, `log visit heap:"`+name+`"`)
		require.Nil(t, r.Err)
		require.NotNil(t, r.Form)
		require.LessOrEqual(t, utf8.RuneCountInString(r.Form.Title), 45)
		require.LessOrEqual(t, len(r.Form.Line), 97)
		require.LessOrEqual(t, len(r.Form.Fields), 5)
		for _, field := range r.Form.Fields {
			require.LessOrEqual(t, utf8.RuneCountInString(field.Label), 45)
			require.LessOrEqual(t, utf8.RuneCountInString(field.Example), 100)
		}
	}
}
