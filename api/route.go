package api

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// An operation is a method on a path.
type operation struct {
	method, path string // {name} stands for any one part of a path
	open         bool   // for whoever reaches the server
	writes       bool   // the entry's kind says who may
	live         bool   // a stream, where that is asked for
	query        []string
	do           func(*call) error
}

// operations is the whole surface, in one list.
func operations() []operation {
	return []operation{
		{method: http.MethodGet, path: "/openapi.json", open: true, do: (*call).describe},
		{method: http.MethodGet, path: "/state", do: (*call).state},
		{method: http.MethodGet, path: "/baths", query: []string{"material"}, do: (*call).baths},
		{method: http.MethodGet, path: "/baths/{id}", query: []string{"material"}, do: (*call).bath},
		{method: http.MethodGet, path: "/sessions", do: (*call).sessions},
		{method: http.MethodGet, path: "/sessions/{id}", do: (*call).session},
		{method: http.MethodGet, path: "/timers", do: (*call).timers},
		{method: http.MethodGet, path: "/readings", do: (*call).readings},
		{method: http.MethodGet, path: "/entries", live: true, query: []string{"after", "limit", "kinds"}, do: (*call).entries},
		{method: http.MethodPost, path: "/entries", writes: true, do: (*call).add},
		{method: http.MethodGet, path: "/entries/{id}", do: (*call).entry},
		{method: http.MethodPost, path: "/probes/{probe}/temperature", writes: true, do: (*call).read},
	}
}

// Route is a method on a path of the API, for the tests that hold the description to it.
type Route struct {
	Method, Path string
	Query        []string
}

// Routes returns every method on every path.
func Routes() []Route {
	var all []Route
	for _, o := range operations() {
		all = append(all, Route{o.method, o.path, o.query})
	}
	return all
}

// streams reports whether a request is for a stream.
func (o *operation) streams(r *http.Request) bool {
	return o.live && strings.Contains(r.Header.Get("Accept"), eventStream)
}

// find finds the operation of a request and sets the parts of its path. Parameters that it does not have are refused.
func find(w http.ResponseWriter, r *http.Request) (*operation, error) {
	rest, ok := strings.CutPrefix(r.URL.EscapedPath(), Prefix)
	if !ok {
		return nil, &failure{slug: pNotFound}
	}
	method, allowed := r.Method, []string(nil)
	if method == http.MethodHead {
		method = http.MethodGet
	}
	for _, o := range operations() {
		values, ok := match(o.path, rest)
		switch {
		case !ok:
			continue
		case o.method != method:
			allowed = append(allowed, o.method)
			if o.method == http.MethodGet {
				allowed = append(allowed, http.MethodHead)
			}
			continue
		}
		for name, value := range values {
			r.SetPathValue(name, value)
		}
		return &o, invalid(strange(r.URL, o.query)...)
	}
	if allowed == nil {
		return nil, &failure{slug: pNotFound}
	}
	slices.Sort(allowed)
	list := strings.Join(allowed, ", ")
	w.Header().Set("Allow", list)
	return nil, &failure{slug: pMethod, args: []string{"Found", r.Method, "Want", list}}
}

// match returns the parts of a path that stand at a pattern's places.
func match(pattern, path string) (values map[string]string, ok bool) {
	want, got := strings.Split(pattern, "/"), strings.Split(path, "/")
	if len(want) != len(got) {
		return nil, false
	}
	values = map[string]string{}
	for i, part := range want {
		text, err := url.PathUnescape(got[i])
		if err != nil {
			return nil, false
		}
		if name, isPlace := strings.CutPrefix(part, "{"); isPlace && text != "" {
			values[strings.TrimSuffix(name, "}")] = text
		} else if part != text {
			return nil, false
		}
	}
	return values, true
}

// strange returns the parameters that an operation does not have, or that stand twice.
func strange(u *url.URL, query []string) (all []mistake) {
	values, err := url.ParseQuery(u.RawQuery)
	if err != nil {
		return []mistake{{param: "", code: "query", found: short([]byte(u.RawQuery)), at: root}}
	}
	for name, list := range values {
		switch {
		case !slices.Contains(query, name):
			all = append(all, mistake{param: name, code: "no_parameter", found: short([]byte(name)), want: query})
		case len(list) > 1:
			all = append(all, mistake{param: name, code: "twice", found: name})
		}
	}
	slices.SortFunc(all, func(a, b mistake) int { return strings.Compare(a.param, b.param) })
	return all
}
