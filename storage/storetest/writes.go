package storetest

import (
	"context"
	"fmt"
	"sync"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// together runs n calls at once and returns their errors.
func together(n int, call func(i int) error) []error {
	errs := make([]error, n)
	var running sync.WaitGroup
	for i := range n {
		running.Go(func() { errs[i] = call(i) })
	}
	running.Wait()
	return errs
}

var writeTests = map[string]func(*bench){
	"writers at once lose nothing and share no number": func(b *bench) {
		h := b.start(bays, "North Bay")
		const writers, each = 8, 25
		for _, err := range together(writers, func(w int) error {
			for i := range each {
				_, err := b.store.Append(b.Context(), bays, temp(h, time.Duration(i)*time.Minute, float64(w)), temp(h, time.Duration(i)*time.Minute, float64(w)))
				if err != nil {
					return err
				}
				if _, err := b.store.Entries(b.Context(), bays, h.ID); err != nil {
					return err
				}
			}
			return nil
		}) {
			require.NoError(b, err)
		}
		ids := map[heap.EntryID]bool{}
		for _, e := range b.entries(h) {
			ids[e.ID] = true
		}
		assert.Len(b, ids, 1+2*writers*each)
	},
	"of many who start a heap of one name one succeeds": func(b *bench) {
		taken := 0
		for _, err := range together(8, func(int) error {
			_, err := b.store.StartHeap(b.Context(), heap.Heap{Place: bays, Name: "North Bay"}, wren, noon)
			return err
		}) {
			if err != nil {
				b.refused(fault.Taken, err)
				taken++
			}
		}
		assert.Equal(b, 7, taken)
		b.only(bays)
	},
	"of many who take back one entry one succeeds": func(b *bench) {
		h := b.start(bays, "North Bay")
		e := b.append(bays, temp(h, 0, 50))[0]
		late := 0
		for _, err := range together(8, func(int) error {
			_, err := b.store.Void(b.Context(), bays, wren, noon, e.ID)
			return err
		}) {
			if err != nil {
				b.refused(fault.Unknown, err)
				late++
			}
		}
		assert.Equal(b, 7, late)
		assert.Len(b, b.entries(h), 3)
	},
	"a call that was given up stores nothing and says so": func(b *bench) {
		h := b.start(bays, "North Bay")
		b.append(bays, temp(h, 0, 50))
		before := b.everything(bays)
		done, cancel := context.WithCancel(b.Context())
		cancel()
		changed := h
		changed.Aim = heap.Steady
		for name, call := range map[string]func() error{
			"start": func() error {
				_, err := b.store.StartHeap(done, heap.Heap{Place: bays, Name: "New"}, wren, noon)
				return err
			},
			"change":   func() error { _, err := b.store.ChangeHeap(done, changed); return err },
			"append":   func() error { _, err := b.store.Append(done, bays, temp(h, 0, 50)); return err },
			"void":     func() error { _, err := b.store.Void(done, bays, wren, noon, before.latest[0].ID); return err },
			"garden":   func() error { return b.store.SaveGarden(done, garden(bays), wren, noon) },
			"stock":    func() error { return b.store.SaveStock(done, bays, wren, noon, stock("straw", 1)) },
			"material": func() error { return b.store.SaveMaterial(done, bays, grass(bays), wren, noon) },
			"heaps":    func() error { _, err := b.store.Heaps(done, bays); return err },
			"entries":  func() error { _, err := b.store.Entries(done, bays, h.ID); return err },
		} {
			assert.ErrorIs(b, call(), context.Canceled, name)
		}
		assert.Equal(b, before, b.everything(bays))
	},
	"a call given up midway stores all or nothing": func(b *bench) {
		h := b.start(bays, "North Bay")
		var acknowledged, lines int
		for i := range 60 {
			ctx, cancel := context.WithTimeout(b.Context(), time.Duration(i*10)*time.Microsecond)
			entries := make([]heap.Entry, 20)
			for n := range entries {
				entries[n] = entry(h, 0, heap.Note{Text: fmt.Sprint(i)})
			}
			if _, err := b.store.Append(ctx, bays, entries...); err == nil {
				acknowledged++
			}
			cancel()
		}
		for _, e := range b.entries(h) {
			if _, ok := e.Payload.(heap.Note); ok {
				lines++
			}
		}
		assert.Equal(b, acknowledged*20, lines)
		b.append(bays, temp(h, 0, 50))
	},
}
