/** From the bytes of a table to its rows: encoding, separator, decimal mark. Nothing is guessed silently: what was taken is told. */

import Papa from "papaparse";
import { problems } from "../store/words";

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

export interface Table {
  encoding: Encoding;
  separator: string;
  headings: string[];
  /** Cells by column; `line` is where it stands in the file, the headings being line 1. */
  rows: { line: number; cells: string[] }[];
}

/** A file that is no table at all. */
export class NotATable extends Error {
  override name = "NotATable";
}

/** As its byte order mark says; else UTF-8 if it is that; else the Western single-byte code that spreadsheets write. */
export function encodingOf(bytes: Uint8Array): Encoding {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return "utf-8";
  } catch {
    return "windows-1252";
  }
}

/** Throws NotATable when there are no headings with rows under them. */
export function readTable(bytes: Uint8Array, said?: Encoding): Table {
  const encoding = said ?? encodingOf(bytes);
  const text = new TextDecoder(encoding).decode(bytes);
  if (text.includes("\u0000")) throw new NotATable(problems.table.notText);
  const parsed = Papa.parse<string[]>(text, {
    skipEmptyLines: "greedy",
    delimitersToGuess: [";", ",", "\t", "|"],
  });
  const separator = parsed.meta.delimiter;
  const [headings, ...rest] = parsed.data;
  if (headings === undefined || headings.length < 2) {
    throw new NotATable(problems.table.oneColumn);
  }
  const quotes = parsed.errors.find((error) => error.type === "Quotes");
  if (quotes !== undefined) {
    throw new NotATable(problems.table.openQuote((quotes.row ?? 0) + 1));
  }
  if (rest.length === 0) throw new NotATable(problems.table.nothingUnder);
  return {
    encoding,
    separator,
    headings: headings.map((one) => one.trim()),
    rows: rest.map((cells, i) => ({ line: i + 2, cells: cells.map((cell) => cell.trim()) })),
  };
}

export type DecimalMark = "." | ",";

const COMMA_SURE = /^[+-]?\d*,(\d{1,2}|\d{4,})$|^[+-]?\d{1,3}(\.\d{3})+,\d+$|^[+-]?0,\d+$/;
const POINT_SURE = /^[+-]?\d*\.(\d{1,2}|\d{4,})$|^[+-]?\d{1,3}(,\d{3})+\.\d+$|^[+-]?0\.\d+$/;

/** The decimal mark the figures of a table show beyond doubt; null while none does, or both do. */
export function decimalMarkIn(cells: string[]): DecimalMark | null {
  let comma = false;
  let point = false;
  for (const cell of cells) {
    const bare = unitOff(cell).figures;
    if (COMMA_SURE.test(bare)) comma = true;
    if (POINT_SURE.test(bare)) point = true;
  }
  if (comma === point) return null;
  return comma ? "," : ".";
}

export type Figure = { value: number } | { problem: "not-a-number" | "thousand-or-decimal" | "unit" };

const UNITS: Record<string, [string, number]> = {
  g: ["g", 1],
  gr: ["g", 1],
  kg: ["g", 1000],
  mm: ["mm", 1],
  cm: ["mm", 10],
  nm: ["N·m", 1],
  n·m: ["N·m", 1],
  bar: ["bar", 1],
  teeth: ["", 1],
  t: ["", 1],
};

function unitOff(cell: string): { figures: string; unit: string } {
  const tight = cell.replaceAll(/[\s\u00a0\u202f'’]/g, "").replace("−", "-");
  const found = /^([+-]?[\d.,]+)(\D*)$/.exec(tight);
  return found === null ? { figures: tight, unit: "" } : { figures: found[1] ?? "", unit: (found[2] ?? "").toLowerCase() };
}

/**
 * A number of a table in the base unit `base`. `mark` is the table's decimal mark, null when it is not known: then "1,012", which
 * may be a thousand and twelve or a little over one, is refused rather than guessed.
 */
export function figureIn(cell: string, mark: DecimalMark | null, base: string): Figure {
  const { figures, unit } = unitOff(cell.replace(/^[€$£]\s*/, "").replace(/\s*[€$£]$/, ""));
  let factor = 1;
  if (unit !== "") {
    const known = UNITS[unit];
    if (known === undefined || known[0] !== base) return { problem: "unit" };
    factor = known[1];
  }
  const thousand = mark === "," ? "." : mark === "." ? "," : null;
  if (/^[+-]?\d+$/.test(figures)) return { value: Number(figures) * factor };
  if (mark === null) {
    if (COMMA_SURE.test(figures) || POINT_SURE.test(figures)) {
      const last = Math.max(figures.lastIndexOf(","), figures.lastIndexOf("."));
      const value = Number(`${figures.slice(0, last).replaceAll(/[.,]/g, "")}.${figures.slice(last + 1)}`);
      return { value: value * factor };
    }
    return { problem: /^[+-]?\d{1,3}[.,]\d{3}$/.test(figures) ? "thousand-or-decimal" : "not-a-number" };
  }
  const [whole = "", part, ...more] = figures.split(mark);
  const grouped = new RegExp(`^[+-]?\\d{1,3}(\\${thousand}\\d{3})+$`);
  if (more.length > 0 || !(/^[+-]?\d*$/.test(whole) || grouped.test(whole))) return { problem: "not-a-number" };
  if (part !== undefined && !/^\d+$/.test(part)) return { problem: "not-a-number" };
  const value = Number(`${whole.replaceAll(thousand ?? "", "")}.${part ?? "0"}`);
  return Number.isFinite(value) ? { value: Number((value * factor).toPrecision(12)) } : { problem: "not-a-number" };
}
