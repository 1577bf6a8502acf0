package tui

import (
	"regexp"
	"strings"
	"testing"
)

// TestEveningColumnsAreApart: two blanks at least between the columns, whatever the lanes.
func TestEveningColumnsAreApart(t *testing.T) {
	for _, lanes := range []string{"7", "11", "101"} {
		d := startApp(t, &fakeReader{}).press(lanes + "<enter>Ada 138<enter><enter>e")
		for _, size := range sizes {
			d.send(sizeMsg(size.w, size.h))
			if !regexp.MustCompile(`\d+/\d+ {2,}\d+, \d+ even {2,}138 {2,}0 {2,}0 {2,}Ada`).MatchString(d.show()) {
				t.Errorf("at %dx%d:\n%s", size.w, size.h, d.show())
			}
			head, row := lineWith(t, d, "avg"), strings.ReplaceAll(lineWith(t, d, "138"), "▶", ">")
			if strings.Index(head, "avg") != strings.Index(row, "138") || strings.Index(head, "student") != strings.Index(row, "Ada") {
				t.Errorf("the head is not above its column:\n%s\n%s", head, row)
			}
		}
	}
}

// lineWith gives the line of the screen that holds some words.
func lineWith(t tester, d *appTest, words string) string {
	t.Helper()
	for line := range strings.SplitSeq(d.show(), "\n") {
		if strings.Contains(line, words) {
			return line
		}
	}
	t.Fatalf("no %q:\n%s", words, d.show())
	return ""
}

// TestNotedSaysWhatTheSignStandsFor: the ! stands for a load reached too, and I says so.
func TestNotedSaysWhatTheSignStandsFor(t *testing.T) {
	d := onBoard(t, "Ada 120").press("s").on("load limit").press("<enter>2<enter><esc>x")
	d.press("I").says("nothing noted for Ada")
	d.press("xeI").says("Ada !", "Ada: load reached: 2 of 2")
	d.press("<esc>xI").says("Ada: load reached: 3 of 2")
}

// TestEveningForgetsTheMark: the student up is marked at the next visit, after a look at the checklist the one marked before.
func TestEveningForgetsTheMark(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("e<down>").says("▶ 7/8     8")
	d.press("x<esc>")
	if up := d.session.student(d.App); d.session.marked == "" || d.evening.Label(up) != "Bo" {
		t.Errorf("%q is marked after the checklist", d.session.marked)
	}
	d.press("<esc>e")
	if up := d.session.student(d.App); d.session.marked != "" || d.evening.Label(up) != "Ada" {
		t.Errorf("%q is marked still", d.session.marked)
	}
}

// TestEmptyBoardNamesTheKey whatever letter of a name is typed on it, and keeps nothing of it.
func TestEmptyBoardNamesTheKey(t *testing.T) {
	for _, letter := range strings.Split("a b d f h i j k l m n o p r t u w x z B D E F H J L N Q R S T X Y", " ") {
		d := startApp(t, &fakeReader{}).press("7<enter><enter>" + letter)
		d.says("A adds a student")
		if !d.status.refused || !regexp.MustCompile(`\bA\b`).MatchString(strings.ReplaceAll(d.status.words, letter+" has", "")) {
			t.Errorf("%s: %+v", letter, d.status)
		}
	}
}
