package main

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/commands"
	"heapside/reminders"
	"heapside/storage"
	"heapside/testdata/demo"
)

// demoHost is who one is in the demo unless -as says otherwise; an organiser.
const demoHost = "Wren"

// chat is a local conversation.
type chat struct {
	seat
	demo  bool
	given map[string]bool // the flags that were named
}

func chatFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var c chat
	c.flags(m, flags)
	flags.BoolVar(&c.demo, "demo", false, "start from the invented Millrace Lane garden, in a file that is removed afterwards\nunless -db names a new one")
	return func(ctx context.Context, _ []string) error {
		c.given = map[string]bool{}
		flags.Visit(func(f *flag.Flag) { c.given[f.Name] = true })
		return c.run(ctx, m)
	}
}

func (c *chat) run(ctx context.Context, m *Main) error {
	history := c.db + ".history"
	if c.demo {
		history = ""
		if err := c.prepareDemo(m); err != nil {
			return err
		}
	}
	log := m.logger(c.verbose)
	o, err := m.office(ctx, c.db, log, c.sky(m))
	if err != nil {
		return err
	}
	call := c.call(m)
	if c.demo {
		if err := demo.Load(ctx, o.assistant, call.Place, m.now(), terminal.Person); err != nil {
			return err
		}
	}
	screen := terminal.NewScreen(m.Out)
	talk := &terminal.Chat{
		Assistant: o.assistant,
		Call:      call,
		Now:       m.now,
		In:        m.lines(ctx, o.assistant, call, screen, history),
		Out:       screen,
		Folder:    cmp.Or(c.out, "."),
	}
	return c.talk(ctx, talk, o.engine(onScreen{o.db, talk}, log, storage.Reach{Only: call.Place}))
}

// talk holds the conversation; what is due is said before it, and while it lasts.
func (c *chat) talk(ctx context.Context, talk *terminal.Chat, engine *reminders.Engine) error {
	if err := engine.Tick(ctx); err != nil && ctx.Err() == nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	reminded := make(chan error, 1)
	go func() { reminded <- engine.Run(ctx) }()
	err := talk.Run(ctx)
	stop()
	return errors.Join(err, <-reminded)
}

// sky is the invented weather in the demo, else that of the services.
func (c *chat) sky(m *Main) commands.Weather {
	if c.demo {
		return demo.Weather{Now: m.now()}
	}
	return nil
}

// prepareDemo finds a fresh file for the demo. It never loads into a record
// that somebody may be keeping.
func (c *chat) prepareDemo(m *Main) error {
	if !c.given["as"] {
		c.as, c.organiser = demoHost, true
	}
	if c.given["db"] {
		if _, err := os.Stat(c.db); !errors.Is(err, fs.ErrNotExist) {
			return fault.New(fault.Taken, "The demo wants a fresh file, but “%s” is there already; name another one, or leave -db out.", c.db)
		}
		return nil
	}
	dir, err := os.MkdirTemp("", "heapside-demo-")
	if err != nil {
		return fmt.Errorf("make a folder for the demo: %w", err)
	}
	m.closers = append(m.closers, func() error { return os.RemoveAll(dir) })
	c.db = filepath.Join(dir, "demo.db")
	return nil
}

// lines reads from the keyboard where there is one, and else what is piped in.
func (m *Main) lines(ctx context.Context, a *commands.Assistant, call commands.Call, screen *terminal.Screen, history string) terminal.LineReader {
	if !terminal.Interactive(m.In, m.Out) {
		return terminal.NewPipe(m.In, screen)
	}
	fmt.Fprintln(m.Out, "Type a command or a plain sentence. help lists the commands, Tab completes, quit leaves.")
	k := terminal.NewKeyboard(func(line string) (string, []string) {
		call := call
		call.Now = m.now()
		return terminal.Complete(ctx, a, call, line)
	}, history)
	m.closers = append(m.closers, k.Close)
	return k
}
