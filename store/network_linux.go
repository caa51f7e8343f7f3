package store

import "syscall"

// networks are the kinds of file systems of other machines, by the numbers that statfs(2) gives them: NFS, SMB in three ages, AFS,
// Coda, Ceph, and what programs show as a disk (FUSE), which mostly lies elsewhere.
var networks = map[uint32]bool{
	0x6969: true, 0x517b: true, 0xff534d42: true, 0xfe534d42: true, 0x5346414f: true, 0x73757245: true, 0x00c36400: true,
	0x65735546: true,
}

func onNetwork(path string) bool {
	var s syscall.Statfs_t
	return syscall.Statfs(path, &s) == nil && networks[uint32(s.Type)]
}
