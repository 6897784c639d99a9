// Keeps the page itself for when the network is gone: the server is asked first, always. What the
// server answers under /api is not kept here; the bench view keeps what it needs by itself.

const KEPT = "brimful-page";

addEventListener("install", (event) => event.waitUntil(skipWaiting()));
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/api")) return;
  // Every view is the same page: one copy serves all of them.
  const key = event.request.mode === "navigate" ? "/" : url.pathname;
  event.respondWith(
    fetch(event.request)
      .then(async (answer) => {
        if (answer.ok) await (await caches.open(KEPT)).put(key, answer.clone());
        return answer;
      })
      .catch(async () => (await (await caches.open(KEPT)).match(key)) ?? Response.error()),
  );
});
