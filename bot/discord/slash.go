package discord

import (
	"regexp"
	"slices"
	"strings"

	"heapside/commands"
)

// slashing finds the commands that a reply names as the local chat takes them:
// one with its subcommand, one with an option, or one with a number at the start
// of a phrase. A word alone is left as it is: “ready” is more often no command.
func slashing(catalogue []commands.Command) *regexp.Regexp {
	var named, counted []string
	for _, c := range catalogue {
		for _, sub := range c.Subs {
			named = append(named, c.Name+" "+sub.Name+`\b`)
		}
		for _, o := range c.Options {
			named = append(named, c.Name+" "+o.Name+`:`)
			if o.Words {
				counted = append(counted, c.Name+` \d`)
			}
		}
	}
	if len(named) == 0 {
		return nil
	}
	pattern := `(^|[\s(“])(` + strings.Join(named, "|") + `)`
	if len(counted) > 0 {
		pattern += `|(^|[:.] |[(“])(` + strings.Join(counted, "|") + `)`
	}
	return regexp.MustCompile(pattern)
}

// slashed puts a slash before the commands that a reply names: here a line
// without one is a message to the channel, which nobody answers.
func (a *Adapter) slashed(r commands.Reply) commands.Reply {
	if a.slash == nil {
		return r
	}
	put := func(text string) string { return a.slash.ReplaceAllString(text, "$1$3/$2$4") }
	each := func(texts []string) []string {
		out := slices.Clone(texts)
		for i, t := range out {
			out[i] = put(t)
		}
		return out
	}
	r.Headline = put(r.Headline)
	r.Body = slices.Clone(r.Body)
	for i, b := range r.Body {
		r.Body[i].Title, r.Body[i].Lines = put(b.Title), each(b.Lines)
	}
	r.Cautions = each(r.Cautions)
	return r
}
