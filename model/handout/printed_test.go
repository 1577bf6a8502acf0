package handout_test

import "github.com/go-rod/rod/lib/proto"

// checkPrint measures how a usual page is printed: the text has 9 points or more, with six games and a long sentence 7, and
// nothing that is read has less than 7; and the sheet is filled, unless the letters are the largest.
func (o *opened) checkPrint(name string) {
	o.t.Helper()
	const pointsAPixel = .75
	body, least, high := 9.0, 7.0, .8
	if name == "six-games" {
		body = least
	}
	for _, sheet := range []struct {
		name       string
		wide, high int // what the margins leave, in pixels
	}{{"A4", 703, 1047}, {"Letter", 725, 980}} {
		must(o.t, o.SetViewport(&proto.EmulationSetDeviceMetricsOverride{Width: sheet.wide, Height: sheet.high, DeviceScaleFactor: 1}))
		must(o.t, proto.EmulationSetEmulatedMedia{Media: "print"}.Call(o))
		for _, what := range o.list(printJS, body/pointsAPixel, least/pointsAPixel, sheet.high, high) {
			o.t.Errorf("printed on %s: %s", sheet.name, what)
		}
	}
	must(o.t, proto.EmulationSetEmulatedMedia{Media: ""}.Call(o))
}

const printJS = `(body, least, sheet, fill) => {
	const size = e => parseFloat(getComputedStyle(e).fontSize), points = px => (px * .75).toFixed(1) + " pt"
	const out = [], texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
	let seen = 0
	if (size(document.body) < body) out.push("the text is " + points(size(document.body)))
	while (texts.nextNode()) {
		const e = texts.currentNode.parentElement, text = texts.currentNode.data.trim()
		if (!text || e.closest("svg")) continue
		seen++
		if (size(e) < least) out.push(text.slice(0, 30) + " is " + points(size(e)))
	}
	const high = document.querySelector("main").getBoundingClientRect().height
	if (high > sheet) out.push("it is " + high + " px high")
	if (sheet < 1000 && high < fill * sheet && size(document.body) < 16) out.push("it ends at " + (100 * high / sheet).toFixed() + "% of the sheet")
	for (const e of document.body.querySelectorAll("*"))
		if (!e.closest("svg") && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display != "inline")
			out.push(e.localName + "." + e.className + " is narrower than what is in it: " + e.textContent.trim().slice(0, 40))
	return seen > 10 ? out : ["no text was looked at"]
}`
