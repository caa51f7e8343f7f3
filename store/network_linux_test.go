package store

import "testing"

// The magic numbers of NFS and SMB2 are those of statfs(2) in the Linux manual pages, from memory; those of ext4 and tmpfs are none.
func TestNetworksOfLinux(t *testing.T) {
	for magic, want := range map[uint32]bool{0x6969: true, 0xfe534d42: true, 0xef53: false, 0x01021994: false} {
		if networks[magic] != want {
			t.Errorf("%#x is a network: %v", magic, !want)
		}
	}
}
