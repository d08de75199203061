package reminders

import (
	"context"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// compose is the post of a reminder that is due, of the jobs that were found,
// and the rota after it. The post is empty when there is nothing to say.
func (e *Engine) compose(ctx context.Context, s scene, o duty.Occurrence, found []duty.Found) (duty.Post, duty.Rota, error) {
	post := duty.Post{Place: s.place, Kind: duty.Digest, Day: o.Day, Due: o.At, Items: s.choose(o.Day, found)}
	for i := range post.Items {
		post.Items[i].Said = s.now
	}
	weekly := s.plan.Weekly.Has(o.Day.Weekday())
	if len(post.Items) == 0 && !weekly {
		return post, s.plan.Rota, nil
	}
	entries, err := e.record.Latest(ctx, s.place, recorded)
	if err != nil {
		return post, s.plan.Rota, err
	}
	if weekly {
		post.Week = s.week(entries)
	}
	if post.Empty() {
		return post, s.plan.Rota, nil
	}
	missed, err := e.record.Missed(ctx, s.place)
	if err != nil {
		return post, s.plan.Rota, err
	}
	post.Notes = notes(s, o, missed)
	rota := s.plan.Rota
	if turn, ok := s.turn(o.Day, entries); ok && len(post.Items) > 0 {
		post.To, rota = turn.Who, rota.Took(turn, o.Day)
	}
	return post, rota, nil
}

// turn is whose turn it is, by what people did of late.
func (s scene) turn(day duty.Date, entries []heap.Entry) (duty.Turn, bool) {
	if len(s.plan.Rota.Members) == 0 {
		return duty.Turn{}, false
	}
	return s.plan.Rota.Turn(day, duty.Tally(entries, s.now.AddDate(0, 0, -duty.Window)))
}
