module wormwright

go 1.26.0

require (
	github.com/256dpi/gcode v0.3.0
	github.com/google/go-cmp v0.7.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/schollz/progressbar/v3 v3.19.1
	github.com/sebdah/goldie/v2 v2.8.0
	github.com/spf13/pflag v1.1.0
	golang.org/x/term v0.48.0
	gonum.org/v1/gonum v0.17.0
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
)

require (
	github.com/mitchellh/colorstring v0.0.0-20190213212951-d06e56a500db // indirect
	github.com/pmezard/go-difflib v1.0.0 // indirect
	github.com/rivo/uniseg v0.4.7 // indirect
	github.com/sergi/go-diff v1.0.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/tools v0.30.0 // indirect
)
