// Command load lets many sinks tap at one serving process, each with a stream of its own, and prints how long a tap takes
// until it is on disk and until another sink shows it. It starts the program that it is given, over a book in a folder
// that is gone afterwards; with a PostgreSQL database it starts it twice, and the other sink is at the other process. Beside the figures stands what a bare loop takes for one synced write on the same disk, because
// machines differ; the sinks run on the same processors as the server.
package main
