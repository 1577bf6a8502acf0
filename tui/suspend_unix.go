//go:build unix

package tui

import (
	"os"
	"os/signal"
	"syscall"

	"golang.org/x/sys/unix"
)

// canSuspend says whether ctrl+z may stop the program, that is, whether somebody is there to wake it. The kernel
// discards the stop of a session's leader and of a process group whose parents are all in it or in other sessions,
// and the runtime would then wait for ever. A shell with job control gives each command a group of its own in its
// own session; where the group is shared (a script, make) the answer is no, though the script's shell may be one.
func canSuspend() bool {
	session, err := unix.Getsid(0)
	if err != nil || session == os.Getpid() || signal.Ignored(syscall.SIGTSTP) {
		return false
	}
	parentSession, err := unix.Getsid(os.Getppid())
	if err != nil || parentSession != session {
		return false
	}
	parentGroup, err := unix.Getpgid(os.Getppid())
	return err == nil && parentGroup != unix.Getpgrp()
}
