package storage_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// TestNothingChangesThatIsNotKept: where the record of a change cannot be
// written, the change itself is not there either.
func TestNothingChangesThatIsNotKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	db := open(t, path)
	_, err := raw(t, path).Exec("CREATE TRIGGER full BEFORE INSERT ON changes BEGIN SELECT RAISE(ABORT, 'no room'); END")
	require.NoError(t, err)
	for name, save := range map[string]func() error{
		"garden": func() error { return db.SaveGarden(t.Context(), heap.Garden{Place: here, Zone: "UTC"}, wren, noon) },
		"stock": func() error {
			return db.SaveStock(t.Context(), here, wren, noon, heap.Stock{Material: "straw", VolumeL: 3, At: noon})
		},
		"material": func() error {
			return db.SaveMaterial(t.Context(), here, feedstock.Feedstock{ID: "mill dust"}.WithDensity(200, "group"), wren, noon)
		},
		"plan": func() error {
			_, err := db.ChangePlan(t.Context(), here, wren, noon, func(p *duty.Plan) error { *p = duty.Usual(); return nil })
			return err
		},
	} {
		assert.ErrorContains(t, save(), "no room", name)
	}
	g, err := db.Garden(t.Context(), here)
	require.NoError(t, err)
	assert.Equal(t, heap.Garden{Place: here}, g)
	stock, err := db.Stock(t.Context(), here)
	require.NoError(t, err)
	assert.Empty(t, stock)
	materials, err := db.Materials(t.Context(), here)
	require.NoError(t, err)
	assert.Empty(t, materials)
	plan, err := db.Plan(t.Context(), here)
	require.NoError(t, err)
	assert.Zero(t, plan)
}
