// Package steady is a clock that goes on evenly, whatever is done to the machine's own: timers are instants, and an hour
// that a clock is set back would ring them an hour late.
//
// It reads the machine's clock once and counts from there by what no setting touches, the time that passed. It never
// begins before the last entry of the book, so that what comes now is later than what was; that its machine's clock stood
// earlier, or stands elsewhere by now, can be asked and said. Of a clock that was once wrong by years it makes the best:
// the book goes on from there, until somebody corrects it.
package steady
