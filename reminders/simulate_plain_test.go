//go:build !race

package reminders

// usualSeeds is how many years are played.
const usualSeeds = enough
