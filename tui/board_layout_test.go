package tui

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// TestBoardFiguresStandInOneColumn: the counts of all rows end in the same column, where a line parts them.
func TestBoardFiguresStandInOneColumn(t *testing.T) {
	for _, e := range []eveningTest{midEvening(t), fullHouse(t)} {
		p := e.picture()
		rows := p.students()
		for w := 60; w <= 200; w++ {
			for _, plan := range []boardPlan{{row: 2, gap: 1}, {row: 3}, {row: 4}} {
				c := columnsFor(w, 2, plan.row)
				nameRows(p.Evening, rows, c.name, plan.row)
				for _, r := range rows {
					last := 0
					for _, l := range p.row(nil, r, c, plan, true) {
						cells := []rune(ansi.Strip(l))
						for x := c.left() - c.of - c.figure; x < c.left()-c.of && x < len(cells); x++ {
							if strings.ContainsRune("█▀▄", cells[x]) {
								last = max(last, x)
							}
						}
					}
					if want := c.left() - c.of - 1; last != want {
						t.Fatalf("the count of %s ends in column %d, not %d, at %d in %d lines", r.name, last, want, w, plan.row)
					}
				}
			}
		}
	}
}

// TestBoardSmallFiguresAreParted: where lines are over, figures that fill theirs have a blank one between them.
func TestBoardSmallFiguresAreParted(t *testing.T) {
	for students := 1; students <= 8; students++ {
		for h := 13; h <= 60; h++ {
			p := planFor(students, 1, h, 2)
			if over := h - smallPanel - p.rows(students, 1); p.row == smallFont.lines && p.gap == 0 && over >= students {
				t.Errorf("%d students in %d lines: %+v leaves %d", students, h, p, over)
			}
		}
	}
}

// longNames is eight students on four pairs, the first two with a finished game.
func longNames(t tester) *appTest {
	d := onBoard(t, "Hedwig-Charlotte 150", "Bo 172", "Cyd 195", "Dov 88", "Eve 140", "Finnegan 160", "Ada 120", "Wolfgang 210")
	d.press("@hed<enter>xxxxxxxxxxxx@bo<enter>bbxxxxxxxxxxxx@hed<enter>")
	d.send(sizeMsg(100, 30))
	return d
}

// TestBoardGivesNamesTheRoom: from 100 columns on what is bowled is said in full, and most of a name of 16 letters.
func TestBoardGivesNamesTheRoom(t *testing.T) {
	d := longNames(t)
	for w := roomyWidth; w <= 200; w++ {
		d.send(sizeMsg(w, 30))
		d.says("Hedwig-Charl", "game 1 over")
		if strings.Count(d.show(), "game 1 over") != 2 {
			t.Fatalf("at %d:\n%s", w, d.show())
		}
	}
	for w := 108; w <= 200; w++ {
		d.send(sizeMsg(w, 30))
		d.says("Hedwig-Charlotte]")
	}
}

// TestBoardSaysWhoseGoalIsMet: the heading is of the next game, so what is said of the last one names it.
func TestBoardSaysWhoseGoalIsMet(t *testing.T) {
	d := longNames(t)
	d.says("next game, frame 1", "game 1: goal met").silent("heading for")
	d.press("x@hed<enter>").says("frame 2", "heading for").silent("goal met")
	t.Run("a drill", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("G2 corner<enter>xx").says("next drill corner, ball 1", "drill corner: goal met")
		d.press("x").silent("drill corner: ")
	})
}

// TestBoardWheel: the wheel shows the students out of view, a row at a time, and nothing else comes of it; the next key has
// the one that it speaks of in view.
func TestBoardWheel(t *testing.T) {
	var names []string
	for i := range 16 {
		names = append(names, fmt.Sprintf("%c%c 150", 'A'+i, 'a'+i))
	}
	d := onBoard(t, names...).press("@aa<enter>")
	d.send(sizeMsg(60, 16))
	inRow := func(i int) bool {
		for _, l := range strings.Split(d.show(), "\n")[1:8] {
			if strings.Contains(l, firstWord(names[i])) {
				return true
			}
		}
		return false
	}
	steps, up := len(d.recorder.steps), d.evening.UpStudent()
	top := d.show()
	d.send(wheelUp())
	if d.show() != top {
		t.Errorf("it goes on above the first:\n%s", d.show())
	}
	d.send(wheelDown())
	if inRow(0) || !inRow(1) || !strings.Contains(d.show(), "↑1") {
		t.Errorf("one row on:\n%s", d.show())
	}
	for range 40 {
		d.send(wheelDown())
	}
	if !inRow(15) || strings.Contains(d.show(), "↓") {
		t.Errorf("at the end:\n%s", d.show())
	}
	d.send(wheelUp())
	if inRow(15) || !strings.Contains(d.show(), "↓1") {
		t.Errorf("one row back:\n%s", d.show())
	}
	if len(d.recorder.steps) != steps || d.evening.UpStudent() != up {
		t.Error("something else has changed")
	}
	if d.press("b"); !inRow(0) {
		t.Errorf("the student who is called is out of view:\n%s", d.show())
	}
	t.Run("where all fit nothing moves", func(t *testing.T) {
		d := longNames(t)
		before := d.show()
		for _, msg := range []tea.MouseMsg{wheelDown(), wheelUp()} {
			if d.send(msg); d.show() != before {
				t.Errorf("it shows\n%s", d.show())
			}
		}
	})
}
