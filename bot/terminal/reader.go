package terminal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/peterh/liner"
)

// maxLine bounds a piped line; the commands refuse far shorter ones with a
// sentence, this only keeps a runaway input out of memory.
const maxLine = 1 << 20

// Pipe reads lines from a file or another program. It shows the prompt and the
// line it read, so that the output reads as a conversation.
type Pipe struct {
	lines chan string
	err   error // set before lines is closed
	out   io.Writer
}

// NewPipe starts reading from in. The reading ends with in.
func NewPipe(in io.Reader, out io.Writer) *Pipe {
	p := &Pipe{lines: make(chan string), out: out}
	go func() {
		defer close(p.lines)
		s := bufio.NewScanner(in)
		s.Buffer(nil, maxLine)
		for s.Scan() {
			p.lines <- s.Text()
		}
		p.err = s.Err()
	}()
	return p
}

// ReadLine returns the next line, io.EOF after the last.
func (p *Pipe) ReadLine(ctx context.Context, prompt string) (string, error) {
	select {
	case <-ctx.Done():
		return "", io.EOF
	case line, ok := <-p.lines:
		if !ok {
			if p.err != nil {
				return "", p.err
			}
			return "", io.EOF
		}
		_, err := fmt.Fprintln(p.out, prompt+Clean(line))
		return line, err
	}
}

// Keyboard reads lines with editing, history and completion.
type Keyboard struct {
	state   *liner.State
	history string
}

// Interactive reports whether both ends are a terminal that a Keyboard can use.
func Interactive(in io.Reader, out io.Writer) bool {
	if in != os.Stdin || out != os.Stdout {
		return false
	}
	for _, f := range []*os.File{os.Stdin, os.Stdout} {
		info, err := f.Stat()
		if err != nil || info.Mode()&os.ModeCharDevice == 0 {
			return false
		}
	}
	_, err := liner.TerminalMode()
	return err == nil
}

// NewKeyboard takes over the terminal until Close. complete is given the line
// up to the cursor; history is a file that keeps the lines, or empty.
func NewKeyboard(complete func(line string) (head string, suggestions []string), history string) *Keyboard {
	k := &Keyboard{state: liner.NewLiner(), history: history}
	k.state.SetCtrlCAborts(true)
	k.state.SetTabCompletionStyle(liner.TabPrints)
	k.state.SetWordCompleter(func(line string, pos int) (string, []string, string) {
		runes := []rune(line)
		head, suggestions := complete(string(runes[:pos]))
		return head, suggestions, string(runes[pos:])
	})
	if f, err := os.Open(history); err == nil {
		defer f.Close()
		k.state.ReadHistory(f) // a damaged history file costs only the history
	}
	return k
}

// ReadLine returns the next line; Ctrl-C, Ctrl-D and the end of ctx end the
// conversation. After the end of ctx the keyboard can only be closed.
func (k *Keyboard) ReadLine(ctx context.Context, prompt string) (string, error) {
	type typed struct {
		line string
		err  error
	}
	read := make(chan typed, 1)
	go func() {
		line, err := k.state.Prompt(prompt)
		read <- typed{line, err}
	}()
	var got typed
	select {
	case <-ctx.Done():
		return "", io.EOF
	case got = <-read:
	}
	if errors.Is(got.err, liner.ErrPromptAborted) {
		return "", io.EOF
	}
	if got.err == nil && got.line != "" {
		k.state.AppendHistory(got.line)
	}
	return got.line, got.err
}

// Close gives the terminal back and writes the history.
func (k *Keyboard) Close() error {
	err := k.state.Close()
	if k.history == "" {
		return err
	}
	f, openErr := os.OpenFile(k.history, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if openErr != nil {
		return errors.Join(err, openErr)
	}
	_, writeErr := k.state.WriteHistory(f)
	return errors.Join(err, writeErr, f.Close())
}
