package hygiene

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"heapside/calc/measure"
)

// Effect is what a trial found.
type Effect string

// The effects.
const (
	Unharmed Effect = "unharmed"
	Survived Effect = "survived" // some of it
	Killed   Effect = "killed"   // none was found alive, or the paper says lethal
)

// Trial is one published test of what heat does to one weed, disease or germ.
type Trial struct {
	Of      string // the name it is listed by: "common purslane"
	Source  string
	Locator string
	Seen    Seen
	In      string        // the conditions: "in moist soil"; empty: not said
	C       float64       // Celsius, or the lower end of what was held; 0: not said
	MostC   float64       // the upper end; 0: C alone
	Over    bool          // more than C
	Below   bool          // less than C
	For     time.Duration // 0: not said
	Effect  Effect
	LeftPct [2]float64 // share that lived, from and to, %; 0, 0: not said, or none
	Note    string     // a sentence more, or empty
}

// Bears says whether the trial tells anything of a time held at c Celsius: one
// that killed does when it was no hotter and no longer, one that did not when it
// was no cooler and no shorter. Of a span of temperature the upper end counts,
// which claims less. A trial without a temperature bears on none, one without a
// time on all.
func (t Trial) Bears(c float64, held time.Duration) bool {
	at := max(t.C, t.MostC)
	switch {
	case at == 0:
		return false
	case t.Effect == Killed:
		return (c > at || c == at && !t.Over) && held >= t.For
	}
	return c <= at && (t.For == 0 || held <= t.For)
}

// Bearing keeps the trials that bear on a time held at c Celsius.
func Bearing(trials []Trial, c float64, held time.Duration) []Trial {
	var out []Trial
	for _, t := range trials {
		if t.Bears(c, held) {
			out = append(out, t)
		}
	}
	return out
}

// Disagree says that of trials that bear on one time and temperature some killed
// what others found alive: whoever names one then names the other beside it.
func Disagree(trials []Trial) bool {
	return slices.ContainsFunc(trials, func(t Trial) bool {
		return t.Effect == Killed && slices.ContainsFunc(trials, func(o Trial) bool { return o.Of == t.Of && o.Effect != Killed })
	})
}

// Say is the trial in a sentence: "Common purslane in moist soil: 4 to 30 %
// lived after 7 days at 60 °C (Egley 1990)."
func (t Trial) Say(m measure.Measures) string {
	line := capital(t.Of)
	if t.In != "" {
		line += " " + t.In
	}
	line += ": " + t.outcome()
	if t.For > 0 {
		line += " " + sayHeld(t.For)
	}
	if t.C > 0 {
		line += " " + t.at(m)
	}
	if t.C > 0 && t.For == 0 {
		line += ", time not known to us"
	}
	source := t.Source
	if t.Seen != Read {
		source += ", " + string(t.Seen)
	}
	line += " (" + source + ")."
	if t.Note != "" {
		line += " " + t.Note
	}
	return line
}

func (t Trial) outcome() string {
	switch {
	case t.Effect == Unharmed:
		return "unharmed"
	case t.Effect == Killed:
		return "none lived"
	case t.LeftPct[0] == t.LeftPct[1] && t.LeftPct[0] > 0:
		return fmt.Sprintf("%g %% lived", t.LeftPct[0])
	case t.LeftPct[1] > 0:
		return fmt.Sprintf("%g to %g %% lived", t.LeftPct[0], t.LeftPct[1])
	}
	return "some lived"
}

func (t Trial) at(m measure.Measures) string {
	switch {
	case t.MostC > 0:
		number, _, _ := strings.Cut(m.SayTemperature(t.C), " ")
		return "at " + number + " to " + m.SayTemperature(t.MostC)
	case t.Over:
		return "above " + m.SayTemperature(t.C)
	case t.Below:
		return "below " + m.SayTemperature(t.C)
	}
	return "at " + m.SayTemperature(t.C)
}

// sayHeld writes how long something was held: "after 5 seconds", "after 3 days".
func sayHeld(d time.Duration) string {
	switch {
	case d < time.Minute:
		return "after " + counted(ceil(d, time.Second), "second")
	case d < 2*time.Hour && d%time.Hour != 0:
		return "after " + counted(ceil(d, time.Minute), "minute")
	case d >= 60*day && d%(30*day) == 0:
		return "after " + counted(ceil(d, 30*day), "month")
	}
	return "after " + sayTime(d)
}
