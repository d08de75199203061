package maturity

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

// warmth is a temperature with its scale, where that is said.
const warmth = number + ` ?(?:°|degrees?|deg)? ?(c|f|celsius|fahrenheit)?\b`

var (
	fromTo    = regexp.MustCompile(warmth + ` ?(?:to|->|→|up to) ?` + warmth + `( ?(?:days?|nights?|hours?|weeks?|minutes?)\b)?`)
	roseBy    = regexp.MustCompile(`\b(?:rise|rose|rises|risen|warmed|warms|warmer|heated|by)\b(?: up| of| by| about| only| it)* ?` + warmth + `|` + warmth + ` (?:rise|warmer)`)
	roomSaid  = regexp.MustCompile(`\b(?:room|air|ambient|kitchen|shed|indoors)\b` + gap + warmth)
	peakSaid  = regexp.MustCompile(`\b(?:peak(?:ed)?|max(?:imum)?|reached|highest|got to|rose to|went to|heated to|up to|warmed to|flask|inside)\b` + gap + warmth)
	classSaid = regexp.MustCompile(`\b(?:class|degree|rottegrad|grade)\b ?(i{1,3}|iv|v|\d+)\b`)
	aHeap     = regexp.MustCompile(`\b(?:heap|pile|bay|bin|turn(?:ed|ing)?)\b`)
)

// flaskClass is a class of the self-heating test and the rise above which it stands.
type flaskClass struct {
	name   string
	aboveK float64
}

// classes are the classes of the self-heating test, I the rawest. Seen: I is 70
// to 60 C and II 60 to 50 C in the flask, V is finished (a German composting
// works). The rest of the scale, the rise above a room of 20 C, is from memory
// (LAGA M10, BGK), as is that the upper end belongs to a class.
var classes = []flaskClass{{"I", 40}, {"II", 30}, {"III", 20}, {"IV", 10}, {"V", math.Inf(-1)}}

const (
	finishedClass = 3    // index of class IV: IV and V are finished compost (from memory)
	flaskRoomC    = 20.0 // the room of the scale
	// stableRise is the rise below which compost cured for 21 days counts as
	// mature (CCME 2005, from memory).
	stableRise = 8.0

	srcFlask  = "self-heating test in an insulated flask (Jourdan 1982): classes I, II and V a German composting works, the rest of the scale from memory (LAGA M10, BGK)"
	srcFlasks = "flask and carbon dioxide tests agree at the ends of the scale and scatter in the middle (Nordtest 1998)"
	srcCCME   = "Canada, CCME 2005, from memory: cured for 21 days and one of: rise below 8 °C, 4 mg CO2-C/g OM/day, 400 mg O2/kg OM/h"
)

// SelfHeating is the class, I (raw) to V (finished), of a rise in an insulated
// flask, in Celsius above a room of 20 C. A heap that heats again after turning
// is another thing and has no class.
func SelfHeating(riseK float64) string { return classes[classAt(riseK)].name }

func classAt(riseK float64) int {
	return slices.IndexFunc(classes, func(c flaskClass) bool { return riseK > c.aboveK })
}

// readFlask reads how much a sample warmed in a flask.
func readFlask(r *reader) {
	if aHeap.MatchString(r.text) && numberAlone.MatchString(r.text) {
		r.err = fault.New(fault.NotUnderstood, "The self-heating test is read in an insulated flask, not in the heap. Log the heap's own warmth with: log temp 38. For the flask write it like “20 to 28 °C in the flask”.")
		return
	}
	if g := r.take(classSaid); g != nil {
		r.keep(class, classNumber(g[1]), g[0])
	}
	if g := r.take(fromTo); g != nil && g[5] == "" {
		from, to := r.celsius(g[1], firstOf(g[2], g[4])), r.celsius(g[3], firstOf(g[4], g[2]))
		r.keep(room, from, g[0])
		r.keep(rise, to-from, g[0])
		return
	}
	in, hasRoom := 0.0, false
	if g := r.take(roomSaid); g != nil {
		in, hasRoom = r.celsius(g[1], g[2]), true
		r.keep(room, in, g[0])
	}
	if g := r.take(peakSaid); g != nil {
		if !hasRoom {
			in = flaskRoomC // the scale's own
		}
		r.keep(rise, r.celsius(g[1], g[2])-in, g[0])
		return
	}
	if g := r.take(roseBy); g != nil {
		digits, scale := firstOf(g[1], g[3]), firstOf(g[2], g[4])
		r.keep(rise, r.celsius(digits, scale)-r.celsius("0", scale), g[0])
	}
}

// celsius is a temperature on the scale that was said, else on the group's.
func (r *reader) celsius(digits, scale string) float64 {
	v := decimal(digits)
	if scale == "" && r.say.Fahrenheit || scale != "" && scale[0] == 'f' {
		return (v - 32) * 5 / 9
	}
	return v
}

func classNumber(said string) float64 {
	if i := slices.IndexFunc(classes, func(c flaskClass) bool { return strings.EqualFold(c.name, said) }); i >= 0 {
		return float64(i + 1)
	}
	n, _ := strconv.ParseFloat(said, 64)
	return n
}

// judgeFlask judges the rise in a flask, or the class as a laboratory gave it.
func judgeFlask(t heap.Test, m measure.Measures) Finding {
	f := Finding{Outcome: Finished, Basis: []string{srcFlask, srcFlasks}}
	var line string
	var at int
	if n, ok := t.Number(rise); ok {
		at = classAt(n.Value)
		line = m.Say("It warmed by %s in the flask: class %s on a scale from I, raw, to V, finished", sayGap(n.Value, m), classes[at].name)
		f.Values = []heap.Number{n, {Name: class, Value: float64(at + 1), Unit: "1"}}
		if f.Stable = n.Value < stableRise; f.Stable {
			f.Basis = append(f.Basis, srcCCME)
		}
	} else if n, ok := t.Number(class); ok {
		at = int(n.Value) - 1
		line = m.Say("Class %s on a scale from I, raw, to V, finished", classes[at].name)
	} else {
		return Finding{Outcome: Silent}
	}
	if at < finishedClass {
		f.Outcome, f.Stable = Fresh, false
		line = m.Say("%s: fresh compost that has to cure", line)
	}
	f.Short, f.Lines = m.Say("class %s", classes[at].name), []string{line + "."}
	if n, ok := t.Number(room); ok && math.Abs(n.Value-flaskRoomC) > 5 {
		f.Lines = append(f.Lines, m.Say("The scale is for a room of about %s.", m.SayTemperature(flaskRoomC)))
	}
	return f
}
