package report

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// browser is a headless Chromium, spoken to over a pair of pipes in the Chrome
// DevTools Protocol: JSON messages, each ended by a zero byte.
type browser struct {
	t       *testing.T
	to      *os.File
	from    *bufio.Reader
	session string
	id      int
	log     []string // console messages and failures to load
	loaded  bool
}

// startBrowser skips the test where there is no Chromium.
func startBrowser(t *testing.T) *browser {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("there is no chromium in PATH: the page is not looked at")
	}
	in, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	from, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--remote-debugging-pipe", "--user-data-dir="+t.TempDir(), "about:blank")
	cmd.ExtraFiles = []*os.File{in, out}
	if err := cmd.Start(); err != nil {
		t.Skipf("%s does not start: %v", path, err)
	}
	in.Close()
	out.Close()
	b := &browser{t: t, to: to, from: bufio.NewReader(from)}
	t.Cleanup(func() {
		b.send("Browser.close", nil)
		cmd.Wait()
		to.Close()
		from.Close()
	})
	b.attach()
	return b
}

type message struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

// call sends a command and returns its result.
func (b *browser) call(method string, params any, into any) {
	b.t.Helper()
	id := b.send(method, params)
	for {
		m := b.next()
		if m.ID != id {
			continue
		}
		if m.Error != nil {
			b.t.Fatalf("%s: %s", method, m.Error.Message)
		}
		if into != nil {
			if err := json.Unmarshal(m.Result, into); err != nil {
				b.t.Fatalf("%s: %v", method, err)
			}
		}
		return
	}
}

func (b *browser) send(method string, params any) int {
	b.id++
	m := map[string]any{"id": b.id, "method": method}
	if params != nil {
		m["params"] = params
	}
	if b.session != "" && method != "Browser.close" {
		m["sessionId"] = b.session
	}
	text, err := json.Marshal(m)
	if err != nil {
		b.t.Fatal(err)
	}
	if _, err := b.to.Write(append(text, 0)); err != nil && method != "Browser.close" {
		b.t.Fatalf("%s: %v", method, err)
	}
	return b.id
}

// next reads a message and keeps what the page says.
func (b *browser) next() message {
	b.t.Helper()
	text, err := b.from.ReadBytes(0)
	if err != nil {
		b.t.Fatalf("the browser left: %v", err)
	}
	var m message
	if err := json.Unmarshal(bytes.TrimSuffix(text, []byte{0}), &m); err != nil {
		b.t.Fatal(err)
	}
	switch m.Method {
	case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded", "Network.loadingFailed", "Network.requestWillBeSent":
		b.log = append(b.log, m.Method+" "+string(m.Params))
	case "Page.loadEventFired":
		b.loaded = true
	}
	return m
}

func (b *browser) attach() {
	var target struct {
		TargetID string `json:"targetId"`
	}
	b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var s struct {
		SessionID string `json:"sessionId"`
	}
	b.call("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &s)
	b.session = s.SessionID
	for _, domain := range []string{"Page", "Runtime", "Log", "Accessibility", "DOM"} {
		b.call(domain+".enable", nil, nil)
	}
}

// open loads a file at a width in CSS pixels.
func (b *browser) open(file string, width int) {
	b.t.Helper()
	b.loaded = false
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500}, nil)
	b.call("Page.navigate", map[string]any{"url": "file://" + filepath.ToSlash(file)}, nil)
	for !b.loaded {
		b.next()
	}
}

// eval returns the value of an expression in the page.
func (b *browser) eval(expression string, into any) {
	b.t.Helper()
	var r struct {
		Result struct {
			Value json.RawMessage `json:"value"`
		} `json:"result"`
	}
	b.call("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true}, &r)
	if err := json.Unmarshal(r.Result.Value, into); err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
}

// node is a node of the accessibility tree.
type node struct{ Role, Name string }

func (b *browser) tree() []node {
	var r struct {
		Nodes []struct {
			Ignored bool `json:"ignored"`
			Role    struct {
				Value string `json:"value"`
			} `json:"role"`
			Name struct {
				Value string `json:"value"`
			} `json:"name"`
		} `json:"nodes"`
	}
	b.call("Accessibility.getFullAXTree", nil, &r)
	var out []node
	for _, n := range r.Nodes {
		if !n.Ignored {
			out = append(out, node{n.Role.Value, n.Name.Value})
		}
	}
	return out
}

// shoot writes a picture of the whole page, to be looked at, into the
// directory that UNDERLAY_SHOTS names.
func (b *browser) shoot(name string) {
	dir := os.Getenv("UNDERLAY_SHOTS")
	if dir == "" {
		return
	}
	var r struct {
		Data []byte `json:"data"`
	}
	b.call("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true}, &r)
	if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s.png", name)), r.Data, 0o600); err != nil {
		b.t.Fatal(err)
	}
}
