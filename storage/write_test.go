package storage_test

import (
	"context"
	"database/sql"
	"errors"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/storage"
)

const addStock = "INSERT INTO stock (guild, channel, material, said, volume_l, at_ms) VALUES ($1, $2, $3, '', 1, 0)"

func TestAWriteThatHasBegunRunsToItsEnd(t *testing.T) {
	db := fresh(t)
	ctx, cancel := context.WithCancel(t.Context())
	err := db.Write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, addStock, here.Guild, here.Channel, "straw")
		cancel()
		if err == nil {
			_, err = tx.ExecContext(ctx, addStock, here.Guild, here.Channel, "leaves")
		}
		return err
	})
	require.NoError(t, err)
	stock, err := db.Stock(t.Context(), here)
	require.NoError(t, err)
	assert.Len(t, stock, 2)
}

func TestAWriteThatFailsLeavesNothingAndNoLock(t *testing.T) {
	db := fresh(t)
	failure := errors.New("no")
	for name, stop := range map[string]func() error{
		"an error": func() error { return failure },
		"a panic":  func() error { panic(failure) },
	} {
		t.Run(name, func(t *testing.T) {
			func() {
				defer func() { _ = recover() }()
				err := db.Write(t.Context(), func(ctx context.Context, tx *sql.Tx) error {
					_, err := tx.ExecContext(ctx, addStock, here.Guild, here.Channel, "straw")
					return errors.Join(err, stop())
				})
				require.ErrorIs(t, err, failure)
			}()
			stock, err := db.Stock(t.Context(), here)
			require.NoError(t, err)
			assert.Empty(t, stock)
			require.NoError(t, db.SaveGarden(t.Context(), heap.Garden{Place: here}, wren, noon))
		})
	}
}

func TestAWriteThatWaitsCanBeGivenUp(t *testing.T) {
	db := fresh(t)
	ctx, cancel := context.WithCancel(t.Context())
	err := db.Write(t.Context(), func(context.Context, *sql.Tx) error {
		cancel()
		return db.SaveGarden(ctx, heap.Garden{Place: here, Zone: "UTC"}, wren, noon)
	})
	require.ErrorIs(t, err, context.Canceled)
}

// Two processes may keep one file open; two records stand for them here.
func TestTwoProgramsWriteToOneFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	programs := []*storage.DB{open(t, path), open(t, path)}
	h := started(t, programs[0])
	const each = 100
	errs := make([]error, len(programs))
	var running sync.WaitGroup
	for i, db := range programs {
		running.Go(func() {
			for range each {
				if _, err := db.Append(t.Context(), here, hot(h, 0)); err != nil {
					errs[i] = err
					return
				}
			}
		})
	}
	running.Wait()
	require.NoError(t, errors.Join(errs...))
	entries, err := programs[1].Entries(t.Context(), here, h.ID)
	require.NoError(t, err)
	assert.Len(t, entries, 1+2*each)
}
