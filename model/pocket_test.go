package model_test

import (
	"testing"

	"coach.settee/model"
)

func TestPocket(t *testing.T) {
	inBoards := func(boards float64) model.Delivery { return model.Delivery{HitBoards: model.Known(boards)} }
	tests := []struct {
		name   string
		ball   model.Delivery
		word   model.Hit
		pocket model.Optional[bool]
	}{
		{"not read", model.Delivery{}, "", model.Optional[bool]{}},
		{"pocket", model.Delivery{Hit: model.Pocket}, model.Pocket, model.Known(true)},
		{"Brooklyn", model.Delivery{Hit: model.Brooklyn}, model.Brooklyn, model.Known(false)},
		{"dead on", inBoards(0), model.Pocket, model.Known(true)},
		{"half a board high", inBoards(.5), model.Pocket, model.Known(true)},
		{"half a board light", inBoards(-.5), model.Pocket, model.Known(true)},
		{"more than half high", inBoards(.6), model.High, model.Known(false)},
		{"more than half light", inBoards(-.6), model.Light, model.Known(false)},
		{"high in words, in the pocket by the boards", model.Delivery{Hit: model.High, HitBoards: model.Known(.4)}, model.High,
			model.Known(true)},
		{"the pocket in words, two boards off", model.Delivery{Hit: model.Pocket, HitBoards: model.Known(2.)}, model.Pocket,
			model.Known(true)},
	}
	for _, tt := range tests {
		if got := tt.ball.HitWord(); got != tt.word {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.word)
		}
		if got := tt.ball.InPocket(); got != tt.pocket {
			t.Errorf("%s: in the pocket is %v, want %v", tt.name, got, tt.pocket)
		}
	}
}
