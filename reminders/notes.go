package reminders

import (
	"fmt"
	"time"

	"heapside/calc/duty"
)

// saidLate is when a reminder says itself that it is late (own choice).
const saidLate = 15 * time.Minute

// notes are the lines that a digest begins with when not all went well.
func notes(s scene, o duty.Occurrence, missed []duty.Date) []string {
	var lines []string
	switch n := len(missed); n {
	case 0:
	case 1:
		lines = append(lines, fmt.Sprintf("The reminder of %s was not sent: %s", missed[0].Say(), notSent))
	default:
		lines = append(lines, fmt.Sprintf("%d reminders, %s to %s, were not sent: %s", n, missed[0].Say(), missed[n-1].Say(), notSent))
	}
	if due := o.At.In(s.zone); s.now.Sub(due) >= saidLate {
		lines = append(lines, fmt.Sprintf("This comes late: it was due %s at %s.", due.Format("Mon 2 Jan"), due.Format("15:04")))
	}
	return lines
}

// notSent is why a reminder never comes.
const notSent = "I was not running, or could not post here."

// The texts of notices: the one place that may still hear of it is another
// channel, which must not learn what is on record elsewhere.
const (
	noticeGone    = "Another channel here had reminders and is gone, so they have stopped. What was on record there is kept."
	noticeRefused = "I may not post the reminders of another channel here any more. Please let me read and write there again; until then I try every few hours."
)
