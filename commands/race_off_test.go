//go:build !race

package commands_test

const underRace = false
