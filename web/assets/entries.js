// What is said of prints, and what it comes to: the fold of the book's entries into tags and batches, by the rules of the
// server (packages book and sink). A test holds the two against each other.

// A tap that the book has not taken yet comes after all that it has.
const unsent = 2 ** 50;

// How long after the last word about it a print is taken as forgotten: half a day, in ms.
const tooOld = 12 * 3600e3;

// micros reads an instant to the microsecond, as the book keeps it.
export function micros(text) {
  const fine = /\.\d{3}(\d{1,3})/.exec(text);
  return Date.parse(text) * 1000 + (fine ? Number(fine[1].padEnd(3, "0")) : 0);
}

// duration reads a time as entries have it: 90 s, 1 min 30 s.
export function duration(words) {
  let ms = 0;
  for (const [, n, unit] of (words || "").matchAll(/(\d+(?:\.\d+)?)\s*(h|min|s)/g)) {
    ms += Number(n) * { h: 3600e3, min: 60e3, s: 1e3 }[unit];
  }
  return ms;
}

// compare orders by the instant, then device by device, and what one device says in the order in which it said it.
function compare(a, b) {
  if (a.at !== b.at) return a.at - b.at;
  if (a.device !== b.device) return a.device < b.device ? -1 : 1;
  return a.position - b.position;
}

// A Book is the entries that are known, sent or not.
export class Book {
  constructor() {
    this.entries = new Map();
    this.taps = 0;
  }

  // take takes entries in; one without a position is a tap that was not sent. It returns whether anything is new.
  take(list) {
    let news = false;
    for (const e of list) {
      const was = this.entries.get(e.id);
      if (was && (was.position < unsent || !e.position)) continue;
      this.entries.set(e.id, {
        id: e.id, kind: e.kind, at: micros(e.at), by: e.by || "", device: e.device || "",
        position: e.position || unsent + this.taps++, takesBack: e.takes_back || "",
        body: typeof e.body === "string" ? JSON.parse(e.body || "{}") : e.body || {},
      });
      news = true;
    }
    return news;
  }

  // drop forgets a tap that was refused.
  drop(id) { return this.entries.delete(id); }

  // fold tells what stands of it all.
  fold(steps) {
    const stands = standing(this.entries);
    const said = { prints: new Map(), batches: new Map(), evenings: new Map() };
    for (const e of this.entries.values()) {
      if (e.kind.startsWith("print.")) list(said.prints, e.body.print).push(e);
      else if (e.kind === "batch.held" || e.kind === "batch.washed") list(said.batches, e.body.batch).push(e);
      else if (e.kind.startsWith("session.") && e.body.session) list(said.evenings, e.body.session).push(e);
    }
    const prints = [];
    for (const [id, all] of said.prints) prints.push(follow(id, all, stands, steps));
    const deeds = said.batches;
    for (const p of prints) tellBatches(p, deeds);
    const batches = [];
    for (const [id, all] of deeds) {
      const b = batch(id, all.filter((d) => stands(d.id)));
      if (b) batches.push(b);
    }
    batches.sort((a, b) => compare(a.first, b.first));
    return { prints, batches, evenings: evenings(said.evenings, stands), stands };
  }
}

function list(map, key) {
  if (!map.has(key)) map.set(key, []);
  return map.get(key);
}

// standing returns whether an entry has its effect still. Only later corrections can take one back; a correction that is
// itself taken back counts for nothing.
function standing(entries) {
  const of = new Map();
  for (const e of entries.values()) if (e.takesBack) list(of, e.takesBack).push(e);
  const at = (id) => (entries.get(id)?.takesBack ? entries.get(id).position : 0);
  const stands = (id) => !(of.get(id) || []).some((t) => t.position > at(id) && stands(t.id));
  return stands;
}

// follow tells a print's way: that it was started first, then what was said, in the order of the moments.
function follow(id, all, stands, steps) {
  const p = { id, of: "", session: "", what: null, began: 0, stays: [], left: null, last: null };
  const begins = (e) => e.kind === "print.started";
  all.sort((a, b) => begins(b) - begins(a) || compare(a, b));
  for (const e of all) {
    if (!stands(e.id)) continue;
    if (begins(e)) {
      if (p.began) continue;
      Object.assign(p, { of: e.body.of || "", session: e.body.session || "", what: e.body, began: e.at });
    }
    if (e.kind === "print.left") {
      p.left = { at: e.at, abandoned: !!e.body.abandoned };
      p.last = e;
    } else {
      put(p, e);
    }
  }
  return p;
}

// put takes a print to its next place. The same place said again is the same stay, with the time that was set last.
function put(p, e) {
  p.last = e;
  p.left = null;
  const { step, bath = "", batch = "" } = e.body;
  const time = duration(e.body.for);
  const drain = Math.min(duration(e.body.drain), time);
  const now = p.stays.at(-1);
  if (now && now.step === step && now.bath === bath && now.batch === batch) {
    if (time > 0) Object.assign(now, { time, drain });
    return;
  }
  p.stays.push({ step, bath, batch, since: e.at, time, drain, entry: e });
}

// tellBatches says to the batches what a print did in them.
function tellBatches(p, deeds) {
  if (!p.began) return;
  let held = "";
  for (const s of p.stays) {
    if (!s.batch) continue;
    const d = { id: s.entry.id, at: s.since, device: s.entry.device, position: s.entry.position };
    if (s.step === "hold") {
      held = s.batch;
      list(deeds, s.batch).push({ ...d, put: p.what });
    } else if (s.step === "wash") {
      list(deeds, s.batch).push({ ...d, wash: "more in", put: held === s.batch ? null : p.what });
    }
  }
}

// batch tells what became of a batch: how many prints, and since when its wash counts.
function batch(id, all) {
  if (!all.length) return null;
  all.sort(compare);
  const b = { id, prints: [], since: all[0].at, first: all[0], last: all.at(-1).at, wash: null };
  for (const d of all) {
    const put = d.kind === "batch.held" ? d.body : d.kind === "batch.washed" ? d.body.put : d.put;
    if (put) b.prints.push(put);
    const step = d.kind === "batch.washed" ? d.body.step : d.wash;
    if (!step) continue;
    if (!b.wash || step === "started" || (step === "more in" && b.wash.ended)) b.wash = { clock: d.at, ended: 0 };
    if (step === "more in") b.wash.clock = d.at;
    if (step === "done" || step === "stopped") b.wash.ended = d.at;
  }
  return b;
}

function evenings(all, stands) {
  const out = [];
  for (const [id, said] of all) {
    const e = { id, opened: 0, closed: 0, joined: [] };
    for (const s of said.filter((s) => stands(s.id)).sort(compare)) {
      if (s.kind === "session.opened") e.opened ||= s.at;
      if (s.kind === "session.closed") e.closed = s.at;
      if (s.kind === "session.joined" && !e.joined.includes(s.body.person)) e.joined.push(s.body.person);
    }
    out.push(e);
  }
  return out;
}

// running returns the evening that goes on: the one opened last that nobody closed; setup's where no entry says more.
function running(all, setup) {
  let best = null;
  for (const e of all) if (e.opened && !e.closed && (!best || e.opened >= best.opened)) best = e;
  const own = all.find((e) => e.id === setup.evening);
  return best ? best.id : setup.evening && !own?.closed ? setup.evening : "";
}

// count is how many sheets, strips and rolls there are.
export const count = (what) => (what.sheets || 0) + (what.strips || 0) + (what.rolls || 0);

// look tells how the work stands at a moment, in ms since 1970: where every print is, until when, and which is next.
export function look(folded, setup, now) {
  const place = (s, film) => setup.stations.findIndex((t) => t.key === (film ? "film-" : "") + s);
  const evening = running(folded.evenings, setup);
  const tags = [];
  const inOrder = folded.prints.filter((p) => p.stays.length).sort((a, b) => a.began - b.began || (a.id < b.id ? -1 : 1));
  const inEvening = (p) => p.began && (p.session || "") === evening && (evening || now - p.began / 1000 <= tooOld);
  const ofEvening = inOrder.filter(inEvening);
  for (const p of inOrder) {
    const stay = p.stays.at(-1);
    if (p.left || stray(p, folded, now) || stay.batch) continue;
    const way = wayOf(p, setup);
    const t = {
      print: p, stay, way, station: place(stay.step, p.what?.material === "film"), next: after(stay, way, setup), lift: 0, due: 0,
      number: 0,
    };
    if (inEvening(p)) {
      t.number = ofEvening.indexOf(p) + 1 + (setup.gone || []).filter((at) => at * 1000 <= p.began).length;
    }
    if (stay.time > 0) {
      t.due = stay.since / 1000 + stay.time;
      t.lift = t.due - stay.drain;
    }
    tags.push(t);
  }
  return { tags, next: first(tags), batches: lookAtBatches(folded, setup, now, place), evening };
}

function stray(p, folded, now) {
  const e = folded.evenings.find((e) => e.id === p.session);
  return (p.session && e && e.closed && p.last.at < e.closed) || now - p.last.at / 1000 > tooOld;
}

// wayOf returns the way of a print: of its material and size, else of its material.
function wayOf(p, setup) {
  const { material, size } = p.what || {};
  const at = setup.ways.findIndex((w) => w.material === material && w.size === size);
  return at < 0 ? setup.ways.findIndex((w) => w.material === material) : at;
}

// after returns the station to which a print goes next: the first of its way that comes later.
function after(stay, way, setup) {
  const stop = setup.ways[way]?.stops.find((s) => setup.steps[stay.step] < setup.steps[setup.stations[s.station].step]);
  return stop ? stop.station : -1;
}

// first returns the tag that is moved next: the one that is due first; one without a time only where no other has one.
export function first(tags) {
  let best = -1;
  tags.forEach((t, i) => {
    const b = tags[best];
    if (!b || (!!t.due !== !!b.due ? !!t.due : t.due < b.due)) best = i;
  });
  return best;
}

// lookAtBatches tells of what waits, lies in the washing aid or is washed: with both, since the last print came in.
function lookAtBatches(folded, setup, now, place) {
  const out = [];
  for (const b of folded.batches) {
    if (!b.prints.length || b.wash?.ended || now - b.last / 1000 > tooOld) continue;
    const material = b.prints[0].material;
    const film = material === "film";
    const stops = batchStops(setup, material);
    const lie = folded.prints.filter((p) => !p.left).map((p) => p.stays.at(-1)).filter((s) => s?.batch === b.id && s.step === "washing_aid");
    const aid = lie.reduce((last, s) => (!last || s.since > last.since ? s : last), null);
    const step = b.wash ? "wash" : aid ? "washing_aid" : "hold";
    const since = (b.wash ? b.wash.clock : aid ? aid.since : b.since) / 1000;
    const time = b.wash ? stops.find((s) => setup.stations[s.station].step === "wash")?.time : aid?.time;
    const after = stops.find((s) => setup.steps[setup.stations[s.station].step] > setup.steps[step]);
    out.push({
      id: b.id, material, prints: b.prints.reduce((n, p) => n + count(p), 0), since, washed: !!b.wash,
      station: place(step, film), next: after ? after.station : -1, due: time ? since + time : 0,
    });
  }
  return out;
}

// batchStops are the stops that a material goes through as a batch: washing aid and wash.
function batchStops(setup, material) {
  const way = setup.ways.find((w) => w.material === material);
  return way ? way.stops.filter((s) => ["washing_aid", "wash"].includes(setup.stations[s.station].step)) : [];
}
