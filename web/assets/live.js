// What others do, as it happens: one stream for all tabs of a device. One tab leads: it listens and tells the others. Locks
// would choose it, but plain http has none; so the leader says every two seconds that it is there. A tab that is looked at
// leads before one that is not, whose timers the browser slows.

const beat = 2000; // how often a leader says so
const lease = 5000; // after how long without a word another tab leads
const dead = 35000; // after how long without a word a line is dead: the server says something every 15 s
const poll = 10000; // how often one asks where no stream can be had

export class Live {
  // position returns up to where the book is known here; news is called with a message of the stream, again when all is to be
  // fetched anew, state when the line is up or down, the first time, too: null is not known yet. rings says that this page does.
  constructor(kinds, { position, news, again, state, rings = false }) {
    Object.assign(this, { kinds, position, news, again, state, rings, others: false, id: Math.random(), leads: false, heard: 0, fails: 0, up: null });
  }

  start() {
    try {
      this.channel = new BroadcastChannel("wetside-live");
      this.channel.onmessage = (m) => this.told(m.data);
      this.channel.postMessage({ who: this.id });
    } catch {
      this.channel = null;
    }
    addEventListener("pagehide", () => this.channel?.postMessage({ gone: this.id }));
    addEventListener("online", () => this.leads && this.connect());
    addEventListener("visibilitychange", () => this.leads && this.say());
    this.heard = this.channel ? Date.now() - lease + 300 + Math.random() * 300 : 0;
    setInterval(() => this.keep(), 500);
  }

  // keep takes the lead where nobody has it, and looks after the line where it leads.
  keep() {
    const now = Date.now();
    if (!this.leads && now - this.heard > lease + (document.hidden ? beat : 0)) {
      this.lead();
    }
    if (!this.leads) return;
    if (now - (this.said || 0) > beat) this.say();
    if (this.source && now - this.word > dead) this.lost();
    if (!this.source && now > this.next) this.connect();
  }

  // say says that this tab leads.
  say() {
    this.said = Date.now();
    this.channel?.postMessage({ leads: this.id, up: this.up, hidden: document.hidden, rings: this.rings });
  }

  // alone reports whether this tab of the device is the one to ring: it leads, or none is heard to lead that rings.
  alone() { return this.leads || !this.others || Date.now() - this.heard > 1.5 * beat; }

  // told is what other tabs say.
  told(m) {
    if (m.who && this.leads) this.say();
    if (m.gone && !this.leads) this.heard = Date.now() - lease + 200 * Math.random();
    if (m.leads) {
      const before = m.hidden === document.hidden ? this.leads && this.id >= m.leads : m.hidden;
      if (before && !this.leads) this.lead();
      if (!before && this.leads) this.yield();
      if (!this.leads) {
        this.heard = Date.now();
        this.others = m.rings; // another tab rings
        if (m.up !== null) this.show(m.up);
      }
    }
    if (m.news && !this.leads) this.news(m.news);
    if (m.again && !this.leads) this.again();
  }

  lead() {
    this.leads = true;
    this.connect();
    this.say();
  }

  yield() {
    this.leads = false;
    this.source?.close();
    this.source = null;
  }

  connect() {
    this.source?.close();
    const source = new EventSource(`/live?after=${this.position()}&kinds=${this.kinds}`);
    this.source = source;
    this.word = Date.now();
    const on = (kind, f) => source.addEventListener(kind, (e) => {
      this.word = Date.now();
      this.fails = 0;
      this.show(true);
      f(JSON.parse(e.data));
    });
    on("book", (m) => {
      this.news(m);
      this.channel?.postMessage({ news: m });
    });
    on("beat", () => {});
    on("again", () => {
      this.again();
      this.channel?.postMessage({ again: true });
    });
    source.onerror = () => this.source === source && this.lost();
  }

  // lost is called when the line is dead. It is tried again soon, then less often; in between one asks.
  lost() {
    this.source?.close();
    this.source = null;
    this.fails++;
    this.next = Date.now() + Math.min(500 * 2 ** this.fails, 15000) * (0.8 + Math.random() * 0.4);
    this.show(false);
    if (this.fails > 3 && Date.now() - (this.polled || 0) > poll) {
      this.polled = Date.now();
      this.again();
    }
  }

  show(up) {
    if (up === this.up) return;
    this.up = up;
    this.state(up);
  }
}
