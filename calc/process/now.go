package process

// Now is how the heap is, without looking ahead.
func (t *Track) Now(q Question) Condition {
	return t.now.condition(t.full(q))
}
