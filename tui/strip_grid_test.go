package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

// TestStripStudentHasOneGrid: the numbers of all ten frames stand over their dots, pins and totals, at every width.
func TestStripStudentHasOneGrid(t *testing.T) {
	d := onBoard(t, "Ada 172").press("x9<enter>/7<enter>-<enter>xxbxxxxx9<enter>x").press("gv")
	x := d.strip.sheet()
	if !x.Finished() {
		t.Fatalf("the game is at frame %d", x.Next().Frame)
	}
	for w := minWidth; w <= 200; w++ {
		p := d.strip.picture(d.App, w, 50)
		p.w = min(w, widestStudentView)
		grid := p.dotGrid(x)
		if len(grid) != 5 {
			t.Fatalf("%d lines at %d", len(grid), w)
		}
		lines := make([][]rune, len(grid))
		for i, l := range grid {
			lines[i] = []rune(ansi.Strip(l) + blanks(w))
		}
		c := p.frameColumns()
		for frame := 1; frame <= 10; frame++ {
			at := 2 + (frame-1)*c.cell
			if number := fmt.Sprint(frame); string(lines[0][at:at+len(number)]) != number {
				t.Fatalf("frame %d is not in column %d at %d: %s", frame, at, w, string(lines[0]))
			}
			for i, what := range []string{"dot", "pins", "sign", "total"} {
				if l := lines[i+1]; l[at] == ' ' || l[at-1] != ' ' {
					t.Errorf("the %s of frame %d do not begin in column %d at %d: %s", what, frame, at, w, string(l))
				}
			}
		}
	}
}

// TestStripStudentSaysWhoseAndWhich: the heading names the student and the game, wherever the view is turned from.
func TestStripStudentSaysWhoseAndWhich(t *testing.T) {
	for _, keys := range []string{"gv", "vv"} {
		d := onBoard(t, "Ada 120", "Bo 172").press("x@ada<enter>" + keys).says("Strip of Ada, game 1")
		d.press("<esc>").silent("Strip of")
	}
}

// TestStripHasRoomForASplit: from 100 columns on the widest of the usual splits is told in full, as it is in the words below,
// and no two headings touch.
func TestStripHasRoomForASplit(t *testing.T) {
	d := onBoard(t, "Ada 120").press("46780<enter>g")
	for w := minWidth; w <= 200; w++ {
		d.send(sizeMsg(w, 24))
		if w >= roomyWidth {
			d.says("5 4-6-7-8-10 split ")
		}
		head := ""
		for _, l := range strings.Split(d.show(), "\n") {
			if strings.HasPrefix(l, "frame pins") {
				head = l
			}
		}
		if got := len(strings.Fields(head)); got < 7 || w >= wideWidth && !strings.Contains(head, "own  cue") {
			t.Errorf("the headings at %d: %s", w, head)
		}
	}
}
