package commands

import (
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// shares are the words for a part of a heap.
var shares = map[string]float64{"": 1, "all": 1, "everything": 1, "half": 0.5, "a half": 0.5, "a third": 1.0 / 3, "third": 1.0 / 3,
	"two thirds": 2.0 / 3, "a quarter": 0.25, "quarter": 0.25, "three quarters": 0.75, "most": 0.8,
	"1/2": 0.5, "½": 0.5, "1/3": 1.0 / 3, "2/3": 2.0 / 3, "1/4": 0.25, "¼": 0.25, "3/4": 0.75, "¾": 0.75, "all of": 1, "half of": 0.5, "most of": 0.8}

func parseShare(said string) (float64, error) {
	words := strings.TrimSuffix(strings.ToLower(oneLine(said)), " of it")
	if share, ok := shares[words]; ok {
		return share, nil
	}
	number, isPercent := strings.CutSuffix(strings.Replace(words, "percent", "%", 1), "%")
	percent, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !isPercent && percent < 1 {
		percent *= 100 // 0.5 is half of it
	}
	if err != nil || !(percent >= 1 && percent <= 100) {
		return 0, fault.New(fault.NotUnderstood, "“%s” is no share I know. Say all, half, a third, a quarter, or a percentage such as 40 %%.", quote(said))
	}
	return percent / 100, nil
}

func (d *desk) logMove() (Reply, error) {
	share, err := parseShare(d.arg("share"))
	if err != nil {
		return Reply{}, err
	}
	to, err := d.heap("to")
	if err != nil {
		return Reply{}, err
	}
	from, err := d.moveSource(to)
	if err != nil {
		return Reply{}, err
	}
	at, err := d.when()
	if err != nil {
		return Reply{}, err
	}
	s, err := d.state(from)
	if err != nil {
		return Reply{}, err
	}
	entries := []heap.Entry{
		d.newEntry(from, at, heap.Moved{Other: to.ID, OtherName: to.Name, Share: share}),
		d.newEntry(to, at, heap.Moved{Other: from.ID, OtherName: from.Name, In: true, Share: share}),
	}
	for _, part := range s.Portion(share) {
		part.Said = d.m.SayVolume(part.VolumeL) + " of " + part.Name // of what was said once, only this went along
		entries = append(entries, d.newEntry(to, at, part))
	}
	stored, err := d.keep(entries...)
	if err != nil {
		return Reply{}, err
	}
	return Reply{
		Headline: d.in.Say("Logged for %s, %s: %s.", from.Name, d.day(at), d.say(stored[0])),
		Body:     []Block{{Lines: []string{d.in.Say("What it was made of went along to %s.", to.Name)}}},
		Actions:  []Action{{Label: d.in.Word("Undo"), Line: "undo " + entryRange(stored)}},
	}, nil
}

// moveSource is the heap named, or the only other one.
func (d *desk) moveSource(to heap.Heap) (heap.Heap, error) {
	if d.arg("heap") == "" {
		others, err := d.heaps("heap")
		if err != nil {
			return heap.Heap{}, err
		}
		if len(others) == 2 {
			for _, h := range others {
				if h.ID != to.ID {
					return h, nil
				}
			}
		}
	}
	from, err := d.heap("heap")
	if err == nil && from.ID == to.ID {
		err = fault.New(fault.OutOfRange, "%s cannot be moved onto itself. Say heap: for where it came from and to: for where it went.", from.Name)
	}
	return from, err
}
