package main

import (
	"cmp"
	"flag"

	"heapside/bot/terminal"
	"heapside/calc/heap"
	"heapside/commands"
)

// The place of a terminal that names none. The demo lies there too, so that a
// script finds it without saying where.
const (
	localGuild   = "local"
	localChannel = "millrace-lane"
)

// seat is who sits at the terminal and where: the flags that chat and once share.
type seat struct {
	db             string
	guild, channel string
	as             string
	organiser      bool
	out            string
	verbose        bool
}

func (s *seat) flags(m *Main, fs *flag.FlagSet) {
	dbFlag(m, fs, &s.db)
	fs.StringVar(&s.guild, "guild", localGuild, "the `NAME` of the group whose record it is")
	fs.StringVar(&s.channel, "channel", localChannel, "the `NAME` of the channel; each has its own heaps")
	fs.StringVar(&s.as, "as", "", "the `NAME` you go by (default your user name)")
	fs.BoolVar(&s.organiser, "organiser", false, "you may do what organisers may")
	fs.StringVar(&s.out, "out", "", "the `FOLDER` that attachments are saved in")
	fs.BoolVar(&s.verbose, "v", false, "log to standard error")
}

// dbFlag declares -db with the default that the environment may change.
func dbFlag(m *Main, fs *flag.FlagSet, db *string) {
	fs.StringVar(db, "db", cmp.Or(m.setting("HEAPSIDE_DB"), "heapside.db"), "the `FILE` that keeps the record; HEAPSIDE_DB names another default")
}

// call is the call that every line of this seat starts from.
func (s *seat) call(m *Main) commands.Call {
	return commands.Call{
		Place:     heap.Place{Guild: s.guild, Channel: s.channel},
		By:        terminal.Person(cmp.Or(s.as, m.Getenv("USER"), "somebody")),
		Organiser: s.organiser,
	}
}
