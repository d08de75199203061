package storage_test

import (
	"testing"

	"heapside/storage/storetest"
)

func TestConformance(t *testing.T) {
	storetest.Run(t, func(t *testing.T) storetest.Store { return fresh(t) })
}
