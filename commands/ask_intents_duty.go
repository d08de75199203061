package commands

import (
	"slices"
	"strings"
	"time"

	"heapside/calc/fault"
	"heapside/calc/measure"
)

// dutyIntents ask about the reminders and the rota, and change them.
var dutyIntents = []intent{
	{
		path: "duty next", example: "whose turn is it?",
		cues: []cue{
			{10, pattern(`\b(?:whose|who is|who has|who gets)(?: #| the| next| up)* (?:turn|duty|go|job)\b|\bwho is (?:on duty|on the rota (?:today|next|this week|tomorrow)|next|up next|doing it (?:today|next|tomorrow|this week))\b|\bwhose (?:turn|go|week|duty|shift|job)\b|\bwho (?:is (?:up |on |next )*|comes |goes |follows |has it )(?:after|before|following) me\b|\bwho is (?:up|doing (?:it|the heaps?|#))\b`)},
			{9, pattern(`\bwhen (?:is|am i|do i have) (?:it )?(?:my|the next|our next) (?:turn|reminder|duty|go)\b|\bwhen (?:does|will|do) (?:the |our )?(?:next )?reminders? (?:come|arrive|be sent|go out)\b|\bwhen am i (?:on duty|next|due|up)\b|\bis it (?:my go|me)\b|\bwhen (?:do|will|does) (?:i|we|you) (?:get |be )?remind(?:ed)?\b|\bwhen is my next go\b|^who (?:does|is doing|will do|looks after|is looking after|cares for)\b|\bam i (?:on duty|next)\b`)},
		},
	},
	{
		path: "duty show", example: "how are the reminders set?",
		cues: []cue{
			{9, pattern(`\b(?:how|when|what|which|show|see|list|tell me)\b.*\b(?:reminders|reminded of)\b(?: set| set up| on| we have| there)*`)},
			{9, pattern(`\bwho (?:is|are)(?: all)? (?:on|in) (?:the |our )?(?:rota|roster|list of turns)\b|^(?:show |see |what is |list )?(?:me )?(?:the |our )?(?:rota|roster)(?: ?\?)*$|^(?:the |our )?reminders(?: ?\?)*$|^who (?:takes|is taking) (?:the )?turns\b`)},
		},
	},
	{
		path: "duty when", writes: true, example: "remind us on saturdays at 6", fill: fillReminders,
		cues: []cue{{9, pattern(`^(?:please )?(?:set|switch on|turn on|start|send|give) (?:us |me |the |our |a |up )*(?:reminders?|reminding)\b|^set us\b|^reminders? (?:please |only |: )*(?:on|every|each|at|daily|weekly|weekdays|weekends|mon|tue|wed|thu|fri|sat|sun)|^(?:please )?(?:switch|turn) (?:the |our )*reminders? (?:back )?on\b`)}},
	},
	{
		path: "duty pause", writes: true, example: "pause the reminders until monday", fill: fillPause,
		cues: []cue{
			{9, pattern(`^(?:please )?(?:pause|suspend|hold|stop) (?:the |our |all )*(?:reminders?|reminding us)\b.+`)},
			{9, pattern(`^(?:please )?no (?:more )?reminders?\b.+`)},
		},
	},
	{
		path: "duty off", writes: true, example: "stop the reminders",
		cues: []cue{
			{8, pattern(`^(?:please )?(?:stop|end|switch off|turn off|no more|halt|kill|silence) (?:the |our |all |these |those |your |sending )*(?:reminders?|reminding us|reminding)(?: any ?more| now| for now| at all| again)*(?: ?[.!])*$|^(?:please )?no reminders?(?: any ?more| now| for now| at all)+(?: ?[.!])*$`)},
			{8, pattern(`^(?:please )?(?:switch|turn) (?:the |our |all )*reminders? off\b`)},
		},
	},
	{
		path: "duty kinds", writes: true, example: "stop reminding us about watering", fill: fillKind,
		cues: []cue{
			{9, pattern(`^(?:please )?(?:stop reminding us|no (?:more )?reminders?|stop (?:the )?reminders?) (?:about|of|for) `)},
			{9, pattern(`^(?:please )?set us (?:about|of) `)},
		},
	},
	{
		path: "duty quiet", writes: true, example: "no messages between 9 pm and 8 am", fill: fillQuiet,
		cues: []cue{{9, pattern(`^(?:please )?(?:(?:no|do not send|send no) (?:messages?|reminders?|posts?)|do not (?:write|post)|(?:set )?(?:the |our )?quiet(?: hours| time)?|be quiet|keep quiet)(?: (?:please|at all|at night|overnight|any ?more|here|for us|to us|in the night|now|are|is|:|,))* (?:from|between|after|before|to|at|\d|nine|ten|eleven|eight|midnight).*`)}},
	},
	{
		path: "duty away", writes: true, example: "I'm away from 3 to 17 August", fill: fillAway,
		cues: []cue{
			{9, pattern(`^i am away then\b`)},
			{8, pattern(`^i am back(?: ?[.!])*$`)},
		},
	},
	{
		path: "duty join", writes: true, example: "put me on the rota",
		cues: []cue{{9, pattern(`^(?:please )?(?:put|add|sign|count|include|pop|stick|get|write|enter|have|enrol|enroll|list|place|chuck|throw|pencil|squeeze|slot) me (?:up |down |in |back )?(?:on|to|in|for|on to|onto|into|part of)\b(?: to| for)?(?: the| our)? ?(?:rota|roster|turns|duty list|duty)\b|^i (?:join|will join) the (?:rota|roster)\b`)}},
	},
	{
		path: "duty leave", writes: true, example: "take me off the rota",
		cues: []cue{{9, pattern(`^(?:please )?(?:take|remove|drop|leave|strike|cross|scratch|pull|get|delete|kick) me (?:back )?(?:off|from|out of)(?: the| our)? (?:rota|roster|duty list)\b|^i (?:am leaving|leave) the (?:rota|roster)\b`)}},
	},
	{
		path: "duty swap", writes: true, example: "swap my turn with Tobias", fill: fillSwap,
		cues: []cue{{9, pattern(`^(?:please )?(?:swap|switch|trade|exchange)(?: (?:my|our|a|the|next|with me|go|goes|turns?|dut(?:y|ies)|days?|weeks?|shifts?|places?))*(?: (?:on|for|of) (?:\w+ ?){1,3})? with .+`)}},
	},
	{
		path: "duty weekly", writes: true, example: "sum up the week on sundays", fill: fillSummary,
		cues: []cue{{9, pattern(`^(?:please )?(?:(?:send|give|post|write)(?: us| me)? )?(?:a |the )?(?:weekly (?:summary|report|sum|round-?up)|sum(?:mary of| up) the week|sum the week up)\b`)}},
	},
}

// longestOf is the longest run of the words, from first to last as written, that
// accept takes; "" when none is.
func longestOf(said string, accept func(string) bool) string {
	words := strings.Fields(said)
	for n := len(words); n > 0; n-- {
		for i := 0; i+n <= len(words); i++ {
			if part := strings.Trim(strings.Join(words[i:i+n], " "), ".,;:!? "); part != "" && accept(part) {
				return part
			}
		}
	}
	return ""
}

// anyDay is when a sentence is read to find its times. Any day will do: the
// command reads them again by its own clock, and says what is wrong with them.
var anyDay = time.Date(2027, time.July, 1, 12, 0, 0, 0, time.UTC)

func isRead(err error) bool {
	e, ok := fault.As(err)
	return !ok || e.Code != fault.NotUnderstood
}

func readsDay(said string) bool {
	_, err := measure.ParseDay(said, anyDay, time.UTC)
	return isRead(err)
}

// readsDays does not take along that somebody is away.
func readsDays(said string) bool {
	word, _ := firstWord(strings.ToLower(said))
	if slices.Contains([]string{"i", "i'm", "i’m", "im", "am", "away", "on", "it", "is"}, word) {
		return false
	}
	_, _, err := measure.ParseDays(said, anyDay, time.UTC)
	return isRead(err)
}

func readsWeekly(said string) bool {
	_, err := measure.ParseWeekly(said)
	return isRead(err)
}

func readsHours(said string) bool {
	_, _, err := measure.ParseHours(said)
	return isRead(err)
}

// toldLater is asked for now, and comes with no reminder.
var toldLater = pattern(`\b(?:who|whose|when|why|how|where|which|whether)\b|\bwhat (?:happened|was|did|went|is|are)\b`)

func fillReminders(s sentence, _ vocabulary) (map[string]string, bool) {
	if toldLater.MatchString(s.text) {
		return nil, false
	}
	when := longestOf(s.raw, readsWeekly)
	if strings.HasPrefix(s.text, "reminder") {
		rest := strings.Replace(strings.ToLower(s.raw), strings.ToLower(when), "", 1)
		return map[string]string{"when": when}, when != "" && beside.MatchString(rest)
	}
	bare := len(strings.Fields(s.text)) <= 6 && !strings.HasPrefix(s.text, "set us") // "switch on the reminders"
	return map[string]string{"when": when}, when != "" || bare
}

// beside is what may stand beside "reminders" and their time.
var beside = pattern(`^(?:hi|hello|please|thanks|the|our|us|only|reminders?|[,.!: ])*$`)

var everyWeek = pattern(`(?i)\bon (?:mon|tues|wednes|thurs|fri|satur|sun)days?\b|\b(?:mon|tues|wednes|thurs|fri|satur|sun)days\b`)

func fillPause(s sentence, _ vocabulary) (map[string]string, bool) {
	if everyWeek.MatchString(s.raw) {
		return nil, false // that is no end
	}
	until := longestOf(s.raw, readsDay)
	return map[string]string{"until": until}, until != ""
}

var kindSaid = pattern(`^(?:please )?(?:stop reminding us|no (?:more )?reminders?|stop (?:the )?reminders?|set us) (?:about|of|for) (?:the )?([^.!?]+)`)

func fillKind(s sentence, _ vocabulary) (map[string]string, bool) {
	kind, err := findKind(strings.TrimSuffix(first(s.text, kindSaid), " again"))
	speak := " off"
	if strings.HasPrefix(s.text, "set us") {
		speak = " on"
	}
	return map[string]string{"kind": kind.Name + speak}, err == nil
}

func fillQuiet(s sentence, _ vocabulary) (map[string]string, bool) {
	hours := longestOf(s.raw, readsHours)
	return map[string]string{"hours": hours}, hours != ""
}

func fillAway(s sentence, _ vocabulary) (map[string]string, bool) {
	if strings.HasPrefix(s.text, "i am back") {
		return map[string]string{"days": "off"}, true
	}
	days := longestOf(s.raw, readsDays)
	return map[string]string{"days": days}, days != ""
}

var weekday = pattern(`(?i)\b((?:mon|tues|wednes|thurs|fri|satur|sun)day)s?\b`)

func fillSummary(s sentence, _ vocabulary) (map[string]string, bool) {
	day := strings.ToLower(first(s.raw, weekday))
	return map[string]string{"day": day}, day != ""
}

var swapText = pattern(`^swap with ([a-z]+)`)

var swapWith = pattern(`(?i)\bwith ((?:<@!?\d+>|[^.,;!?]+))`)

func fillSwap(s sentence, _ vocabulary) (map[string]string, bool) {
	with := first(s.raw, swapWith)
	for _, tail := range []string{" please", " thanks", " then"} {
		with = strings.TrimSuffix(with, tail)
	}
	if with == "" {
		with = capital(first(s.text, swapText))
	}
	return map[string]string{"person": with}, with != "" && !slices.Contains(nobodys, strings.ToLower(with))
}
