// Keeps the files of this build, so that the page works without a network.

const worker = self as unknown as ServiceWorkerGlobalScope;
/** The build's key and its files; put in when the page is built. */
declare const BUILD: string;
declare const PARTS: string[];

worker.addEventListener("install", (event) => {
  event.waitUntil(caches.open(BUILD).then((cache) => cache.addAll(PARTS)));
});

worker.addEventListener("activate", (event) => {
  const old = caches.keys().then((keys) => Promise.all(keys.filter((it) => it !== BUILD).map((it) => caches.delete(it))));
  event.waitUntil(old.then(() => worker.clients.claim()));
});

worker.addEventListener("message", ({ data }) => {
  if (data === "take over") {
    void worker.skipWaiting();
  }
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== worker.location.origin) {
    return;
  }
  event.respondWith(
    caches.open(BUILD).then(async (cache) => {
      const page = request.mode === "navigate" ? "./" : request;
      return (await cache.match(page, { ignoreSearch: true })) ?? fetch(request);
    }),
  );
});

export {};
