/** Keeps the whole program on the phone, and sends the queue when a signal comes back. The API is never kept. */

import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { round } from "./store/round";

declare const self: ServiceWorkerGlobalScope;

interface SyncEvent extends ExtendableEvent {
  readonly tag: string;
}

cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST);
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//] }));

// The reader of codes, for phones without one, is two files: their names carry their hashes, so what is kept never grows old.
const READER = "pinchbolt-reader";
const PARTS = /^\/assets\/(zxing_reader|ponyfill)-.*\.(wasm|js)$/;
registerRoute(
  ({ url }) => PARTS.test(url.pathname),
  async ({ request }) => {
    const cache = await caches.open(READER);
    const kept = await cache.match(request.url);
    if (kept !== undefined) return kept;
    const fetched = await fetch(request);
    if (fetched.ok) {
      for (const old of await cache.keys()) if (partOf(old) === partOf(request)) await cache.delete(old);
      await cache.put(request.url, fetched.clone());
    }
    return fetched;
  },
);

function partOf({ url }: Request): string | undefined {
  return PARTS.exec(new URL(url).pathname)?.[1];
}

// A first visit is under the service worker at once; a new version waits until the person takes it.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event) => {
  if (event.data === "take-over") void self.skipWaiting();
});

async function syncQueue(): Promise<void> {
  const pages = await self.clients.matchAll({ type: "window" });
  if (pages.length > 0) {
    for (const page of pages) page.postMessage("sync");
    return;
  }
  // No page is open. A failure is thrown on: the browser then tries again later.
  await round(false, () => undefined);
}

self.addEventListener("sync", (event) => {
  const sync = event as SyncEvent;
  if (sync.tag === "pinchbolt-queue") sync.waitUntil(syncQueue());
});
