/** Making and holding a workshop's own checks to what a definition needs. */

import type { CheckDefinition, CheckItem } from "../../kernel/types";
import { words } from "../../words";

const OWN = "own-";
const SCHEMA = 1;

/** Own checks have names of their own, so that a later shipped version never changes what an answered one meant. */
export function isOwn(check: CheckDefinition): boolean {
  return check.check.startsWith(OWN);
}

function ownName(): string {
  return OWN + crypto.randomUUID().slice(0, 13);
}

export function copyOf(check: CheckDefinition): CheckDefinition {
  return { ...check, check: ownName(), version: 0, title: words.book.copyOf(check.title) };
}

export function blankCheck(): CheckDefinition {
  return { schema: SCHEMA, check: ownName(), version: 0, title: "", purpose: "", scope: "part", who: "mechanic", items: [] };
}

export function blankItem(area: string): CheckItem {
  return {
    item: `item-${crypto.randomUUID().slice(0, 8)}`,
    area,
    title: "",
    do: "",
    passes: "",
    essential: true,
    caution: "",
    measure: "",
    unit: "",
    low: null,
    high: null,
    low_from: "",
    high_from: "",
    answer: "mark",
    photo: false,
  };
}

/** What an item still lacks; empty when it can be asked. */
export function itemProblem(item: CheckItem): string {
  if (item.title.trim() === "") return words.book.needs.title;
  if (item.area.trim() === "") return words.book.needs.area;
  if (item.do.trim() === "") return words.book.needs.do;
  if (item.passes.trim() === "") return words.book.needs.passes;
  if (item.answer === "value" && item.measure === "") return words.book.needs.measure;
  if (item.low !== null && item.high !== null && item.low > item.high) return words.book.needs.limits;
  if (item.answer === "value" && item.low === null && item.high === null && !item.low_from && !item.high_from)
    return words.book.needs.limit;
  return "";
}

export function checkProblem(check: CheckDefinition): string {
  if (check.title.trim() === "") return words.book.needs.name;
  if (check.items.length === 0) return words.book.needs.items;
  const [wrong] = check.items.filter((item) => itemProblem(item) !== "");
  return wrong === undefined ? "" : `${wrong.title || words.book.unnamedItem}: ${itemProblem(wrong)}`;
}

/** The body of a `check-define`: the next version, nothing but what the format knows. */
export function bodyOf(check: CheckDefinition, version: number): Record<string, unknown> {
  const { schema: _schema, items, ...told } = check;
  return {
    ...told,
    version,
    title: check.title.trim(),
    purpose: check.purpose.trim(),
    items: items.map(({ last: _last, ...item }) => ({ ...item, area: item.area.trim(), title: item.title.trim() })),
  };
}
