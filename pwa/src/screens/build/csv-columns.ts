/** Which column of a table is what. Asked once for a set of headings and kept for the next table with the same ones. */

import { partColumn } from "../../files/table-words";
import type { Interface } from "../../kernel/build-types";
import { keep } from "../../store/drafts";

/**
 * `""` is left out; `name`, `slot`, `count`, `claimed`, `weighed`, `price`; `marking` takes the heading as the marking's name;
 * `KIND.FIELD` is a dimension of an interface.
 */
export type Meaning = string;

export const BASIC = ["slot", "name", "claimed", "weighed", "price", "count"] as const;

const kept = keep.kept<Record<string, Meaning[]>>("csv-columns", {});

function signature(headings: string[]): string {
  return headings.map((one) => one.toLowerCase()).join("\u001f");
}

export function keptColumns(headings: string[]): Meaning[] | null {
  return kept.value[signature(headings)] ?? null;
}

export function keepColumns(headings: string[], meanings: Meaning[]): void {
  kept.value = { ...kept.value, [signature(headings)]: meanings };
}

/** What each heading most likely is; nothing is given twice. `stem-bore.diameter` as a heading says itself. */
export function guessColumns(headings: string[], kinds: Interface[]): Meaning[] {
  const taken = new Set<Meaning>();
  return headings.map((heading) => {
    const [kind = "", field = ""] = heading.toLowerCase().split(".");
    const known = kinds.find((one) => one.kind === kind)?.fields.some((one) => one.name === field);
    const guess = known ? `${kind}.${field}` : (partColumn(heading) ?? "");
    const marking = guess === "" && / (limit|min)$|_(limit|min|max)|^(max|min)_/i.test(heading) ? "marking" : guess;
    if (marking === "" || marking === "marking") return marking;
    if (taken.has(marking)) return "";
    taken.add(marking);
    return marking;
  });
}
