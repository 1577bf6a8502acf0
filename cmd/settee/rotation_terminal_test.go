//go:build unix

package main

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Who is up and on which lane, through everything that changes it. The comments say what each key is for; the lanes
// follow from the rule that odd frames are on the roster's lane and even ones on the other.
func TestRotationByKeys(t *testing.T) {
	c, store := beginBoard(t, "7 9<enter>Ada 120<enter>Bo 172<enter><enter>Cleo 195<enter><enter>", terminalOptions{})
	c.press("x")                     // Ada
	c.press("Wx")                    // Bo's first ball is on 8; W sends it to 7
	c.press("x")                     // Ada
	c.press("P9<enter>")             // Bo, whose second frame is next, goes to lane 9
	c.press("xx")                    // Ada is alone and stays up
	c.press("<space>x")              // Cleo, on the next pair
	c.press("x")                     // Bo
	c.press("AEve 150 l<enter>")     // comes late, is last in the order
	c.press("xxx")                   // Cleo, Bo, Eve
	c.press("V")                     // Cleo goes for a drink
	c.press("xx")                    // Bo, Eve
	c.press("Pall 11<enter><enter>") // the pair breaks down; 11 is none of tonight's lanes, and asked about
	c.press("xx")                    // Bo, Eve
	c.press("<shift+tab>V")          // Cleo is back
	c.press("x")
	c.keeps(15)
	c.quit()
	want := []string{
		"Ada 1.1 lane 7 10 AAAA", "Bo 1.1 lane 7 10 AAAA", "Ada 2.1 lane 8 10 AAAA", "Ada 3.1 lane 7 10 AAAA",
		"Ada 4.1 lane 8 10 AAAA", "Cleo 1.1 lane 9 10 AAAA", "Bo 2.1 lane 9 10 AAAA", "Cleo 2.1 lane 10 10 AAAA",
		"Bo 3.1 lane 10 10 AAAA", "Eve 1.1 lane 9 10 AAAA", "Bo 4.1 lane 9 10 AAAA", "Eve 2.1 lane 10 10 AAAA",
		"Bo 5.1 lane 12 10 AAAA", "Eve 3.1 lane 11 10 AAAA", "Cleo 3.1 lane 11 10 AAAA",
	}
	if diff := cmp.Diff(want, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
}

// A game is stopped for a reason, and a drill at one pin comes in its place; Bo bowls on in turn.
func TestADrillByKeys(t *testing.T) {
	c, store := beginBoard(t, twoOnAPair, terminalOptions{})
	c.press("70<enter>x" + "x" + "G10 corner 10<enter>")
	c.contains("game 1 is unfinished: why is it stopped")
	c.press("<enter>")
	c.contains("say why it is stopped")
	c.press("sore thumb<enter>")
	c.press("x" + "x" + "b-<enter>" + "x" + "<enter>")
	c.keeps(8)
	c.quit()
	want := []string{
		"Ada 1.1 lane 7 8 AAAA", "Ada 1.2 lane 7 2 AAAA", "Bo 1.1 lane 8 10 AAAA",
		"Ada 0.0 lane 7 1 AAAA", "Bo 2.1 lane 7 10 AAAA", "Ada 0.0 lane 7 0 BAAA", "Bo 3.1 lane 8 10 AAAA",
		"Ada 0.0 lane 7 ? AAAA",
	}
	if diff := cmp.Diff(want, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
	var begun []string
	for _, game := range objects(t, store, "game") {
		begun = append(begun, fmt.Sprintf("%v, %v, %v, %v, %v", game["kind"], game["name"], game["length"], game["pins"], game["stopped"]))
	}
	if diff := cmp.Diff([]string{
		"game, <nil>, <nil>, <nil>, sore thumb", "drill, corner, 10, [10], <nil>", "game, <nil>, <nil>, <nil>, <nil>",
	}, begun); diff != "" {
		t.Error(diff)
	}
}
