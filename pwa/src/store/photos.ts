/**
 * Photos on the phone: drawn anew so that place, time and camera are left behind, kept by the hash of their bytes, and sent apart
 * from the entries, each by itself. Nothing here ever holds an entry up.
 */

import { signal } from "@preact/signals-core";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { waitBefore } from "./backoff";
import { onChanged, tellChanged } from "./changes";
import { withLock } from "./locks";
import { identity } from "./record";
import { ask, isObject, WireProblem } from "./wire";

const LONGER_SIDE = 1600;
const QUALITY = 0.82;
/** Sent photos are kept for looking at as long as they are not too many; what waits is never let go. */
const MOST_KEPT = 200;

export interface Photo {
  sha256: string;
  media_type: string;
  size: number;
  width: number;
  height: number;
}

interface Row extends Photo {
  bytes: ArrayBuffer;
  taken: number;
  /** 1 while the server has not said that it has it; absent otherwise, so the index holds only what waits. */
  waiting?: 1;
  /** Why the server will not have it. */
  refused?: string;
}

interface Schema extends DBSchema {
  photos: { key: string; value: Row; indexes: { waiting: number; taken: number } };
}

let opening: Promise<IDBPDatabase<Schema>> | null = null;

function photos(): Promise<IDBPDatabase<Schema>> {
  opening ??= openDB<Schema>("pinchbolt-photos", 1, {
    upgrade(db) {
      const store = db.createObjectStore("photos", { keyPath: "sha256" });
      store.createIndex("waiting", "waiting");
      store.createIndex("taken", "taken");
    },
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      opening = null;
    },
    terminated() {
      opening = null;
    },
  }).catch((error: unknown) => {
    opening = null;
    throw error;
  });
  return opening;
}

export const photoState = signal<{ waiting: number; refused: { sha256: string; why: string }[] }>({ waiting: 0, refused: [] });

/** The file is no picture that this browser can show. */
export class NoPicture extends Error {
  override name = "NoPicture";
}

/** Take a picture in: shrink it, keep it, and let it wait until an entry that names it has gone. Throws NoPicture. */
export async function takePhoto(file: Blob): Promise<Photo> {
  const { blob, width, height } = await shrunk(file);
  const bytes = await blob.arrayBuffer();
  const sha256 = await hash(bytes);
  const photo: Photo = { sha256, media_type: blob.type, size: bytes.byteLength, width, height };
  const db = await photos();
  const known = await db.get("photos", sha256);
  if (known === undefined) await db.put("photos", { ...photo, bytes, taken: Date.now(), waiting: 1 });
  await count();
  return photo;
}

async function shrunk(file: Blob): Promise<{ blob: Blob; width: number; height: number }> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    throw new NoPicture(`${file.type || "a file"} that is no picture`);
  }
  const scale = Math.min(1, LONGER_SIDE / Math.max(picture.width, picture.height));
  const width = Math.max(1, Math.round(picture.width * scale));
  const height = Math.max(1, Math.round(picture.height * scale));
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  canvas.getContext("2d")?.drawImage(picture, 0, 0, width, height);
  picture.close();
  // Only what is drawn goes into the new file: the old one's notes on place, time and camera stay behind.
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
  if (blob === null) throw new NoPicture("a picture this phone cannot write");
  return { blob, width, height };
}

async function hash(bytes: ArrayBuffer): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** A photo's bytes as this phone keeps them; null when it does not. */
export async function keptPhoto(sha256: string): Promise<Blob | null> {
  const row = await (await photos()).get("photos", sha256);
  return row === undefined ? null : new Blob([row.bytes], { type: row.media_type });
}

/** Take a photo out that no entry names yet. */
export async function dropPhoto(sha256: string): Promise<void> {
  await (await photos()).delete("photos", sha256);
  await count();
}

async function count(): Promise<void> {
  const waiting = await (await photos()).getAllFromIndex("photos", "waiting");
  const refused = waiting.flatMap(({ sha256, refused: why }) => (why === undefined ? [] : [{ sha256, why }]));
  photoState.value = { waiting: waiting.length - refused.length, refused };
}

let failures = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Send what waits, one by one. Never throws: what could not go is tried again, alone. */
export function sendPhotos(): Promise<void> {
  return withLock("pinchbolt-photos", async () => {
    clearTimeout(timer);
    await count();
    if (identity.value === null || photoState.value.waiting === 0) return;
    const db = await photos();
    let wait: number | null = null;
    let failed = false;
    for (const sha256 of await db.getAllKeysFromIndex("photos", "waiting")) {
      const row = await db.get("photos", sha256);
      if (row === undefined || row.refused !== undefined) continue;
      try {
        await ask(`/api/photos/${sha256}`, storedShape, new Blob([row.bytes], { type: row.media_type }), "PUT");
        const { waiting: _gone, ...sent } = row;
        await db.put("photos", sent);
      } catch (problem) {
        if (!(problem instanceof WireProblem)) throw problem;
        // 422 and "too big" will be the same next time; anything else, also "no entry names it yet", may not.
        if (problem.errors.length > 0 || problem.meaning === "too-big") {
          const [first] = problem.errors;
          await db.put("photos", {
            ...row,
            refused: first === undefined ? problem.said : `${first.given}, wanted ${first.wanted}`,
          });
          continue;
        }
        failed = true;
        wait = problem.wait;
        if (problem.meaning !== "declined") break;
      }
    }
    failures = failed ? failures + 1 : 0;
    await letGo(db);
    await count();
    if (failed) timer = setTimeout(() => void sendPhotos(), waitBefore(failures, wait));
  }).catch(() => undefined);
}

async function letGo(db: IDBPDatabase<Schema>): Promise<void> {
  let over = (await db.count("photos")) - MOST_KEPT;
  if (over <= 0) return;
  let cursor = await db.transaction("photos", "readwrite").store.index("taken").openCursor();
  while (cursor !== null && over > 0) {
    if (cursor.value.waiting === undefined) {
      await cursor.delete();
      over -= 1;
    }
    cursor = await cursor.continue();
  }
}

function storedShape(json: unknown): true | null {
  return isObject(json) && (json.outcome === "stored" || json.outcome === "known") ? true : null;
}

/** A refused photo is given up: its entry stays and says that there was one. */
export async function giveUpPhoto(sha256: string): Promise<void> {
  await dropPhoto(sha256);
  tellChanged();
}

/** Send photos for as long as the page lives, after their entries. Call once. */
export function startPhotos(): void {
  void sendPhotos();
  onChanged(() => void sendPhotos());
  addEventListener("online", () => void sendPhotos());
}
