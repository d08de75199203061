package storage

import (
	"strings"
	"time"
	"unicode/utf8"

	"heapside/calc/fault"
)

// What one channel may keep (own choice): far above what a garden needs, low
// enough that nobody fills the disk through a chat.
const (
	maxHeaps     = 200  // unfinished ones
	maxStock     = 500  // materials on hand
	maxMaterials = 300  // own feedstocks
	maxText      = 100  // characters of a name, a cover, an amount as said
	maxPayload   = 8192 // bytes of one entry or material as stored
)

// milliseconds is a time as it is stored; zero times are kept apart as 0.
func milliseconds(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

// instant is a stored time, in UTC.
func instant(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}

// text is something people wrote, and what it is.
type text struct{ what, said string }

// short refuses a text of more than maxText characters, and bytes that are no
// text to every engine.
func short(texts ...text) error {
	for _, t := range texts {
		if !utf8.ValidString(t.said) || strings.ContainsRune(t.said, 0) {
			return fault.New(fault.NotUnderstood, "%s that begins “%s” has characters that cannot be read. Type it anew.", t.what, clip(t.said))
		}
		if n := utf8.RuneCountInString(t.said); n > maxText {
			return fault.New(fault.TooLong, "%s of %d characters is too long: give at most %d. It began “%s”.", t.what, n, maxText, clip(t.said))
		}
	}
	return nil
}

func clip(text string) string {
	const shown = 20
	text = strings.ReplaceAll(strings.ToValidUTF8(text, "\uFFFD"), "\x00", "\uFFFD")
	if r := []rune(text); len(r) > shown {
		return string(r[:shown]) + "…"
	}
	return text
}

// small refuses what would be stored in more than maxPayload bytes.
func small(what string, data []byte) error {
	if len(data) > maxPayload {
		return fault.New(fault.TooLong, "%s is too long to keep: give at most about %d characters.", what, maxPayload/4)
	}
	return nil
}
