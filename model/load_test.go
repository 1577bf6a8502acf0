package model_test

import (
	"testing"

	"coach.settee/model"
)

func TestLoadState(t *testing.T) {
	for _, c := range []struct {
		limit, load int
		want        model.LoadState
	}{
		{0, 0, model.LoadFree}, {0, 500, model.LoadFree},
		{60, 0, model.LoadFree}, {60, 47, model.LoadFree}, {60, 48, model.LoadNear}, {60, 59, model.LoadNear},
		{60, 60, model.LoadReached}, {60, 61, model.LoadReached},
		// 80% of 7 is 5.6.
		{7, 5, model.LoadFree}, {7, 6, model.LoadNear}, {7, 7, model.LoadReached},
		{1, 0, model.LoadFree}, {1, 1, model.LoadReached},
	} {
		if got := (model.Student{LoadLimit: c.limit}).LoadState(c.load); got != c.want {
			t.Errorf("%d of %d: %d, want %d", c.load, c.limit, got, c.want)
		}
	}
}
