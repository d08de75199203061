package gauge

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

// means is a resolver that knows one name.
func means(addresses ...string) resolver {
	return func(_ context.Context, _, host string) ([]netip.Addr, error) {
		if host != "localhost" {
			return nil, errors.New("asked for " + host)
		}
		var found []netip.Addr
		for _, a := range addresses {
			found = append(found, netip.MustParseAddr(a))
		}
		return found, nil
	}
}

func TestLoopback(t *testing.T) {
	for _, tc := range []struct {
		address string
		hosts   resolver
		want    string
		code    fault.Code
	}{
		{"127.0.0.1:9464", nil, "127.0.0.1:9464", ""},
		{"127.8.9.1:0", nil, "127.8.9.1:0", ""},
		{"[::1]:9464", nil, "[::1]:9464", ""},
		{"localhost:9464", means("127.0.0.1"), "127.0.0.1:9464", ""},
		{"localhost:9464", means("::1", "127.0.0.1"), "127.0.0.1:9464", ""},
		{"localhost:9464", means("::1"), "[::1]:9464", ""},
		{"localhost:9464", means("127.0.0.1", "192.0.2.7"), "", fault.NotAllowed},
		{"localhost:9464", means(), "", fault.NotUnderstood},
		{"0.0.0.0:9464", nil, "", fault.NotAllowed},
		{"[::]:9464", nil, "", fault.NotAllowed},
		{"192.0.2.7:9464", nil, "", fault.NotAllowed},
		{"[::ffff:192.0.2.7]:9464", nil, "", fault.NotAllowed},
		{":9464", nil, "", fault.NotUnderstood},
		{"9464", nil, "", fault.NotUnderstood},
		{"127.0.0.1", nil, "", fault.NotUnderstood},
		{"127.0.0.1:", nil, "", fault.NotUnderstood},
		{"127.0.0.1:http", nil, "", fault.NotUnderstood},
		{"127.0.0.1:65536", nil, "", fault.NotUnderstood},
		{"127.0.0.1:-1", nil, "", fault.NotUnderstood},
		{"millrace.example:9464", means("127.0.0.1"), "", fault.NotUnderstood},
		{"http://127.0.0.1:9464", nil, "", fault.NotUnderstood},
	} {
		t.Run(tc.address, func(t *testing.T) {
			got, err := loopback(t.Context(), tc.address, tc.hosts)
			if tc.code == "" {
				require.NoError(t, err)
				assert.Equal(t, tc.want, got.String())
				return
			}
			f, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			assert.Equal(t, tc.code, f.Code)
			assert.Contains(t, f.Message, "“"+tc.address+"”")
			assert.Contains(t, f.Message, example)
		})
	}
}

func TestListen(t *testing.T) {
	first, err := Listen(t.Context(), "127.0.0.1:0")
	require.NoError(t, err)
	defer first.Close()
	assert.NotZero(t, first.Addr().(*net.TCPAddr).Port)
	_, err = Listen(t.Context(), first.Addr().String())
	f, ok := fault.As(err)
	require.True(t, ok, "%v", err)
	assert.Equal(t, fault.Taken, f.Code)
	assert.Contains(t, f.Message, first.Addr().String())
}

// FuzzLoopback: whatever is accepted can be reached from this machine only.
func FuzzLoopback(f *testing.F) {
	for _, seed := range []string{"127.0.0.1:9464", "[::1]:0", "localhost:80", "[::ffff:7f00:1]:1", "[::1%lo]:9464", "0:9464", "127.1:9464", "[fe80::1%25lo]:9", "κομπόστ:1", "127.0.0.1:0009464"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, address string) {
		got, err := loopback(t.Context(), address, means("::1"))
		if err != nil {
			_, ok := fault.As(err)
			require.True(t, ok, "%v", err)
			return
		}
		require.True(t, got.Addr().Unmap().IsLoopback(), "%s is %v", address, got)
	})
}
