//go:build linux

package main

import (
	"fmt"
	"strings"
)

func init() {
	toDisk = &way{"on a disk that takes nothing", func(c *terminal, h *hand) {
		h.settled(c)
		c.fileLimit(leastFile)
		for range 1 + h.random.IntN(4) {
			c.sendApart(strings.Join(h.delivery(), ""))
			h.shown(c)
			h.see(c.screen())
		}
	}}
}

// shown waits until the screen counts every delivery that was typed, kept or not.
func (h *hand) shown(c *terminal) {
	h.t.Helper()
	count := h.now().deliveries
	c.until(fmt.Sprintf("delivery %d", count), func(screen string) bool {
		kept, waiting, ok := keptOn(screen)
		return ok && kept+waiting == count
	})
}
