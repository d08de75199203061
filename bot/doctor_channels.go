package main

import (
	"context"
	"fmt"
	"slices"

	"heapside/bot/discord"
	"heapside/storage"
)

// maxChannels is how many channels are looked at; the reminded ones come first
// (own choice).
const maxChannels = 40

// wherePermissions is where the platform's client keeps them (from memory).
const wherePermissions = "Channel settings > Permissions"

// complaint is what stops messages in some channels, and how to mend it.
type complaint struct {
	is   string // warn or bad
	mend string // with a place for the names
}

// lookAtServers asks which servers the bot is in, and what it may do in each
// channel that the record knows.
func (d *doctor) lookAtServers(ctx context.Context, i *discord.Inspector, _ int) error {
	servers, err := i.Servers(ctx)
	if err != nil {
		return err
	}
	d.ok("servers", "The bot is in %s.", counted(servers, "server", "servers"))
	var there []storage.Watched
	for _, w := range d.record.Watched {
		if w.Place.Guild != localGuild {
			there = append(there, w)
		}
	}
	slices.SortStableFunc(there, func(a, b storage.Watched) int { return reminded(b) - reminded(a) })
	if more := len(there) - maxChannels; more > 0 {
		defer d.warn("channels", "Only %d were looked at; %d more have heaps.", maxChannels, more)
		there = there[:maxChannels]
	}
	var good []string
	var order []complaint
	named := map[complaint][]string{}
	for _, w := range there {
		a, err := i.Access(ctx, w.Place)
		if err != nil {
			return err
		}
		if a.OK() {
			good = append(good, channelName(a))
			continue
		}
		c := complains(a, w.Plan.On)
		if named[c] == nil {
			order = append(order, c)
		}
		named[c] = append(named[c], channelName(a))
	}
	for _, c := range order {
		d.say(c.is, "channels", c.mend, listed(named[c]))
	}
	switch {
	case len(there) == 0:
		d.ok("channels", "The record knows none with heaps or reminders yet.")
	case len(good) > 0:
		d.ok("channels", "The bot may see, write, embed and attach in %s.", listed(good))
	}
	return nil
}

func reminded(w storage.Watched) int {
	if w.Plan.On {
		return 1
	}
	return 0
}

// complains is what is wrong in a channel. It is bad where reminders are lost.
func complains(a discord.Access, reminded bool) complaint {
	is := "warn"
	if reminded && !a.Posts() {
		is = "bad"
	}
	switch {
	case a.NotInTheGuild:
		return complaint{"warn", "The bot is no longer in the server " + a.Place.Guild + ", of which the record has the channels %s. Invite it again, or take the group out of the record: heapside forget guild " + a.Place.Guild}
	case a.ChannelGone:
		return complaint{"warn", "Gone: %s. What is on record there is kept; to write it out: heapside export -guild " + a.Place.Guild + " DIR"}
	case a.Silenced:
		return complaint{is, "The bot is silenced in %s. A moderator takes that back in the list of members."}
	case a.Locked:
		return complaint{is, "Locked, and so without reminders: %s. Whoever may manage threads unlocks it."}
	}
	lost := ""
	if is == "bad" {
		lost = ", so that reminders do not come through"
	}
	return complaint{is, "In %s the bot lacks " + listed(a.Lacks) + lost + ". " + wherePermissions + ": add the bot there and allow this."}
}

// channelName is a channel as people know it, or as far as it is known.
func channelName(a discord.Access) string {
	switch {
	case a.NotInTheGuild:
		return a.Place.Channel
	case a.Name == "":
		return fmt.Sprintf("%s (in “%s”)", a.Place.Channel, a.Server)
	case a.Thread:
		return fmt.Sprintf("the thread “%s” (in “%s”)", a.Name, a.Server)
	}
	return fmt.Sprintf("#%s (in “%s”)", a.Name, a.Server)
}
