package chart

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// textLanes are the rows of what was done and of rain, those there are.
func (v *view) textLanes(columns int) []string {
	var out []string
	if len(v.marks) > 0 {
		out = append(out, "done|"+v.textMarks(columns))
	}
	if len(v.rain) > 0 {
		out = append(out, "rain|"+v.textRain(columns))
	}
	return out
}

// textMarks writes a letter for each mark. One that finds its column taken by
// another kind moves to the next.
func (v *view) textMarks(columns int) string {
	line := slices.Repeat([]rune{' '}, columns)
	for kind, style := range markStyles {
		for _, m := range v.marks {
			if m.Kind != MarkKind(kind) {
				continue
			}
			x := v.column(m.At, columns)
			if line[x] != ' ' && line[x] != style.letter && x+1 < columns {
				x++
			}
			if line[x] == ' ' {
				line[x] = style.letter
			}
		}
	}
	return string(line)
}

// textRain writes the wettest day of each column as a bar.
func (v *view) textRain(columns int) string {
	heights := make([]int, columns)
	top := v.rainTop()
	for _, r := range v.rain {
		height := int(math.Ceil(v.depth(r.Mm) / top * float64(len(rainRunes)-1)))
		last := v.column(midnight(r.Day, 1).Add(-1), columns)
		for x := v.column(r.Day, columns); x <= last; x++ {
			heights[x] = max(heights[x], height)
		}
	}
	var line strings.Builder
	for _, h := range heights {
		line.WriteRune(rainRunes[h])
	}
	return line.String()
}

// textDates writes the dates below the columns they belong to; one that would
// run into the date before it is left out.
func (v *view) textDates(columns int) string {
	line := slices.Repeat([]rune{' '}, margin+columns)
	free := 0
	for _, t := range ticks(v.from, v.to, v.zone, max(2, columns/columnsPerTick)) {
		x := margin + v.column(t.at, columns)
		if n := utf8.RuneCountInString(t.label); x >= free && x+n <= len(line) {
			copy(line[x:], []rune(t.label))
			free = x + n + 1
		}
	}
	return string(line)
}

// signs explain what is in the grid.
func (v *view) signs() []string {
	core := len(v.core())
	estimate, outlook := v.bandCounts()
	var out []string
	for _, s := range []struct {
		there bool
		sign  rune
		name  string
	}{
		{core > 0, readingRune, "reading"},
		{estimate > 0, estimateRune, "estimate"},
		{outlook > 0, outlookRune, "outlook"},
		{len(v.air) > 0, airRune, "air"},
		{core < len(v.readings), airReadRune, "air read"},
	} {
		if s.there {
			out = append(out, string(s.sign)+" "+s.name)
		}
	}
	return out
}

// stripSigns explain the rest: the lines, the letters and the rain.
func (v *view) stripSigns() []string {
	var out []string
	if v.hasThreshold() {
		out = append(out, strings.Repeat(string(thresholdRune), 2)+" hygiene "+v.m.SayTemperature(v.thresholdC))
	}
	for kind, style := range markStyles {
		if len(v.lane(MarkKind(kind))) > 0 {
			out = append(out, string(style.letter)+" "+style.name)
		}
	}
	if len(v.rain) > 0 {
		out = append(out, "rain to "+v.sayRainTop())
	}
	return out
}

// sayRainTop names the top of the scale of rain.
func (v *view) sayRainTop() string {
	unit := " mm"
	if v.inches() {
		unit = " in"
	}
	return strconv.FormatFloat(v.rainTop(), 'f', -1, 64) + unit
}

// keyLine joins the words that fit into a width, and returns those that do
// not. The first is cut to it.
func keyLine(words []string, width int) (line string, left []string) {
	line = words[0]
	for columnsOf(line) > width {
		line = clip(line, utf8.RuneCountInString(line)-1)
	}
	for _, w := range words[1:] {
		if columnsOf(line)+2+columnsOf(w) <= width {
			line += "  " + w
		} else {
			left = append(left, w)
		}
	}
	return line, left
}

// columnsOf counts what a text takes on a terminal at most: letters from
// Hangul on may be two columns wide.
func columnsOf(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r >= 0x1100 && (r < 0x2000 || r > 0x25ff) {
			n++
		}
	}
	return n
}
