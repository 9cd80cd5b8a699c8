package api_test

import (
	"encoding/json"
	"mime"
	"net/http"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"wetside/api"
)

type object = map[string]any

// described is the description that the server hands out, with a general validator of JSON Schema over it.
var described = sync.OnceValue(func() *description { //nolint:gochecknoglobals // read once for all tests
	text, err := os.ReadFile("openapi.json")
	if err != nil {
		panic(err)
	}
	d := &description{schemas: jsonschema.NewCompiler(), known: map[string]*jsonschema.Schema{}}
	d.schemas.DefaultDraft(jsonschema.Draft2020) // which OpenAPI 3.1 takes (its section 4.8.24)
	d.schemas.AssertFormat()
	if err := json.Unmarshal(text, &d.all); err != nil {
		panic(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	if err == nil {
		err = d.schemas.AddResource("openapi.json", doc)
	}
	if err != nil {
		panic(err)
	}
	return d
})

type description struct {
	all     object
	mu      sync.Mutex
	schemas *jsonschema.Compiler
	known   map[string]*jsonschema.Schema
	seen    map[string]int // answers that were held to it, by operation and status
}

// in follows names down into the description, and references on the way.
func (d *description) in(from any, names ...string) any {
	for _, name := range names {
		from = d.resolved(from)
		m, ok := from.(object)
		if !ok {
			return nil
		}
		from = m[name]
	}
	return d.resolved(from)
}

func (d *description) resolved(v any) any {
	if m, ok := v.(object); ok {
		if ref, ok := m["$ref"].(string); ok {
			return d.in(d.all, strings.Split(strings.TrimPrefix(ref, "#/"), "/")...)
		}
	}
	return v
}

// holds validates a JSON text against a schema, by its place in the description.
func (d *description) holds(place string, text string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	s := d.known[place]
	if s == nil {
		var err error
		if s, err = d.schemas.Compile("openapi.json#" + place); err != nil {
			return err
		}
		d.known[place] = s
	}
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// operation finds the operation of a request: its path in the description.
func (d *description) operation(r *http.Request) (path string, found bool) {
	got := strings.Split(strings.TrimPrefix(r.URL.EscapedPath(), api.Prefix), "/")
	for path, methods := range d.in(d.all, "paths").(object) {
		want := strings.Split(path, "/")
		same := len(want) == len(got)
		for i := range want {
			same = same && (want[i] == got[i] || strings.HasPrefix(want[i], "{"))
		}
		method := strings.ToLower(r.Method)
		if method == "head" {
			method = "get"
		}
		if _, has := methods.(object)[method]; same && has {
			return path, true
		}
	}
	return "", false
}

func escaped(name string) string { return strings.NewReplacer("~", "~0", "/", "~1").Replace(name) }

// described holds a request and its answer to the description: its status and its type must stand there, what it says must be as
// its schema says, and a request that was taken must be one that the description allows.
func (h *house) described(r *http.Request, body string, a answer) {
	h.t.Helper()
	d := described()
	kind, _, _ := mime.ParseMediaType(a.Header.Get("Content-Type"))
	path, found := d.operation(r)
	if !found {
		if kind != "application/problem+json" || d.holds("/components/schemas/Problem", a.Text) != nil {
			h.t.Errorf("%s %s is not described, and answers %s %s", r.Method, r.URL, kind, a.Text)
		}
		return
	}
	method := strings.ToLower(r.Method)
	if method == "head" {
		return
	}
	d.mu.Lock()
	if d.seen == nil {
		d.seen = map[string]int{}
	}
	d.seen[method+" "+path+" "+http.StatusText(a.Status)]++
	d.mu.Unlock()
	at := []string{"paths", path, method, "responses", json.Number(itoa(a.Status)).String()}
	resp, ok := d.in(d.all, at...).(object)
	if !ok {
		h.t.Errorf("%s %s answers %d, which is not described: %s", r.Method, path, a.Status, a.Text)
		return
	}
	if a.Status == http.StatusNotModified {
		if a.Text != "" {
			h.t.Errorf("304 with %q", a.Text)
		}
		return
	}
	content, _ := d.in(resp, "content", kind, "schema").(object)
	if content == nil {
		h.t.Errorf("%s %s answers %d with %s, which is not described: %s", r.Method, path, a.Status, kind, a.Text)
		return
	}
	if strings.HasSuffix(kind, "json") {
		if err := d.holds(d.placeOf(resp, at, kind), a.Text); err != nil {
			h.t.Errorf("%s %s %d is not as described: %v\n%s", r.Method, path, a.Status, err, a.Text)
		}
	}
	if method == "post" && a.Status < 300 {
		err := d.holds("/paths/"+escaped(path)+"/post/requestBody/content/application~1json/schema", body)
		if err != nil {
			h.t.Errorf("%s %s takes what is not described: %v\n%s", r.Method, path, err, body)
		}
	}
}

// placeOf is the place of an answer's schema; answers that several share stand among the components.
func (d *description) placeOf(resp object, at []string, kind string) string {
	place := "/" + strings.Join([]string{at[0], escaped(at[1]), at[2], at[3], at[4]}, "/")
	raw := d.all[at[0]].(object)[at[1]].(object)[at[2]].(object)[at[3]].(object)[at[4]]
	if ref, ok := raw.(object)["$ref"].(string); ok {
		place = strings.TrimPrefix(ref, "#")
	}
	return place + "/content/" + escaped(kind) + "/schema"
}

func itoa(n int) string { return json.Number(strings.TrimSpace(string(mustJSON(n)))).String() }

func mustJSON(v any) []byte {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return text
}

// Every route of the handler is described with its parameters, and nothing is described that the handler does not have: each
// operation answers something else than "not here".
func TestDescriptionIsTheHandler(t *testing.T) {
	d := described()
	type op struct {
		Method, Path string
		Query        []string
	}
	var told, has []op
	for path, methods := range d.in(d.all, "paths").(object) {
		for method, o := range methods.(object) {
			one := op{Method: strings.ToUpper(method), Path: path}
			list, _ := o.(object)["parameters"].([]any)
			for _, p := range list {
				if p := d.resolved(p).(object); p["in"] == "query" {
					one.Query = append(one.Query, p["name"].(string))
				}
			}
			slices.Sort(one.Query)
			told = append(told, one)
		}
	}
	for _, r := range api.Routes() {
		slices.Sort(r.Query)
		has = append(has, op(r))
	}
	byPath := func(a, b op) int { return strings.Compare(a.Path+a.Method, b.Path+b.Method) }
	slices.SortFunc(told, byPath)
	slices.SortFunc(has, byPath)
	if diff := cmp.Diff(has, told); diff != "" || len(told) < 12 {
		t.Errorf("the handler and its description (-handler +description):\n%s", diff)
	}
	h := serve(t)
	id := h.say(sessionOpened("s1"))
	h.pour("dev1", "paper developer", "1+9", trayOf(h, 0))
	here := map[string]string{"/baths/{id}": "dev1", "/sessions/{id}": "s1", "/entries/{id}": id, "/probes/{probe}/temperature": "board"}
	for _, o := range told {
		path := o.Path
		if i := strings.IndexByte(path, '{'); i >= 0 {
			path = path[:i] + here[path] + path[i+strings.IndexByte(path[i:], '}')+1:]
		}
		var a answer
		switch o.Method {
		case http.MethodGet:
			a = h.get(path)
		case http.MethodPost:
			a = h.post(path, `{}`) // held to be a mistake, but not elsewhere
		}
		if want := map[string]int{http.MethodGet: 200, http.MethodPost: 400}[o.Method]; a.Status != want {
			t.Errorf("%s %s: %d, want %d: %s", o.Method, path, a.Status, want, a.Text)
		}
	}
}

// The description is what OpenAPI 3.1 says that it is, by a validator that others made; no object of an answer or a request lets
// unknown names pass.
func TestDescriptionIsOpenAPI(t *testing.T) {
	h := serve(t)
	a := h.get("/openapi.json")
	kept, err := os.ReadFile("openapi.json")
	if err != nil || a.Text != string(kept) {
		t.Fatalf("what is handed out is not what is kept: %v", err)
	}
	if again := h.get("/openapi.json", "If-None-Match", a.Header.Get("ETag")); again.Status != http.StatusNotModified {
		t.Errorf("%d for the tag that it has, want 304", again.Status)
	}
	open := 0
	for name, s := range described().in(described().all, "components", "schemas").(object) {
		if s.(object)["additionalProperties"] != false {
			t.Errorf("%s lets unknown names pass", name)
		}
		open++
	}
	if open < 50 {
		t.Errorf("%d schemas", open)
	}
	for name, text := range map[string]string{"ours": a.Text, "one that is none": strings.Replace(a.Text, `"openapi":"3.1.0"`, `"openapi":"3.0.0"`, 1)} {
		if err := openAPI(t, text); (err == nil) != (name == "ours") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := openAPI(t, strings.Replace(a.Text, `"in":"path"`, `"in":"way"`, 1)); err == nil {
		t.Error("a parameter that stands nowhere passes")
	}
}

// openAPI holds a description to the schema that the OpenAPI Initiative gives for OpenAPI 3.1.x
// (https://spec.openapis.org/oas/3.1/schema/2022-10-07), and each schema in it to the metaschema of its dialect.
func openAPI(t *testing.T, text string) error {
	t.Helper()
	of, err := os.Open("testdata/openapi-3.1-2022-10-07.json")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = of.Close() }()
	schema, err := jsonschema.UnmarshalJSON(of)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	const id = "https://spec.openapis.org/oas/3.1/schema/2022-10-07"
	if err := c.AddResource(id, schema); err != nil {
		t.Fatal(err)
	}
	compiled, err := c.Compile(id)
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if err := compiled.Validate(v); err != nil {
		return err
	}
	all := v.(object)["components"].(object)["schemas"].(object)
	for name := range all {
		c := jsonschema.NewCompiler()
		c.DefaultDraft(jsonschema.Draft2020)
		if err := c.AddResource("description.json", v); err != nil {
			return err
		}
		if _, err := c.Compile("description.json#/components/schemas/" + name); err != nil {
			return err
		}
	}
	return nil
}
