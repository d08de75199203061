package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"heapside/commands"
)

// leaveForm is what leaves a form without sending it.
const leaveForm = "stop"

// fill asks for the fields of a form one after the other and prints the answer
// to all of them. The end of the input leaves the form as the word does. The
// chat is not locked meanwhile: a reminder may come between two fields.
func (c *Chat) fill(ctx context.Context, form *commands.Form) error {
	filled := map[string]string{}
	if _, err := fmt.Fprintf(c.Out, "  %s. An empty line leaves a thing out; %s leaves the form.\n", Clean(form.Title), leaveForm); err != nil {
		return err
	}
	for _, f := range form.Fields {
		said, err := c.ask(ctx, f)
		if errors.Is(err, io.EOF) || err == nil && strings.EqualFold(said, leaveForm) {
			_, err = fmt.Fprintln(c.Out, "Left; nothing was sent.")
			return err
		}
		if err != nil {
			return fmt.Errorf("read a field: %w", err)
		}
		filled[f.Option] = said
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	call := c.Call
	call.Now = c.Now()
	c.last = c.Assistant.Fill(ctx, call, form.Line, filled)
	_, err := io.WriteString(c.Out, Render(c.last))
	return err
}

// ask asks for one field; an empty line keeps what stands in it. What is needed
// is asked for again.
func (c *Chat) ask(ctx context.Context, f commands.Field) (string, error) {
	for {
		said, err := c.In.ReadLine(ctx, fieldPrompt(f))
		if said = strings.TrimSpace(said); said == "" {
			said = f.Value
		}
		if err != nil || said != "" || !f.Required {
			return said, err
		}
		if _, err := fmt.Fprintf(c.Out, "  This is needed; %s leaves the form.\n", leaveForm); err != nil {
			return "", err
		}
	}
}

func fieldPrompt(f commands.Field) string {
	prompt := f.Label
	switch {
	case f.Value != "":
		prompt += " [" + f.Value + "]"
	case f.Example != "":
		prompt += " (" + f.Example + ")"
	}
	return "  " + columns.Truncate(Clean(prompt), Width-4, "…") + ": "
}
