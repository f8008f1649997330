package main

import (
	"time"

	"github.com/schollz/progressbar/v3"
)

// newProgress returns what tells a person at a terminal how far a long run
// has come, nil where nobody is there to see it, and what clears it away.
// Nothing shows in the first third of a second.
func newProgress(std stdio) (tell func(share float64), done func()) {
	if !atTerminal(std.err) {
		return nil, func() {}
	}
	begun := time.Now()
	var bar *progressbar.ProgressBar
	tell = func(share float64) {
		const patience = 300 * time.Millisecond
		if bar == nil {
			if time.Since(begun) < patience {
				return
			}
			bar = progressbar.NewOptions(1000, progressbar.OptionSetWriter(std.err), progressbar.OptionSetDescription("cutting"),
				progressbar.OptionClearOnFinish(), progressbar.OptionThrottle(50*time.Millisecond))
		}
		bar.Set(int(share * 1000))
	}
	return tell, func() {
		if bar != nil {
			bar.Finish()
		}
	}
}
