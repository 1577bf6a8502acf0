package tenpin_test

import (
	"reflect"
	"strings"
	"testing"

	"coach.settee/model/tenpin"
)

// What is read is written so that it reads as the same card.
func FuzzParse(f *testing.F) {
	for _, game := range []string{
		"", " ", "X X X 72 (8)/ F9 X 7/ 9- XX8", "xxx72(8)/f9x7/9-xx8", strings.Repeat("X", 12),
		strings.Repeat("X", 13), strings.Repeat("-", 20), strings.Repeat("F/", 10) + "F", strings.Repeat("9/", 10) + "X",
		strings.Repeat("G", 20), "74", "/", "(8", "( 8 ) /", "(", "()", "(X)", "10", "X F X", "9\u20137", "\xff", "X\x00",
		strings.Repeat("-", 18) + "XF/", strings.Repeat("-", 18) + "7/(8)",
	} {
		f.Add(game)
	}
	f.Fuzz(func(t *testing.T, game string) {
		card, err := tenpin.Parse(game)
		if err != nil {
			if card.Frames != nil || err.Error() == "" {
				t.Fatalf("%q: %+v with error %q", game, card, err)
			}
			return
		}
		if card.Score < 0 || card.Score > card.Max || card.Max > 300 || len(card.Frames) > 10 {
			t.Fatalf("%q: %+v", game, card)
		}
		again, err := tenpin.Parse(card.Notation())
		if err != nil {
			t.Fatalf("%q, written %q: %v", game, card.Notation(), err)
		}
		if !reflect.DeepEqual(again, card) {
			t.Fatalf("%q, written %q:\n got %+v\nwant %+v", game, card.Notation(), again, card)
		}
	})
}
