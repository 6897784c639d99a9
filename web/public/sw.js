// The service worker: network first, and a cached copy of the page without a network. Answers under /api are
// not cached here; the bench view stores what it needs.

const CACHE = "brimful-page";
/** A network that does not answer is treated as none, where there is a copy. */
const TIMEOUT_MS = 5000;

addEventListener("install", (event) => event.waitUntil(skipWaiting()));
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/api")) return;
  event.respondWith(answer(event, url, event.request.mode === "navigate" || url.pathname === "/"));
});

async function answer(event, url, isPage) {
  const cache = await caches.open(CACHE).catch(() => undefined);
  // All views are one page: one copy serves them all.
  const key = isPage ? "/" : url.pathname;
  const cached = await cache?.match(key);
  try {
    const fresh = await fetch(url, cached && { signal: AbortSignal.timeout(TIMEOUT_MS) });
    const isView = fresh.headers.get("Content-Type")?.startsWith("text/html") ?? false;
    // Without space in the cache it is still shown.
    if (cache && fresh.ok && isView === isPage) event.waitUntil(cache.put(key, fresh.clone()).catch(() => undefined));
    return fresh;
  } catch {
    return cached ?? Response.error();
  }
}
