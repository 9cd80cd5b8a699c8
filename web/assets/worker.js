// Keeps the sink page across a reload without the network. What is kept stands in the line before this file; a new version
// of any of it is a new worker, which takes over at once. Pages of the light form and of the red are kept apart: whichever
// form this device was last told to show is the one that comes.
const name = "wetside-" + keep.join().replace(/[^0-9a-f]/g, "").slice(-40);

self.addEventListener("install", (e) => {
  e.waitUntil(caches.open(name).then((c) => c.addAll(keep)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (e) => {
  e.waitUntil((async () => {
    for (const old of await caches.keys()) if (old.startsWith("wetside-") && old !== name && old !== "wetside-pages") await caches.delete(old);
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  if (e.request.method !== "GET" || url.origin !== location.origin) return;
  if (keep.includes(url.pathname)) e.respondWith(caches.match(e.request).then((kept) => kept || fetch(e.request)));
  else if (url.pathname === "/sink" && !url.search) e.respondWith(fresh(e.request, true));
  else if (url.pathname === "/sink/setup.json") e.respondWith(fresh(e.request, false));
});

// fresh answers from the network and keeps the answer; without the network, what was kept. A page goes out of keeping as
// soon as the form changes, so that none in white light is kept for the dark.
async function fresh(request, page) {
  const pages = await caches.open("wetside-pages");
  const key = new URL(request.url).pathname;
  try {
    const answer = await fetch(request);
    if (answer.ok && !answer.redirected) await pages.put(key, answer.clone());
    else if (page) await pages.delete(key);
    return answer;
  } catch (why) {
    const kept = await pages.match(key);
    if (!kept) throw why;
    const headers = new Headers(kept.headers);
    headers.set("X-Kept", "yes");
    return new Response(await kept.blob(), { status: kept.status, headers });
  }
}

// A page that changed its form says so: what was kept in the other is thrown away.
self.addEventListener("message", (e) => {
  if (e.data === "form") e.waitUntil(caches.open("wetside-pages").then((c) => c.delete("/sink")));
});
