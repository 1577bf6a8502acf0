//go:build linux || darwin

package store

import (
	"os"

	"golang.org/x/sys/unix"
)

// holdPart tells the others that a file is being written, until it is closed. Where the file system has no locks it does
// not, and nobodyHolds says so.
func holdPart(f *os.File) { _ = unix.Flock(int(f.Fd()), unix.LOCK_SH|unix.LOCK_NB) }

// nobodyHolds tells whether no process writes or reads a file.
func nobodyHolds(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	return unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB) == nil
}
