package commands

import (
	"cmp"
	"regexp"
	"strings"

	"heapside/calc/feedstock"
)

// seen are the deeds and readings that one visit may bring together, and the
// option of log visit that each is said by.
var seen = map[string]func(args map[string]string) (option, value string){
	"log temp": func(args map[string]string) (string, string) {
		if args["depth"] != "" {
			return "temp", args["reading"] + " at " + args["depth"]
		}
		return "temp", args["reading"]
	},
	"log feel":  func(args map[string]string) (string, string) { return "squeeze", args["squeeze"] },
	"log turn":  func(args map[string]string) (string, string) { return "turned", cmp.Or(args["note"], yesWords[0]) },
	"log water": func(args map[string]string) (string, string) { return "water", cmp.Or(args["amount"], yesWords[0]) },
}

// deedsIn are the different things that a sentence would put on the record, the
// likeliest first: "turned it and it was 61 degrees" says two.
func deedsIn(found []candidate, k vocabulary) []candidate {
	var out []candidate
	told := map[string]bool{}
	for _, c := range found {
		path := c.intent.path
		_, ok := seen[path]
		if path == "log add" {
			ok = allKnown(c.args["what"], k)
		}
		if ok && !told[path] {
			told[path] = true
			out = append(out, c)
		}
	}
	return out
}

// allKnown reports whether words are amounts of materials: "5 barrows out of" a
// heap is none.
func allKnown(what string, k vocabulary) bool {
	items, err := k.Measures.ParseItems(what)
	for _, item := range items {
		if m := k.Table.Find(item.Material); m.Outcome != feedstock.Found {
			return false
		}
	}
	return err == nil && len(items) > 0
}

// visitOf makes a visit of several deeds; false when one of them is none that
// a visit has, or tells more than a visit takes.
func visitOf(all []candidate) (args map[string]string, ok bool) {
	args = map[string]string{"heap": all[0].args["heap"], "when": all[0].args["when"]}
	for _, c := range all {
		say, ok := seen[c.intent.path]
		if !ok || c.args["spot"] != "" || c.args["heap"] != args["heap"] {
			return nil, false
		}
		option, value := say(c.args)
		args[option] = value
	}
	if args["temp"] != "" && strings.ContainsAny(args["turned"], "0123456789") {
		args["turned"] = yesWords[0] // what was read is no way of turning
	}
	for name, value := range args {
		if value == "" {
			delete(args, name)
		}
	}
	return args, true
}

// figureSaid is a number that says something by itself: the drops of a squeeze test
// are a class.
var figureSaid = regexp.MustCompile(`\d+(?:\.\d+)?( drops?\b)?`)

// leftOut reports whether a sentence holds a figure that a deed of a visit would
// not put on the record, such as a temperature beside a squeeze test. A depth
// beside a temperature is only the less said.
func leftOut(s sentence, c candidate) bool {
	if _, ok := seen[c.intent.path]; !ok || c.intent.path == "log temp" {
		return false
	}
	var said strings.Builder
	for _, value := range c.args {
		said.WriteString(value + " ")
	}
	for _, n := range figureSaid.FindAllStringSubmatch(s.text, -1) {
		if n[1] == "" && !strings.Contains(said.String(), n[0]) {
			return true
		}
	}
	return false
}
