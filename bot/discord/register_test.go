package discord_test

import (
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/commands"
)

func TestRegistration(t *testing.T) {
	got, err := discord.Registration(newGarden().Commands())
	require.NoError(t, err)
	require.Len(t, got, 3)
	assert.Equal(t, []discordgo.InteractionContextType{discordgo.InteractionContextGuild}, *got[0].Contexts)
	assert.Equal(t, []discordgo.ApplicationIntegrationType{discordgo.ApplicationIntegrationGuildInstall}, *got[0].IntegrationTypes)
	assert.Equal(t, discordgo.ApplicationCommandOptionSubCommand, got[1].Options[0].Type)
}

// TestRegistrationIsLocalised: names stay as they are, so that the guide and the
// buttons hold for everybody.
func TestRegistrationIsLocalised(t *testing.T) {
	assistant := commands.New(nil, slog.New(slog.DiscardHandler))
	got, err := discord.Registration(assistant.Commands())
	require.NoError(t, err)
	log := got[slices.IndexFunc(got, func(c *discordgo.ApplicationCommand) bool { return c.Name == "log" })]
	assert.Nil(t, log.NameLocalizations)
	assert.Equal(t, "Put one thing on the record", log.Description)
	assert.Equal(t, "Eine Sache eintragen", (*log.DescriptionLocalizations)[discordgo.German])
	assert.Equal(t, (*log.DescriptionLocalizations)[discordgo.SpanishES], (*log.DescriptionLocalizations)[discordgo.SpanishLATAM])
	assert.Equal(t, log.Description, (*log.DescriptionLocalizations)[discordgo.EnglishUS])
	assert.Equal(t, log.Description, (*log.DescriptionLocalizations)[discordgo.EnglishGB])
	var amount *discordgo.ApplicationCommandOption
	for _, sub := range log.Options {
		if sub.Name == "water" {
			amount = sub.Options[0]
		}
	}
	assert.Equal(t, "how much, e.g. 20 liters or 2 cans", amount.DescriptionLocalizations[discordgo.EnglishUS])
	for _, c := range got {
		assert.Len(t, *c.DescriptionLocalizations, 7, c.Name)
	}
}

func TestRegistrationOfLongPick(t *testing.T) {
	pick := commands.Option{Name: "zone", Summary: "Where", Kind: commands.Pick}
	for i := range 26 {
		pick.Choices = append(pick.Choices, commands.Choice{Name: fmt.Sprint(i), Value: fmt.Sprint(i)})
	}
	got, err := discord.Registration([]commands.Command{{Name: "garden", Summary: "Settings", Options: []commands.Option{pick}}})
	require.NoError(t, err)
	assert.True(t, got[0].Options[0].Autocomplete)
	assert.Empty(t, got[0].Options[0].Choices)
}

// TestRegistrationRefuses: limits are those of discord-api-docs c98d64bc,
// interactions/application-commands.mdx.
func TestRegistrationRefuses(t *testing.T) {
	one := func(o ...commands.Option) []commands.Command {
		return []commands.Command{{Name: "mix", Summary: "s", Options: o}}
	}
	sub := commands.Command{Name: "temp", Summary: "s"}
	many := make([]commands.Command, 101)
	for i := range many {
		many[i] = commands.Command{Name: fmt.Sprint("c", i), Summary: "s"}
	}
	options := make([]commands.Option, 26)
	for i := range options {
		options[i] = commands.Option{Name: fmt.Sprint("o", i), Summary: "s"}
	}
	heavy := make([]commands.Option, 25)
	for i := range heavy {
		heavy[i] = commands.Option{Name: fmt.Sprint("o", i), Summary: "s", Kind: commands.Pick,
			Choices: []commands.Choice{{Name: strings.Repeat("a", 100), Value: strings.Repeat("b", 100)}, {Name: strings.Repeat("c", 100), Value: strings.Repeat("d", 100)}}}
	}
	for _, tc := range []struct {
		name string
		cmds []commands.Command
		says string
	}{
		{"a blank in a name", []commands.Command{{Name: "Bad Name", Summary: "s"}}, "lower-case"},
		{"a capital", []commands.Command{{Name: "Mix", Summary: "s"}}, "lower-case"},
		{"a long name", []commands.Command{{Name: strings.Repeat("m", 33), Summary: "s"}}, "32"},
		{"no summary", []commands.Command{{Name: "mix"}}, "summary"},
		{"a long summary", []commands.Command{{Name: "mix", Summary: strings.Repeat("s", 101)}}, "101"},
		{"the same command twice", []commands.Command{{Name: "mix", Summary: "s"}, {Name: "mix", Summary: "s"}}, "two commands"},
		{"too many commands", many, "101 commands"},
		{"required after optional", one(commands.Option{Name: "a", Summary: "s"}, commands.Option{Name: "b", Summary: "s", Required: true}), "required"},
		{"the same option twice", one(commands.Option{Name: "a", Summary: "s"}, commands.Option{Name: "a", Summary: "s"}), "twice"},
		{"too many options", one(options...), "26 options"},
		{"a long choice", one(commands.Option{Name: "a", Summary: "s", Kind: commands.Pick, Choices: []commands.Choice{{Name: strings.Repeat("x", 101), Value: "v"}}}), "101"},
		{"an empty choice value", one(commands.Option{Name: "a", Summary: "s", Kind: commands.Pick, Choices: []commands.Choice{{Name: "x"}}}), "value"},
		{"too heavy", one(heavy...), "8000"},
		{"options beside subcommands", []commands.Command{{Name: "log", Summary: "s", Subs: []commands.Command{sub}, Options: options[:1]}}, "no options"},
		{"the same subcommand twice", []commands.Command{{Name: "log", Summary: "s", Subs: []commands.Command{sub, sub}}}, "twice"},
		{"three levels", []commands.Command{{Name: "a", Summary: "s", Subs: []commands.Command{{Name: "b", Summary: "s",
			Subs: []commands.Command{{Name: "c", Summary: "s", Subs: []commands.Command{sub}}}}}}}, "two deep"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := discord.Registration(tc.cmds)
			require.ErrorContains(t, err, tc.says)
		})
	}
}

func TestNewRefuses(t *testing.T) {
	for _, token := range []string{"", "  ", "two words", "line\nbreak"} {
		_, err := discord.New(discord.Config{Token: token}, newGarden())
		require.ErrorContains(t, err, "token")
	}
}
