package store

import "syscall"

// networks are the kinds of file systems of other machines, by the names that statfs(2) gives them.
var networks = map[string]bool{"nfs": true, "smbfs": true, "afpfs": true, "webdav": true, "macfuse": true, "osxfuse": true}

func onNetwork(path string) bool {
	var s syscall.Statfs_t
	if syscall.Statfs(path, &s) != nil {
		return false
	}
	var name []byte
	for _, c := range s.Fstypename {
		if c == 0 {
			break
		}
		name = append(name, byte(c))
	}
	return networks[string(name)]
}
