package store

import (
	"os"

	"golang.org/x/sys/unix"
)

// datasync syncs what a file holds and no more, as the library does here.
func datasync(f *os.File) error { return unix.Fdatasync(int(f.Fd())) }
