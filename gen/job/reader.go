package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"wormwright/gen"
)

// largestFile is the most that a job or machine file may hold, in bytes.
const largestFile = 1 << 20

// A reader walks the tree of one file and gathers faults and places.
type reader struct {
	file   string
	faults Faults
	places map[string]Place
	text   []byte

	length, angle, speed, feed, share, plain measure
}

// A Setting is a value that takes the place of the one that a file gives to
// a key, as "worm.reference_diameter" and "38.8" or "1 1/2 in".
type Setting struct{ Key, Value string }

// put sets the value in a mapping, where the key may be new but not the
// sections above it.
func (s Setting) put(n *yaml.Node) bool {
	head, tail, deeper := strings.Cut(s.Key, ".")
	if n.Kind != yaml.MappingNode {
		return false
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		switch value := n.Content[i+1]; {
		case n.Content[i].Value != head:
		case deeper:
			return Setting{tail, s.Value}.put(value)
		default:
			*value = yaml.Node{Kind: yaml.ScalarNode, Value: s.Value, Line: value.Line, Column: value.Column}
			return true
		}
	}
	if deeper {
		return false
	}
	at := yaml.Node{Kind: yaml.ScalarNode, Value: head, Line: n.Line, Column: n.Column}
	value := at
	value.Value = s.Value
	n.Content = append(n.Content, &at, &value)
	return true
}

// open parses a file into its top section, with settings in place of what it
// says.
func open(name string, in io.Reader, settings ...Setting) (*reader, *section) {
	r := &reader{file: name, places: map[string]Place{}}
	top := &section{r: r}
	data, err := io.ReadAll(io.LimitReader(in, largestFile+1))
	switch {
	case err != nil:
		var path *os.PathError
		if errors.As(err, &path) {
			err = fmt.Errorf("%s: %w", path.Op, path.Err)
		}
		r.faults = Faults{{Place: Place{File: name}, Msg: err.Error()}}
		return r, top
	case len(data) > largestFile:
		r.faults = Faults{{Place: Place{File: name}, Msg: "want at most 1 MiB"}}
		return r, top
	case !utf8.Valid(data), bytes.IndexByte(data, 0) >= 0:
		r.faults = Faults{{Place: Place{File: name}, Msg: "want UTF-8 text"}}
		return r, top
	}
	r.text = data
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var doc yaml.Node
	if err := decoder.Decode(&doc); err != nil {
		r.faults = Faults{r.syntax(err)}
		return r, top
	}
	var second yaml.Node
	switch err := decoder.Decode(&second); {
	case err == nil:
		r.add(second.Line, second.Column, "", "want one document, have a second one here")
	case !errors.Is(err, io.EOF):
		r.faults = append(r.faults, r.syntax(err))
	}
	root := doc.Content[0]
	if r.plainTree(root); len(r.faults) > 0 {
		return r, top
	}
	for _, s := range settings {
		if !s.put(root) {
			r.add(root.Line, root.Column, clip(s.Key), "want a section of the job for this key, have none")
			return r, top
		}
	}
	top.line, top.col = root.Line, root.Column
	top.take(root)
	return r, top
}

var yamlLine = regexp.MustCompile(`line (\d+): (.*)`)

// syntax turns an error of the YAML parser into a fault at its line.
func (r *reader) syntax(err error) Fault {
	f := Fault{Place: Place{File: r.file}, Msg: "not YAML: " + strings.TrimPrefix(err.Error(), "yaml: ")}
	if errors.Is(err, io.EOF) {
		f.Msg = "want a job or machine, have an empty file"
	} else if name, ok := strings.CutPrefix(f.Msg, "not YAML: unknown anchor '"); ok {
		name, _, _ = strings.Cut(name, "'")
		f.Line, f.Col = aliasPlace(r.text, name)
		f.Msg = fmt.Sprintf("want no alias (*%s): write the value out", clip(name))
	} else if m := yamlLine.FindStringSubmatch(err.Error()); m != nil {
		f.Line, _ = strconv.Atoi(m[1])
		f.Col, f.Msg = 1, "not YAML: "+m[2]
		if strings.HasPrefix(m[2], "did not find expected") {
			f.Line++ // the parser counts from 0 here
		}
	} else {
		f.Line, f.Col = 1, 1 // it names no line when it means the first
	}
	return f
}

// aliasPlace is where a text first speaks of an alias.
func aliasPlace(text []byte, name string) (line, col int) {
	for row := range strings.SplitSeq(string(text), "\n") {
		line++
		if i := strings.Index(row, "*"+name); i >= 0 {
			return line, utf8.RuneCountInString(row[:i]) + 1
		}
	}
	return 1, 1
}

// plainTree refuses what makes a file mean something else than it looks
// like: anchors, aliases, tags and merge keys.
func (r *reader) plainTree(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		r.add(n.Line, n.Column, "", "want no alias (*%s): write the value out", clip(n.Value))
		return
	case n.Anchor != "":
		r.add(n.Line, n.Column, "", "want no anchor (&%s): write the value out", clip(n.Anchor))
	case n.Style&yaml.TaggedStyle != 0:
		r.add(n.Line, n.Column, "", "want no tag (%s)", clip(n.Tag))
	}
	for _, child := range n.Content {
		r.plainTree(child)
	}
}

func (r *reader) add(line, col int, path, format string, args ...any) {
	r.faults = append(r.faults, Fault{Place{r.file, line, col}, path, fmt.Sprintf(format, args...)})
}

// units reads the unit of the file, which every bare length is in.
func (r *reader) units(top *section) gen.Unit {
	u := choose(top, "units", gen.Millimetre, map[string]gen.Unit{"mm": gen.Millimetre, "in": gen.Inch})
	r.length, r.angle, r.speed, r.feed, r.share, r.plain = measures(u.Millimetres())
	return u
}

// finish returns the faults of the file as an error, sorted by place.
func (r *reader) finish() error {
	if len(r.faults) == 0 {
		return nil
	}
	r.faults.sort()
	return r.faults
}

// A section is a mapping of the file. Its methods read one key each, in any
// order, and remember it as known; done then tells of keys that none asked
// for.
type section struct {
	r         *reader
	path      string // "pair", empty at the top
	line, col int
	given     bool // the file has it
	keys      []string
	nodes     map[string]*yaml.Node // values by key
	known     []string
}

// take reads the keys of a mapping node.
func (s *section) take(n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		s.r.add(n.Line, n.Column, s.path, "want keys and values, have %s", show(n))
		return
	}
	s.given = true
	s.nodes = make(map[string]*yaml.Node, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		path := s.sub(key.Value)
		if key.Kind != yaml.ScalarNode {
			s.r.add(key.Line, key.Column, s.path, "want a plain key")
			continue
		}
		if _, twice := s.nodes[key.Value]; twice {
			s.r.add(key.Line, key.Column, s.sub(word(key.Value)), "given twice")
			continue
		}
		s.keys = append(s.keys, key.Value)
		s.nodes[key.Value] = value
		s.r.places[path] = Place{s.r.file, key.Line, key.Column}
	}
}

func (s *section) sub(key string) string {
	if s.path == "" {
		return key
	}
	return s.path + "." + key
}

// section returns the mapping under a key; an absent one reads as empty.
func (s *section) section(key string, need rule) *section {
	sub := &section{r: s.r, path: s.sub(key), line: s.line, col: s.col}
	if n, ok := s.node(key, need); ok {
		sub.line, sub.col = n.Line, n.Column
		sub.take(n)
	}
	return sub
}

// done tells of every key that no method asked for.
func (s *section) done() {
	for _, key := range s.keys {
		if slices.Contains(s.known, key) {
			continue
		}
		place := s.r.places[s.sub(key)]
		hint := "; have " + strings.Join(s.known, ", ")
		if len(s.r.faults) > mostFaults {
			hint = "" // hardly anybody will read it
		} else if near := nearest(key, s.known); near != "" {
			hint = "; did you mean " + near + "?"
		}
		s.r.add(place.Line, place.Col, s.sub(word(key)), "unknown key%s", hint)
	}
}

// A rule says what a value must be.
type rule int

const (
	required rule = 1 << iota
	positive      // above 0
	unsigned      // 0 or above
)

// node finds the value of a key. A missing or empty one is a fault where it
// is required.
func (s *section) node(key string, need rule) (*yaml.Node, bool) {
	s.know(key)
	n, ok := s.nodes[key]
	switch {
	case !ok && need&required != 0 && (s.given || s.path == ""):
		s.r.add(s.line, s.col, s.sub(key), "missing")
		return nil, false
	case ok && n.Tag == "!!null":
		s.r.add(n.Line, n.Column, s.sub(key), "want a value, have nothing")
		return nil, false
	}
	return n, ok
}

// know remembers keys as ones that the section may have.
func (s *section) know(keys ...string) {
	for _, key := range keys {
		if !slices.Contains(s.known, key) {
			s.known = append(s.known, key)
		}
	}
}

// scalar finds the text of a key.
func (s *section) scalar(key string, need rule) (*yaml.Node, bool) {
	n, ok := s.node(key, need)
	if ok && n.Kind != yaml.ScalarNode {
		s.r.add(n.Line, n.Column, s.sub(key), "want a single value, have %s", show(n))
		return nil, false
	}
	return n, ok
}

// number reads a key by a measure; 0 when it is absent or wrong.
func (s *section) number(key string, m measure, need rule) float64 {
	n, ok := s.scalar(key, need)
	if !ok {
		return 0
	}
	v, err := m.read(n.Value)
	switch {
	case err != nil:
		s.r.add(n.Line, n.Column, s.sub(key), "%v, have %s", err, show(n))
	case need&positive != 0 && !(v > 0):
		s.r.add(n.Line, n.Column, s.sub(key), "want above 0, have %s", show(n))
	case need&unsigned != 0 && !(v >= 0):
		s.r.add(n.Line, n.Column, s.sub(key), "want 0 or above, have %s", show(n))
	default:
		return v
	}
	return 0
}

func (s *section) length(key string, need rule) float64 { return s.number(key, s.r.length, need) }
func (s *section) angle(key string, need rule) float64  { return s.number(key, s.r.angle, need) }

// integer reads a whole number from low to high; absent it is missing.
func (s *section) integer(key string, low, high, missing int, need rule) int {
	n, ok := s.scalar(key, need)
	if !ok {
		return missing
	}
	v, err := s.r.plain.read(n.Value)
	if err != nil || v != float64(int(v)) || int(v) < low || int(v) > high {
		what := fmt.Sprintf("want a whole number from %d to %d", low, high)
		if err != nil && !strings.HasSuffix(err.Error(), "number") {
			what = err.Error()
		}
		s.r.add(n.Line, n.Column, s.sub(key), "%s, have %s", what, show(n))
		return missing
	}
	return int(v)
}

// flag reads true or false.
func (s *section) flag(key string) bool {
	return choose(s, key, false, map[string]bool{"true": true, "false": false})
}

// text reads a text as it stands.
func (s *section) text(key string, need rule) string {
	n, ok := s.scalar(key, need)
	switch {
	case !ok:
		return ""
	case n.Value == "" || len(n.Value) > 200 || strings.ContainsFunc(n.Value, unprintable):
		s.r.add(n.Line, n.Column, s.sub(key), "want one line of text, have %s", show(n))
		return ""
	}
	return n.Value
}

// word is a key as a message repeats it: clipped, and quoted where it holds
// what does not print.
func word(s string) string {
	if s = clip(s); strings.ContainsFunc(s, unprintable) {
		return strconv.Quote(s)
	}
	return s
}

func unprintable(r rune) bool { return !strconv.IsPrint(r) }

// choose reads one of several words; absent it is missing.
func choose[T any](s *section, key string, missing T, words map[string]T) T {
	n, ok := s.scalar(key, 0)
	if !ok {
		return missing
	}
	if v, ok := words[n.Value]; ok {
		return v
	}
	var known []string
	for w := range words {
		known = append(known, w)
	}
	slices.Sort(known)
	s.r.add(n.Line, n.Column, s.sub(key), "want %s, have %s", strings.Join(known, ", "), show(n))
	return missing
}

// numbers reads a list by a measure.
func (s *section) numbers(key string, m measure) []float64 {
	n, ok := s.node(key, 0)
	if !ok {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		s.r.add(n.Line, n.Column, s.sub(key), "want a list in brackets, have %s", show(n))
		return nil
	}
	var list []float64
	for _, item := range n.Content {
		v, err := m.read(item.Value)
		if err != nil || !(v > 0) {
			s.r.add(item.Line, item.Column, s.sub(key), "want numbers above 0, have %s", show(item))
			continue
		}
		list = append(list, v)
	}
	return list
}

// one reports all but the first of several keys that say the same thing, and
// returns which of them the section has.
func (s *section) one(need rule, keys ...string) string {
	s.know(keys...)
	var have []string
	for _, key := range keys {
		if _, ok := s.nodes[key]; ok {
			have = append(have, key)
		}
	}
	switch {
	case len(have) == 0 && need&required != 0 && s.given:
		s.r.add(s.line, s.col, s.sub(keys[0]), "missing: want one of %s", strings.Join(keys, ", "))
	case len(have) > 1:
		place := s.r.places[s.sub(have[1])]
		s.r.add(place.Line, place.Col, s.sub(have[1]), "want only one of %s", strings.Join(have, ", "))
	}
	if len(have) == 0 {
		return ""
	}
	return have[0]
}

// show quotes what a node holds, short enough for one line.
func show(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys and values"
	case yaml.SequenceNode:
		return "a list"
	}
	return strconv.Quote(clip(n.Value))
}

// clip shortens a text that a message repeats.
func clip(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "…"
}
