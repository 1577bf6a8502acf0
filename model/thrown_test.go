package model_test

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
)

// thrown says what was thrown on a pair in few words: who, lane, balls before, * at a full rack.
func (l *lesson) thrown(lane int) string {
	var out []string
	for _, b := range l.PairTonight(model.PairOf(lane)) {
		word := fmt.Sprintf("%s %d+%d", b.Student, b.Delivery.Lane, b.Before)
		if b.Full {
			word += "*"
		}
		out = append(out, word)
	}
	return strings.Join(out, ", ")
}

func TestPairTonight(t *testing.T) {
	for _, tt := range []struct{ name, keys, want string }{
		{"nothing yet", "", ""},
		{"students in turn, each on both lanes", "x 7⏎/ x x",
			"Ada 7+0*, Bo 7+1*, Bo 7+2, Ada 8+0*, Bo 8+1*"},
		{"warm-ups, drills and dead balls", "Gw⏎ ⏎ G3⏎ x @Ada⏎ G2 corner 10⏎ ⏎ @Ada⏎ Gg⏎ D 7⏎/",
			"Ada 7+0*, Bo 7+1*, Ada 7+2, Ada 7+3*, Ada 7+4*, Ada 7+5"},
		{"none felled at all ten: the next is a spare shot", "-⏎ /", "Ada 7+0*, Ada 7+1"},
		{"a tenth frame's strikes", "ZXXXXXXXXX⏎ @Ada⏎ xxx",
			"Ada 7+0*, Ada 8+0*, Ada 7+1*, Ada 8+1*, Ada 7+2*, Ada 8+2*, Ada 7+3*, Ada 8+3*, Ada 7+4*, Ada 8+4*, Ada 8+5*, Ada 8+6*"},
		{"who came from another pair and who went", "@Cy⏎ P7⏎ @Cy⏎ x @Ada⏎ x @Ada⏎ P9⏎ @Ada⏎ x",
			"Cy 7+0*, Ada 7+1*"},
		{"a ball taken back is not there", "x x ⌫", "Ada 7+0*"},
		{"a ball handed over keeps its place", "x x x , , @Bo⏎", "Bo 7+0*, Bo 7+1*, Ada 8+0*"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo 120|Cy 220").press(tt.keys)
			if got := l.thrown(7); got != tt.want {
				t.Errorf("thrown is\n%s, want\n%s", got, tt.want)
			}
			if got := l.restart().thrown(8); got != tt.want {
				t.Errorf("after a restart thrown is\n%s, want\n%s", got, tt.want)
			}
		})
	}
	l := beginLesson(t, "Ada 172|Cy 220").press("b x ␣ 7⏎")
	if b := l.PairTonight(model.Pair{9, 10}); len(b) != 1 || b[0].Delivery != l.Sheet("Cy").Deliveries[0] {
		t.Errorf("on 9/10 %+v", b)
	}
}
