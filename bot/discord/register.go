package discord

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/bwmarrin/discordgo"

	"heapside/commands"
)

// Limits of a registration. Source: discord-api-docs c98d64bc,
// interactions/application-commands.mdx. Where that and the published
// description differ on the length of a choice (100 against 6000) the smaller
// one counts.
const (
	maxCommands     = 100
	maxOptions      = 25
	maxChoices      = 25
	maxSummary      = 100
	maxChoice       = 100
	maxCommandUnits = 8000
)

// namePattern is what a command or an option may be called; names with
// capitals are refused besides.
var namePattern = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// Registration turns the catalogue into what the platform registers. It
// refuses, naming the command and the rule, what the platform would refuse.
func Registration(cmds []commands.Command) ([]*discordgo.ApplicationCommand, error) {
	if len(cmds) > maxCommands {
		return nil, fmt.Errorf("discord: %d commands, at most %d can be registered", len(cmds), maxCommands)
	}
	out := make([]*discordgo.ApplicationCommand, 0, len(cmds))
	names := map[string]bool{}
	for _, c := range cmds {
		registered, err := register(c)
		if err == nil && names[c.Name] {
			err = errors.New("two commands have this name")
		}
		if err != nil {
			return nil, fmt.Errorf("discord: command %q: %w", c.Name, err)
		}
		names[c.Name] = true
		out = append(out, registered)
	}
	return out, nil
}

func register(c commands.Command) (*discordgo.ApplicationCommand, error) {
	if err := errors.Join(checkName(c.Name), checkSummary(c.Summary)); err != nil {
		return nil, err
	}
	options, err := parameters(c, 2)
	if err != nil {
		return nil, err
	}
	summaries := localised(c.Summary)
	if n := units(c.Name) + longest(c.Summary, summaries) + weigh(options); n > maxCommandUnits {
		return nil, fmt.Errorf("names, summaries and choices take %d characters, at most %d", n, maxCommandUnits)
	}
	return &discordgo.ApplicationCommand{
		Type:                     discordgo.ChatApplicationCommand,
		Name:                     c.Name,
		Description:              c.Summary,
		DescriptionLocalizations: &summaries,
		Options:                  options,
		Contexts:                 &[]discordgo.InteractionContextType{discordgo.InteractionContextGuild},
		IntegrationTypes:         &[]discordgo.ApplicationIntegrationType{discordgo.ApplicationIntegrationGuildInstall},
	}, nil
}

// parameters are a command's subcommands, or its options. depth is how many
// levels of subcommands may still follow.
func parameters(c commands.Command, depth int) ([]*discordgo.ApplicationCommandOption, error) {
	if len(c.Subs) == 0 {
		return leafOptions(c.Options)
	}
	if len(c.Options) > 0 || depth == 0 {
		return nil, errors.New("a command with subcommands takes no options, and they nest two deep at most")
	}
	if len(c.Subs) > maxOptions {
		return nil, fmt.Errorf("%d subcommands, at most %d", len(c.Subs), maxOptions)
	}
	names := map[string]bool{}
	var out []*discordgo.ApplicationCommandOption
	for _, sub := range c.Subs {
		options, err := parameters(sub, depth-1)
		if err == nil {
			err = errors.Join(checkName(sub.Name), checkSummary(sub.Summary), once(names, sub.Name))
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sub.Name, err)
		}
		kind := discordgo.ApplicationCommandOptionSubCommand
		if len(sub.Subs) > 0 {
			kind = discordgo.ApplicationCommandOptionSubCommandGroup
		}
		out = append(out, &discordgo.ApplicationCommandOption{
			Type: kind, Name: sub.Name, Description: sub.Summary, DescriptionLocalizations: localised(sub.Summary), Options: options,
		})
	}
	return out, nil
}

func leafOptions(options []commands.Option) ([]*discordgo.ApplicationCommandOption, error) {
	if len(options) > maxOptions {
		return nil, fmt.Errorf("%d options, at most %d", len(options), maxOptions)
	}
	names := map[string]bool{}
	optionalSeen := false
	var out []*discordgo.ApplicationCommandOption
	for _, o := range options {
		err := errors.Join(checkName(o.Name), checkSummary(o.Summary), once(names, o.Name), checkChoices(o.Choices))
		if o.Required && optionalSeen {
			err = errors.Join(err, errors.New("a required option cannot follow an optional one"))
		}
		if err != nil {
			return nil, fmt.Errorf("option %q: %w", o.Name, err)
		}
		optionalSeen = optionalSeen || !o.Required
		out = append(out, option(o))
	}
	return out, nil
}

// option registers one option: a short pick as fixed choices, everything else
// that can be suggested as completion.
func option(o commands.Option) *discordgo.ApplicationCommandOption {
	out := &discordgo.ApplicationCommandOption{
		Type: discordgo.ApplicationCommandOptionString, Name: o.Name, Description: o.Summary,
		DescriptionLocalizations: localised(o.Summary), Required: o.Required,
	}
	if o.Kind == commands.Pick && len(o.Choices) <= maxChoices {
		for _, c := range o.Choices {
			out.Choices = append(out.Choices, &discordgo.ApplicationCommandOptionChoice{Name: c.Name, NameLocalizations: localised(c.Name), Value: c.Value})
		}
		return out
	}
	out.Autocomplete = o.Kind != commands.Text || len(o.Choices) > 0
	return out
}

func checkName(name string) error {
	if !namePattern.MatchString(name) || name != strings.ToLower(name) {
		return fmt.Errorf("the name %q is not 1 to 32 lower-case letters, digits, - or _", name)
	}
	return nil
}

func checkSummary(summary string) error {
	if n := longest(summary, localised(summary)); summary == "" || n > maxSummary {
		return fmt.Errorf("the summary has %d characters in its longest language, 1 to %d are possible", n, maxSummary)
	}
	return nil
}

func checkChoices(choices []commands.Choice) error {
	names := map[string]bool{}
	for _, c := range choices {
		if n := longest(c.Name, localised(c.Name)); c.Name == "" || n > maxChoice {
			return fmt.Errorf("the choice %q has %d characters, 1 to %d are possible", c.Name, n, maxChoice)
		}
		if n := units(c.Value); n < 1 || n > maxChoice {
			return fmt.Errorf("the value of choice %q has %d characters, 1 to %d are possible", c.Name, n, maxChoice)
		}
		if err := once(names, c.Name); err != nil {
			return err
		}
	}
	return nil
}

func once(names map[string]bool, name string) error {
	if names[name] {
		return fmt.Errorf("the name %q comes twice", name)
	}
	names[name] = true
	return nil
}

// weigh sums what counts towards the size of a command: of each text its longest
// language.
func weigh(options []*discordgo.ApplicationCommandOption) int {
	n := 0
	for _, o := range options {
		n += units(o.Name) + longest(o.Description, o.DescriptionLocalizations) + weigh(o.Options)
		for _, c := range o.Choices {
			n += longest(c.Name, c.NameLocalizations) + units(fmt.Sprint(c.Value))
		}
	}
	return n
}
