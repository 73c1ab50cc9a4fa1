/** Bringing the others' entries in, page by page. Each page and its cursor are saved together or not at all. */

import { tellChanged } from "./changes";
import { entryTexts } from "./cut";
import { type Database, database, type Pulled, type Row } from "./database";
import { NOTHING_PULLED } from "./record";
import type { Entry } from "./types";
import { ask, isObject, type Told } from "./wire";

const PAGE = 500;

interface Page {
  rows: Row[];
  next: number;
  more: boolean;
}

/** Pull until there is nothing more. `progress` hears of each answer. */
export async function pull(progress: (told: Told<unknown>) => void): Promise<void> {
  const db = await database();
  for (;;) {
    const pulled = ((await db.get("facts", "pulled")) as Pulled | undefined) ?? NOTHING_PULLED;
    const told = await ask(`/api/sync/pull?after=${pulled.cursor}&limit=${PAGE}`, pageShape);
    progress(told);
    const page = told.answer;
    if (page.next < pulled.cursor) {
      // The server's log is shorter than what this phone has seen: it was restored from a backup. Begin again, and offer
      // everything this phone ever wrote; the server knows what it has.
      await beginAgain(db, pulled);
      continue;
    }
    const news = await take(db, pulled, page);
    if (news) tellChanged();
    if (!page.more) return;
  }
}

async function take(db: Database, pulled: Pulled, page: Page): Promise<boolean> {
  const tx = db.transaction(["entries", "facts"], "readwrite", { durability: "strict" });
  const entries = tx.objectStore("entries");
  let stamp = pulled.stamp;
  for (const row of page.rows) {
    const here = await entries.get(row.id);
    // An own entry that comes back keeps its place in the queue until a receipt covers it.
    await entries.put(here === undefined ? row : { ...here, seq: row.seq, received_at: row.received_at });
    if (row.stamp > stamp) stamp = row.stamp;
  }
  await tx.objectStore("facts").put({ cursor: page.next, stamp }, "pulled");
  await tx.done;
  return page.rows.length > 0;
}

async function beginAgain(db: Database, pulled: Pulled): Promise<void> {
  const tx = db.transaction(["entries", "facts"], "readwrite", { durability: "strict" });
  const device = (await tx.objectStore("facts").get("device")) as string | undefined;
  let cursor = await tx.objectStore("entries").openCursor();
  while (cursor !== null) {
    const row: Row = { ...cursor.value, seq: null, received_at: null };
    if (row.device === device) row.waiting = row.n;
    await cursor.update(row);
    cursor = await cursor.continue();
  }
  await tx.objectStore("facts").put({ cursor: 0, stamp: pulled.stamp }, "pulled");
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
  return { rows, next: json.next, more: json.more };
}
