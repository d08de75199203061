package audit

import (
	"slices"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// LessonValue is what was taught about a kind of job of a heap, as in
// duty.Taught.
type LessonValue struct {
	Every int       `json:"every,omitempty"`
	Until duty.Date `json:"until"`
	Never bool      `json:"never,omitempty"`
}

// Plan is what people changed between two states of a plan. What the reminders
// themselves keep in it, and the names of people, is left out.
func Plan(was, now duty.Plan) ([]Change, error) {
	var f found
	f.add(Change{What: On}, was.On, now.On)
	f.add(Change{What: Days}, chosen(was, was.Days), chosen(now, now.Days))
	f.add(Change{What: Hour}, chosen(was, was.At), chosen(now, now.At))
	f.add(Change{What: Quiet}, chosen(was, was.Quiet), chosen(now, now.Quiet))
	f.add(Change{What: Paused}, set(was.Paused), set(now.Paused))
	f.add(Change{What: Weekly}, set(was.Weekly), set(now.Weekly))
	for _, kind := range either(was.Off, now.Off) {
		f.add(Change{What: JobKind, Of: kind}, !was.Mutes(kind), !now.Mutes(kind))
	}
	f.rota(was.Rota, now.Rota)
	f.lessons(was.Taught, now.Taught)
	return f.changes, f.err
}

// chosen is a value of a plan, or nil where nobody chose any hours yet.
func chosen[T any](p duty.Plan, v T) any {
	if !p.On && p.At == 0 && p.Quiet == (duty.Quiet{}) {
		return nil
	}
	return v
}

// either are the values of two lists, each once, those of the first in front.
func either[T comparable](a, b []T) []T {
	var all []T
	for _, v := range slices.Concat(a, b) {
		if !slices.Contains(all, v) {
			all = append(all, v)
		}
	}
	return all
}

func (f *found) rota(was, now duty.Rota) {
	before, after := people(was), people(now)
	f.members(Turns, before, after)
	if stayed(before, after) != stayed(after, before) {
		f.changes = append(f.changes, Change{What: Order, People: after, Was: before})
	}
	for _, m := range now.Members {
		i := slices.IndexFunc(was.Members, func(o duty.Member) bool { return o.ID == m.ID })
		if i >= 0 {
			f.add(Change{What: Away, People: []heap.Person{m.Person}}, spans(was.Members[i].Away), spans(m.Away))
		}
	}
	for _, s := range was.StandIns {
		if !standsIn(now, s) && among(after, s.For) && among(after, s.By) { // who leaves takes theirs along
			f.add(Change{What: StandsIn, People: []heap.Person{s.For, s.By}}, true, nil)
		}
	}
	for _, s := range now.StandIns {
		if !standsIn(was, s) {
			f.add(Change{What: StandsIn, People: []heap.Person{s.For, s.By}}, nil, true)
		}
	}
}

func people(r duty.Rota) []heap.Person {
	all := make([]heap.Person, len(r.Members))
	for i, m := range r.Members {
		all[i] = m.Person
	}
	return all
}

// stayed are those of a list who are in another too, in its order, by their ids.
func stayed(list, other []heap.Person) (ids string) {
	for _, p := range list {
		if among(other, p) {
			ids += p.ID + "\n"
		}
	}
	return ids
}

func spans(away []duty.Span) any {
	if len(away) == 0 {
		return nil
	}
	return away
}

func standsIn(r duty.Rota, s duty.StandIn) bool {
	return slices.ContainsFunc(r.StandIns, func(o duty.StandIn) bool { return o.For.ID == s.For.ID && o.By.ID == s.By.ID })
}

// subject is what a lesson is about.
type subject struct {
	heap heap.ID
	kind string
}

func (f *found) lessons(was, now []duty.Taught) {
	before, after := taught(was), taught(now)
	var subjects []subject
	for _, t := range slices.Concat(was, now) {
		subjects = append(subjects, subject{t.Heap, t.Kind})
	}
	for _, s := range either(subjects, nil) {
		f.add(Change{What: Lesson, Of: s.kind, Heap: s.heap}, set(before[s]), set(after[s]))
	}
}

func taught(lessons []duty.Taught) map[subject]LessonValue {
	all := map[subject]LessonValue{}
	for _, t := range lessons {
		all[subject{t.Heap, t.Kind}] = LessonValue{t.Every, t.Until, t.Never}
	}
	return all
}
