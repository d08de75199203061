package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/commands"
)

func TestFormIsOpenedAndSent(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	mix := s.Command(wren, "mix", map[string]string{"what": "grass"}).Answer()
	form := s.PressID(odalys, mix, "1:form").Form()
	assert.Equal(t, "A visit to North Bay", form.Title)
	require.Len(t, form.Inputs, 3)
	assert.Equal(t, "Temperature in °C", form.Inputs[0].Label)
	assert.Equal(t, "58", form.Inputs[0].Placeholder)
	assert.True(t, *form.Inputs[0].Required)
	assert.False(t, *form.Inputs[2].Required)
	assert.Equal(t, 2, form.Inputs[2].Style, "a note has several lines")

	elsewhere := odalys
	elsewhere.Rights = discordtest.ManageChannels
	got := s.Submit(elsewhere, form, map[string]string{"temp": "61", "note": "two\nlines"}).Answer()
	assert.Equal(t, "Odalys filled in form", got.Content)
	call := s.garden.lastCall()
	assert.Equal(t, map[string]string{"temp": "61", "turned": "no", "note": "two\nlines"}, call.Args)
	assert.True(t, call.Organiser, "rights are those of the moment it is sent")
}

func TestFormAnswers(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	s.ready(t)
	s.AddChannel(wren.Guild, wren.Channel)
	id, err := s.adapter.Post(t.Context(), wren.Channel, rude(), "monday")
	require.NoError(t, err)
	posted, _ := s.Message(id)

	t.Run("what is wrong privately", func(t *testing.T) {
		form := s.PressID(wren, posted, "1:form").Form()
		got := s.Submit(wren, form, map[string]string{"temp": "580"}).Answer()
		assert.True(t, got.Private)
		assert.Equal(t, "580 cannot be.", got.Content)
	})
	t.Run("a form with a button, for the platform opens none after another", func(t *testing.T) {
		form := s.PressID(wren, posted, "1:form").Form()
		got := s.Submit(wren, form, map[string]string{"temp": "form"}).Answer()
		assert.Equal(t, "What was there to see?", got.Content)
		assert.Equal(t, form.Inputs, s.Press(wren, got, "Open the form").Form().Inputs)
	})
	t.Run("in the place of the message above", func(t *testing.T) {
		form := s.PressID(wren, posted, "1:form replace").Form()
		x := s.Submit(wren, form, map[string]string{"temp": "61"})
		require.True(t, x.Replaced())
		assert.Equal(t, id, x.Answer().ID)
	})
	t.Run("as a message where the platform takes no replacement", func(t *testing.T) {
		m, _ := s.Message(id)
		form := s.PressID(wren, m, "1:form replace").Form()
		s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035})
		x := s.Submit(wren, form, map[string]string{"temp": "61"})
		assert.NotEqual(t, id, x.Answer().ID)
	})
	t.Run("with a button when the form is refused", func(t *testing.T) {
		s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035})
		got := s.PressID(wren, posted, "1:form").Answer()
		assert.Equal(t, []discordtest.Button{{Label: "Open the form", ID: "1:form"}}, got.Buttons)
	})
	t.Run("to nobody in a direct message", func(t *testing.T) {
		form := s.PressID(wren, posted, "1:form").Form()
		direct := wren
		direct.Guild = ""
		assert.Contains(t, s.Submit(direct, form, map[string]string{"temp": "61"}).Answer().Content, "server")
	})
}

// TestFormComesLate: once an answer was postponed no form can be opened, so
// the message brings a button that does.
func TestFormComesLate(t *testing.T) {
	t.Parallel()
	s := play(t, func(c *discord.Config) { c.DeferAfter = time.Millisecond })
	s.ready(t)
	x := s.PressID(wren, discordtest.Message{}, "1:form late")
	require.True(t, x.Thinking())
	s.garden.release <- struct{}{}
	got := x.FollowUp()
	assert.Equal(t, []discordtest.Button{{Label: "Open the form", ID: "1:form late"}}, got.Buttons)
}

// TestFormAfterRestart: a form that stood open while the process was replaced
// is answered by the next one.
func TestFormAfterRestart(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	mix := s.Command(wren, "mix", map[string]string{"what": "grass"}).Answer()
	form := s.PressID(wren, mix, "1:form").Form()
	s = s.restart(t)
	s.ready(t)
	assert.Equal(t, "Wren filled in form", s.Submit(wren, form, map[string]string{"temp": "61"}).Answer().Content)
}

// TestFormsOfOthers: what is no form of ours is answered with a sentence.
func TestFormsOfOthers(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	input := map[string]any{"type": 4, "custom_id": "temp", "value": "58"}
	for _, tc := range []struct {
		name string
		data any
		says string
	}{
		{"of another version", map[string]any{"custom_id": "f0:form", "components": []any{}}, "form is from an older"},
		{"a button's id", map[string]any{"custom_id": "1:undo", "components": []any{}}, "form is from an older"},
		{"of a kind that the library does not know", map[string]any{"custom_id": "f1:form", "components": []any{map[string]any{"type": 18, "component": input}}}, "could not read"},
		{"null for a field", map[string]any{"custom_id": "f1:form", "components": []any{nil}}, "could not read"},
		{"a field outside a row", map[string]any{"custom_id": "f1:form", "components": []any{input}}, "filled in form"},
		{"no components", map[string]any{"custom_id": "f1:form"}, "filled in form"},
		{"no data", nil, "form is from an older"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			assert.Contains(t, s.Raw(wren, 5, tc.data).Answer().Shown(), tc.says)
		})
	}
}

func TestMenu(t *testing.T) {
	t.Parallel()
	group := func(n int, name string) (out []commands.Action) {
		for i := range n {
			out = append(out, commands.Action{Label: fmt.Sprint("Bay ", i), Line: fmt.Sprintf("%s heap:%d", name, i), Group: name})
		}
		return out
	}
	for _, tc := range []struct {
		name    string
		actions []commands.Action
		want    string // buttons by row, menus by their number of options
	}{
		{"as many as a row holds", group(5, "which"), "5 buttons"},
		{"more", group(6, "which"), "menu of 6"},
		{"more than a menu holds", group(60, "which"), "menu of 25, menu of 25, menu of 10"},
		{"more than fit", group(200, "which"), "menu of 25, menu of 25, menu of 25, menu of 25, menu of 25"},
		{"between buttons", append(append([]commands.Action{{Label: "a", Line: "a"}}, group(7, "which")...), commands.Action{Label: "b", Line: "b"}), "1 buttons, menu of 7, 1 buttons"},
		{"short, between buttons", append(append([]commands.Action{{Label: "a", Line: "a"}}, group(2, "which")...), commands.Action{Label: "b", Line: "b"}), "1 buttons, 2 buttons, 1 buttons"},
		{"two beside each other", append(group(6, "one"), group(7, "two")...), "menu of 6, menu of 7"},
		{"the same line again", append(group(6, "one"), group(6, "one")[0]), "menu of 6"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := discord.Render(commands.Reply{Headline: "x", Actions: tc.actions})
			within(t, m)
			var got []string
			for _, row := range m.Rows {
				if menu, ok := row.Components[0].(discordgo.SelectMenu); ok {
					got = append(got, fmt.Sprintf("menu of %d", len(menu.Options)))
					continue
				}
				got = append(got, fmt.Sprintf("%d buttons", len(row.Components)))
			}
			assert.Equal(t, tc.want, strings.Join(got, ", "))
		})
	}
}

// TestMenuIsPicked: what is picked from a list is a typed line, after a restart too.
func TestMenuIsPicked(t *testing.T) {
	t.Parallel()
	s := play(t, nil)
	m := s.Command(wren, "log temp", map[string]string{"reading": "which"}).Answer()
	require.Len(t, m.Menus, 1)
	assert.Equal(t, "Which heap?", m.Menus[0].Placeholder)
	assert.Equal(t, "Odalys pressed: /log temp 58 heap:7", s.Pick(odalys, m, "Bay 7").Answer().Content)
	s = s.restart(t)
	s.ready(t)
	assert.Equal(t, "Odalys pressed: /log temp 58 heap:8", s.Pick(odalys, m, "Bay 8").Answer().Content)
	none := s.Raw(wren, 3, map[string]any{"custom_id": "m1:0", "component_type": 3, "values": []any{}}).Answer()
	assert.Contains(t, none.Content, "older message")
}
