//go:build !unix

package tui

// canSuspend says whether ctrl+z may stop the program. There is no job control here.
func canSuspend() bool {
	return false
}
