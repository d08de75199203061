//go:build race

package reminders

// usualSeeds is how many years are played: the race detector makes them ten
// times as long, and all of them do the same things at once.
const usualSeeds = 20
