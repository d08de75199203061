//go:build !race

package process

const underRace = false
