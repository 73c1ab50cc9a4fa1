/**
 * The test door: a page of its own, built only by `vite build --mode test`, that lets browser tests drive the kernel and the
 * store without a screen. It is not part of the program that is shipped.
 */

import { kernel } from "../src/kernel/client";
import { database } from "../src/store/database";
import { keep } from "../src/store/drafts";
import { deviceId, pair } from "../src/store/pairing";
import * as photos from "../src/store/photos";
import { changed, identity, opened, people, record } from "../src/store/record";
import { nextStamp } from "../src/store/stamp";
import { queueFile, startSync, syncNow, syncState } from "../src/store/sync";
import * as units from "../src/units";

const door = {
  kernel,
  database,
  keep,
  deviceId,
  pair,
  changed,
  identity,
  opened,
  people,
  record,
  photos,
  nextStamp,
  queueFile,
  startSync,
  syncNow,
  syncState,
  units,
};

export type Door = typeof door;

(globalThis as typeof globalThis & { door: Door }).door = door;
document.body.append("door open");
