// Taps on their way to the book. They are kept in the browser's own store until the server has them, and sent in order, as
// often as it takes: the server counts each once, by its id.

const pauses = [500, 1000, 2000, 4000, 8000, 15000];

// How many taps that were sent are kept, so that they can be taken back after a reload.
const keepSent = 20;

// After how long a tap that another tab of this device made is taken over, ms.
const stale = 20000;

export class Outbox {
  // heard is called with each answer and the moment when it was asked; changed whenever there is something else to show.
  constructor(device, heard, changed) {
    Object.assign(this, { device, heard, changed, taps: [], sent: [], db: null, full: false, failed: 0, timer: 0, busy: false, order: 0 });
  }

  // open opens the store; where the browser has none, taps are kept in memory. It returns the taps that wait.
  async open() {
    try {
      this.db = await asked(schema(indexedDB.open("wetside", 1)));
      const all = await this.all();
      this.taps = all.filter((t) => !t.done);
      this.sent = all.filter((t) => t.done);
      this.order = Math.max(0, ...all.map((t) => t.order));
      this.taps.sort((a, b) => a.order - b.order);
      setInterval(() => this.gather().catch(() => {}), stale);
    } catch {
      this.db = null;
    }
    addEventListener("online", () => this.soon(0));
    this.soon(0);
    return this.taps;
  }

  // gather takes over what another tab left behind when it was closed.
  async gather() {
    const known = new Set(this.taps.map((t) => t.id));
    const left = (await this.all()).filter((t) => !t.done && !known.has(t.id) && Date.now() - t.order > stale);
    this.taps.push(...left);
    if (left.length) this.soon(0);
  }

  all() { return asked(this.store("readonly").getAll()); }

  store(mode) { return this.db.transaction("taps", mode).objectStore("taps"); }

  // add keeps taps and sends them as soon as it can.
  add(taps) {
    for (const t of taps) {
      this.order = t.order = Math.max(Date.now(), this.order + 0.01);
      this.taps.push(t);
    }
    this.keep(taps).then(() => this.soon(0));
    this.changed();
  }

  // keep writes taps into the store; that it is full is said at once.
  async keep(taps) {
    if (!this.db) return;
    try {
      const tx = this.db.transaction("taps", "readwrite", { durability: "strict" }); // on the disk, not on its way there
      for (const t of taps) tx.objectStore("taps").put(t);
      tx.commit?.(); // at once: a page that is closed in this moment must not take the tap with it
      await done(tx);
      this.full = false;
    } catch {
      this.full = true;
    }
    this.changed();
  }

  // soon sends after a while.
  soon(ms) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.flush(), ms);
  }

  // flush sends what waits, the oldest first.
  async flush() {
    if (this.busy || !this.taps.length) return;
    this.busy = true;
    const some = this.taps.slice(0, 100);
    try {
      this.settle(await this.send(some), some);
      this.failed = 0;
    } catch {
      this.failed++;
    }
    this.busy = false;
    if (this.taps.length) this.soon(this.failed ? pauses[Math.min(this.failed, pauses.length) - 1] * (0.8 + Math.random() * 0.4) : 0);
    this.changed();
  }

  // send sends taps, none to hear the time alone, and returns the answer.
  async send(taps) {
    const at = Date.now();
    const answer = await fetch("/taps", {
      method: "POST", headers: { "Content-Type": "application/json" }, signal: AbortSignal.timeout(10000),
      body: JSON.stringify({ device: this.device, taps: taps.map(({ id, kind, at, by, body, takes_back }) => ({ id, kind, at, by, body, takes_back })) }),
    });
    if (!answer.ok) throw new Error(String(answer.status));
    const said = await answer.json();
    this.heard(said, at);
    return said;
  }

  // settle lets go of what the server has taken or refused.
  settle(said, some) {
    const over = new Set([...said.taken, ...said.refused].map((t) => t.id));
    const taken = new Set(said.taken.map((t) => t.id));
    this.taps = this.taps.filter((t) => !over.has(t.id));
    this.sent.push(...some.filter((t) => taken.has(t.id)).map((t) => ({ ...t, done: true })));
    const old = this.sent.splice(0, Math.max(this.sent.length - keepSent, 0));
    const gone = [...old.map((t) => t.id), ...said.refused.map((t) => t.id)];
    if (this.db) this.tidy(gone, this.sent.filter((t) => over.has(t.id))).catch(() => {});
  }

  async tidy(gone, sent) {
    const tx = this.db.transaction("taps", "readwrite");
    for (const id of gone) tx.objectStore("taps").delete(id);
    for (const t of sent) tx.objectStore("taps").put(t);
    await done(tx);
  }

  // mine are this device's taps, the latest last.
  mine() { return [...this.sent, ...this.taps].sort((a, b) => a.order - b.order); }
}

function schema(request) {
  request.onupgradeneeded = () => request.result.createObjectStore("taps", { keyPath: "id" });
  return request;
}

function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
}

function done(tx) {
  return new Promise((resolve, reject) => {
    tx.oncomplete = resolve;
    tx.onerror = tx.onabort = () => reject(tx.error);
  });
}
