/**
 * What the entries of a subject came to, kept beside them so that a long history is not folded anew at every opening.
 *
 * Two things are kept and each has its own guard. The *state* is of one revision: every entry that is put raises the subject's
 * revision in the same transaction, so a state of an older one is never shown. The *snapshot* is what the kernel goes on from:
 * it is taken away in the same transaction when an entry arrives that sorts before its end, or one that strikes another out.
 */

import { database, type FoldRow, type LineRow, type Row, type Writing, writing } from "./database";
import type { Entry, Kept } from "./types";

const HANDFUL = 20;

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
  for (const some of inHandfuls([...bySubject])) {
    const touched = some.map(async ([subject, put]) => {
      const [line, fold] = await Promise.all([lines.get(subject), folds.get(subject)]);
      await lines.put(line === undefined ? freshLine(subject) : { ...line, revision: line.revision + 1 });
      if (fold === undefined) return;
      if (put.some((row) => placeOf(row) <= fold.key || strikes(row))) await folds.delete(subject);
      else await folds.put({ ...fold, state: null });
    });
    await Promise.all(touched);
  }
}

/**
 * What is asked of the database together: one after the other, the way there and back is most of the time; all at once, the
 * answers come in a flood in which the page hears no touch.
 */
export function* inHandfuls<One>(all: One[]): Generator<One[]> {
  for (let at = 0; at < all.length; at += HANDFUL) yield all.slice(at, at + HANDFUL);
}

/** Forget every fold: the server's order begins again. */
export async function forgetFolds(tx: Writing): Promise<void> {
  await tx.objectStore("folds").clear();
  const lines = tx.objectStore("lines");
  for (const line of await lines.getAll()) await lines.put({ ...line, revision: line.revision + 1 });
}

function freshLine(subject: string): LineRow {
  return { subject, revision: 1, lineRevision: 0, made: "", line: null };
}

function strikes(row: Row): boolean {
  return row.text.includes('"void"') && (JSON.parse(row.text) as Entry).kind === "void";
}

/** What is needed to know how a subject stands: its state, or a snapshot with what came after it, or all its entries. */
export type Reading = KeptState | Resumed | Whole;

export interface KeptState {
  revision: number;
  state: unknown;
}

export interface Resumed {
  revision: number;
  snapshot: string;
  tail: Kept[];
}

export interface Whole {
  revision: number;
  entries: Kept[];
}

/**
 * Null when the phone keeps nothing of it. One transaction, so that all is of one moment. `by` is the kernel that asks: what
 * another one made is not used. `whole` asks for all entries whatever is kept.
 */
export async function readFold(subject: string, by: string, whole = false): Promise<Reading | null> {
  const db = await database();
  const tx = db.transaction(["entries", "folds", "lines"]);
  const revision = (await tx.objectStore("lines").get(subject))?.revision ?? 0;
  const fold = await tx.objectStore("folds").get(subject);
  const story = tx.objectStore("entries").index("story");
  if (!whole && fold !== undefined && fold.by === by) {
    if (fold.revision === revision && fold.state !== null) return { revision, state: fold.state };
    // Counted once more: a snapshot that does not stand for exactly the entries before its end does not serve.
    if (fold.snapshot !== "" && (await story.count(upTo(subject, fold.key))) === fold.rows) {
      return { revision, snapshot: fold.snapshot, tail: inOrder(await story.getAll(after(subject, fold.key))) };
    }
  }
  const rows = await story.getAll(everything(subject));
  return rows.length === 0 ? null : { revision, entries: inOrder(rows) };
}

export async function revisionOf(subject: string): Promise<number> {
  const db = await database();
  return (await db.get("lines", subject))?.revision ?? 0;
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

/** Keep a state, unless an entry came since it was read. */
export async function keepState(subject: string, by: string, revision: number, state: unknown): Promise<boolean> {
  return keepFold(subject, by, revision, (row) => ({ ...row, state }));
}

/** Keep a snapshot, unless an entry came since its entries were read. */
export async function keepSnapshot(
  subject: string,
  by: string,
  revision: number,
  snapshot: string,
  end: SnapshotEnd,
): Promise<boolean> {
  return keepFold(subject, by, revision, async (row, tx) => {
    const rows = await tx.objectStore("entries").index("story").count(upTo(subject, end.key));
    // One that counts otherwise than the rows before its end (one put aside, two stamps alike) would never serve.
    return rows === end.count ? { ...row, snapshot, key: end.key, rows } : row;
  });
}

async function keepFold(
  subject: string,
  by: string,
  revision: number,
  change: (row: FoldRow, tx: Writing) => FoldRow | Promise<FoldRow>,
): Promise<boolean> {
  const db = await database();
  const tx = writing(db);
  const line = await tx.objectStore("lines").get(subject);
  const still = (line?.revision ?? 0) === revision;
  if (still) {
    const before = await tx.objectStore("folds").get(subject);
    const row: FoldRow =
      before?.by === by
        ? { ...before, revision, state: before.revision === revision ? before.state : null }
        : { subject, by, revision, snapshot: "", key: "", rows: 0, state: null };
    await tx.objectStore("folds").put(await change(row, tx));
  }
  await tx.done;
  return still;
}

/** All lines of the subjects that begin with `prefix`. */
export async function linesOf(prefix: string): Promise<LineRow[]> {
  const db = await database();
  return db.getAll("lines", IDBKeyRange.bound(prefix, `${prefix}\uffff`));
}

/** Keep a line of a list as made under the circumstances `made`, unless an entry came since. */
export async function keepLine(subject: string, revision: number, made: string, line: unknown): Promise<void> {
  const db = await database();
  const tx = db.transaction("lines", "readwrite");
  const row = await tx.store.get(subject);
  if (row?.revision === revision) await tx.store.put({ ...row, lineRevision: revision, made, line });
  await tx.done;
}
