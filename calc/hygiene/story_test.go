package hygiene

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
	"heapside/calc/measure"
)

const (
	askWindrow = "The US rule for turned heaps asks 15 days at 55 °C or above and 5 turnings while hot: "
	askInARow  = "US guidance on the rule for turned heaps asks 15 days in a row at 55 °C or above and 5 turnings while hot: "
	askLesser  = "The lesser US rule asks 5 days at 40 °C or above and 4 hours above 55 °C among them: "
	part257    = " (40 CFR 257 App. II)."
)

// TestStories tells records of gardens and expects what is said of them: the
// whole headline, and what the remarks must hold. The figures are those of the
// rules named in the lines.
func TestStories(t *testing.T) {
	filled := []log{{30, added(600)}}
	rows := []struct {
		name     string
		logs     []log
		curve    Curve
		headline []string
		remarks  []string // parts of them, in order; none other
	}{
		{
			"nothing read", filled, nil,
			[]string{askWindrow + "it still needs 15 more days at 55 °C or above and 5 more turnings while hot" + part257},
			[]string{"No temperature of the middle"},
		},
		{
			"only the air and the edge were read",
			slices.Concat(filled, []log{{5, heap.Temp{C: 60, Spot: "air"}}, {4, heap.Temp{C: 60, Spot: "air"}}, {3, heap.Temp{C: 58, Spot: "edge"}}}), nil,
			[]string{askWindrow + "it still needs 15 more days at 55 °C or above and 5 more turnings while hot" + part257},
			[]string{"No temperature of the middle"},
		},
		{
			"two days and one turning are missing",
			slices.Concat(filled, daily(57, 13, 0), turned(12, 9, 6, 3)), nil,
			[]string{
				askWindrow + "it still needs 2 more days at 55 °C or above and 1 more turning while hot" + part257,
				askLesser + "reached where it was read" + part257,
			},
			[]string{"The cool outer zone was never read"},
		},
		{
			"fifteen days in a row, turned five times",
			slices.Concat(filled, daily(57, 15, 0), turned(14, 11, 8, 5, 2)), nil,
			[]string{askWindrow + "reached where it was read" + part257},
			[]string{"The cool outer zone was never read"},
		},
		{
			"the same, but a large load went on in the middle of it",
			slices.Concat(filled, daily(57, 15, 0), turned(14, 11, 8, 5, 2), []log{{7.5, added(600)}}), nil,
			[]string{
				askWindrow + "it still needs 8 more days at 55 °C or above and 3 more turnings while hot" + part257,
				askLesser + "reached where it was read" + part257,
			},
			[]string{"The cool outer zone was never read"},
		},
		{
			"the same, but a bucket went on",
			slices.Concat(filled, daily(57, 15, 0), turned(14, 11, 8, 5, 2), []log{{7.5, added(10)}}), nil,
			[]string{askWindrow + "reached where it was read" + part257},
			[]string{"Fresh material went in 7 days ago and has had only the heat since", "never read"},
		},
		{
			"cooled in between: enough days, not in a row",
			slices.Concat(filled, daily(57, 28, 20), daily(50, 19, 18), daily(57, 17, 9), turned(27, 24, 21, 17, 14), daily(30, 8, 0)), nil,
			[]string{
				askWindrow + "reached where it was read" + part257,
				askInARow + "it still needs 7 more days in a row at 55 °C or above and 2 more turnings while hot (as quoted at cloacina.org, second-hand).",
			},
			[]string{"The cool outer zone was never read"},
		},
		{
			"read every other day",
			slices.Concat(filled, []log{
				{16, temp(58)}, {14, temp(61)}, {12, heap.Temp{C: 60}}, {10, temp(62)}, {8, temp(60)}, {6, temp(58)}, {4, temp(57)}, {2, temp(57)}, {0, temp(56)},
			}, turned(14, 12, 8, 6, 2)), nil,
			[]string{askWindrow + "probably reached; readings close enough together are missing for 15 days at 55 °C or above" + part257},
			[]string{"Up to 2 days lie between two readings", "never read", "No depth was noted with 1 of 9 readings: rules for windrows read 30 cm to 61 cm deep"},
		},
		{
			"two readings ten days apart, and no estimate",
			slices.Concat(filled, []log{{10, temp(60)}, {0, temp(60)}}), nil,
			[]string{askWindrow + "it still needs 15 more days at 55 °C or above and 5 more turnings while hot" + part257},
			[]string{"Only 2 readings", "never read"},
		},
		{
			"two readings ten days apart, and an estimate between them",
			slices.Concat(filled, []log{{10, temp(60)}, {0, temp(60)}}), estimate(10, 0, 60),
			[]string{
				askWindrow + "it still needs 15 more days at 55 °C or above and 5 more turnings while hot, probably only 5 more days at 55 °C or above and 5 more turnings while hot" + part257,
				askLesser + "probably reached; readings close enough together are missing for 5 days at 40 °C or above and 4 hours above 55 °C" + part257,
			},
			[]string{"Only 2 readings", "never read"},
		},
		{
			"60 °C for eight days, turned three times",
			slices.Concat(filled, daily(61, 10, 2), turned(9, 6, 3), []log{{1, heap.Temp{C: 41, Spot: "edge"}}}), nil,
			[]string{
				"The Welsh rule for catering waste in housed windrows asks 8 days at 60 °C or above and 3 turnings while hot, at least 2 days apart: reached where it was read (WSI 2006/1293).",
				askWindrow + "it still needs 7 more days at 55 °C or above and 2 more turnings while hot" + part257,
			},
			[]string{"The middle was last read 2 days ago", "The outer zone read 41 °C at its coldest: only turning"},
		},
		{
			"readings that contradict each other",
			slices.Concat(filled, []log{{3, temp(62)}, {2.99, temp(45)}, {2, temp(62)}, {1, temp(62)}}), nil,
			[]string{askWindrow + "it still needs 14 more days at 55 °C or above and 5 more turnings while hot" + part257},
			[]string{"Two readings 2 days ago, within an hour, differ by 17 °C: the colder one counts.", "never read"},
		},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			report := Evaluate(story(r.logs...), r.curve)
			assert.Equal(t, r.headline, report.Headline(measure.Measures{}))
			remarks := report.Basis.Remarks(measure.Measures{}, now)
			if assert.Len(t, remarks, len(r.remarks), strings.Join(remarks, "\n")) {
				for i, part := range r.remarks {
					assert.Contains(t, remarks[i], part)
				}
			}
		})
	}
}

// estimate is a curve at c from so many days ago to so many.
func estimate(from, to, c float64) Curve {
	var curve Curve
	for d := from; d >= to; d -= 0.25 {
		curve = append(curve, Point{At: ago(d), Low: c - 4, Mid: c})
	}
	return curve
}

func TestSayInFahrenheit(t *testing.T) {
	m := measure.Measures{System: measure.US, Fahrenheit: true}
	report := Evaluate(story(slices.Concat([]log{{30, added(600)}}, daily(58, 12, 0), turned(6))...), nil)
	assert.Equal(t, "3 more days at 131 °F or above and 4 more turnings while hot", finding(report, "pfrp-windrow").SayMissing(m))
	assert.Equal(t, "3 more days at 131 to 170 °F and 4 more turnings while hot", finding(report, "nop-windrow").SayMissing(m))
	assert.Equal(t, "nothing", finding(report, "psrp").SayMissing(m))
}

func TestMoisture(t *testing.T) {
	rows := []struct {
		squeeze heap.Squeeze
		at      float64 // days ago
		german  Moisture
		pas100  Moisture
	}{
		{"", 0, MoistUnknown, MoistUnknown},
		{heap.Crumbles, 1, TooDry, TooDry},
		{heap.Holds, 1, MoistEnough, TooDry},
		{heap.Drops, 1, MoistEnough, MoistUnknown}, // about 50-60 %, against 51 %
		{heap.Drips, 1, MoistEnough, MoistEnough},
		{heap.Drips, 40, MoistUnknown, MoistUnknown}, // before the heap was filled
	}
	for _, r := range rows {
		s := kept(66, 15*day, 5)
		s.Squeeze, s.SqueezeAt = r.squeeze, ago(r.at)
		report := Evaluate(s, nil)
		assert.Equal(t, r.german, finding(report, "bioabfv-55").Moisture, r.squeeze)
		assert.Equal(t, r.pas100, finding(report, "pas100").Moisture, r.squeeze)
		assert.Equal(t, MoistUnasked, finding(report, "pfrp-windrow").Moisture)
		assert.Equal(t, Reached, finding(report, "bioabfv-55").Status, "moisture is asked besides")
	}
}

func TestTurnsWhileHot(t *testing.T) {
	filled := []log{{30, added(600)}}
	rows := []struct {
		name string
		logs []log
		want int
	}{
		{"an hour after a hot reading", slices.Concat(daily(55, 3, 3), turned(3)), 1},
		{"an hour after one a degree below", slices.Concat(daily(54, 3, 3), turned(3)), 0},
		{"36 hours after it", []log{{3, temp(60)}, {1.5, heap.Turned{}}}, 1},
		{"later than that", []log{{3, temp(60)}, {1.4, heap.Turned{}}}, 0},
		{"before any reading", []log{{3, heap.Turned{}}, {2, temp(60)}}, 0},
		{"logged twice within hours", []log{{3, temp(60)}, {2.9, heap.Turned{}}, {2.7, heap.Turned{}}}, 1},
		{"morning and night", []log{{3, temp(60)}, {2.9, heap.Turned{}}, {2.4, heap.Turned{}}}, 2},
		{"before the heap was filled", []log{{32, temp(60)}, {31, heap.Turned{}}}, 0},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			assert.Equal(t, r.want, TurnsWhileHot(story(slices.Concat(filled, r.logs)...), 55))
		})
	}
}

// TestTurnsApart: of turnings on three days in a row the Welsh rule counts two.
func TestTurnsApart(t *testing.T) {
	s := story(slices.Concat([]log{{30, added(600)}}, daily(61, 9, 0), turned(5, 4, 3))...)
	f := finding(Evaluate(s, nil), "uk-windrow")
	assert.Equal(t, Lack{Turns: 1}, f.Missing)
	assert.Equal(t, 3, TurnsWhileHot(s, 60))
}

// TestSameMoment: of readings at one moment the colder counts.
func TestSameMoment(t *testing.T) {
	s := story(log{30, added(600)}, log{1, temp(60)}, log{0, temp(50)}, log{0, temp(60)})
	certain, probable := Held(s, nil, 55)
	assert.Zero(t, certain)
	assert.Equal(t, 12*time.Hour, probable, "a straight line from 60 to 50 °C is half above 55")
}

// TestPeakWithinTheRun: the four hours above 55 °C must lie in the five days in
// a row that Massachusetts asks for.
func TestPeakWithinTheRun(t *testing.T) {
	hot := []log{{20, temp(58)}, {19, temp(58)}, {18, temp(30)}}
	s := story(slices.Concat([]log{{30, added(600)}}, hot, daily(45, 10, 4))...)
	report := Evaluate(s, nil)
	assert.Equal(t, Reached, finding(report, "psrp").Status)
	f := finding(report, "psrp-row")
	assert.Equal(t, NotYet, f.Status)
	assert.Equal(t, "4 more hours at 55 °C or above", f.SayMissing(measure.Measures{}))
}

func TestRemarksThatDoNotApply(t *testing.T) {
	filled := log{30, added(600)}
	turnedBetween := story(filled, log{1, temp(62)}, log{0.99, heap.Turned{}}, log{0.98, temp(45)})
	assert.Zero(t, Evaluate(turnedBetween, nil).Basis.Clash, "turning explains the fall")
	fedCool := story(filled, log{3, temp(45)}, log{2, added(20)}, log{1, temp(45)})
	assert.Zero(t, Evaluate(fedCool, nil).Basis.FedAt, "it had not been hot")
	cooled := story(slices.Concat([]log{filled}, daily(60, 25, 20), []log{{19, temp(40)}, {5, temp(20)}})...)
	assert.Equal(t, day, Evaluate(cooled, nil).Basis.WidestGap, "the gap in the cool does not matter")
	assert.Zero(t, Evaluate(cooled, nil).Basis.Unread)
}
