// Keeps the day page for where there is no connection: one cache for each version, filled whole or not at all.
// The log's answers are never kept here, and nothing is queued: the page itself does that.
const VERSION = "{v}", CACHE = `day-${VERSION}`, FILES = "{files}", SHELL = "/day/";

self.addEventListener("install", event => event.waitUntil((async () => {
  // Where the browser can, it takes the modules out of the cache by itself, without waiting for this worker to wake.
  if (event.addRoutes) await event.addRoutes({condition: {urlPattern: {pathname: "/day/v/*"}}, source: {cacheName: CACHE}}).catch(() => {});
  const cache = await caches.open(CACHE);
  await Promise.all(FILES.map(async path => {
    const found = await fetch(path, {cache: "reload", redirect: "error"});
    if (!found.ok || found.redirected) throw new Error(`${path} did not come`);
    if (path === SHELL && !(await found.clone().text()).includes(VERSION)) throw new Error("a shell of another version");
    await cache.put(path, found);
  }));
})()));

self.addEventListener("activate", event => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith("day-") && name !== CACHE) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener("message", event => { if (event.data === "take over") self.skipWaiting(); });

self.addEventListener("fetch", event => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/day/api/")) return;
  if (event.request.mode === "navigate" && url.pathname === SHELL)
    event.respondWith(caches.match(SHELL, {cacheName: CACHE}).then(found => found || fetch(event.request)));
  else if (url.pathname.startsWith("/day/v/"))
    event.respondWith(caches.match(event.request, {ignoreVary: true}).then(found => found || fetch(event.request)));
});
