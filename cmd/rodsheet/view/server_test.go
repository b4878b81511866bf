package view

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	testPort  = 4711
	testToken = "TOKEN"
	testHost  = "127.0.0.1:4711"
)

// knock asks a guard on behalf of a browser with the right cookie, but for what change makes of the request.
func knock(method, path string, change func(*http.Request)) *httptest.ResponseRecorder {
	g := newGuard(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "inside") }), testPort, testToken)
	r := httptest.NewRequest(method, path, nil)
	r.Host = testHost
	r.AddCookie(&http.Cookie{Name: "rodsheet-4711", Value: testToken})
	if change != nil {
		change(r)
	}
	w := httptest.NewRecorder()
	g.ServeHTTP(w, r)
	return w
}

func TestOnlyWhoHasTheCookieComesIn(t *testing.T) {
	in := knock("GET", "/", nil)
	assert.Equal(t, 200, in.Code)
	assert.Equal(t, "inside", in.Body.String())
	for name, cookie := range map[string]string{
		"none": "", "another token": "rodsheet-4711=OTHER", "a longer one": "rodsheet-4711=TOKENX", "that of another port": "rodsheet-4712=TOKEN",
	} {
		for _, method := range []string{"GET", "POST", "HEAD", "OPTIONS", "DELETE"} {
			w := knock(method, "/", func(r *http.Request) { r.Header.Set("Cookie", cookie) })
			assert.Equal(t, 403, w.Code, "%s with %s", method, name)
			assert.NotContains(t, w.Body.String(), "inside")
		}
	}
}

func TestThePrintedAddressGivesTheCookieAndLeadsOn(t *testing.T) {
	g := newGuard(nil, testPort, testToken)
	assert.Equal(t, "http://127.0.0.1:4711/enter/TOKEN", g.address())
	w := knock("GET", "/enter/TOKEN", func(r *http.Request) { r.Header.Del("Cookie") })
	assert.Equal(t, 200, w.Code, "a redirect may lose a strict cookie")
	assert.Equal(t, "rodsheet-4711=TOKEN; Path=/; HttpOnly; SameSite=Strict", w.Header().Get("Set-Cookie"))
	assert.Contains(t, w.Body.String(), `<meta http-equiv="refresh" content="0; url=/">`)
	for _, path := range []string{"/enter/OTHER", "/enter/", "/enter/TOKE", "/enter/TOKEN/x"} {
		w := knock("GET", path, func(r *http.Request) { r.Header.Del("Cookie") })
		assert.Equal(t, 403, w.Code, path)
		assert.Empty(t, w.Header().Get("Set-Cookie"), path)
	}
}

func TestOtherNamesOfThisMachineDontLeadIn(t *testing.T) {
	for _, host := range []string{"evil.example:4711", "127.0.0.1:4712", "127.0.0.1", "[::1]:4711", "", "localhost:4712"} {
		for _, path := range []string{"/", "/enter/TOKEN"} {
			w := knock("GET", path, func(r *http.Request) { r.Host = host })
			assert.Equal(t, 403, w.Code, host)
			assert.Empty(t, w.Header().Get("Set-Cookie"), host)
		}
	}
	w := knock("GET", "/enter/TOKEN?x=1", func(r *http.Request) { r.Host = "localhost:4711" })
	assert.Equal(t, 307, w.Code)
	assert.Equal(t, "http://127.0.0.1:4711/enter/TOKEN?x=1", w.Header().Get("Location"))
	w = knock("POST", "/edit", func(r *http.Request) { r.Host = "localhost:4711" })
	assert.Equal(t, 403, w.Code)
}

func TestPagesOfOtherOriginsChangeNothing(t *testing.T) {
	for _, row := range []struct {
		header, value string
		code          int
	}{
		{"Origin", "http://127.0.0.1:4711", 200},
		{"Sec-Fetch-Site", "same-origin", 200},
		{"Origin", "http://evil.example", 403},
		{"Origin", "http://127.0.0.1:4712", 403}, // another program on this machine
		{"Origin", "http://localhost:4711", 403},
		{"Origin", "null", 403},
		{"Sec-Fetch-Site", "cross-site", 403},
		{"Sec-Fetch-Site", "same-site", 403},
	} {
		w := knock("POST", "/edit", func(r *http.Request) { r.Header.Set(row.header, row.value) })
		assert.Equal(t, row.code, w.Code, "%s: %s", row.header, row.value)
	}
}

func TestEveryAnswerSaysWhatThePageMayDo(t *testing.T) {
	for _, w := range []*httptest.ResponseRecorder{
		knock("GET", "/", nil),
		knock("GET", "/", func(r *http.Request) { r.Header.Del("Cookie") }),
		knock("GET", "/enter/TOKEN", nil),
	} {
		h := w.Header()
		assert.Equal(t, "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; connect-src 'self'; "+
			"form-action 'self'; frame-ancestors 'none'; base-uri 'none'", h.Get("Content-Security-Policy"))
		assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"))
		assert.Equal(t, "no-store", h.Get("Cache-Control"))
		assert.Equal(t, "no-referrer", h.Get("Referrer-Policy"))
		assert.Equal(t, "same-origin", h.Get("Cross-Origin-Resource-Policy"))
	}
}

// serving lets a handler listen; the address is given when it answers, the error when it has stopped.
func serving(t *testing.T, ctx context.Context, h http.Handler, idle time.Duration) (address string, stopped chan error) {
	t.Helper()
	ready := make(chan string, 1)
	stopped = make(chan error, 1)
	go func() { stopped <- Serve(ctx, h, Options{Idle: idle, Ready: func(a string) { ready <- a }}) }()
	select {
	case address = <-ready:
	case err := <-stopped:
		t.Fatal(err)
	}
	return address, stopped
}

func TestTheServerListensOnThisMachineAloneUntilItIsStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	address, stopped := serving(t, ctx, http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "inside") }), 0)
	require.True(t, strings.HasPrefix(address, "http://127.0.0.1:"), address)
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	browser := &http.Client{Jar: jar}
	for _, url := range []string{address, address[:strings.Index(address, "/enter/")]} {
		r, err := browser.Get(url)
		require.NoError(t, err)
		assert.Equal(t, 200, r.StatusCode)
		r.Body.Close()
	}
	_, port, _ := strings.Cut(address[len("http://"):strings.Index(address, "/enter/")], ":")
	interfaces, err := net.InterfaceAddrs()
	require.NoError(t, err)
	for _, i := range interfaces {
		ip := i.(*net.IPNet).IP
		if ip.IsLoopback() || ip.IsLinkLocalUnicast() {
			continue
		}
		_, err := net.DialTimeout("tcp", net.JoinHostPort(ip.String(), port), time.Second)
		assert.Error(t, err, "%s must not listen", ip)
	}

	var number int
	_, err = fmt.Sscan(port, &number)
	require.NoError(t, err)
	err = Serve(t.Context(), nil, Options{Port: number})
	assert.ErrorContains(t, err, "leave --port out")

	cancel()
	assert.NoError(t, <-stopped)
	_, err = net.DialTimeout("tcp", net.JoinHostPort("127.0.0.1", port), time.Second)
	assert.Error(t, err, "nobody listens any more")
}

func TestTheServerStopsWhenNobodyHasAskedForAWhile(t *testing.T) {
	address, stopped := serving(t, t.Context(), http.NotFoundHandler(), time.Millisecond)
	assert.NoError(t, <-stopped, address)
}

func TestEveryRequestPutsTheEndOff(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		quiet, _, done := untilIdle(t.Context(), time.Minute)
		defer done()
		time.Sleep(61 * time.Second)
		require.Error(t, quiet.Err())

		ctx, busy, end := untilIdle(t.Context(), time.Minute)
		defer end()
		for range 5 {
			time.Sleep(59 * time.Second)
			require.NoError(t, ctx.Err())
			busy()
		}
		time.Sleep(61 * time.Second)
		assert.Error(t, ctx.Err())
	})
}

func TestOnlyWhoIsLetInKeepsTheServerUp(t *testing.T) {
	g := newGuard(http.NotFoundHandler(), testPort, testToken)
	admitted := 0
	g.admitted = func() { admitted++ }
	ask := func(cookie string) {
		r := httptest.NewRequest("GET", "/", nil)
		r.Host = testHost
		r.AddCookie(&http.Cookie{Name: "rodsheet-4711", Value: cookie})
		g.ServeHTTP(httptest.NewRecorder(), r)
	}
	ask("OTHER")
	assert.Equal(t, 0, admitted)
	ask(testToken)
	assert.Equal(t, 1, admitted)
}
