package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"wormwright/gen/fit"
	"wormwright/gen/job"
	"wormwright/posts/record"
)

// A sweep takes one number of a job through a range, in steps that are whole
// numbers of a decimal place, so that no rounding adds up.
type sweep struct {
	key            string
	from, to, step int64
	decimals       int
}

// parseSweep reads KEY=FROM:TO:STEP.
func parseSweep(text string) (sweep, error) {
	fault := func(format string, args ...any) (sweep, error) {
		return sweep{}, usageError("--sweep: " + fmt.Sprintf(format, args...))
	}
	key, span, ok := strings.Cut(text, "=")
	parts := strings.Split(span, ":")
	if !ok || key == "" || len(parts) != 3 {
		return fault("want KEY=FROM:TO:STEP, as worm.reference_diameter=37:40:0.5, have %q", text)
	}
	s := sweep{key: key}
	for _, part := range parts {
		if _, after, ok := strings.Cut(part, "."); ok {
			s.decimals = max(s.decimals, len(after))
		}
	}
	const places = 9 // decimals, and digits before the point
	if s.decimals > places {
		return fault("want at most %d decimals, have %q", places, text)
	}
	for i, value := range [...]*int64{&s.from, &s.to, &s.step} {
		head, after, _ := strings.Cut(strings.TrimSpace(parts[i]), ".")
		n, err := strconv.ParseInt(head+after+strings.Repeat("0", s.decimals-len(after)), 10, 64)
		if err != nil || len(head) > places || strings.ContainsAny(after, "+-") {
			return fault("want plain decimal numbers, have %q", parts[i])
		}
		*value = n
	}
	const most = 1000
	switch {
	case s.step <= 0 || s.to < s.from:
		return fault("want FROM below TO and a STEP above 0, have %q", span)
	case (s.to-s.from)/s.step >= most:
		return fault("want at most %d values, have %d", most, (s.to-s.from)/s.step+1)
	}
	return s, nil
}

// values are the numbers of the sweep as they would stand in a job file.
func (s sweep) values() []string {
	var list []string
	for n := s.from; n <= s.to; n += s.step {
		sign, digits := "", strconv.FormatInt(n, 10)
		if n < 0 {
			sign, digits = "-", digits[1:]
		}
		if s.decimals > 0 {
			digits = strings.Repeat("0", max(s.decimals+1-len(digits), 0)) + digits
			digits = digits[:len(digits)-s.decimals] + "." + digits[len(digits)-s.decimals:]
		}
		list = append(list, sign+digits)
	}
	return list
}

// fitValue fits the pair of a job with one value in place of its own.
func fitValue(std stdio, name string, value job.Setting, o fit.Options) (loaded, fit.Fit, error) {
	l, err := load(std, name, value)
	if err == nil {
		err = l.verdict()
	}
	if err != nil {
		return l, fit.Fit{}, err
	}
	f, err := fit.Of(&l.plan, o, fit.Mounting{})
	return l, f, err
}

// sweepJob fits the pair once for each value and prints the table. A value
// with which the job has errors says so in its row.
func sweepJob(std stdio, args []string, o fitOptions, options fit.Options) error {
	s, err := parseSweep(o.sweep)
	if err != nil {
		return err
	}
	if len(args) != 1 {
		return usageError(fmt.Sprintf("want one JOB, have %d", len(args)))
	}
	var text []byte
	if args[0] == "-" {
		if text, err = io.ReadAll(std.in); err != nil {
			return err
		}
	}
	values := s.values()
	out := record.Sweep{Key: s.key, Sweep: make([]record.SweepRow, len(values))}
	progress, done := newProgress(std)
	defer done()
	var (
		group  sync.WaitGroup
		lock   sync.Mutex // of what follows, and of out's head
		next   int
		told   int
		fitted int
		faults = make([]error, len(values))
	)
	one := func(i int) {
		again := std
		again.in = bytes.NewReader(text)
		l, f, err := fitValue(again, args[0], job.Setting{Key: s.key, Value: values[i]}, options)
		lock.Lock()
		defer lock.Unlock()
		if err != nil {
			reason, _, _ := strings.Cut(err.Error(), "\n")
			out.Sweep[i], faults[i] = record.SweepRow{Value: values[i], Fault: reason}, err
		} else {
			out.Sweep[i] = record.NewSweepRow(values[i], &f)
			out.Title, out.Film, out.Unit = l.plan.Job.Title, f.Film, l.plan.Job.Units
			fitted++
		}
		if told++; progress != nil {
			progress(float64(told) / float64(len(values)))
		}
	}
	for range min(runtime.GOMAXPROCS(0), len(values)) {
		group.Go(func() {
			for {
				lock.Lock()
				i := next
				next++
				lock.Unlock()
				if i >= len(values) {
					return
				}
				one(i)
			}
		})
	}
	group.Wait()
	done()
	if fitted == 0 {
		return fmt.Errorf("no value of %s can be fitted; with the last one:\n%w", s.key, faults[len(faults)-1])
	}
	printed := out.Text()
	if o.json {
		printed = out.JSON()
	}
	if _, err := std.out.Write(printed); err != nil {
		return err
	}
	if fitted < len(values) {
		return errors.New("some values cannot be fitted")
	}
	return nil
}
