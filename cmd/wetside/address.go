package main

import (
	"context"
	"net"
	"net/netip"
)

// reached is an address to open: where all addresses of the machine are listened on, the one by which it leaves for other
// networks. No packet is sent to find it. Without such a one it is the address as it is listened on.
func reached(ctx context.Context, listening net.Addr) string {
	at, err := netip.ParseAddrPort(listening.String())
	if err != nil || !at.Addr().IsUnspecified() {
		return listening.String()
	}
	out, err := (&net.Dialer{}).DialContext(ctx, "udp4", "192.0.2.1:9") // RFC 5737: an address of nobody
	if err != nil {
		return listening.String()
	}
	defer func() { _ = out.Close() }()
	own, err := netip.ParseAddrPort(out.LocalAddr().String())
	if err != nil {
		return listening.String()
	}
	return netip.AddrPortFrom(own.Addr(), at.Port()).String()
}
