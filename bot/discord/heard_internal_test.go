package discord

import (
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/stretchr/testify/assert"

	"heapside/commands"
)

// BenchmarkHeard is what it costs an interaction to be told of.
func BenchmarkHeard(b *testing.B) {
	subs := []commands.Command{{Name: "temp"}}
	a := &Adapter{paths: pathsOf([]commands.Command{{Name: "log", Subs: subs}})}
	var last Heard
	a.cfg.Heard = func(h Heard) { last = h }
	x := &exchange{Adapter: a, received: time.Now(), Interaction: &discordgo.Interaction{
		Type: discordgo.InteractionApplicationCommand,
		Data: discordgo.ApplicationCommandInteractionData{Name: "log", Options: []*discordgo.ApplicationCommandInteractionDataOption{{
			Name: "temp", Type: discordgo.ApplicationCommandOptionSubCommand,
			Options: []*discordgo.ApplicationCommandInteractionDataOption{{Name: "reading", Type: discordgo.ApplicationCommandOptionString, Value: "58"}},
		}}},
	}}
	b.ReportAllocs()
	for b.Loop() {
		x.answered(commands.Reply{}, nil)
	}
	assert.Equal(b, "log temp", last.Path)
}
