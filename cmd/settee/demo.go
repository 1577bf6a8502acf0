package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// demoSeed is the seed of the evenings that the demo has unless another is asked for.
const demoSeed = 1

// demoCommand is `settee demo`: the board on a store that is thrown away, with invented evenings in it.
func demoCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Open the board on an invented evening; nothing is kept",
		Long: `Demo opens the board on a running evening of six invented students on three
pairs, with four earlier evenings behind it. Everything in it is invented, and
nothing of it is kept: it is a place to try the keys.`,
		Args: cobra.NoArgs,
		RunE: runDemo,
	}
	addBoardFlags(cmd)
	cmd.Flags().Uint64("seed", demoSeed, "invent the evenings of this `NUMBER`: the same one gives the same evenings")
	return cmd
}

func runDemo(cmd *cobra.Command, _ []string) error {
	if cmd.Flags().Changed("store") {
		return usageError{cmd, errors.New("the demo keeps nothing: leave out --store")}
	}
	seed, err := cmd.Flags().GetUint64("seed")
	if err != nil {
		return err
	}
	b, err := boardOf(cmd)
	if err != nil {
		return err
	}
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	return b.asDemo().showDemo(ctx, seed)
}

// asDemo gives the board as the demo has it.
func (b board) asDemo() board {
	b.title, b.note, b.notice, b.brought = "demo", " (gone when the demo is left)", "", ""
	return b
}

// showDemo shows the board on the invented evenings of a seed until it is left, and throws them away.
func (b board) showDemo(ctx context.Context, seed uint64) (err error) {
	dir, err := os.MkdirTemp("", "settee-demo-")
	if err != nil {
		return fmt.Errorf("no room for the demo: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	s, err := demoStore(filepath.Join(dir, "demo.db"), seed)
	if err != nil {
		return err
	}
	_, err = b.show(ctx, s)
	return err
}

// demoStore makes a store with the invented evenings of a seed.
func demoStore(path string, seed uint64) (*store.Store, error) {
	evenings, err := inventEvenings(seed)
	if err != nil {
		return nil, err
	}
	s, err := store.Open(path, store.Options{NoSync: true})
	if err != nil {
		return nil, err
	}
	for _, steps := range evenings {
		if err := s.Keep(steps...); err != nil {
			return nil, errors.Join(err, s.Close())
		}
	}
	return s, nil
}
