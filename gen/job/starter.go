package job

import (
	"bytes"
	"cmp"
	"embed"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"text/template"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// starters are files of a ferry winch and the boat yard that makes it,
// without a comment: those come from the schema.
//
//go:embed starter
var starters embed.FS

// StarterOptions say what a starter is for.
type StarterOptions struct {
	Feed    string // one of [StarterFeeds]
	Units   string // mm or in
	Machine string // the machine file that a job names
	Lathe   string // the lathe file that a job names; empty for none
}

// StarterFeeds are the feeds for which there is a starter: all.
func StarterFeeds() (feeds []string) {
	top, err := hints("job")
	if err != nil {
		panic(err) // the schema is part of the program
	}
	for _, word := range top.at([]string{"cut", "feed"}).Enum {
		feeds = append(feeds, word.(string))
	}
	return feeds
}

// Is tells whether the feed is one of several.
func (o StarterOptions) Is(feeds ...string) bool {
	return slices.Contains(feeds, o.Feed)
}

// In picks a figure by the file's unit.
func (o StarterOptions) In(mm, inch string) string {
	if o.Units == "in" {
		return inch
	}
	return mm
}

// Starter is a file to begin with: one that can be cut, with a comment over
// each key. A key that stands in a comment itself is one more that may be
// given. It refuses a name of a file that a job cannot hold.
func Starter(kind string, o StarterOptions) ([]byte, error) {
	top, err := hints(kind)
	if err != nil {
		return nil, err
	}
	if kind == "job" {
		if o.Machine, err = quoteText(o.Machine); err == nil && o.Lathe != "" {
			o.Lathe, err = quoteText(o.Lathe)
		}
		if err != nil {
			return nil, err
		}
	}
	page, err := template.ParseFS(starters, "starter/"+kind+".yaml")
	if err != nil {
		return nil, err
	}
	var plain bytes.Buffer
	if err := page.Execute(&plain, o); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	comment(&b, "", top.Description)
	b.WriteString("#\n")
	comment(&b, "", "Put your own figures in the place of these. A key that does not say what it is when left out is needed. One behind a # may be given too: take the # away.")
	b.WriteByte('\n')
	var path []string
	told := map[string]bool{} // what two slides have in common is told once
	for line := range strings.SplitSeq(strings.TrimSuffix(plain.String(), "\n"), "\n") {
		if m := keyLine.FindStringSubmatch(line); m != nil {
			indent, key := m[1], m[2]
			path = append(path[:len(indent)/2], key)
			if words := top.at(path).words(); !told[words] {
				comment(&b, indent, words)
				told[words] = true
			}
		}
		b.WriteString(line + "\n")
	}
	return b.Bytes(), nil
}

// keyLine is a line with a key, perhaps behind a #.
var keyLine = regexp.MustCompile(`^( *)(?:# )?(\w+):`)

// quoteText is a text as YAML holds it.
func quoteText(text string) (string, error) {
	if text == "" || len(text) > 200 || strings.ContainsFunc(text, unprintable) {
		return "", fmt.Errorf("want the name of a file in one line, have %q", clip(text))
	}
	quoted, err := yaml.Marshal(text)
	return strings.TrimSpace(string(quoted)), err
}

// comment writes sentences as comments of at most 79 characters.
func comment(b *bytes.Buffer, indent, text string) {
	const most = 79
	line := indent + "#"
	for word := range strings.FieldsSeq(text) {
		if utf8.RuneCountInString(line+" "+word) > most {
			b.WriteString(line + "\n")
			line = indent + "#"
		}
		line += " " + word
	}
	b.WriteString(line + "\n")
}

// A hint is what a schema says of a key to a person.
type hint struct {
	Description string
	Default     any
	Enum        []any
	Properties  map[string]*hint
	Ref         string           `json:"$ref"`
	Defs        map[string]*hint `json:"$defs"`
}

func hints(kind string) (*hint, error) {
	text, err := Schema(kind)
	if err != nil {
		return nil, err
	}
	top := new(hint)
	if err := json.Unmarshal(text, top); err != nil {
		return nil, err
	}
	return top, nil
}

// at finds a key, which may stand beside a reference or bring its own words.
func (top *hint) at(path []string) hint {
	found := *top
	for _, key := range path {
		sub := found.Properties[key]
		if sub == nil {
			panic("job: no key " + strings.Join(path, ".") + " in the schema")
		}
		found = *sub
		for def := top.Defs[strings.TrimPrefix(sub.Ref, "#/$defs/")]; def != nil; def = top.Defs[strings.TrimPrefix(def.Ref, "#/$defs/")] {
			found.Description = cmp.Or(found.Description, def.Description)
			if found.Default == nil {
				found.Default = def.Default
			}
			if found.Properties == nil {
				found.Properties = def.Properties
			}
		}
	}
	return found
}

// words are the description and what the key is when left out.
func (h hint) words() string {
	if h.Default == nil {
		return h.Description
	}
	return fmt.Sprintf("%s Left out, %v.", h.Description, h.Default)
}
