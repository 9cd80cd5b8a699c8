// Keeps the sink page across a reload without the network. What is kept stands in the line before this file; a new version
// of any of it is a new worker, which takes over at once. The page is kept in one form alone, and thrown away when the device
// is told another: no page in white light comes up in the dark.
const pages = "wetside-pages";
const name = "wetside-" + keep.join().replace(/[^0-9a-f]/g, "").slice(-40);

self.addEventListener("install", (e) => {
  e.waitUntil(caches.open(name).then((c) => c.addAll(keep)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (e) => {
  e.waitUntil((async () => {
    for (const old of await caches.keys()) if (old.startsWith("wetside-") && old !== name && old !== pages) await caches.delete(old);
    await self.clients.claim();
    await Promise.allSettled(["/sink", "/sink/setup.json"].map((path) => fresh(new Request(path))));
  })());
});

self.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  if (url.origin !== location.origin) return;
  if (e.request.method === "POST" && url.pathname === "/red") {
    forms++;
    e.waitUntil(caches.open(pages).then((c) => c.delete("/sink")));
  }
  if (e.request.method === "POST" && url.pathname.startsWith("/sign-out")) e.waitUntil(leave());
  if (e.request.method !== "GET") return;
  if (keep.includes(url.pathname)) e.respondWith(caches.match(e.request).then((kept) => kept || fetch(e.request)));
  else if (url.pathname === "/sink" || url.pathname === "/sink/setup.json") e.respondWith(fresh(e.request));
});

// forms counts how often this device was told another form: what was asked for before is not kept after.
let forms = 0;

// leave throws away what was kept of the darkroom: whoever used this device is out.
async function leave() {
  forms++;
  await caches.delete(pages);
}

// fresh answers from the network and keeps the answer; without the network, what was kept.
async function fresh(request) {
  const kept = await caches.open(pages);
  const key = new URL(request.url).pathname;
  const form = forms;
  try {
    const answer = await fetch(request);
    if (answer.redirected || answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) await leave();
    else if (answer.ok && form === forms) await (await caches.open(pages)).put(key, answer.clone());
    return answer;
  } catch (why) {
    const old = await kept.match(key);
    if (!old) throw why;
    const headers = new Headers(old.headers);
    headers.set("X-Kept", "yes");
    return new Response(await old.blob(), { status: old.status, headers });
  }
}
