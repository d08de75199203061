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
	f.Add("Add 3 buckets of leaves.", "Before and after", "C:N 17 -> 29", "undo", uint8(1))
	f.Add("@everyone", "**x**", "[x](http://y)", "log note \u202e", uint8(30))
	f.Add(strings.Repeat("🌱", 1200), strings.Repeat("_", 300), strings.Repeat("\\", 700), strings.Repeat("y", 99), uint8(9))
	f.Add("", "", "\n\n", "", uint8(0))
	f.Fuzz(func(t *testing.T, headline, title, line, action string, n uint8) {
		n %= 32 // more only repeats
		r := commands.Reply{Headline: headline, Files: []commands.File{{Name: title, Alt: line}}}
		for range n {
			r.Body = append(r.Body, commands.Block{Title: title, Lines: []string{line, line}})
			r.Cautions = append(r.Cautions, line)
			r.Basis = append(r.Basis, title)
			r.Actions = append(r.Actions, commands.Action{Label: title, Line: action})
		}
		m := discord.Render(r)
		within(t, m)
		literal(t, m.Content)
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
