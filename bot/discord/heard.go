package discord

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"heapside/calc/fault"
	"heapside/commands"
)

// Heard is one interaction and what became of it. Nothing in it is as somebody
// wrote it.
type Heard struct {
	Kind    Kind
	Path    string // of the command in the catalogue; empty when none of them was meant
	Outcome Outcome
	Code    fault.Code    // of what was refused; else empty
	Took    time.Duration // from the arrival of the interaction to the end of sending the answer
}

// Kind is how people asked.
type Kind string

// The kinds.
const (
	Typed     Kind = "command"
	Pressed   Kind = "button" // or an option that was picked
	Filled    Kind = "form"
	Suggested Kind = "completion"
)

// Outcome is what became of an interaction.
type Outcome string

// The outcomes.
const (
	Answered Outcome = "answered"
	Declined Outcome = "refused" // by a sentence that says what would be accepted
	Failed   Outcome = "failed"  // something went wrong on our side
	Late     Outcome = "late"    // it took longer than we work on it, or than the platform waits
	Unsent   Outcome = "unsent"  // the platform did not take the answer
	Busy     Outcome = "busy"    // told to try again: too many at once
	Dropped  Outcome = "dropped" // not even that
)

// kinds are the kinds by the platform's type of interaction.
var kinds = map[discordgo.InteractionType]Kind{
	discordgo.InteractionApplicationCommand:             Typed,
	discordgo.InteractionMessageComponent:               Pressed,
	discordgo.InteractionModalSubmit:                    Filled,
	discordgo.InteractionApplicationCommandAutocomplete: Suggested,
}

// heard passes on what became of the interaction.
func (x *exchange) heard(what Outcome, code fault.Code) {
	if x.cfg.Heard == nil {
		return
	}
	x.cfg.Heard(Heard{Kind: kinds[x.Type], Path: x.path(), Outcome: what, Code: code, Took: time.Since(x.received)})
}

// answered passes on what became of an interaction whose reply was sent, or not.
func (x *exchange) answered(r commands.Reply, sent error) {
	switch {
	case gone(sent), errors.Is(sent, context.DeadlineExceeded):
		x.heard(Late, "")
	case sent != nil:
		x.heard(Unsent, "")
	case r.Err == nil:
		x.heard(Answered, "")
	case r.Err.Code == fault.NotSaved:
		x.heard(Failed, "")
	default:
		x.heard(Declined, r.Err.Code)
	}
}

// path is the command of the catalogue that an interaction means.
func (x *exchange) path() string {
	line, ours := "", true
	switch data := x.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		line, _, _ = readOptions(data)
	case discordgo.MessageComponentInteractionData:
		line, ours = tapped(data)
	case discordgo.ModalSubmitInteractionData:
		line, ours = strings.CutPrefix(data.CustomID, formVersion)
	}
	if !ours {
		return ""
	}
	return x.leading(line)
}

// leading is the command that a line of ours begins with; empty when it is none.
func (a *Adapter) leading(line string) string {
	words := strings.Fields(line)
	for n := min(len(words), 2); n > 0; n-- {
		if path := strings.Join(words[:n], " "); a.paths[path] {
			return path
		}
	}
	return ""
}

// pathsOf are the commands that can be called.
func pathsOf(catalogue []commands.Command) map[string]bool {
	paths := map[string]bool{}
	for _, c := range catalogue {
		if len(c.Subs) == 0 {
			paths[c.Name] = true
		}
		for _, sub := range c.Subs {
			paths[c.Name+" "+sub.Name] = true
		}
	}
	return paths
}
