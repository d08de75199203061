package process

// Now is how the heap is, without looking ahead.
func (t *Track) Now(q Question) Condition {
	if !(q.Widen > 0) {
		q.Widen = 1
	}
	return t.now.condition(q)
}
