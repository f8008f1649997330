package rs274

import (
	"bufio"
	"io"
	"strconv"
)

// Trace writes what the program of r does: one line for every motion, dwell,
// spindle command, stop and end, its fields apart by one space.
//
//	LINE KIND X Y Z A B C VALUE
//
// The position is the one reached, in program coordinates and in the
// program's unit. VALUE is F as programmed for a feed and an arc, the lead for
// a thread, the seconds of a dwell, turns/min for the spindle, below 0 after
// M4 and 0 when it stands still, and 0 for the rest. Numbers have nine
// decimals. At a fault Trace writes what comes before it and returns it.
func Trace(w io.Writer, r *Reader) error {
	out := bufio.NewWriter(w)
	var line []byte
	for {
		e, err := r.Next()
		if err == io.EOF {
			return out.Flush()
		}
		if err != nil {
			if err := out.Flush(); err != nil {
				return err
			}
			return err
		}
		if e.Kind == Remark || e.Kind == Message {
			continue
		}
		line = strconv.AppendInt(line[:0], int64(e.Line), 10)
		line = append(line, ' ')
		line = append(line, e.Kind.String()...)
		for i, v := range e.At {
			if i < 3 {
				v /= e.Unit.Millimetres()
			}
			line = appendNine(line, v)
		}
		line = append(appendNine(line, e.traced()), '\n')
		if _, err := out.Write(line); err != nil {
			return err
		}
	}
}

// traced returns the last number of the event's line in a trace.
func (e Event) traced() float64 {
	switch e.Kind {
	case Feed, Arc:
		return e.Feed
	case Thread:
		return e.Lead / e.Unit.Millimetres()
	case Dwell:
		return e.Seconds
	case Spindle:
		return float64(e.Direction) * e.Speed
	}
	return 0
}

// appendNine appends a space and v with nine decimals, never -0.
func appendNine(line []byte, v float64) []byte {
	line = append(line, ' ')
	begin := len(line)
	line = strconv.AppendFloat(line, v, 'f', 9, 64)
	if string(line[begin:]) == "-0.000000000" {
		line = append(line[:begin], "0.000000000"...)
	}
	return line
}
