package gauge

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"strconv"
	"strings"
	"syscall"

	"heapside/calc/fault"
)

// example is an address that is accepted. Port 9464 is what exporters of the
// kind often take (from memory).
const example = "127.0.0.1:9464"

// Listen opens the port of an address of this machine's own, such as
// 127.0.0.1:9464, [::1]:9464 or localhost:9464; port 0 is any that is free. Any
// other address is a *fault.Error: what is shown is for this machine alone.
func Listen(ctx context.Context, address string) (net.Listener, error) {
	at, err := loopback(ctx, address, net.DefaultResolver.LookupNetIP)
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp", at.String())
	var why syscall.Errno
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fault.New(fault.Taken, "“%s” is in use by another program. Name another port, or port 0 for any that is free.", address)
	case errors.As(err, &why):
		return nil, fault.New(fault.Unavailable, "“%s” cannot be listened at (%v). Say for example %s.", address, why, example)
	}
	return l, err
}

// Check says whether Listen would take an address, but for who listens there.
func Check(ctx context.Context, address string) error {
	_, err := loopback(ctx, address, net.DefaultResolver.LookupNetIP)
	return err
}

// resolver finds the addresses of a name.
type resolver func(ctx context.Context, network, host string) ([]netip.Addr, error)

// loopback reads an address of this machine's own.
func loopback(ctx context.Context, address string, resolve resolver) (netip.AddrPort, error) {
	host, number, err := net.SplitHostPort(address)
	port, portErr := strconv.ParseUint(number, 10, 16)
	if err != nil || portErr != nil {
		return netip.AddrPort{}, fault.New(fault.NotUnderstood, "“%s” is no address with the number of a port. Say for example %s.", address, example)
	}
	ip, err := netip.ParseAddr(host)
	if strings.EqualFold(host, "localhost") {
		ip, err = pick(resolve(ctx, "ip", host))
	}
	switch {
	case err != nil:
		return netip.AddrPort{}, fault.New(fault.NotUnderstood, "“%s” is no address of this machine's own: of names only localhost is taken. Say for example %s.", address, example)
	case !ip.Unmap().IsLoopback():
		return netip.AddrPort{}, fault.New(fault.NotAllowed, "“%s” can be reached from other machines, and who asks is not checked. Name an address of this machine's own, for example %s.", address, example)
	}
	return netip.AddrPortFrom(ip, uint16(port)), nil
}

// pick is the address of a name to listen at, of version 4 if there is such,
// which every program tries. One that others can reach comes before all: a name
// that means this machine and others cannot be relied on.
func pick(found []netip.Addr, err error) (netip.Addr, error) {
	if err != nil || len(found) == 0 {
		return netip.Addr{}, errors.Join(errNoAddress, err)
	}
	best := found[0]
	for _, ip := range found {
		switch ip = ip.Unmap(); {
		case !ip.IsLoopback():
			return ip, nil
		case ip.Is4():
			best = ip
		}
	}
	return best, nil
}

var errNoAddress = errors.New("the name has no address")
