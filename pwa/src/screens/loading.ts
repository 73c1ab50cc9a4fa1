/** Bikes as the screens see them: folded from what the phone keeps, again whenever that changes. */

import { useSignalEffect } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { kernel } from "../kernel/client";
import type { BikeState, CheckDefinition, Due, ShopState } from "../kernel/types";
import kernelAddress from "../kernel/worker.ts?worker&url";
import { keep } from "../store/drafts";
import { changed, record } from "../store/record";
import type { Kept } from "../store/types";

export interface BikeNow {
  state: BikeState;
  due: Due[];
  kept: Kept[];
}

interface Cached {
  key: string;
  now: Promise<BikeNow>;
}

const cache = new Map<string, Cached>();
const settled = new Map<string, BikeNow>();

/** What was folded last, kept so that the next visit shows it before the engine has even started. */
interface Folded {
  key: string;
  state: BikeState;
  due: Due[];
}

/**
 * Two readings with the same key come to the same: same entries, same places given by the server, same day, and the same kernel
 * (its address carries the hash of its text).
 */
function keyOf(kept: Kept[], shop: Kept[]): string {
  const counted = [kept, shop].map((list) => {
    const placed = list.reduce((sum, one) => sum + (one.seq ?? 0), 0);
    return `${list.length} ${placed} ${list.at(-1)?.id ?? ""}`;
  });
  return [...counted, new Date().toDateString(), kernelAddress].join(" ");
}

async function loadBike(subject: string): Promise<BikeNow | null> {
  const kept = await record.entries(subject);
  if (kept.length === 0) return null;
  const shop = await record.entries("workshop");
  const key = keyOf(kept, shop);
  let cached = cache.get(subject);
  if (cached === undefined || cached.key !== key) {
    const now = fold(subject, kept, shop, key);
    cached = { key, now };
    cache.set(subject, cached);
    now.catch(() => cache.delete(subject));
  }
  const now = await cached.now;
  settled.set(subject, now);
  return now;
}

async function fold(subject: string, kept: Kept[], shopKept: Kept[], key: string): Promise<BikeNow> {
  const place = `folded ${subject}`;
  // While developing, the kernel's address says nothing about its text.
  const held = import.meta.env.DEV ? undefined : await keep.get<Folded>(place);
  if (held?.key === key) return { state: held.state, due: held.due, kept };
  const [state, shop] = await Promise.all([kernel.fold(subject, kept), kernel.foldShop(shopKept)]);
  const due = await kernel.due(state, new Date().toISOString(), shop.intervals);
  // A phone with no room left still shows the bike.
  await keep.set(place, { key, state, due } satisfies Folded).catch(() => undefined);
  return { state, kept, due };
}

async function loadShop(): Promise<ShopState> {
  return kernel.foldShop(await record.entries("workshop"));
}

/** undefined while it loads, null when the phone keeps nothing of it. What was seen last shows at once. */
export function useBike(id: string): BikeNow | null | undefined {
  const subject = `bike/${id}`;
  return useLoaded(() => loadBike(subject), subject, settled.get(subject));
}

export function useBikes(): BikeNow[] | undefined {
  return useLoaded(loadBikes, "bikes", settled.size > 0 ? [...settled.values()] : undefined);
}

async function loadBikes(): Promise<BikeNow[]> {
  const subjects = await record.subjects("bike/");
  const loaded = await Promise.all(subjects.map(loadBike));
  return loaded.filter((one) => one !== null);
}

/** Every check that can be made here: those shipped and the workshop's own. */
export function useChecks(): CheckDefinition[] | undefined {
  return useLoaded(async () => kernel.checks((await loadShop()).checks), "checks", undefined);
}

/** What the workshop itself has set: its checks, intervals, interface kinds and build plan. */
export function useShop(): ShopState | undefined {
  return useLoaded(loadShop, "workshop", undefined);
}

/** Load now and after every change of the record. A failure shows at the nearest edge instead of loading for ever. */
export function useLoaded<Value>(load: () => Promise<Value>, key: string, first: Value | undefined): Value | undefined {
  const [value, setValue] = useState<{ key: string; value: Value | undefined }>({ key, value: first });
  const [failed, setFailed] = useState<unknown>(null);
  const [turn, setTurn] = useState(0);
  useSignalEffect(() => setTurn(changed.value));
  useEffect(() => {
    let over = false;
    load().then(
      (loaded) => {
        if (!over) setValue({ key, value: loaded });
      },
      (error: unknown) => {
        if (!over) setFailed(error);
      },
    );
    return () => {
      over = true;
    };
  }, [key, turn]);
  if (failed !== null) throw failed;
  return value.key === key ? value.value : first;
}
