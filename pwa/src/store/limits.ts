/** How long texts and lists may be, how low numbers go and which are whole: the server's own table (`python -m pinchbolt.entries.limits`). */

import table from "../limits.json";

interface Limit {
  least?: number;
  most?: number;
  lowest?: number;
  whole?: boolean;
}

export interface Fault {
  field: string;
  given: string;
  wanted: string;
}

const KINDS: Record<string, Record<string, Limit>> = table.kinds;

export const MOST_BYTES = table.entry;
/** Characters of a single line, and of running text. */
export const MOST_NAME = table.name;
export const MOST_WORDS = table.words;

/** Characters as the server counts them: code points. */
export function lengthOf(text: string): number {
  return [...text.normalize("NFC")].length;
}

/** The first thing in the body that the server would refuse for its size; null when there is none. */
export function beyond(kind: string, body: Record<string, unknown>): Fault | null {
  const limits = KINDS[kind];
  return limits === undefined ? null : look(limits, body, "", "");
}

function look(limits: Record<string, Limit>, value: unknown, path: string, shown: string): Fault | null {
  const limit = limits[path];
  if (limit !== undefined) {
    const found = held(limit, value, shown);
    if (found !== null) return found;
  }
  if (Array.isArray(value)) {
    for (const [i, one] of value.entries()) {
      const found = look(limits, one, `${path}[]`, `${shown}[${i}]`);
      if (found !== null) return found;
    }
  } else if (typeof value === "object" && value !== null) {
    for (const [name, one] of Object.entries(value)) {
      const found = look(limits, one, path === "" ? name : `${path}.${name}`, shown === "" ? name : `${shown}.${name}`);
      if (found !== null) return found;
    }
  }
  return null;
}

function held(limit: Limit, value: unknown, field: string): Fault | null {
  if (typeof value === "number") {
    if (limit.whole && !Number.isInteger(value)) return { field, given: String(value), wanted: "a whole number" };
    if (limit.lowest === undefined || value >= limit.lowest) return null;
    return { field, given: String(value), wanted: `a number of at least ${limit.lowest}` };
  }
  const text = typeof value === "string";
  if (!text && !Array.isArray(value)) return null;
  const many = text ? lengthOf(value) : value.length;
  const of = text ? "characters" : "lines";
  if (limit.most !== undefined && many > limit.most)
    return { field, given: `${many} ${of}`, wanted: `at most ${limit.most} ${of}` };
  if (limit.least !== undefined && many < limit.least)
    return { field, given: many === 0 ? "nothing" : `${many} ${of}`, wanted: `at least ${limit.least} ${of}` };
  return null;
}
