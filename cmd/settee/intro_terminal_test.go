//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The introduction leads to the demo and back, and once it is skipped it never comes again, also where nothing is kept.
func TestIntroductionOnce(t *testing.T) {
	home := t.TempDir()
	o := terminalOptions{env: []string{"XDG_DATA_HOME=" + home, "XDG_CONFIG_HOME=" + home}}
	c := startTerminal(t, o)
	c.contains("Welcome to Settee")
	c.press("?")
	c.contains("lower balance, target, release, finish")
	c.press("?")
	c.contains("Welcome to Settee")
	c.press("d")
	c.contains("racks left")
	c.press("x")
	c.contains("demo")
	c.press("Md")
	c.contains("density: tight, was roomy")
	c.press("qq")
	c.contains("Welcome to Settee")
	c.press("<esc>")
	c.contains("dropped")
	c.quit()
	c = startTerminal(t, o)
	c.contains("lanes tonight")
	if strings.Contains(c.screen(), "Welcome to Settee") {
		t.Errorf("it comes again:\n%s", c.screen())
	}
	c.press("<esc>")
	c.contains("dropped")
	c.quit()
	if text, err := os.ReadFile(filepath.Join(home, "settee", "settee.conf")); err != nil || string(text) != "density = tight\n" {
		t.Errorf("the settings file: %q, %v", text, err)
	}
}
