package view

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// Options say how [Serve] listens.
type Options struct {
	Port  int                  // 0: any free one
	Idle  time.Duration        // stop when nobody has asked for so long; 0: never
	Ready func(address string) // called with the address to open, once it answers
}

// shutdownTime is how long answers under way may take when the server stops.
const shutdownTime = 5 * time.Second

// Serve listens on 127.0.0.1 and lets h answer those who know the address it prints, until ctx is done or nobody has
// asked for o.Idle.
func Serve(ctx context.Context, h http.Handler, o Options) error {
	l, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(o.Port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		return fmt.Errorf("port %d is taken by another program; leave --port out, and a free one is found", o.Port)
	}
	if err != nil {
		return fmt.Errorf("the page can't be served: %w", err)
	}
	g := newGuard(h, l.Addr().(*net.TCPAddr).Port, rand.Text())
	if o.Idle > 0 {
		var end func()
		ctx, g.admitted, end = untilIdle(ctx, o.Idle)
		defer end()
	}
	server := &http.Server{
		Handler:           g,
		ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      2 * time.Minute, // laying out the sheets of a whole building takes its time
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          log.New(io.Discard, "", 0), // connections that end in the middle; the handler keeps its panics itself
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(l) }()
	o.Ready(g.address())
	select {
	case err := <-served:
		return fmt.Errorf("the page can't be served any longer: %w", err)
	case <-ctx.Done():
	}
	last, done := context.WithTimeout(context.Background(), shutdownTime)
	defer done()
	if server.Shutdown(last) != nil {
		_ = server.Close()
	}
	<-served
	return nil
}

// untilIdle is a context that is done when busy has not been called for a time. Calling end frees it.
func untilIdle(ctx context.Context, idle time.Duration) (_ context.Context, busy, end func()) {
	ctx, cancel := context.WithCancel(ctx)
	timer := time.AfterFunc(idle, cancel)
	return ctx, func() { timer.Reset(idle) }, func() { timer.Stop(); cancel() }
}

// A guard decides who may come in: browsers on this machine that were opened with the printed address. That address holds
// a token, for which they get a cookie; pages of other origins can neither read nor change anything.
type guard struct {
	next     http.Handler
	host     string // as a request must name it
	nearly   string // the same with the name localhost
	cookie   string
	token    string
	origin   *http.CrossOriginProtection
	admitted func() // called for each request that is let in
}

func newGuard(next http.Handler, port int, token string) *guard {
	return &guard{
		next: next, token: token, origin: http.NewCrossOriginProtection(), admitted: func() {},
		host: fmt.Sprintf("127.0.0.1:%d", port), nearly: fmt.Sprintf("localhost:%d", port),
		cookie: fmt.Sprintf("rodsheet-%d", port), // cookies don't tell ports apart
	}
}

const entrance = "/enter/"

// address is what lets a browser in.
func (g *guard) address() string { return "http://" + g.host + entrance + g.token }

const policy = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; " +
	"connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

func (g *guard) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer") // the address holds the token
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	reads := r.Method == http.MethodGet || r.Method == http.MethodHead
	switch {
	case r.Host == g.nearly && reads:
		http.Redirect(w, r, "http://"+g.host+r.URL.RequestURI(), http.StatusTemporaryRedirect)
		return
	case r.Host != g.host: // a name that was made to lead here
		refuse(w, "This page has another address.")
		return
	}
	if token, enters := strings.CutPrefix(r.URL.Path, entrance); enters && reads {
		if !equal(token, g.token) {
			refuse(w, "This address is not the one that rodsheet has printed: it is out of date, or a letter is missing.")
			return
		}
		http.SetCookie(w, &http.Cookie{Name: g.cookie, Value: g.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		// A redirect may lose a strict cookie when another program has opened the address.
		writePage(w, http.StatusOK, `<meta http-equiv="refresh" content="0; url=/">`, "rodsheet opens …")
		return
	}
	if cookie, err := r.Cookie(g.cookie); err != nil || !equal(cookie.Value, g.token) {
		refuse(w, "Open the address that rodsheet has printed in its window: it lets this browser in.")
		return
	}
	if err := g.origin.Check(r); err != nil {
		refuse(w, "Another page has asked for this change; it is not made.")
		return
	}
	g.admitted()
	g.next.ServeHTTP(w, r)
}

func equal(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

func refuse(w http.ResponseWriter, words string) { writePage(w, http.StatusForbidden, "", words) }
