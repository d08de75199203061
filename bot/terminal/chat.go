package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"

	"heapside/calc/heap"
	"heapside/commands"
)

// Assistant is what the chat needs of the commands.
type Assistant interface {
	Commands() []commands.Command
	Line(ctx context.Context, call commands.Call, line string) commands.Reply
	Fill(ctx context.Context, call commands.Call, line string, filled map[string]string) commands.Reply
	Complete(ctx context.Context, call commands.Call, option, typed string) []commands.Choice
}

// LineReader shows a prompt and returns the next line without its end, io.EOF
// when there are no more.
type LineReader interface {
	ReadLine(ctx context.Context, prompt string) (string, error)
}

// Chat is one person's conversation with the assistant in one place.
type Chat struct {
	Assistant Assistant
	Call      commands.Call // place, person and rights of every line
	Now       func() time.Time
	In        LineReader
	Out       io.Writer // a Screen where reminders may come
	Folder    string    // where "save" writes, unless told otherwise

	mu   sync.Mutex     // guards last: reminders come at any time
	last commands.Reply // the answer that numbers and "save" refer to
}

// Person is the person of a local name: the same name in any case is the same
// person.
func Person(name string) heap.Person {
	return heap.Person{ID: strings.ToLower(name), Name: name}
}

// Run answers lines until they end, the person quits or ctx does.
func (c *Chat) Run(ctx context.Context) error {
	prompt := promptFor(c.Call.Place.Channel)
	for {
		line, err := c.In.ReadLine(ctx, prompt)
		if errors.Is(err, io.EOF) || ctx.Err() != nil {
			return nil
		}
		if err != nil {
			return fmt.Errorf("read a line: %w", err)
		}
		form, more, err := c.respond(ctx, strings.TrimSpace(line))
		if form != nil && err == nil {
			err = c.fill(ctx, form)
		}
		if err != nil {
			return fmt.Errorf("answer a line: %w", err)
		}
		if !more {
			return nil
		}
	}
}

// respond prints the answer to one line, and returns the form that it opens.
func (c *Chat) respond(ctx context.Context, line string) (form *commands.Form, more bool, err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	answer, form, more := c.answer(ctx, line)
	_, err = io.WriteString(c.Out, answer)
	return form, more, err
}

// Say prints what nobody asked for just now. Its buttons are what a number
// means from then on.
func (c *Chat) Say(r commands.Reply) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.last = r
	_, err := io.WriteString(c.Out, "\n"+Render(r))
	return err
}

// maxPrompt is how many columns of a channel's name the prompt shows.
const maxPrompt = 30

// promptFor names the channel. A keyboard takes nothing in a prompt that does
// not print, such as the joiners inside an emoji.
func promptFor(channel string) string {
	name := strings.Map(func(r rune) rune {
		if unicode.Is(unicode.C, r) {
			return -1
		}
		return r
	}, Clean(channel))
	return columns.Truncate(name, maxPrompt, "…") + "> "
}

// answer carries out one line; more is false when it ends the chat.
func (c *Chat) answer(ctx context.Context, line string) (text string, form *commands.Form, more bool) {
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch {
	case line == "":
		return "", nil, true
	case line == "quit" || line == "exit":
		return "", nil, false
	case word == "help":
		return c.help(rest), nil, true
	case word == "save":
		return c.save(rest), nil, true
	}
	if n, err := strconv.Atoi(line); err == nil && len(c.last.Actions) > 0 {
		if n < 1 || n > len(c.last.Actions) {
			return fmt.Sprintf("There is no button %d under the last answer; it has 1 to %d.\n", n, len(c.last.Actions)), nil, true
		}
		line = c.last.Actions[n-1].Line
	}
	call := c.Call
	call.Now = c.Now()
	c.last = c.Assistant.Line(ctx, call, line)
	return Render(c.last), c.last.Form, true
}

func (c *Chat) help(words string) string {
	text, ok := Help(c.Assistant.Commands(), words)
	if !ok {
		var p printer
		p.line("", fmt.Sprintf("There is no command “%s”; help lists them all.", words))
		return p.String()
	}
	return text
}

func (c *Chat) save(folder string) string {
	if len(c.last.Files) == 0 {
		return "The last answer has no attachment to save.\n"
	}
	if folder == "" {
		folder = c.Folder
	}
	paths, err := Save(folder, c.last.Files)
	var p printer
	for _, path := range paths {
		p.line("", "Saved "+path)
	}
	if err != nil {
		p.line("", "Not saved: "+err.Error())
	}
	return p.String()
}
