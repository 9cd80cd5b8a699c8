package web

import (
	"encoding/json"
	"net/http"
	"path"
	"strings"
)

// modules are the scripts of the sink page and of the wall, each after those that it imports.
func modules() []string {
	return []string{"entries", "clock", "outbox", "live", "bell", "draw", "sink", "wall"}
}

// loadScripts reads the scripts. Within them a module is imported by its plain name; here that becomes its hashed address.
func (p *pages) loadScripts() error {
	hashed := map[string]string{}
	for _, name := range modules() {
		body, err := assets.ReadFile("assets/" + name + ".js")
		if err != nil {
			return err
		}
		text := string(body)
		for plain, address := range hashed {
			text = strings.ReplaceAll(text, `"./`+plain+`.js"`, `"./`+path.Base(address)+`"`)
		}
		hashed[name] = p.put(name+".js", "text/javascript; charset=utf-8", []byte(text))
	}
	p.script, p.wallScript = hashed["sink"], hashed["wall"]
	return p.loadWorker(hashed)
}

// loadWorker makes the service worker, which knows what it keeps: a new version of any of it is a new worker.
func (p *pages) loadWorker(hashed map[string]string) error {
	body, err := assets.ReadFile("assets/worker.js")
	if err != nil {
		return err
	}
	keep := []string{p.style, p.red}
	for _, name := range modules() {
		keep = append(keep, hashed[name])
	}
	list, err := json.Marshal(keep)
	if err != nil {
		return err
	}
	p.workerBody = append([]byte("const keep = "+string(list)+";\n"), body...)
	p.worker = "/worker.js"
	return nil
}

// sendWorker sends the service worker; its address never changes, so that it is asked for anew each time.
func (p *pages) sendWorker(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
	w.Header().Set("Cache-Control", "no-cache")
	_, _ = w.Write(p.workerBody)
}
