/** A file that another app shared with this one: the service worker lays it down (sw.ts), the first sheet that wants it takes it. */

const CACHE = "pinchbolt-shared";
const PLACE = "/shared-file";
const NAME = "X-File-Name";

/** Where the phone sends it, as the manifest says; afterwards it is a sheet. */
export const SHARE = "/share";

export async function layDown(file: File): Promise<void> {
  const cache = await caches.open(CACHE);
  await cache.put(PLACE, new Response(file, { headers: { [NAME]: encodeURIComponent(file.name) } }));
}

export async function sharedFile(): Promise<File | null> {
  const found = await (await caches.open(CACHE)).match(PLACE);
  if (found === undefined) return null;
  return new File([await found.blob()], decodeURIComponent(found.headers.get(NAME) ?? ""));
}

/** Nothing of where somebody rode stays here longer than it is needed. */
export async function dropShared(): Promise<void> {
  await caches.delete(CACHE);
}
