/**
 * What the entries of a subject came to, kept beside them so that a long history is not folded anew at every opening.
 *
 * Two things are kept and each has its own guard. The *state* is of one revision: every entry that is put raises the subject's
 * revision in the same transaction, so a state of an older one is never shown. The *snapshot* is what the kernel goes on from:
 * it is taken away in the same transaction when an entry arrives that sorts before its end, or one that strikes another out.
 */

import { type Database, database, type FoldRow, type LineRow, type Row, type Writing, writing } from "./database";
import type { Entry, Kept } from "./types";

export function placeOf(row: { stamp: string; id: string }): string {
  return row.stamp + row.id;
}

function everything(subject: string): IDBKeyRange {
  return IDBKeyRange.bound([subject, ""], [subject, "\uffff"]);
}

/** Up to and with the stamp of `key`; a stamp is the first 27 characters of a place. */
function upTo(subject: string, key: string): IDBKeyRange {
  return IDBKeyRange.bound([subject, ""], [subject, key.slice(0, 27)]);
}

function after(subject: string, key: string): IDBKeyRange {
  return IDBKeyRange.bound([subject, key.slice(0, 27)], [subject, "\uffff"], true, false);
}

/** Call in every transaction that puts entries with what was put. */
export async function touch(tx: Writing, rows: Row[]): Promise<void> {
  const bySubject = new Map<string, Row[]>();
  for (const row of rows) {
    const known = bySubject.get(row.subject);
    if (known === undefined) bySubject.set(row.subject, [row]);
    else known.push(row);
  }
  const folds = tx.objectStore("folds");
  const lines = tx.objectStore("lines");
  for (const [subject, put] of bySubject) {
    const line = await lines.get(subject);
    await lines.put(line === undefined ? freshLine(subject) : { ...line, revision: line.revision + 1 });
    const fold = await folds.get(subject);
    if (fold === undefined) continue;
    if (put.some((row) => placeOf(row) <= fold.key || strikes(row))) await folds.delete(subject);
    else await folds.put({ ...fold, state: null });
  }
}

/** Forget every fold: the server's order begins again. */
export async function forgetFolds(tx: Writing): Promise<void> {
  await tx.objectStore("folds").clear();
  const lines = tx.objectStore("lines");
  for (const line of await lines.getAll()) await lines.put({ ...line, revision: line.revision + 1 });
}

function freshLine(subject: string): LineRow {
  return { subject, revision: 1, lineRevision: 0, day: "", line: null };
}

function strikes(row: Row): boolean {
  return row.text.includes('"void"') && (JSON.parse(row.text) as Entry).kind === "void";
}

/** What is needed to know how a subject stands: its state, or a snapshot with what came after it, or all its entries. */
export type Reading = { revision: number } & ({ state: unknown } | { snapshot: string; tail: Kept[] } | { entries: Kept[] });

/** Null when the phone keeps nothing of it. One transaction, so that all is of one moment. */
export async function readFold(subject: string): Promise<Reading | null> {
  const db = await database();
  const tx = db.transaction(["entries", "folds", "lines"]);
  const revision = (await tx.objectStore("lines").get(subject))?.revision ?? 0;
  const fold = await tx.objectStore("folds").get(subject);
  const story = tx.objectStore("entries").index("story");
  if (fold !== undefined && fold.revision === revision && fold.state !== null) return { revision, state: fold.state };
  if (fold !== undefined && fold.snapshot !== "") {
    // Counted once more: a snapshot that does not stand for exactly the entries before its end does not serve.
    if ((await story.count(upTo(subject, fold.key))) === fold.rows) {
      const tail = await story.getAll(after(subject, fold.key));
      return { revision, snapshot: fold.snapshot, tail: inOrder(tail) };
    }
  }
  const rows = await story.getAll(everything(subject));
  return rows.length === 0 ? null : { revision, entries: inOrder(rows) };
}

/** The rows that count, in the order of the fold. */
export function inOrder(rows: Row[]): Kept[] {
  return rows
    .filter((row) => row.dismissed !== true)
    .sort((a, b) => (placeOf(a) < placeOf(b) ? -1 : placeOf(a) > placeOf(b) ? 1 : 0))
    .map(({ waiting: _waiting, hash: _hash, dismissed: _dismissed, ...kept }) => kept);
}

/** The part of a snapshot's JSON that says where it ends and of how many entries it is. */
export interface SnapshotEnd {
  key: string;
  count: number;
}

/** Keep a fold, unless an entry came since it was read. `snapshot` is "" to keep the one there is. */
export async function keepFold(
  subject: string,
  revision: number,
  kept: { state: unknown; snapshot: string; end: SnapshotEnd | null },
): Promise<boolean> {
  const db = await database();
  const tx = writing(db);
  const line = await tx.objectStore("lines").get(subject);
  if ((line?.revision ?? 0) !== revision) {
    await tx.done;
    return false;
  }
  const before = await tx.objectStore("folds").get(subject);
  const row: FoldRow = {
    subject,
    revision,
    state: kept.state,
    snapshot: before?.snapshot ?? "",
    key: before?.key ?? "",
    rows: before?.rows ?? 0,
  };
  if (kept.snapshot !== "" && kept.end !== null) {
    row.snapshot = kept.snapshot;
    row.key = kept.end.key;
    row.rows = await tx.objectStore("entries").index("story").count(upTo(subject, row.key));
    // One that counts otherwise than the rows before its end (two stamps alike, one put aside) would never serve.
    if (row.rows !== kept.end.count) row.snapshot = "";
  }
  await tx.objectStore("folds").put(row);
  await tx.done;
  return true;
}

/** All lines of the subjects that begin with `prefix`. */
export async function linesOf(prefix: string): Promise<LineRow[]> {
  const db = await database();
  return db.getAll("lines", IDBKeyRange.bound(prefix, `${prefix}\uffff`));
}

/** Keep a line of the list, unless an entry came since. */
export async function keepLine(subject: string, revision: number, day: string, line: unknown): Promise<void> {
  const db = await database();
  await keepLines([{ subject, revision, day, line }], db);
}

export async function keepLines(
  made: { subject: string; revision: number; day: string; line: unknown }[],
  db: Database,
): Promise<void> {
  const tx = db.transaction("lines", "readwrite");
  for (const { subject, revision, day, line } of made) {
    const row = (await tx.store.get(subject)) ?? { ...freshLine(subject), revision: 0 };
    if (row.revision === revision) await tx.store.put({ ...row, lineRevision: revision, day, line });
  }
  await tx.done;
}
