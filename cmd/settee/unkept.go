package main

import (
	"errors"
	"fmt"
	"os"

	"coach.settee/model"
	"coach.settee/store"
)

// setAside writes calls that the store could not keep beside it, as lines of the exchange format, and adds to why it
// could not where they are.
func setAside(path string, steps []model.Step, why error) error {
	f, err := os.OpenFile(freeName(path), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("%w; they could not be written beside the store either: %w", why, err)
	}
	if err := errors.Join(store.WriteUnkept(f, steps), f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("%w; writing them to %s failed too: %w", why, f.Name(), err)
	}
	return fmt.Errorf("%w; they are in %s, as lines that settee import reads", why, f.Name())
}

// freeName gives a name beside the store that no file has yet.
func freeName(path string) string {
	name := path + ".unkept.jsonl"
	for n := 2; ; n++ {
		if _, err := os.Lstat(name); err != nil {
			return name
		}
		name = fmt.Sprintf("%s.unkept-%d.jsonl", path, n)
	}
}
