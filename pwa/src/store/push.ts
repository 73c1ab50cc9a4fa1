/** Sending the queue: batches in order of n; nothing leaves it that was not answered itself and that no receipt covers. */

import { tellChanged } from "./changes";
import { type Database, database, fact, type RefusedRow, type Row, writing } from "./database";
import { forgetEnrolment, signedHead } from "./signing";
import { touch } from "./snapshots";
import { sha256 } from "./stamp";
import { ask, isFault, isObject, type Told, WireProblem } from "./wire";
import { problems } from "./words";

const MOST_ENTRIES = 200;
const MOST_BYTES = 1024 * 1024;

interface Answered {
  id: string;
  n: number;
  outcome: "stored" | "known" | "refused";
  seq: number | null;
  errors: { field: string; given: string; wanted: string }[];
}

interface Receipt {
  device: string;
  n: number;
  hash: string;
  missing: number[];
}

interface PushAnswer {
  /** `refused` when a signed head came along that the server could not keep. */
  head: unknown;
  answers: Answered[];
  receipt: Receipt;
}

interface OwnIndex {
  count(key: [string, number]): Promise<number>;
}

/** A batch that can be sent no smaller, or that gets no further: somebody has to look. */
export class Stuck extends Error {
  override name = "Stuck";
}

/**
 * Send everything that waits. `progress` hears of each answer. An empty queue is sent too when `hello` is asked for: the
 * receipt then tells whether the server still has all this device ever sent (it may have been restored from a backup). What
 * was refused is then offered once more, for what stood against it may be gone: a bike shared since, a server brought up to date.
 */
export async function push(hello: boolean, progress: (told: Told<unknown>) => void): Promise<void> {
  const db = await database();
  const device = await fact("device");
  if (device === undefined) return;
  let most = MOST_ENTRIES;
  let greet = hello;
  if (hello) await offerRefused(db);
  for (;;) {
    const rows = await nextBatch(db, most);
    if (rows.length === 0 && !greet) return;
    greet = false;
    const head = await headOf(device, rows);
    const body = `{"device":${JSON.stringify(device)},"entries":[${rows.map((row) => row.text).join(",")}]${head}}`;
    let told: Told<PushAnswer>;
    try {
      told = await ask("/api/sync/push", pushShape(device, rows), body);
    } catch (problem) {
      if (problem instanceof WireProblem && problem.meaning === "too-big" && rows.length > 1) {
        most = Math.floor(rows.length / 2);
        continue;
      }
      throw problem;
    }
    progress(told);
    if (told.answer.head === "refused") await forgetEnrolment();
    const moved = await settle(db, device, rows, told.answer);
    tellChanged();
    if (rows.length > 0 && !moved) {
      throw new Stuck(problems.notAcknowledged);
    }
  }
}

/** The signed head of a batch as the end of its body; nothing while the server does not know this phone's key. */
async function headOf(device: string, rows: Row[]): Promise<string> {
  const last = rows.at(-1);
  if (last?.hash === undefined) return "";
  const head = await signedHead(device, last.n, last.hash);
  return head === null ? "" : `,"head":${JSON.stringify(head)}`;
}

async function offerRefused(db: Database): Promise<void> {
  const tx = writing(db, "refused");
  const entries = tx.objectStore("entries");
  for (const { id, dealt } of await tx.objectStore("refused").getAll()) {
    const row = await entries.get(id);
    if (row !== undefined && dealt === undefined) await entries.put({ ...row, waiting: row.n });
  }
  await tx.done;
}

async function nextBatch(db: Database, most: number): Promise<Row[]> {
  const rows: Row[] = [];
  let bytes = 0;
  let cursor = await db.transaction("entries").store.index("waiting").openCursor();
  while (cursor !== null && rows.length < most) {
    // Three bytes a character is the most UTF-8 makes of them.
    bytes += cursor.value.text.length * 3;
    if (rows.length > 0 && bytes > MOST_BYTES) break;
    rows.push(cursor.value);
    cursor = await cursor.continue();
  }
  return rows;
}

/**
 * Note what the server said of a batch, in one transaction. True when the receipt or the answers brought anything on.
 * Throws Stuck when the receipt's hash is not that of this phone's entry: two devices would be writing as one.
 *
 * A phone that was shut out let its sent entries go. When the server then loses them too (restored from a backup), nobody has
 * them any more: the receipt stays below that gap for good, and what comes after is covered by the answer it got itself.
 */
async function settle(db: Database, device: string, sent: Row[], told: PushAnswer): Promise<boolean> {
  const { receipt } = told;
  // One that came back from the server after the phone had let it go has no hash beside it; hashing would end the transaction.
  const there = receipt.n > 0 ? await db.getFromIndex("entries", "own", [device, receipt.n]) : undefined;
  const hash = there === undefined ? undefined : (there.hash ?? (await sha256(there.text)));
  const tx = writing(db, "refused");
  const entries = tx.objectStore("entries");
  const last = receipt.n > 0 ? await entries.index("own").get([device, receipt.n]) : undefined;
  const lowest = await entries.index("own").openCursor(IDBKeyRange.bound([device, 1], [device, Infinity]));
  const letGo = (lowest?.value.n ?? Infinity) > receipt.n;
  const agreed = receipt.n === 0 || (last === undefined ? letGo : (last.hash ?? hash) === receipt.hash);
  const gone = await allGone(entries.index("own"), device, receipt.missing);
  const answered = new Set(sent.map((row) => row.n));
  let moved = false;
  const changed: Row[] = [];
  for (const [i, answer] of told.answers.entries()) {
    const row = sent[i];
    if (row === undefined) continue;
    if (answer.outcome === "refused") {
      const refused: RefusedRow = { id: row.id, n: row.n, text: row.text, errors: answer.errors };
      // One that somebody has dealt with is not brought up again.
      if (row.dismissed !== true) await tx.objectStore("refused").put(refused);
      const now = await entries.get(row.id);
      if (now !== undefined && now.refused !== true) {
        await entries.put({ ...now, refused: true });
        changed.push(now);
      }
    } else if (row.seq !== answer.seq) {
      const now = await entries.get(row.id);
      if (now !== undefined) {
        // One refused and put away before, that is taken now, all others see: then this phone shows it too.
        const { dismissed: _seen, refused: _taken, ...shown } = now;
        await entries.put({ ...shown, seq: answer.seq });
        await tx.objectStore("refused").delete(row.id);
        changed.push(now);
      }
    }
  }
  await touch(tx, changed);
  if (agreed) {
    const missing = new Set(receipt.missing);
    // All own entries from the lowest that waits or that the server lacks; below the receipt only what was not answered.
    const from = Math.min(receipt.n + 1, sent[0]?.n ?? receipt.n + 1, ...receipt.missing);
    let cursor = await entries.index("own").openCursor(IDBKeyRange.bound([device, from], [device, Infinity]));
    while (cursor !== null) {
      const row = cursor.value;
      const answeredFor = gone && (row.seq !== null || answered.has(row.n));
      // One whose own answer was lost may have been refused: it waits until it is told, though a receipt covers it.
      const unheard = row.waiting !== undefined && row.seq === null && !answered.has(row.n);
      const waits = unheard || missing.has(row.n) || (row.n > receipt.n && !answeredFor);
      if (waits && row.waiting === undefined) {
        await cursor.update({ ...row, waiting: row.n });
        moved = true;
      } else if (!waits && row.waiting !== undefined) {
        const { waiting: _covered, ...covered } = row;
        await cursor.update(covered);
        moved = true;
      }
      cursor = await cursor.continue();
    }
  }
  await tx.done;
  if (!agreed) throw new Stuck(problems.otherChain);
  return moved;
}

/** Whether there is a gap and this phone holds nothing of it. */
async function allGone(own: OwnIndex, device: string, missing: number[]): Promise<boolean> {
  for (const n of missing) {
    if ((await own.count([device, n])) > 0) return false;
  }
  return missing.length > 0;
}

/** The answer must speak of exactly what was sent, in the same order, or it is none. */
function pushShape(device: string, sent: Row[]): (json: unknown) => PushAnswer | null {
  return (json) => {
    if (!isObject(json) || !Array.isArray(json.answers) || json.answers.length !== sent.length) return null;
    const receipt = receiptShape(json.receipt, device);
    if (receipt === null) return null;
    const answers: Answered[] = [];
    for (const [i, one] of json.answers.entries()) {
      const row = sent[i];
      if (!isObject(one) || row === undefined || (one.id !== row.id && one.outcome !== "refused")) return null;
      if (one.outcome !== "stored" && one.outcome !== "known" && one.outcome !== "refused") return null;
      if (one.outcome !== "refused" && typeof one.seq !== "number") return null;
      answers.push({
        id: row.id,
        n: row.n,
        outcome: one.outcome,
        seq: typeof one.seq === "number" ? one.seq : null,
        errors: Array.isArray(one.errors) ? one.errors.filter(isFault) : [],
      });
    }
    return { answers, receipt, head: json.head };
  };
}

function receiptShape(value: unknown, device: string): Receipt | null {
  if (!isObject(value) || value.device !== device) return null;
  const { n, hash, missing } = value;
  if (typeof n !== "number" || !Number.isInteger(n) || n < 0 || !Array.isArray(missing)) return null;
  if (n > 0 && typeof hash !== "string") return null;
  return {
    device,
    n,
    hash: typeof hash === "string" ? hash : "",
    missing: missing.filter((m): m is number => typeof m === "number"),
  };
}
