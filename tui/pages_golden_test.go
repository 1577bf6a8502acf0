package tui

import (
	"fmt"
	"testing"
)

// The pages that are read rather than worked on: the two of the introduction, and the student's with and without its end.
func TestPagesToRead(t *testing.T) {
	for name, open := range map[string]func() *appTest{
		"introduction":       func() *appTest { return startApp(t, &fakeReader{}) },
		"introduction_keys":  func() *appTest { return startApp(t, &fakeReader{}).press("<tab>") },
		"introduction_lanes": func() *appTest { return startApp(t, &fakeReader{}).press("<tab>x") },
		"handout":            func() *appTest { return onPage(t) },
		"handout_end":        func() *appTest { return onPage(t).press("<end>") },
	} {
		for _, s := range sizes {
			t.Run(fmt.Sprintf("%s %dx%d", name, s.w, s.h), func(t *testing.T) {
				d := open()
				d.send(sizeMsg(s.w, s.h))
				golden(t, fmt.Sprintf("%s_%dx%d", name, s.w, s.h), d.View())
			})
		}
	}
}
