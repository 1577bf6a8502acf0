package tui

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

func rightClickAt(x, y int) tea.MouseMsg {
	return tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonRight}
}

func wheelDown() tea.MouseMsg {
	return tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelDown}
}

func wheelUp() tea.MouseMsg {
	return tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelUp}
}

// cellsOf gives the cells of a line of the screen, each the character drawn there.
func cellsOf(line string) []string {
	var cells []string
	for _, r := range line {
		for range width(string(r)) {
			cells = append(cells, string(r))
		}
	}
	return cells
}

// pointEverywhere clicks every cell of the window, each time on what open gives, and hands over
// what the window showed before wherever that has changed. back may undo what a click did; else it is opened anew.
func pointEverywhere(t *testing.T, w, h int, open func() *appTest, msg func(x, y int) tea.MouseMsg, back func(d *appTest),
	after func(d *appTest, x, y int, before string)) {
	t.Helper()
	fresh := func() *appTest {
		d := open()
		d.send(sizeMsg(w, h))
		return d
	}
	d := fresh()
	before := d.show()
	for y := range h {
		for x := range w {
			if d.send(msg(x, y)); d.show() == before {
				continue
			}
			after(d, x, y, before)
			d.status = status{}
			back(d)
			if d.show() != before {
				d = fresh()
			}
		}
	}
}

func notBack(*appTest) {}

var mouseSizes = [][2]int{{60, 16}, {100, 30}}

// TestClickEveryCellOfTheBoard looks that a cell that reacts has drawn what it stands for: the pin, the axis, the student.
func TestClickEveryCellOfTheBoard(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: a sweep in one goroutine")
	}
	names := []string{"Ada 120", "Bo 172", "Cyd 190", "Dov 88"}
	for _, size := range mouseSizes {
		for _, begun := range []string{"", "gb"} {
			t.Run(fmt.Sprintf("%dx%d %s", size[0], size[1], begun), func(t *testing.T) {
				open := func() *appTest { return onBoard(t, names...).press("x@ada<enter>" + begun) }
				start := open()
				up, call := start.inHand().UpStudent(), start.inHand().Call()
				back := func(d *appTest) {
					switch now := d.inHand().Call(); {
					case begun != "":
					case d.evening.UpStudent() != up:
						d.tell(d.evening.PutUp(up))
					case now.Pins.How == model.LeftNamed:
						d.press(digitOf(now.Pins.Left))
					default:
						d.press(raising(call.Letters, now.Letters))
					}
				}
				pins, axes, students := map[int]int{}, map[model.Axis]int{}, map[model.ID]int{}
				pointEverywhere(t, size[0], size[1], open, clickAt, back, func(d *appTest, x, y int, before string) {
					lines := strings.Split(before, "\n")
					now := d.inHand().Call()
					switch {
					case now.Pins.How == model.LeftNamed && now.Letters == call.Letters:
						for pin := 1; pin <= 10; pin++ {
							if now.Pins.Left.Has(pin) {
								pins[pin]++
								near(t, lines[y], x, fmt.Sprint(pin))
							}
						}
					case now.Letters != call.Letters:
						for _, a := range model.Axes {
							if now.Letters[a] < call.Letters[a] {
								axes[a]++
								nearAxis(t, lines, x, y, a)
							}
						}
					case d.inHand().UpStudent() != up:
						id := d.inHand().UpStudent()
						students[id]++
						if name := rowsName(lines, y); name != d.evening.Label(id) {
							t.Errorf("%d,%d puts up %s in the row of %q:\n%s", x, y, d.evening.Label(id), name, before)
						}
					case d.status.words != "":
					default:
						if !strings.Contains(d.show(), "▶") && begun == "" {
							t.Errorf("%d,%d does something else:\n%s", x, y, d.show())
						}
					}
				})
				if len(pins) != 10 || len(axes) != model.AxisCount || begun == "" && len(students) != 3 {
					t.Errorf("pins %v, axes %v, students %v react", pins, axes, students)
				}
			})
		}
	}
}

// digitOf gives the key of the first of some pins.
func digitOf(pins tenpin.PinSet) string {
	for pin := 1; pin <= 10; pin++ {
		if pins.Has(pin) {
			return fmt.Sprint(pin % 10)
		}
	}
	return ""
}

// raising gives the key that raises the first letter that is lower now.
func raising(was, now model.Letters) string {
	for _, a := range model.Axes {
		if now[a] < was[a] {
			return strings.ToUpper(axisKeys[a])
		}
	}
	return ""
}

// near tells whether a text is drawn within three cells before a cell of a line, or on it.
func near(t *testing.T, line string, x int, text string) {
	t.Helper()
	cells := cellsOf(line)
	from, to := max(x-3, 0), min(x+len(text), len(cells))
	if !strings.Contains(strings.Join(cells[from:to], ""), text) {
		t.Errorf("%s is not at %d of %q", text, x, line)
	}
}

// nearAxis tells whether the name of an axis begins the line, or else stands above the cell.
func nearAxis(t *testing.T, lines []string, x, y int, a model.Axis) {
	t.Helper()
	name := axisKeys[a] + " " + a.String()
	for up := range mediumFont.lines + 1 {
		at := strings.Index(lines[max(y-up, 0)], name)
		if at < 0 {
			continue
		}
		column := utf8.RuneCountInString(lines[y-up][:at])
		if x >= column-1 && x < column+largeLetterColumn {
			return
		}
	}
	t.Errorf("%s is not above or beside %d,%d", name, x, y)
}

// rowsName gives the student in whose row a line lies: the name drawn last above it.
func rowsName(lines []string, y int) string {
	for ; y >= 0; y-- {
		for _, name := range []string{"Ada", "Bo", "Cyd", "Dov"} {
			if strings.Contains(lines[y], " "+name) || strings.Contains(lines[y], "╮"+name) || strings.Contains(lines[y], "╯"+name) {
				return name
			}
		}
	}
	return ""
}

// TestRightClickRaises lowers a letter with one button and raises it with the other.
func TestRightClickRaises(t *testing.T) {
	for _, size := range mouseSizes {
		open := func() *appTest { return onBoard(t, "Ada 120", "Bo 172").press("bbtt") }
		raised := map[string]int{}
		pointEverywhere(t, size[0], size[1], open, rightClickAt, notBack, func(d *appTest, _, _ int, _ string) {
			raised[d.evening.Call().Letters.String()]++
		})
		if raised["BCAA"] == 0 || raised["CBAA"] == 0 || len(raised) != 3 {
			// An A cannot be raised: the third is what is as it was, with the reason.
			t.Errorf("%v at %v", raised, size)
		}
	}
}

// TestClickEveryCellOfTheLists looks that each row of each list is marked by a click on it, and by nothing else.
func TestClickEveryCellOfTheLists(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: a sweep in one goroutine")
	}
	names := []string{"Ada 120", "Bo 172", "Cyd 190", "Dov 88"}
	for what, c := range map[string]struct {
		keys string
		// at gives the place of the mark, rows how many there are, text what a row begins with.
		at   func(d *appTest) int
		rows int
		text func(d *appTest, row int) string
	}{
		"evening": {"e", func(d *appTest) int { return placeOf(d, d.session.student(d.App)) }, 4, seatName},
		"closing": {"ex", func(d *appTest) int { return d.closing.place(d.evening.Closing()) }, 4, seatName},
		"cues": {"cS<down><up>", func(d *appTest) int { return d.cues.at }, 0, func(d *appTest, row int) string {
			return clean(d.cues.rows[row].Text)[:9]
		}},
		"student": {"s", func(d *appTest) int { return d.student.marked }, 0, func(d *appTest, row int) string {
			if row == d.student.intakeRow() {
				return "intake"
			}
			return d.student.fields[row].Name
		}},
		"strip": {"g", func(d *appTest) int { return d.strip.at }, 5, func(_ *appTest, row int) string {
			return fmt.Sprintf("%d.1", row+1)
		}},
	} {
		for _, size := range mouseSizes {
			t.Run(fmt.Sprintf("%s %dx%d", what, size[0], size[1]), func(t *testing.T) {
				open := func() *appTest {
					return onBoard(t, names...).press("@a<enter>x@a<enter>x@a<enter>x@a<enter>x@a<enter>x@a<enter>" + c.keys)
				}
				start := open()
				start.send(sizeMsg(size[0], size[1]))
				was, seen := c.at(start), map[int]bool{}
				steps := len(start.recorder.steps)
				back := func(d *appTest) { d.screen.(lister).markRow(d.App, was) }
				pointEverywhere(t, size[0], size[1], open, clickAt, back, func(d *appTest, x, y int, before string) {
					now, lines := c.at(d), strings.Split(before, "\n")
					if now == was || len(d.recorder.steps) != steps {
						t.Fatalf("%d,%d changes something else:\n%s\n%s", x, y, before, d.show())
					}
					seen[now] = true
					for at := y; !strings.Contains(lines[at], c.text(d, now)); at-- {
						if at == 0 || y-at > mostMore+1 {
							t.Fatalf("%d,%d marks %s:\n%s", x, y, c.text(d, now), before)
						}
					}
				})
				if len(seen) < 2 || c.rows > 0 && len(seen) != c.rows-1 && size[1] > 16 {
					t.Errorf("rows %v are marked", seen)
				}
			})
		}
	}
}

func placeOf(d *appTest, id model.ID) int {
	for i, seat := range d.evening.Seats() {
		if seat.Student == id {
			return i
		}
	}
	return -1
}

func seatName(d *appTest, row int) string { return d.evening.Label(d.evening.Seats()[row].Student) }

// TestClickEveryCellOfTheMenu goes where a line of the menu goes.
func TestClickEveryCellOfTheMenu(t *testing.T) {
	for _, size := range mouseSizes {
		gone := map[string]bool{}
		back := func(d *appTest) { d.over, d.screen, d.question = menuOver, d.board, nil }
		pointEverywhere(t, size[0], size[1], func() *appTest { return onBoard(t, "Ada 120").press("x<esc>") }, clickAt, back,
			func(d *appTest, x, y int, before string) {
				line := strings.Split(before, "\n")[y]
				where := d.screen.title()
				switch {
				case d.over == helpOver:
					where = "Help"
				case d.question != nil:
					where = "Leave"
				}
				gone[where] = true
				if !strings.Contains(line, where) {
					t.Errorf("%d,%d goes to %s: %q", x, y, where, line)
				}
			})
		if n := len(onBoard(t, "Ada 120").menuRows()); len(gone) != n {
			t.Errorf("%d of %d lines go somewhere at %v: %v", len(gone), n, size, gone)
		}
	}
}

func TestWheel(t *testing.T) {
	names := []string{"Ada 120", "Bo 172", "Cyd 190"}
	for what, c := range map[string]struct{ keys, by string }{
		"evening": {"e", "<down>"}, "closing": {"ex", "<down>"}, "cues": {"cS<down><up>", "<down>"}, "student": {"s", "<down>"},
		"strip": {"@a<enter>g<home>", "<down>"}, "help": {"?", "<down><down><down>"}, "what the help finds": {"?/the", "<down>"},
		"figures": {"gk", "<down><down><down>"}, "spares": {"ys", "<down><down><down>"}, "student's list": {"s/", "<down>"},
	} {
		t.Run(what, func(t *testing.T) {
			open := func() *appTest { return onBoard(t, names...).press("x@ada<enter>x" + c.keys) }
			turned, typed := open(), open().press(c.by)
			before := turned.show()
			turned.send(wheelDown())
			if turned.show() == before || turned.show() != typed.show() {
				t.Errorf("the wheel shows\n%s\n%s\n%s", turned.show(), c.by, typed.show())
			}
			turned.send(wheelUp())
			if turned.show() != before {
				t.Errorf("turned back it shows\n%s\nnot\n%s", turned.show(), before)
			}
		})
	}
	t.Run("the board stays", func(t *testing.T) {
		d := onBoard(t, names...).press("b")
		before := d.show()
		d.send(wheelDown())
		d.press("<esc><esc>")
		d = onBoard(t, names...).press("b")
		if d.send(wheelUp()); d.show() != before {
			t.Errorf("the wheel shows\n%s", d.show())
		}
	})
}

// TestMouseLeavesAlone clicks where nothing may come of it.
func TestMouseLeavesAlone(t *testing.T) {
	for what, c := range map[string]struct {
		keys string
		off  bool
		msg  func(x, y int) tea.MouseMsg
	}{
		"without the mouse":     {"", true, clickAt},
		"while a line is typed": {"Cslow", false, clickAt},
		"over the help":         {"?", false, clickAt},
		"a button let go": {"", false, func(x, y int) tea.MouseMsg {
			return tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionRelease, Button: tea.MouseButtonLeft}
		}},
		"a button dragged": {"", false, func(x, y int) tea.MouseMsg {
			return tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionMotion, Button: tea.MouseButtonLeft}
		}},
	} {
		t.Run(what, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.keys)
			d.send(sizeMsg(minWidth, minHeight))
			d.conf.Mouse = !c.off
			before := d.show()
			for y := -1; y <= d.h; y++ {
				for x := -1; x <= d.w; x++ {
					if d.send(c.msg(x, y)); d.show() != before {
						t.Fatalf("%d,%d shows\n%s", x, y, d.show())
					}
				}
			}
		})
	}
}
