package discordtest

import (
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// Limits of commands that the published description leaves out. Source:
// discord-api-docs c98d64bc, interactions/application-commands.mdx.
const (
	maxCommandTotal = 8000
	maxChoiceValue  = 100
	maxTopLevel     = 100
)

var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// checkCommands checks a whole registration.
func checkCommands(body payload) error {
	var raw []json.RawMessage
	var commands []Command
	if err := errors.Join(json.Unmarshal(body.json, &raw), json.Unmarshal(body.json, &commands)); err != nil {
		return err
	}
	var errs []error
	if len(commands) > maxTopLevel {
		errs = append(errs, fmt.Errorf("%d commands, at most %d", len(commands), maxTopLevel))
	}
	seen := map[string]bool{}
	for i, c := range commands {
		err := errors.Join(conforms(schemaCommand, raw[i]), checkName(c.Name, seen), checkOptions(c.Options, 0))
		if total := length(c.Name) + length(c.Description) + weigh(c.Options); total > maxCommandTotal {
			err = errors.Join(err, fmt.Errorf("%d characters in all, at most %d", total, maxCommandTotal))
		}
		if err != nil {
			errs = append(errs, fmt.Errorf("command %q: %w", c.Name, err))
		}
	}
	return errors.Join(errs...)
}

// checkOptions checks options or subcommands, depth levels down.
func checkOptions(options []Option, depth int) error {
	seen, optional, subs := map[string]bool{}, false, 0
	for _, o := range options {
		err := errors.Join(checkName(o.Name, seen), checkChoices(o.Choices), checkOptions(o.Options, depth+1))
		if o.Type <= 2 {
			subs++
			if depth >= 2 || depth == 1 && o.Type == 2 {
				err = errors.Join(err, errors.New("subcommands nest too deep"))
			}
		} else if o.Required && optional {
			err = errors.Join(err, errors.New("required after an optional one"))
		}
		optional = optional || !o.Required
		if o.Autocomplete && len(o.Choices) > 0 {
			err = errors.Join(err, errors.New("completion and choices exclude each other"))
		}
		if err != nil {
			return fmt.Errorf("option %q: %w", o.Name, err)
		}
	}
	if subs > 0 && subs < len(options) {
		return errors.New("options beside subcommands")
	}
	return nil
}

func checkName(name string, seen map[string]bool) error {
	switch {
	case !commandName.MatchString(name) || name != strings.ToLower(name):
		return fmt.Errorf("the name %q is not allowed", name)
	case seen[name]:
		return fmt.Errorf("the name %q comes twice", name)
	}
	seen[name] = true
	return nil
}

func checkChoices(choices []Choice) error {
	seen := map[string]bool{}
	for _, c := range choices {
		if seen[c.Name] || c.Value == "" || length(c.Value) > maxChoiceValue {
			return fmt.Errorf("the choice %q comes twice, is empty or too long", c.Name)
		}
		seen[c.Name] = true
	}
	return nil
}

func weigh(options []Option) int {
	n := 0
	for _, o := range options {
		n += length(o.Name) + length(o.Description) + weigh(o.Options)
		for _, c := range o.Choices {
			n += length(c.Name) + length(c.Value)
		}
	}
	return n
}
