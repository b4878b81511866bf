package main

import (
	"errors"
	"os"
	"os/exec"
	"runtime"
)

// browse opens an address in the person's browser.
func browse(address string) error {
	var cmd *exec.Cmd
	switch {
	case runtime.GOOS == "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	case runtime.GOOS == "darwin":
		cmd = exec.Command("open", address)
	case os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "": // it would be one for terminals
		return errors.New("there is no screen")
	default:
		cmd = exec.Command("xdg-open", address)
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }()
	return nil
}
