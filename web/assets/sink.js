// The sink page: what is tapped is shown at once, kept, sent, and shared with whoever else stands at the sink.
import { Book, look, first } from "./entries.js";
import { Clock } from "./clock.js";
import { Outbox } from "./outbox.js";
import { Live } from "./live.js";
import { Bell } from "./bell.js";
import { Drawing, Words, moving, countdown } from "./draw.js";

// What of the book is listened to; what changes the plan is fetched anew.
const kinds = "print.,batch.,session.,correction,bath.,tray.,tank.,product.,person.,room.";
const replans = /^(bath\.(?!worked)|session\.(set|joined)|tray\.|tank\.|product\.|person\.|room\.)/;

const twice = 600; // ms within which a second touch of the same print is the same touch
const longAgo = 12 * 3600e3; // what is older can't be taken back here
const late = 3000; // ms from which on a cue is late

class Page {
  constructor(root) {
    Object.assign(this, { root, book: new Book(), position: 0, touched: new Map(), rung: new Map(), notice: "", up: true, title: document.title });
    this.drawing = null;
    this.clock = new Clock((by) => this.leapt(by));
    this.live = new Live(kinds, {
      position: () => this.position, news: (m) => this.news(m), again: () => this.anew(), rings: true,
      state: (up) => {
        this.up = up;
        this.draw();
      },
    });
  }

  async start() {
    await this.fetch();
    this.bell = new Bell(this.setup.language, () => this.draw());
    this.box = new Outbox(this.setup.device, (said, at) => this.answered(said, at), () => this.draw());
    this.book.take(await this.box.open());
    this.drawing = new Drawing(this.root);
    this.fold();
    this.live.start();
    this.listen();
    this.draw();
    setInterval(() => this.draw(), 250);
    this.keepOffline();
    this.root.dataset.ready = "yes";
  }

  // fetch gets the plan and what is under way, and keeps what is newer or not sent yet.
  async fetch() {
    const at = Date.now();
    const answer = await fetch("/sink/setup.json", { cache: "no-store", signal: AbortSignal.timeout(15000) });
    if (!answer.ok) throw new Error(String(answer.status));
    const setup = await answer.json();
    if (!answer.headers.get("X-Kept")) this.clock.heard(setup.now, at);
    const old = this.book;
    this.book = new Book();
    this.book.take(setup.entries);
    for (const e of old.entries.values()) if (e.position > setup.position) this.book.entries.set(e.id, e);
    this.book.taps = old.taps;
    this.setup = setup;
    this.words = new Words(setup);
    this.position = setup.position;
    this.fold();
  }

  // anew forgets what the book said: it may be another, restored from a copy. What is not sent stays.
  async anew() {
    try {
      const old = this.book;
      await this.fetch();
      if (!this.box) return;
      for (const [id, e] of old.entries) if (e.position < 2 ** 50 && e.position > this.setup.position) this.book.drop(id);
      this.fold();
    } catch {
      // The stream says it again.
    }
  }

  fold() {
    this.folded = this.book.fold(this.setup.steps);
    this.draw();
  }

  // news is what the live stream tells.
  news(m) {
    this.clock.heard(m.now, Date.now() - 400, Date.now());
    if (m.position > this.position) this.position = m.position;
    const replan = m.entries.some((e) => replans.test(e.kind) || (e.takes_back && !this.book.entries.has(e.takes_back)));
    if (this.book.take(m.entries) && this.setup) this.fold();
    if (!replan || !this.setup) return;
    clearTimeout(this.replan);
    this.replan = setTimeout(() => this.fetch().catch(() => {}), 300);
  }

  // answered is what the server says of taps.
  answered(said, at) {
    this.clock.heard(said.now, at);
    for (const t of said.taken) {
      const e = this.book.entries.get(t.id);
      if (e) e.position = t.position;
    }
    for (const t of said.refused) {
      this.book.drop(t.id);
      this.notice = this.words.line("refused", { why: t.why });
    }
    this.fold();
  }

  // leapt is called when the wall clock was set, or the device slept.
  leapt(by) {
    this.box?.send([]).catch(() => {});
    if (by < 0) this.notice = this.words.line("jumped");
  }

  // say makes taps of what is said; they are one deed, taken back together.
  say(...bodies) {
    const at = new Date(Math.max(this.clock.now(), ...bodies.map(([, body]) => this.after(body)))).toISOString();
    const group = uuid();
    const taps = bodies.map(([kind, body, takesBack]) => ({ id: uuid(), kind, at, by: this.setup.me || "", body, takes_back: takesBack, group }));
    this.book.take(taps.map((t) => ({ ...t, device: this.setup.device })));
    this.notice = "";
    this.box.add(taps);
    this.fold();
  }

  // after is the first moment after what was last said of a print: a tap goes on from what its device shows, even where
  // another's clock is ahead.
  after(body) {
    const last = body.print && this.folded.prints.find((p) => p.id === body.print)?.last?.at;
    return last ? Math.floor(last / 1000) + 1 : 0;
  }

  state() { return look(this.folded, this.setup, this.clock.now()); }

  // act does what a key says.
  act(key) {
    const [one, two, ...size] = key.value.split(" ");
    switch (key.name) {
      case "on": return this.moveOn(one, two);
      case "abandon": return this.say(["print.left", { print: one, abandoned: true }]);
      case "start": return this.begin(one, two === "strip");
      case "count": return this.count(one, two === "strip", size.join(" "));
      case "wash": return this.wash(one, two);
      case "read": return this.read(one);
      case "undo": return this.undo();
    }
  }

  moveOn(id, from) {
    const state = this.state();
    const t = state.tags.find((t) => t.print.id === id);
    const now = performance.now();
    if (!t || (this.setup.stations[t.station]?.key || "") !== (from || "") || now - (this.touched.get(id) || -1e9) < twice) return;
    this.touched.set(id, now);
    if (t.next < 0) return this.say(["print.left", { print: id }]);
    this.say(["print.moved", { print: id, ...this.place(state, t.way, t.next) }]);
  }

  // place is a station of a way, with its time and, where a batch lies, the batch.
  place(state, way, station) {
    const s = this.setup.stations[station];
    const w = this.setup.ways[way];
    const stop = w.stops.find((x) => x.station === station);
    const at = { step: s.step };
    if (s.bath) at.bath = s.bath;
    if (stop?.time) Object.assign(at, { for: `${stop.time / 1000} s`, ...(stop.drain && { drain: `${stop.drain / 1000} s` }) });
    if (s.step === "hold" || s.step === "wash") {
      at.batch = state.batches.findLast((b) => b.material === w.material && b.station === station)?.id || uuid();
    }
    return at;
  }

  begin(key, strip) {
    const way = this.setup.ways.findIndex((w) => w.key === key);
    if (way < 0) return;
    const w = this.setup.ways[way];
    const state = this.state();
    const evening = state.evening || (this.setup.guest ? "" : uuid());
    const what = { material: w.material, size: w.size, ...(w.material === "film" ? { rolls: Math.max(w.rolls || 0, 1) } : strip ? { strips: 1 } : { sheets: 1 }) };
    const of = this.whose();
    const begun = ["print.started", { print: uuid(), ...(of && { of }), ...(evening && { session: evening }), ...what, ...this.place(state, way, w.stops[0].station) }];
    this.say(...(state.evening || !evening ? [] : [["session.opened", { session: evening }]]), begun);
  }

  whose() { return this.root.querySelector("input[name=of]:checked")?.value || ""; }

  count(key, strip, size) {
    const w = this.setup.ways.find((w) => w.key === key);
    const stations = w.stops.map((s) => this.setup.stations[s.station]).filter((s) => s.bath && s.step !== "hold");
    const baths = [...new Set(stations.map((s) => s.bath))];
    this.say(["bath.worked", { baths, material: w.material, size: size || w.size, ...(strip ? { strips: 1 } : { sheets: 1 }) }]);
  }

  // wash goes on with a batch: into the washing aid print by print, so that each counts there; the wash as a whole. When that
  // is done its prints leave the sink.
  wash(id, step) {
    const prints = this.folded.prints.filter((p) => !p.left && p.stays.at(-1)?.batch === id);
    if (step === "aid") {
      const state = this.state();
      const b = state.batches.find((b) => b.id === id);
      if (b && prints.length) this.say(...prints.map((p) => ["print.moved", { print: p.id, ...this.place(state, this.wayOf(b.material), b.next), batch: id }]));
      return;
    }
    const out = step === "done" ? prints.map((p) => ["print.left", { print: p.id }]) : [];
    this.say(...out, ["batch.washed", { batch: id, step }]);
  }

  wayOf(material) { return this.setup.ways.findIndex((w) => w.material === material); }

  read(bath) {
    const field = this.root.querySelector(`[name="celsius ${bath}"]`);
    const text = field.value.trim();
    if (!text) return field.focus();
    this.say(["bath.tested", { bath, test: "thermometer", result: /^-?[\d.,]+$/.test(text) ? `${text.replace(",", ".")} ${this.setup.degree}` : text }]);
    field.value = "";
    field.blur();
  }

  // last are the taps of this device that undo takes back: those of one deed.
  last() {
    const mine = this.box.mine();
    const back = new Set(mine.map((t) => t.takes_back).filter(Boolean));
    const able = mine.filter((t) => t.kind !== "correction" && !t.kind.startsWith("session.") && !back.has(t.id) && Date.now() - t.order < longAgo);
    return able.filter((t) => t.group === able.at(-1).group);
  }

  undo() {
    const last = this.last();
    if (last.length) this.say(...last.map((t) => ["correction", {}, t.id]));
  }

  // step is the pedal: the prints of one person, or whichever is next.
  step() {
    const tags = this.state().tags;
    const own = tags.filter((t) => t.print.of === this.whose());
    const some = this.whose() && own.length ? own : tags;
    const t = some[first(some)];
    if (t) this.moveOn(t.print.id, this.setup.stations[t.station]?.key);
  }

  listen() {
    this.root.addEventListener("submit", (e) => {
      e.preventDefault();
      if (e.submitter) this.act(e.submitter);
    });
    addEventListener("pointerdown", () => this.bell.touched(), { passive: true });
    addEventListener("pointerup", () => setTimeout(() => document.activeElement?.closest?.("button")?.blur()), { passive: true });
    addEventListener("keydown", (e) => this.key(e));
    addEventListener("visibilitychange", () => this.draw());
    const sound = this.root.querySelector(".sound");
    sound.hidden = false;
    sound.addEventListener("click", (e) => this.sound(e.target.closest("[data-sound]")?.dataset.sound));
    this.awake();
  }

  key(e) {
    this.bell.touched();
    const pedal = [" ", "Enter", "PageDown", "ArrowRight", "ArrowDown"].includes(e.key);
    if (!pedal || e.repeat || e.ctrlKey || e.altKey || e.metaKey || e.target.closest("input,textarea,summary,a,button")) return;
    e.preventDefault();
    this.step();
  }

  sound(what) {
    const b = this.bell;
    if (what === "quieter") b.set(b.volume - 0.2);
    if (what === "louder") b.set(b.volume + 0.2);
    if (what === "speech") b.set(b.volume, !b.speech);
    if (what === "full") document.documentElement.requestFullscreen?.().catch(() => {});
    if (what === "louder" || what === "quieter" || what === "try") b.ring("due", 0);
    if (what === "try") b.say(this.words.line("agitate"));
  }

  // awake keeps the screen on where the browser can; it lets go when the page is hidden.
  awake() {
    const ask = () => !document.hidden && navigator.wakeLock?.request("screen").catch(() => {});
    addEventListener("visibilitychange", ask);
    ask();
  }

  draw() {
    if (!this.drawing || !this.folded) return;
    this.clock.tick();
    const now = this.clock.now();
    const state = look(this.folded, this.setup, now);
    this.drawing.draw(state, this.words, now);
    this.cues(state, now);
    this.tell(state, now);
  }

  // cues rings what is due, each once; what is over when it is first seen is rung late.
  cues(state, now) {
    for (const t of state.tags) {
      const film = t.print.what?.material === "film";
      const key = `${t.print.id} ${t.stay.since}`;
      const doing = film && moving(t, this.setup, now);
      if (doing) this.once(`${key} ${doing.on} ${doing.from}`, () => this.bell.ring(doing.on ? "agitate" : "rest", t.station), doing.on || now - t.stay.since / 1000 < 1000);
      if (!t.due) continue;
      if (now >= t.lift && now < t.due && t.lift < t.due) this.once(`${key} lift`, () => this.bell.ring(film ? "pour" : "lift", t.station), true);
      if (now >= t.due) this.once(`${key} due`, () => this.due(this.words.move(t, state.tags), t.station, now - t.due), true);
    }
    for (const b of state.batches) {
      if (b.due && now >= b.due) this.once(`${b.id} ${b.due}`, () => this.due(this.words.line(b.washed ? "wash_ends" : "wash_starts"), b.station, now - b.due), true);
    }
  }

  once(key, ring) {
    if (this.rung.has(key)) return;
    this.rung.set(key, true);
    if (this.live.alone()) ring();
  }

  due(text, station, ago) {
    this.bell.ring("due", station);
    this.bell.say(ago > late ? `${text}: ${this.words.line("late", { ago: countdown(ago) })}` : text);
  }

  // tell says what whoever stands there must know of this page: what is not sent, what it can't do.
  tell(state, now) {
    const waits = this.box.taps.length;
    const lines = [];
    if (this.notice) lines.push(this.notice);
    if (this.box.full) lines.push(this.words.line("full"));
    if (!this.box.db) lines.push(this.words.line("memory"));
    if (waits && this.box.failed) {
      lines.push(this.words.count("waiting", waits));
      if (this.box.db) lines.push(this.words.line(navigator.serviceWorker?.controller ? "kept_long" : "kept_here"));
    } else if (!this.up) {
      lines.push(this.words.line("dead"));
    }
    const cannot = this.bell.cannot();
    if (cannot) lines.push(this.words.line(cannot));
    this.people();
    const box = this.root.querySelector(".state");
    const text = lines.join(" ");
    if (box.textContent !== text) box.textContent = text;
    document.body.classList.toggle("pulse", cannot === "muted" && state.tags.some((t) => t.due && now >= t.lift));
    const undo = this.root.querySelector(".undo");
    const none = String(!this.last().length);
    if (undo.getAttribute("aria-disabled") !== none) undo.setAttribute("aria-disabled", none);
    this.root.querySelector(".volume").textContent = `${Math.round(this.bell.volume * 100)}\u2009%`;
    this.root.querySelector("[data-sound=speech]").setAttribute("aria-pressed", String(this.bell.speech));
    const title = document.hidden && state.tags.length ? this.words.line("hidden") : this.title;
    if (document.title !== title) document.title = title;
  }

  // people shows who came in tonight, to choose whose a print is.
  people() {
    const who = (this.setup.joined || []).map((id) => [id, this.setup.people?.[id] || ""]);
    const now = JSON.stringify(who);
    if (this.came === now) return;
    this.came = now;
    const box = this.root.querySelector(".whose");
    const chosen = this.whose() || this.setup.me || "";
    box.hidden = !who.length;
    box.querySelectorAll("label").forEach((l) => l.remove());
    for (const [id, name] of [["", this.words.line("nobodys")], ...who]) {
      const label = document.createElement("label");
      label.className = "pick";
      const input = Object.assign(document.createElement("input"), { type: "radio", name: "of", value: id, checked: id === chosen });
      const span = document.createElement("span");
      span.textContent = name;
      label.append(input, " ", span);
      box.append(label);
    }
  }

  // keepOffline lets the service worker keep the page, where the browser allows one: on a secure origin.
  keepOffline() {
    if (!window.isSecureContext || !navigator.serviceWorker || !this.setup.worker) return;
    navigator.serviceWorker.register(this.setup.worker, { scope: "/" }).then(() => this.draw(), () => {});
    navigator.storage?.persist?.().catch(() => {});
  }
}

// uuid makes an id; browsers give one of their own on secure origins alone.
function uuid() {
  const b = crypto.getRandomValues(new Uint8Array(16));
  b[6] = (b[6] & 15) | 64;
  b[8] = (b[8] & 63) | 128;
  const hex = [...b].map((x) => x.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

const root = document.querySelector("form.sink");
if (root) {
  const page = new Page(root);
  root.page = page;
  page.start().catch((e) => console.warn("the sink goes on without scripts:", e));
}
