package store

import (
	"os"
	"runtime"
)

// MakePrivate makes the file at path its owner's alone, as a copy from a stick is not, and tells whether it was not before
// and is now. Where that cannot be, as on a file system without permissions, the file stays as it is. Its folder does too.
func MakePrivate(path string) bool {
	const others = 0o077
	before, err := os.Stat(path)
	if runtime.GOOS == "windows" || err != nil || !before.Mode().IsRegular() || before.Mode().Perm()&others == 0 {
		return false
	}
	if os.Chmod(path, before.Mode().Perm()&^others) != nil {
		return false
	}
	after, err := os.Stat(path)
	return err == nil && after.Mode().Perm()&others == 0
}
