// The time by the server's clock: a phone's own may be minutes wrong. Times run by the wall clock, so that they are right
// after a sleep; that it was set is noticed by the clock that only runs on.

const kept = "wetside-offset";

// A leap, in ms, is what nobody takes for a late timer.
const leap = 1500;

export class Clock {
  // wall and steady are ms: since 1970, and of a clock that nobody sets. onjump is called when the wall clock was set.
  constructor(onjump, wall = () => Date.now(), steady = () => performance.now()) {
    Object.assign(this, { onjump, wall, steady, best: Infinity });
    this.offset = Number(read() || 0);
    this.mark();
  }

  mark() {
    this.wallAt = this.wall();
    this.steadyAt = this.steady();
  }

  // now is the server's time, ms since 1970.
  now() { return this.wall() + this.offset; }

  // heard learns from an answer: the server's time in it, and when it was asked and answered by the wall clock here. The
  // shorter the way, the better it is known; what differs by more than the way can explain is believed at once.
  heard(now, asked, answered = this.wall()) {
    const way = answered - asked;
    const offset = Date.parse(now) - (asked + answered) / 2;
    if (!Number.isFinite(offset) || way < 0) return;
    if (way > this.best + 20 && Math.abs(offset - this.offset) < way / 2 + 100) return;
    this.best = Math.min(way, this.best * 1.2 + 5);
    this.offset = offset;
    write(String(Math.round(offset)));
  }

  // tick is called often. The wall clock can go ahead of the steady one by a sleep; back it goes only where it was set, and
  // then what was known is held on to.
  tick() {
    const wall = this.wall() - this.wallAt;
    const steady = this.steady() - this.steadyAt;
    this.mark();
    if (wall - steady < -leap) this.offset += steady - wall;
    if (Math.abs(wall - steady) < leap) return false;
    this.best = Infinity;
    this.onjump(wall - steady);
    return true;
  }
}

function read() {
  try {
    return localStorage.getItem(kept);
  } catch {
    return null;
  }
}

function write(text) {
  try {
    localStorage.setItem(kept, text);
  } catch {
    // The offset is learnt anew after a reload.
  }
}
