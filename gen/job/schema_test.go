package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

// readers read the kinds of files and return what they read without places.
var readers = map[string]func(text string) (any, error){
	"job": func(text string) (any, error) {
		f, err := Read("test", strings.NewReader(text))
		f.Places = nil
		return f, err
	},
	"machine": func(text string) (any, error) {
		f, err := ReadMachine("test", strings.NewReader(text))
		return f.Machine, err
	},
	"lathe": func(text string) (any, error) {
		f, err := ReadLathe("test", strings.NewReader(text))
		return f.Lathe, err
	},
}

// The schema has the keys that the reader knows, all of them and no others,
// with the same words and bounds.
func TestSchemaHasTheReadersKeys(t *testing.T) {
	for _, kind := range Kinds() {
		reader, schema := askAll(t, kind), compile(t, kind)
		if len(reader.with) < 15 {
			t.Errorf("the reader of a %s tells of %d keys only", kind, len(reader.with))
		}
		for path := range reader.with {
			if schema.keys[path] == nil {
				t.Errorf("schema/%s.json lacks %s, which the reader knows", kind, path)
			}
		}
		for path, s := range schema.keys {
			if _, known := reader.with[path]; !known {
				t.Errorf("schema/%s.json has %s, which the reader does not know", kind, path)
				continue
			}
			words := slices.DeleteFunc(reader.words[path], func(w string) bool { return w == "+1" }) // 1 to YAML
			if have := enum(s); !slices.Equal(have, words) {
				t.Errorf("%s: schema has the words %q, the reader %q", path, have, words)
			}
			if bounds, ok := reader.whole[path]; ok {
				whole := slices.Contains(describe(s, func(s *jsonschema.Schema) *jsonschema.Types { return s.Types }).ToStrings(), "integer")
				low, high := fmt.Sprint(s.Minimum), fmt.Sprint(s.Maximum)
				if s.Minimum != nil && s.Maximum != nil {
					low, high = s.Minimum.RatString(), s.Maximum.RatString()
				}
				if !whole || low != bounds[0] || high != bounds[1] {
					t.Errorf("%s: schema has whole numbers (%v) from %s to %s, the reader from %s to %s", path, whole, low, high, bounds[0], bounds[1])
				}
			}
		}
	}
}

// Every key is described, and its default and examples are values of it.
func TestSchemaDescribes(t *testing.T) {
	for _, kind := range Kinds() {
		schema := compile(t, kind)
		for path, s := range schema.keys {
			text := describe(s, func(s *jsonschema.Schema) *string {
				if s.Description == "" {
					return nil
				}
				return &s.Description
			})
			switch {
			case text == nil:
				t.Errorf("%s %s: no description", kind, path)
				continue
			case !strings.HasSuffix(*text, ".") || len(*text) > 360:
				t.Errorf("%s %s: want short sentences, have %q", kind, path, *text)
			}
			missing := regexp.MustCompile("Left out,|[Ii]nstead of|can(not)? do without")
			values := s.Examples
			if d := describe(s, func(s *jsonschema.Schema) *any { return s.Default }); d != nil {
				values = append(values, *d)
				if strings.Contains(*text, "Left out,") {
					t.Errorf("%s %s: tells twice what it is when left out", kind, path)
				}
			}
			dot := strings.LastIndexByte(path, '.')
			must := slices.Contains(needed(schema, path[:max(dot, 0)]), path[dot+1:])
			if !must && !isSection(s) && len(values) == len(s.Examples) && !missing.MatchString(*text) {
				t.Errorf("%s %s: does not tell what it is when left out", kind, path)
			}
			for _, v := range values {
				if err := s.Validate(v); err != nil {
					t.Errorf("%s %s: default or example %v: %v", kind, path, v, err)
				}
			}
		}
	}
}

// Documents that have every section, for keys to be set in.
var spacious = map[string]string{
	"job": with(plainJob, "hob: {tip_diameter: 45, addendum: 2.5, gashes: 1, length: 60, taper: {length: 1, drop: 1}}",
		"setup: {}", "turn: {}", "gash: {diameter: 60, tip_width: 1, flank_stock: 1, root_stock: 1}"),
	"machine": `title: Knee mill
radial: {letter: X, dial: {name: knee, graduation: 1}}
tangential: {letter: Y, dial: {name: table, graduation: 1}}
axial: {letter: Z, dial: {name: saddle, graduation: 1}}
hob: {}
work: {}
spindle: {}
arbor: {diameter: 27, span: 200}
drive: {kind: geared}
language: {dwell: {}}
`,
	"lathe": `title: Lathe
leadscrew: 4 mm
cross_slide: {reads: radius, graduation: 1}
top_slide: {graduation: 1}
spindle: {}
language: {base: iso, dwell: {}}
`,
}

// What the schema calls a default is what the reader takes where the key is
// left out.
func TestSchemaDefaultsAreTheReaders(t *testing.T) {
	for _, kind := range Kinds() {
		tried, reader := 0, askAll(t, kind)
		for path, s := range compile(t, kind).keys {
			d := describe(s, func(s *jsonschema.Schema) *any { return s.Default })
			if d == nil || path == "language.base" && kind == "lathe" {
				continue
			}
			var doc map[string]any
			if err := yaml.Unmarshal([]byte(spacious[kind]), &doc); err != nil {
				t.Fatal(err)
			}
			merge(doc, reader.with[path])
			without, err := readers[kind](marshal(t, doc))
			if err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
			value := *d
			if n, ok := value.(json.Number); ok {
				value, _ = strconv.ParseFloat(string(n), 64)
			}
			given, err := readers[kind](marshal(t, merge(doc, nest(path, value))))
			if err != nil || !reflect.DeepEqual(given, without) {
				t.Errorf("%s %s: with the default %v the file reads differently (%v)", kind, path, value, err)
			}
			tried++
		}
		if tried < 5 {
			t.Errorf("%s: %d defaults, want more", kind, tried)
		}
	}
}

// refusals are the places at which a schema refuses a document.
func refusals(err error) []string {
	var fault *jsonschema.ValidationError
	if !errors.As(err, &fault) {
		return nil
	}
	if len(fault.Causes) == 0 {
		return []string{strings.Join(fault.InstanceLocation, ".")}
	}
	var list []string
	for _, cause := range fault.Causes {
		list = append(list, refusals(cause)...)
	}
	return list
}

// A value that the reader takes is one to the schema, and the other way
// round, whatever the key. YAML's own types are the exception: the reader
// asks for what stands there, not whether it stands in quotes.
func TestSchemaTakesTheReadersValues(t *testing.T) {
	samples := []any{
		0, 1, 2, 5, 6, 20, 21, 45, 46, 50, 100, 101, 250, 251, 300, 3000, 1000000, 1100000, 2.5, 0.3, -1, -2, -2.5, -0.3,
		"1/2", "1 1/2", "14 1/2", "1/0", "-1/2", "0.12 mm", "-0.12 mm", "3 thou", `2"`, "1/2 in", "2 mm in", "1e3 mm",
		"20°", "20 deg", "4°30'", "14°30′15″", "14°75'", "20 m/min", "65 ft/min", "12 in/min", "300 mm/min", "-3 m/min",
		"5 %", "60 %", "-5 %", "6 tpi", "-6 tpi", "2,5", "012 mm", "nan", "-inf", "2.5 furlongs", stranger, "", " ",
		true, false, "same as hob", []any{}, []any{20, 40}, []any{"1/2", 1}, []any{"qqq"}, []any{-20}, []any{map[string]any{}},
		map[string]any{}, map[string]any{stranger: 1}, nil,
	}
	// What the reader refuses and no schema of this kind can: arithmetic, and
	// what another key says.
	beyond := regexp.MustCompile(`^(want above 0,|want less than the tip|want from |G33 |want a number up to 1000000, have "1100000"$)`)
	tried := 0
	for _, kind := range Kinds() {
		schema, reader := compile(t, kind), askAll(t, kind)
		for path, s := range schema.keys {
			list := slices.Clone(samples)
			for _, word := range enum(s) {
				list = append(list, word)
			}
			for _, value := range list {
				if _, text := value.(string); text && slices.Contains([]string{"true", "false", "1", "-1"}, value.(string)) {
					continue // in quotes
				}
				text := marshal(t, merge(nest(path, value), reader.with[path]))
				_, err := readers[kind](text)
				complaints := slices.DeleteFunc(faultsAt(err, path), func(msg string) bool { return strings.HasPrefix(msg, "missing") })
				refused := slices.ContainsFunc(refusals(schema.whole.Validate(instance(t, text))), func(at string) bool {
					return at == path || strings.HasPrefix(at, path+".") && len(complaints) > 0
				})
				if section, ok := value.(map[string]any); ok && s.Properties == nil && s.Ref == nil && len(section) > 0 {
					continue
				}
				tried++
				switch _, isText := value.(string); {
				case refused && len(complaints) == 0 && isSection(s):
					// The reader complains at the keys that are missing.
				case refused && len(complaints) == 0 && (isTextKey(s) && !isText):
					// A title of 2024 has no quotes.
				case refused && len(complaints) == 0:
					t.Errorf("%s: the schema refuses %#v, which the reader takes", path, value)
				case !refused && len(complaints) > 0 && !beyond.MatchString(complaints[0]):
					t.Errorf("%s: the schema takes %#v, and the reader says %s", path, value, complaints[0])
				}
			}
		}
	}
	if tried < 5000 {
		t.Errorf("%d values tried, want more", tried)
	}
}

// Every example file is right by its schema.
func TestSchemaTakesExamples(t *testing.T) {
	for kind, folder := range map[string]string{"job": "jobs", "machine": "machines", "lathe": "lathes"} {
		schema := compile(t, kind)
		for _, name := range fixtures(t, folder) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if err := schema.whole.Validate(instance(t, string(text))); err != nil {
				t.Errorf("%s: %v", filepath.Base(name), err)
			}
		}
	}
}

// A file that is wrong is wrong to reader and schema.
func TestSchemaRefuses(t *testing.T) {
	machine, lathe := spacious["machine"], spacious["lathe"]
	for _, tt := range []struct{ kind, text string }{
		{"job", "[]"},
		{"job", "title: Only a title\n"},
		{"job", with(plainJob, "titel: twice")},
		{"job", with(plainJob, "pair: {teeth: 40, pressure_angle: 20}")},
		{"job", with(plainJob, "pair: {module: 2, diametral_pitch: 12, teeth: 40, pressure_angle: 20}")},
		{"job", with(plainJob, "pair: {module: 2, teeth: 40, pressure_angle: 20, profile_shift: 0, centre_distance: 60}")},
		{"job", with(plainJob, "pair: {module: 2, teeth: 4000, pressure_angle: 20}")},
		{"job", with(plainJob, "worm: {form: ZK, reference_diameter: 38.8}")},
		{"job", with(plainJob, "worm: {reference_diameter: as hob}")},
		{"job", with(plainJob, "hob: {form: ZK, tip_diameter: 45, addendum: 2.5, gashes: 10}")},
		{"job", with(plainJob, "hob: {tip_diameter: 45, addendum: 2.5, gashes: 10, lead: 6.3, module: 2}")},
		{"job", with(plainJob, "hob: {tip_diameter: 45, addendum: 2.5, gashes: 10, taper: {length: 5}}")},
		{"job", with(plainJob, "cut: {step: 0.25, rule: falling}")},
		{"job", with(plainJob, "cut: {step: 0.25, speed: 20, spindle: 100}")},
		{"job", with(plainJob, "cut: {step: 0.25 kg}")},
		{"job", with(plainJob, "cut: {step: [0.25]}")},
		{"job", with(plainJob, "cut: {step: .nan}")},
		{"job", with(plainJob, "turn: {infeed: sideways}")},
		{"machine", "title: A machine\n"},
		{"machine", strings.Replace(machine, "radial: {letter: X, dial: {name: knee, graduation: 1}}", "radial: {travel: 20}", 1)},
		{"machine", strings.Replace(machine, "letter: Z", "letter: A", 1)},
		{"machine", strings.Replace(machine, "span: 200", "span: yes", 1)},
		{"machine", strings.Replace(machine, "language: {", "language: {comments: semicolon, ", 1)},
		{"machine", strings.Replace(machine, "language: {dwell: {}}", "language: {base: ngc, dwell: {unit: milliseconds}}", 1)},
		{"machine", strings.Replace(machine, "kind: geared", "hand: right", 1)},
		{"lathe", strings.Replace(lathe, "4 mm", "4", 1)},
		{"lathe", strings.Replace(lathe, ", graduation: 1}", "}", 1)},
		{"lathe", strings.Replace(lathe, "language: {base: iso, dwell: {}}", "threads: true", 1)},
		{"lathe", lathe + "gears: [20, 5]\n"},
		{"lathe", lathe + "gearbox: [0]\n"},
	} {
		if _, err := readers[tt.kind](tt.text); err == nil {
			t.Errorf("the reader takes\n%s", tt.text)
		}
		// JSON has no NaN; to a schema it is a text that is no number.
		text := strings.Replace(tt.text, ".nan", "nan", 1)
		if err := compile(t, tt.kind).whole.Validate(instance(t, text)); err == nil {
			t.Errorf("the schema takes\n%s", tt.text)
		}
	}
}

func TestSchemaOfWhat(t *testing.T) {
	if _, err := Schema("spoon"); err == nil || err.Error() != `want job, machine, lathe, have "spoon"` {
		t.Errorf("Schema of a spoon = %v", err)
	}
	shared, err := schema.Open("schema/defs.json")
	if err != nil {
		t.Fatal(err)
	}
	defer shared.Close()
	data, err := io.ReadAll(shared)
	if err != nil {
		t.Fatal(err)
	}
	var defs map[string]any
	if err := json.Unmarshal(data, &defs); err != nil {
		t.Fatal(err)
	}
	var all []byte
	for _, kind := range Kinds() {
		text, err := Schema(kind)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, text...)
	}
	for name := range defs {
		if !bytes.Contains(all, []byte(`"#/$defs/`+name+`"`)) {
			t.Errorf("schema/defs.json defines %s, which nothing uses", name)
		}
	}
}
