//go:build unix

package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Fifty keys that reach the program at once are fifty calls, in order.
func TestFiftyKeysInOneWrite(t *testing.T) {
	c, store := beginBoard(t, "7<enter>Ada 120<enter><enter>", terminalOptions{})
	var keys, want []string
	for i := range 50 {
		key, call := "x", "10 AAAA"
		if i*i%7 == 2 { // no regular turn: two calls changed over would show
			key, call = "D", "dead"
		}
		keys, want = append(keys, key), append(want, call)
	}
	c.send(strings.Join(keys, ""))
	c.keeps(50)
	c.quit()
	var got []string
	for _, said := range bowled(t, store) {
		_, call, _ := strings.Cut(said, "lane ")
		got = append(got, call[2:])
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A read may end anywhere, in a line that is being typed as well.
func TestKeysOfALineThatComesInTwoReads(t *testing.T) {
	c, store := beginBoard(t, "7<enter>Ada 120<enter>Dag<enter><enter>", terminalOptions{})
	c.press("x,@dag")
	c.contains("dag│")
	c.press("<enter>")
	c.keeps(1)
	c.quit()
	if diff := cmp.Diff([]string{"Dag 1.1 lane 8 10 AAAA"}, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
}

// What the terminal itself sends is never a call, wherever a read cuts it.
func TestWhatATerminalSendsIsNoCall(t *testing.T) {
	for _, sent := range []struct{ what, bytes string }{
		{"a paste", "\x1b[200~12345x\r\x1b[201~"},
		{"a mouse report", "\x1b[<35;12;15M"},
		{"a mouse report of three bytes", "\x1b[M#5x"},
		{"an arrow", "\x1b[D"},
		{"a function key", "\x1bOP"},
		{"the background's colour", "\x1b]11;rgb:1234/5678/9012\x1b\\"},
		{"the background's colour, ended by a bell", "\x1b]11;rgb:1234/5678/9012\a"},
		{"the cursor's place", "\x1b[12;40R"},
		{"what the terminal is", "\x1b[?62;22c"},
	} {
		t.Run(sent.what, func(t *testing.T) {
			c, store := beginBoard(t, "7<enter>Ada 120<enter><enter>", terminalOptions{})
			for cut := 1; cut < len(sent.bytes); cut++ {
				c.sendApart(sent.bytes[:cut], sent.bytes[cut:])
			}
			c.press("x")
			c.keeps(1)
			c.quit()
			if diff := cmp.Diff([]string{"Ada 1.1 lane 7 10 AAAA"}, bowled(t, store)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// page is a page of text with keys in it.
var page = strings.Repeat("The box of 10 pins, x marks: fifty-five (5/5) balls.\nQuick left-handers hit -0+, p. 7!\n", 20)

func TestAPasteChangesNothingAndSaysSo(t *testing.T) {
	for what, paste := range map[string]string{"with brackets": "\x1b[200~" + page + "\x1b[201~", "without brackets": page} {
		t.Run(what, func(t *testing.T) {
			c, store := beginBoard(t, twoOnAPair, terminalOptions{})
			c.press("b7")
			c.contains("left 7")
			before := body(c.screen())
			c.send(paste)
			c.contains("a paste changes nothing here")
			if after := body(c.screen()); after != before {
				t.Errorf("the paste changed the screen to\n%s\nfrom\n%s", after, before)
			}
			c.press("<enter>")
			c.keeps(1)
			c.quit()
			if diff := cmp.Diff([]string{"Ada 1.1 lane 7 9 BAAA"}, bowled(t, store)); diff != "" {
				t.Error(diff)
			}
		})
	}
}
