package discord

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"heapside/calc/fault"
	"heapside/commands"
)

// What people read when no command could answer.
var (
	notHere   = refusal(fault.NotAllowed, "I work in the channels of a server, where your group shares its heaps. Use me there.")
	notRead   = refusal(fault.NotUnderstood, "I could not read that. Try the command again.")
	oldButton = refusal(fault.Unknown, "That button is from an older message. Type the command instead.")
	oldForm   = refusal(fault.Unknown, "That form is from an older message. Type the command instead.")
	busy      = refusal(fault.NotSaved, "I am busy just now and did nothing. Try again in a moment.")
	broken    = refusal(fault.NotSaved, "That went wrong on my side. Look at the history to see whether it was saved before you try again.")
	tooLong   = refusal(fault.NotSaved, "That took too long and I stopped. Look at the history to see whether it was saved before you try again.")
	unshown   = refusal(fault.NotSaved, "There is an answer, but it could not be shown. Look at the history to see what was saved.")
	elsewhere = commands.Reply{Headline: "The answer is shown only to the person who asked."}
)

func refusal(code fault.Code, sentence string) commands.Reply {
	return commands.Reply{Headline: sentence, Private: true, Err: fault.New(code, "%s", sentence)}
}

// exchange is one interaction and the answer to it.
type exchange struct {
	*Adapter
	*discordgo.Interaction
	received time.Time
}

// onInteraction hands an interaction to a goroutine of its own. It is called
// by the goroutine that reads the gateway and never blocks. What exceeds the
// bound is told so; what exceeds even that is dropped.
func (a *Adapter) onInteraction(i *discordgo.InteractionCreate) {
	if i == nil || i.Interaction == nil || i.ID == "" || i.Token == "" || i.Type == discordgo.InteractionPing {
		a.log.Warn("an interaction could not be read")
		return
	}
	x := &exchange{Adapter: a, Interaction: i.Interaction, received: time.Now()}
	if !a.begin(a.slots, x.answer) && !a.begin(a.spare, x.refuse) {
		x.heard(Dropped, "")
		a.log.Warn("an interaction was dropped: too many at once, or we are stopping")
	}
}

// begin runs f in a goroutine that holds a slot, unless there is none left or
// the adapter is stopping.
func (a *Adapter) begin(slots chan struct{}, f func()) bool {
	select {
	case slots <- struct{}{}:
	default:
		return false
	}
	began := a.apart("answering", func() {
		defer func() { <-slots }()
		f()
	})
	if !began {
		<-slots
	}
	return began
}

// apart runs f in a goroutine of its own, for which stopping waits a little,
// unless the adapter is stopping already.
func (a *Adapter) apart(doing string, f func()) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.draining {
		return false
	}
	a.inFlight.Add(1)
	go func() {
		defer a.inFlight.Done()
		defer a.survive(doing)
		f()
	}()
	return true
}

// survive keeps a panic from ending the process.
func (a *Adapter) survive(doing string) {
	if p := recover(); p != nil {
		a.log.Error("panic while "+doing, "panic", fmt.Sprint(p), "stack", string(debug.Stack()))
	}
}

// answer works on the interaction and sends what came out.
func (x *exchange) answer() {
	if x.Type == discordgo.InteractionApplicationCommandAutocomplete {
		x.complete()
		return
	}
	ctx, cancel := context.WithTimeout(x.work, x.cfg.AnswerIn)
	defer cancel()
	result := make(chan commands.Reply, 1)
	go func() { result <- x.reply(ctx) }()

	wait := time.NewTimer(x.cfg.DeferAfter)
	defer wait.Stop()
	select {
	case r := <-result:
		x.answered(r, x.deliver(r))
		return
	case <-wait.C:
	}
	x.check("postponing an answer", x.postpone())
	select {
	case r := <-result:
		x.answered(r, x.deliverLate(r))
	case <-ctx.Done():
		_ = x.deliverLate(tooLong) // what failed was logged, and it is late anyway
		x.heard(Late, "")
		<-result // the slot is free again only when the work is
	}
}

// reply asks the assistant; a panic there becomes an answer too.
func (x *exchange) reply(ctx context.Context) (r commands.Reply) {
	r = broken
	defer x.survive("running a command")
	return x.ask(ctx)
}

// deliver sends a reply as the first answer. A quiet one is not sent: whoever
// floods us would have the platform limit us for all. The error is that of the
// sending, which was logged.
func (x *exchange) deliver(r commands.Reply) error {
	if r.Quiet {
		return nil
	}
	m := Render(x.slashed(r))
	ways := []func() error{func() error { return x.respond(m) }}
	if x.replaces(r, m) {
		ways = slices.Insert(ways, 0, func() error { return x.replace(m) })
	}
	if f, ok := x.opens(r); ok {
		ways = slices.Insert(ways, 0, func() error { return x.open(f) })
	}
	return x.oneOf("sending an answer", ways, func() error { return x.respond(Render(unshown)) })
}

// deliverLate sends a reply after it was postponed for all to see. Whether the
// answer is private was settled then, so a private one follows as a second
// message. One that replaces the message above goes there, and the postponed
// answer is taken back: two messages would say the same. The error is that of
// deliver.
func (x *exchange) deliverLate(r commands.Reply) error {
	m := Render(x.slashed(r))
	if m.Private {
		x.check("sending a late answer", x.edit(Render(elsewhere)))
		err := x.follow(m)
		x.check("sending a private answer", err)
		return err
	}
	if x.replaces(r, m) {
		err := x.replaceLate(m)
		if err == nil {
			x.check("taking back a postponed answer", x.withdraw())
			return nil
		}
		x.check("replacing a message late", err)
	}
	return x.oneOf("sending a late answer", []func() error{func() error { return x.edit(m) }},
		func() error { return x.edit(Render(unshown)) })
}

// replaces reports whether a reply takes the place of the message whose button
// was pressed, or opened the form that was sent (from memory: the platform lets
// such a form do what its button may). A private one never does: all who see
// that message would.
func (x *exchange) replaces(r commands.Reply, m Message) bool {
	return r.Replace && !m.Private && x.Message != nil &&
		(x.Type == discordgo.InteractionMessageComponent || x.Type == discordgo.InteractionModalSubmit)
}

// oneOf tries one way after the other while the platform refuses what was sent,
// and at last something else instead. The error is that of the last way.
func (x *exchange) oneOf(doing string, ways []func() error, instead func() error) (err error) {
	for _, way := range ways {
		err = way()
		x.check(doing, err)
		if !clientError(err) || gone(err) {
			return err
		}
	}
	x.check(doing, instead())
	return err
}

// refuse says that there is too much to do.
func (x *exchange) refuse() {
	if x.Type == discordgo.InteractionApplicationCommandAutocomplete {
		x.check("sending suggestions", x.suggest([]suggestion{}))
	} else {
		_ = x.deliver(busy) // what failed was logged
	}
	x.heard(Busy, "")
}

// complete answers a completion in time, with nothing if need be.
func (x *exchange) complete() {
	ctx, cancel := context.WithTimeout(x.work, x.cfg.DeferAfter)
	defer cancel()
	result := make(chan []suggestion, 1)
	go func() {
		found := []suggestion{}
		defer func() { result <- found }()
		defer x.survive("completing")
		found = x.suggestions(ctx)
	}()
	select {
	case found := <-result:
		err := x.suggest(found)
		x.check("sending suggestions", err)
		x.answered(commands.Reply{}, err)
	case <-ctx.Done():
		x.check("sending suggestions", x.suggest([]suggestion{}))
		x.heard(Late, "")
		<-result
	}
}

// check logs what could not be sent.
func (x *exchange) check(doing string, err error) {
	if err == nil {
		return
	}
	attrs := []any{"err", err, "after", time.Since(x.received).Round(time.Millisecond)}
	var rest *discordgo.RESTError
	if errors.As(err, &rest) {
		attrs = append(attrs, "answer", strings.TrimSpace(string(rest.ResponseBody)))
	}
	x.log.Warn(doing, attrs...)
}
