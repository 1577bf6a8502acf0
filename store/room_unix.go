//go:build linux || darwin

package store

import "golang.org/x/sys/unix"

func freeBytes(dir string) (int64, error) {
	var of unix.Statfs_t
	if err := unix.Statfs(dir, &of); err != nil {
		return 0, err
	}
	return int64(of.Bavail) * int64(of.Bsize), nil
}
