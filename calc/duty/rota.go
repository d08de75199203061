package duty

import (
	"math"
	"slices"

	"heapside/calc/heap"
)

// MaxMembers is how many people a rota holds (own choice).
const MaxMembers = 50

// Rota are the people who take turns, in the order they agreed on. Whoever did
// the least for the days they were there comes next.
type Rota struct {
	Members  []Member  `json:"members,omitempty"`
	StandIns []StandIn `json:"stand_ins,omitempty"`
}

// Member is one person of the rota.
type Member struct {
	heap.Person
	Joined  Date    `json:"joined"`
	Away    []Span  `json:"away,omitempty"`
	Asked   float64 `json:"asked,omitempty"` // how often they were asked, older times fading
	AskedOn Date    `json:"asked_on"`        // when last
}

// Span are the days from From until and with To; a zero To has no end.
type Span struct {
	From Date `json:"from"`
	To   Date `json:"to"`
}

// Holds reports whether a day lies in the span.
func (s Span) Holds(d Date) bool {
	return !d.Before(s.From) && (s.To.IsZero() || !s.To.Before(d))
}

// StandIn is one turn of For that By takes.
type StandIn struct {
	For heap.Person `json:"for"`
	By  heap.Person `json:"by"`
}

// Turn is one turn of the rota: whose it is, and who is asked, which differ
// where somebody stands in.
type Turn struct{ Whose, Who heap.Person }

// What a turn is given by. All own choice.
const (
	Window    = 90  // days that count
	askedHalf = 30  // days after which having been asked counts half
	askedCost = 1.0 // being asked counts as much as one job, so that nobody is asked alone for ever
)

// AwayOn reports whether a member is away on a day.
func (m Member) AwayOn(d Date) bool {
	return slices.ContainsFunc(m.Away, func(s Span) bool { return s.Holds(d) })
}

// Turn is whose turn it is on a day, given the work each person did within the
// Window (see Tally): the present member with the least of it for the days they
// were there, of equals the one who was asked longest ago, then the first. It
// is false when everybody is away, or nobody on the rota.
func (r Rota) Turn(day Date, done map[string]float64) (Turn, bool) {
	best, least := -1, 0.0
	for i, m := range r.Members {
		if m.AwayOn(day) {
			continue
		}
		load := m.load(day, done[m.ID])
		if best < 0 || load < least || load == least && m.AskedOn.Before(r.Members[best].AskedOn) {
			best, least = i, load
		}
	}
	if best < 0 {
		return Turn{}, false
	}
	whose := r.Members[best].Person
	for _, s := range r.StandIns {
		if s.For.ID == whose.ID && r.present(s.By.ID, day) {
			return Turn{whose, s.By}, true
		}
	}
	return Turn{whose, whose}, true
}

// load is the work of a member for each day they were there.
func (m Member) load(day Date, done float64) float64 {
	var days int
	for n := range Window {
		d := day.Add(-n)
		if !d.Before(m.Joined) && !m.AwayOn(d) {
			days++
		}
	}
	return (done + askedCost*m.asked(day)) / float64(max(1, days))
}

// asked is how often they were asked, faded until a day.
func (m Member) asked(day Date) float64 {
	if m.AskedOn.IsZero() {
		return 0
	}
	return m.Asked * math.Exp2(-float64(max(0, day.Since(m.AskedOn)))/askedHalf)
}

func (r Rota) present(id string, day Date) bool {
	i := r.index(id)
	return i >= 0 && !r.Members[i].AwayOn(day)
}

func (r Rota) index(id string) int {
	return slices.IndexFunc(r.Members, func(m Member) bool { return m.ID == id })
}

// Took is the rota after a turn was given on a day.
func (r Rota) Took(t Turn, day Date) Rota {
	r.Members, r.StandIns = slices.Clone(r.Members), slices.Clone(r.StandIns)
	if i := r.index(t.Whose.ID); i >= 0 {
		m := &r.Members[i]
		m.Asked, m.AskedOn = m.asked(day)+1, day
		m.Away = slices.DeleteFunc(slices.Clone(m.Away), func(s Span) bool {
			return !s.To.IsZero() && day.Since(s.To) > Window
		})
	}
	if t.Who.ID != t.Whose.ID {
		i := slices.Index(r.StandIns, StandIn{t.Whose, t.Who})
		if i >= 0 {
			r.StandIns = slices.Delete(r.StandIns, i, i+1)
		}
	}
	return r
}
