// A page that only shows: it is fetched anew when the book moves on, and each minute, since baths age.
import { Live } from "./live.js";

const kinds = "print.,batch.,session.,correction,bath.,tray.,tank.,product.,person.,room.,note.";
const least = 700; // ms from one fetch to the next
const each = 60000;
const patience = 5000; // after how long without a line one is told

const shown = document.querySelector("[data-position]");
let position = Number(shown.dataset.position);
let waits = 0;
let last = 0;
let down = 0;

async function show() {
  waits = 0;
  last = Date.now();
  try {
    const answer = await fetch(location.href, { cache: "no-store", signal: AbortSignal.timeout(15000) });
    if (answer.redirected) { // its key was withdrawn: the door says so
      location.replace(answer.url);
      return;
    }
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.querySelector("[data-position]");
    if (!answer.ok || !fresh) return;
    shown.replaceChildren(...fresh.childNodes);
    position = Math.max(position, Number(fresh.dataset.position));
    shown.dataset.shown = position;
    tell();
  } catch {
    // It stands as it was; the line below says so.
  }
}

function soon() { waits ||= setTimeout(show, Math.max(0, least - (Date.now() - last))); }

function tell() {
  const old = shown.querySelector(".old");
  if (old) old.hidden = !down || Date.now() - down < patience;
}

new Live(kinds, {
  position: () => position,
  news: (m) => {
    const moved = m.entries.length > 0;
    position = Math.max(position, m.position);
    if (moved) soon();
  },
  again: soon,
  state: (up) => {
    if (up && down) soon();
    down = up ? 0 : down || Date.now();
    tell();
  },
}).start();
setInterval(soon, each);
setInterval(tell, 1000);
