/** Bringing the others' entries in, page by page. Each page and its cursor are saved together or not at all. */

import { tellChanged } from "./changes";
import { entryTexts } from "./cut";
import { type Database, database, type Pulled, type Row, writing } from "./database";
import { NOTHING_PULLED } from "./record";
import { forgetFolds, inHandfuls, touch } from "./snapshots";
import type { Entry } from "./types";
import { ask, isObject, type Told } from "./wire";

// One answer is read at a stretch, in which the page hears no touch.
const PAGE = 250;

/** Milliseconds between two tellings of what a long fetching has brought: every screen reads anew at each. */
const TELLING = 500;

interface Page {
  rows: Row[];
  next: number;
  more: boolean;
  epoch: string | undefined;
  /** The last seq there is; absent from an older server. */
  top: number | undefined;
}

/** How far a long fetching has come; `of` is null where that cannot be told. */
export interface Fetching {
  done: number;
  of: number | null;
}

/** A restored log goes on a thousand million seqs further: no count of entries. */
const NO_COUNT = 10_000_000;

/** Null for the little that comes every day; a first fetching, and one of several pages, is told until its last page is stored. */
function howFar(from: number, page: Page, done: number): Fetching | null {
  if (done === 0 || (!page.more && from > 0 && done === page.rows.length)) return null;
  const of = page.top === undefined ? null : page.top - from;
  return { done, of: of === null || of > NO_COUNT || of < done ? null : of };
}

/** Pull until there is nothing more. `progress` hears of each answer, and how far it is while more is to come. */
export async function pull(progress: (told: Told<unknown>, fetching?: Fetching | null) => void): Promise<void> {
  const db = await database();
  const told = sometimes(tellChanged);
  try {
    await pages(db, progress, told.now);
  } finally {
    told.rest();
  }
}

/** Calls `what` at most once in so long, and at the end for whatever it was not called for. */
function sometimes(what: () => void): { now: () => void; rest: () => void } {
  let last = Number.NEGATIVE_INFINITY;
  let waiting = false;
  const call = () => {
    last = Date.now();
    waiting = false;
    what();
  };
  return {
    now: () => {
      waiting = true;
      if (Date.now() - last >= TELLING) call();
    },
    rest: () => {
      if (waiting) call();
    },
  };
}

async function pages(
  db: Database,
  progress: (told: Told<unknown>, fetching?: Fetching | null) => void,
  news: () => void,
): Promise<void> {
  let from: number | null = null;
  let done = 0;
  for (;;) {
    const pulled = ((await db.get("facts", "pulled")) as Pulled | undefined) ?? NOTHING_PULLED;
    const told = await ask(`/api/sync/pull?after=${pulled.cursor}&limit=${PAGE}`, pageShape);
    const page = told.answer;
    from ??= pulled.cursor;
    done += page.rows.length;
    progress(told, howFar(from, page, done));
    if (page.next < pulled.cursor || (pulled.epoch !== undefined && page.epoch !== pulled.epoch)) {
      // Another life of the server's log, or one shorter than what this phone has seen: it was restored from a backup. Begin
      // again, and offer everything this phone ever wrote; the server knows what it has.
      await beginAgain(db, pulled, page.epoch);
      from = null;
      done = 0;
      continue;
    }
    if (await take(db, pulled, page)) news();
    if (!page.more) return;
  }
}

async function take(db: Database, pulled: Pulled, page: Page): Promise<boolean> {
  const tx = writing(db, "facts");
  const entries = tx.objectStore("entries");
  let stamp = pulled.stamp;
  for (const rows of inHandfuls(page.rows)) {
    const known = await Promise.all(rows.map((row) => entries.get(row.id)));
    const put = rows.map((row, i) => {
      const here = known[i];
      // An own entry that comes back keeps its place in the queue until a receipt covers it.
      return entries.put(here === undefined ? row : { ...here, seq: row.seq, received_at: row.received_at });
    });
    await Promise.all(put);
    for (const row of rows) if (row.stamp > stamp) stamp = row.stamp;
  }
  await touch(tx, page.rows);
  await tx.objectStore("facts").put(pulledTo(page.next, stamp, page.epoch), "pulled");
  await tx.done;
  return page.rows.length > 0;
}

function pulledTo(cursor: number, stamp: string, epoch: string | undefined): Pulled {
  return epoch === undefined ? { cursor, stamp } : { cursor, stamp, epoch };
}

async function beginAgain(db: Database, pulled: Pulled, epoch: string | undefined): Promise<void> {
  const tx = writing(db, "facts");
  const device = (await tx.objectStore("facts").get("device")) as string | undefined;
  let cursor = await tx.objectStore("entries").openCursor();
  while (cursor !== null) {
    const row: Row = { ...cursor.value, seq: null, received_at: null };
    if (row.device === device) row.waiting = row.n;
    await cursor.update(row);
    cursor = await cursor.continue();
  }
  await forgetFolds(tx);
  await tx.objectStore("facts").put(pulledTo(0, pulled.stamp, epoch), "pulled");
  await tx.done;
  tellChanged();
}

const TEXT_FIELDS = ["id", "subject", "kind", "noted_at", "stamp", "device", "prev", "by"] as const;

function isEntry(value: unknown): value is Entry {
  return (
    isObject(value) &&
    TEXT_FIELDS.every((name) => typeof value[name] === "string") &&
    typeof value.n === "number" &&
    typeof value.seen === "number" &&
    isObject(value.body)
  );
}

function pageShape(json: unknown, text: string): Page | null {
  if (!isObject(json) || !Array.isArray(json.entries)) return null;
  if (typeof json.next !== "number" || typeof json.more !== "boolean") return null;
  const texts = entryTexts(text);
  if (texts.length !== json.entries.length) return null;
  const rows: Row[] = [];
  for (const [i, one] of json.entries.entries()) {
    if (!isObject(one) || typeof one.seq !== "number" || !isEntry(one.entry)) return null;
    const { entry } = one;
    rows.push({
      id: entry.id,
      subject: entry.subject,
      stamp: entry.stamp,
      device: entry.device,
      n: entry.n,
      text: texts[i] ?? "",
      seq: one.seq,
      received_at: typeof one.received_at === "string" ? one.received_at : null,
    });
  }
  const epoch = typeof json.epoch === "string" ? json.epoch : undefined;
  const top = typeof json.top === "number" ? json.top : undefined;
  return { rows, next: json.next, more: json.more, epoch, top };
}
