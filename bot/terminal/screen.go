package terminal

import (
	"io"
	"sync"
)

// Screen is what answers and reminders are printed on, each in one piece.
type Screen struct {
	mu sync.Mutex
	w  io.Writer
}

// NewScreen prints on w.
func NewScreen(w io.Writer) *Screen { return &Screen{w: w} }

// Write implements io.Writer.
func (s *Screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.w.Write(p)
}
