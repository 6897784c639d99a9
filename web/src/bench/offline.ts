// Keeps the page available offline through a service worker, where the browser allows one (a secure address,
// or this machine).

export async function keepOffline(): Promise<void> {
  const worker = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!worker) return;
  await worker.register("/sw.js");
  if (!worker.controller) await new Promise((resolve) => worker.addEventListener("controllerchange", resolve, { once: true }));
  const parts = performance.getEntriesByType("resource").map((one) => new URL(one.name));
  const own = parts.filter((url) => url.origin === location.origin && url.pathname.startsWith("/assets/"));
  await Promise.all([fetch("/"), ...own.map((url) => fetch(url))]);
}
