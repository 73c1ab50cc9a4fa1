/** Bikes as the screens see them: folded from what the phone keeps, again whenever that changes. */

import { useSignalEffect } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { type Listed, lineOf, listBikes, loadShop, type Opened, openBike } from "../folding";
import { kernel } from "../kernel/client";
import type { CheckDefinition, ShopState } from "../kernel/types";
import type { BikeLine } from "../kernel/use-types";
import { changed, record } from "../store/record";
import type { Kept } from "../store/types";

export type BikeNow = Opened;

const settled = new Map<string, BikeNow>();

/** Null when the phone keeps nothing of it. */
export async function loadBike(subject: string): Promise<BikeNow | null> {
  const now = await openBike(subject);
  if (now !== null) settled.set(subject, now);
  return now;
}

/** undefined while it loads, null when the phone keeps nothing of it. What was seen last shows at once. */
export function useBike(id: string): BikeNow | null | undefined {
  const subject = `bike/${id}`;
  return useLoaded(() => loadBike(subject), subject, settled.get(subject));
}

/** These bikes with everything of theirs; those the phone keeps nothing of are left out. Dear where there are many. */
export async function loadBikes(subjects: string[]): Promise<BikeNow[]> {
  const loaded = await Promise.all(subjects.map(loadBike));
  return loaded.filter((one) => one !== null);
}

/** What a list knows of a bike, as it is or as it was before: good for its name, its use and its rider. */
export function known(bike: Listed): BikeLine["summary"] | undefined {
  return (bike.line ?? bike.last)?.summary;
}

/** How many lines are folded between two showings of the list. */
const AT_A_TIME = 12;

let listed: Listed[] | undefined;

/** One line a bike: what is kept at once, the others as they are folded. */
export function useBikeLines(): Listed[] | undefined {
  const [bikes, setBikes] = useState(listed);
  const [failed, setFailed] = useState<unknown>(null);
  const [turn, setTurn] = useState(0);
  useSignalEffect(() => setTurn(changed.value));
  useEffect(() => {
    let over = false;
    const show = (next: Listed[]) => {
      if (over) return;
      listed = next;
      setBikes(next);
    };
    readLines(show, () => over).catch(setFailed);
    return () => {
      over = true;
    };
  }, [turn]);
  if (failed !== null) throw failed;
  return bikes;
}

/** Every bike's line as it stands now, however long that takes. */
export async function allBikeLines(): Promise<Listed[]> {
  let all: Listed[] = [];
  await readLines(
    (bikes) => {
      all = bikes;
    },
    () => false,
  );
  return all;
}

async function readLines(show: (bikes: Listed[]) => void, over: () => boolean): Promise<void> {
  const { made, bikes } = await listBikes();
  show(bikes);
  const lines = new Map(bikes.map((bike) => [bike.subject, bike]));
  const waiting = bikes.filter((bike) => bike.line === null);
  for (const [i, bike] of waiting.entries()) {
    if (over()) return;
    lines.set(bike.subject, { ...bike, line: await lineOf(bike.subject, made) });
    if ((i + 1) % AT_A_TIME === 0 || i + 1 === waiting.length) show([...lines.values()]);
  }
}

/** The entries of a subject in the order of the fold. */
export function useEntries(subject: string): Kept[] | undefined {
  return useLoaded(() => record.entries(subject), `entries ${subject}`, undefined);
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
