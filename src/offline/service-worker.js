/* global VERSION, FILES */
// Written for the built page: `VERSION` and `FILES` are put before it by list-files.ts. A file is its
// address from here and its checksum, so that no version is ever kept in part, or with parts of another.

/** Caches belong to a host, and more than one copy of the page may lie on it. */
const OURS = `heelwright ${self.registration.scope} `;
const CACHE = OURS + VERSION;
const addressOf = (path) => new URL(path, self.location.href).href;

async function fill() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map(([path, integrity]) => new Request(addressOf(path), { cache: 'reload', integrity })));
}

/** The version before stays, for windows that still show it: its scripts have names of their own. */
async function tidy() {
  const older = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(older.slice(0, -1).map((name) => caches.delete(name)));
  // A first visit has just fetched this very version.
  if (older.length === 0) await self.clients.claim();
}

async function answer(request, url) {
  const home = new URL('./', self.location.href).pathname;
  const wanted = url.pathname === home ? addressOf('index.html') : url.href;
  const options = { ignoreSearch: true };
  const kept = await (await caches.open(CACHE)).match(wanted, options);
  if (kept !== undefined) return kept;
  for (const name of await caches.keys()) {
    const older = name.startsWith(OURS) ? await (await caches.open(name)).match(wanted, options) : undefined;
    if (older !== undefined) return older;
  }
  return fetch(request);
}

self.addEventListener('install', (event) => { event.waitUntil(fill()); });
self.addEventListener('activate', (event) => { event.waitUntil(tidy()); });
// Only when the person asks for it: until then every window goes on with the version that it began with.
self.addEventListener('message', (event) => { if (event.data === 'take over') self.skipWaiting(); });
self.addEventListener('fetch', (event) => {
  const { request } = event, url = new URL(request.url);
  if (request.method === 'GET' && url.href.startsWith(self.registration.scope)) event.respondWith(answer(request, url));
});
