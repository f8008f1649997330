// Command growth runs the benchmarks of the project and tells how each grows
// with the size of its problem.
//
//	go run ./cmd/growth [-- flags of go test]
//
// Sizes are the parts of a benchmark's name that end in =NUMBER. Where three
// or more differ in nothing else, a power of the size is fitted to time and to
// memory: 1 is linear. With --kernel it also runs the general boolean mesh
// kernel on the worked case of gen/cut, which needs Node.js and one npm
// install in its folder.
package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"

	"github.com/spf13/pflag"
)

func main() {
	kernel := pflag.Bool("kernel", false, "run the general mesh kernel too")
	pflag.Parse()
	if err := run(*kernel, pflag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "growth:", err)
		os.Exit(1)
	}
}

// kernelFolder holds the same wheel for a general kernel.
const kernelFolder = "gen/cut/testdata/kernel"

func run(kernel bool, flags []string) error {
	args := append([]string{"test", "-run", "^$", "-bench", ".", "-benchmem"}, flags...)
	test := exec.Command("go", append(args, "./...")...)
	test.Stderr = os.Stderr
	out, err := test.StdoutPipe()
	if err != nil {
		return err
	}
	if err := test.Start(); err != nil {
		return err
	}
	list, readErr := read(out)
	_, drained := io.Copy(io.Discard, out)
	if err := test.Wait(); err != nil {
		return fmt.Errorf("go test: %w", err)
	}
	for _, err := range []error{readErr, drained} {
		if err != nil {
			return err
		}
	}
	fmt.Printf("%s %s/%s, %d processors, %s\n\n", runtime.Version(), runtime.GOOS, runtime.GOARCH, runtime.GOMAXPROCS(0), list.processor)
	if err := list.print(os.Stdout); err != nil || !kernel {
		return err
	}
	fmt.Println("\nGeneral kernel, one space of gen/cut WholeWheel at full depth:")
	node := exec.Command("node", "cut.mjs")
	node.Dir, node.Stdout, node.Stderr = kernelFolder, os.Stdout, os.Stderr
	if err := node.Run(); err != nil {
		return fmt.Errorf("%s: %w; npm install there first", kernelFolder, err)
	}
	return nil
}
