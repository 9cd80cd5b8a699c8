package postgres

// HostsOf is what a URL's hosts and ports are taken for.
func HostsOf(list string) (hosts, ports string) { return hostsOf(list) }
