package tui

import (
	"strings"
	"testing"

	"coach.settee/store"
)

// feet gives the last lines of the window.
func (d *appTest) feet(n int) []string {
	lines := strings.Split(d.show(), "\n")
	lines = lines[len(lines)-n:]
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return lines
}

func TestFoot(t *testing.T) {
	const hints = "? keys"
	at60 := func(keys string) *appTest {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.send(sizeMsg(60, 16))
		return d.press("x" + keys)
	}
	t.Run("without words the last call is on the left", func(t *testing.T) {
		if f := at60("").feet(2); f[0] != "last: Ada frame 1: strike A" || !strings.HasSuffix(f[1], hints) {
			t.Error(f)
		}
	})
	t.Run("short words leave it whole on the right", func(t *testing.T) {
		d := at60("")
		d.refuseWith("A already")
		f := d.feet(2)
		if f[0] != "A already"+blanks(24)+"last: Ada frame 1: strike A" || !strings.HasSuffix(f[1], hints) {
			t.Error(f)
		}
	})
	t.Run("longer words leave it a third, cut before its sign", func(t *testing.T) {
		d := at60("")
		d.slow = true
		d.press("bx")
		d.disk(store.Progress{Durable: d.recorder.progress.Issued - 1})
		d.say(strings.Repeat("w", 38))
		if f := d.feet(2); f[0] != strings.Repeat("w", 38)+"  last: Bo frame 1:… …" || !strings.HasSuffix(f[1], hints) {
			t.Errorf("%q", f)
		}
	})
	t.Run("words longer than that begin in the empty line above", func(t *testing.T) {
		d := at60("")
		d.refuseWith(strings.Repeat("word ", 14) + "end")
		f := d.feet(3)
		if f[0] != strings.TrimSpace(strings.Repeat("word ", 12)) || f[1] != "word word end"+blanks(20)+"last: Ada frame 1: strike A" ||
			!strings.HasSuffix(f[2], hints) {
			t.Errorf("%q", f)
		}
	})
	t.Run("where no line is empty above they take the hints' place", func(t *testing.T) {
		d := at60("7/")
		f := d.feet(3)
		if !strings.HasPrefix(f[0], " left 7") || f[1] != "/ is for a spare shot: on a full rack x is a strike" || f[2] != "last: Ada frame 1: strike A" {
			t.Errorf("%q", f)
		}
		if d.press("b"); !strings.HasSuffix(d.feet(1)[0], hints) {
			t.Error(d.show())
		}
	})
	t.Run("never that of a prompt", func(t *testing.T) {
		d := at60("7OH<enter>")
		d.refuseWith(strings.Repeat("word ", 14))
		if f := d.feet(3); !strings.HasSuffix(f[1], "last: Ada frame 1: strike A") || !strings.HasSuffix(f[2], ": H│") {
			t.Errorf("%q", f)
		}
	})
	t.Run("words that fill both lines are alone", func(t *testing.T) {
		d := at60("")
		d.refuseWith(strings.Repeat("word ", 22))
		if f := d.feet(3); strings.Contains(f[1], "last:") || !strings.HasPrefix(f[1], "word word") || !strings.HasSuffix(f[2], hints) {
			t.Errorf("%q", f)
		}
	})
}
