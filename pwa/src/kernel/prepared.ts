/**
 * What this phone has worked out of the installed program and keeps, so that the next start need not: the engine's memory once the
 * kernel is imported, and the kernel's answers that never change. Used by the very same program only, and only while the bytes
 * still have the sum they were kept with; anything else means working it out as if nothing were kept.
 */

const STORE = "pinchbolt-prepared";
const SUM = "Pinchbolt-Sum";

/** `program` is the address of the worker: it carries the hash of its text, and with it those of the engine and the kernel. */
function nameOf(program: string, what: string): string {
  return `/prepared/${what}?of=${encodeURIComponent(program)}`;
}

async function sumOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(sum, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Null when there is none, or none to be trusted. Never throws. While developing nothing is kept. */
export async function prepared(program: string, what: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (import.meta.env.DEV) return null;
  try {
    const kept = await (await caches.open(STORE)).match(nameOf(program, what));
    if (kept === undefined) return null;
    const bytes = new Uint8Array(await kept.arrayBuffer());
    return (await sumOf(bytes)) === kept.headers.get(SUM) ? bytes : null;
  } catch {
    return null;
  }
}

/** Keep it in place of any other program's. A phone without room goes without, and works it out again. */
export async function prepare(program: string, what: string, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  if (import.meta.env.DEV) return;
  try {
    const sum = await sumOf(bytes);
    const store = await caches.open(STORE);
    for (const old of await store.keys()) {
      if (new URL(old.url).searchParams.get("of") !== program) await store.delete(old);
    }
    await store.put(nameOf(program, what), new Response(bytes, { headers: { [SUM]: sum } }));
  } catch {
    // As said: nothing hangs on it.
  }
}
