// How the sink is drawn: the server's page goes on being drawn here, and only what changed is touched.

// countdown prints a time that is left as clocks do; one that is over has a plus before it.
export function countdown(ms) {
  let s = ms < 0 ? Math.trunc(ms / 1000) : Math.ceil(ms / 1000);
  const sign = s < 0 ? "+" : "";
  s = Math.abs(s);
  const two = (n) => String(n).padStart(2, "0");
  if (s >= 3600) return `${sign}${Math.trunc(s / 3600)}:${two(Math.trunc(s / 60) % 60)}:${two(s % 60)}`;
  return `${sign}${Math.trunc(s / 60)}:${two(s % 60)}`;
}

const parts = [5, 10, 15, 30, 60, 120, 300, 3600];

// ticks are how many ticks a time has, at most twelve, and how many of them are still to come.
export function ticks(whole, left) {
  const step = 1000 * (parts.find((p) => whole <= 12 * p * 1000) || 3600);
  const n = Math.min(Math.ceil(whole / step), 12);
  return [n, Math.max(Math.min(Math.ceil(left / step), n), 0)];
}

// fill puts words into the places of a line.
export function fill(line, places) {
  return (line || "").replace(/\{(\w+)\}/g, (_, name) => places[name] ?? "");
}

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function put(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

function set(node, name, value) {
  if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}

export class Words {
  constructor(setup) {
    this.setup = setup;
    this.plural = new Intl.PluralRules(setup.language);
    this.clock = new Intl.DateTimeFormat(setup.language, { hour: "2-digit", minute: "2-digit", hour12: !!setup.half, timeZone: zone(setup.zone) });
  }

  line(key, places = {}) { return fill(this.setup.lines[key], places); }

  count(key, n) { return this.line(`${key}.${this.plural.select(n) === "one" ? "one" : "other"}`, { n }); }

  // who names a print by whose it is; its number stands with it where that alone is not enough.
  who(t, tags) {
    const name = this.setup.people?.[t.print.of];
    if (!name) return capital(this.line(t.print.what?.material === "film" ? "film" : "print", { n: t.number }));
    return tags.filter((o) => o.print.of === t.print.of).length > 1 && t.number ? `${name} ${t.number}` : name;
  }

  // what says what a print is.
  what(t) {
    const way = this.setup.ways[t.way];
    if (t.print.what?.strips) return this.line("strip");
    return way && (way.material === "film" || way.size === t.print.what?.size) ? way.small : t.print.what?.size || "";
  }

  // move says who goes where next.
  move(t, tags) {
    const film = t.print.what?.material === "film";
    const into = t.next < 0 ? this.line(film ? "take_out" : "out") : this.setup.stations[t.next].into;
    return this.line("move", { who: this.who(t, tags), into });
  }

  // small is what stands under a name: what it is, or what is to be done with it now.
  small(t, tags, now) {
    const doing = moving(t, this.setup, now);
    if (doing) return this.line(doing.on ? "moving" : "still", { left: countdown(doing.left) });
    if (t.due && now >= t.lift && now < t.due) return this.line(t.print.what?.material === "film" ? "pour_out" : "lift");
    const what = this.what(t);
    return t.print.of && t.number ? this.line("small", { n: t.number, size: what }) : what;
  }
}

function zone(name) {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return name;
  } catch {
    return undefined;
  }
}

// moving tells whether a film is agitated now, and how long until that changes; null where nothing is said of it.
export function moving(t, setup, now) {
  const stop = setup.ways[t.way]?.stops.find((s) => s.station === t.station);
  if (!stop?.moves || t.print.what?.material !== "film") return null;
  const at = Math.max(0, now - t.stay.since / 1000); // a clock that was just set right may stand before it
  for (const [from, long] of stop.moves) {
    if (at < from) return { on: false, left: from - at, from };
    if (at < from + long) return { on: true, left: from + long - at, from };
  }
  return null;
}

export class Drawing {
  constructor(root) {
    this.root = root;
    this.template = document.getElementById("tag");
    this.items = new Map();
    for (const li of root.querySelectorAll(".tags li")) li.remove();
    for (const b of root.querySelectorAll(".batch")) b.remove();
  }

  // draw shows how the work stands.
  draw(state, words, now) {
    const shown = new Set();
    state.tags.forEach((t, i) => {
      shown.add(t.print.id);
      this.tag(t, i === state.next, state.tags, words, now);
    });
    for (const b of state.batches) {
      shown.add(b.id);
      this.batch(b, words, now);
    }
    for (const [id, li] of this.items) {
      if (shown.has(id)) continue;
      li.remove();
      this.items.delete(id);
    }
    for (const s of this.root.querySelectorAll(".station")) s.classList.toggle("bare", !s.querySelector(".tags li, .batch"));
    this.next(state, words, now);
    this.throw(state, words);
  }

  station(at, setup) {
    const s = setup.stations[at];
    return this.root.querySelector(`[data-station="${s ? (s.film ? "film" : s.key) : ""}"]`) || this.root.querySelector(".station");
  }

  tag(t, first, tags, words, now) {
    let li = this.items.get(t.print.id);
    if (!li) {
      li = document.createElement("li");
      li.append(this.template.content.cloneNode(true));
      this.items.set(t.print.id, li);
    }
    const home = this.station(t.station, words.setup).querySelector(".tags");
    if (li.parentNode !== home) home.append(li);
    const key = li.firstElementChild;
    set(key, "value", `${t.print.id} ${words.setup.stations[t.station]?.key || ""}`);
    key.classList.toggle("first", first);
    key.classList.toggle("over", !!t.due && now > t.due);
    const [who, left, small, row] = key.children;
    put(who, words.who(t, tags));
    put(left, t.due ? countdown(t.due - now) : "");
    put(small, words.small(t, tags, now));
    const [n, on] = t.due ? ticks(t.stay.time, t.due - now) : [0, 0];
    while (row.children.length > n) row.lastChild.remove();
    while (row.children.length < n) row.append(document.createElement("i"));
    [...row.children].forEach((i, at) => i.classList.toggle("on", at >= n - on));
  }

  batch(b, words, now) {
    let box = this.items.get(b.id);
    if (!box) {
      box = document.createElement("div");
      box.className = "batch";
      for (const [kind, name] of [["span", "lies"], ["b", "left"], ["button", "key"]]) {
        const part = document.createElement(kind);
        part.className = name;
        box.append(part);
      }
      box.lastChild.name = "wash";
      this.items.set(b.id, box);
    }
    const home = this.station(b.station, words.setup);
    if (box.parentNode !== home) home.querySelector(".tags").after(box);
    box.classList.toggle("over", !!b.due && now > b.due);
    const [says, left, key] = box.children;
    put(says, words.line("since", { count: words.count("prints", b.prints), when: words.clock.format(b.since) }));
    put(left, b.due ? countdown(b.due - now) : "");
    const aid = !b.washed && words.setup.stations[b.next]?.step === "washing_aid";
    put(key, aid ? capital(words.setup.stations[b.next].into) : words.line(b.washed ? "wash_ends" : "wash_starts"));
    set(key, "value", `${b.id} ${aid ? "aid" : b.washed ? "done" : "started"}`);
  }

  next(state, words, now) {
    const key = this.root.querySelector(".next");
    const t = state.tags[state.next];
    if (key.hidden !== !t) key.hidden = !t;
    if (!t) return;
    set(key, "value", `${t.print.id} ${words.setup.stations[t.station]?.key || ""}`);
    put(key.children[0], words.move(t, state.tags));
    put(key.children[1], t.due ? countdown(t.due - now) : "");
  }

  // throw keeps the keys with which a print is thrown away.
  throw(state, words) {
    const box = this.root.querySelector(".throw");
    if (box.hidden !== !state.tags.length) box.hidden = !state.tags.length;
    const row = box.lastElementChild;
    const names = state.tags.map((t) => `${t.print.id} ${words.who(t, state.tags)}, ${words.what(t)}`);
    if (this.thrown === names.join()) return;
    this.thrown = names.join();
    row.replaceChildren(...state.tags.map((t) => {
      const key = document.createElement("button");
      key.className = "key plain";
      key.name = "abandon";
      key.value = t.print.id;
      const name = document.createElement("span");
      name.textContent = `${words.who(t, state.tags)}, ${words.what(t)}`;
      key.append(name);
      return key;
    }));
  }
}
