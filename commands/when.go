package commands

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"heapside/calc/measure"
)

// timeWords are what a time at the end of what was logged begins with.
// "12 may" alone could be an amount, and "sun" the weather.
var timeWords = strings.Fields("yesterday today this last earlier on sunday monday tuesday wednesday thursday friday saturday")

// longestWhen is how many words such a time has at most: "on monday at half past
// six in the evening". Own choice.
const longestWhen = 9

// placeWhen takes "yesterday" or "2 hours ago" off the end of what was logged
// and gives it to the option for times: left there it would be logged as of now.
// A note keeps every word.
func placeWhen(command Command, args map[string]string, words string) string {
	i := slices.IndexFunc(command.Options, func(o Option) bool { return o.Kind == Moment && o.Name == whenOption.Name })
	if i < 0 || args[whenOption.Name] != "" || command.Name == "note" {
		return words
	}
	left, when := cutWhen(words)
	if when != "" {
		args[whenOption.Name] = when
	}
	return left
}

// cutWhen parts the longest time from the end of words, or the one that stands
// before their first comma; when is empty if there is none.
func cutWhen(words string) (left, when string) {
	if before, after, ok := strings.Cut(words, ","); ok && readsWhen(strings.Fields(before)) {
		return strings.TrimSpace(after), strings.TrimSpace(before)
	}
	inWord := false
	for i, r := range words {
		begins := !inWord && !unicode.IsSpace(r)
		inWord = !unicode.IsSpace(r)
		if !begins {
			continue
		}
		tail := strings.Fields(strings.TrimRight(words[i:], ".! "))
		if readsWhen(tail) {
			return strings.TrimRightFunc(words[:i], func(r rune) bool { return unicode.IsSpace(r) || r == ',' || r == ';' }), strings.Join(tail, " ")
		}
	}
	return words, ""
}

// readsWhen reports whether words are a time and of the kind that nothing else is.
func readsWhen(words []string) bool {
	if len(words) == 0 || len(words) > longestWhen {
		return false
	}
	first, last := strings.ToLower(words[0]), strings.ToLower(words[len(words)-1])
	clock := strings.Contains(last, ":") || strings.HasSuffix(last, "am") || strings.HasSuffix(last, "pm")
	if !slices.Contains(timeWords, first) && last != "ago" && (first != "at" || !clock) {
		return false
	}
	_, err := measure.ParseWhen(strings.Join(words, " "), anyDay, time.UTC)
	return isRead(err)
}
