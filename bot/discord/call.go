package discord

import (
	"context"
	"strconv"
	"strings"

	"github.com/bwmarrin/discordgo"

	"heapside/calc/heap"
	"heapside/commands"
)

// longestName is how much of a display name goes on record (own choice; the
// platform's own limit is 32).
const longestName = 64

// organising are the rights of which any one makes an organiser.
const organising = discordgo.PermissionAdministrator | discordgo.PermissionManageChannels | discordgo.PermissionManageGuild

// ask turns the interaction into a call and has it answered.
func (x *exchange) ask(ctx context.Context) commands.Reply {
	if x.GuildID == "" {
		return notHere
	}
	call, ok := x.newCall()
	if !ok {
		return notRead
	}
	switch data := x.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		call.Path, call.Args, _ = readOptions(data)
		return x.assistant.Do(ctx, call)
	case discordgo.MessageComponentInteractionData:
		line, ok := tapped(data)
		if !ok {
			return oldButton
		}
		return x.assistant.Line(ctx, call, line)
	case discordgo.ModalSubmitInteractionData:
		line, ok := strings.CutPrefix(data.CustomID, formVersion)
		if !ok {
			return oldForm
		}
		return x.assistant.Fill(ctx, call, line, filledIn(data.Components))
	}
	return notRead
}

// tapped is the line of a button that was pressed, or of the one option of a
// menu that was picked; false when it is neither of ours.
func tapped(data discordgo.MessageComponentInteractionData) (line string, ok bool) {
	if strings.HasPrefix(data.CustomID, menuVersion) && len(data.Values) == 1 {
		return data.Values[0], true
	}
	return strings.CutPrefix(data.CustomID, buttonVersion)
}

// suggestions asks for completions of the option that is being typed.
func (x *exchange) suggestions(ctx context.Context) []suggestion {
	out := []suggestion{}
	call, ok := x.newCall()
	data, isCommand := x.Data.(discordgo.ApplicationCommandInteractionData)
	if !ok || !isCommand || x.GuildID == "" {
		return out
	}
	var focused *discordgo.ApplicationCommandInteractionDataOption
	call.Path, call.Args, focused = readOptions(data)
	if focused == nil {
		return out
	}
	seen := map[string]bool{}
	for _, c := range x.assistant.Complete(ctx, call, focused.Name, text(focused.Value)) {
		name := cut(oneLine(c.Name), maxChoice)
		if name == "" || c.Value == "" || units(c.Value) > maxChoice || seen[name] {
			continue
		}
		seen[name] = true
		if out = append(out, suggestion{Name: name, Value: c.Value}); len(out) == maxChoices {
			break
		}
	}
	return out
}

// newCall is who asks, where and with what rights. All of it comes from the
// interaction itself, never from what a button or an option carries.
func (x *exchange) newCall() (commands.Call, bool) {
	if x.Member == nil || x.Member.User == nil || x.Member.User.ID == "" || x.ChannelID == "" {
		return commands.Call{}, false
	}
	name := cut(oneLine(x.Member.DisplayName()), longestName)
	if name == "" {
		name = "someone"
	}
	return commands.Call{
		Place:     heap.Place{Guild: x.GuildID, Channel: x.ChannelID},
		By:        heap.Person{ID: x.Member.User.ID, Name: name},
		Organiser: x.Member.Permissions&organising != 0,
		Now:       x.cfg.Now(),
		Locale:    string(x.Locale),
		Lacks:     lacking(x.AppPermissions),
	}, true
}

// lacking are the rights that a post would need and that we do not have where an
// interaction began. Whether that is a thread, which has a right of its own for
// writing, is not known here: either will do.
func lacking(rights int64) []string {
	if rights == 0 || rights&discordgo.PermissionAdministrator != 0 {
		return nil // not told, or all
	}
	if rights&(discordgo.PermissionSendMessages|discordgo.PermissionSendMessagesInThreads) != 0 {
		rights |= discordgo.PermissionSendMessages
	}
	var names []string
	for _, n := range needed {
		if n.outside && n.forPosts && rights&n.right == 0 {
			names = append(names, n.name)
		}
	}
	return names
}

// readOptions is the path of a command, its options as text, and the option
// being typed if there is one.
func readOptions(data discordgo.ApplicationCommandInteractionData) (
	path string, args map[string]string, focused *discordgo.ApplicationCommandInteractionDataOption,
) {
	words, options := []string{data.Name}, data.Options
	for len(options) > 0 && options[0] != nil && isSub(options[0].Type) {
		words, options = append(words, options[0].Name), options[0].Options
	}
	args = map[string]string{}
	for _, o := range options {
		if o == nil {
			continue
		}
		if o.Focused {
			focused = o
			continue
		}
		args[o.Name] = text(o.Value)
	}
	return strings.Join(words, " "), args, focused
}

func isSub(t discordgo.ApplicationCommandOptionType) bool {
	return t == discordgo.ApplicationCommandOptionSubCommand || t == discordgo.ApplicationCommandOptionSubCommandGroup
}

// text is an option's value as a person would write it. A value that is being
// typed arrives as text whatever its type.
func text(value any) string {
	switch v := value.(type) {
	case string:
		return v
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case bool:
		return strconv.FormatBool(v)
	}
	return ""
}
