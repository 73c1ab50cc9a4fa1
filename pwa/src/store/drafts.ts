/** Small things kept between visits: last inputs, half-done checks, preferences. Never anything of the record. */

import { effect, type Signal, signal } from "@preact/signals-core";
import { database } from "./database";

async function get<Value>(key: string): Promise<Value | undefined> {
  const db = await database();
  return (await db.get("keep", key)) as Value | undefined;
}

async function set(key: string, value: unknown): Promise<void> {
  const db = await database();
  await db.put("keep", value, key);
}

async function drop(key: string): Promise<void> {
  const db = await database();
  await db.delete("keep", key);
}

async function keys(prefix: string): Promise<string[]> {
  const db = await database();
  return await db.getAllKeys("keep", IDBKeyRange.bound(prefix, `${prefix}\uffff`));
}

const signals = new Map<string, { value: Signal<unknown>; loaded: Promise<void> }>();

/**
 * A signal that is kept: it starts as `initial`, takes the kept value as soon as that is read, and saves what it is set to.
 * Asking for the same key again gives the same signal.
 */
function kept<Value>(key: string, initial: Value): Signal<Value> {
  const known = signals.get(key);
  if (known !== undefined) return known.value as Signal<Value>;
  const made = signal<unknown>(initial);
  let fromStore: unknown = initial;
  const loaded = get<Value>(key).then((value) => {
    // What was set while reading wins over what was kept.
    if (value !== undefined && made.peek() === initial) {
      fromStore = value;
      made.value = value;
    }
  });
  effect(() => {
    const value = made.value;
    if (value !== fromStore) {
      fromStore = value;
      void set(key, value);
    }
  });
  signals.set(key, { value: made, loaded });
  return made as Signal<Value>;
}

/** Resolves when the signal of `key` has taken its kept value. */
async function loaded(key: string): Promise<void> {
  await signals.get(key)?.loaded;
}

export const keep = { get, set, drop, keys, kept, loaded };
