package reminders

import (
	"context"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// Preview is what would be posted at a moment, oldest first: in one place as if
// its reminder came then, or in all places whose reminder is due by then.
// Nothing is written or sent. Posts that were prepared before are not among them.
func (e *Engine) Preview(ctx context.Context, now time.Time, only *heap.Place) ([]duty.Post, error) {
	due, err := e.comingBy(ctx, now, only)
	if err != nil {
		return nil, err
	}
	var posts []duty.Post
	for _, d := range due {
		post, err := e.preview(ctx, d, now)
		if err != nil {
			return nil, err
		}
		if !post.Empty() {
			posts = append(posts, post)
		}
	}
	return posts, nil
}

func (e *Engine) comingBy(ctx context.Context, now time.Time, only *heap.Place) ([]storage.Due, error) {
	if only == nil {
		return e.record.Due(ctx, now, batch)
	}
	s, err := e.scene(ctx, *only, now)
	return []storage.Due{{Place: *only, Occurrence: duty.Occurrence{Day: s.today(), At: now}}}, err
}

func (e *Engine) preview(ctx context.Context, d storage.Due, now time.Time) (duty.Post, error) {
	s, err := e.survey(ctx, d.Place, now)
	if err != nil {
		return duty.Post{}, err
	}
	found, err := e.finder.Jobs(ctx, d.Place, now)
	if err != nil {
		return duty.Post{}, err
	}
	post, _, err := e.compose(ctx, s, d.Occurrence, found)
	return post, err
}
