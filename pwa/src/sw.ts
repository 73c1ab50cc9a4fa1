/** Keeps the whole program on the phone, and sends the queue when a signal comes back. The API is never kept. */

import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { layDown, SHARE } from "./files/shared";
import { round } from "./store/round";

declare const self: ServiceWorkerGlobalScope;

interface SyncEvent extends ExtendableEvent {
  readonly tag: string;
}

/** A language's words are a file of their own. Only those that somebody reads here are kept: from when they are first fetched. */
const LANGUAGE = /^\/assets\/language-([a-z]+)-.*\.js$/;
const SPOKEN = "pinchbolt-languages";
/** What every language but English needs. */
const ANY = "any";

cleanupOutdatedCaches();
const WHOLE = self.__WB_MANIFEST;
const pathOf = (one: (typeof WHOLE)[number]): string => `/${(typeof one === "string" ? one : one.url).replace(/^\//, "")}`;
precacheAndRoute(WHOLE.filter((one) => !LANGUAGE.test(pathOf(one))));
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//] }));

// Another app shares a file: laid down here, then shown as any sheet, without a network too.
registerRoute(
  ({ url }) => url.pathname === SHARE,
  async ({ request }) => {
    const file = (await request.formData()).get("file");
    if (file instanceof File) await layDown(file);
    return Response.redirect(SHARE, 303);
  },
  "POST",
);

async function keepLanguage(path: string): Promise<Response> {
  const cache = await caches.open(SPOKEN);
  const kept = await cache.match(path);
  if (kept !== undefined) return kept;
  const fetched = await fetch(path);
  if (fetched.ok) await cache.put(path, fetched.clone());
  return fetched;
}

registerRoute(
  ({ url }) => LANGUAGE.test(url.pathname),
  ({ url }) => keepLanguage(url.pathname),
);

/** This version's file of a language; undefined when it has none. */
function fileOf(code: string | undefined): string | undefined {
  return WHOLE.map(pathOf).find((path) => code !== undefined && LANGUAGE.exec(path)?.[1] === code);
}

// A new version comes with the languages kept for the one before, so that it speaks them without a network too.
self.addEventListener("install", (event) => event.waitUntil(keepSame()));

async function keepSame(): Promise<void> {
  const cache = await caches.open(SPOKEN);
  const codes = (await cache.keys()).map(({ url }) => LANGUAGE.exec(new URL(url).pathname)?.[1]);
  await Promise.all([...new Set(codes)].map(fileOf).map((path) => path && keepLanguage(path)));
}

/** Files of languages that are not this version's. */
async function dropOld(): Promise<void> {
  const cache = await caches.open(SPOKEN);
  const current = new Set(WHOLE.map(pathOf));
  for (const old of await cache.keys()) if (!current.has(new URL(old.url).pathname)) await cache.delete(old);
}

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
self.addEventListener("activate", (event) => event.waitUntil(Promise.all([self.clients.claim(), dropOld()])));
self.addEventListener("message", (event) => {
  if (event.data === "take-over") void self.skipWaiting();
  // The page was there before this was: what it speaks was not fetched through here.
  const code = (event.data as { speaks?: string } | null)?.speaks;
  if (fileOf(code) !== undefined) event.waitUntil(Promise.all([code, ANY].map((one) => keepLanguage(fileOf(one) ?? ""))));
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
