package cli

import "wetside/access"

type serveCmd struct {
	Addr string `help:"The address to serve on." default:"127.0.0.1:8460" env:"WETSIDE_ADDR" placeholder:"HOST:PORT"`
	whereFlags
	Host    []string `help:"A name beside localhost by which a darkroom without a keyholder may be asked from this machine. May be given several times." placeholder:"NAME"`
	Example bool     `help:"Load the example darkroom where the book is still empty."`
	Cert    string   `help:"A certificate to serve https with (PEM). A renewed one is taken up by itself." and:"https" env:"WETSIDE_CERT" type:"path" placeholder:"FILE"`
	Key     string   `help:"Its key (PEM)." and:"https" env:"WETSIDE_KEY" type:"path" placeholder:"FILE"`
	stolenFlag
	Plain  bool   `name:"plain-http" help:"Serve other machines without https: whoever listens in the network reads passphrases. Not needed at 127.0.0.1, nor behind a proxy on this machine." env:"WETSIDE_PLAIN_HTTP"`
	Health string `help:"A second address, for machines: /livez, /readyz, /metrics. Keep it out of reach from outside." env:"WETSIDE_HEALTH" placeholder:"HOST:PORT"`
	Parts  bool   `help:"Serve the page that shows every part of the look, too." hidden:""`
	JSON   bool   `name:"json" help:"Tell errors as JSON."`
}

// Run serves the pages until the command is stopped.
func (c *serveCmd) Run(s *session) error {
	where, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	if c.Cert == "" && !c.Plain && !access.Loopback(c.Addr) {
		v, err := s.plain()
		if err != nil {
			return err
		}
		return bad(c.JSON, "--addr %s: %s", c.Addr, v.Tell("serve_needs_https").Text())
	}
	where.Stolen = c.Stolen
	err = s.parts.Serve(s.ctx, ServeConfig{
		Addr: c.Addr, Where: where, Example: c.Example, Parts: c.Parts, Cert: c.Cert, Key: c.Key, Health: c.Health, Hosts: c.Host,
		Version: s.parts.Version, Out: s.io.Out,
	})
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	return nil
}

type versionCmd struct {
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run tells which version this is.
func (c *versionCmd) Run(s *session) error {
	if c.JSON {
		writeJSON(s.io.Out, struct {
			Version string `json:"version"`
		}{s.parts.Version})
		return nil
	}
	say(s.io.Out, "wetside %s\n", s.parts.Version)
	return nil
}
