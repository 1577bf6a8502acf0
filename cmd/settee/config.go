package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/adrg/xdg"

	"coach.settee/model"
)

// config is what the coach's settings file says, and what is usual where it says nothing.
type config struct {
	theme, density, ascii string
	mouse, rotate, block  bool
	place                 string
	arrowsFt              model.Optional[float64]
	// lines gives the line of each key that is in the file.
	lines map[string]int
}

func usualConfig() config {
	return config{theme: "auto", density: "roomy", ascii: "auto", mouse: true, rotate: true, lines: map[string]int{}}
}

// configPath gives where the settings file is, "" for an account without a place for it.
func configPath() string {
	if xdg.ConfigHome == "" {
		return ""
	}
	return filepath.Join(xdg.ConfigHome, "settee", "settee.conf")
}

// mostConfig is how many bytes a settings file may have, so that a wrong file in its place is not read for ever.
const mostConfig = 64 << 10

// readConfig reads a settings file. One that is not there sets nothing; of one with anything wrong in it nothing is taken,
// and the error says what is wrong in which line. The config is usable either way.
func readConfig(path string) (config, error) {
	text, err := configText(path)
	if err != nil {
		return usualConfig(), err
	}
	c, faults := parseConfig(text)
	if len(faults) > 0 {
		return usualConfig(), configError{filepath.Base(path), faults}
	}
	return c, nil
}

// configText gives what a settings file says, nothing for one that is not there.
func configText(path string) (string, error) {
	if path == "" {
		return "", nil
	}
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", unreadableConfig(err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostConfig+1))
	switch {
	case err != nil:
		return "", unreadableConfig(err)
	case len(text) > mostConfig || !utf8.Valid(text):
		return "", unreadableConfig(errors.New("it is no text of settings in UTF-8"))
	}
	return string(text), nil
}

func unreadableConfig(err error) error {
	return fmt.Errorf("settee.conf cannot be read: %w; nothing of it is used", pathless(err))
}

// configError says what is wrong in a settings file.
type configError struct {
	file   string
	faults []lineFault
}

// lineFault is what is wrong in one line, counted from 1.
type lineFault struct {
	line int
	err  error
}

func (e configError) Error() string {
	first := e.faults[0]
	words := fmt.Sprintf("%s line %d: %v", e.file, first.line, first.err)
	if len(e.faults) > 1 {
		var lines []string
		for _, f := range e.faults[1:] {
			lines = append(lines, fmt.Sprint(f.line))
		}
		words += "; wrong too: line " + strings.Join(lines, ", ")
	}
	return words + "; nothing of the file is used"
}

// parseConfig reads lines of `key = value`. Empty lines and those that begin with # say nothing.
func parseConfig(text string) (config, []lineFault) {
	c := usualConfig()
	var faults []lineFault
	for i, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if err := c.take(line, i+1); err != nil {
			faults = append(faults, lineFault{i + 1, err})
		}
	}
	return c, faults
}

// take takes in one line.
func (c *config) take(line string, n int) error {
	if err := model.ValidateText(line); err != nil {
		return err
	}
	key, value, ok := strings.Cut(line, "=")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	if !ok {
		return fmt.Errorf("%s: write it as key = value", line)
	}
	i := slices.IndexFunc(settings, func(s setting) bool { return s.key == key })
	if i < 0 {
		return fmt.Errorf("%s: no such key; settee config lists them", key)
	}
	if before := c.lines[key]; before > 0 {
		return fmt.Errorf("%s is in line %d already: keep one of them", key, before)
	}
	c.lines[key] = n
	if err := settings[i].set(c, value); err != nil {
		return fmt.Errorf("%s = %s: %w", key, value, err)
	}
	return nil
}
