package terminal

import (
	"context"
	"slices"
	"strings"

	"heapside/commands"
)

// Complete suggests how to go on with an unfinished line: head is the part of
// the line that stays, each suggestion a text that may follow it. Command,
// subcommand and option names and picks come from the catalogue, heap names
// and materials from the assistant. call says where and who.
func Complete(ctx context.Context, a Assistant, call commands.Call, line string) (head string, suggestions []string) {
	words, open := split(line)
	cur := word{start: len(line), end: len(line)}
	if open {
		cur = words[len(words)-1]
		words = words[:len(words)-1]
	}
	help := len(words) > 0 && words[0].text == "help"
	if help {
		words = words[1:]
	}
	cmd, path, rest := walk(a.Commands(), words)
	switch {
	case cmd == nil && len(words) == 0:
		names := names(a.Commands())
		if !help {
			names = append(names, localNames()...)
		}
		return line[:cur.start], withPrefix(names, cur.text, " ")
	case cmd == nil:
		return line, nil
	case len(cmd.Subs) > 0 && len(rest) == 0:
		return line[:cur.start], withPrefix(names(cmd.Subs), cur.text, " ")
	case help || len(cmd.Subs) > 0:
		return line, nil
	}
	call.Path = path
	call.Args = claimed(rest)
	return completeOption(ctx, a, call, cmd, line, rest, cur)
}

// walk follows words down the catalogue as far as they name commands.
func walk(catalogue []commands.Command, words []word) (cmd *commands.Command, path string, rest []word) {
	for len(words) > 0 && words[0].name == "" {
		i := slices.IndexFunc(catalogue, func(c commands.Command) bool { return c.Name == words[0].text })
		if i < 0 {
			break
		}
		cmd = &catalogue[i]
		path = strings.TrimSpace(path + " " + cmd.Name)
		catalogue, words = cmd.Subs, words[1:]
	}
	return cmd, path, words
}

// claimed is the options that finished words already fill.
func claimed(words []word) map[string]string {
	args := map[string]string{}
	for _, w := range words {
		if w.name != "" {
			args[w.name] = w.text
		}
	}
	return args
}

// completeOption suggests for the word under the cursor: the value of the
// option it names, or else the value of the option that takes loose words and
// the names of the options that are still free.
func completeOption(ctx context.Context, a Assistant, call commands.Call, cmd *commands.Command, line string, rest []word, cur word) (string, []string) {
	if cur.name != "" {
		i := slices.IndexFunc(cmd.Options, func(o commands.Option) bool { return o.Name == cur.name })
		if i < 0 {
			return line, nil
		}
		var out []string
		for _, v := range values(ctx, a, call, cmd.Options[i], cur.text) {
			out = append(out, cur.name+":"+quote(v)+" ")
		}
		return line[:cur.start], out
	}
	var free []string
	for _, o := range cmd.Options {
		if _, used := call.Args[o.Name]; !used && !o.Words {
			free = append(free, o.Name)
		}
	}
	options := withPrefix(free, cur.text, ":")
	i := slices.IndexFunc(cmd.Options, func(o commands.Option) bool { return o.Words })
	if i < 0 {
		return line[:cur.start], options
	}
	start, loose := looseRun(line, rest, cur)
	if kind := cmd.Options[i].Kind; kind == commands.Material || kind == commands.Load {
		done := lastItem(loose)
		start, loose = start+done, loose[done:]
	}
	kept := line[min(start, cur.start):cur.start] // what is typed already is part of each suggestion
	var out []string
	for _, v := range values(ctx, a, call, cmd.Options[i], loose) {
		out = append(out, v+" ")
	}
	for _, o := range options {
		out = append(out, kept+o)
	}
	return line[:start], out
}

// looseRun is the text of the unclaimed words that end at the cursor, and
// where in the line they start.
func looseRun(line string, rest []word, cur word) (start int, text string) {
	start = cur.start
	for _, w := range slices.Backward(rest) {
		if w.name != "" {
			break
		}
		start = w.start
	}
	return start, line[start:cur.end]
}

// lastItem is where the last item of a list begins: what stands before it is
// finished, however long it is.
func lastItem(list string) int {
	at := 0
	for _, sep := range []string{", ", " and ", "+ "} {
		if i := strings.LastIndex(list, sep); i >= 0 {
			at = max(at, i+len(sep))
		}
	}
	return at
}

// values suggests whole values of one option.
func values(ctx context.Context, a Assistant, call commands.Call, o commands.Option, typed string) []string {
	switch o.Kind {
	case commands.Text:
		return nil
	case commands.Pick, commands.Hint:
		var all []string
		for _, c := range o.Choices {
			all = append(all, c.Value)
		}
		return withPrefix(all, typed, "")
	}
	var out []string
	for _, c := range a.Complete(ctx, call, o.Name, typed) {
		out = append(out, c.Value)
	}
	return out
}

// withPrefix keeps the names that start with prefix and ends each with end.
func withPrefix(names []string, prefix, end string) []string {
	var out []string
	for _, n := range names {
		if strings.HasPrefix(n, strings.ToLower(prefix)) {
			out = append(out, n+end)
		}
	}
	return out
}

func names(cmds []commands.Command) []string {
	out := make([]string, len(cmds))
	for i, c := range cmds {
		out[i] = c.Name
	}
	return out
}
