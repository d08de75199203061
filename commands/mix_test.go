package commands_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/commands"
)

// TestMixOrder holds that what arrived may be named in any order: the same load
// has the same recipe, spread and odds.
func TestMixOrder(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	for _, items := range [][]string{
		{"2-3 kg of brewery grain", "3 litres of kitchen scraps", "5 buckets of vegetable scraps"},
		{"3 kg of apples", "half a kg of sawdust"},
		{"1½ barrows of wood chips", "30 litres of citrus peel"},
	} {
		there := a.Line(context.Background(), call, "mix "+strings.Join(items, ", "))
		items[0], items[len(items)-1] = items[len(items)-1], items[0]
		back := a.Line(context.Background(), call, "mix "+strings.Join(items, ", "))
		require.Nil(t, there.Err)
		assert.Equal(t, there.Headline, back.Headline)
		for _, name := range []string{"before.cn.low", "after.cn.low", "after.air.high", "holds"} {
			assert.InDelta(t, there.Values[name].Value, back.Values[name].Value, 1e-9, "%s of %v", name, items)
		}
	}
}

// TestMixMineral holds that the printed properties give the printed balance: a
// mineral's carbon takes no part in it.
func TestMixMineral(t *testing.T) {
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	r := assistant(t).Line(context.Background(), call, "mix 2 buckets of straw and 1 bucket of eggshells")
	require.Nil(t, r.Err)
	assert.EqualValues(t, 0, r.Values["in.2.carbon"].Value)
	assert.InDelta(t, r.Values["in.1.cn"].Value, r.Values["before.cn"].Value, 1e-9)
}
