// Package notify tells the service manager that started a program how it does, in the datagrams of sd_notify(3): ready,
// stopping, and that it still lives. Where no manager asked (NOTIFY_SOCKET is not set) it does nothing.
package notify
