package reminders

import (
	"crypto/sha256"
	"encoding/base32"

	"heapside/calc/duty"
)

// nonceBytes are 120 bits: 24 characters, of the 25 that the platform takes.
const nonceBytes = 15

// nonce is the same for every attempt to post one message, whoever makes it.
func nonce(p duty.Post) string {
	h := sha256.New()
	for _, part := range []string{p.Place.Guild, p.Place.Channel, string(p.Kind), p.Day.String()} {
		h.Write([]byte(part))
		h.Write([]byte{0}) // so that parts cannot run into each other
	}
	return base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(h.Sum(nil)[:nonceBytes])
}
