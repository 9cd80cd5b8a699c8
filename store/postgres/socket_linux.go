package postgres

import "syscall"

// tcpUserTimeout is TCP_USER_TIMEOUT of the kernel's linux/tcp.h.
const tcpUserTimeout = 0x12

// giveUp lets the kernel give a connection up when what was sent is not taken for so long; else it takes a quarter of an hour.
func giveUp(_, _ string, c syscall.RawConn) error {
	return c.Control(func(fd uintptr) { // a socket in the file system has no such option and needs none
		_ = syscall.SetsockoptInt(int(fd), syscall.IPPROTO_TCP, tcpUserTimeout, int(deadAfter.Milliseconds()))
	})
}
