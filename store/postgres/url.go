package postgres

import (
	"cmp"
	"errors"
	"maps"
	"net"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/lib/pq"
)

// A Config says where a database is and how it is spoken to. It is a driver.Connector.
type Config struct {
	hosts  []pq.Config // one for each host, in the order in which they are asked
	all    string      // the same in one text, for what listens
	chosen bool        // the URL says itself which servers will do; else those that can be written to
}

// The patience with a server.
const (
	connectWithin = 5 * time.Second  // for one try to connect
	deadAfter     = 20 * time.Second // without a sign of the other side a connection is given up
)

// Read reads a URL. No error has any of it: what can't be read may have the password anywhere.
func Read(at string) (*Config, error) {
	if !strings.HasPrefix(at, "postgres://") && !strings.HasPrefix(at, "postgresql://") {
		return nil, errors.New("it does not begin with postgres://")
	}
	u, err := url.Parse(at)
	if err != nil || misread(at) {
		return nil, errors.New("something in it does not belong there, such as an odd character of the password")
	}
	settings := settingsOf(u)
	config, err := pq.NewConfig(words(settings))
	if err != nil {
		return nil, without(err, u)
	}
	c := &Config{chosen: config.TargetSessionAttrs != ""}
	complete(settings, config)
	c.all = words(settings)
	if config, err = pq.NewConfig(c.all); err != nil {
		return nil, without(err, u)
	}
	if !c.chosen { // each connection is asked, so that it can be told apart
		config.TargetSessionAttrs = ""
	}
	more := config.Multi
	config.Multi = nil
	c.hosts = append(c.hosts, config)
	for _, m := range more {
		other := config.Clone()
		other.Host, other.Hostaddr, other.Port = m.Host, m.Hostaddr, m.Port
		c.hosts = append(c.hosts, other)
	}
	return c, nil
}

// First names the host that is asked first, for people.
func (c *Config) First() (user, database, host string, port uint16) {
	first := c.hosts[0]
	return first.User, first.Database, first.Host, first.Port
}

// complete adds what neither the URL nor the environment says.
func complete(settings map[string]string, known pq.Config) {
	if known.ConnectTimeout <= 0 || known.ConnectTimeout > connectWithin {
		settings["connect_timeout"] = strconv.Itoa(int(connectWithin / time.Second))
	}
	if known.SSLMode == "" {
		settings["sslmode"] = string(pq.SSLModePrefer)
	}
	if known.ApplicationName == "" {
		settings["application_name"] = "wetside"
	}
	if known.TargetSessionAttrs == "" {
		settings["target_session_attrs"] = string(pq.TargetSessionAttrsReadWrite)
	}
}

// settingsOf returns the settings in a URL, by PostgreSQL's names, and our bounds where it has none.
func settingsOf(u *url.URL) map[string]string {
	settings := map[string]string{
		"lock_timeout":                        "10s", // as long as SQLite waits
		"idle_in_transaction_session_timeout": milliseconds(deadAfter),
		"tcp_user_timeout":                    milliseconds(deadAfter),
		"binary_parameters":                   "yes", // one round trip for a statement in place of two
	}
	password, _ := u.User.Password()
	hosts, ports := hostsOf(u.Host)
	for name, value := range map[string]string{
		"user": u.User.Username(), "password": password, "host": hosts, "port": ports, "dbname": strings.TrimPrefix(u.Path, "/"),
	} {
		if value != "" {
			settings[name] = value
		}
	}
	for name, values := range u.Query() {
		settings[name] = values[0]
	}
	return settings
}

// hostsOf parts hosts from their ports, each a list with commas; where one port is said, the others are PostgreSQL's.
func hostsOf(list string) (hosts, ports string) {
	var h, p []string
	said := false
	for one := range strings.SplitSeq(list, ",") {
		host, port, err := net.SplitHostPort(one)
		if err != nil {
			host, port = strings.Trim(one, "[]"), ""
		}
		said = said || port != ""
		h, p = append(h, host), append(p, cmp.Or(port, "5432"))
	}
	if said {
		ports = strings.Join(p, ",")
	}
	return strings.Join(h, ","), ports
}

// words writes settings as the driver reads them.
func words(settings map[string]string) string {
	quote := strings.NewReplacer(`\`, `\\`, `'`, `\'`)
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(settings)) {
		b.WriteString(name + "='" + quote.Replace(settings[name]) + "' ")
	}
	return b.String()
}

// misread reports a URL in which a character of the password that was not written as %XX may pass for the end of it, so that
// the rest would pass for a host or a database, which are told: the one @ stands before any / ? and #.
func misread(at string) bool {
	_, rest, _ := strings.Cut(at, "://")
	end := strings.IndexAny(rest, "/?#")
	if end < 0 {
		end = len(rest)
	}
	return strings.Count(rest[:end], "@") > 1 || strings.ContainsAny(rest[end:], "@#")
}

func milliseconds(d time.Duration) string { return strconv.FormatInt(d.Milliseconds(), 10) }

// without returns what is wrong with a URL without the URL and its password.
func without(err error, u *url.URL) error {
	text := err.Error()
	password, _ := u.User.Password()
	for _, secret := range []string{u.String(), u.User.String(), password, url.QueryEscape(password), u.Query().Get("password")} {
		if secret != "" {
			text = strings.ReplaceAll(text, secret, "[redacted]")
		}
	}
	return errors.New(text)
}

// Redacted returns a URL for people.
func Redacted(at string) string {
	u, err := url.Parse(at)
	if err != nil {
		return "[redacted]"
	}
	hidden := url.URL{Scheme: u.Scheme, Host: u.Host, Path: u.Path}
	if u.User != nil {
		hidden.User = url.User(u.User.Username())
	}
	if host := u.Query().Get("host"); host != "" {
		hidden.RawQuery = "host=" + url.PathEscape(host)
	}
	return hidden.String()
}
