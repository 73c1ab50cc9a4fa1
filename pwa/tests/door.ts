/**
 * The test door: a page of its own, built only by `vite build --mode test`, that lets browser tests drive the kernel and the
 * store without a screen. It is not part of the program that is shipped.
 */

import { calendar, type Day } from "../src/files/calendar";
import { NotATable, readTable } from "../src/files/csv-reading";
import { GpxError, readGpx } from "../src/files/gpx";
import * as folding from "../src/folding";
import { kernel } from "../src/kernel/client";
import * as plateCode from "../src/screens/lineup/plate-code";
import { startListOf } from "../src/screens/lineup/start-list-file";
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
  plateCode,
  /** A start list from a file's bytes, as the screen reads it; the sentence when it is no table. */
  startList: (bytes: number[], taken: string[]) => {
    try {
      return startListOf(readTable(new Uint8Array(bytes)), new Set(taken));
    } catch (error) {
      if (error instanceof NotATable) return error.message;
      throw error;
    }
  },
  folding,
  calendar: (days: Day[], made: string) => calendar(days, new Date(made)),
  /** The sums of a track, or the sentence when it is none. */
  gpx: (xml: string) => {
    try {
      return readGpx(xml);
    } catch (error) {
      if (error instanceof GpxError) return error.message;
      throw error;
    }
  },
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
