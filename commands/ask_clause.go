package commands

import "strings"

// orders are the commands that the last clause of a sentence may give, when
// what goes before is no more than its reason: "typo, take it back".
var orders = map[string]bool{
	"undo": true, "duty when": true, "duty pause": true, "duty off": true, "duty kinds": true, "duty quiet": true,
	"duty away": true, "duty join": true, "duty leave": true, "duty swap": true, "log note": true,
}

// hearsay hands on what somebody says, or what might be typed.
var hearsay = pattern(`\b(?:says?|said|saying|asks?|asked|wrote|told|tells?|like|example|type|typed|call|called|reads?|means?)\b`)

// orderAtEnd reads the last clause of a sentence that is not understood as a
// whole. What goes before must be a plain statement of the person's own.
func orderAtEnd(s sentence, k vocabulary) (path string, args map[string]string, ok bool) {
	at := strings.LastIndexAny(s.raw, ",;.!:")
	for at > 0 && (at+1 >= len(s.raw) || s.raw[at+1] != ' ') {
		at = strings.LastIndexAny(s.raw[:at], ",;.!:")
	}
	if at <= 0 || s.unfit || supposing.MatchString(strings.ToLower(s.raw)) {
		return "", nil, false
	}
	reason, told := readSentence(s.raw[:at], k)
	order, _ := readSentence(s.raw[at+1:], k)
	if !told || reason.question || reason.doubtful || reason.apart || hearsay.MatchString(reason.text) {
		return "", nil, false
	}
	found := candidates(order, k)
	if len(found) == 0 || !orders[found[0].intent.path] || len(found) > 1 && found[1].score == found[0].score {
		return "", nil, false
	}
	return found[0].intent.path, found[0].args, true
}
