package measure

import (
	"maps"
	"math"
	"testing"
	"time"

	"heapside/calc/fault"
)

var spokenItems = []string{
	"2 buckets of grass clippings and half a bucket coffee grounds", "1½ sacks leaves; 3 x 40 l bags of soil", "1,5 kg coffee + 2 lb bread", "between 2 and 3 barrows of leaves",
	"- 2 buckets grass\n* a bucket and a half of leaves", "grass: 2 buckets, leaves, 3 sacks", "two 25 kg sacks of pellets & 2 five-gallon buckets of scraps", "3 bags (40 l each) of leaves",
	"zwei Eimer Rasenschnitt und ein halber Eimer Kaffeesatz", "une brouette d'herbe, deux seaux et demi de feuilles", "3 sacos de hojas y medio cubo de posos", "een halve kruiwagen stro en 2 of 3 emmers blad", "1.500,5 l", "1 200 l", "d'l'd'", "l'", "2 Eimre Äpfel", "cubos grandes llenos",
	"-3 buckets", "10000 buckets of grass", "NaN buckets", "@everyone", "5 bananas", "١٢ buckets", "\u202e2 buckets", "1/0 l", "half half half", "a and a half and a half", "x x x", "((((", "2 ½½ l",
}

// readersOfAllKinds are the groups, and one that speaks each language.
var readersOfAllKinds = func() map[string]Measures {
	all := maps.Clone(groupsOfAllKinds)
	for language := range readings {
		all[language] = inLanguage(language)
	}
	return all
}()

func FuzzItems(f *testing.F) {
	for _, s := range spokenItems {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range readersOfAllKinds {
			items, err := m.ParseItems(text)
			if err != nil {
				mustBeForPeople(t, err)
				continue
			}
			if len(items) == 0 || len(items) > maxItems {
				t.Fatalf("%d items from %q", len(items), text)
			}
			for _, it := range items {
				mustBeSound(t, it.Amount)
			}
		}
	})
}

func FuzzAmount(f *testing.F) {
	for _, s := range append(spokenItems, "14 l", "half a barrow", "20 litres (2 cans)", "0.9 m³ (about 75 buckets)", "twenty five l", "1,000,000 ml") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range readersOfAllKinds {
			a, err := m.ParseAmount(text)
			if err != nil {
				mustBeForPeople(t, err)
				continue
			}
			mustBeSound(t, a)
			v, ok := a.Volume()
			if !ok || v.Typical < 0.02 || v.Typical > 0.95*maxAmount {
				continue
			}
			said := m.SayVolume(v.Typical)
			again, err := m.ParseAmount(said)
			if err != nil {
				t.Fatalf("%q printed as %q: %v", text, said, err)
			}
			if back, _ := again.Volume(); math.Abs(back.Typical-v.Typical) > m.Step(v.Typical)/2*(1+1e-6) {
				t.Fatalf("%q is %v litres, printed as %q, read back as %v", text, v.Typical, said, back.Typical)
			}
		}
	})
}

func FuzzTemperature(f *testing.F) {
	for _, s := range []string{"58", "58,5 °C", "140F", "136 degrees fahrenheit", "-5", "580", "NaN", "1e5", "٥٨", "minus forty", "--5", "°"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range groupsOfAllKinds {
			c, err := m.ParseTemperature(text)
			if err != nil {
				mustBeForPeople(t, err)
			} else if !(c >= lowestC && c <= highestC) {
				t.Fatalf("%q is %v", text, c)
			}
		}
	})
}

func FuzzLength(f *testing.F) {
	for _, s := range []string{"40cm", "0.9 m", "16\"", "3' 2\"", "5 ft 6", "3 ft 2 in", "12mm rain", "none", "1/0 m", "'", "\"\"", "half a metre"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range groupsOfAllKinds {
			if cm, err := m.ParseLength(text); err != nil {
				mustBeForPeople(t, err)
			} else if !(cm >= 1 && cm <= 500) {
				t.Fatalf("%q is %v cm", text, cm)
			}
			if mm, err := m.ParseRain(text); err != nil {
				mustBeForPeople(t, err)
			} else if !(mm >= 0 && mm <= 500) {
				t.Fatalf("%q is %v mm", text, mm)
			}
		}
	})
}

func FuzzWhen(f *testing.F) {
	for _, s := range []string{"now", "yesterday 18:00", "last night at 1am", "2h30m ago", "an hour and a half ago", "last tuesday 7pm", "2026-11-20T18:00", "20th of Nov 2025", "29 feb", "2026-07-20T18:00:00Z", "99 99", "0-0-0", "12 am pm", "36500 h 36500 h 36500 h ago", "monday monday"} {
		f.Add(s)
	}
	loc := zone(f, "Europe/London")
	now := time.Date(2026, 3, 29, 0, 40, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		at, err := ParseWhen(text, now, loc)
		if err != nil {
			mustBeForPeople(t, err)
		} else if at.After(now.Add(futureSlack)) || at.Before(now.AddDate(-yearsBack, 0, -1)) {
			t.Fatalf("%q is %v", text, at)
		}
	})
}

func mustBeForPeople(t *testing.T, err error) {
	t.Helper()
	if f, ok := fault.As(err); !ok || f.Message == "" {
		t.Fatalf("%v is not for people", err)
	}
}

func mustBeSound(t *testing.T, a Amount) {
	t.Helper()
	total := a.Count.Times(a.Unit.Size)
	ordered := 0 <= total.Low && total.Low <= total.Typical && total.Typical <= total.High
	if !ordered || !(total.Typical > 0) || total.Typical > maxAmount || math.IsInf(total.High, 0) || a.Said == "" {
		t.Fatalf("%q is %v %s of %v", a.Said, a.Count, a.Unit.ID, a.Unit.Size)
	}
}
