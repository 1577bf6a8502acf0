// Settee grades the deliveries of several ten-pin bowling students at once, with single keys on one screen, and keeps
// every delivery, score and count.
//
// This package holds the commands, one a file: what is asked for, where it is kept, how the program ends. It knows no
// rule of the game and draws nothing.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"coach.settee/tui"
	// Settles the background before anything asks the terminal; see there.
	_ "coach.settee/tui/probe"
)

// The exit codes.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

// lastWords is how long a terminal may take for the line that says why the program ends.
const lastWords = time.Second

func main() {
	os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the program as a function: it does what args ask for and gives the exit code. Why something was refused or
// failed goes to errOut, in one line.
func run(ctx context.Context, args []string, in io.Reader, out, errOut io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitDone
	}
	complain(errOut, err)
	var wrong usageError
	if errors.As(err, &wrong) {
		return exitUsage
	}
	return exitFailed
}

// complain writes an error in one line. A terminal that takes no output does not hold up the end of the program.
func complain(errOut io.Writer, err error) {
	line := "settee: " + oneLine(err) + "\n"
	if !errors.Is(err, tui.ErrTerminalStuck) {
		fmt.Fprint(errOut, line)
		return
	}
	written := make(chan struct{})
	go func() {
		defer close(written)
		fmt.Fprint(errOut, line)
	}()
	select {
	case <-written:
	case <-time.After(lastWords):
	}
}

func oneLine(err error) string { return strings.Join(strings.Fields(err.Error()), " ") }

// untilSignal gives a context that ends when the program is asked to end or its terminal hangs up. Only what has
// something to put in order takes signals; everything else may end at once.
func untilSignal(ctx context.Context) (context.Context, context.CancelFunc) {
	return signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
}
