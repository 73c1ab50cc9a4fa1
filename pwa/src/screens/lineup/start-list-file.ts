/** From a table somebody else made to starters: which columns are what, and what is wrong, line by line. */

import type { Table } from "../../files/csv-reading";
import { startColumn } from "../../files/table-words";
import { words } from "../../words";

export interface Starting {
  line: number;
  plate: string;
  name: string;
  bike: string;
}

export interface Wrong {
  line: number;
  what: string;
}

export interface StartList {
  starters: Starting[];
  wrong: Wrong[];
}

const MOST = 3000;
export const MOST_PLATE = 20;

/** Plates that are on the list twice, or already taken, are wrong: nobody is put under a plate by guess. */
export function startListOf(table: Table, taken: Set<string>): StartList {
  const heads = table.headings.map(startColumn);
  const plateAt = heads.indexOf("plate");
  const nameAt = heads.flatMap((head, i) => (head === "name" ? [i] : []));
  const bikeAt = heads.indexOf("bike");
  if (plateAt === -1) {
    return { starters: [], wrong: [{ line: 1, what: words.lineup.file.noPlates(table.headings.join(", ")) }] };
  }
  const starters: Starting[] = [];
  const wrong: Wrong[] = [];
  const seen = new Map<string, number>();
  if (table.rows.length > MOST) wrong.push({ line: MOST + 1, what: words.lineup.file.tooMany(MOST) });
  for (const { line, cells } of table.rows.slice(0, MOST)) {
    const plate = plateIn(cells[plateAt] ?? "");
    const name = nameAt
      .map((i) => cells[i] ?? "")
      .filter(Boolean)
      .join(" ")
      .trim();
    const before = seen.get(plate);
    if (plate === "") wrong.push({ line, what: words.lineup.file.noPlate(name) });
    else if (plate.length > MOST_PLATE) wrong.push({ line, what: words.lineup.file.longPlate(plate.slice(0, MOST_PLATE)) });
    else if (before !== undefined) wrong.push({ line, what: words.lineup.file.twice(plate, before) });
    else if (taken.has(plate)) wrong.push({ line, what: words.lineup.file.taken(plate) });
    else if (cells.length > heads.length) wrong.push({ line, what: words.lineup.file.moreCells(cells.length, heads.length) });
    else starters.push({ line, plate, name: name.slice(0, 200), bike: bikeAt === -1 ? "" : (cells[bikeAt] ?? "").trim() });
    if (plate !== "" && before === undefined) seen.set(plate, line);
  }
  return { starters, wrong };
}

/** A plate as it is written everywhere: no blanks, no leading zeros before a number ("007" and "7" are one plate). */
export function plateIn(text: string): string {
  const bare = text.normalize("NFC").replaceAll(/\s+/g, "").replace(/^#/, "").toUpperCase();
  return /^0+\d+$/.test(bare) ? bare.replace(/^0+(?=\d)/, "") : bare;
}
