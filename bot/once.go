package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"time"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/commands"
	"heapside/storage"
)

// once answers one line.
type once struct {
	seat
	now  time.Time
	json bool
}

func onceFlags(m *Main, fs *flag.FlagSet) func(context.Context, []string) error {
	var o once
	o.flags(m, fs)
	fs.Func("now", "the `TIME` to answer for, as 2026-05-03T12:00:00Z (default the present)", func(text string) (err error) {
		if o.now, err = time.Parse(time.RFC3339, text); err != nil {
			return errors.New("write a time as 2026-05-03T12:00:00Z")
		}
		return nil
	})
	fs.BoolVar(&o.json, "json", false, "print one JSON object, with the numbers of the answer under values")
	return func(ctx context.Context, words []string) error {
		if words[0] == dueWord { // no command of the chat: its flags may follow it
			if err := fs.Parse(words[1:]); err != nil {
				return &usageError{fmt.Sprintf("heapside once due: %v; heapside once -h lists its flags.", err)}
			}
			words = append([]string{dueWord}, fs.Args()...)
		}
		return o.run(ctx, m, words)
	}
}

// dueWord asks what reminder would come, which only a terminal asks.
const dueWord = "due"

// due is the reminder that would be said in a place at a time, and when the next
// one comes. Nothing is written or sent.
func (o office) due(ctx context.Context, call commands.Call, log *slog.Logger) (commands.Reply, error) {
	posts, err := o.engine(unspoken{}, log, storage.Reach{Only: call.Place}).Preview(ctx, call.Now, &call.Place)
	if err != nil {
		return commands.Reply{}, err
	}
	if len(posts) == 0 {
		return commands.Reply{Headline: "Nothing would be said at " + call.Now.Format(time.RFC3339) + "."}, nil
	}
	return reminder(ctx, o.db, posts[0])
}

func (o *once) run(ctx context.Context, m *Main, words []string) error {
	reply, err := o.ask(ctx, m, words)
	if err != nil {
		e, ok := fault.As(err)
		if !ok {
			e = fault.New(fault.NotSaved, "%v", err)
		}
		reply = commands.Reply{Headline: e.Message, Err: e}
	}
	if o.json {
		if err := printJSON(m.Out, reply); err != nil {
			return err
		}
	} else if reply.Err == nil {
		if _, err := io.WriteString(m.Out, terminal.Render(reply)); err != nil {
			return fmt.Errorf("print the answer: %w", err)
		}
	}
	if reply.Err != nil {
		return reply.Err
	}
	return o.save(m, reply)
}

func (o *once) ask(ctx context.Context, m *Main, words []string) (commands.Reply, error) {
	log := m.logger(o.verbose)
	off, err := m.office(ctx, o.db, log, nil)
	if err != nil {
		return commands.Reply{}, err
	}
	call := o.call(m)
	call.Now = o.now
	if call.Now.IsZero() {
		call.Now = m.now()
	}
	if len(words) == 1 && words[0] == dueWord {
		return off.due(ctx, call, log)
	}
	return off.assistant.Line(ctx, call, terminal.JoinArgs(words, off.assistant.Commands())), nil
}

// save writes the attachments where -out says, and says where on standard
// error, which leaves standard output to the answer.
func (o *once) save(m *Main, reply commands.Reply) error {
	if o.out == "" {
		return nil
	}
	paths, err := terminal.Save(o.out, reply.Files)
	for _, p := range paths {
		fmt.Fprintln(m.Err, "Saved", terminal.Clean(p))
	}
	return err
}

// answer is a reply as scripts read it.
type answer struct {
	Headline string                    `json:"headline"`
	Body     []block                   `json:"body"`
	Cautions []string                  `json:"cautions"`
	Basis    []string                  `json:"basis"`
	Actions  []action                  `json:"actions"`
	Private  bool                      `json:"private"`
	Error    *failure                  `json:"error"`
	Values   map[string]commands.Value `json:"values"`
}

type block struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
}

type action struct {
	Label string `json:"label"`
	Line  string `json:"line"`
}

type failure struct {
	Code    fault.Code `json:"code"`
	Message string     `json:"message"`
}

// printJSON prints a reply as one object. Lists are never null, so that a
// script can loop over them.
func printJSON(w io.Writer, r commands.Reply) error {
	a := answer{
		Headline: r.Headline,
		Body:     make([]block, len(r.Body)),
		Cautions: append([]string{}, r.Cautions...),
		Basis:    append([]string{}, r.Basis...),
		Actions:  make([]action, len(r.Actions)),
		Private:  r.Private,
		Values:   r.Values,
	}
	for i, b := range r.Body {
		a.Body[i] = block{b.Title, append([]string{}, b.Lines...)}
	}
	for i, x := range r.Actions {
		a.Actions[i] = action{x.Label, x.Line}
	}
	if r.Err != nil {
		a.Error = &failure{r.Err.Code, r.Err.Message}
	}
	if a.Values == nil {
		a.Values = map[string]commands.Value{}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(a); err != nil {
		return fmt.Errorf("print the answer as JSON: %w", err)
	}
	return nil
}
