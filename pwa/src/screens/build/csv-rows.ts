/** From the rows of a table to parts: each row is whole or it is kept for mending with every reason; none is half taken. */

import { PART_MASS, PRICE } from "../../controls/ranges";
import { type DecimalMark, figureIn } from "../../files/csv-reading";
import { flagIn, knownIn } from "../../files/table-words";
import type { Interface } from "../../kernel/build-types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import type { Meaning } from "./csv-columns";
import { markingUnit } from "./markings-field";
import { slotNamed } from "./slots";
import { w } from "./words";

export interface Row {
  line: number;
  cells: string[];
}

export interface GoodRow {
  line: number;
  slot: string;
  name: string;
  count?: number;
  claimed?: number;
  weighed?: number;
  price?: number;
  markings: Record<string, number>;
  interfaces: (Record<string, unknown> & { kind: string })[];
}

export interface BadRow extends Row {
  problems: string[];
}

export interface Sorted {
  good: GoodRow[];
  bad: BadRow[];
}

interface Setup {
  headings: string[];
  meanings: Meaning[];
  mark: DecimalMark | null;
  kinds: Interface[];
  /** Slots that have a part on the bike now, and whether the table's parts take their place. */
  taken: Map<string, string>;
  replace: boolean;
}

const MOST_TEXT = 200;

export function sortRows(rows: Row[], setup: Setup): Sorted {
  const good: GoodRow[] = [];
  const bad: BadRow[] = [];
  const places = new Map<string, number[]>();
  for (const row of rows) {
    const slot = slotOf(row, setup.meanings);
    if (slot === "") continue;
    const lines = places.get(slot);
    if (lines === undefined) places.set(slot, [row.line]);
    else lines.push(row.line);
  }
  for (const row of rows) {
    const problems: string[] = [];
    const made = readRow(row, setup, problems);
    const same = places.get(made.slot) ?? [];
    if (made.slot !== "" && same.length > 1) {
      problems.push(
        w.csv.slotTwice(
          made.slot,
          same.slice(0, 4).filter((line) => line !== row.line),
        ),
      );
    }
    const on = setup.taken.get(made.slot);
    if (on !== undefined && !setup.replace) problems.push(w.csv.slotTaken(made.slot, on));
    if (problems.length > 0) bad.push({ ...row, problems });
    else good.push(made);
  }
  return { good, bad };
}

function slotOf(row: Row, meanings: Meaning[]): string {
  return slotNamed(row.cells[meanings.indexOf("slot")] ?? "");
}

function readRow(row: Row, setup: Setup, problems: string[]): GoodRow {
  const made: GoodRow = { line: row.line, slot: "", name: "", markings: {}, interfaces: [] };
  if (row.cells.length > setup.headings.length) problems.push(w.csv.tooMany(row.cells.length, setup.headings.length));
  setup.meanings.forEach((meaning, at) => {
    const cell = row.cells[at] ?? "";
    const heading = setup.headings[at] ?? "";
    if (meaning === "" || cell === "") return;
    if (meaning === "name" || meaning === "slot") {
      if (cell.length > MOST_TEXT) problems.push(w.csv.tooLong(heading));
      made[meaning] = meaning === "slot" ? slotNamed(cell) : cell;
      return;
    }
    if (meaning === "marking") {
      const value = number(cell, setup.mark, markingUnit(heading), heading, problems);
      if (value !== null) made.markings[heading] = value;
      return;
    }
    if (meaning.includes(".")) {
      carry(made, meaning, cell, heading, setup, problems);
      return;
    }
    const mass = meaning === "claimed" || meaning === "weighed";
    const value = number(cell, setup.mark, mass ? "g" : "", heading, problems);
    if (value === null) return;
    const most = (mass ? PART_MASS : PRICE)[1];
    if (value < 0) problems.push(w.csv.negative(heading, cell));
    else if (value > most) problems.push(w.csv.tooMuch(heading, cell, most));
    else if (meaning === "count" && (!Number.isInteger(value) || value < 1)) problems.push(w.csv.notWhole(heading, cell));
    else made[meaning as "count" | "claimed" | "weighed" | "price"] = value;
  });
  if (made.slot === "") problems.push(w.csv.noSlot);
  if (made.name === "") problems.push(w.csv.noName);
  return made;
}

function number(cell: string, mark: DecimalMark | null, base: string, heading: string, problems: string[]): number | null {
  const read = figureIn(cell, mark, base);
  if ("value" in read) return read.value;
  problems.push(
    read.problem === "unit"
      ? w.csv.wrongUnit(heading, cell, base)
      : read.problem === "thousand-or-decimal"
        ? w.csv.thousand(heading, cell)
        : w.csv.notANumber(heading, cell),
  );
  return null;
}

function carry(made: GoodRow, meaning: Meaning, cell: string, heading: string, setup: Setup, problems: string[]): void {
  const [kind = "", name = ""] = meaning.split(".");
  const field = setup.kinds.find((one) => one.kind === kind)?.fields.find((one) => one.name === name);
  if (field === undefined) return;
  let value: unknown = cell;
  if (field.unit === "flag") {
    const flag = flagIn(cell, words.yes, words.no);
    if (flag === undefined) {
      problems.push(w.csv.notAFlag(heading, cell));
      return;
    }
    value = flag;
  } else if (field.unit === "text") {
    value = knownIn(cell, field.known, said);
  } else {
    const read = number(cell, setup.mark, field.unit, heading, problems);
    if (read === null) return;
    if (read < 0) {
      problems.push(w.csv.negative(heading, cell));
      return;
    }
    value = read;
  }
  const already = made.interfaces.find((one) => one.kind === kind);
  if (already === undefined) made.interfaces.push({ kind, [name]: value });
  else already[name] = value;
}
