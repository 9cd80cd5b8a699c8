package store

import "syscall"

// network returns the name of the network file system that a folder is on, empty for none that is known. Source: the
// magic numbers of statfs(2) and of the kernel's linux/magic.h.
func network(folder string) string {
	var s syscall.Statfs_t
	if syscall.Statfs(folder, &s) != nil {
		return ""
	}
	return networkName(uint32(s.Type)) //nolint:gosec // the low 32 bits are the number
}

// networkName returns the name of a network file system by its number, empty for others.
func networkName(number uint32) string {
	return map[uint32]string{
		0x6969:     "NFS",
		0x517b:     "SMB",
		0xff534d42: "SMB",
		0xfe534d42: "SMB",
		0x00c36400: "Ceph",
		0x5346414f: "AFS",
		0x6b414653: "AFS",
		0x01021997: "9P",
		0x73757245: "Coda",
		0x7461636f: "OCFS2",
		0x01161970: "GFS2",
		0x65735546: "FUSE",
	}[number]
}
