// Keeps the page itself for when the network is gone: the server is asked first, always. What the
// server answers under /api is not kept here; the bench view keeps what it needs by itself.

const KEPT = "brimful-page";
/** A network that swallows what is asked is as good as none, where there is a copy. */
const PATIENCE_MS = 5000;

addEventListener("install", (event) => event.waitUntil(skipWaiting()));
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/api")) return;
  event.respondWith(answer(event, url, event.request.mode === "navigate" || url.pathname === "/"));
});

async function answer(event, url, isPage) {
  const cache = await caches.open(KEPT).catch(() => undefined);
  // Every view is the same page: one copy serves all of them.
  const key = isPage ? "/" : url.pathname;
  const kept = await cache?.match(key);
  try {
    const fresh = await fetch(url, kept && { signal: AbortSignal.timeout(PATIENCE_MS) });
    const isView = fresh.headers.get("Content-Type")?.startsWith("text/html") ?? false;
    // Where there is no room to keep it, it is shown all the same.
    if (cache && fresh.ok && isView === isPage) event.waitUntil(cache.put(key, fresh.clone()).catch(() => undefined));
    return fresh;
  } catch {
    return kept ?? Response.error();
  }
}
