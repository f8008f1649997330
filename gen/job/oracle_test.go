package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

// A compiled schema, whole and for each key by its path.
type compiled struct {
	whole *jsonschema.Schema
	keys  map[string]*jsonschema.Schema
}

// compile compiles a schema of ours, which must be one by the standard.
func compile(t testing.TB, kind string) compiled {
	t.Helper()
	text, err := Schema(kind)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("schema of %s: %v", kind, err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(kind, doc); err != nil {
		t.Fatal(err)
	}
	whole, err := c.Compile(kind)
	if err != nil {
		t.Fatalf("schema of %s: %v", kind, err)
	}
	all := compiled{whole, map[string]*jsonschema.Schema{}}
	all.walk("", whole)
	return all
}

// walk gathers the keys below a schema. A key may stand beside a reference
// to its definition or bring its own.
func (c compiled) walk(path string, s *jsonschema.Schema) {
	for ; s != nil; s = s.Ref {
		for name, sub := range s.Properties {
			key := strings.TrimPrefix(path+"."+name, ".")
			c.keys[key] = sub
			c.walk(key, sub)
		}
	}
}

// describe finds something of a key, by itself or by its definition.
func describe[T any](s *jsonschema.Schema, of func(*jsonschema.Schema) *T) *T {
	for ; s != nil; s = s.Ref {
		if v := of(s); v != nil {
			return v
		}
	}
	return nil
}

func enum(s *jsonschema.Schema) []string {
	e := describe(s, func(s *jsonschema.Schema) *jsonschema.Enum { return s.Enum })
	if e == nil {
		if of := describe(s, func(s *jsonschema.Schema) *jsonschema.Types { return s.Types }); of != nil && of.String() == "[boolean]" {
			return []string{"false", "true"}
		}
		return nil
	}
	var words []string
	for _, v := range e.Values {
		words = append(words, fmt.Sprint(v))
	}
	slices.Sort(words)
	return words
}

// nest makes a document with one value at a path.
func nest(path string, value any) map[string]any {
	head, tail, deeper := strings.Cut(path, ".")
	if deeper {
		value = nest(tail, value)
	}
	return map[string]any{head: value}
}

// merge puts the keys of one document into another.
func merge(into, from map[string]any) map[string]any {
	for key, value := range from {
		a, ok1 := into[key].(map[string]any)
		b, ok2 := value.(map[string]any)
		if ok1 && ok2 {
			merge(a, b)
			continue
		}
		into[key] = value
	}
	return into
}

func marshal(t testing.TB, doc any) string {
	t.Helper()
	text, err := yaml.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// instance is a YAML text as a schema sees it.
func instance(t testing.TB, text string) any {
	t.Helper()
	var doc any
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	data, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// faultsAt are the messages of a reader's error at one path.
func faultsAt(err error, path string) []string {
	var faults Faults
	errors.As(err, &faults)
	var list []string
	for _, f := range faults {
		if f.Path == path {
			list = append(list, f.Msg)
		}
	}
	return list
}

// An oracle asks a reader what it knows, by its complaints.
type oracle struct {
	kind     string
	words    map[string][]string       // of the keys that are one of several words
	whole    map[string][2]string      // bounds of the keys that are whole numbers
	sections map[string]bool           // the keys that have keys
	with     map[string]map[string]any // all keys, and what else the file says where they are known
}

// stranger is a key, and a word, that no reader knows or takes for a slip of
// the pen.
const stranger = "qqq"

var (
	wordsFault = regexp.MustCompile(`^want (.*), have "` + stranger + `"$`)
	wholeFault = regexp.MustCompile(`^want a whole number from (\d+) to (\d+),`)
)

// ask finds the keys of a section and of those below it, in a file that says
// something else as well.
func (o *oracle) ask(t testing.TB, section string, with map[string]any) {
	t.Helper()
	below := func(key string) string { return strings.TrimPrefix(section+"."+key, ".") }
	complaints := func(path string, value any) []string {
		_, err := readers[o.kind](marshal(t, merge(nest(path, value), with)))
		return faultsAt(err, path)
	}
	var known string
	for _, msg := range complaints(below(stranger), 1) {
		known, _ = strings.CutPrefix(msg, "unknown key; have ")
	}
	if known == "" {
		t.Fatalf("the reader of a %s does not tell what it knows in %q", o.kind, section)
	}
	for key := range strings.SplitSeq(known, ", ") {
		path := below(key)
		if _, have := o.with[path]; !have {
			o.with[path] = with
			for _, msg := range complaints(path, stranger) {
				if strings.HasPrefix(msg, "want keys and values") {
					o.sections[path] = true
				} else if m := wholeFault.FindStringSubmatch(msg); m != nil {
					o.whole[path] = [2]string{m[1], m[2]}
				} else if m := wordsFault.FindStringSubmatch(msg); m != nil && !strings.HasPrefix(m[1], "a ") && !strings.HasPrefix(m[1], "from ") {
					o.words[path] = strings.Split(m[1], ", ")
				}
			}
		}
		if o.sections[path] {
			o.ask(t, path, with)
		}
	}
}

// askAll asks a reader about everything, also with every word that some key
// may be, on which other keys might hang.
func askAll(t testing.TB, kind string) *oracle {
	o := &oracle{kind, map[string][]string{}, map[string][2]string{}, map[string]bool{}, map[string]map[string]any{}}
	o.ask(t, "", nil)
	for path, words := range maps.Clone(o.words) {
		for _, word := range words {
			o.ask(t, "", nest(path, word))
		}
	}
	return o
}

// needed are the keys that a section cannot do without.
func needed(c compiled, section string) []string {
	s := c.whole
	if section != "" {
		s = c.keys[section]
	}
	if list := describe(s, func(s *jsonschema.Schema) *[]string {
		if s.Required == nil {
			return nil
		}
		return &s.Required
	}); list != nil {
		return *list
	}
	return nil
}

func isSection(s *jsonschema.Schema) bool {
	return describe(s, func(s *jsonschema.Schema) *map[string]*jsonschema.Schema {
		if s.Properties == nil {
			return nil
		}
		return &s.Properties
	}) != nil
}

func isTextKey(s *jsonschema.Schema) bool {
	return describe(s, func(s *jsonschema.Schema) *int { return s.MaxLength }) != nil
}
