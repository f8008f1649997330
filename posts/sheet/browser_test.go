package sheet

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// browser starts Chromium once for all tests; where there is none, the test
// is skipped.
var browser = sync.OnceValues(func() (context.Context, error) {
	at := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			at = path
			break
		}
	}
	if at == "" {
		return nil, fmt.Errorf("want Chromium in the path to print sheets (apt-get install chromium), have none")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(at), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	ctx, _ := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stopBrowser = chromedp.NewContext(ctx)
	return ctx, chromedp.Do(ctx)
})

var stopBrowser context.CancelFunc = func() {}

func TestMain(m *testing.M) {
	status := m.Run()
	stopBrowser()
	os.Exit(status)
}

// A tab is a sheet in a browser.
type tab struct {
	t        *testing.T
	ctx      context.Context
	url      string
	mu       sync.Mutex
	faults   []string // of the console
	requests []string
}

// open shows a sheet as it is printed on paper of a width, in mm.
func open(t *testing.T, html []byte, wide float64) *tab {
	t.Helper()
	parent, err := browser()
	if parent == nil {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "sheet.html")
	if err := os.WriteFile(name, html, 0o666); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx, url: (&url.URL{Scheme: "file", Path: filepath.ToSlash(name)}).String()}
	b.do() // makes the tab, before the time of what is done in it is limited
	b.ctx, cancel = context.WithTimeout(ctx, 60*time.Second)
	t.Cleanup(cancel)
	if err := chromedp.Listen(b.ctx, b.hear); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(b.ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	const margins = 24 // mm, of the sheet's own style
	b.do(chromedp.EmulateViewport(int64((wide-margins)/25.4*96), 1000), chromedp.Navigate(b.url))
	return b
}

// hear takes down what the browser tells of a page.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		b.faults = append(b.faults, fmt.Sprintf("console.%s of %d values", e.Type, len(e.Args)))
	case *runtime.EventExceptionThrown:
		b.faults = append(b.faults, fmt.Sprint(e.ExceptionDetails.Text, e.ExceptionDetails.Exception))
	case *log.EventEntryAdded:
		b.faults = append(b.faults, e.Entry.Text)
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	}
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

// eval runs a script in a page and returns what it gives.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.t.Fatal(err)
	}
	return v
}

// clean wants a console without a word, and no request but for the sheet.
func (b *tab) clean() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, fault := range b.faults {
		b.t.Errorf("console: %s", fault)
	}
	for _, r := range b.requests {
		if r != b.url {
			b.t.Errorf("asks for %s", r)
		}
	}
}

// print prints a sheet on paper of a size in mm and returns the file's name.
// Where PICTURES names a folder, it is kept there to be looked at.
func (b *tab) print(wide, tall float64) string {
	b.t.Helper()
	pdf, err := chromedp.Call(b.ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: wide / 25.4, PaperHeight: tall / 25.4})
	if err != nil {
		b.t.Fatal(err)
	}
	dir := os.Getenv("PICTURES")
	if dir == "" {
		dir = b.t.TempDir()
	}
	name := filepath.Join(dir, strings.ReplaceAll(filepath.Base(b.t.Name()), " ", "_")+".pdf")
	if err := os.WriteFile(name, pdf.Data, 0o666); err != nil {
		b.t.Fatal(err)
	}
	return name
}

// poppler runs one of its tools; where there is none, the test is skipped.
func poppler(t *testing.T, tool string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		t.Skipf("want %s in the path to read what was printed (apt-get install poppler-utils), have none", tool)
	}
	out, err := exec.Command(path, args...).Output()
	if err != nil {
		t.Fatalf("%s %s: %v", tool, strings.Join(args, " "), err)
	}
	return string(out)
}
