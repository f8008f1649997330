package job

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// schema holds one schema for each kind of file, and the definitions that
// they share. Its descriptions are the only ones of the keys: editors show
// them, and [Starter] puts them over its keys.
//
//go:embed schema
var schema embed.FS

// Kinds are the kinds of files that a workshop writes.
func Kinds() []string { return []string{"job", "machine", "lathe"} }

// figure matches a plain decimal or a fraction above 0 as [ParseLength]
// takes it. It stands in the schemas as <number>.
const figure = `(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+|(?:(?:0|[1-9][0-9]*)[ -])?(?:0|[1-9][0-9]*)/0*[1-9][0-9]*)`

var reference = regexp.MustCompile(`"#/\$defs/(\w+)"`)

// Schema is the JSON Schema, draft 2020-12, of a kind of file: its keys, the
// units and words that their values take, and what to measure and how. Faults
// that need arithmetic, as a root above a tip, are for the reader alone.
func Schema(kind string) ([]byte, error) {
	if !slices.Contains(Kinds(), kind) {
		return nil, fmt.Errorf("want %s, have %q", strings.Join(Kinds(), ", "), kind)
	}
	text, err := schema.ReadFile("schema/" + kind + ".json")
	if err != nil {
		return nil, err
	}
	shared, err := schema.ReadFile("schema/defs.json")
	if err != nil {
		return nil, err
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(shared, &all); err != nil {
		return nil, err
	}
	defs := map[string]json.RawMessage{}
	var gather func(text []byte)
	gather = func(text []byte) {
		for _, m := range reference.FindAllSubmatch(text, -1) {
			name := string(m[1])
			if _, have := defs[name]; !have {
				defs[name] = all[name]
				gather(all[name])
			}
		}
	}
	gather(text)
	b := bytes.NewBuffer(bytes.TrimSuffix(text, []byte("\n}\n")))
	b.WriteString(",\n  \"$defs\": {")
	for i, name := range slices.Sorted(maps.Keys(defs)) {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(b, "\n    %q: ", name)
		b.Write(bytes.ReplaceAll(defs[name], []byte("\n"), []byte("\n  ")))
	}
	b.WriteString("\n  }\n}\n")
	expression, err := json.Marshal(figure)
	if err != nil {
		return nil, err
	}
	return bytes.ReplaceAll(b.Bytes(), []byte("<number>"), bytes.Trim(expression, `"`)), nil
}
