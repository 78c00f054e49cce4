// Keeps everything that was built, so that the app opens without a signal. A new build waits until the person asks for it.
const kept = "faultwright-__BUILD__";
const files = "__FILES__";

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(kept).then((cache) => cache.addAll(files)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== kept).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== self.location.origin) return;
  event.respondWith(
    caches.open(kept).then(async (cache) => {
      const found = await cache.match(event.request, { ignoreSearch: true });
      return found ?? fetch(event.request);
    }),
  );
});
