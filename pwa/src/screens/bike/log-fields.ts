/**
 * The fields of an entry as the log shows them. A field has the name that it has on the record, not that of a calculation's input
 * of the same name; what it points at is told by name, and a figure has its unit.
 */

import { said } from "../../languages/spoken";
import type { Entry } from "../../store/types";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { type Names, spaced } from "../names";
import { nameOf, whenOf } from "../when";
import { type Among, telling } from "./telling";
import { w } from "./use-words";

export interface Field {
  name: string;
  label: string;
  value: string;
  figure: boolean;
}

/** How the program works, not what was done. */
const NOT_TOLD = new Set(["unit", "sha256", "media_type", "size", "width", "height", "instead_of", "event"]);

const UNITS: Record<string, string> = {
  weight_goal: "g",
  scale_step: "g",
  claimed: "g",
  mass: "g",
  mass_after: "g",
  applied: "N·m",
  low: "N·m",
  high: "N·m",
  accuracy: "%",
  km: "km",
  hours: "h",
  climb: "m",
  days: "d",
};
/** Figures in the unit that the entry itself names. */
const IN_ITS_UNIT = new Set(["value", "plus_minus", "planned", "result", "by_sum", "by_mark", "from", "to"]);
/** Names of the kernel's own things. */
const NAMED = new Set(["setting", "what", "joint", "slot", "job", "due", "calculation", "check"]);
/** Ids of other entries. */
const ENTRIES = new Set(["entry", "chosen", "fault", "about"]);

export function fieldsOf(entry: Entry, names: Names, among: Among): Field[] {
  return Object.entries(entry.body)
    .filter(
      ([name, value]) => !NOT_TOLD.has(name) && (typeof value !== "object" || (value === null && entry.kind === "describe")),
    )
    .map(([name, value]) => ({
      name,
      label: w.log.fields[name] ?? spaced(name),
      value: worded(entry, name, value, names, among),
      figure: typeof value === "number",
    }));
}

function worded({ kind, body }: Entry, name: string, value: unknown, names: Names, among: Among): string {
  if (value === null) return "–";
  if (typeof value === "boolean") return value ? words.yes : words.no;
  if (typeof value === "number") return figure(body, name, value);
  const text = String(value);
  if (name === "part") return among.part(value) || words.log.part;
  if (name === "rider") return nameOf(text);
  if (ENTRIES.has(name) || (kind === "fault" && name === "check")) {
    const other = among.entry(value);
    return other === undefined ? "–" : telling(other.kind, other.body, names, among);
  }
  if (NAMED.has(name) && kind !== "fault") return names.of(text).label;
  if (name === "question") return names.of(text.slice(text.indexOf(".") + 1)).label;
  if (name === "level") return text === "stop" ? words.levels.stop : words.levels.care;
  if (name === "scope") return text === "whole" ? words.book.whole : words.book.part;
  if (name === "started_at" || name === "finished_at") return whenOf(text);
  if (name === "item") return spaced(text);
  return name === "condition" || name === "area" || name === "title" ? said(text) : text;
}

function figure(body: Entry["body"], name: string, value: number): string {
  const unit = IN_ITS_UNIT.has(name) ? String(body.unit ?? "") : UNITS[name];
  return unit === undefined ? formatNumber(value, 4) : show(value, unit);
}
