package handout_test

import (
	"io"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/go-rod/rod"
	"github.com/go-rod/rod/lib/launcher"
	"github.com/go-rod/rod/lib/launcher/flags"
	"github.com/go-rod/rod/lib/proto"

	"coach.settee/model/handout"
)

// The pages of the goldens and those that hold the most, in a real browser. With SETTEE_PICTURES=DIR what it shows and
// prints is left in that directory to be looked at.
func TestInABrowser(t *testing.T) {
	b := browser(t)
	for _, g := range append(slices.Clone(usual), fullest...) {
		t.Run(g.name, func(t *testing.T) {
			source, err := handout.HTML(g.of(t))
			must(t, err)
			path := filepath.Join(t.TempDir(), g.name+".html")
			must(t, os.WriteFile(path, []byte(source), 0o600))
			o := open(t, b, path)
			o.checkTree(source)
			o.checkPictures()
			o.show(narrowest, "light")
			o.checkRoom(narrowest)
			for _, width := range []int{320, 1280} {
				for _, scheme := range []string{"light", "dark"} {
					o.show(width, scheme)
					o.checkRoom(width)
					o.checkContrast(scheme)
					o.keep(g.name, width, scheme)
				}
			}
			if slices.ContainsFunc(usual, func(u pageOf) bool { return u.name == g.name }) {
				o.checkPrint(g.name)
			}
			o.checkPaper(g.name, "a4", 210/25.4, 297/25.4)
			o.checkPaper(g.name, "letter", 8.5, 11)
			o.checkQuiet(path)
		})
	}
}

// narrowest is what a scrollbar leaves of 320 px.
const narrowest = 305

// browser starts a headless Chromium with a profile of its own; without one on the machine the test is skipped.
func browser(t *testing.T) *rod.Browser {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser is slow: left out with -short")
	}
	bin, ok := launcher.LookPath()
	if !ok {
		t.Skip("no Chromium here: the handout was not looked at in a browser")
	}
	// A superuser's Chromium refuses its sandbox.
	l := launcher.New().Bin(bin).Leakless(false).NoSandbox(os.Geteuid() == 0).UserDataDir(t.TempDir())
	for _, flag := range []flags.Flag{"disable-gpu", "disable-quic", "no-first-run", "disable-background-networking",
		"disable-component-update", "disable-sync", "disable-dev-shm-usage"} {
		l.Set(flag)
	}
	control, err := l.Launch()
	if err != nil {
		t.Fatalf("%s does not start: %v", bin, err)
	}
	b := rod.New().ControlURL(control)
	t.Cleanup(func() {
		_ = b.Close() // it ends by this, and by Kill where it does not
		l.Kill()
		l.Cleanup()
	})
	must(t, b.Connect())
	return b
}

// opened is a page that is open in the browser, with all that it asked for and complained of.
type opened struct {
	*rod.Page
	t        *testing.T
	requests []string
	problems []string
	events   func()
}

// patience is how long the browser may take over one page before the test gives up on it.
const patience = 2 * time.Minute

// done is said on the console when nothing more is asked of the page: what was sent before it has come by then.
const done = "no more of this page"

func open(t *testing.T, b *rod.Browser, path string) *opened {
	t.Helper()
	page, err := b.Page(proto.TargetCreateTarget{})
	must(t, err)
	t.Cleanup(func() { _ = page.Close() })
	o := &opened{Page: page.Timeout(patience), t: t}
	o.events = o.EachEvent(
		func(e *proto.NetworkRequestWillBeSent) { o.requests = append(o.requests, e.Request.URL) },
		func(e *proto.LogEntryAdded) { o.problems = append(o.problems, e.Entry.Text) },
		func(e *proto.RuntimeExceptionThrown) { o.problems = append(o.problems, e.ExceptionDetails.Text) },
		func(e *proto.RuntimeConsoleAPICalled) bool {
			words := e.Args[0].Value.Str()
			if words != done {
				o.problems = append(o.problems, words)
			}
			return words == done
		},
	)
	must(t, o.Navigate(fileURL(path)))
	must(t, o.WaitLoad())
	return o
}

func fileURL(path string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}).String()
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// list runs a function in the page and gives the texts that it returns.
func (o *opened) list(js string, args ...any) []string {
	o.t.Helper()
	result, err := o.Eval(js, args...)
	must(o.t, err)
	var out []string
	for _, v := range result.Value.Arr() {
		out = append(out, v.Str())
	}
	return out
}

// checkQuiet looks at what the page asked for and complained of.
func (o *opened) checkQuiet(path string) {
	o.t.Helper()
	o.list("words => { console.log(words); return [] }", done)
	o.events()
	for _, problem := range o.problems {
		o.t.Errorf("on the console: %s", problem)
	}
	if !slices.Equal(o.requests, []string{fileURL(path)}) {
		o.t.Errorf("asked for %q, not for itself alone", o.requests)
	}
}

// checkTree compares the tree that the page's source stands for as strict XML with the one that a browser makes of it: they
// differ where something is not closed, or stands where it may not.
func (o *opened) checkTree(source string) {
	o.t.Helper()
	for _, problem := range o.list(treeJS, source) {
		o.t.Error(problem)
	}
}

const treeJS = `source => {
	const strict = new DOMParser().parseFromString(source, "application/xml").documentElement
	const loose = new DOMParser().parseFromString(source, "text/html").documentElement
	const wrong = strict.querySelector("parsererror")
	if (wrong) return [wrong.textContent]
	const tell = e => "<" + e.localName + " " + [...e.attributes].map(a => a.name + "=" + a.value).sort().join(" ") + ">" +
		(e.children.length ? "" : e.textContent)
	const walk = (a, b) => tell(a) != tell(b) ? [tell(a) + " is read as " + tell(b)] :
		a.children.length != b.children.length ? [tell(a) + " is read with " + b.children.length + " parts"] :
		[...a.children].flatMap((c, i) => walk(c, b.children[i]))
	return walk(strict, loose)
}`

func (o *opened) checkPictures() {
	o.t.Helper()
	for _, what := range o.list(`() => [...document.querySelectorAll("svg, img, canvas, object, embed, video, iframe")]
		.filter(e => e.localName != "svg" || e.getAttribute("role") != "img" || !(e.getAttribute("aria-label") || "").trim())
		.map(e => e.outerHTML.slice(0, 80))`) {
		o.t.Errorf("a picture without words: %s", what)
	}
}

func (o *opened) show(width int, scheme string) {
	o.t.Helper()
	must(o.t, o.SetViewport(&proto.EmulationSetDeviceMetricsOverride{Width: width, Height: 900, DeviceScaleFactor: 1}))
	must(o.t, proto.EmulationSetEmulatedMedia{
		Features: []*proto.EmulationMediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	}.Call(o))
}

// checkRoom looks for what is wider than the window, or than what it stands in.
func (o *opened) checkRoom(width int) {
	o.t.Helper()
	for _, what := range o.list(`() => {
		const room = document.documentElement.clientWidth, out = []
		if (document.documentElement.scrollWidth > room) out.push("the page: " + document.documentElement.scrollWidth)
		for (const e of document.body.querySelectorAll("*")) {
			const box = e.getBoundingClientRect()
			if (box.right > room + 1 || box.left < -1) out.push(e.localName + "." + (e.getAttribute("class") || "") + " reaches " + box.right)
			else if (!e.closest("svg") && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display != "inline")
				out.push(e.localName + "." + e.className + " is narrower than what is in it: " + e.textContent.trim().slice(0, 40))
		}
		return out
	}`) {
		o.t.Errorf("at %d px: %s", width, what)
	}
}

// checkContrast reckons the contrast of every text by the formula of WCAG 2.2 (relative luminance, 1.4.3: 4.5 to 1).
func (o *opened) checkContrast(scheme string) {
	o.t.Helper()
	for _, what := range o.list(contrastJS) {
		o.t.Errorf("%s: %s", scheme, what)
	}
}

const contrastJS = `() => {
	const parse = c => { const n = c.match(/[\d.]+/g).map(Number); return n.length == 3 ? [...n, 1] : n }
	const luminance = c => c.slice(0, 3).map(v => v / 255).map(v => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4)
		.reduce((sum, v, i) => sum + v * [.2126, .7152, .0722][i], 0)
	const behind = e => { for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (c[3] == 1) return c }
		return [255, 255, 255, 1] }
	const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), out = []
	let seen = 0
	while (texts.nextNode()) {
		const e = texts.currentNode.parentElement, style = getComputedStyle(e)
		if (!texts.currentNode.data.trim()) continue
		seen++
		const ink = parse(e.closest("svg") ? style.fill : style.color), [a, b] = [ink, behind(e)].map(luminance)
		const ratio = (Math.max(a, b) + .05) / (Math.min(a, b) + .05)
		if (ratio < 4.5 || ink[3] != 1) out.push(texts.currentNode.data.trim().slice(0, 30) + " has a contrast of " + ratio.toFixed(2))
	}
	return seen > 10 ? out : ["no text was looked at"]
}`

// checkPaper prints the page on paper of a size in inches and counts the sheets.
func (o *opened) checkPaper(name, size string, width, height float64) {
	o.t.Helper()
	r, err := o.PDF(&proto.PagePrintToPDF{PaperWidth: &width, PaperHeight: &height})
	must(o.t, err)
	pdf, err := io.ReadAll(r)
	must(o.t, err)
	if n := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1)); n != 1 {
		o.t.Errorf("%d sheets of %s, want 1", n, size)
	}
	leave(o.t, name+"-"+size+".pdf", pdf)
}

// keep leaves what the page shows where it is to be looked at.
func (o *opened) keep(name string, width int, scheme string) {
	o.t.Helper()
	if os.Getenv(pictures) == "" {
		return
	}
	png, err := o.Screenshot(true, nil)
	must(o.t, err)
	leave(o.t, strings.Join([]string{name, scheme, map[int]string{320: "phone", 1280: "desk"}[width]}, "-")+".png", png)
}

const pictures = "SETTEE_PICTURES"

func leave(t *testing.T, name string, what []byte) {
	t.Helper()
	if dir := os.Getenv(pictures); dir != "" {
		must(t, os.WriteFile(filepath.Join(dir, name), what, 0o600))
	}
}
