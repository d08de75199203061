package discord_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
)

func TestRenderPrivacy(t *testing.T) {
	assert.False(t, discord.Render(commands.Reply{Headline: "x"}).Private)
	assert.True(t, discord.Render(commands.Reply{Headline: "x", Private: true}).Private)
	assert.True(t, discord.Render(commands.Reply{Headline: "x", Err: fault.New(fault.Unknown, "x")}).Private)
}

func TestRenderNothing(t *testing.T) {
	assert.NotEmpty(t, discord.Render(commands.Reply{}).Content, "an empty message would be refused")
}

func TestRenderLongAnswer(t *testing.T) {
	var lines []string
	for i := range 400 {
		lines = append(lines, fmt.Sprintf("%d April: Wren turned North_Bay", i))
	}
	m := discord.Render(commands.Reply{Headline: "History", Body: []commands.Block{{Lines: lines}}})
	within(t, m)
	assert.Contains(t, m.Embeds[0].Description, "0 April: Wren turned North\\_Bay\n")
	assert.True(t, strings.HasSuffix(m.Embeds[0].Description, "… the rest is in answer.txt"))
	require.Len(t, m.Files, 1)
	for _, line := range lines {
		require.Contains(t, string(m.Files[0].Data), line, "nothing of the answer is lost")
	}
}

func TestRenderShortAnswerHasNoAttachment(t *testing.T) {
	m := discord.Render(commands.Reply{Headline: "Turn it.", Body: []commands.Block{{Title: "Why", Lines: []string{"68 C", ""}}, {Lines: []string{"wet"}}}})
	assert.Empty(t, m.Files)
	assert.Equal(t, "**Why**\n68 C\n\nwet", m.Embeds[0].Description)
}

func TestRenderButtons(t *testing.T) {
	long := "log note " + strings.Repeat("x", 90) // 99 with "1:" before it is 101: too long for an id
	actions := []commands.Action{
		{Label: "Undo", Line: "undo"}, {Label: "Again", Line: "undo"}, {Label: "Long", Line: long}, {Label: "", Line: "next"}, {Label: "Empty"},
	}
	for i := range 40 {
		actions = append(actions, commands.Action{Label: strings.Repeat("🌱", 60), Line: fmt.Sprint("history ", i)})
	}
	m := discord.Render(commands.Reply{Headline: "x", Actions: actions})
	within(t, m)
	require.Len(t, m.Rows, 5)
	assert.Equal(t, "1:undo", m.Rows[0].Components[0].(discordgo.Button).CustomID)
	assert.Equal(t, "1:history 0", m.Rows[0].Components[1].(discordgo.Button).CustomID)
}

func TestRenderRows(t *testing.T) {
	long := strings.Repeat("x", 99)
	for _, tc := range []struct {
		name    string
		actions string // a letter for each button, "/" before one that begins a row, "!" for one that is left out
		want    string
	}{
		{"none asked for", "abcdefg", "abcde/fg"},
		{"asked for", "abc/def/g", "abc/def/g"},
		{"asked for by the first", "/abc", "abc"},
		{"asked for where one begins anyway", "abcde/f", "abcde/f"},
		{"row longer than five", "ab/cdefghi", "ab/cdefg/hi"},
		{"the button that asks is left out", "ab/!cd", "ab/cd"},
		{"more than five", "a/b/c/d/e/f/g", "a/b/c/d/e"},
		{"more than five, the last with room", "a/b/c/d/ef/gh", "a/b/c/d/ef"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var actions []commands.Action
			row := false
			for _, r := range tc.actions {
				switch r {
				case '/':
					row = true
					continue
				case '!':
					actions = append(actions, commands.Action{Label: "!", Line: long, Row: row})
				default:
					actions = append(actions, commands.Action{Label: string(r), Line: string(r), Row: row})
				}
				row = false
			}
			m := discord.Render(commands.Reply{Headline: "x", Actions: actions})
			within(t, m)
			var got []string
			for _, r := range m.Rows {
				labels := ""
				for _, b := range r.Components {
					labels += b.(discordgo.Button).Label
				}
				got = append(got, labels)
			}
			assert.Equal(t, tc.want, strings.Join(got, "/"))
		})
	}
}

func TestRenderAddress(t *testing.T) {
	for _, tc := range []struct {
		name         string
		to           heap.Person
		said, notify string
	}{
		{"nobody", heap.Person{}, "Turn it.", ""},
		{"nobody with a name", heap.Person{Name: "Odalys"}, "Turn it.", ""},
		{"somebody of the platform", heap.Person{ID: odalys.ID, Name: "Odalys"}, "<@" + odalys.ID + ">: Turn it.", odalys.ID},
		{"somebody of a local chat", heap.Person{ID: "odalys", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"without a name", heap.Person{ID: "odalys"}, "Turn it.", ""},
		{"a name like everyone", heap.Person{ID: "x", Name: "@everyone"}, `\@everyone: Turn it.`, ""},
		{"a name like an emoji code", heap.Person{ID: "x", Name: ":x"}, `\:x: Turn it.`, ""},
		{"a name like a heading", heap.Person{ID: "x", Name: "# big\n@here"}, `\# big \@here: Turn it.`, ""},
		{"an id like a role", heap.Person{ID: "&1", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"an id with something behind", heap.Person{ID: "1> @everyone", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"an id with a sign", heap.Person{ID: "+1", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"an id with a nought before", heap.Person{ID: "01", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"no number of the platform's", heap.Person{ID: "99999999999999999999", Name: "Odalys"}, "Odalys: Turn it.", ""},
		{"nought", heap.Person{ID: "0", Name: "Odalys"}, "Odalys: Turn it.", ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := discord.Render(commands.Reply{Headline: "Turn it.", To: tc.to})
			assert.Equal(t, tc.said, m.Content)
			assert.Equal(t, tc.notify, m.Notify)
		})
	}
	private := discord.Render(commands.Reply{Headline: "Turn it.", To: heap.Person{ID: odalys.ID}, Private: true})
	assert.Empty(t, private.Notify, "nobody is called to what only somebody else can see")
}

func TestRenderFiles(t *testing.T) {
	big := make([]byte, 11<<20)
	m := discord.Render(commands.Reply{Headline: "Charts", Files: []commands.File{
		{Name: "../../etc/\"x\".csv", ContentType: "text/csv", Data: []byte("a")},
		{Name: "big.png", Data: big},
		{Name: "", Data: []byte("b")},
	}})
	within(t, m)
	require.Len(t, m.Files, 2)
	assert.Equal(t, "-x-.csv", m.Files[0].Name)
	assert.Equal(t, "attachment", m.Files[1].Name)
	assert.Contains(t, m.Embeds[0].Description, "big.png is too large")
}

// within requires a message to keep every limit. The numbers are those of
// discord-api-docs c98d64bc, resources/message.mdx and components/reference.mdx.
func within(t *testing.T, m discord.Message) {
	t.Helper()
	require.LessOrEqual(t, length(m.Content), 2000)
	require.LessOrEqual(t, len(m.Embeds), 10)
	total := 0
	for _, e := range m.Embeds {
		require.LessOrEqual(t, length(e.Title), 256)
		require.LessOrEqual(t, length(e.Description), 4096)
		require.LessOrEqual(t, len(e.Fields), 25)
		total += length(e.Title) + length(e.Description)
		for _, f := range e.Fields {
			require.LessOrEqual(t, length(f.Name), 256)
			require.LessOrEqual(t, length(f.Value), 1024)
			require.NotEmpty(t, f.Value)
			total += length(f.Name) + length(f.Value)
		}
	}
	require.LessOrEqual(t, total, 6000)
	require.LessOrEqual(t, len(m.Rows), 5)
	ids := map[string]bool{}
	for _, row := range m.Rows {
		require.LessOrEqual(t, len(row.Components), 5)
		for _, c := range row.Components {
			if menu, ok := c.(discordgo.SelectMenu); ok {
				require.True(t, len(row.Components) == 1 && len(menu.Options) > 0 && len(menu.Options) <= 25 && !ids[menu.CustomID])
				require.True(t, length(menu.CustomID) <= 100 && length(menu.Placeholder) <= 150)
				ids[menu.CustomID] = true
				for _, o := range menu.Options {
					require.True(t, o.Label != "" && o.Value != "" && length(o.Label) <= 100 && length(o.Value) <= 100)
				}
				continue
			}
			b := c.(discordgo.Button)
			require.True(t, length(b.CustomID) <= 100 && length(b.Label) <= 80 && b.Label != "" && !ids[b.CustomID])
			ids[b.CustomID] = true
		}
	}
	require.LessOrEqual(t, len(m.Files), 10)
	require.False(t, m.Content == "" && len(m.Embeds) == 0 && len(m.Files) == 0, "an empty message")
}

func length(s string) int { return len(utf16.Encode([]rune(s))) }

func FuzzRender(f *testing.F) {
	f.Add("Add 3 buckets of leaves.", "Before and after", "C:N 17 -> 29", "undo", uint8(1), odalys.ID)
	f.Add("@everyone", "**x**", "[x](http://y)", "log note \u202e", uint8(30), "1> @here")
	f.Add(strings.Repeat("🌱", 1200), strings.Repeat("_", 300), strings.Repeat("\\", 700), strings.Repeat("y", 99), uint8(9), "18446744073709551615")
	f.Add("", "", "\n\n", "", uint8(0), "")
	f.Fuzz(func(t *testing.T, headline, title, line, action string, n uint8, to string) {
		n %= 32 // more only repeats
		r := commands.Reply{
			Headline: headline, Files: []commands.File{{Name: title, Alt: line}}, To: heap.Person{ID: to, Name: title},
		}
		for range n {
			r.Body = append(r.Body, commands.Block{Title: title, Lines: []string{line, line}})
			r.Cautions = append(r.Cautions, line)
			r.Basis = append(r.Basis, title)
			r.Actions = append(r.Actions, commands.Action{Label: title, Line: action, Row: n%2 == 0})
			r.Actions = append(r.Actions, commands.Action{Label: title, Line: action + line, Group: headline})
		}
		m := discord.Render(r)
		within(t, m)
		content := m.Content
		if m.Notify != "" {
			require.Equal(t, to, m.Notify)
			require.Regexp(t, `^[0-9]{1,20}$`, to)
			content = strings.TrimPrefix(content, "<@"+to+">")
		}
		literal(t, content)
		for _, e := range m.Embeds {
			for _, row := range strings.Split(e.Description, "\n") {
				literal(t, strings.TrimSuffix(strings.TrimPrefix(row, "**"), "**"))
			}
			for _, field := range e.Fields {
				literal(t, field.Value)
			}
		}
		for _, file := range m.Files {
			require.True(t, utf8.ValidString(file.Name) && file.Name != "")
			require.NotContains(t, file.Name, "/")
		}
	})
}
