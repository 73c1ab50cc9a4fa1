/**
 * How the phone comes to know how a bike stands: by what is kept of it, else by its snapshot and what came since, else by all of
 * its entries. Whichever way, it comes to the same.
 */

import { kernel } from "./kernel/client";
import type { BikeState, Due, ShopState } from "./kernel/types";
import type { BikeLine, OpenedBike } from "./kernel/use-types";
import kernelAddress from "./kernel/worker.ts?worker&url";
import { record } from "./store/record";
import { keepLine, keepSnapshot, keepState, linesOf, type Resumed, readFold, revisionOf, type Whole } from "./store/snapshots";

/** The kernel's address carries the hash of its text. While developing it says nothing, and nothing is kept. */
export const KERNEL = import.meta.env.DEV ? `dev ${Date.now()}` : kernelAddress;

/** A snapshot is worth its room from so many entries on, and is made anew when so many have come since. */
const SNAPSHOT_FROM = 120;

export interface Opened {
  state: BikeState;
  due: Due[];
}

interface Kept {
  made: string;
  opened: OpenedBike;
}

let shopNow: { revision: number; state: Promise<ShopState> } | null = null;

export async function loadShop(): Promise<ShopState> {
  const revision = await revisionOf("workshop");
  if (shopNow?.revision !== revision) {
    const state = record.entries("workshop").then((entries) => kernel.foldShop(entries));
    shopNow = { revision, state };
    state.catch(() => {
      shopNow = null;
    });
  }
  return shopNow.state;
}

/** What else an answer about what is due hangs on: the day, the workshop's intervals, the kernel. */
async function circumstances(): Promise<string> {
  return [new Date().toDateString(), await revisionOf("workshop"), KERNEL].join(" ");
}

const opening = new Map<string, { key: string; now: Promise<Opened | null> }>();

/** Null when the phone keeps nothing of it. The same object as long as nothing changed. */
export async function openBike(subject: string): Promise<Opened | null> {
  const made = await circumstances();
  const key = `${await revisionOf(subject)} ${made}`;
  const known = opening.get(subject);
  if (known?.key === key) return known.now;
  const now = fromWhatIsKept(subject, made);
  opening.set(subject, { key, now });
  now.catch(() => opening.delete(subject));
  return now;
}

async function fromWhatIsKept(subject: string, made: string): Promise<Opened | null> {
  const reading = await readFold(subject, KERNEL);
  if (reading === null) return null;
  const now = new Date().toISOString();
  if ("state" in reading) {
    const kept = reading.state as Kept;
    if (kept.made === made) return kept.opened;
    const shop = await loadShop();
    const due = await kernel.due(kept.opened.state, now, shop.intervals);
    return keep(subject, reading.revision, made, { ...kept.opened, due });
  }
  const { intervals } = await loadShop();
  if ("snapshot" in reading) {
    const opened = await kernel.open(subject, reading.tail, reading.snapshot, now, intervals);
    if (opened !== null) {
      const kept = await keep(subject, reading.revision, made, opened);
      if (reading.tail.length >= SNAPSHOT_FROM) void snapshot(subject, reading);
      return kept;
    }
    const whole = await readFold(subject, KERNEL, true);
    if (whole === null || !("entries" in whole)) return null;
    return fromAll(subject, whole, made, now, intervals);
  }
  return fromAll(subject, reading, made, now, intervals);
}

async function fromAll(
  subject: string,
  reading: Whole,
  made: string,
  now: string,
  own: Record<string, unknown>[],
): Promise<Opened | null> {
  const opened = await kernel.open(subject, reading.entries, "", now, own);
  if (opened === null) return null;
  const kept = await keep(subject, reading.revision, made, opened);
  if (reading.entries.length >= SNAPSHOT_FROM) void snapshot(subject, reading);
  return kept;
}

async function keep(subject: string, revision: number, made: string, opened: OpenedBike): Promise<Opened> {
  const line = short(opened);
  // A phone with no room left still shows the bike.
  await Promise.all([
    keepState(subject, KERNEL, revision, { made, opened } satisfies Kept),
    keepLine(subject, revision, made, line),
  ]).catch(() => undefined);
  return opened;
}

/** As much as a list shows: hundreds of them are read at once. */
function short({ summary, due }: BikeLine): BikeLine {
  const { verdict, words, reasons, at, by } = summary.standing;
  const first = reasons.find((reason) => reason.level === "stop") ?? reasons[0];
  const standing = { verdict, words, reasons: first === undefined ? [] : [first], at, by };
  return { summary: { ...summary, standing }, due };
}

async function snapshot(subject: string, reading: Resumed | Whole): Promise<void> {
  const upon = "snapshot" in reading ? reading.snapshot : "";
  const entries = "snapshot" in reading ? reading.tail : reading.entries;
  try {
    const frozen = await kernel.freeze(subject, entries, upon);
    if (frozen === null || frozen.count === 0) return;
    await keepSnapshot(subject, KERNEL, reading.revision, frozen.text, { key: frozen.key, count: frozen.count });
  } catch {
    // Without a snapshot the next opening takes longer, and comes to the same.
  }
}

/** One bike in a list. `line` is null until it is folded as it stands now; `last` is what it was before, good for its name only. */
export interface Listed {
  subject: string;
  line: BikeLine | null;
  last: BikeLine | null;
}

/** Every bike on this phone, as far as its line is kept and holds. */
export async function listBikes(): Promise<{ made: string; bikes: Listed[] }> {
  const made = await circumstances();
  const rows = await linesOf("bike/");
  return {
    made,
    bikes: rows.map((row) => {
      const last = row.line as BikeLine | null;
      const holds = row.lineRevision === row.revision && row.made === made;
      return { subject: row.subject, line: holds ? last : null, last };
    }),
  };
}

/** Fold one bike for its line, and keep it. */
export async function lineOf(subject: string, made: string): Promise<BikeLine | null> {
  const reading = await readFold(subject, KERNEL);
  if (reading === null) return null;
  if ("state" in reading) {
    const opened = await openBike(subject);
    return opened === null ? null : short(opened as OpenedBike);
  }
  const { intervals } = await loadShop();
  const now = new Date().toISOString();
  let line = "snapshot" in reading ? await kernel.line(subject, reading.tail, reading.snapshot, now, intervals) : null;
  if (line === null) {
    const whole = "entries" in reading ? reading : await readFold(subject, KERNEL, true);
    if (whole === null || !("entries" in whole)) return null;
    line = await kernel.line(subject, whole.entries, "", now, intervals);
  }
  if (line === null) return null;
  line = short(line);
  await keepLine(subject, reading.revision, made, line).catch(() => undefined);
  return line;
}
