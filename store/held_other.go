//go:build !linux && !darwin

package store

import (
	"os"
	"runtime"
)

func holdPart(*os.File) {}

// nobodyHolds is true on Windows, where a file that is open cannot be removed.
func nobodyHolds(string) bool { return runtime.GOOS == "windows" }
